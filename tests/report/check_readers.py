#!/usr/bin/env -S python3 -B
"""Five programs that know nothing of us see the moments of the plan in its calendar: every example, in five zones, with a clock change
of each in the middle of the work; khal, calcurse, ruby-icalendar and python3-icalendar from Debian, and ical.js.

ical.js is in no package of Debian. It is taken from the folder that ICAL_JS names, or from build/readers, into which npm puts it
where there is one. Debian 12 has ruby-icalendar, Debian 13 has not. Where one cannot be had that is said in a line of its own."""
import collections
import datetime as dt
import json
import os
import platform
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
sys.path.insert(0, str(HERE.parent / "checker"))

import ics_moments
import program

UTC = dt.timezone.utc
ICAL_JS = "ical.js@2.2.1"
# A week before each clock changes, in spring and in autumn, by the zone files; St. John's is half an hour off, Kolkata as well, and
# never changes: there, the two halves of the year.
STARTS = {"Europe/Berlin": ("2027-03-22", "2027-10-25"), "America/New_York": ("2027-03-08", "2027-11-01"),
          "Australia/Sydney": ("2027-03-29", "2027-09-27"), "America/St_Johns": ("2027-03-08", "2027-11-01"),
          "Asia/Kolkata": ("2027-01-11", "2027-07-12")}
KHAL = """[calendars]
[[shop]]
path = {0}/calendar
[locale]
local_timezone = UTC
default_timezone = UTC
timeformat = %H:%M
dateformat = %Y-%m-%d
longdateformat = %Y-%m-%d
datetimeformat = %Y-%m-%d %H:%M
longdatetimeformat = %Y-%m-%d %H:%M
[sqlite]
path = {0}/database
"""


def variants(folder):
    """A copy of each example in each zone and half of the year: the paths of the jobs."""
    shutil.copytree(ROOT / "examples", folder, dirs_exist_ok=True)
    number = 0
    for path in program.examples():
        data = json.loads(Path(path).read_text(encoding="utf-8"))
        took = days(data["deliver"]) - days(data["start"])
        for zone, starts in STARTS.items():
            for half, start in zip("ab", starts):
                place = re.sub(r"\W+", "-", zone)
                data |= {"zone": zone, "start": f"{start} 08:00", "job": f"job {number}",
                         "deliver": f"{dt.date.fromisoformat(start) + took} 17:00"}
                job = Path(folder) / f"{Path(path).stem}-{place}-{half}.json"
                job.write_text(json.dumps(data), encoding="utf-8")
                number += 1
                yield job


def days(text):
    return dt.date.fromisoformat(text[:10])


def planned(job):
    """(plan's timetable, path of its calendar)."""
    out = job.with_suffix("")
    code, _, errors = program.run("plan", job, "--out", out, "--effort", "1", "--now", "2027-01-04")
    if code not in (0, 1):
        raise RuntimeError(f"{job.name}: {errors}")
    return json.loads((out / "plan.json").read_text(encoding="utf-8"))["timetable"], out / "timetable.ics"


def from_json(lines):
    """What readers.js and readers.rb print: a list of events for each calendar."""
    def at(value):
        return dt.date.fromisoformat(value) if isinstance(value, str) else dt.datetime.fromtimestamp(value / 1000, UTC)
    return [[(summary, at(start), at(end)) for summary, start, end in json.loads(line)] for line in lines.splitlines()]


def by_icalendar(calendars, folder):
    import icalendar
    for path in calendars:
        events = icalendar.Calendar.from_ical(path.read_bytes()).walk("VEVENT")
        yield [(str(e["SUMMARY"]), *(m.astimezone(UTC) if isinstance(m, dt.datetime) else m
                                     for m in (e["DTSTART"].dt, e.get("DTEND", e["DTSTART"]).dt))) for e in events]


def by_ruby(calendars, folder):
    return from_json(tool(["ruby", HERE / "readers.rb", *calendars]))


def by_ical_js(calendars, folder):
    return from_json(tool(["node", HERE / "readers.js", ical_js(), *calendars]))


def apart(events, calendars):
    """Events of all calendars in one list, each to the calendar whose job its summary names."""
    by_job = collections.defaultdict(list)
    for summary, start, end in events:
        by_job[re.search(r"\b(job \d+)\)?$", summary)[1]].append((summary, start, end))
    return [by_job[f"job {number}"] for number in range(len(calendars))]


def resources(path):
    """A calendar for each event, with the zones: so khal keeps them."""
    blocks = re.split(r"(?m)^(?=BEGIN:(?:VTIMEZONE|VEVENT|VTODO)\r$)", path.read_bytes().decode())
    zones = [block for block in blocks if block.startswith("BEGIN:VTIMEZONE")]
    for block in (block.removesuffix("END:VCALENDAR\r\n") for block in blocks if block.startswith("BEGIN:VEVENT")):
        yield "".join([blocks[0], *zones, block, "END:VCALENDAR\r\n"])


