"""Jobs, shops and part lists (contract, sections 2, 3 and 8) in base units: mm, m2, minutes since the epoch."""
import copy
import csv
import io
import json
from dataclasses import dataclass, field
from fractions import Fraction as F
from pathlib import Path

import busy_reader
import finish_reader
import hours
import log_reader
import measure

REGIONS = ["face", "back", "edges", "ends", "inside", "outside"]
DEFAULT_AIR = [{"from": "08:00", "temperature": "18 C", "humidity": "55 %"},
               {"from": "18:00", "temperature": "13 C", "humidity": "62 %"}]
SET_UP = {"cloth": 5, "pad": 5, "squeegee": 5, "rubber": 5, "dip": 5, "pour": 5, "brush": 10, "foam-brush": 10,
          "roller": 10, "hvlp": 25, "conventional": 25, "airless": 25}
CLEAN_UP = {"cloth": 5, "pad": 5, "squeegee": 5, "rubber": 5, "dip": 5, "pour": 5, "brush": 10, "foam-brush": 10,
            "roller": 10, "hvlp": 20, "conventional": 20, "airless": 20}
RATES = {"cloth": 10, "brush": 7, "foam-brush": 7, "pad": 12, "squeegee": 12, "rubber": 10, "roller": 15,
         "hvlp": 20, "conventional": 20, "airless": 20, "dip": 20, "pour": 10, "wipe": 8, "polish": 6, "sand": 8,
         "scuff": 15, "rub": 15, "raise": 30}
LOSSES = {"cloth": 5, "brush": 10, "foam-brush": 10, "pad": 15, "squeegee": 15, "rubber": 5, "roller": 60, "hvlp": 30,
          "conventional": 30, "airless": 30, "dip": 0, "pour": 10}  # millilitres


@dataclass
class Person:
    name: str
    does: object  # names of tools and works; None: everything
    hours: object  # hours.Hours


@dataclass
class Shop:
    people: int = 1
    persons: list = field(default_factory=list)
    hours: dict = field(default_factory=lambda: dict(hours.DEFAULT_HOURS))
    closed: set = field(default_factory=set)
    busy: list = field(default_factory=list)
    air: list = field(default_factory=lambda: list(DEFAULT_AIR))
    rack: object = None  # m2, None: no limit
    spray_places: int = 1
    dust_shared: bool = True
    settle: F = F(30)
    scale: F = F(1)
    rates: dict = field(default_factory=dict)
    losses: dict = field(default_factory=dict)
    spans: dict = field(default_factory=dict)  # "set-up", "clean-up", "handling", "rest": one span, or by tool

    def rate(self, work):
        """m2 an hour of a tool or a kind of work."""
        return self.rates.get(work, F(RATES[work]))

    def loss(self, tool):
        """Litres that stay in the tool."""
        return self.losses.get(tool, F(LOSSES[tool], 1000))

    def span(self, kind, work, usual):
        """Minutes of `set-up`, `clean-up` or `touch` for a tool or kind of work, else the usual."""
        given = self.spans.get(kind)
        return given.get(work, usual) if isinstance(given, dict) else usual if given is None else given


@dataclass
class Part:
    name: str
    piece: str
    qty: int
    shape: str
    wood: str
    core: str
    cells: dict  # the dimensions as written
    schedule: dict  # region -> schedule name or None
    covered: str
    work: F
    units: str
    folder: Path


@dataclass
class Piece:
    name: str
    flat: bool = False
    laid: str = "standing"
    after: list = field(default_factory=list)
    ready: object = None
    rack: object = None
    lots: object = None
    lift: object = None  # people who turn a part over; None: by its mass
    flip: object = None  # "now", "handle", or None as the finish says
    a_day: object = None
    dry_by: object = None  # clock time
    patch: object = None


@dataclass
class Task:
    name: str
    takes: F
    after: list
    before: list


@dataclass
class Job:
    name: str
    zone: str
    start: int
    deliver: int
    deliver_at: str
    to_spare: int  # minutes of the clock before the delivery
    reserve: F
    shop: Shop
    hours: hours.Hours
    schedules: dict
    pieces: dict
    tasks: dict
    parts: list
    finishes: dict
    stock: list
    log: list = field(default_factory=list)  # entries that hold
    now: object = None  # where there is a log: nothing is planned before
    facts: object = None  # what case.Facts has worked out


