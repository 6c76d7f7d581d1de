#!/usr/bin/env -S python3 -B
"""What a maker who mistypes is told: one mistake of each kind in a job, shop, finish, part list, log or busy calendar that is
otherwise sound. The place must be that of the mistake, found here by its text in the file; the words say what to write."""
import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

PROGRAM = os.path.abspath(os.environ.get("COATWRIGHT", Path(__file__).resolve().parents[2] / "build/coatwright"))
PART = {"part": "a", "wood": "oak", "qty": 1, "length": 400, "width": 300, "thickness": 20, "all": "o"}
HEAD = "part,qty,wood,length,width,thickness,all\n"
ENTRY = {"entry": 1, "written": "2027-03-02T12:30:00+00:00", "step": "a/o/1/apply", "done": "2027-03-01T08:30:00+00:00"}


def job(**keys):
    return {"format": "coatwright-job/1", "job": "J", "zone": "Europe/London", "start": "2027-03-01 08:00", "deliver": "2027-06-19",
            "schedules": {"o": [{"coat": "danish-oil", "coats": 2}]}, "parts": [PART], **keys}


def part(**keys):
    return job(parts=[{**PART, **keys}])


def shop(**keys):
    return job(shop=keys)


def event(lines):
    return "BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:x\nBEGIN:VEVENT\nUID:1\nDTSTAMP:20270101T000000Z\n" + lines + "END:VEVENT\nEND:VCALENDAR\n"


LISTED, CALLED, OWN, APART = job(parts="p.csv"), shop(busy=["b.ics"]), job(finishes="f"), job(shop="s.json")

