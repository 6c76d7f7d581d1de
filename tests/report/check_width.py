#!/usr/bin/env -S python3 -B
"""Texts keep to the width of the screen, from 40 to 120 columns, and are 80 wide in a pipe; the page of an ordinary job has at
most 60 lines; one screen has one system of units, but for what is weighed, which is in grams, and VOC, which rules give in g/L."""
import os
import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = Path(os.environ.get("COATWRIGHT", ROOT / os.environ.get("BUILD", "build") / "coatwright"))
NOW = ["--now", "2027-01-04T08:00Z"]
JOBS = [[command, f"examples/{job}.json", *more] for job in ("desk", "doors")
        for command, *more in (["plan", *NOW], ["timetable", *NOW], ["buy", *NOW], ["buy", "--cost", *NOW], ["mix", *NOW], ["area"])]
OTHERS = [["finishes"], ["finishes", "hardwax-oil-two-part"], ["mix", "hardwax-oil-two-part", "350 ml"],
          ["area", "examples/desk.json", "--explain", "top"], ["timetable", "examples/desk.json", "--chance", *NOW],
          ["buy", "examples/desk.json", "--explain", "wiping-varnish", *NOW],
          ["today", "examples/desk.json", "--day", "2027-03-04"], ["today", "examples/doors.json", "--day", "2027-03-11"],
          ["today", "examples/staircase.json", "--day", "2027-06-08"]]
METRIC = re.compile(r"[\d.]+ (?:m²|cm²|ml|L|kg|°C|m³|m/s|m²/L)(?![\w/])")
US = re.compile(r"[\d.]+ (?:ft²|in²|fl oz|qt|gal|oz|lb|°F|ft³|ft/min)(?![\w/])")
passed = failed = 0


def check(name, wrong):
    """One test: it holds where nothing is wrong."""
    global passed, failed
    passed, failed = passed + (not wrong), failed + bool(wrong)
    if wrong:
        print(f"{name}: {wrong}")


def lines(arguments, columns):
    env = {**os.environ, "LC_ALL": "C.UTF-8", "NO_COLOR": "1"}
    env.pop("COLUMNS", None)
    if columns:
        env["COLUMNS"] = str(columns)
    done = subprocess.run([PROGRAM, *arguments], cwd=ROOT, env=env, stdin=subprocess.DEVNULL, capture_output=True, timeout=120,
                          check=False)
    return done.stdout.decode().splitlines()


for arguments in JOBS + OTHERS:
    for columns in (40, 120, 200, None) if arguments[0] in ("plan", "timetable", "today") else (40, None):
        most = 80 if columns is None else min(columns, 120)
        got = lines(arguments, columns)
        check(f"{arguments} at {columns}", not got and "nothing")
        check(f"{arguments} at {columns}", [line for line in got if len(line) > most][:2])
check("wider screens are used", max(map(len, lines(JOBS[1], 120))) <= 80 and "not")
for job in ("desk", "doors", "kitchen", "staircase"):
    count = len(lines(["plan", f"examples/{job}.json", *NOW], None))
    check(f"the page of {job}", count > 60 and f"{count} lines")
for job, foreign in (("desk", US), ("doors", METRIC)):
    for command in ("plan", "timetable", "buy", "area"):
        said = [line for line in lines([command, f"examples/{job}.json"] + (NOW if command != "area" else []), None)
                if foreign.search(line) and not re.search("by weight|lb? in |kg\\b", line)]
        check(f"units of {command} {job}", said[:2])
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
