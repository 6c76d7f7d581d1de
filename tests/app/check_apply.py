#!/usr/bin/env -S python3 -B
"""`--apply N`: every line of what would help, made in a copy of the files and in place, gives the plan that it tells; what
it does not change stays as it stands; and what cannot be made changes nothing."""
import json
import os
import shutil
import sys
from pathlib import Path

sys.path[:0] = [str(Path(__file__).resolve().parents[1] / name) for name in ("plan", "checker")]

import check_advice
import program

EFFORT = 200000  # what is told "at the latest" is tried as such; that the rest is exact is tried by check_advice.py
NOW = ("--now", "2027-01-01T08:00Z", "--effort", str(EFFORT))


def asked(job, *options, command="timetable"):
    return program.run(command, job, *options, *NOW)


def contents(folder):
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def ready_of(path):
    return check_advice.timetable(path, EFFORT)["ready"]


def lines_of(path):
    return [match for match in check_advice.sentences(check_advice.timetable(path, EFFORT))[0] if match]


def problems_of(match, path):
    """What the job is after a change against what the line told of it."""
    ready = check_advice.clock(ready_of(path))[1]
    return [] if ready == match["ready"] or (match["latest"] and ready < match["ready"]) else [f"ready {ready}, told {match['ready']}"]


def changed_files(before, folder):
    after = contents(folder)
    gone = [f"{name} is gone" for name in before if name not in after]
    return {name for name in after if before.get(name) != after[name]}, gone


def named_files(match, folder):
    told = [match["file"], *(also["file"] for also in check_advice.ALSO.finditer(match["also"]))]
    return {str(Path(name).relative_to(folder)) for names in told for name in names.split(" and ")}


def in_a_copy(tally, name, path, match, scratch):
    before, away = contents(path.parent), scratch / "copy"
    code, out, errors = asked(path, "--apply", match["number"], "--out", away)
    problems = [f"exit status {code}: {errors}"] if code not in (0, 1) else problems_of(match, away / path.name)
    changed, gone = changed_files(before, away) if not problems else (set(), [])
    problems += gone
    problems += [f"changed {changed}, not {named_files(match, path.parent)}"] if not problems and changed != named_files(match, path.parent) else []
    problems += ["the job's own files changed"] if contents(path.parent) != before else []
    problems += ["the line is not shown"] if not out.startswith(f"{match['number']}. {match['words']}: ") else []
    tally.note(f"{name}: {match['words']}: copy", problems)
    shutil.rmtree(away, ignore_errors=True)


def in_place(tally, name, path, match, scratch):
    own = scratch / "own"
    shutil.copytree(path.parent, own)
    before = contents(own)
    code, out, errors = asked(own / path.name, "--apply", match["number"], "--in-place", "--json")
    problems = [f"exit status {code}: {errors}"] if code not in (0, 1) else problems_of(match, own / path.name)
    problems += [] if problems or json.loads(out)["ready"] == ready_of(own / path.name) else ["another plan is printed"]
    changed, gone = changed_files(before, own)
    problems += gone + ([f"changed {changed}"] if changed != named_files(match, path.parent) else [])
    tally.note(f"{name}: {match['words']}: in place", problems)
    shutil.rmtree(own)


def every_line(tally, scratch):
    """Of each kind the cases of check_advice.py that tell it, the first line of every kind."""
    seen = set()
    for number, (name, expected, wanted) in enumerate(check_advice.CASES):
        path = check_advice.write(scratch / f"case-{number}", wanted, number % 2 and "shop" in wanted)
        for match in lines_of(path):
            kind = next((words for words in expected if words in match["words"]), None)
            if kind and (kind, "shop" in match["file"]) not in seen:
                seen.add((kind, "shop" in match["file"]))
                in_a_copy(tally, name, path, match, scratch)
                in_place(tally, name, path, match, scratch)
    tally.note("kinds", [] if len(seen) >= 12 else [f"only {sorted(seen)}"])


TEXT = """{
  "format": "coatwright-job/1", "job": "late",   "zone": "Europe/London",

  "currency": "GBP",
  "start": "2027-03-02 08:00", "deliver": "2027-03-02 09:30", "deliver-at": "handle",
  "shop": {"people": 1,
           "air": [{"from": "00:00", "temperature": "23 C", "humidity": "50 %"}]},
  "schedules": {"top": [{"coat": "shellac-dewaxed",  "coats": 2, "by": "brush"}]},
  "parts": [{"part": "top", "wood": "beech", "shape": "area", "area": "1 m2", "all": "top"}]
}
"""