# What is wrong, the job, another file and its text, the text at which the message must point ("" the first of the file), its words.
ROWS = [
    ("an empty job", "", None, "", "expected JSON text, found an empty file"),
    ("no JSON", "hello", None, "", "expected a value, found hello"),
    ("quotes of another kind", "{'job': 1}", None, "'job", "expected a key in double quotes, found \"'\""),
    ("a key twice", '{"format": "coatwright-job/1", "job": "a", "job": "b"}', None, '"job": "b"', "expected each key once, found a second one of this name"),
    ("a comma too many", json.dumps(job())[:-1] + ",}", None, ",}", 'expected no comma before "}", found ","'),
    ("an unknown key", job(delivr="2027"), None, '"delivr"', '/delivr: expected a key of a job, found "delivr" (did you mean "deliver"?)'),
    ("a list for a name", job(job=["x"]), None, '["x"]', "/job: expected the job's name, found a list"),
    ("another zone", job(zone="Europe/Lundon"), None, '"Europe/Lundon"', 'found "Europe/Lundon" (did you mean "Europe/London"?)'),
    ("a day that is none", job(start="2027-02-30 08:00"), None, '"2027-02-30', "expected a day that exists: Feb 2027 has 28 days"),
    ("a thirteenth month", job(deliver="2027-13-01"), None, '"2027-13-01"', "expected a month from 01 to 12"),
    ("a year long ago", job(deliver="0000-01-01"), None, '"0000-01-01"', "expected a year from 1970 to 9999"),
    ("a date with slashes", job(deliver="19/06/2027"), None, '"19/06/2027"', 'write "2027-06-19"'),
    ("an hour 25", job(start="2027-03-01 25:00"), None, '"2027-03-01 25:00"', 'expected a moment such as "2027-03-01 08:00"'),
    ("a delivery before the start", job(deliver="2026-03-01"), None, '"2026-03-01"', "/deliver: expected a moment not before the start, 2027-03-01 08:00"),
    ("closed until the delivery", shop(closed=["2027-03-01..2027-06-30"]), None, '"2027-06-19"', "(closed; last open moment 2027-02-26 17:00)"),
    ("no part", job(parts=[]), None, "[]", "/parts: expected at least one part, found none"),
    ("no schedule", job(schedules={}), None, "{}", "/schedules: expected at least one finishing schedule"),
    ("a piece twice", job(pieces=[{"piece": "a"}, {"piece": "a", "lots": 2}]), None, '"a", "lots"', '/pieces/1/piece: expected each piece once, found "a"'),
    ("a negative count", part(qty=-1), None, '-1, "length"', "/parts/0/qty: expected a whole number from 1 to 10000, found -1"),
    ("half a part", part(qty=1.5), None, "1.5", "expected a whole number from 1 to 10000, found 1.5"),
    ("a negative length", part(length=-400), None, "-400", "/parts/0/length: expected a length that is not negative, found -400"),
    ("no number", json.dumps(job()).replace("400", "NaN"), None, "NaN", "/parts/0/length: expected a value, found NaN"),
    ("a length beyond all", part(length=1e308), None, "1e+308", "/parts/0/length: expected text in quotes, or a number below 1e15"),
    ("a word for a length", part(length="long"), None, '"long"', 'expected a length such as "19 mm" or "3/4 in", found "long"'),
    ("a decimal comma", part(length="400,5"), None, '"400,5"', 'expected a decimal point: write "400.5"'),
    ("a list of sides", job(parts=[{"part": "t", "wood": "oak", "shape": "triangle", "sides": [100, 100, 150], "thickness": 10, "all": "o"}]), None, "[100",
     "/parts/0/sides: expected text in quotes, as in a cell of a list, with spaces between what belongs together, found a list"),
    ("sides that cannot close", job(parts=[{"part": "t", "wood": "oak", "shape": "triangle", "sides": "100 100 300", "thickness": 10, "all": "o"}]), None,
     '"100 100 300"', "/parts/0/sides: expected"),
    ("a schedule of none", part(all="p"), None, '"p"', '/parts/0/all: expected a schedule of this job, found "p"'),
    ("a wood that nobody knows", part(wood="oka"), None, '"oka"', 'the wood "oka" (did you mean "oak"?) is not known: a closed grain is assumed'),
    ("a finish misspelt", job(schedules={"o": [{"coat": "danish oil"}]}), None, '"danish oil"', '(did you mean "danish-oil"?)'),
    ("no coat", job(schedules={"o": [{"coat": "danish-oil", "coats": 0}]}), None, "0}", "/schedules/o/0/coats: expected a whole number from 1 to 20, found 0"),
    ("a grit in words", job(schedules={"o": [{"sand": "fine"}]}), None, '"fine"', '/schedules/o/0/sand: expected a whole number from 0 to 10000, found "fine"'),
    ("a wait backwards", job(schedules={"o": [{"coat": "danish-oil"}, {"wait": "-1 d"}]}), None, '"-1 d"', '/schedules/o/1/wait: expected a time span or a state such as "cured"'),
    ("a closed week", shop(hours={}), None, "{}", "/shop/hours: expected working hours on at least one day"),
    ("a day's full name", shop(hours={"monday": ["08:00-17:00"]}), None, '"monday"', 'expected one of "mon", "tue", "wed", "thu", "fri", "sat", "sun"'),
    ("hours backwards", shop(hours={"mon": ["17:00-08:00"]}), None, '"17:00-08:00"', "(a night is 22:00-24:00, and 00:00-06:00 of the next day)"),
    ("hours in words", shop(hours={"mon": ["8 to 5"]}), None, '"8 to 5"', 'expected working hours such as "08:00-12:30"'),
    ("nobody", shop(people=0), None, "0}", "/shop/people: expected a whole number from 1 to 100, found 0"),
    ("two of one name", shop(people=[{"person": "Ann"}, {"person": "Ann", "lift": 1}]), None, '"Ann", "lift"', "/shop/people/1/person: expected a name that nobody else has"),
    ("a rack below nothing", shop(rack="-4 m2"), None, '"-4 m2"', "/shop/rack: expected an area that is not negative"),
    ("a rack in metres", shop(rack="4 m"), None, '"4 m"', '(did you mean "m2"?)'),
    ("a temperature of no unit", shop(air=[{"from": "07:00", "temperature": "19", "humidity": "50 %"}]), None, '"19"', 'expected a temperature with a unit, such as "20 C"'),
    ("more than wet air", shop(air=[{"from": "07:00", "temperature": "19 C", "humidity": "150 %"}]), None, '"150 %"', "expected a humidity of at most 100 %"),
    ("a shop that is not there", APART, None, '"s.json"', '/shop: expected a readable file, found "s.json" (no such file)'),
    ("an empty shop", APART, ("s.json", ""), "", "expected JSON text, found an empty file"),
    ("a shop's unknown key", APART, ("s.json", '{"rak": "4 m2"}'), '"rak"', '(did you mean "rack"?)'),
    ("an empty list", LISTED, ("p.csv", ""), "", "expected a row of column names, found an empty file"),
    ("a heading alone", LISTED, ("p.csv", HEAD), "", "expected at least one part, found none"),
    ("a column misspelt", LISTED, ("p.csv", HEAD.replace("qty", "qnty") + "a,1,oak,400,300,20,o\n"), "", 'left out: "qnty" (did you mean "qty"?)'),
    ("a column twice", LISTED, ("p.csv", HEAD.replace("qty", "part") + "a,1,oak,400,300,20,o\n"), "part,wood", 'expected each column once, found "part"'),
    ("a column missing", LISTED, ("p.csv", "part,qty,length,width,thickness,all\nb,1,400,300,20,o\n"), "b,1", 'no wood is given for "b": a closed grain is assumed'),
    ("a row too short", LISTED, ("p.csv", HEAD + "b,1,oak\n"), "b,1", "row 1: expected 7 cells, as in the heading, found 3"),
    ("a cell of no number", LISTED, ("p.csv", HEAD + "a,1,oak,nan,300,20,o\n"), "nan", 'row 1, length: expected a length such as "19 mm"'),
    ("a cell below nothing", LISTED, ("p.csv", HEAD + "a,1,oak,-400,300,20,o\n"), "-400", "row 1, length: expected a length that is not negative"),
    ("inches for millimetres", LISTED, ("p.csv", HEAD + "a,1,oak,16,12,0.75,o\nb,1,oak,30,12,0.75,o\nc,2,oak,24,12,0.75,o\n"), "16,",
     'if inches were meant, write "units": "in" in the job'),
    ("a busy file not there", CALLED, None, '"b.ics"', '/shop/busy/0: expected a readable file, found "b.ics" (no such file)'),
    ("a busy file of nothing", CALLED, ("b.ics", ""), "", "expected a calendar: BEGIN:VCALENDAR, found an empty file"),
    ("a page for a calendar", CALLED, ("b.ics", "<html>\n"), "", 'expected a calendar: BEGIN:VCALENDAR, found "<html>"'),
    ("an event without a start", CALLED, ("b.ics", event("")), "BEGIN:VEVENT", "expected an event with one DTSTART"),
    ("an event backwards", CALLED, ("b.ics", event("DTSTART:20270301T100000Z\nDTEND:20270301T090000Z\n")), "DTEND", "expected an end after the beginning"),
    ("a month of no calendar", CALLED, ("b.ics", event("DTSTART:20271301T100000Z\n")), "DTSTART", "expected a date that exists"),
    ("an empty finish", OWN, ("f/x.json", ""), "", "expected JSON text, found an empty file"),
    ("a finish of no family", OWN, ("f/x.json", '{"format": "coatwright-finish/1", "finish": "x", "name": "X", "family": "glue"}'), '"glue"', '/family: expected one of "oil", "hardwax-oil"'),
    ("a line that is no entry", job(), ("job.log", "hello\n"), "", "this entry is left out: expected a value, found hello"),
    ("an entry of no number", job(), ("job.log", "{}\n"), "", "this entry is left out: /entry: expected a number without quotes, such as 3 or 0.5, found nothing"),
    ("an entry of yesterday", job(), ("job.log", json.dumps({**ENTRY, "written": "yesterday"}) + "\n"), "",
     'this entry is left out: /written: expected a moment such as "2027-03-02T15:00+01:00", found "yesterday"'),
]


