"""The operations that a job asks for, piece by piece, and what each waits for (method, section 6; contract, section 8).

A `Wait` says that `to` may not start before a moment that follows from `source` (and, for windows, not after another).
Operations added for a missed recoat window are not expected here: rules judge them where they appear.
"""
import re
from collections import namedtuple
from dataclasses import dataclass, field

import measure
import minutes
import passes
import surfaces

DUSTY = {"sand", "scuff"}
END, SPAN, STATE, WINDOW, POLISH = "end", "span", "state", "window", "polish"

# kind END: after the end of source; SPAN: so many minutes after it; STATE: its film at a state;
# WINDOW: before its recoat window closes; POLISH: between two spans after it (value is the pair).
Wait = namedtuple("Wait", "source to kind value")
Coat = namedtuple("Coat", "finish tool thin number run coats last")


@dataclass
class Operation:
    id: str
    piece: str
    schedule: str
    number: int
    side: str
    do: str
    minutes: set
    coat: Coat = None
    dusty: bool = False
    passed: passes.Pass = None


@dataclass
class Expected:
    operations: dict = field(default_factory=dict)
    waits: list = field(default_factory=list)
    chains: dict = field(default_factory=dict)  # piece -> lists of operation ids in their order
    last_coats: dict = field(default_factory=dict)  # piece -> ids of the last coat of every surface

    def add(self, operation):
        """Adds an operation; the k-th of the same id gets `#k`."""
        base, k = operation.id, 2
        while operation.id in self.operations:
            operation.id, k = f"{base}#{k}", k + 1
        self.operations[operation.id] = operation
        return operation.id


def slug(text):
    """Words as they stand in an id."""
    return re.sub(r"[^\w.]+", "-", text.strip().lower()).strip("-")


def step_kind(step):
    kinds = ["coat", "sand", "scuff", "raise", "mask", "polish", "rub", "wait", "task"]
    return next(kind for kind in kinds if kind in step)


def thinner(value):
    """Litres of thinner a litre of finish, from a ratio finish:thinner or a share."""
    if value is None:
        return 0.0
    if ":" in str(value):
        finish, thin = measure.ratio(value)
        return float(thin / finish)
    return float(measure.share(value))


class Chain:
    """One schedule on one pass, walked from its first step to its last."""

    def __init__(self, job, piece, schedule, side, took):
        self.job, self.piece, self.schedule, self.side = job, piece, schedule, side
        self.passed = passes.pass_of(piece, schedule, side, took)
        self.steps = job.schedules[schedule]
        self.total = sum(self.coats_of(s) for s in self.steps if "coat" in s)

    def coats_of(self, step):
        return int(step.get("coats", self.job.finishes[step["coat"]].coats["usual"]))

    def rounds(self):
        """[(steps before the coat, coat)] and the steps after the last one."""
        found, before, number, run = [], [], 0, 0
        previous = None
        for step in self.steps:
            if step_kind(step) != "coat":
                before.append(step)
                continue
            finish = self.job.finishes[step["coat"]]
            between = step.get("between", finish.between)
            run = run if previous == finish.id else 0
            for k in range(self.coats_of(step)):
                number, run, previous = number + 1, run + 1, finish.id
                if k > 0 and between:
                    before.append(between)
                coat = Coat(finish, step.get("by", finish.by[0]), thinner(step.get("thin")), number, run, self.total,
                            number == self.total)
                found.append((before, coat))
                before = []
        return found, before


class Builder:
    """Builds the operations of a whole job."""

    def __init__(self, job, took, warmest):
        self.job, self.took, self.warmest = job, took, warmest
        self.result = Expected()

    def build(self):
        for piece in self.job.pieces.values():
            self.result.chains[piece.name], self.result.last_coats[piece.name] = [], []
            self.piece(piece)
        for task in self.job.tasks.values():
            op = Operation(f"task/{slug(task.name)}", None, None, 0, "", "task", self.cut(float(task.takes)))
            self.result.add(op)
        return self.result

    def piece(self, piece):
        """Two sides that pair up in rounds, or every schedule all round."""
        mine = [s for s in self.took if s.part.piece == piece.name and s.schedule and s.area > 0]
        names = list(dict.fromkeys(s.schedule for s in mine))
        if not passes.two_sided(piece, self.took):
            for name in names:
                self.one_pass(Chain(self.job, piece, name, "", self.took))
            return
        back = next(s.schedule for s in mine if s.region == "back")
        face = next((s.schedule for s in mine if s.region == "face"),
                    next(s.schedule for s in mine if s.region != "back"))
        self.two_sides(Chain(self.job, piece, back, "b", self.took), Chain(self.job, piece, face, "f", self.took))
        for name in names:
            if name not in (back, face):
                self.one_pass(Chain(self.job, piece, name, "", self.took))

    def one_pass(self, chain):
        walk = Walk(self, chain.piece.name)
        rounds, trailing = chain.rounds()
        for before, coat in rounds:
            walk.steps(chain, before, coat.number - 1, chain.side)
            walk.coat(chain, coat)
        walk.steps(chain, trailing, chain.total, chain.side)
        walk.close([chain])

    def two_sides(self, back, face):
        """The back's coat first, then the face's, so that the last falls on the face; a flip at each change."""
        walk, same = Walk(self, back.piece.name), back.schedule == face.schedule
        both = Chain(self.job, back.piece, back.schedule, "", self.took)
        (back_rounds, back_after), (face_rounds, face_after) = back.rounds(), face.rounds()
        if same:
            walk.steps(both, back_rounds[0][0], 0, "")
            back_rounds[0] = ([], back_rounds[0][1])
            face_rounds[0] = ([], face_rounds[0][1])
        order = sorted([(i - len(back_rounds), 0, back, r) for i, r in enumerate(back_rounds)] +
                       [(i - len(face_rounds), 1, face, r) for i, r in enumerate(face_rounds)], key=lambda o: o[:2])
        up = None
        for _, _, chain, (before, coat) in order:
            if up is not None and up is not chain:
                walk.flip(up)
            walk.steps(chain, before, coat.number - 1, chain.side)
            walk.coat(chain, coat)
            up = chain
        if same:
            walk.steps(both, back_after, both.total, "")
        else:
            walk.steps(back, back_after, back.total, "b")
            walk.steps(face, face_after, face.total, "f")
        walk.close([back, face])

    def cut(self, value):
        """Minutes of work that may be cut into equal parts: a set of allowed lengths of the whole."""
        return minutes.rounded(value)


