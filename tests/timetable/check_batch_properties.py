#!/usr/bin/env -S python3 -B
"""What must hold between plans in batches: a longer rest, one person more, a larger rack or a later delivery never cost more work
at the same lateness; no plan alternates two kinds where swapping two neighbours would save a set-up.

TINY=n tiny jobs (60) and SHOPS=n jobs of a shop (4), from SEED=n on (the day of the year, so that every run draws its own).
"""
import copy
import datetime as dt
import json
import os
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))

import batch_jobs
import batch_swaps
import checker
import job_reader
import program
import shop_jobs
import worked

TINY, SHOPS = program.draws("TINY", 30), program.draws("SHOPS", 2)
SEED = int(os.environ.get("SEED", "333000"))
STEPS = 30
REST_MIN = 30
EVERY_SKILL = ["brush", "roller", "sand"]


def rested(job):
    rest = job["shop"]["rest"]
    job["shop"]["rest"] = {tool: f"{int(span.split()[0]) + REST_MIN} min" for tool, span in rest.items()}


def helped(job):
    people = job["shop"]["people"]
    job["shop"]["people"] = people + [{"person": "Cem", "does": EVERY_SKILL}] if isinstance(people, list) else people + 1


def racked(job):
    job["shop"].pop("rack", None)


def awaited(job):
    """A day and a half more."""
    if "deliver" in job:
        job["deliver"] = (dt.datetime.strptime(job["deliver"], "%Y-%m-%d %H:%M") + dt.timedelta(hours=36)).strftime("%Y-%m-%d %H:%M")


CHANGES = {"a longer rest": rested, "one person more": helped, "a larger rack": racked, "a later delivery": awaited}


def cost(plan, soonest):
    """What the aim counts, in its order; a job that cannot be planned costs most."""
    table = plan["timetable"]
    if table["status"] != "planned":
        return (float("inf"),)
    return (table["ready"], table["late_min"]) if soonest else (table["late_min"], table["hands_on_min"])


def planned(job, finishes, folder, options):
    path = worked.write(worked.Problem("batches", job, finishes, {}, None), folder)
    plan, error = program.plan(path, *options)
    return path, plan, error


def alternates(path, plan):
    if plan["timetable"]["status"] != "planned":
        return []
    return list(batch_swaps.wasted(job_reader.read_job(path, checker.TABLE), plan))


def tiny(seed, folder):
    """A job small enough that the search finds its best plan."""
    drawn = batch_jobs.Draw(seed)
    job, finishes = drawn.job(seed)
    if not any("coat" in step for steps in job["schedules"].values() for step in steps):
        return
    options = ["--soonest"] if drawn.soonest else []
    path, plan, error = planned(job, finishes, folder, options)
    if error:
        yield error
        return
    yield from alternates(path, plan)
    for name, change in CHANGES.items():
        other = copy.deepcopy(job)
        change(other)
        if other == job:
            continue
        _, more, error = planned(other, finishes, folder, options)
        if error:
            yield f"{name}: {error}"
        elif cost(more, drawn.soonest) > cost(plan, drawn.soonest):
            yield f"{name} costs {cost(more, drawn.soonest)}, without it {cost(plan, drawn.soonest)}"


def shop(seed, folder):
    """A job of a shop: its plan, and how it changes with the shop. More work than before is told where lateness is the same."""
    path = shop_jobs.write(seed, STEPS, folder)
    plan, error = program.plan(path)
    if error:
        yield error
        return
    yield from alternates(path, plan)
    base = plan["timetable"]
    original = json.loads((folder / "shop.json").read_text(encoding="utf-8"))
    for name, change in ((k, v) for k, v in CHANGES.items() if k in ("one person more", "a larger rack")):
        other = {"shop": copy.deepcopy(original)}
        change(other)
        (folder / "shop.json").write_text(json.dumps(other["shop"]), encoding="utf-8")
        plan, error = program.plan(path)
        more = plan and plan["timetable"]
        if error:
            yield f"{name}: {error}"
        elif (more["late_min"] == base["late_min"]) and more["hands_on_min"] > base["hands_on_min"]:
            yield f"{name} costs {more['hands_on_min']} min of work, without it {base['hands_on_min']}"
        elif more["no_less_work_min"] > base["hands_on_min"]:
            yield f"{name}: no less than {more['no_less_work_min']} min of work, but without it {base['hands_on_min']}"


def main():
    tally = program.Tally()
    program.need()
    with program.scratch() as scratch:
        for seed in range(SEED, SEED + TINY):
            tally.note(f"tiny job {seed}", list(tiny(seed, Path(scratch) / "tiny")))
        for seed in range(SEED, SEED + SHOPS):
            tally.note(f"shop job {seed}", list(shop(seed, Path(scratch) / f"shop-{seed}")))
        for path in program.examples():
            plan, error = program.plan(path)
            tally.note(path, [error] if error else alternates(path, plan))
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
