#!/usr/bin/env -S python3 -B
"""Batches as people read them: small jobs worked by hand, and what each text must agree with in the JSON of the same plan."""
import json
import os
import re
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))

import batch_worked
import program
import worked

SPAN = r"(?:(?:\d+ d ?)?(?:\d+ h ?)?(?:\d+ min)?)"
ROW = re.compile(rf"^  \d\d:\d\d  .*?  +({SPAN})(?:  (?:person \d|[A-Z]\w+)(?: and .*?)?)?  +(?:0|\d+ (?:d|h|min))$")


def minutes(span):
    return sum(int(n) * {"d": 1440, "h": 60, "min": 1}[unit] for n, unit in re.findall(r"(\d+) (d|h|min)", span))


def text_of(problem, options=()):
    with program.scratch() as folder:
        path = worked.write(problem, Path(folder))
        _, text, errors = program.run("timetable", path, "--now", "2027-02-26", *options)
        return text or errors


def absent(problem, *patterns):
    """What of these lines the text does not hold."""
    text = text_of(problem)
    return [f"no line {pattern!r} in\n{text}" for pattern in patterns if not re.search(pattern, text, re.M)]


def numbered():
    """Four panels on a rack, 0.25 m2 a side, brushed 1 m2/h: 15 min each side, turned wet in 1 min;
    the back comes first."""
    v = worked.finish("v", {"handle": "4 h"}, flip="now")
    rows = [{"part": f"door {n}", "piece": f"door {n}", "shape": "board", "length": 500, "width": 500, "thickness": 1, "face": "s",
             "back": "s", "wood": "beech"} for n in (1, 2, 3, 4)]
    return worked.Problem("doors", worked.job("doors", {"s": [worked.coats("v")]}, rows, shop=batch_worked.shop(10, 10),
                                              pieces=[{"piece": r["piece"], "laid": "flat"} for r in rows]), [v], {}, None)


def heavy(people, thickness):
    """A panel of beech, 1200 x 1000 mm, coated on both sides: at 720 kg/m3 (from memory, as dry beech is in most tables) 34.6 kg where
    it is 40 mm thick, 17.3 kg where it is 20."""
    v = worked.finish("v", {"handle": "4 h"})
    row = {"part": "top", "piece": "top", "shape": "board", "length": 1200, "width": 1000, "thickness": thickness, "face": "s",
           "back": "s", "wood": "beech"}
    shop = batch_worked.shop(10, 10, people=people)
    return worked.Problem("heavy", worked.job("heavy", {"s": [worked.coats("v")]}, [row], shop=shop,
                                              pieces=[{"piece": "top", "laid": "flat"}]), [v], {}, None)


def turned_over(tally):
    """Above 25 kg it takes two: where there are two both are named, a shop of one is told."""
    alone = "takes two people to turn over: get help"
    tally.note("two turn a heavy top", absent(heavy(2, 40), "^ +together with person [12]$"))
    tally.note("nobody is there to help", absent(heavy(1, 40), f"^ +{alone}$"))
    tally.note("a light top needs no help", absent(heavy(1, 20), r"flip, then top \(face\)") +
               [line for line in text_of(heavy(1, 20)).splitlines() if alone in line])


def by_hand(tally):
    tally.note("together", absent(batch_worked.together(), r"^  08:00  coat 1 of 1, \S+ +A, B +\S+ ml +1 h\b",
                                  r"^ +08:10 A, (\S+) ml; 08:30 B, \1 ml$"))
    tally.note("pause", absent(batch_worked.pause(), r"^  11:20  coat 2 of 2, \S+ +A, B +\S+ ml +1 h\b",
                               r"^ +11:30 A, (\S+) ml; 13:00 B, \1 ml$", r"^ +until 13:30, with a pause of 1 h 10 min$"))
    tally.note("no pause", [line for line in text_of(batch_worked.gun()).splitlines() if "a pause of" in line])
    tally.note("doors", absent(numbered(), r"^  08:00  coat 1 of 1, \S+ +door 1 to 4 +200 ml +2 h 24 min\b",
                               r"^ +08:10 door 1 \(back\), 25 ml; 08:25 flip, then door 1 \(face\), 25 ml; 08:41 door 2 \(back\)"))


def steps_in_batches(timetable):
    """Each step is in one batch, that which it names, within its time; the minutes of the batches are those of the plan."""
    batches = {b["id"]: b for b in timetable["batches"]}
    told = [(s["id"], b["id"], s["start"], s["end"]) for b in timetable["batches"] for s in b["steps"]]
    wanted = [(s["id"], s["batch"], s["start"], s["end"]) for s in timetable["steps"]]
    if len(batches) != len(timetable["batches"]):
        yield "two batches have one id"
    if sorted(told) != sorted(wanted):
        yield "steps and batches do not agree"
    for b in timetable["batches"]:
        if not b["start"] <= b["work_from"] <= b["work_until"] <= b["end"]:
            yield f"{b['id']}: its moments are out of order"
        if (b["work_from"], b["work_until"]) != (min(s["start"] for s in b["steps"]), max(s["end"] for s in b["steps"])):
            yield f"{b['id']}: works from {b['work_from']} to {b['work_until']}, its steps do not"
    hands = [2 if "helper" in b else 1 for b in timetable["batches"]]
    if sum(b["hands_on_min"] * n for b, n in zip(timetable["batches"], hands)) != timetable["hands_on_min"]:
        yield "the batches' minutes are not those of the plan"


def text_agrees(text, timetable):
    """A row a batch, with its minutes."""
    rows = [minutes(found.group(1)) for found in map(ROW.match, text.splitlines()) if found]
    wanted = [b["hands_on_min"] for b in timetable["batches"]]
    if rows != wanted:
        yield f"rows of {rows} min, batches of {wanted}"


def examples(tally):
    for path in program.examples():
        now = ("--now", "2027-02-26")
        timetable = json.loads(program.run("timetable", path, "--json", *now)[1])
        tally.note(f"{path.name} batches", list(steps_in_batches(timetable)))
        tally.note(f"{path.name} text", list(text_agrees(program.run("timetable", path, *now)[1], timetable)))


def main():
    tally = program.Tally()
    program.need()
    os.environ["COLUMNS"] = "120"  # so wide that no row of theirs is cut
    by_hand(tally)
    turned_over(tally)
    examples(tally)
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
