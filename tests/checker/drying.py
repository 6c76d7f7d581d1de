"""Air and drying in changing air.

Air is piecewise constant, so progress is an exact sum: rates become whole millionths of a reference minute per minute
once, and all after is integers and fractions.
"""
import bisect
import datetime as dt
import math
from collections import namedtuple
from fractions import Fraction as F

import hours
import log_reader

MILLION = 10 ** 6
SLOT = 5
TOLERANCE = F(1, 60)  # rounding tolerates 1 s
REACTION_STATES = {"wrap", "light-use", "cured"}
WINDOW = "end of the recoat window"  # runs on where it is too cold for the film
Spell = namedtuple("Spell", "begin temperature humidity")


def saturation(t):
    """hPa over water: WMO-No. 8, annex 4.B."""
    return 6.112 * math.exp(17.62 * t / (243.12 + t))


def deficit(t, humidity):
    return saturation(t) * (1 - humidity)


def dew_point(t, humidity):
    """The inverse of the same form; minus infinity for dry air."""
    if humidity <= 0:
        return -math.inf
    x = math.log(humidity * saturation(t) / 6.112)
    return 243.12 * x / (17.62 - x)


def raw_rate(finish, state, t, humidity):
    """Progress per minute relative to reference air."""
    reference, ref_humidity = float(finish.at[0]), float(finish.at[1])
    if finish.dries_by == "none":
        return 1.0
    doubling = (2.4 if getattr(finish, "family", None) == "epoxy" else 2.0) ** ((t - reference) / 10)
    if t < float(finish.air[0][0]):
        return max(doubling, 0.25) if state == WINDOW else 0.0
    if finish.dries_by == "solvent":
        return 2 ** ((t - reference) / 12)
    if finish.dries_by == "water" and state not in REACTION_STATES:
        return min(1.5, deficit(t, humidity) / deficit(reference, ref_humidity))
    if finish.dries_by == "moisture":
        return doubling * humidity / ref_humidity
    if finish.dries_by == "oxidation" and humidity > 0.75:
        return doubling * 0.7
    return doubling


def rate(finish, state, t, humidity):
    """Whole millionths a minute."""
    return math.floor(raw_rate(finish, state, t, humidity) * MILLION + 0.5)


class Air:
    """The air of a shop as spells from the day before `first` on; the last spell goes on."""

    def __init__(self, entries, zone, first, measured=(), days=1200):
        self.daily = sorted((clock, t, h) for on, clock, t, h in entries if on is None)
        self.dated = {}
        for on, clock, t, h in entries:
            if on is not None:
                self.dated.setdefault(dt.date.fromisoformat(on), []).append((clock, t, h))
        self.spells = []
        day = hours.wall(first, zone).date() - dt.timedelta(days=1)
        self.append(Spell(hours.at_wall(day, "00:00", zone), *map(float, self.of_day(day - dt.timedelta(days=1))[-1][1:])))
        for _ in range(days):
            for clock, t, h in self.of_day(day):
                self.append(Spell(hours.at_wall(day, clock, zone), float(t), float(h)))
            day += dt.timedelta(days=1)
        self.spells = list(self.with_measured(measured))
        self.begins = [s.begin for s in self.spells]

    def with_measured(self, measured):
        """What was measured holds until it is measured again, or the round goes on."""
        rows = [Spell(begin, float(t), float(h)) for begin, t, h in measured]
        for spell, after in zip(self.spells, [s.begin for s in self.spells[1:]] + [None]):
            inside = [row for row in rows if row.begin >= spell.begin and (after is None or row.begin < after)]
            if not inside or inside[0].begin > spell.begin:
                yield spell
            yield from inside

    def of_day(self, day):
        """A day's entries: the dated ones where there are any, else the daily round."""
        return sorted(self.dated.get(day, self.daily))

    def append(self, spell):
        """A spell that begins with the last one, or before it on a day of clock change, takes its place."""
        while self.spells and self.spells[-1].begin >= spell.begin:
            self.spells.pop()
        self.spells.append(spell)

    def over(self, begin, end):
        """The spells that begin..end meets."""
        first = max(bisect.bisect_right(self.begins, begin) - 1, 0)
        last = bisect.bisect_left(self.begins, end)
        return self.spells[first:max(last, first + 1)]


class Clock:
    """Progress of a film towards a state of one finish."""

    def __init__(self, finish, state, air):
        self.begins = air.begins
        self.rates = [rate(finish, state, s.temperature, s.humidity) for s in air.spells]
        self.progress = [0]
        for i, begin in enumerate(self.begins[1:]):
            self.progress.append(self.progress[-1] + self.rates[i] * (begin - self.begins[i]))

    def at(self, minute):
        """Millionths of reference minutes done by a moment."""
        i = max(bisect.bisect_right(self.begins, minute) - 1, 0)
        return self.progress[i] + self.rates[i] * (minute - self.begins[i])

    def reach(self, start, needed):
        """The first moment at which `needed` reference minutes have passed since `start`; None: never."""
        target = self.at(start) + F(needed) * MILLION
        if needed <= 0:
            return F(start)
        i = bisect.bisect_left(self.progress, target) - 1
        if self.rates[i] == 0:
            return None
        return self.begins[i] + F(target - self.progress[i]) / self.rates[i]

    def last(self, start, needed):
        """The last moment at which no more than `needed` reference minutes have passed since `start`; None: no end."""
        target = self.at(start) + F(needed) * MILLION
        i = bisect.bisect_right(self.progress, target) - 1
        if self.rates[i] == 0:
            later = next((j for j in range(i, len(self.rates)) if self.rates[j]), None)
            return None if later is None else F(self.begins[later])
        return self.begins[i] + F(target - self.progress[i]) / self.rates[i]


class Drying:
    """Clocks by finish and kind of state, made once each."""

    def __init__(self, job):
        first = min([job.start] + [entry.began or entry.done for entry in job.log if entry.kind == "step"])
        self.air = Air(job.shop.air, job.zone, first, log_reader.measured(job.log))
        self.clocks = {}

    def clock(self, finish, state):
        key = (finish.id, state in REACTION_STATES, state == WINDOW)
        if key not in self.clocks:
            self.clocks[key] = Clock(finish, state, self.air)
        return self.clocks[key]

    def reach(self, finish, state, end, number, tool=None):
        """When the number-th coat of a finish, laid by `end`, comes to a state."""
        return self.clock(finish, state).reach(end, finish.times(number, tool).after[state])

    def window_end(self, finish, end, number, tool=None):
        """When the recoat window of a coat laid by `end` closes; None: it stays open."""
        last = finish.times(number, tool).recoat_last
        return None if last is None else self.clock(finish, WINDOW).last(end, last)


def up(moment):
    """The next 5 minutes of the clock; None stays never."""
    return None if moment is None else SLOT * math.ceil((F(moment) - TOLERANCE) / SLOT)


def down(moment):
    """The last 5 minutes of the clock; None stays no end."""
    return None if moment is None else SLOT * math.floor(F(moment) / SLOT)
