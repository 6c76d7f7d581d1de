"""The operations that a job asks for, piece by piece, and what each waits for.

A schedule is cut at its coats: the steps before a coat, and the coat. A `Track` is one schedule on one side; the two sides
of a flat piece share one row of operations, every other schedule of a piece is a row of its own. A `Wait` says that `to` may
not start before a moment that follows from `source` (and, for windows, not after another). Scuffs added for a missed window
are not expected here: rules judge them where they appear.
"""
import copy
import math
import re
from collections import namedtuple
from dataclasses import dataclass, field, replace

import facts
import finish_reader
import measure
import minutes
import passes
import shapes
import surfaces
import units

DUSTY = {"sand", "scuff"}
ON_DRY_FILM = {"sand", "scuff", "rub", "polish"}
END, SPAN, STATE, WINDOW, POLISH = "end", "span", "state", "window", "polish"
SETTLED = "settled"
HEAVY = 25  # kg

# kind END: after the end of source; SPAN: so many minutes after it; SETTLED: when its dust has settled; STATE: its film at
# a state; WINDOW: before its recoat window closes; POLISH: between two spans after it (value is the pair).
Wait = namedtuple("Wait", "source to kind value")
Coat = namedtuple("Coat", "finish tool thin number run coats")


@dataclass
class Operation:
    id: str
    piece: str
    schedule: str
    number: int
    side: str
    do: str
    units: list  # minutes of each unit, in the order of the parts
    tool: units.Tool
    kind: tuple  # what shares a set-up with it
    coat: Coat = None
    passed: passes.Pass = None
    lot: int = 1
    parts: int = 1  # how many parts it handles
    people: int = 1  # who must be there at once

    @property
    def dusty(self):
        return self.do in DUSTY


@dataclass
class Expected:
    operations: dict = field(default_factory=dict)
    waits: list = field(default_factory=list)
    rows: dict = field(default_factory=dict)  # piece -> lists of operation ids in their order
    last_coats: dict = field(default_factory=dict)  # piece -> ids of the last coat of every track of every lot
    holds: list = field(default_factory=list)  # waits after the last step of a row: (source, kind, value)

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


def limit_mixes(operations):
    """What is mixed for a batch may be applied for as long as the mix of any work of its kind: one for coats that take more of
    it a minute is larger and lives shorter."""
    shortest = {}
    for op in operations:
        if op.coat and op.tool.working is not None:
            working, alive = shortest.get(op.kind, (math.inf, math.inf))
            pot_life = math.inf if op.tool.pot_life is None else op.tool.pot_life
            shortest[op.kind] = min(working, op.tool.working), min(alive, pot_life)
    for op in operations:
        if op.kind in shortest and op.do == "apply":
            op.tool.working = shortest[op.kind][0]
            op.tool.pot_life = None if op.tool.pot_life is None else shortest[op.kind][1]


class Track:
    """One schedule on one side of a piece: [(steps before the coat, coat)], and the steps after the last coat."""

    def __init__(self, job, piece, schedule, side, took):
        self.job, self.piece, self.schedule, self.side = job, piece, schedule, side
        self.passed = passes.pass_of(piece, schedule, side, took)
        self.steps = job.schedules[schedule]
        self.total = sum(self.coats_of(s) for s in self.steps if "coat" in s)
        self.laid = 0
        self.film, self.outlasted = None, False  # id of the last apply; whether a wait since then outlasts its window
        self.coats, self.after = self.cut()

    def coats_of(self, step):
        return int(step.get("coats", self.job.finishes[step["coat"]].coats["usual"]))

    def polished_already(self, i):
        """A `polish` written behind a coat whose finish has its own."""
        return i > 0 and "polish" in self.steps[i] and "coat" in self.steps[i - 1] and \
            self.job.finishes[self.steps[i - 1]["coat"]].polish is not None

    def cut(self):
        found, before, run, previous = [], [], 0, None
        for i, step in enumerate(self.steps):
            if "coat" not in step:
                before += [] if self.polished_already(i) else [step]
                continue
            finish = self.job.finishes[step["coat"]]
            run = run if previous == finish.id else 0
            for k in range(self.coats_of(step)):
                usual = None if step.get("by", finish.by[0]) in finish.no_between else finish.between
                between = step.get("between", usual) if k else None
                run, previous = run + 1, finish.id
                coat = Coat(finish, step.get("by", finish.by[0]), thinner(step.get("thin")), len(found) + 1, run, self.total)
                found.append(((before if k == 0 else []) + ([between] if between else []), coat))
            before = []
        return found, before


