#!/usr/bin/env python3
"""Small inputs made to break the program: what each must be answered, in under two seconds, and what must be left in its folder.

Each folder beside this script is copied to a scratch folder first. Prints "N passed, N failed".
"""
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from pace import SLOWER

HERE = Path(__file__).resolve().parent
PROGRAM = os.environ.get("COATWRIGHT", str(HERE.parent.parent / "build/coatwright"))
SECONDS = 2 * SLOWER
DONE, WRONG_FILE, WRONG_USE, NO_FILE = (0, 1), (3,), (2,), (4,)
OLD = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nBEGIN:VEVENT\r\nUID:dentist\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"

passed, failed = 0, 0


def check(name, good, said=""):
    global passed, failed
    passed, failed = passed + bool(good), failed + (not good)
    if not good:
        print(f"{name}: {said}")


def run(folder, *arguments, limit=None):
    """(status, what was printed); a signal or too long a time is told as such."""
    before = (lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))) if limit else None
    began = os.times()
    try:
        answer = subprocess.run([PROGRAM, *arguments], cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=60,
                                preexec_fn=before, check=False)
    except subprocess.TimeoutExpired:
        return "hang", ""
    spent = os.times()
    seconds = spent.children_user + spent.children_system - began.children_user - began.children_system
    text = answer.stdout.decode(errors="replace")
    return ("slow" if seconds > SECONDS else answer.returncode), text


def copied(scratch, name):
    target = Path(scratch) / name
    if target.exists():
        shutil.rmtree(target)
    if (HERE / name).is_dir():
        shutil.copytree(HERE / name, target)
    else:
        shutil.copytree(HERE / "13-history-lost-silently", target)
    return target


# Folder, command, statuses, what must be said.
ANSWERS = [
    ("02-busy-zones-segv", "check job.json", DONE, "b.ics: 500 events"),
    ("03-zone-path-traversal", "check job.json", WRONG_FILE, "job.json:1:52: /zone: expected a time zone"),
    ("03-zone-path-traversal", "check job-good.json", WRONG_FILE, "job-good.json:1:52: /zone: expected a time zone"),
    ("03-zone-path-traversal", "check job-fifo.json", WRONG_FILE, "job-fifo.json:1:52: /zone: expected a time zone"),
    ("03-zone-path-traversal", "check job-busy.json", DONE, "b.ics:7:1: warning: the time zone"),
    ("04-small-job-hangs", "check takes.json", WRONG_FILE, "takes.json:1:413: /tasks/0/takes: expected"),
    ("04-small-job-hangs", "check area.json", WRONG_FILE, "area.json:1:278: /parts/0/area: expected"),
    ("04-small-job-hangs", "check setup.json", WRONG_FILE, "setup.json:1:399: /shop/set-up: expected"),
    ("04-small-job-hangs", "check coats.json", WRONG_FILE, "coats.json:1:146: /schedules/oiled: expected"),
    ("04-small-job-hangs", "check work.json", WRONG_FILE, "work.json:1:386: /parts/0/work: expected"),
    ("06-abort-huge-mesh", "area job.json", WRONG_FILE, "job.json:1:293: /parts/0/file: expected"),
    ("07-abort-finish-1e23", "finishes --own f", WRONG_FILE, "f/danish-oil.json:1:168: /components/0/parts: expected"),
    ("08-terminal-escape", "check esc.json", WRONG_FILE, 'found "\\u001b]0;owned\\u0007\\u001b[2J.stl"'),
    ("09-fifo-and-dash-hang", "check fifo.json", NO_FILE, 'fifo.json:1:388: /shop: expected a readable file, found "x" (a pipe or a device)'),
    ("09-fifo-and-dash-hang", "check dash.json", NO_FILE, 'dash.json:1:238: /parts: expected a readable file, found "-" (no such file)'),
    ("11-slow-calendars", "check job.json", DONE, "b.ics: 100 events"),
    ("11-slow-calendars", "check zone.json", DONE, "zone.ics: 1 event"),
    ("11-slow-calendars", "check files.json", DONE, "many.ics: 10 events"),
]


