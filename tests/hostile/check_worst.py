#!/usr/bin/env -S python3 -B
"""The worst inputs of each kind that a small file, or a large one, can be: each is answered with few seconds of processor and at
most the memory that coatwright-method(7) tells. What is expected is a status and words of the answer."""
import json
import os
import resource
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

from pace import SLOWER

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = os.path.abspath(os.environ.get("COATWRIGHT", ROOT / "build/coatwright"))
SECONDS, MEGABYTES = 6 * SLOWER, 600 * SLOWER
PART = {"part": "a", "wood": "oak", "qty": 1, "length": 400, "width": 300, "thickness": 20, "all": "o"}
LINE = ('{"entry": %d, "written": "2027-03-02T12:30:00+00:00", "step": "a/o/1/apply", "began": "2027-03-01T08:05:00+00:00", '
        '"done": "2027-03-01T08:30:00+00:00"}\n')
passed = failed = 0


def job(**keys):
    return {"format": "coatwright-job/1", "job": "J", "zone": "Europe/London", "start": "2027-03-01 08:00", "deliver": "2027-06-19",
            "schedules": {"o": [{"coat": "danish-oil", "coats": 2}]}, "parts": [PART], **keys}


def event(rule, number=0):
    return (f"BEGIN:VEVENT\r\nUID:{number}@x\r\nDTSTAMP:20270101T000000Z\r\nDTSTART:20270301T090000Z\r\nDTEND:20270301T090001Z\r\n{rule}\r\nEND:VEVENT\r\n")


def calendar(events):
    return "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\n" + events + "END:VCALENDAR\r\n"


def sheet(path, body):
    main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", f'<workbook xmlns="{main}" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">'
                         '<sheets><sheet name="S" r:id="r1"/></sheets></workbook>')
        archive.writestr("xl/_rels/workbook.xml.rels", '<Relationships><Relationship Id="r1" Target="worksheets/1.xml"/></Relationships>')
        archive.writestr("xl/worksheets/1.xml", body)


ENTITIES = ('<!DOCTYPE x [<!ENTITY a "' + "a" * 100 + '">' + "".join(f'<!ENTITY {chr(98 + i)} "' + f"&{chr(97 + i)};" * 10 + '">' for i in range(9))
            + ']><worksheet><sheetData><row><c t="inlineStr"><is><t>&j;</t></is></c></row></sheetData></worksheet>')
BUSY = job(shop={"busy": ["b.ics"]})