def the_rest_stays(tally, scratch):
    folder = scratch / "text"
    folder.mkdir()
    path = folder / "job.json"
    path.write_text(TEXT)
    match = next(match for match in lines_of(path) if match["words"].startswith("begun"))
    asked(path, "--apply", match["number"], "--in-place")
    want = TEXT.replace("2027-03-02 08:00", match["words"].removeprefix("begun "))
    tally.note("all but the change stays as it stands", [] if path.read_text() == want else [path.read_text()])


def refused(tally, name, path, options, says, status, command="timetable"):
    before = contents(path.parent)
    code, out, errors = asked(path, *options, command=command)
    problems = [] if code == status and says in errors else [f"exit status {code}: {errors}"]
    problems += ["something changed"] if contents(path.parent) != before else []
    tally.note(name, problems)


def refusals(tally, scratch):
    path = check_advice.write(scratch / "refused", check_advice.job("2027-03-26"), True)
    count = len(lines_of(path))
    shop = next(match["number"] for match in lines_of(path) if match["file"].endswith("shop.json"))
    for wrong in ("0", str(count + 1), "-1", "two", "999999999999"):
        refused(tally, f"line {wrong}", path, ("--apply", wrong, "--in-place"), f"the number of a line of what would help, 1 to {count}", 2)
    refused(tally, "neither a folder nor in place", path, ("--apply", "1"), "--out DIR or with --in-place", 2)
    refused(tally, "in place of what", path, ("--in-place",), "--in-place with --apply", 2)
    refused(tally, "two jobs", path, (path, "--apply", "1", "--in-place"), "one job with", 2)
    refused(tally, "a folder that holds something", path, ("--apply", "1", "--out", path.parent), "new or empty", 4)
    refused(tally, "a folder in none", path, ("--apply", "1", "--out", path.parent / "no" / "such"), "no such folder", 4)
    (path.parent / "shop.json").chmod(0o444)
    refused(tally, "a file that is read only", path, ("--apply", shop, "--in-place"), "no permission to write there", 4)
    (path.parent / "shop.json").chmod(0o644)
    (path.parent / "shop.json").rename(path.parent / "other.json")
    os.symlink("other.json", path.parent / "shop.json")
    refused(tally, "a link", path, ("--apply", shop, "--in-place"), "a link: name the file that it leads to", 4)


def in_time(tally, scratch):
    path = check_advice.write(scratch / "in-time", check_advice.job("2027-06-01"), False)
    refused(tally, "nothing to help", path, ("--apply", "1", "--in-place"), "a plan with lines of what would help", 2)


def soonest(tally, scratch):
    """A is there, B comes on Wednesday: together they are ready with less than a day to spare, apart sooner with more work."""
    parts = [check_advice.drawer(name, "1 m2") for name in ("A", "B")]
    job = check_advice.job("2027-03-25 09:20", schedules={"top": [{"coat": "shellac-dewaxed", "coats": 1, "by": "brush"}]}, parts=parts,
                           pieces=[{"piece": "B", "ready": "2027-03-24 08:00"}], **{"deliver-at": "handle"})
    path = check_advice.write(scratch / "soonest", job, False)
    now = check_advice.timetable(path, EFFORT)
    told = [text for text in now["why"] if "--soonest" in text]
    code, out, _ = asked(path, "--soonest", "--json")
    then = json.loads(out)
    ready, more = check_advice.clock(then["ready"])[1], then["hands_on_min"] - now["hands_on_min"]
    want = f"1. planned with --soonest: ready {ready}, "
    problems = [] if len(told) == 1 and told[0].startswith(want) and told[0].endswith(f", in time, {more} min more work") else [f"{told}, not {want}"]
    tally.note("--soonest", problems)
    refused(tally, "an option changes no file", path, ("--apply", "1", "--in-place"), "a line that changes a file", 2)


def plan_writes_its_files(tally, scratch):
    path = check_advice.write(scratch / "plan", check_advice.job("2027-03-26"), True)
    match, away = lines_of(path)[0], scratch / "plan-copy"
    code, _, errors = asked(path, "--apply", match["number"], "--out", away, command="plan")
    names = sorted(contents(away)) if away.exists() else []
    wanted = [".coatwright-key", "job.json", "plan.json", "sheet.html", "shop.json", "shopping.csv", "timetable.ics"]  # the key of its events
    problems = [] if code in (0, 1) and names == wanted else [f"{code}: {names} {errors}"]
    problems += [] if problems or json.loads((away / "plan.json").read_text())["timetable"]["ready"] == ready_of(away / "job.json") else ["another plan"]
    tally.note("plan writes its files beside the copy", problems)


def main():
    program.need()
    tally = program.Tally()
    with program.scratch() as scratch:
        for test in (every_line, the_rest_stays, refusals, in_time, soonest, plan_writes_its_files):
            test(tally, Path(scratch))
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