def answers(scratch):
    for name, command, statuses, said in ANSWERS:
        folder = copied(scratch, name)
        for pipe in ("x", "fifo"):
            os.mkfifo(folder / pipe)
        status, text = run(folder, *command.split())
        check(f"{name}: {command}", status in statuses and said in text, f"{status}: {text[:400]}")
        controls = [c for c in text if (ord(c) < 32 and c != "\n") or 127 <= ord(c) < 160]
        check(f"{name}: {command}", not controls, f"control characters: {controls[:5]}")


def formulas(scratch):
    folder = copied(scratch, "10-csv-formula")
    for command in (["--csv", "s.csv"], ["--cost", "--csv", "c.csv"]):
        run(folder, "buy", "job.json", *command)
        text = (folder / command[-1]).read_text(encoding="utf-8")
        cells = [cell.lstrip('"') for line in text.splitlines() for cell in line.split(",")]
        check(f"formulas in {command[-1]}", "'=" in text and not any(c[:1] in ("=", "@", "+") for c in cells), text)


def old_calendars(scratch):
    """What stands where the calendar goes is kept, or the plan is refused and nothing is written."""
    deep = "BEGIN:VCALENDAR\r\n" + "BEGIN:VEVENT\r\n" * 300000 + "END:VEVENT\r\n" * 300000 + "END:VCALENDAR\r\n"
    cases = {"garbage": (b"hello", "timetable.ics:1:1: expected"), "empty": (b"", "timetable.ics:1:1: expected"),
             "bytes": (bytes(range(256)), "timetable.ics:1:1: expected"),
             "cut": (OLD.encode()[:59], "expected END:VEVENT, found the end of the file"),
             "deep": (deep.encode(), "timetable.ics:9:1: expected at most 8 levels of components")}
    for name, (old, said) in cases.items():
        folder = copied(scratch, "13-history-lost-silently")
        (folder / "o").mkdir()
        (folder / "o/timetable.ics").write_bytes(old)
        for command in (["plan", "job.json", "--out", "o"], ["timetable", "job.json", "--ics", "o/timetable.ics"]):
            status, text = run(folder, *command)
            check(f"13: {name}, {command[0]}", status in WRONG_FILE and said in text, f"{status}: {text[-400:]}")
            check(f"13: {name}, {command[0]}", os.listdir(folder / "o") == ["timetable.ics"], os.listdir(folder / "o"))
            check(f"13: {name}, {command[0]}", (folder / "o/timetable.ics").read_bytes() == old, "the old file has changed")
    folder = copied(scratch, "13-history-lost-silently")
    (folder / "o").mkdir()
    (folder / "o/timetable.ics").write_text(OLD)
    status, text = run(folder, "plan", "job.json", "--out", "o")
    kept = (folder / "o/timetable.ics").read_bytes()
    check("13: someone else's", status in DONE and b"UID:dentist" in kept and b"@coatwright" in kept, f"{status}: {text[-400:]}")


def killed(scratch):
    """A set whose writer was stopped between the renames is finished by the next run, whatever that writes."""
    folder = copied(scratch, "14")
    run(folder, "plan", "job.json", "--out", "o")
    new = (folder / "o/timetable.ics").read_text()
    (folder / "o/.timetable.ics.new").write_text(new.replace("SUMMARY:", "SUMMARY:finished "))
    (folder / "o/.plan.json.old").write_text("{}")
    (folder / "o/.coatwright-saving").write_text("plan.json\ntimetable.ics\nshopping.csv\n")
    run(folder, "buy", "job.json", "--csv", "o/other.csv")
    check("14: nothing left", sorted(os.listdir(folder / "o")) == ["other.csv", "plan.json", "sheet.html", "shopping.csv", "timetable.ics"],
          os.listdir(folder / "o"))
    check("14: finished", "SUMMARY:finished " in (folder / "o/timetable.ics").read_text(), "the calendar is still the old one")


def unreadable_rules(scratch):
    """Folders of rules that are there and cannot be read are mistakes, not nothing."""
    for name, make in {"a file": lambda path: path.write_text("x"), "a link to itself": lambda path: path.symlink_to("rules")}.items():
        folder = copied(scratch, "15")
        (folder / "f").mkdir()
        make(folder / "f/rules")
        (folder / "job.json").write_text((folder / "job.json").read_text().replace('{"format"', '{"finishes": "f", "format"', 1))
        status, text = run(folder, "check", "job.json")
        check(f"15: {name}", status in NO_FILE and "f/rules" in text, f"{status}: {text[:400]}")


