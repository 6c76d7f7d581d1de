"""The timetable of a plan's JSON with its moments in minutes."""
import datetime as dt
from dataclasses import dataclass, field

import expected
import hours


@dataclass
class Link:
    id: str
    what: str
    least: object
    most: object


@dataclass
class Step:
    id: str
    piece: str
    schedule: str
    coat: object
    coats: object
    side: object
    do: str
    finish: object
    start: int
    end: int
    person: object
    after: list
    row: dict = field(repr=False, default=None)


def key_of(text):
    """An id in the one spelling by which plan and expectation meet."""
    base, _, repeat = text.partition("#")
    return "/".join(expected.slug(part) for part in base.split("/")) + (f"#{repeat}" if repeat else "")


def moment(text, zone):
    return None if text is None else hours.from_text(text, zone)


def when_done(batches, until):
    """When the batches of a plan's JSON that are begun by a moment, and those begun meanwhile, are all done."""
    for start, end in sorted((dt.datetime.fromisoformat(b["start"]), dt.datetime.fromisoformat(b["end"])) for b in batches):
        if start < until:
            until = max(until, end)
    return until


def read_step(row, zone):
    links = [Link(key_of(a["id"]), a["what"], moment(a["min_until"], zone), moment(a["max_until"], zone))
             for a in row["after"]]
    return Step(key_of(row["id"]), row["piece"], row["schedule"], row["coat"], row["coats"], row["side"], row["do"],
                row["finish"], moment(row["start"], zone), moment(row["end"], zone), row["person"], links, row)


@dataclass
class Row:
    id: str
    start: int
    end: int


@dataclass
class Batch:
    id: str
    do: str
    person: str
    start: int
    work_from: int
    work_until: int
    end: int
    steps: list
    mixes: list  # when each is mixed
    helper: object = None  # who is there as well where turning over takes two
    row: dict = field(repr=False, default=None)
    parts: list = field(repr=False, default=None)  # where jobs share it: (number of the job, its part)


def read_batch(row, zone):
    steps = [Row(key_of(s["id"]), moment(s["start"], zone), moment(s["end"], zone)) for s in row["steps"]]
    times = [moment(row[key], zone) for key in ("start", "work_from", "work_until", "end")]
    return Batch(row["id"], row["do"], row["person"], *times, steps, [moment(m["at"], zone) for m in row["mixes"] or []],
                 row.get("helper"), row)


class Timetable:
    """Steps by id, and what the plan says of itself."""

    def __init__(self, data, zone):
        self.data, self.zone = data, zone
        self.status = data["status"]
        self.list = [read_step(row, zone) for row in data["steps"]]
        self.steps = {step.id: step for step in self.list}
        self.batches = [read_batch(row, zone) for row in data.get("batches") or []]
        self.ready = moment(data["ready"], zone)
        self.states = {(s["piece"], s["state"]): moment(s["at"], zone) for s in data["states"]}