def load(path):
    return json.loads(Path(path).read_text(encoding="utf-8-sig"))


def read_by_tool(value):
    """One span for all tools, or spans by tool."""
    return {k: measure.span(v) for k, v in value.items()} if isinstance(value, dict) else measure.span(value)


def read_rate(text):
    """m2 an hour of `7 m2/h`."""
    amount, per = text.rsplit("/", 1)
    return measure.summed(amount, measure.AREA) * 60 / measure.SPAN[per.strip()]


def read_air(entries):
    """Air as (date or None, clock time, temperature, humidity)."""
    return [(e.get("on"), e.get("from", "00:00"), measure.temperature(e["temperature"]), measure.share(e["humidity"]))
            for e in entries]


def read_shop(data, folder, zone):
    """A shop; what is not given keeps its stated default."""
    shop = Shop(air=read_air(data.get("air", DEFAULT_AIR)))
    shop.people = len(data["people"]) if isinstance(data.get("people"), list) else int(data.get("people", 1))
    if "hours" in data:
        shop.hours = {day: [hours.span_of_day(s) for s in spans] for day, spans in data["hours"].items()}
    shop.closed = hours.closed_days(data.get("closed", []))
    shop.busy = [span for name in data.get("busy", []) for span in busy_reader.read(folder / name, zone)]
    shop.rack = measure.area(data["rack"]) if "rack" in data else None
    shop.spray_places = int(data.get("spray-places", 1))
    shop.dust_shared = data.get("dust-room", "shared") == "shared"
    shop.settle = measure.span(data.get("settle", "30 min"))
    shop.scale = measure.mass(data.get("scale", "1 g"))
    shop.rates = {k: read_rate(v) for k, v in data.get("rates", {}).items()}
    shop.losses = {k: measure.volume(v) for k, v in data.get("losses", {}).items()}
    shop.spans = {k: read_by_tool(data[k]) for k in ("set-up", "clean-up", "handling", "rest") if k in data}
    return shop


def csv_rows(text):
    """Rows of a CSV part list as dictionaries; blank rows and rows that start with # are skipped."""
    text = text.lstrip("﻿")
    first = next(line for line in text.splitlines() if line.strip() and not line.startswith("#"))
    separator = ";" if first.count(";") > first.count(",") else ","
    rows = [row for row in csv.reader(io.StringIO(text, newline=""), delimiter=separator)
            if any(cell.strip() for cell in row) and not row[0].startswith("#")]
    names = [cell.strip() for cell in rows[0]]
    return [dict(zip(names, (cell.strip() for cell in row))) for row in rows[1:]]


def read_schedule_name(row, region):
    """The region's own entry, else `all`; None where it stays bare."""
    name = str(row.get(region) or row.get("all") or "-")
    return None if name == "-" else name


def read_part(row, units, folder):
    """One row of the part list."""
    name = str(row["part"])
    return Part(name=name, piece=str(row.get("piece") or name), qty=int(row.get("qty") or 1),
                shape=str(row.get("shape") or "board"), wood=str(row.get("wood") or ""), core=str(row.get("core") or ""),
                cells={k: v for k, v in row.items() if v not in ("", None)},
                schedule={region: read_schedule_name(row, region) for region in REGIONS},
                covered=str(row.get("covered") or ""), work=measure.number(row.get("work") or 1), units=units, folder=folder)


def read_parts(data, folder):
    units = data.get("units", "mm")
    if isinstance(data["parts"], str):
        path = folder / data["parts"]
        return [read_part(row, units, path.parent) for row in csv_rows(path.read_text(encoding="utf-8-sig"))]
    return [read_part(row, units, folder) for row in data["parts"]]


def read_pieces(data, parts, shop_hours):
    """Pieces in the order of the part list, with their entries in the job."""
    pieces = {part.piece: Piece(part.piece) for part in parts}
    for entry in data.get("pieces", []):
        piece = pieces.setdefault(entry["piece"], Piece(entry["piece"]))
        piece.laid = entry.get("laid", "standing")
        piece.flat = piece.laid == "flat"
        piece.after = list(entry.get("after", []))
        piece.ready = shop_hours.moment(entry["ready"]) if "ready" in entry else None
        piece.rack = measure.area(entry["rack"]) if "rack" in entry else None
        piece.lots, piece.lift, piece.flip = entry.get("lots"), entry.get("lift"), entry.get("flip")
        piece.a_day, piece.dry_by = entry.get("coats-a-day"), entry.get("dry-by")
        piece.patch = entry.get("patch")
    return pieces


