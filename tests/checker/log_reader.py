"""The log of a job, as coatwright-job(5) has it: one JSON object a line; lines that are no entry are left out."""
import json
from dataclasses import dataclass
from fractions import Fraction as F

import hours
import measure

KINDS = ("step", "again", "skip", "air", "undo")


@dataclass
class Entry:
    number: int
    kind: str
    step: object = None  # its id
    began: object = None
    done: object = None
    used: object = None  # litres
    first: int = 1  # the first part, from 1
    parts: int = 0  # 0: all of its lot
    batch: object = None
    as_planned: bool = False
    grit: object = None
    air: object = None  # (minute, temperature, humidity)
    undone: object = None


def moment(row, key, zone):
    return hours.from_text(row[key], zone) if key in row else None


def read_entry(row, zone):
    kind, = (key for key in KINDS if key in row)
    entry = Entry(int(row["entry"]), kind, row.get(kind) if kind in ("step", "again", "skip") else None)
    if kind == "step":
        entry.began, entry.done = moment(row, "began", zone), hours.from_text(row["done"], zone)
        entry.used = measure.volume(row["used"]) if "used" in row else None
        entry.first, entry.parts = int(row.get("first", 1)), int(row.get("parts", 0))
        entry.batch, entry.as_planned = row.get("batch"), row.get("as-planned", False)
    elif kind == "again":
        entry.grit = row.get("sand")
    elif kind == "undo":
        entry.undone = int(row["undo"])
    elif kind == "air":
        air = row["air"]
        entry.air = (hours.from_text(air["from"], zone), measure.temperature(air["temperature"]), measure.share(air["humidity"]))
    return entry


def holding(entries):
    """Those that are no undo and that no undo takes back; an undo may be undone, the last one counts first."""
    kept, gone = [], set()
    for i in range(len(entries) - 1, -1, -1):
        entry = entries[i]
        if i in gone:
            continue
        if entry.kind != "undo":
            kept.append(entry)
            continue
        before = [k for k in range(i) if entries[k].number == entry.undone]
        gone.update(before[-1:])
    return kept[::-1]


def read(path, zone):
    """The entries that hold, in the order of the file; none where there is no file."""
    found = []
    for line in path.read_text(encoding="utf-8", errors="replace").splitlines() if path.exists() else []:
        try:
            found.append(read_entry(json.loads(line), zone))
        except (ValueError, KeyError, TypeError):
            continue
    return holding(found)


def measured(entries):
    """Air that was measured, by its moment; of one moment the last entry counts."""
    rows = {entry.air[0]: entry.air for entry in entries if entry.kind == "air"}
    return [rows[at] for at in sorted(rows)]


def litres(entry):
    return None if entry.used is None else float(F(entry.used))