def by_khal(calendars, folder):
    """Its index is in memory where there is a place for that: it waits for the disk at each event. An event without an end, which is a
    moment (RFC 5545, 3.6.1), is an hour long to it: of such ones its beginnings count."""
    endless = set()
    memory = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None
    with tempfile.TemporaryDirectory(dir=memory) as home:
        shop = Path(home) / "calendar"
        shop.mkdir()
        for number, text in enumerate(text for path in calendars for text in resources(path)):
            (shop / f"{number}.ics").write_bytes(text.encode())
            if "\nDTEND" not in text:
                endless.add(re.search(r"(?m)^UID:(.*)\r$", text.replace("\r\n ", ""))[1])
        config = Path(home) / "config"
        config.write_text(KHAL.format(home))
        listed = tool(["khal", "-c", config, "list", "--once", "--day-format", "", "--format",
                       "{start-long}|{end-long}|{all-day}|{uid}|{title}", "2027-01-01", "500d"])
    return apart((seen_by_khal(line, endless) for line in listed.splitlines() if "|" in line), calendars)


def seen_by_khal(line, endless):
    start, end, whole, uid, title = line.split("|", 4)
    if whole == "True":
        return title, days(start), days(start)
    end = start if uid in endless else end
    return title, *(dt.datetime.strptime(text, "%Y-%m-%d %H:%M").replace(tzinfo=UTC) for text in (start, end))


def by_calcurse(calendars, folder):
    """What it keeps of them in its own file, by a clock of UTC."""
    home = Path(folder) / "calcurse"
    for path in calendars:
        tool(["calcurse", "-D", home, "-q", "-i", path], TZ="UTC")
    return apart((seen_by_calcurse(line) for line in (home / "apts").read_text(encoding="utf-8").splitlines()), calendars)


def seen_by_calcurse(line):
    whole = re.match(r"(\d\d/\d\d/\d{4}) \[1\] (?:>\S+ )?(.*)", line)
    if whole:
        day = dt.datetime.strptime(whole[1], "%m/%d/%Y").date()
        return whole[2], day, day
    start, end, title = re.match(r"(\S+ @ \S+) -> (\S+ @ \d\d:\d\d)(?:>\S*)? ?[|!](.*)", line).groups()
    return title, *(dt.datetime.strptime(text, "%m/%d/%Y @ %H:%M").replace(tzinfo=UTC) for text in (start, end))


def tool(command, **environment):
    done = subprocess.run([str(part) for part in command], env={**os.environ, **environment}, stdin=subprocess.DEVNULL,
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE, encoding="utf-8", timeout=300)
    if done.returncode:
        raise RuntimeError(f"{command[0]}: exit status {done.returncode}: {done.stderr.strip()[-400:]}")
    return done.stdout


def ical_js():
    """Its folder; None: it cannot be had."""
    named, kept = os.environ.get("ICAL_JS"), ROOT / "build" / "readers"
    if named:
        return Path(named)
    found = kept / "node_modules" / "ical.js"
    if not found.exists() and shutil.which("npm"):
        subprocess.run(["npm", "install", "--silent", "--no-save", "--no-package-lock", "--prefix", kept, ICAL_JS],
                       stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=120)
    return found if found.exists() else None


def differences(events, timetable):
    """What a reader finds otherwise than the plan says."""
    work = collections.Counter((start, end) for _, start, end in events if isinstance(start, dt.datetime) and start != end)
    moments = collections.Counter(start for _, start, end in events if isinstance(start, dt.datetime) and start == end)
    whole = [start for _, start, _ in events if not isinstance(start, dt.datetime)]
    wanted = ics_moments.plan_moments(timetable)
    windows = wanted.pop("window")
    told = sum(wanted.values(), collections.Counter())
    yield from ics_moments.counted_apart("it", "batch", work, ics_moments.plan_spans(timetable))
    yield from (f"no moment at {moment}" for moment in told - moments)
    yield from (f"a moment at {moment} that the plan does not have" for moment in moments - told - windows)
    first = min((days(s["start"]) for s in timetable["steps"] if s["do"] not in ("flip", "task")), default=None)
    if len(whole) > 1 or any(first is None or day >= first for day in whole):
        yield f"shopping on {whole}, the first work is on {first}"


def missing(name):
    """Why this reader cannot be had here; None: it can."""
    if name == "ical.js" and not ical_js():
        return "which is in no package of Debian: npm, or ICAL_JS with its folder"
    if name == "ruby-icalendar" and platform.freedesktop_os_release().get("VERSION_ID") != "12":
        return "which is in no package of this release"
    return None


READERS = {"python3-icalendar": by_icalendar, "ruby-icalendar": by_ruby, "ical.js": by_ical_js, "khal": by_khal,
           "calcurse": by_calcurse}


def main():
    program.need()
    tally = program.Tally()
    with program.scratch() as folder:
        plans = [planned(job) for job in variants(Path(folder) / "jobs")]
        calendars = [path for _, path in plans]
        for name, read in READERS.items():
            if why := missing(name):
                print(f"not tried: {name}, {why}")
                continue
            seen = list(read(calendars, folder))
            for (timetable, path), events in zip(plans, seen, strict=True):
                tally.note(f"{name}: {path.parent.name}", list(differences(events, timetable)))
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
