#!/usr/bin/env -S python3 -B
"""Names from files, from the command line, from the system and from a server on every way out: nothing that acts on a terminal,
turns the direction of a line, is a formula to a spreadsheet, or is markup where it should be text, leaves the program as it is.

Control characters are those of ISO 6429 (C0, DEL, C1); what turns a line is Bidi_Control of Unicode; a cell that begins with
= + - @ tab or carriage return is a formula (OWASP, CSV injection)."""
import csv
import html.parser
import json
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "faults"))

import calendar_server
import folders

ACTS = "\x1b[2J\x1b]0;owned\x07\u202etxt\u2066\x9b31m\x7f\u200f"
FORMULA = "=cmd|' /C x'!A0 <script>alert(1)</script> \"; ATTENDEE:mailto:x,\\n & ]]> %s"
NOW = "2027-03-02T12:30Z"
passed = failed = 0


def check(what, wrong):
    global passed, failed
    passed, failed = passed + (not wrong), failed + bool(wrong)
    if wrong:
        print(f"{what}: {wrong}")


def acts(text):
    """Characters that must not leave, but for the line ends of the format."""
    return sorted({hex(ord(c)) for c in text.replace("\r\n", "\n") if (ord(c) < 32 and c != "\n") or 127 <= ord(c) < 160
                   or "\ud800" <= c <= "\udfff" or c in "\u061c\u200e\u200f" or "\u2028" <= c <= "\u202e" or "\u2066" <= c <= "\u2069"})


