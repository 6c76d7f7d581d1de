"""The best plan of a tiny job by trying every grouping into batches, every order in them, and every person.

Shares no code with the program nor with the rest of the checker. Moments are whole minutes from a Monday 00:00; a unit may
take quarters of a minute, which a batch carries on, and where a row begins and ends is then told rounded up; work is summed as it is. A job is a
list of pieces; the units of a piece go through its steps together, but several people may share the units of one step, each
in a batch of his own.

Serial placement is exact here: whatever the best plan is, its batches put in the order of their starts and placed one by one
as early as their waits and their person allow are no later, for waits, breaks and rests are monotone. A window that would be
missed holds its first step back, five minutes at a time, and all is placed again: the least solution, if there is one. Where a
break costs a batch a mix, the first start from which it takes fewer is tried as well.
"""
import itertools
import math
from dataclasses import dataclass, field

DAY = 24 * 60
GRID = 5
MIX_MIN = 5
OPEN_AGAIN = 4 * DAY  # a day of work lies within any so many
PAUSED_MOST = 240  # how much more than a batch's start a row of it may move: a break, and the unit and mixes before it


@dataclass(frozen=True)
class Kind:
    """Work that shares one set-up: a finish with its tool, or a grit."""
    name: str
    set_up: int = 0
    clean_up: int = 0
    rest: object = None  # longest pause with the tool at rest; None: until the end of the working day
    working: object = None  # minutes in which one mix may be applied; None: nothing is mixed
    pot_life: object = None  # minutes from mixing until the mix sets


@dataclass(frozen=True)
class Step:
    kind: Kind
    units: tuple  # minutes of each unit, whole or in quarters
    wait: int = 0  # least minutes from its end to the next step of the piece
    window: object = None  # most minutes from its end to the start of the next
    held: int = 0  # minutes from its end until the piece is done, where it is the last
    wet: object = None  # of a coat: minutes from its end until it is dust-free
    handle: object = None  # of a coat: minutes from its end until the piece may leave the rack
    dusty: bool = False


@dataclass(frozen=True)
class Piece:
    name: str
    steps: tuple
    ready: int = 0  # earliest start
    rack: float = 0  # what it takes of the rack while it is wet


@dataclass(frozen=True)
class Person:
    name: str
    does: object = None  # names of kinds; None: all


@dataclass(frozen=True)
class Job:
    pieces: tuple
    people: tuple
    hours: tuple = ((8 * 60, 12 * 60), (13 * 60, 17 * 60))
    days: int = 5  # open days of a week
    start: int = 8 * 60
    deliver: object = None  # None: never late
    to_spare: int = 0
    soonest: bool = False
    weeks: int = 2
    may_share: bool = True  # whether people may share the units of one step
    rack: object = None  # how much the rack holds
    settle: object = None  # minutes that dust hangs in the shared room; None: rooms apart


@dataclass
class Batch:
    kind: Kind
    person: int
    rows: tuple  # (piece, step, unit numbers)
    start: int = 0
    end: int = 0
    work: int = 0
    spans: list = field(default_factory=list)  # (start, end) of each row


def stretches_of(job):
    found = []
    for day in range(7 * job.weeks):
        if day % 7 < job.days:
            found += [(day * DAY + a, day * DAY + b) for a, b in job.hours]
    return found