class Walk:
    """The chain of operations of one piece in hand, with the film last laid on each side."""

    def __init__(self, builder, piece):
        self.builder, self.piece, self.ids, self.films, self.pending = builder, piece, [], {}, []
        self.flipped = {}

    def add(self, operation):
        """Appends an operation that waits for the end of the one before it and for whatever is pending."""
        result = self.builder.result
        name = result.add(operation)
        if self.ids:
            result.waits.append(Wait(self.ids[-1], name, END, None))
        result.waits += [Wait(source, name, kind, value) for source, kind, value in self.pending]
        self.pending = []
        self.ids.append(name)
        return name

    def under(self, chain, side):
        """The films that work on a pass meets."""
        sides = [side] if side or not self.films else list(self.films)
        return [self.films[s] for s in sides if s in self.films]

    def steps(self, chain, steps, number, side):
        for step in steps:
            kind = step_kind(step)
            if kind == "wait":
                self.wait(chain, step["wait"], side)
            else:
                self.work(chain, step, kind, number, side)

    def wait(self, chain, value, side):
        """A wait holds the next operation back: minutes of the clock, or a state of the film."""
        import finish_reader
        if value in finish_reader.STATES:
            self.pending += [(film, STATE, value) for film in self.under(chain, side)]
        elif self.ids:
            self.pending.append((self.ids[-1], SPAN, measure.span(value)))

    def work(self, chain, step, kind, number, side):
        """Sanding, scuffing, raising, masking, rubbing, polishing or a task on a pass."""
        state = {"sand": "sand", "scuff": "sand", "rub": "sand", "polish": "sand", "mask": "handle", "raise": "handle",
                 "task": "handle"}[kind]
        self.pending += [(film, STATE, state) for film in self.under(chain, side)]
        what = {"sand": f"sand-{step[kind]}", "scuff": f"scuff-{step[kind]}"}.get(kind, kind)
        name = f"{slug(self.piece)}/{slug(chain.schedule)}/{number}{side}/{what}"
        self.add(Operation(name, self.piece, chain.schedule, number, side, kind, self.minutes(chain, step, kind),
                           dusty=kind in DUSTY, passed=chain.passed))
        if kind == "raise":
            self.pending.append((self.ids[-1], SPAN, measure.span(step.get("dry", "2 h"))))

    def minutes(self, chain, step, kind):
        job, pas = self.builder.job, chain.passed
        if kind in ("mask", "task"):
            return minutes.rounded(float(measure.span(step["takes"])))
        return minutes.rounded(minutes.plain_work(job, pas, "wipe" if kind == "raise" else kind))

    def coat(self, chain, coat):
        """Apply, and polish where the finish wants it."""
        side, under = chain.side, self.films.get(chain.side)
        temperature = self.builder.warmest(coat.finish)
        if under:
            self.pending.append((under, STATE, "recoat"))
            if self.builder.result.operations[under].coat.finish.id == coat.finish.id:
                self.pending.append((under, WINDOW, None))
        base = f"{slug(self.piece)}/{slug(chain.schedule)}/{coat.number}{side}"
        taken = minutes.rounded(minutes.apply(self.builder.job, chain.passed, coat, temperature))
        self.films[side] = self.add(Operation(f"{base}/apply", self.piece, chain.schedule, coat.number, side, "apply",
                                              taken, coat, passed=chain.passed))
        if coat.finish.polish:
            self.pending.append((self.films[side], POLISH, coat.finish.polish))
            taken = minutes.rounded(minutes.plain_work(self.builder.job, chain.passed, "polish"))
            self.add(Operation(f"{base}/polish", self.piece, chain.schedule, coat.number, side, "polish", taken,
                               passed=chain.passed))

    def flip(self, chain):
        """The side up lies down: at `handle`, or wet on points."""
        film = self.films[chain.side]
        coat = self.builder.result.operations[film].coat
        if not coat.finish.flip_now:
            self.pending.append((film, STATE, "handle"))
        base = f"{slug(self.piece)}/{slug(chain.schedule)}/{coat.number}{chain.side}"
        self.add(Operation(f"{base}/flip", self.piece, chain.schedule, coat.number, chain.side, "flip", {minutes.FLIP}))

    def close(self, chains):
        result = self.builder.result
        result.chains[self.piece].append(self.ids)
        result.last_coats[self.piece] += [self.films[c.side] for c in chains if c.side in self.films]


def of_job(job, warmest):
    """All operations and waits of a job; `warmest` gives the temperature of the cautious pot life by finish."""
    took = surfaces.of_job(job)
    return Builder(job, took, warmest).build()
