"""What was done of a job, as its log says: which operations, when, and which are passed over because later work of their row
was done."""
import re
from dataclasses import dataclass, field

import units

LOT = re.compile(r"^(?P<piece>[^/]+?)\.(?P<lot>\d+)(?P<rest>/.*)$")


@dataclass
class Fact:
    """A step that was done; it stands among the steps of a plan."""
    id: str
    operation: object
    entry: object
    start: int
    end: int
    row: dict = field(default_factory=dict)

    @property
    def do(self):
        return self.operation.do

    @property
    def piece(self):
        return self.operation.piece


def split(name):
    """(id without the number of its lot, that number or 0)."""
    found = LOT.match(name)
    return (found["piece"] + found["rest"], int(found["lot"])) if found else (name, 0)


def covers(entry, lot, operation, parts):
    """Whether an entry of a piece or of one of its lots goes for an operation; `parts` are the numbers of its parts, None where the
    piece is not divided."""
    if parts is None:
        return True
    if not entry.parts:
        return lot in (0, operation.lot)
    first = entry.first - 1
    return first <= parts[0] and parts[-1] < first + entry.parts


def names(entry, operation, lots):
    base, lot = split(entry.step)
    divided = lots.get(operation.piece)
    return split(operation.id)[0] == base and covers(entry, lot, operation, divided and divided[operation.lot - 1])


def begin_of(entry, operation):
    """Where nobody said when it began: so many minutes before its end as its units take."""
    return entry.began if entry.began is not None else entry.done - units.seconds(operation.units)[-1] // 60


def done_of(case, operations):
    """{id: fact}, of those that the log names and whose moment has come; the first entry counts."""
    found = {}
    for entry in case.job.log:
        if entry.kind != "step" or entry.done > case.job.now:
            continue
        for operation in operations:
            if operation.id not in found and names(entry, operation, case.lots):
                found[operation.id] = Fact(operation.id, operation, entry, begin_of(entry, operation), entry.done, {"lot": operation.lot})
    return found


def rows_of(case):
    """Rows of operations that follow one another: those of pieces, and a task's parts."""
    found = [row for rows in case.expected.rows.values() for row in rows]
    tasks = {}
    for name in case.operations:
        if name.startswith("task/"):
            tasks.setdefault(name.partition("#")[0], []).append(name)
    return found + list(tasks.values())


def passed_over(case, facts):
    """Work that was not recorded though later work of its row was."""
    gone = set()
    for row in rows_of(case):
        last = max((i for i, name in enumerate(row) if name in facts), default=0)
        gone |= {name for name in row[:last] if name not in facts}
    return gone


def same_batch(a, b):
    return a is b or a.entry.batch is not None and a.entry.batch == b.entry.batch and a.operation.kind == b.operation.kind


def cuts(entries, piece_slug):
    """After how many parts of a piece a log divides it."""
    found = set()
    for entry in entries:
        base = split(entry.step)[0] if entry.kind == "step" and entry.parts else ""
        if base.startswith(piece_slug + "/"):
            found |= {entry.first - 1, entry.first - 1 + entry.parts}
    return found