class Builder:
    """Builds the operations of a whole job; `lots` gives the numbers of the parts of each lot of a piece, in one lot if none."""

    def __init__(self, job, took, warmest, lots):
        self.job, self.took, self.warmest, self.lots = job, took, warmest, lots
        self.longest = job.hours.longest()
        self.result = Expected()

    def build(self):
        for piece in self.job.pieces.values():
            self.result.rows[piece.name], self.result.last_coats[piece.name] = [], []
            instances = units.Instances(self.took, piece.name)
            divided = self.lots.get(piece.name) or [list(range(len(instances.list)))]
            for number, parts in enumerate(divided, 1):
                lot = Lot(number, len(divided), instances, parts)
                for tracks in self.rows_of(piece):
                    own = [t for t in tracks if units.chosen(t.passed, instances, parts)]
                    if own:
                        Row(self, piece, own, lot).build()
        for task in self.job.tasks.values():
            names = [self.result.add(part) for part in self.cut(self.task(task))]
            self.result.waits += [Wait(a, b, END, None) for a, b in zip(names, names[1:])]
        return self.result

    def rows_of(self, piece):
        """Tracks that share a row: the two sides of a flat piece; every other schedule has its own."""
        mine = [s for s in self.took if s.part.piece == piece.name and s.schedule and s.area > 0 and not s.patch]
        on = {name: {s.region for s in mine if s.schedule == name} for name in self.job.schedules}
        sides = [(name, side) for side, region in (("b", "back"), ("f", "face")) for name in on if region in on[name]]
        if not passes.two_sided(piece, self.took):
            sides = []
        if sides:
            yield [self.track(piece, name, side) for name, side in sides]
        for name in (n for n in on if on[n] and n not in {s for s, _ in sides}):
            yield [self.track(piece, name, "")]

    def dry_tool(self, kind):
        """Set-up of dry work; it may rest until the end of the working day. Raising is done with a cloth."""
        shop = self.job.shop
        if kind in ("mask", "task"):
            return units.Tool(0, 0, None if kind == "mask" else 0)
        return units.Tool(minutes.set_up(self.job, kind), float(shop.span("clean-up", kind, 0)), None)

    def wet_tool(self, coat, grams=0.0):
        """Set-up, clean-up, rest and working time of a coat's tool that takes so many grams of the mix a minute, in the warmest air
        of a working hour, in whole minutes."""
        shop, finish = self.job.shop, coat.finish
        usual = units.REST_SPRAYED if coat.tool in finish_reader.SPRAYED else units.REST
        mixed, warm = minutes.is_mixed(coat), self.warmest(finish)
        working = minutes.longest_mix(self.job, coat, warm, grams) if mixed else None
        dies = len(finish.components) > 1 and working != math.inf
        return units.Tool(minutes.set_up(self.job, coat.tool), minutes.clean_up(self.job, finish, coat.tool),
                          float(shop.span("rest", coat.tool, usual)),
                          working, minutes.pot_life(finish, warm, grams * working) if dies else None,
                          math.ceil(float(finish.induction)) if mixed else 0)

    def track(self, piece, schedule, side):
        return Track(self.job, piece, schedule, side, self.took)

    def task(self, task):
        return Operation(f"task/{slug(task.name)}", None, None, 0, "", "task", [float(task.takes)], units.Tool(0, 0, 0),
                         ("task", task.name))

    def cut(self, operation):
        """A task longer than every working stretch, in equal parts."""
        total, longest = sum(operation.units), self.longest
        if operation.do != "task" or total <= longest or not longest:
            return [operation]
        parts = math.ceil(total / longest)
        return [replace(operation, units=[math.ceil(total / parts)]) for _ in range(parts)]


@dataclass
class Lot:
    """Parts of a piece that go through every step together."""
    number: int
    of: int
    instances: units.Instances
    parts: list  # numbers of its parts

    def slug(self, piece):
        return slug(piece) + (f".{self.number}" if self.of > 1 else "")