def place_at(job, stretches, batch, start):
    """The batch run from `start`, or None where it cannot: (end, hands-on minutes, span of each row, pauses)."""
    index = next((i for i, (a, b) in enumerate(stretches) if a <= start < b), None)
    if index is None:
        return None
    kind, now, work = batch.kind, start + batch.kind.set_up, batch.kind.set_up
    mixed, first, spans = None, True, []
    for piece, step, numbers in batch.rows:
        began = None
        for number in numbers:
            minutes = job.pieces[piece].steps[step].units[number]
            mix = kind.working is not None and (mixed is None or now + minutes > mixed + kind.working)
            need = minutes + (MIX_MIN if mix else 0)
            if now + need > stretches[index][1]:
                if first or index + 1 >= len(stretches):
                    return None
                resumed = pause(stretches, index, now, kind, mixed)
                if resumed is None:
                    return None
                index, now = index + 1, resumed
                mix = kind.working is not None and now + minutes > mixed + kind.working
                need = minutes + (MIX_MIN if mix else 0)
                if now + need > stretches[index][1]:
                    return None
            if mix:
                now, work, mixed = now + MIX_MIN, work + MIX_MIN, now + MIX_MIN
            began = now if began is None else began
            now, work, first = now + minutes, work + minutes, False
        spans.append((math.ceil(began), math.ceil(now)))
    now, work = now + kind.clean_up, work + kind.clean_up
    if now > stretches[index][1]:
        return None
    return up(now), work, spans


def up(minute):
    """The first five minutes of the clock from then on."""
    return math.ceil(minute / GRID) * GRID


def over(step, end, wait):
    """When the wait behind a step is over: a film is at a state on five minutes of the clock."""
    return up(end + wait) if step.wet is not None else end + wait


def pause(stretches, index, now, kind, mixed):
    """Where work goes on after a pause at `now`, or None where the tool may not rest so long."""
    resumed = stretches[index + 1][0]
    if kind.rest is None:
        return resumed if resumed // DAY == now // DAY else None
    if resumed - now > kind.rest or (mixed is not None and kind.pot_life is not None and resumed > mixed + kind.pot_life):
        return None
    return resumed


def place(job, stretches, batches, floors, most):
    """Places batches in order; floors: earliest start of rows held back by windows; most: minutes of work that each batch may
    take. None where one has no place."""
    ends, starts, free, work, rows = {}, {}, {}, 0, []
    for batch, limit in zip(batches, most):
        start, last = up(max(job.start, free.get(batch.person, 0))), quiet(job, rows, floors) + OPEN_AGAIN
        while True:
            start = opens(stretches, start)
            if start is None or start > last:
                return None
            done = place_at(job, stretches, batch, start)
            short = early_by(job, batch, done[2], ends, floors) if done else 0
            if done and not short and (limit is None or done[1] <= limit) and fits(job, rows, batch, done[2]):
                break
            start += max(GRID, up(short - PAUSED_MOST))
        batch.start, (batch.end, batch.work, batch.spans) = start, done
        free[batch.person] = batch.end
        work += batch.work
        for (p, s, _), (begin, end) in zip(batch.rows, batch.spans):
            ends.setdefault((p, s), []).append(end)
            starts.setdefault((p, s), []).append(begin)
            rows.append((p, s, begin, end))
    return ends, starts, work


def opens(stretches, start):
    """The first minute from then on at which the shop is open."""
    return next((max(a, start) for a, b in stretches if start < b), None)


def quiet(job, rows, floors):
    """From when on nothing is in the way of a batch but the hours, which are those of every open day."""
    over_by = [end + (job.settle or 0) if step.wet is None else up(end + max(step.wet, step.handle, step.wait))
               for step, end in ((job.pieces[p].steps[s], end) for p, s, _, end in rows)]
    return max([job.start, *(piece.ready for piece in job.pieces), *floors.values(), *over_by])


def early_by(job, batch, spans, ends, floors):
    """Minutes by which some row begins before its piece is there and its film is ready, in the batch or before it, or sooner
    than it is held; 0: none does."""
    own, short = {(p, s): end for (p, s, _), (_, end) in zip(batch.rows, spans)}, 0
    for (p, s, _), (begin, _) in zip(batch.rows, spans):
        before = ends.get((p, s - 1), ()) if (p, s - 1) not in own else (*ends.get((p, s - 1), ()), own[p, s - 1])
        ready = [over(job.pieces[p].steps[s - 1], e, job.pieces[p].steps[s - 1].wait) for e in before]
        outside = max([job.pieces[p].ready, floors.get((p, s), 0)] + ready)
        short = max(short, outside - begin if (p, s - 1) not in own else min(GRID, outside - begin))
    return short


