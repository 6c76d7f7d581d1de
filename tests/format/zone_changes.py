#!/usr/bin/env python3
"""The clocks of many places as two others read the system's zone files: zdump, for every change of every place from 1970 to 2037,
and Python's zoneinfo, for forty places up to then and far beyond, where only the rule at the end of a file says what holds.

Prints "zone NAME FIRST LAST", the years, then its "change MINUTE OFFSET" in order, the first at the beginning of those years, and
"local MINUTE MOMENT" around each change: what the wall shows, and the first moment at which it does, or, where the wall leaves it out,
the one that the offset before gives. Minutes are those since 1970, moments in UTC; a change within a minute counts from the next
one, the seconds of an offset are dropped.
"""
import datetime as dt
import re
import subprocess
from zoneinfo import ZoneInfo

UTC = dt.timezone.utc
EPOCH = dt.datetime(1970, 1, 1)
FORTY = """Europe/London Europe/Dublin Europe/Lisbon Europe/Berlin Europe/Paris Europe/Madrid Europe/Rome Europe/Athens Europe/Moscow
    Europe/Istanbul Atlantic/Azores Africa/Casablanca Africa/Cairo Africa/Johannesburg Africa/Monrovia America/New_York America/Chicago
    America/Denver America/Phoenix America/Los_Angeles America/Anchorage America/Adak America/Halifax America/St_Johns America/Mexico_City
    America/Sao_Paulo America/Santiago America/Asuncion America/Nuuk America/Scoresbysund Asia/Jerusalem Asia/Gaza Asia/Tehran
    Asia/Kathmandu Asia/Kolkata Asia/Tokyo Australia/Sydney Australia/Lord_Howe Pacific/Auckland Pacific/Chatham Pacific/Apia
    Antarctica/Troll""".split()
SPANS = [(1970, 2037), (2098, 2101), (2397, 2401)]
LINE = re.compile(r"^(\S+) +\w{3} (\w{3} [ \d]\d \d\d:\d\d:\d\d \d{4}) UT = .* gmtoff=(-?\d+)$")


def whole(seconds):
    """Minutes, towards nothing."""
    return int(seconds / 60)


def minute_of(moment):
    """The first whole minute at or after a moment without a zone."""
    return -((EPOCH - moment) // dt.timedelta(minutes=1))


def tell(name, first, last, start, changes):
    print(f"zone {name} {first} {last}\nchange {minute_of(dt.datetime(first, 1, 1))} {start}")
    for minute, offset in changes:
        if offset != start:
            print(f"change {minute} {offset}")
        start = offset


def of_zdump():
    with open("/usr/share/zoneinfo/zone.tab", encoding="utf-8") as file:
        names = [line.split("\t")[2].strip() for line in file if not line.startswith("#")]
    text = subprocess.run(["zdump", "-v", "-c", "1970,2038", *names], check=True, capture_output=True, text=True).stdout
    rows = {name: [] for name in names}
    for name, moment, offset in (match.groups() for match in map(LINE.match, text.splitlines()) if match):
        moment = dt.datetime.strptime(moment, "%b %d %H:%M:%S %Y")
        rows[name].append((minute_of(moment), whole(int(offset)), moment))
    for name in names:
        start = ZoneInfo(name).utcoffset(dt.datetime(1970, 1, 1, tzinfo=UTC).astimezone(ZoneInfo(name)))
        # Two rows a change: the last second before and the first one after.
        kept = [(minute, offset) for minute, offset, moment in rows[name] if 1970 <= moment.year <= 2037]
        tell(name, 1970, 2037, whole(start.total_seconds()), kept)


def offset_at(zone, moment):
    return whole(zone.fromutc(moment.replace(tzinfo=zone)).utcoffset().total_seconds())


def changes_of(zone, first, last):
    """Looked for by halves between moments a day apart."""
    step, moment, end = dt.timedelta(days=1), dt.datetime(first, 1, 1), dt.datetime(last + 1, 1, 1)
    offset = offset_at(zone, moment)
    while moment < end:
        after = offset_at(zone, moment + step)
        if after != offset:
            low, high = 0, step // dt.timedelta(seconds=1)
            while high - low > 1:
                middle = (low + high) // 2
                low, high = (low, middle) if offset_at(zone, moment + dt.timedelta(seconds=middle)) == after else (middle, high)
            yield moment + dt.timedelta(seconds=high), offset, after
            offset = after
        moment += step


def of_zoneinfo():
    for name in FORTY:
        zone = ZoneInfo(name)
        for first, last in SPANS:
            found = list(changes_of(zone, first, last))
            tell(name, first, last, offset_at(zone, dt.datetime(first, 1, 1)), [(minute_of(at), after) for at, _, after in found])
            for at, before, after in found:
                if at.second:
                    continue
                for minutes in range(-150, 151, 15):
                    wall = at + dt.timedelta(minutes=before + minutes)
                    moment = wall.replace(tzinfo=zone, fold=0).astimezone(UTC).replace(tzinfo=None)
                    print(f"local {minute_of(wall)} {minute_of(moment)}")


of_zdump()
of_zoneinfo()