class Tags(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.found = []

    def handle_starttag(self, tag, attrs):
        self.found.append(tag)


def wrong_in(path):
    """What is wrong with a file that was written, by its kind."""
    text = path.read_bytes().decode()
    if acts(text):
        return f"characters that act: {acts(text)}"
    if path.suffix == ".csv":
        return [cell for row in csv.reader(text.splitlines()) for cell in row if cell[:1] in tuple("=+-@\t\r") and not re.fullmatch(r"-?[0-9.]+", cell)]
    if path.suffix == ".ics":
        lines = text.replace("\r\n ", "").split("\r\n")
        return [line for line in lines if line and not re.match(r"(BEGIN|END|VERSION|PRODID|CALSCALE|UID|DTSTAMP|DTSTART|DTEND|DUE|DURATION|SUMMARY|"
                r"DESCRIPTION|SEQUENCE|STATUS|TRANSP|TRIGGER|ACTION|CATEGORIES|LAST-MODIFIED|TZ[A-Z]+|RRULE|RDATE|LOCATION|CLASS|PERCENT-COMPLETE|X-[A-Z-]+|"
                r"CREATED|PRIORITY|COMPLETED|NAME|METHOD|RELATED-TO|COLOR|REFRESH-INTERVAL)[;:]", line)]
    if path.suffix in (".svg",):
        return [e.tag for e in xml.etree.ElementTree.fromstring(text).iter() if e.tag.endswith("script")]
    if path.suffix == ".html":
        tags = Tags()
        tags.feed(text)
        return ["a script"] if "script" in tags.found else []
    if path.suffix == ".json":
        json.loads(text)
    return ""


def run(folder, *arguments):
    done = subprocess.run([folders.program(), *arguments], cwd=folder, env=folders.environment(), stdin=subprocess.DEVNULL,
                          capture_output=True, timeout=60, check=False)
    return done.returncode, done.stdout.decode(errors="surrogateescape"), done.stderr.decode(errors="surrogateescape")


def hostile_job(folder):
    """Names that a job may have: what would act is refused by its reader, so the file's own place and the calendar have that."""
    folders.shelf(folder)
    job = json.loads((folder / "job.json").read_text(encoding="utf-8"))
    oil, varnish = job["schedules"].values()
    job.update(job=FORMULA, customer="@" + FORMULA, schedules={"=oil": oil, "+varnish": varnish}, pieces=[{"piece": "@top", "laid": "flat"}],
               tasks=[{"task": "=fit" + FORMULA, "takes": "45 min", "after": ["@top handle"]}])
    job["parts"] = [{"part": "-top" + FORMULA, "piece": "@top", "wood": "oak", "length": 900, "width": 300, "thickness": 20, "all": "=oil"},
                    {"part": "=leg", "piece": FORMULA, "shape": "round", "wood": "oak", "length": 300, "diameter": 45, "all": "+varnish"}]
    shop = json.loads((folder / "shop.json").read_text(encoding="utf-8"))
    shop["people"] = [{"person": FORMULA}]
    (folder / "shop.json").write_text(json.dumps(shop), encoding="utf-8")
    oil = (folder / "own/own-oil.json").read_text(encoding="utf-8")
    (folder / "own/own-oil.json").write_text(oil.replace('"name": "Danish oil"', '"name": "=Danish <b>oil"').replace('"short": "Danish oil"', '"short": "@Danish <b>"'))
    (folder / "diary.ics").write_text((folder / "diary.ics").read_text().replace("At the timber", "At" + ACTS.replace("\x07", "") + "the timber"))
    (folder / "job.json").write_text(json.dumps(job), encoding="utf-8")


COMMANDS = ["check JOB", "area JOB", "area JOB --explain =leg", "area JOB --svg OUT.svg", "buy JOB", "buy JOB --cost", "buy JOB --csv OUT.csv",
            "buy JOB --cost --csv OUT.csv", "mix JOB", "timetable JOB", "timetable JOB --chance", "timetable JOB --ics OUT.ics",
            "timetable JOB --svg OUT.svg", "plan JOB --out OUT", "today JOB --day 2027-03-03", "sheet JOB --out OUT.html", "finishes --own OWN",
            "done JOB until 2027-03-02T12:00", "log JOB", "undo JOB", "air JOB 11:00 14 C 70 %", "learned FOLDER"]


def every_way_out(scratch):
    place = scratch / f"d{ACTS}d".replace("/", "")
    place.mkdir()
    hostile_job(place)
    for command in COMMANDS:
        for more in ([], ["--json"]):
            words = [word.replace("JOB", f"{place.name}/job.json").replace("OWN", f"{place.name}/own").replace("FOLDER", place.name)
                     for word in command.split()]
            status, out, said = run(scratch, *words, *more, "--now", NOW)
            check(f"{command} {more}", f"status {status}: {said[:300]!r}" if status not in (0, 1, 2 * bool(more)) else "")
            check(f"{command} {more}", acts(out) or acts(said))
    for path in scratch.rglob("*"):
        if path.is_file() and "OUT" in str(path.relative_to(scratch)):
            check(f"{command}: {path.name}", wrong_in(path))


def command_lines(scratch):
    """What is refused says so with escapes, and nothing is recorded that could not be read again."""
    folders.shelf(scratch)
    for words in (["plan", ACTS], ["pl" + ACTS], ["plan", "job.json", "--" + ACTS], ["today", "job.json", "--person", ACTS], ["today", "job.json", "--day", ACTS],
                  ["mix", ACTS, "1 l"], ["mix", "danish-oil", ACTS], ["finishes", ACTS], ["finishes", "--own", ACTS], ["learned", ACTS], ["new", ACTS, "--yes"],
                  ["area", "job.json", "--explain", ACTS], ["done", "job.json", ACTS], ["done", "job.json", "until 2027-03-02 12:00", "--note", ACTS],
                  ["done", "job.json", "until 2027-03-02 12:00", "--note", b"\xff"], ["done", "job.json", "until 2027-03-02 12:00", "--note", " "],
                  ["done", "job.json", "until 2027-03-02 12:00", "--person", ACTS], ["again", "job.json", "x", "--because", ACTS],
                  ["publish", "job.json", "--to", "http://127.0.0.1:1/" + ACTS], ["plan", "job.json", "--out", "no/" + ACTS], ["--completion", ACTS]):
        status, out, said = run(scratch, *words, "--now", NOW)
        check(words, f"status {status}" if status not in (2, 3, 4) else acts(out) or acts(said) or ("" if "expected" in said else "no message"))
    check("the log", "something was recorded" if (scratch / "job.log").exists() else "")


def a_new_job(scratch):
    """A list whose own name would act is refused before anything is written beside it."""
    place = scratch / "new"
    place.mkdir()
    (place / f"l{ACTS}.csv").write_text("part,wood,length,width,thickness\nx,oak,400,300,20\n")
    status, out, said = run(scratch, "new", f"new/l{ACTS}.csv", "--yes", "--deliver", "2027-04-20", "--outside", "danish-oil", "--now", NOW)
    check("new", f"status {status}: {said!r}" if status != 3 else acts(out) or acts(said) or ("" if len(list(place.iterdir())) == 1 else "files were written"))


def a_server(scratch):
    """A server names its own calendar."""
    folders.secret(scratch)
    server = calendar_server.started()
    server.RequestHandlerClass = type("Hostile", (calendar_server.Handler,), {"answer": lambda self, status, body=b"", **headers: calendar_server.Handler.answer(
        self, status, body.replace(b"/ann/calendar/", b"/ann/%22&quot;\xe2\x80\xae&#x9b;/"), **headers)})
    to = f"http://127.0.0.1:{server.server_address[1]}/ann/"
    for more in ([], ["--json"]):
        status, out, said = run(scratch, "publish", "job.json", "--to", to, "--user", "ann", "--password-file", "password", *more, "--now", NOW)
        check(f"publish {more}", acts(out) or acts(said))
        if status == 0 and more:
            check("publish: JSON", "" if json.loads(out)["collection"] else "no address")
    server.shutdown()


def main():
    with tempfile.TemporaryDirectory(dir=os.environ.get("TEST_TMP")) as scratch:
        for part in (every_way_out, command_lines, a_new_job, a_server):
            place = Path(scratch) / part.__name__
            place.mkdir()
            part(place)
    print(f"{passed} passed, {failed} failed")
    return failed > 0


sys.exit(main())