def fits(job, rows, batch, spans):
    """Whether the rack holds what is wet, and no dust meets a wet film."""
    mine = [(p, s, begin, end) for (p, s, _), (begin, end) in zip(batch.rows, spans)]
    every = rows + mine
    return rack_holds(job, every, mine) and (job.settle is None or no_dust(job, rows, mine) and no_dust(job, mine, every))


def rack_holds(job, every, mine):
    if job.rack is None:
        return True
    held = [(p, begin, up(end + job.pieces[p].steps[s].handle)) for p, s, begin, end in every
            if job.pieces[p].steps[s].handle is not None]
    moments = {begin for _, begin, _ in held}
    return all(sum(job.pieces[p].rack for p in {q for q, a, b in held if a <= moment < b}) <= job.rack + 1e-9
               for moment in moments)


def no_dust(job, dusty, wet):
    """Whether what is raised in some rows keeps clear of the wet films of others, and settles first."""
    for p, s, begin, end in dusty:
        if not job.pieces[p].steps[s].dusty:
            continue
        for q, k, a, b in wet:
            free = job.pieces[q].steps[k].wet
            if free is not None and a < end + job.settle and begin < up(b + free):
                return False
    return True


def least_mixes(job, batch):
    """Mixes of a batch that no break interrupts."""
    mixes, left = 0, 0
    for piece, step, numbers in batch.rows:
        for number in numbers:
            minutes = job.pieces[piece].steps[step].units[number]
            if minutes > left:
                mixes, left = mixes + 1, batch.kind.working
            left -= minutes
    return mixes


def fewest_minutes(job, batch):
    units = sum(job.pieces[p].steps[s].units[n] for p, s, numbers in batch.rows for n in numbers)
    return units + batch.kind.set_up + batch.kind.clean_up + MIX_MIN * least_mixes(job, batch)


def values(job, stretches, batches):
    """What evaluate() says of batches in this order, each as early as may be, or so late that it takes fewer mixes."""
    waiting, tried = [(None,) * len(batches)], set()
    while waiting:
        most = waiting.pop()
        if most in tried:
            continue
        tried.add(most)
        value = evaluate(job, stretches, batches, most)
        if value is None:
            continue
        yield value
        for i, batch in enumerate(batches):
            if batch.kind.working is not None and batch.work > fewest_minutes(job, batch):
                waiting.append(most[:i] + (batch.work - MIX_MIN,) + most[i + 1:])


def evaluate(job, stretches, batches, most):
    """(lateness, work, ready) of batches in this order, or None."""
    floors = {}
    for _ in range(4000):
        placed = place(job, stretches, batches, floors, most)
        if placed is None:
            return None
        ends, starts, work = placed
        missed = False
        for (p, s), begun in starts.items():
            before = job.pieces[p].steps[s - 1] if s else None
            if before is not None and before.window is not None:
                needed = max(begun) - before.window  # of an end; the window closes at the last five minutes within it
                if (min(ends[p, s - 1]) + before.window) // GRID * GRID < max(begun):
                    first = min(starts[p, s - 1])
                    floors[p, s - 1] = max(floors.get((p, s - 1), 0), first + 1, first + needed - min(ends[p, s - 1]))
                    missed = True
        if not missed:
            ready = max(over(job.pieces[p].steps[s], max(e), job.pieces[p].steps[s].held) for (p, s), e in ends.items()
                        if s == len(job.pieces[p].steps) - 1)
            late = 0 if job.deliver is None else max(0, ready - (job.deliver - job.to_spare))
            truly = 0 if job.deliver is None else max(0, ready - job.deliver)
            return ((late if late else 0), truly, work, ready)
    return None


