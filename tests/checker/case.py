"""What the rules look at: the job, what it asks for, the plan's timetable, and the moments that follow from both."""
import re
from collections import namedtuple

import drying
import expected
import facts
import finish_reader
import hours
import lots
import minutes
import shapes
import surfaces
import units

Violation = namedtuple("Violation", "rule text")
ADDED_SCUFF = re.compile(r"^(?P<base>[^/]+/[^/]+/(?P<number>\d+)(?P<side>[bf]?))/scuff-\d+(#\d+)?$")


class Facts:
    """What follows from the job alone, worked out once."""

    def __init__(self, job):
        self.job = job
        self.drying = drying.Drying(job)
        self.surfaces = surfaces.of_job(job)

    def warmest(self, finish):
        """The warmest air of a working hour in which the finish may be laid: its shortest pot life."""
        open_until = max(self.job.deliver, self.job.start + 1)
        spells = [s.temperature for begin, end in self.job.hours.stretches if end > self.job.start and begin < open_until
                  for s in self.drying.air.over(begin, end)]
        return min(max(spells, default=float(finish.at[0])), float(finish.air[0][1]))


def facts_of(job):
    if job.facts is None:
        job.facts = Facts(job)
    return job.facts


class Case:
    def __init__(self, job, timetable):
        self.job, self.timetable = job, timetable
        known = facts_of(job)
        self.drying, self.surfaces, self.warmest = known.drying, known.surfaces, known.warmest
        self.batches = timetable.batches
        self.lots = lots.of_plan(job, self.surfaces, timetable)
        self.expected = expected.of_job(job, self.warmest, self.lots)
        self.operations = self.expected.operations  # of the whole job
        self.facts, self.passed_over = {}, set()
        if job.log:
            self.facts = facts.done_of(self, list(self.operations.values()))
            self.passed_over = facts.passed_over(self, self.facts)
        self.left = {name: op for name, op in self.operations.items() if name not in self.facts and name not in self.passed_over}
        expected.limit_mixes(self.left.values())
        self.steps = {**self.facts, **timetable.steps}  # what was done stands among the steps
        self.scuffs = [s for s in timetable.list if s.id not in self.operations and ADDED_SCUFF.match(s.id)]

    def show(self, minute):
        return hours.show(minute, self.job.zone)

    def applies(self):
        """(step, operation) of every coat that is planned."""
        return [(self.timetable.steps[name], op) for name, op in self.operations.items()
                if op.do == "apply" and name in self.timetable.steps]

    def laid(self):
        """(step, operation) of every coat that is planned or was laid."""
        return [(self.steps[name], op) for name, op in self.operations.items() if op.do == "apply" and name in self.steps]

    def reach(self, name, state):
        """When the film of an apply comes to a state, exactly; None: never."""
        coat = self.operations[name].coat
        return self.drying.reach(coat.finish, state, self.steps[name].end, coat.run, coat.tool)

    def window_end(self, name):
        """When the recoat window of an apply closes, exactly; None: it stays open."""
        coat = self.operations[name].coat
        return self.drying.window_end(coat.finish, self.steps[name].end, coat.run, coat.tool)

    def state_of(self, piece, state):
        """When every surface of a piece is at a state, on the 5 minutes; None: never. Work alone ends with its steps."""
        last = [name for name in self.expected.last_coats[piece] if name in self.steps]
        if not last:
            return max((s.end for s in self.steps.values() if s.piece == piece), default=self.job.start)
        moments = [drying.up(self.reach(name, state)) for name in last]
        return None if None in moments else max(moments)

    def of_piece(self, piece):
        """Steps of a piece: those expected of it, and scuffs added to it."""
        return [s for s in self.timetable.list if s.piece == piece]

    def of_lot(self, piece, number):
        return [s for s in self.of_piece(piece) if s.row["lot"] == number]

    def work(self, name):
        """What a step is: as expected, or a scuff that was added for a missed window; None: neither."""
        if name in self.operations:
            return self.operations[name]
        found = ADDED_SCUFF.match(name)
        film = self.operations.get(f"{found['base']}/apply") if found else None
        if film is None:
            return None
        instances = units.Instances(self.surfaces, film.piece)
        parts = (self.lots.get(film.piece) or [range(len(instances.list))])[film.lot - 1]
        return expected.Operation(name, film.piece, film.schedule, film.number, film.side, "scuff",
                                  units.plain(self.job, film.passed, instances, parts, "scuff"),
                                  units.Tool(minutes.set_up(self.job, "scuff"), 0, None),
                                  ("sand", int(name.rpartition("-")[2].partition("#")[0])), passed=film.passed, lot=film.lot)

    def person(self, name):
        return next((p for p in self.job.shop.persons if p.name == name), None)

    def first_start(self, piece):
        return min((s.start for s in self.of_piece(piece)), default=None)

    def named(self, entry):
        """(kind, name, state) of an entry of `after`."""
        head, _, tail = entry.rpartition(" ")
        name, state = (head, tail) if head and tail in finish_reader.STATES else (entry, "handle")
        return ("piece" if name in self.job.pieces else "task"), name, state

    def moment_of(self, entry):
        """The moment that an entry of `after` waits for; None: never, or not in the plan."""
        kind, name, state = self.named(entry)
        if kind == "piece":
            return self.state_of(name, state)
        return self.task_end(name)

    def task_steps(self, name):
        base = f"task/{expected.slug(name)}"
        return [s for s in self.steps.values() if s.id.partition("#")[0] == base]

    def task_end(self, name):
        return max((s.end for s in self.task_steps(name)), default=None)

    def rack_of_lot(self, piece, lot):
        """m2 that a lot takes: the sum of its parts, or their share of what is given for the piece."""
        divided = self.lots.get(piece.name)
        if divided is None:
            return self.rack_of(piece)
        if piece.rack is not None:
            return float(piece.rack) * len(divided[lot - 1]) / sum(map(len, divided))
        return sum(self.footprint(i, piece) for i in divided[lot - 1])

    def rack_of(self, piece):
        """m2 that a piece takes on the rack."""
        if piece.rack is not None:
            return float(piece.rack)
        return sum(self.footprint(i, piece) for i in range(len(units.Instances(self.surfaces, piece.name).list)))

    def footprint(self, number, piece):
        """m2 that one part covers: flat its largest region, standing its smallest upright projection, hung nothing."""
        part = units.Instances(self.surfaces, piece.name).list[number][0]
        if piece.laid == "hung":
            return 0.0
        extents = shapes.extents(part) if piece.laid == "standing" else None
        if extents is None:
            return max(s.area / part.qty for s in self.surfaces if s.part is part)
        first, second, _ = sorted(extents)
        return first * second