def unreadable_zones(scratch):
    """A file of the zone folder that is no zone is not taken for UTC."""
    for zone in ("leapseconds", "zone.tab", "posix", "Etc"):
        folder = copied(scratch, "16")
        text = (folder / "job.json").read_text()
        (folder / "job.json").write_text(text.replace("Europe/London", zone, 1))
        status, said = run(folder, "check", "job.json")
        check(f"16: {zone}", status in WRONG_FILE and "/zone: expected a time zone" in said, f"{status}: {said[:300]}")


def overwriting(scratch):
    """No output takes the place of an input, under whatever name, and none is written through a link."""
    folder = copied(scratch, "17")
    text = (folder / "job.json").read_text()
    (folder / "diary.ics").write_text(OLD.replace("UID:dentist\r\n", "UID:dentist\r\nDTSTART:20270301T090000Z\r\n"))
    (folder / "stock.csv").write_text("finish,component,amount\ndanish-oil,,100 ml\n")
    (folder / "job.json").write_text(text.replace('{"format"', '{"stock": "stock.csv", "shop": {"busy": ["diary.ics"]}, "format"', 1))
    os.link(folder / "diary.ics", folder / "same.ics")
    os.link(folder / "stock.csv", folder / "same.csv")
    before = {f.name: f.read_bytes() for f in folder.iterdir()}
    for command in ("timetable job.json --ics diary.ics", "timetable job.json --ics same.ics", "buy job.json --csv stock.csv",
                    "buy job.json --csv same.csv", "timetable job.json --svg stock.csv", "area job.json --svg job.json"):
        status, said = run(folder, *command.split())
        check(f"17: {command}", status in WRONG_USE and "one that was read" in said, f"{status}: {said[-300:]}")
    check("17: inputs", {f.name: f.read_bytes() for f in folder.iterdir()} == before, "an input has changed")
    (folder / "aim").write_text("untouched")
    (folder / "o").mkdir()
    for name in ("plan.json", "timetable.ics", "shopping.csv", "sheet.html"):
        for old in (folder / "o").iterdir():
            old.unlink()
        (folder / "o" / name).symlink_to("../aim")
        status, said = run(folder, "plan", "job.json", "--out", "o")
        check(f"17: link {name}", status in NO_FILE and "a link: name the file" in said and (folder / "aim").read_text() == "untouched", f"{status}: {said[-300:]}")
        check(f"17: link {name}", os.listdir(folder / "o") == [name], os.listdir(folder / "o"))


def limits(scratch):
    """A limit on the size of files is told; nothing is left, and what was there stays."""
    folder = copied(scratch, "18")
    run(folder, "plan", "job.json", "--out", "o")
    before = {f.name: f.read_bytes() for f in (folder / "o").iterdir()}
    status, text = run(folder, "plan", "job.json", "--out", "o", "--now", "2027-02-01", limit=2000)
    check("18: told", status in NO_FILE and "a larger one than may be written" in text, f"{status}: {text[-300:]}")
    with open(folder / "out", "wb") as out:
        answer = subprocess.run([PROGRAM, "plan", "job.json"], cwd=folder, stdout=out, stderr=subprocess.PIPE, check=False,
                                preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100)))
    check("18: standard output", answer.returncode in NO_FILE and answer.stderr, f"{answer.returncode}: {answer.stderr}")
    check("18: whole", {f.name: f.read_bytes() for f in (folder / "o").iterdir()} == before, os.listdir(folder / "o"))


def main():
    began = time.monotonic()
    with tempfile.TemporaryDirectory() as scratch:
        for part in (answers, formulas, old_calendars, killed, unreadable_rules, unreadable_zones, overwriting, limits):
            part(scratch)
    print(f"{passed} passed, {failed} failed")
    if "-v" in sys.argv:
        print(f"{time.monotonic() - began:.1f} s")
    return failed > 0


sys.exit(main())