def partitions(units):
    """Every way to share numbers among two persons, up to units that are alike: (first's, second's), none of them empty."""
    seen = set()
    for mask in range(1, 2 ** len(units) - 1):
        first = tuple(i for i in range(len(units)) if mask >> i & 1)
        second = tuple(i for i in range(len(units)) if not mask >> i & 1)
        key = tuple(sorted(units[i] for i in first)), tuple(sorted(units[i] for i in second))
        if key not in seen:
            seen.add(key)
            yield first, second


def shares(job):
    """Every choice of who works on which units: for each step of each piece one list of (person, numbers)."""
    choices = []
    for p, piece in enumerate(job.pieces):
        for s, step in enumerate(piece.steps):
            able = [i for i, person in enumerate(job.people) if person.does is None or step.kind.name in person.does]
            every = tuple(range(len(step.units)))
            ways = [((p, s, i, every),) for i in able]
            if job.may_share and len(able) > 1:
                ways += [((p, s, a, first), (p, s, b, second)) for a, b in itertools.permutations(able, 2)
                         for first, second in partitions(step.units) if a < b or len(first) != len(second)]
            choices.append(ways)
    for chosen in itertools.product(*choices):
        yield [row for rows in chosen for row in rows]


def orders(job, rows, hopeless):
    """Every order of batches over these rows that respects the steps of each piece, large batches first; what grows from a
    beginning that is `hopeless` is left out."""
    def grow(left, made):
        if hopeless(made, left):
            return
        if not left:
            yield made
            return
        for kind, person in sorted({(kind_of(job, r), r[2]) for r in open_rows(left)}, key=lambda k: (k[0].name, k[1])):
            mine = [r for r in left if r[2] == person and kind_of(job, r) == kind]
            for group in sorted(sequences(left, mine), key=len, reverse=True):
                rest = [r for r in left if r not in group]
                yield from grow(rest, made + [Batch(kind, person, tuple((p, s, n) for p, s, _, n in group))])
    yield from grow(rows, [])


def open_rows(left):
    """Rows that wait for none of these."""
    return [r for r in left if not any(q[0] == r[0] and q[1] < r[1] for q in left)]


def sequences(left, mine):
    """Every sequence of some of the rows that one batch may take one after another, a step behind its piece's step before."""
    found = []

    def extend(taken):
        rest = [r for r in left if r not in taken]
        for row in open_rows(rest):
            if row in mine:
                found.append(taken + [row])
                extend(taken + [row])
    extend([])
    return found


def kind_of(job, row):
    return job.pieces[row[0]].steps[row[1]].kind


def least_work(job, made, left, units):
    """Minutes that no plan that begins with these batches takes less than: a mix may be shared, a set-up may not."""
    kinds = {(kind_of(job, r), r[2]) for r in left}
    return units + sum(b.kind.set_up + b.kind.clean_up for b in made) + sum(k.set_up + k.clean_up for k, _ in kinds)


def best(job):
    """((lateness against the day to spare, lateness, work, ready), batches) of the best plan; None where there is none."""
    stretches, found = stretches_of(job), [None]
    units = sum(sum(step.units) for piece in job.pieces for step in piece.steps)

    def hopeless(made, left):
        if found[0] is None or job.soonest or found[0][1][0] > 0:
            return False
        return least_work(job, made, left, units) > found[0][1][2]

    for rows in sorted(shares(job), key=len):
        for batches in orders(job, rows, hopeless):
            for value in values(job, stretches, batches):
                key = ((value[3], value[2]) if job.soonest else aim(value)), len(batches)
                if found[0] is None or key < found[0][0]:
                    found[0] = key, value, [Batch(b.kind, b.person, b.rows, b.start, b.end, b.work, list(b.spans))
                                            for b in batches]
    return found[0] and found[0][1:]


def aim(value):
    """Lateness against the day to spare where that can be held, else against the delivery; then work; then ready."""
    late, truly, work, ready = value
    return (late > 0, truly, work, ready)
