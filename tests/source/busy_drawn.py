#!/usr/bin/env python3
"""Calendars drawn from a seed, and what each keeps busy by another expansion: dateutil's rules and zoneinfo's clocks.

Prints, for each calendar: "window FROM TO" in minutes since 1970, the octets of its text as "text COUNT", the text, and one
line "busy FROM TO ..." of the joined times that meet the window. Usage: busy_drawn.py SEED COUNT
"""
import datetime as dt
import random
import sys
from zoneinfo import ZoneInfo

from dateutil.rrule import rrulestr

dt.MAXYEAR = 2029  # up to there dateutil looks for a rule that never comes true
UTC = dt.timezone.utc
SHOP = "Europe/London"
EPOCH = dt.datetime(1970, 1, 1, tzinfo=UTC)
DAYS = ["MO", "TU", "WE", "TH", "FR", "SA", "SU"]
# A zone that no system knows by this name: New York's rules as its calendar tells them.
OWN = """BEGIN:VTIMEZONE
TZID:Workshop Time
BEGIN:DAYLIGHT
TZOFFSETFROM:-0500
TZOFFSETTO:-0400
DTSTART:20070311T020000
RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=2SU
END:DAYLIGHT
BEGIN:STANDARD
TZOFFSETFROM:-0400
TZOFFSETTO:-0500
DTSTART:20071104T020000
RRULE:FREQ=YEARLY;BYMONTH=11;BYDAY=1SU
END:STANDARD
END:VTIMEZONE
"""
ZONES = {"": SHOP, "Z": "UTC", "Europe/London": "Europe/London", "America/New_York": "America/New_York",
         "Australia/Sydney": "Australia/Sydney", "Workshop Time": "America/New_York"}
WINDOWS = [("2027-03-08", "2027-04-12"), ("2027-10-11", "2027-11-15")]


