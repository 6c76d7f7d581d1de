"""Units of work: one part on one side at one step, in minutes, and how a batch of them runs through a person's day.

A unit is handling and area x work / (rate x ease); with a finish that is wiped off, neighbours are one section while they
can be applied and wiped together in its time, and a part that cannot is applied in the least sections that it needs: one
unit all the same. A unit is never interrupted. The units of an item (a lot at one step on one side) end at their sum in whole seconds;
within a batch a unit begins in the second in which the one before it ended. Told moments are rounded up to whole minutes.
"""
import bisect
import math

import finish_reader
import minutes
import passes

GRID = 5
FLIP = 1  # minutes a part
SECOND = 1 / 60
MILLISECOND = 0.001  # of a second: what sums of binary fractions may differ by
REST = 120
REST_SPRAYED = 30


class Instances:
    """The parts of a piece, one by one, in the order of the part list."""

    def __init__(self, surfaces, piece):
        parts = {id(s.part): s.part for s in surfaces if s.part.piece == piece and s.schedule and s.area > 0 and not s.patch}
        self.list = [(part, i) for part in parts.values() for i in range(part.qty)]
        self.surfaces = [s for s in surfaces if s.part.piece == piece and s.schedule and s.area > 0 and not s.patch]

    def weight(self, index):
        """What a part counts when a piece is divided into lots: area x work / ease."""
        part = self.list[index][0]
        return sum(s.area / part.qty * float(part.work) / passes.ease(s) for s in self.surfaces if s.part is part)


def mine(pas, part):
    return [s for s in pas.surfaces if s.part is part]


def area_minutes(job, pas, part, key):
    """Minutes that one part of a row takes at a rate."""
    rate = float(job.shop.rate(key)) / 60
    return sum(s.area / part.qty * float(part.work) / (rate * passes.ease(s)) for s in mine(pas, part))


def handling(job, key):
    usual = 1.5 if key in finish_reader.SPRAYED else 0 if key == "raise" else 1
    return float(job.shop.span("handling", key, usual))


def chosen(pas, instances, numbers):
    """The parts of a pass among some instances, one by one."""
    return [instances.list[i][0] for i in numbers if mine(pas, instances.list[i][0])]


def plain(job, pas, instances, numbers, key):
    """Sanding, scuffing, rubbing out, polishing, raising, and coats that are not wiped off."""
    return [handling(job, key) + area_minutes(job, pas, part, key) for part in chosen(pas, instances, numbers)]


def flips(pas, instances, numbers):
    return [FLIP for _ in chosen(pas, instances, numbers)]


def takes(step, count, of):
    """`takes` of the whole step by the share of its parts, and `takes-each` for every part."""
    import measure
    whole = [float(measure.span(step["takes"])) * count / of] if "takes" in step else []
    return whole + ([float(measure.span(step["takes-each"]))] * count if "takes-each" in step else [])


def wipe_fits(lay, wipe, window):
    """Minutes of one section with its wait and its wiping; None: some spot would be wiped too late."""
    least, most = window
    taken = max(lay, least) + wipe
    return taken if lay <= most + 1e-9 and taken - lay <= most + 1e-9 else None


def sections(job, pas, instances, numbers, coat, window):
    """Units of a coat that is wiped off."""
    found, open_section = [], None  # minutes of handling, applying and wiping of the section so far
    for part in chosen(pas, instances, numbers):
        lay, wipe, held = area_minutes(job, pas, part, coat.tool), area_minutes(job, pas, part, "wipe"), handling(job, coat.tool)
        if open_section and wipe_fits(open_section[1] + lay, open_section[2] + wipe, window) is not None:
            open_section = (open_section[0] + held, open_section[1] + lay, open_section[2] + wipe)
            continue
        found += [open_section[0] + wipe_fits(*open_section[1:], window)] if open_section else []
        count = next(n for n in range(1, 10000) if wipe_fits(lay / n, wipe / n, window) is not None)
        each = wipe_fits(lay / count, wipe / count, window)
        found += [held + each * count] if count > 1 else []
        open_section = (held, lay, wipe) if count == 1 else None
    return found + ([open_section[0] + wipe_fits(*open_section[1:], window)] if open_section else [])


