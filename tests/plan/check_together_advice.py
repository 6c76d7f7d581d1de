#!/usr/bin/env -S python3 -B
"""Late jobs of one shop: every sentence of advice is taken at its word. Its change is made in copies of all files that it
names, all jobs are planned again, and the job must be ready when the sentence says so. SEEDS=n shops (2), SENTENCES=n (3)."""
import json
import re
import shutil
import sys
from pathlib import Path

import check_advice
import program
import shop_jobs

SEEDS, SENTENCES = program.draws("SEEDS", 2), program.draws("SENTENCES", 3)
JOBS, STEPS, DUE = 3, 12, (3, 6)
LATER = re.compile(r", which makes (?P<job>.+?) (?P<span>\d+ (?:d|h|min)(?: \d+ (?:h|min))*) late")


def planned(paths):
    code, out, errors = program.run("timetable", *paths, "--json", "--effort", "4000000", "--now", "2027-01-01T08:00Z")
    if code not in (0, 1):
        raise ValueError(f"exit status {code}: {(errors or out).strip()[:400]}")
    return json.loads(out)["jobs"]


def take(paths, folder, away, found):
    """The timetables after the change that a sentence asks for."""
    shutil.copytree(folder, away)
    check_advice.take(folder, away, found)
    return planned([away / path.relative_to(folder) for path in paths])


def problems_of(now, then, k, found):
    """What is wrong with a sentence to job k."""
    ready, wall = check_advice.clock(then[k]["ready"])
    gain = check_advice.clock(now[k]["ready"])[0] - ready
    if wall != found["ready"]:
        yield f"told ready {found['ready']}, is {wall}"
    if found["latest"] or not found["gain"] or check_advice.minutes(found["gain"]) != gain:
        yield f"told {found['gain']} sooner, is {gain} min"
    if (found["when"] == "in time") != (then[k]["late_min"] == 0):
        yield f"told {found['when']}, is late by {then[k]['late_min']} min"
    moved = [(a["deliver"], b["deliver"]) for a, b in zip(now, then) if a["deliver"] != b["deliver"]]
    if moved:
        yield f"promised deliveries moved: {moved}"
    told = {(match["job"], check_advice.minutes(match["span"])) for match in LATER.finditer(found["words"])}
    later = {(b["job"], b["late_min"]) for j, (a, b) in enumerate(zip(now, then)) if j != k and b["late_min"] > a["late_min"]}
    if told != later:
        yield f"told that it makes {told} late, makes {later}"


def by_closing(paths):
    """These jobs name the day of their delivery alone: longer hours must not move it."""
    for path in paths:
        job = json.loads(path.read_text(encoding="utf-8"))
        path.write_text(json.dumps({**job, "deliver": job["deliver"][:10]}))


def verify(tally, seed, scratch):
    """Generated jobs."""
    folder = scratch / str(seed)
    paths = shop_jobs.write_several(seed, JOBS, STEPS, folder, DUE)
    by_closing(paths[1:])
    return verify_jobs(tally, seed, folder, paths)


def verify_evening(tally, scratch, apart):
    """Each job's tasks fill a day of the only person, and it is promised for the closing of that day, 17:00, before it is coated: a
    longer evening is told with the changes that keep the promise."""
    folder, name = scratch / f"evening-{apart}", "an hour more every evening"
    paths = [check_advice.write(folder / str(k), check_advice.job(day, **{**check_advice.EVENING, "job": f"Job {k}"}), apart)
             for k, day in enumerate(["2027-03-22", "2027-03-23"])]
    told = [match for table in planned(paths) for match in check_advice.sentences(table)[0] if match and match["words"] == name]
    held = [{(match["file"], match["change"]) for match in check_advice.ALSO.finditer(match["also"])} for match in told]
    want = {(str(path), f'{{"deliver": "2027-03-{22 + k} 17:00"}}') for k, path in enumerate(paths)}
    tally.note(f"evening, shop apart: {apart}", [] if held and all(h == want for h in held) else [f"{held} hold, not {want}"])
    return verify_jobs(tally, f"evening-{apart}", folder, paths)


def verify_jobs(tally, seed, folder, paths):
    """The first sentences to each late job; how many."""
    count, now = 0, planned(paths)
    for k, table in enumerate(now):
        found, unread = check_advice.sentences(table)
        gains = [check_advice.minutes(match["gain"]) for match in found if match]
        problems = [f"cannot be read: {text}" for text in unread]
        problems += ["not sorted by gain"] if gains != sorted(gains, reverse=True) else []
        problems += ["advice to a job in time"] if found and not table["late_min"] else []
        tally.note(f"seed {seed}, job {k + 1}", problems)
        for number, match in enumerate(found[:SENTENCES]):
            then = take(paths, folder, folder.parent / f"{seed}-{k}-{number}", match)
            tally.note(f"seed {seed}, job {k + 1}", [f"{match['words']}: {p}" for p in problems_of(now, then, k, match)])
            count += 1
    return count


def main():
    program.need()
    tally = program.Tally()
    with program.scratch() as scratch:
        told = sum(verify(tally, seed, Path(scratch)) for seed in range(1, SEEDS + 1))
        for apart in (False, True):
            verify_evening(tally, Path(scratch), apart)
    tally.note("sentences", [] if told >= 2 * SEEDS else [f"only {told} for {SEEDS} shops"])
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