def read_persons(data, shop, folder, zone, origin):
    """The people of a shop: each with the shop's hours, or with his own; days off and busy times come on top."""
    given = data.get("people", 1)
    if not isinstance(given, list):
        every = hours.Hours(shop, zone, origin)
        return [Person(f"person {i + 1}", None, every) for i in range(int(given))]
    found = []
    for entry in given:
        own = copy.copy(shop)
        if "hours" in entry:
            own.hours = {day: [hours.span_of_day(s) for s in spans] for day, spans in entry["hours"].items()}
        own.closed = shop.closed | hours.closed_days(entry.get("closed", []))
        own.busy = shop.busy + [span for name in entry.get("busy", []) for span in busy_reader.read(folder / name, zone)]
        found.append(Person(entry["person"], entry.get("does"), hours.Hours(own, zone, origin)))
    return found


def spared(text, deliver, shop_hours):
    """Minutes of the clock before a delivery: whole days are days on which the shop opens, the rest is clock time."""
    total = int(measure.span(text))
    days, rest = divmod(total, 1440)
    day, clock = hours.wall(deliver, shop_hours.zone).date(), hours.wall(deliver, shop_hours.zone).strftime("%H:%M")
    while days:
        day -= hours.dt.timedelta(days=1)
        days -= 1 if shop_hours.day_stretches(day) else 0
    return deliver - hours.at_wall(day, clock, shop_hours.zone) + rest


def read_tasks(data):
    return {t["task"]: Task(t["task"], measure.span(t["takes"]), list(t.get("after", [])), list(t.get("before", [])))
            for t in data.get("tasks", [])}


def read_stock(data, folder):
    """Rows of the stock list as written."""
    if not isinstance(data.get("stock"), str):
        return data.get("stock", [])
    return csv_rows((folder / data["stock"]).read_text(encoding="utf-8-sig"))


def read_finishes(data, folder, table):
    """The shipped table, behind the job's own folder."""
    finishes = dict(finish_reader.read_table(table))
    if "finishes" in data:
        finishes.update(finish_reader.read_folder(folder / data["finishes"]))
    return finishes


def read_log(data, path, zone, now):
    """(entries that hold, now) of a job with a log; nothing without a moment that is now."""
    log = path.parent / data["log"] if "log" in data else path.with_suffix(".log")
    entries = log_reader.read(log, zone) if now is not None else []
    return entries, hours.from_text(now, zone) if now is not None and log.exists() and log.stat().st_size else None


def read_job(path, table, now=None):
    """The job of a file, with everything that it names; `table` is the folder of the shipped finishes. The log is read as it is
    `now`, and left out without."""
    data, folder = load(path), Path(path).resolve().parent
    given = data.get("shop", {})
    shop_file = folder / given if isinstance(given, str) else None
    zone = data["zone"]
    shop = read_shop(load(shop_file) if shop_file else given, shop_file.parent if shop_file else folder, zone)
    origin = hours.minutes(hours.dt.datetime.fromisoformat(data["start"][:10]).replace(tzinfo=hours.ZoneInfo(zone)))
    shop_hours = hours.Hours(shop, zone, origin)
    shop.persons = read_persons(load(shop_file) if shop_file else given, shop, shop_file.parent if shop_file else folder,
                                zone, origin)
    deliver = shop_hours.moment(data["deliver"], closing=True)
    parts = read_parts(data, folder)
    entries, now = read_log(data, Path(path).resolve(), zone, now)
    return Job(name=data["job"], zone=zone, start=shop_hours.moment(data["start"]),
               deliver=deliver, deliver_at=data.get("deliver-at", "wrap"),
               to_spare=spared(data.get("to-spare", "1 d"), deliver, shop_hours),
               reserve=measure.share(data.get("reserve", "10 %")), shop=shop, hours=shop_hours,
               schedules=data["schedules"], pieces=read_pieces(data, parts, shop_hours), tasks=read_tasks(data),
               parts=parts, finishes=read_finishes(data, folder, table), stock=read_stock(data, folder), log=entries, now=now)