# What it is, the job, other files, the command, the statuses, words of the answer.
WORST = [
    ("ten times ten thousand parts", job(parts=[{**PART, "part": f"p{i}", "qty": 10000} for i in range(10)]), {}, "check", (0,), "10 rows, 100000 parts"),
    ("more than a row may have", job(parts=[{**PART, "qty": 10 ** 5}]), {}, "check", (3,), "/parts/0/qty: expected a whole number from 1 to 10000"),
    ("ten thousand parts in 60 coats", job(parts=[{**PART, "qty": 10000}], schedules={"o": [{"coat": "danish-oil", "coats": 20}] * 3}), {}, "check", (0, 4), ""),
    ("a hundred thousand in 60 coats", job(parts=[{**PART, "part": f"p{i}", "qty": 10000} for i in range(10)],
                                           schedules={"o": [{"coat": "danish-oil", "coats": 20}] * 3}), {}, "check", (0, 4), ""),
    ("ten thousand rows", job(parts=[{**PART, "part": f"p{i}"} for i in range(10000)]), {}, "check", (0,), "10000 rows, 10000 parts"),
    ("ten thousand rows planned", job(parts=[{**PART, "part": f"p{i}"} for i in range(10000)]), {}, "plan", (1,), "are more than the 20000 of one timetable"),
    ("four thousand rows planned", job(parts=[{**PART, "part": f"p{i}"} for i in range(4000)]), {}, "plan", (1,), "no plan was found"),
    ("1e308", job(parts=[{**PART, "length": 1e308}]), {}, "check", (3,), "/parts/0/length: expected"),
    ("1e-308", job(parts=[{**PART, "length": 1e-308}]), {}, "check", (0, 3), ""),
    ("1e999", json.dumps(job()).replace("400", "1e999"), {}, "check", (3,), "expected"),
    ("the year 9999", job(deliver="9999-06-19"), {}, "check", (3,), "/deliver: expected"),
    ("the year 2399", job(start="2399-06-01 08:00", deliver="2399-06-19"), {}, "plan", (0, 1, 3), ""),
    ("300 years to deliver", job(deliver="2399-06-19"), {}, "plan", (0, 1, 3), ""),
    ("closed for years", job(shop={"closed": ["2027-01-01..2034-12-31"]}), {}, "plan", (1, 3), ""),
    ("ten minutes a week", job(shop={"hours": {"mon": ["08:00-08:10"]}}, parts=[{**PART, "qty": 10}]), {}, "check", (0, 1, 3), ""),
    ("waits of years", job(schedules={"o": [{"coat": "danish-oil"}, {"wait": "2 y"}] * 6}), {}, "check", (0, 3), ""),
    ("deep nesting", "[" * 10 ** 6, {}, "check", (3,), "at most 64 levels of nesting"),
    ("a part within a part", '{"parts": ' + '{"a": ' * 10 ** 5 + "1" + "}" * 10 ** 5 + "}", {}, "check", (3,), "at most 64 levels of nesting"),
    ("a million keys", "{" + ",".join(f'"k{i}": 1' for i in range(10 ** 6)) + "}", {}, "check", (3,), "expected"),
    ("a long key", '{"' + "k" * 10 ** 7 + '": 1}', {}, "check", (3,), "expected"),
    ("a rule each second", BUSY, {"b.ics": calendar(event("RRULE:FREQ=SECONDLY"))}, "check", (0, 3), "b.ics"),
    ("a rule that never comes", BUSY, {"b.ics": calendar(event("RRULE:FREQ=SECONDLY;BYMONTH=2;BYMONTHDAY=30"))}, "check", (0, 3), "b.ics"),
    ("every minute, often", BUSY, {"b.ics": calendar("".join(event("RRULE:FREQ=MINUTELY;BYSETPOS=-1", i) for i in range(2000)))}, "check", (0, 3), "b.ics"),
    ("twenty thousand daily events", BUSY, {"b.ics": calendar("".join(event("RRULE:FREQ=DAILY", i) for i in range(20000)))}, "check", (0, 3), "b.ics"),
    ("a log of 100,000 lines", job(), {"job.log": "".join(LINE % i for i in range(1, 100001))}, "check", (0,), "1 row"),
    ("a log of one long line", job(), {"job.log": '{"note": "' + "x" * 10 ** 7}, "check", (0,), "1 row"),
    ("a list of a million commas", job(parts="p.csv"), {"p.csv": "part,wood\n" + "," * 10 ** 6}, "check", (3,), "p.csv"),
    ("a quote that never ends", job(parts="p.csv"), {"p.csv": 'part,wood\n"' + "x" * 10 ** 7}, "check", (3,), "a closing quote"),
    ("a sheet that unpacks to much", job(parts="p.xlsx"), {"p.xlsx": "<worksheet>" + " " * (70 << 20)}, "check", (3,), "/parts: expected a spreadsheet whose parts unpack to at most 64 MiB"),
    ("a sheet of entities", job(parts="p.xlsx"), {"p.xlsx": ENTITIES}, "check", (3,), "/parts: expected a spreadsheet without declarations"),
    ("a polygon of many corners", job(parts=[{**PART, "shape": "polygon", "corners": [[i, i * i % 7] for i in range(50000)]}]), {}, "check", (3,), "expected"),
]


def put(folder, name, content):
    if name.endswith(".xlsx"):
        sheet(folder / name, content)
    else:
        (folder / name).write_text(content if isinstance(content, str) else json.dumps(content), encoding="utf-8", newline="")


def limits():
    resource.setrlimit(resource.RLIMIT_CPU, (10 * SECONDS, 10 * SECONDS))


def answer(folder, command):
    """(status, what was printed, seconds of processor, megabytes)."""
    process = subprocess.Popen([PROGRAM, command, "job.json", "--now", "2027-03-01"], cwd=folder, stdin=subprocess.DEVNULL,
                               stdout=subprocess.PIPE, stderr=subprocess.STDOUT, preexec_fn=limits)
    text = process.stdout.read().decode(errors="replace")
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    return process.returncode, text, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


for what, written, others, command, statuses, words in WORST:
    with tempfile.TemporaryDirectory(dir=os.environ.get("TEST_TMP")) as place:
        for name, content in {"job.json": written, **others}.items():
            put(Path(place), name, content)
        status, text, seconds, megabytes = answer(place, command)
    good = status in statuses and words in text and seconds <= SECONDS and (SLOWER > 1 or megabytes <= MEGABYTES)
    passed, failed = passed + good, failed + (not good)
    if not good or "-v" in sys.argv:
        print(f"{what}: status {status}, {seconds:.2f} s, {megabytes:.0f} MB: {text[-300:]!r}")
print(f"{passed} passed, {failed} failed")
sys.exit(failed > 0)