def minutes(moment):
    return int((moment - EPOCH).total_seconds() // 60)


def moment(wall, zone):
    """PEP 495 with fold 0 is RFC 5545, 3.3.5: a skipped time by the offset before, a doubled one the first time."""
    return wall.replace(tzinfo=ZoneInfo(ZONES[zone])).astimezone(UTC)


def stamp(wall, zone=""):
    return wall.strftime("%Y%m%dT%H%M%S") + ("Z" if zone == "Z" else "")


def stamped(name, wall, zone, whole):
    if whole:
        return f"{name};VALUE=DATE:{wall:%Y%m%d}"
    tzid = f";TZID={zone}" if zone not in ("", "Z") else ""
    return f"{name}{tzid}:{stamp(wall, zone)}"


def utc_stamp(when):
    return when.strftime("%Y%m%dT%H%M%SZ")


class Draw:
    def __init__(self, seed):
        self.random = random.Random(seed)
        self.window = self.random.choice(WINDOWS)
        self.first, self.last = (dt.datetime.fromisoformat(day) for day in self.window)
        self.busy, self.lines, self.uid = [], [], 0

    def chance(self, part):
        return self.random.random() < part

    def some(self, items, most=3):
        return self.random.sample(items, self.random.randint(1, min(most, len(items))))

    def ordinals(self, numbers):
        """Weekdays that are all numbered or all not: of a mixture dateutil takes those that are both."""
        plain = self.chance(0.3)
        return ",".join(("" if plain else self.random.choice(numbers)) + day for day in self.some(DAYS))

    def rule(self, start, whole):
        """The text of a rule without its end."""
        kind = self.random.choice(["DAILY", "WEEKLY", "WEEKLY", "MONTHLY", "MONTHLY", "YEARLY"] + ([] if whole else ["HOURLY"]))
        parts = [f"FREQ={kind}"]
        if self.chance(0.4):
            parts.append(f"INTERVAL={self.random.randint(2, 4) if kind != 'HOURLY' else self.random.randint(5, 30)}")
        numbers = lambda values: ",".join(map(str, sorted(values)))
        if kind == "DAILY" and self.chance(0.3):
            parts.append("BYDAY=" + ",".join(self.some(DAYS, 5)))
        if kind == "WEEKLY" and self.chance(0.7):
            parts.append("BYDAY=" + ",".join(self.some(DAYS, 4)))
            if self.chance(0.4):
                parts.append("WKST=" + self.random.choice(["MO", "SU", "TH"]))
        if kind == "MONTHLY" and self.chance(0.8):
            if self.chance(0.5):
                parts.append("BYDAY=" + self.ordinals(["1", "2", "-1", "-2", "3"]))
            else:
                parts.append("BYMONTHDAY=" + numbers(self.some([1, 2, 9, 14, 15, 28, 29, 30, 31, -1, -3])))
        if kind == "YEARLY":
            month = self.first.month + self.random.randint(0, 1)
            if self.chance(0.6):
                parts += [f"BYMONTH={month}", "BYDAY=" + self.ordinals(["1", "2", "-1"])]
            elif self.chance(0.5):
                day = self.first.timetuple().tm_yday
                parts.append("BYYEARDAY=" + numbers({day + self.random.randint(0, 30), -self.random.randint(250, 300)}))
            elif not any(p.startswith("INTERVAL") for p in parts):
                week = self.first.isocalendar()[1] + self.random.randint(0, 4)
                parts += [f"BYWEEKNO={week}", "BYDAY=" + ",".join(self.some(DAYS))]
        if kind in ("DAILY", "WEEKLY", "MONTHLY") and not whole and self.chance(0.15):
            parts.append("BYHOUR=" + numbers(self.some(list(range(24)), 2)))
        # In the first week dateutil counts positions from the start on, in the first month all of it: whole weeks alone here.
        whole_week = start.weekday() == 0 and not any(p.startswith("WKST") for p in parts)
        positions = kind == "MONTHLY" or (kind == "WEEKLY" and whole_week)
        if positions and any(p.startswith("BYDAY") for p in parts) and self.chance(0.3):
            parts.append("BYSETPOS=" + numbers(self.some([1, 2, -1])))
        return ";".join(parts)

    def starts(self, start, zone, whole):
        """Walls of a rule that begins at `start`, and its line."""
        text = self.rule(start, whole)
        limit = self.last + dt.timedelta(days=3)
        until = None
        if self.chance(0.35):
            text += f";COUNT={self.random.randint(1, 60)}"
        elif self.chance(0.5):
            wall = start + dt.timedelta(days=self.random.randint(0, 300), minutes=30 * self.random.randint(0, 40))
            until = wall.date() if whole else moment(wall, zone)
        walls = [] if until is not None else None
        rule = rrulestr(text, dtstart=start)
        found = []
        for wall in rule:
            if wall > limit or (until is not None and ((wall.date() > until) if whole else moment(wall, zone) > until)):
                break
            found.append(wall)
        if until is not None:
            text += ";UNTIL=" + (f"{until:%Y%m%d}" if whole else utc_stamp(until))
        return sorted(set(found) | {start}), f"RRULE:{text}"

    def length(self, start, zone, whole):
        """A function from an occurrence's wall to its end, and the line that says it."""
        if whole:
            days = self.random.randint(1, 3)
            line = self.random.choice([f"DTEND;VALUE=DATE:{start + dt.timedelta(days=days):%Y%m%d}", f"DURATION:P{days}D"])
            return (lambda wall: moment(wall + dt.timedelta(days=days), "")), line
        if self.chance(0.3):
            days, rest = self.random.choice([(1, 0), (1, 60), (0, 1440), (2, 0)])
            line = "DURATION:P" + (f"{days}D" if days else "") + (f"T{rest}M" if rest else "")
            return (lambda wall: moment(wall + dt.timedelta(days=days), zone) + dt.timedelta(minutes=rest)
                    if days else moment(wall, zone) + dt.timedelta(minutes=rest)), line
        end = start + dt.timedelta(minutes=15 * self.random.randint(1, 120))
        exact = moment(end, zone) - moment(start, zone)
        if exact <= dt.timedelta(0):
            exact = dt.timedelta(minutes=45)
            return (lambda wall: moment(wall, zone) + exact), "DURATION:PT45M"
        return (lambda wall: moment(wall, zone) + exact), stamped("DTEND", end, zone, False)

    def block(self, begin, end):
        self.busy.append((minutes(begin), minutes(end)))

    def event(self):
        uid = f"event-{self.uid}"
        self.uid += 1
        whole = self.chance(0.2)
        zone = "" if whole else self.random.choice(list(ZONES))
        start = self.first + dt.timedelta(days=self.random.randint(-200, 40))
        if not whole:
            start += dt.timedelta(minutes=self.random.choice([0, 30, 60, 90, 120, 150, 540, 555, 840, 1380]))
        end_of, end_line = self.length(start, zone, whole)
        walls, lines = [start], [f"UID:{uid}", stamped("DTSTART", start, zone, whole), end_line]
        if self.chance(0.75):
            walls, line = self.starts(start, zone, whole)
            lines.append(line)
        opaque = not self.chance(0.07)
        if not opaque:
            lines.append(self.random.choice(["TRANSP:TRANSPARENT", "STATUS:CANCELLED"]))
        gone = set()
        for wall in walls:
            if self.chance(0.08):
                gone.add(wall)
                named = self.random.choice(["", zone]) if zone != "Z" else "Z"
                lines.append(stamped("EXDATE", wall, named, whole) if named == zone or whole else f"EXDATE:{stamp(wall)}")
        extra = []
        if not whole and self.chance(0.15):
            begin = moment(self.first + dt.timedelta(days=self.random.randint(0, 30), hours=9), zone)
            if self.chance(0.5):
                extra.append((begin, begin + dt.timedelta(hours=3)))
                lines.append(f"RDATE;VALUE=PERIOD:{utc_stamp(begin)}/" + self.random.choice(["PT3H", utc_stamp(begin + dt.timedelta(hours=3))]))
            else:
                wall = begin.astimezone(ZoneInfo(ZONES[zone])).replace(tzinfo=None)
                extra.append((begin, end_of(wall)))
                lines.append(f"RDATE:{utc_stamp(begin)}")
        moved = []
        for wall in walls:
            if len(walls) > 1 and wall not in gone and opaque and not whole and self.chance(0.06):
                other = wall + dt.timedelta(minutes=15 * self.random.randint(-40, 40))
                cancelled = self.chance(0.3)
                gone.add(wall)
                moved.append([f"UID:{uid}", stamped("RECURRENCE-ID", wall, zone, False), stamped("DTSTART", other, zone, False),
                              "DURATION:PT2H"] + (["STATUS:CANCELLED"] if cancelled else []))
                if not cancelled:
                    self.block(moment(other, zone), moment(other, zone) + dt.timedelta(hours=2))
        if opaque:
            left = {moment(w, zone) for w in gone}
            for wall in walls:
                if moment(wall, zone) not in left:
                    self.block(moment(wall, zone), end_of(wall))
            for begin, end in extra:
                if begin not in left:
                    self.block(begin, end)
        self.lines += [["BEGIN:VEVENT", "DTSTAMP:20270101T000000Z"] + body + ["END:VEVENT"] for body in [lines] + moved]

    def free_busy(self):
        begin = moment(self.first + dt.timedelta(days=self.random.randint(0, 20), hours=10), "Z")
        kind = self.random.choice(["FREE", "BUSY", "BUSY-TENTATIVE", ""])
        self.lines.append(["BEGIN:VFREEBUSY", "UID:free", "DTSTAMP:20270101T000000Z",
                           "FREEBUSY" + (f";FBTYPE={kind}" if kind else "") + f":{utc_stamp(begin)}/PT2H", "END:VFREEBUSY"])
        if kind != "FREE":
            self.block(begin, begin + dt.timedelta(hours=2))

    def text(self):
        components = [line for part in self.lines for line in part]
        lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//tests//tests//EN"] + OWN.split("\n")[:-1] + components + ["END:VCALENDAR"]
        folded = []
        for line in lines:
            while len(line) > 60 and self.chance(0.5):
                folded.append(line[:50])
                line = " " + line[50:]
            folded.append(line)
        return ("\r\n" if self.chance(0.8) else "\n").join(folded + [""])


def joined(times, first, last):
    kept = []
    for begin, end in sorted(t for t in times if t[1] > first and t[0] < last and t[1] > t[0]):
        if kept and begin <= kept[-1][1]:
            kept[-1][1] = max(kept[-1][1], end)
        else:
            kept.append([begin, end])
    return kept


def main():
    seed, count = int(sys.argv[1]), int(sys.argv[2])
    for number in range(count):
        draw = Draw(f"{seed}-{number}")
        for _ in range(draw.random.randint(1, 6)):
            draw.event()
        if draw.chance(0.2):
            draw.free_busy()
        draw.random.shuffle(draw.lines)
        text = draw.text().encode()
        first, last = minutes(moment(draw.first, "")), minutes(moment(draw.last, ""))
        sys.stdout.flush()
        sys.stdout.buffer.write(f"window {first} {last}\ntext {len(text)}\n".encode() + text)
        busy = " ".join(f"{a} {b}" for a, b in joined(draw.busy, first, last))
        sys.stdout.buffer.write(f"\nbusy {busy}\n".encode())
        sys.stdout.buffer.flush()


main()