def of_coat(job, pas, lot, coat, temperature):
    """Units of a coat, wiped off or not."""
    if not coat.finish.is_wiped(coat.run):
        return plain(job, pas, lot.instances, lot.parts, coat.tool)
    return sections(job, pas, lot.instances, lot.parts, coat, minutes.wipe_window(coat.finish, temperature))


def seconds(units):
    """When each unit of an item ends, in whole seconds from its start."""
    total, ends = 0.0, []
    for unit in units:
        total += unit
        ends.append(max(0, math.ceil(60 * total - MILLISECOND)))
    return ends


def told(second):
    """The minute that is told of a second."""
    return -(-second // 60)


class Tool:
    """What a batch needs beside its units: minutes of set-up and clean-up, the longest rest, and its mixes."""

    def __init__(self, set_up, clean_up, rest, working=None, pot_life=None, induction=0):
        self.set_up, self.clean_up, self.rest = math.ceil(set_up - SECOND), math.ceil(clean_up - SECOND), rest
        self.working, self.pot_life, self.induction = working, pot_life, induction


class Run:
    """A batch from its start on: spans of its items, its mixes, its end and its hands-on minutes; `wrong` says why not. It is
    run in seconds; spans, mixes, end and work are told in minutes.

    An item is its units and whether they take of the mix; a flip among coats does not."""

    def __init__(self, person_hours, tool, items, start):
        self.hours, self.tool, self.now, self.worked, self.wrong = person_hours, tool, 60 * start, 0, None
        self.spans, self.mixes, self.pauses, self.resumed = [], [], [], None
        self.stretch = bisect.bisect_right(person_hours.starts, start) - 1
        if self.stretch < 0 or self.now >= self.closing():
            self.wrong = "nobody is there at its start"
            return
        self.do(60 * tool.set_up)
        first = True
        for units, wet in items:
            first = self.item(units, first, wet)
        self.do(60 * tool.clean_up)
        self.end, self.work = -(-told(self.now) // GRID) * GRID, told(self.worked)

    def closing(self):
        return 60 * self.hours.stretches[self.stretch][1]

    def do(self, length):
        if self.now + length > self.closing():
            self.wrong = self.wrong or "it goes on when nobody is there"
        self.now, self.worked = self.now + length, self.worked + length

    def item(self, units, first, wet):
        began, done = None, 0
        for ends in seconds(units):
            length, done = ends - done, ends
            need = self.mixing(length) if wet else 0
            if self.now + need + length > self.closing() and not first:
                self.pause()
                need = self.mixing(length) if wet else 0
            if need:
                self.do(need)
                self.ready = self.now
                self.stirred = self.now - 60 * self.tool.induction
                self.mixes.append(told(self.stirred - 60 * minutes.MIXING))
            began = self.now if began is None else began
            self.do(length)
            first = False
        self.spans.append((told(self.now if began is None else began), told(self.now)))
        return first

    def mixing(self, length):
        """Seconds of mixing before a unit; nothing where the mix at hand still serves it."""
        if self.tool.working is None:
            return 0
        if self.mixes and self.now + length <= self.ready + 60 * self.tool.working + 1:
            return 0
        return 60 * minutes.MIXING + self.standing()

    def standing(self):
        """Seconds that a mix stands before its use while nothing is done: a later one is stirred while the one before is used, but not
        in a break."""
        if not self.mixes:
            return 60 * self.tool.induction
        return 0 if self.resumed is None else max(0, 60 * self.tool.induction - (self.now - self.resumed))

    def pause(self):
        if self.stretch + 1 >= len(self.hours.stretches):
            self.wrong = self.wrong or "it never goes on"
            return
        resumed = 60 * self.hours.stretches[self.stretch + 1][0]
        self.pauses.append((told(self.now), told(resumed)))
        if not may_rest(self.hours, self.tool, self.now, resumed, self.stirred if self.mixes else None):
            self.wrong = self.wrong or "its tool rests too long"
        self.stretch, self.now, self.resumed = self.stretch + 1, resumed, resumed


def may_rest(person_hours, tool, begin, end, stirred):
    """Whether a tool may lie at rest between two seconds: dry work within one day, a mix in the tool while it lives."""
    import hours
    if tool.rest is None:
        return hours.wall(begin // 60, person_hours.zone).date() == hours.wall(end // 60, person_hours.zone).date()
    alive = tool.pot_life is None or stirred is None or end <= stirred + 60 * tool.pot_life + 1
    return end - begin <= 60 * tool.rest and alive