class Row:
    """The operations of a lot that follow one another."""

    def __init__(self, builder, piece, tracks, lot):
        self.builder, self.result, self.piece, self.tracks = builder, builder.result, piece.name, tracks
        self.rules, self.lot = piece, lot
        self.ids, self.pending, self.held = [], [], 0

    def build(self):
        self.whole(lambda t: t.coats[0][0] if t.coats else t.after, 0)
        up = self.patch()
        for track, before, coat in self.order():
            if up is not None and up.side != track.side:
                self.flip(up)
            self.steps(track, [track], before if coat.number > 1 else [], coat.number - 1, track.side)
            self.coat(track, coat)
            up = track
        self.whole(lambda t: t.after if t.coats else [], None)
        self.result.rows[self.piece].append(self.ids)
        self.result.last_coats[self.piece] += [t.film for t in self.tracks if t.film]
        self.result.holds += self.take_pending()

    def patch(self):
        """All steps of the piece's patch, after what is done on bare wood; the track that its region goes on with, which lies up and
        has the film of the patch beneath. None: no patch here."""
        passed = passes.patch_of(self.rules, self.builder.took) if self.rules.patch else None
        if not passed or not units.chosen(passed, self.lot.instances, self.lot.parts):
            return None
        region = self.rules.patch["region"]
        below = {s.part.schedule[region] for s in passed.surfaces}
        track = next((t for t in self.tracks if t.schedule in below and any(s.region == region for s in t.passed.surfaces)), None)
        if track is None:
            return None
        patch = Track(self.builder.job, self.rules, passed.schedule, track.side, self.builder.took)
        patch.passed = passed
        for before, coat in patch.coats:
            self.steps(patch, [patch], before, coat.number - 1, track.side)
            self.coat(patch, coat)
        self.steps(patch, [patch], patch.after, patch.total, track.side)
        track.film, track.outlasted = patch.film, patch.outlasted
        return track

    def order(self):
        """The back's coat before the face's in every round; of the fewer coats of a side those of the back stand in the first
        rounds, those of the face in the last."""
        most = max((len(t.coats) for t in self.tracks), default=0)
        rounds = [(i if t.side == "b" else i + most - len(t.coats), place, t, before, coat) for place, t in enumerate(self.tracks)
                  for i, (before, coat) in enumerate(t.coats)]
        return [r[2:] for r in sorted(rounds, key=lambda r: r[:2])]

    def whole(self, steps_of, number):
        """What goes before the first coat or after the last, over all surfaces of each schedule in one go."""
        for schedule in dict.fromkeys(t.schedule for t in self.tracks):
            tracks = [t for t in self.tracks if t.schedule == schedule]
            both = self.builder.track(tracks[0].piece, schedule, "")
            self.steps(both, tracks, steps_of(tracks[0]), tracks[0].total if number is None else number, "")

    def add(self, operation):
        """Appends an operation that waits for the end of the one before it and for whatever is pending."""
        name = self.result.add(operation)
        if self.ids:
            self.result.waits.append(Wait(self.ids[-1], name, END, None))
            if operation.do == "apply" and self.dust_before():
                self.result.waits.append(Wait(self.dust_before(), name, SETTLED, None))
        self.result.waits += [Wait(source, name, kind, value) for source, kind, value in self.take_pending()]
        self.ids.append(name)
        return name

    def take_pending(self):
        """What the next operation waits for: waits of the clock since the last one are one after another."""
        taken = self.pending + ([(self.ids[-1], SPAN, self.held)] if self.held and self.ids else [])
        self.pending, self.held = [], 0
        return taken

    def dust_before(self):
        """The last dusty operation of the row."""
        return next((n for n in reversed(self.ids) if self.result.operations[n].dusty), None)

    def steps(self, track, films_of, steps, number, side):
        """Steps that are no coats on a track, over the films of some tracks."""
        for step in steps:
            kind = step_kind(step)
            if kind == "wait":
                self.wait(films_of, step["wait"])
            else:
                self.work(track, films_of, step, kind, number, side)

    def wait(self, tracks, value):
        """A wait holds the next operation back: minutes of the clock, or a state of the films."""
        films = [t for t in tracks if t.film]
        if value in finish_reader.STATES:
            self.pending += [(t.film, STATE, value) for t in films]
        else:
            self.held += measure.span(value)
        for track in films:
            track.outlasted = track.outlasted or self.outlasts(track, value)

    def outlasts(self, track, value):
        """Whether a wait is longer than the recoat window of the film, so that it lifts the window."""
        coat = self.result.operations[track.film].coat
        times = coat.finish.times(coat.run)
        waited = times.after[value] if value in finish_reader.STATES else measure.span(value)
        return times.recoat_last is not None and waited > times.recoat_last

    def asked(self, kind, name):
        """The entries of the log that ask to leave out or to repeat an operation of this lot."""
        probe = Operation(name, self.piece, None, 0, "", None, [], None, None, lot=self.lot.number)
        divided = {self.piece: {self.lot.number - 1: self.lot.parts}} if self.lot.of > 1 else {}
        return [e for e in self.builder.job.log if e.kind == kind and facts.names(e, probe, divided)]

    def work(self, track, films_of, step, kind, number, side):
        """Sanding, scuffing, raising, masking, rubbing, polishing or a task."""
        what = f"{kind}-{step[kind]}" if kind in DUSTY else slug(step["task"]) if kind == "task" else kind
        name = f"{self.lot.slug(self.piece)}/{slug(track.schedule)}/{number}{side}/{what}"
        if self.asked("skip", name):
            return
        state = "sand" if kind in ON_DRY_FILM else "handle"
        self.pending += [(t.film, STATE, state) for t in films_of if t.film]
        whole = Operation(name, self.piece, track.schedule, number, side, kind, self.units(track, step, kind),
                          self.builder.dry_tool(kind), self.kind(step, kind), passed=track.passed, lot=self.lot.number,
                          parts=self.parts(track))
        for part in self.builder.cut(whole):
            self.add(part)
        if kind == "raise":
            self.held += measure.span(step.get("dry", "2 h"))

    def parts(self, track):
        return len(units.chosen(track.passed, self.lot.instances, self.lot.parts))

    def kind(self, step, kind):
        """What shares a set-up: sanding and scuffing of a grit, a task by its words, the rest by the work."""
        if kind in DUSTY:
            return "sand", step[kind]
        return (kind, step["task"]) if kind == "task" else (kind, None)

    def units(self, track, step, kind):
        if kind in ("mask", "task"):
            every = len(units.chosen(track.passed, self.lot.instances, range(len(self.lot.instances.list))))
            return units.takes(step, self.parts(track), every)
        return units.plain(self.builder.job, track.passed, self.lot.instances, self.lot.parts, kind)

    def coat(self, track, coat):
        """Apply, and polish where the finish wants it."""
        if self.asked("skip", f"{self.lot.slug(self.piece)}/{slug(track.schedule)}/{coat.number}{track.side}/apply"):
            track.laid = coat.number
            return
        if track.film:
            self.pending.append((track.film, STATE, "recoat"))
            if not track.outlasted:
                self.pending.append((track.film, WINDOW, None))
        laid = units.of_coat(self.builder.job, track.passed, self.lot, coat, self.builder.warmest(coat.finish))
        kind = ("apply", coat.finish.id, coat.thin, coat.tool)
        mass = minutes.lot_mass(self.builder.job, track.passed, self.lot, coat)
        tool = self.builder.wet_tool(coat, mass / math.fsum(laid) if math.fsum(laid) > 0 else 0.0)
        track.film = self.add(self.on_coat(track, coat, "apply", laid, tool, kind, coat))
        track.outlasted, track.laid = False, coat.number
        self.again(track, coat)
        polish = f"{self.lot.slug(self.piece)}/{slug(track.schedule)}/{coat.number}{track.side}/polish"
        if coat.finish.polish and not self.asked("skip", polish):
            self.pending.append((track.film, POLISH, coat.finish.polish))
            done = units.plain(self.builder.job, track.passed, self.lot.instances, self.lot.parts, "polish")
            self.add(self.on_coat(track, coat, "polish", done, self.builder.dry_tool("polish"), ("polish", None)))

    def again(self, track, coat):
        """What the log asks to repeat: sanded where it says so, when the film is dry to sand, and laid once more."""
        first = self.result.operations[track.film]
        for k, entry in enumerate(self.asked("again", first.id), 1):
            mark = "again" if k == 1 else f"again-{k}"
            stem = first.id.rpartition("/")[0]
            if entry.grit:
                self.pending.append((track.film, STATE, "sand"))
                self.add(Operation(f"{stem}/sand-{entry.grit}-{mark}", self.piece, track.schedule, coat.number, track.side, "sand",
                                   self.units(track, None, "sand"), self.builder.dry_tool("sand"), ("sand", entry.grit),
                                   passed=track.passed, lot=self.lot.number, parts=self.parts(track)))
            self.pending.append((track.film, STATE, "recoat" if entry.grit else "sand"))
            track.film = self.add(replace(first, id=f"{stem}/apply-{mark}", tool=copy.copy(first.tool)))

    def on_coat(self, track, coat, do, done, tool, kind, laid=None):
        name = f"{self.lot.slug(self.piece)}/{slug(track.schedule)}/{coat.number}{track.side}/{do}"
        return Operation(name, self.piece, track.schedule, coat.number, track.side, do, done, tool, kind, laid, track.passed,
                         self.lot.number, self.parts(track))

    def flip(self, up):
        """The side up lies down: its films at `handle`, or wet on points."""
        for track in (t for t in self.tracks if t.side == up.side and t.film):
            finish = self.result.operations[track.film].coat.finish
            if not (self.rules.flip == "now" if self.rules.flip else finish.flip_now):
                self.pending.append((track.film, STATE, "handle"))
        turned = self.on_coat(up, Coat(None, None, 0, up.laid, 0, up.total), "flip",
                              units.flips(up.passed, self.lot.instances, self.lot.parts), units.Tool(0, 0, None), ("flip", None))
        self.add(replace(turned, people=self.people()))

    def people(self):
        """Two where the piece says so, or where a part of the lot is above 25 kg and the piece says nothing."""
        if self.rules.lift is not None:
            return min(self.rules.lift, 2)
        return 2 if any(shapes.mass(self.lot.instances.list[i][0]) > HEAVY for i in self.lot.parts) else 1


def of_job(job, warmest, lots):
    """All operations and waits of a job; `warmest` gives the temperature of the cautious pot life by finish."""
    return Builder(job, surfaces.of_job(job), warmest, lots).build()
