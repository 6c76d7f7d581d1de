#!/usr/bin/env -S python3 -B
"""check_reached.py [--accept] - what was reached for the first jobs of drawn_jobs.py with little effort stays reached: of none is the plan
or a bound worse than reached.jsonl says, with the least work and soonest, and no bound is better than a plan that is known.

A line there is a job and an aim: what little effort gives ("quick"), and the plan of the usual effort ("best"), against which the
bounds of little effort are held. These are the program's own results and prove nothing by themselves: check_proofs.py and
check_batches.py compare such plans with brute force and the independent checker. Here is seen at once what a change takes away.
"""
import json
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))

import drawn_jobs
import program
from claims import beaten, essence, less_as_soon, moment, planned

REACHED = Path(__file__).with_name("reached.jsonl")
JOBS = 60
LITTLE = ("--effort", "20000")
AIMS = {"work": (), "soonest": ("--soonest",)}


def rank(aim, one):
    """The smaller, the better by the aim."""
    ready = moment(one["ready"])
    short = max(0, one["to_spare_min"] - one["spare_min"])
    rest = (ready, one["hands_on_min"]) if aim == "soonest" else (short, one["hands_on_min"], ready)
    return one["late_min"], *rest


def worse(aim, now, before):
    """In what a plan of little effort, or its bounds, are worse than they were."""
    if rank(aim, now) != rank(aim, before):
        told = "late {late_min}, ready {ready}, {hands_on_min} min of work"
        return [f"{told.format(**now)}; it was {told.format(**before)}"] if rank(aim, now) > rank(aim, before) else []
    problems = []
    if now["no_less_work_min"] < before["no_less_work_min"]:
        problems.append(f"no less work than {now['no_less_work_min']}; it was {before['no_less_work_min']}")
    if moment(now["no_earlier_than"]) < moment(before["no_earlier_than"]):
        problems.append(f"not ready before {now['no_earlier_than']}; it was {before['no_earlier_than']}")
    return problems


def tried(aim, path, row):
    """What is wrong with what little effort gives now."""
    now, refused = planned(path, *AIMS[aim], *LITTLE)
    if not now:
        return [] if row["quick"] is None else [refused]
    if row["quick"] is None:
        return []
    contradicted = less_as_soon if aim == "soonest" else beaten
    return worse(aim, essence(now), row["quick"]) + contradicted(row["best"], now)


def reached(aim, path, row):
    """The row as it is now; the best plan stays until a better one is found."""
    quick, best = (planned(path, *AIMS[aim], *effort)[0] for effort in (LITTLE, ()))
    known = [essence(best)] if best else []
    known += [row["best"]] if row.get("best") else []
    return {**row, "quick": quick and essence(quick), "best": min(known, key=lambda one: rank(aim, one), default=None)}


def main():
    program.need()
    tally = program.Tally()
    accepting = "--accept" in sys.argv[1:]
    rows = [json.loads(line) for line in REACHED.read_text(encoding="utf-8").splitlines()]
    with program.scratch() as scratch:
        paths = [drawn_jobs.write(number, Path(scratch) / str(number)) for number in range(JOBS)]
        if accepting:
            rows = rows or [{"job": number, "aim": aim} for number in range(JOBS) for aim in AIMS]
            rows = [reached(row["aim"], paths[row["job"]], row) for row in rows]
            REACHED.write_text("".join(json.dumps(row) + "\n" for row in rows), encoding="utf-8")
        for row in rows:
            tally.note(f"drawn job {row['job']}, {row['aim']}", tried(row["aim"], paths[row["job"]], row))
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
