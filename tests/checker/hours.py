"""Moments and the shop's working hours, in whole minutes since 1970-01-01 00:00 UTC.

Working hours are wall-clock; durations and waits are real minutes, so a clock change is met by converting each
wall-clock moment on its own.
"""
import bisect
import datetime as dt
import re
from zoneinfo import ZoneInfo

DAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
EPOCH = dt.datetime(1970, 1, 1, tzinfo=dt.timezone.utc)
MORNING, AFTERNOON = ("08:00", "12:00"), ("13:00", "17:00")
DEFAULT_HOURS = {day: [MORNING, AFTERNOON] for day in DAYS[:5]}


def minutes(moment):
    """Minutes since the epoch of a moment with zone; seconds become a fraction."""
    seconds = (moment - EPOCH).total_seconds()
    return int(seconds // 60) if seconds % 60 == 0 else seconds / 60


def from_text(text, zone):
    """Minutes of `2027-03-01 08:00` (wall clock of the zone) or of RFC 3339 text with offset."""
    moment = dt.datetime.fromisoformat(text.strip().replace("Z", "+00:00"))
    return minutes(moment if moment.tzinfo else moment.replace(tzinfo=ZoneInfo(zone)))


def wall(minute, zone):
    """The wall-clock moment of a minute."""
    return (EPOCH + dt.timedelta(minutes=minute)).astimezone(ZoneInfo(zone))


def show(minute, zone):
    """A moment as a person reads it."""
    return "never" if minute is None else wall(float(minute), zone).strftime("%a %Y-%m-%d %H:%M")


def at_wall(day, clock, zone):
    """Minutes of a wall-clock time on a civil date; `24:00` is the next day's midnight."""
    hour, minute = (int(part) for part in clock.split(":"))
    day, hour = (day + dt.timedelta(days=1), 0) if hour == 24 else (day, hour)
    return minutes(dt.datetime(day.year, day.month, day.day, hour, minute, tzinfo=ZoneInfo(zone)))


def closed_days(entries):
    """The civil dates of `2027-03-08` and `2027-03-12..2027-03-14`."""
    days = set()
    for entry in entries:
        first, _, last = (part.strip() for part in entry.partition(".."))
        day, end = dt.date.fromisoformat(first), dt.date.fromisoformat(last or first)
        while day <= end:
            days.add(day)
            day += dt.timedelta(days=1)
    return days


def without(stretch, busy):
    """The parts of a stretch that no busy interval touches."""
    rest = [stretch]
    for begin, end in busy:
        pieces = [piece for a, b in rest for piece in ((a, min(b, begin)), (max(a, end), b))]
        rest = [(a, b) for a, b in pieces if a < b]
    return rest


def joined(stretches):
    """Stretches in order, those that touch made one."""
    result = []
    for begin, end in sorted(stretches):
        if result and begin <= result[-1][1]:
            result[-1] = (result[-1][0], max(end, result[-1][1]))
        else:
            result.append((begin, end))
    return result


class Hours:
    """When the shop works, from the day before `first` on for as many days as asked."""

    def __init__(self, shop, zone, first, days=430):
        self.shop, self.zone = shop, zone
        day = wall(first, zone).date() - dt.timedelta(days=1)
        found = []
        for _ in range(days):
            found += [part for stretch in self.day_stretches(day) for part in without(stretch, shop.busy)]
            day += dt.timedelta(days=1)
        self.stretches = joined(found)
        self.starts = [begin for begin, _ in self.stretches]

    def day_stretches(self, day):
        if day in self.shop.closed:
            return []
        spans = self.shop.hours.get(DAYS[day.weekday()], [])
        return [(at_wall(day, a, self.zone), at_wall(day, b, self.zone)) for a, b in spans]

    def nearest(self, day, closing):
        """The first opening from a day on, or the last closing up to it."""
        step = dt.timedelta(days=-1 if closing else 1)
        for _ in range(4000):
            stretches = self.day_stretches(day)
            if stretches:
                return max(b for _, b in stretches) if closing else min(a for a, _ in stretches)
            day += step
        raise ValueError("the shop never opens")

    def holds(self, begin, end):
        """Whether begin..end lies inside one working stretch."""
        place = bisect.bisect_right(self.starts, begin) - 1
        return place >= 0 and end <= self.stretches[place][1]

    def longest(self):
        """Minutes of the longest working stretch."""
        return max((b - a for a, b in self.stretches), default=0)

    def moment(self, text, closing=False):
        """A moment of the job; a date alone is that day's opening, or its closing where asked, else the nearest."""
        if re.fullmatch(r"\d{4}-\d\d-\d\d", text.strip()):
            return self.nearest(dt.date.fromisoformat(text.strip()), closing)
        return from_text(text, self.zone)


def span_of_day(text):
    """`08:00-12:30` as its two clock times."""
    first, last = (part.strip() for part in text.split("-"))
    return first, last
