#!/usr/bin/env -S python3 -B
"""Late jobs of one shop: every sentence of advice is taken at its word. Its change is made in copies of all files that it
names, all jobs are planned again, and the job must be ready when the sentence says so. SEEDS=n shops (4), SENTENCES=n (3)."""
import json
import os
import re
import shutil
import sys
from pathlib import Path

import check_advice
import program
import shop_jobs

SEEDS, SENTENCES = int(os.environ.get("SEEDS", "4")), int(os.environ.get("SENTENCES", "3"))
JOBS, STEPS, DUE = 3, 12, (3, 6)
LATER = re.compile(r", which makes (?P<job>.+?) (?P<span>\d+ (?:d|h|min)(?: \d+ (?:h|min))*) late")


def planned(paths):
    code, out, errors = program.run("timetable", *paths, "--json", "--now", "2027-01-01T08:00Z")
    if code not in (0, 1):
        raise ValueError(f"exit status {code}: {(errors or out).strip()[:400]}")
    return json.loads(out)["jobs"]


def change(file, patch):
    file.write_text(json.dumps(check_advice.merged(json.loads(file.read_text(encoding="utf-8")), patch)))


def take(paths, folder, away, found):
    """The timetables after the change that a sentence asks for."""
    shutil.copytree(folder, away)
    for name in found["file"].split(" and "):
        change(away / Path(name).relative_to(folder), json.loads(found["change"]))
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
    told = {(match["job"], check_advice.minutes(match["span"])) for match in LATER.finditer(found["words"])}
    later = {(b["job"], b["late_min"]) for j, (a, b) in enumerate(zip(now, then)) if j != k and b["late_min"] > a["late_min"]}
    if told != later:
        yield f"told that it makes {told} late, makes {later}"


def verify(tally, seed, scratch):
    """The first sentences to each late job; how many."""
    folder, count = scratch / str(seed), 0
    paths = shop_jobs.write_several(seed, JOBS, STEPS, folder, DUE)
    now = planned(paths)
    for k, table in enumerate(now):
        found, unread = check_advice.sentences(table)
        gains = [check_advice.minutes(match["gain"]) for match in found if match]
        problems = [f"cannot be read: {text}" for text in unread]
        problems += ["not sorted by gain"] if gains != sorted(gains, reverse=True) else []
        problems += ["advice to a job in time"] if found and not table["late_min"] else []
        tally.note(f"seed {seed}, job {k + 1}", problems)
        for number, match in enumerate(found[:SENTENCES]):
            then = take(paths, folder, scratch / f"{seed}-{k}-{number}", match)
            tally.note(f"seed {seed}, job {k + 1}", [f"{match['words']}: {p}" for p in problems_of(now, then, k, match)])
            count += 1
    return count


def main():
    program.need()
    tally = program.Tally()
    with program.scratch() as scratch:
        told = sum(verify(tally, seed, Path(scratch)) for seed in range(1, SEEDS + 1))
    tally.note("sentences", [] if told >= 2 * SEEDS else [f"only {told} for {SEEDS} shops"])
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
