#!/usr/bin/env -S python3 -B
"""Work in batches: problems worked by hand, to the minute; tiny jobs against a search that tries every grouping.

TINY=n draws n tiny jobs (160), SOONEST=n draws n more that are wanted soonest (60), SEED=n begins with another one (333000).
"""
import datetime as dt
import json
import math
import os
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))

import batch_brute as brute
import batch_jobs
import batch_worked
import program
import worked

TINY = program.draws("TINY", 160)
SOONEST = program.draws("SOONEST", 60)
SEED = int(os.environ.get("SEED", "333000"))
FOUND = 901478, 901684  # jobs of few orders whose plan once told one batch with the times of another
# A rack is full while a batch is at work; one piece of it can leave during the break, others only in the evening.
FOUND_SOONEST = 5004592
MONDAY = dt.datetime(2027, 3, 1, tzinfo=dt.timezone.utc)


def minute(text):
    """Minutes since Monday 00:00 of a moment in JSON."""
    return int((dt.datetime.fromisoformat(text) - MONDAY).total_seconds()) // 60


def clock(text):
    """Minutes since Monday 00:00 of `Mon 08:10`."""
    return minute(worked.moment(text) + "+00:00")


def spoken(at):
    return f"{list(worked.WEEK)[at // brute.DAY % 7]} {at % brute.DAY // 60:02}:{at % 60:02}" if at is not None else "never"


def piece_of(identifier):
    return identifier.split("/")[0].split(".")[0]


def batches_of(timetable):
    """(start, end, [(piece, start, end)]) of every batch, by start."""
    return sorted((minute(b["start"]), minute(b["end"]), [(piece_of(s["id"]), minute(s["start"]), minute(s["end"]))
                                                          for s in b["steps"]]) for b in timetable["batches"] if b["start"] != b["end"])


def told_apart(wanted, got):
    """Whether batches are as by hand; a piece that the hand left open may be any."""
    if len(wanted) != len(got):
        return False
    for (start, end, rows), mine in zip(wanted, got):
        if (clock(start), clock(end)) != mine[:2] or len(rows) != len(mine[2]):
            return False
        if any((clock(a), clock(b)) != m[1:] or (p is not None and p.lower() != m[0]) for (p, a, b), m in zip(rows, mine[2])):
            return False
    return True


def with_a_coat(job, finishes):
    """A job that only sands is none for the program: one square millimetre is coated in no time, by a cloth without set-up."""
    if any("coat" in step for steps in job["schedules"].values() for step in steps):
        return job, finishes
    nothing = worked.finish("nothing", {"dust-free": "0 min", "handle": "0 min"}, by=["cloth"])
    shop = {**job["shop"], "rates": {**job["shop"]["rates"], "cloth": "1000 m2/h"}}
    if isinstance(shop.get("people"), list):
        shop["people"] = [{**person, "does": [*person["does"], "cloth"]} if "does" in person else person for person in shop["people"]]
    for key in ("set-up", "clean-up", "handling"):
        shop[key] = {**shop[key], "cloth": "0 min"} if isinstance(shop[key], dict) else shop[key]
    part = {"part": "nothing", "shape": "area", "area": "1 mm2", "region": "face", "face": "nothing", "wood": "beech"}
    return {**job, "shop": shop, "schedules": {**job["schedules"], "nothing": [worked.coats("nothing")]},
            "parts": job["parts"] + [part]}, finishes + [nothing]


def planned(job, finishes, folder, options=()):
    """(timetable, None), or (None, what went wrong)."""
    job, finishes = with_a_coat(job, finishes)
    problem = worked.Problem("batches", job, finishes, {}, None)
    code, out, errors = program.run("timetable", worked.write(problem, folder), "--json", *options)
    if code not in (0, 1):
        return None, f"exit status {code}: {(out + errors).strip()[:600]}"
    return json.loads(out), None


def by_hand(problem, folder):
    """What the program, and the search that tries everything, say otherwise than the hand."""
    value = brute.best(problem.tiny)[0]
    if (value[2], value[3]) != (problem.work, ready_of(problem)):
        yield f"tried: work {value[2]}, ready {spoken(value[3])}; by hand {problem.work}, {problem.ready}"
    timetable, error = planned(problem.job, problem.finishes, folder, problem.options)
    if error:
        yield error
        return
    if minute(timetable["ready"]) != clock(problem.ready):
        yield f"ready {timetable['ready']}, by hand {problem.ready}"
    if timetable["hands_on_min"] != problem.work:
        yield f"{timetable['hands_on_min']} min of work, by hand {problem.work}"
    if problem.proven and not timetable["work_proven"]:
        yield f"not proven: no plan takes less than {timetable['no_less_work_min']} min"
    got = batches_of(timetable)
    if not told_apart(problem.batches, got):
        yield f"batches {[(spoken(a), spoken(b), [(p, spoken(x), spoken(y)) for p, x, y in r]) for a, b, r in got]}"


def ready_of(problem):
    return clock(problem.ready)


def tiny(seed, folder, soonest=False):
    """What the program says otherwise than the search that tries every grouping."""
    drawn = batch_jobs.Draw(seed)
    drawn.soonest |= soonest
    job, finishes = drawn.job(seed)
    best = brute.best(drawn.brute_job())
    timetable, error = planned(job, finishes, folder, ["--soonest"] if drawn.soonest else [])
    if error:
        yield error
        return
    if timetable["status"] != "planned":
        if best is not None and timetable["status"] == "impossible":
            yield f"impossible, but {best[0]} is a plan: {timetable['why']}"
        return
    if best is None:
        yield "planned, but no plan was found by trying"
        return
    _, late, exact, ready = best[0]
    work = math.ceil(exact)  # told rounded up
    got = (timetable["late_min"], timetable["hands_on_min"], minute(timetable["ready"]))
    wanted = (late, work, ready)
    order = (2, 0, 1) if drawn.soonest else (0, 1, 2)
    better = [got[i] for i in order] < [wanted[i] for i in order]
    if better:
        yield f"(late, work, ready) {got} beats {wanted}, the best of all that were tried"
    elif got != wanted:
        yield f"(late, work, ready) {got}, tried {wanted}"
    if not better and got[1] < timetable["no_less_work_min"]:
        yield f"{got[1]} min of work are below its own bound {timetable['no_less_work_min']}"
    if ready < minute(timetable["no_earlier_than"]):
        yield f"a plan is ready at {spoken(ready)}, the bound says {timetable['no_earlier_than']}"
    if wanted[1] < timetable["no_less_work_min"] and (not drawn.soonest or ready <= got[2]):
        yield f"a plan with {wanted[1]} min of work is there, the bound says {timetable['no_less_work_min']}"


def main():
    tally = program.Tally()
    program.need()
    with program.scratch() as scratch:
        for number, problem in enumerate(batch_worked.PROBLEMS):
            tally.note(problem.name, list(by_hand(problem, Path(scratch) / f"p{number}")))
        for seed in (*FOUND, *range(SEED, SEED + TINY)):
            tally.note(f"tiny job {seed}", list(tiny(seed, Path(scratch) / "tiny")))
        for seed in (FOUND_SOONEST, *range(SEED + TINY, SEED + TINY + SOONEST)):
            tally.note(f"tiny job {seed} soonest", list(tiny(seed, Path(scratch) / "tiny", soonest=True)))
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