def text_of(content):
    return content if isinstance(content, str) else json.dumps(content)


def place(file, text, mark):
    """FILE:LINE:COLUMN of a text in a file."""
    at = text.index(mark)
    return f"{file}:{text.count(chr(10), 0, at) + 1}:{at - text.rfind(chr(10), 0, at)}: "


def told(folder, written, other):
    for name, content in [("job.json", written)] + ([other] if other else []):
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(text_of(content), encoding="utf-8")
    done = subprocess.run([PROGRAM, "check", "job.json", "--now", "2027-03-03"], cwd=folder, stdin=subprocess.DEVNULL, capture_output=True, check=False)
    return done.returncode, (done.stdout + done.stderr).decode().splitlines()


passed = failed = 0
for what, job_, other_, mark_, words in ROWS:
    file_, text_ = other_ if other_ else ("job.json", text_of(job_))
    with tempfile.TemporaryDirectory(dir=os.environ.get("TEST_TMP")) as temporary:
        status, lines = told(Path(temporary), job_, other_)
    wanted = place(file_, text_, mark_)
    good = any(line.startswith(wanted) and words in line for line in lines) and (status in (3, 4) or any("warning" in line and words in line for line in lines))
    passed, failed = passed + good, failed + (not good)
    if not good:
        print(f"{what}: status {status}, not at {wanted}{words}: {lines[:3]}")
print(f"{passed} passed, {failed} failed")
sys.exit(failed > 0)
