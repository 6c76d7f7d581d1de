#!/usr/bin/env python3
"""whole_jobs.py [--seeds N] [--steps N,N,...] [--why] [--keep FOLDER]: whole jobs of 40 to 160 steps, planned and checked.

Each job of checker/shop_jobs.py is planned at the default effort and its plan compared with the independent checker; what that
rejects fails. Prints, for each size, how many were planned and proven, the worst gap between plan and bound in per cent of the
time from the start to the bound, and seconds of the whole program; each open job with what makes it hard; and, for 200 steps,
the seconds of the first plan alone. --why plans each open job again without one of its limits at a time; --keep leaves the
open ones in FOLDER.
"""
import argparse
import datetime as dt
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))
sys.dont_write_bytecode = True

import checker
import job_reader
import program
import shop_jobs

WANTED = {40: "all proven", 80: "all proven", 120: "within 8 %", 160: "within 25 %"}
FIRST_PLAN = 200
BENCH = program.ROOT / os.environ.get("BUILD", "build") / "tests/bench/bench_examples"
RELAXED = {"without its rack": lambda shop: shop.pop("rack", None),
           "with a room for dust": lambda shop: shop.update({"dust-room": "separate"}),
           "with one more person": lambda shop: shop.update(people=shop["people"] + 1),
           "with one more spray place": lambda shop: shop.update({"spray-places": 2})}


def planned(path, *options):
    """(timetable, seconds) of a job that is to be ready as early as can be."""
    began = time.perf_counter()
    done = subprocess.run([program.path(), "timetable", path, "--json", "--soonest", *options], capture_output=True, check=False)
    spent = time.perf_counter() - began
    if done.returncode > 1:
        raise SystemExit(f"{path}: {done.stderr.decode()}")
    return json.loads(done.stdout), spent


def rejected(path, timetable):
    """The rules that a plan breaks, printed."""
    job = job_reader.read_job(path, checker.TABLE)
    found = checker.violations(job, {"timetable": timetable}, amounts=False)
    for violation in found:
        print(f"{path}: {violation.rule}: {violation.text}")
    return found


def gap(timetable):
    """Per cent of the time from the start to the bound."""
    start, ready, bound = (dt.datetime.fromisoformat(timetable[key]) for key in ("start", "ready", "no_earlier_than"))
    return 100 * (ready - bound) / (bound - start)


def limits(path):
    """What a job shares, in words."""
    shop = json.loads((path.parent / "shop.json").read_text(encoding="utf-8"))
    house = json.loads((path.parent / "finishes" / "house-finish.json").read_text(encoding="utf-8"))
    if "rack" not in shop:
        return f"people {shop['people']}, no rack limit, separate room"
    return (f"people {shop['people']}, rack {shop['rack']}, shared room, window {' to '.join(house['times']['recoat'])} "
            f"({house['late-recoat']})")


def without_one_limit(path):
    """What becomes of an open job when one of its limits is lifted."""
    shop = path.parent / "shop.json"
    kept = shop.read_text(encoding="utf-8")
    for words, lift in RELAXED.items():
        changed = json.loads(kept)
        lift(changed)
        if changed == json.loads(kept):
            continue
        shop.write_text(json.dumps(changed), encoding="utf-8")
        timetable, spent = planned(path)
        print(f"    {words}: {'proven' if timetable['ready_proven'] else f'open, gap {gap(timetable):.1f} %'}, {spent:.2f} s")
    shop.write_text(kept, encoding="utf-8")


def tell_open(path, seed, timetable, spent, options):
    print(f"  open: seed {seed}, {len(timetable['steps'])} steps, {limits(path)}: gap {gap(timetable):.1f} %, ready "
          f"{timetable['ready']}, no earlier than {timetable['no_earlier_than']}, {spent:.2f} s", flush=True)
    if options.why:
        without_one_limit(path)
    if options.keep:
        kept = Path(options.keep) / path.parent.name
        shutil.rmtree(kept, ignore_errors=True)
        shutil.copytree(path.parent, kept)


def measure(steps, folder, options):
    """Plans the jobs of a size and prints what became of them; the number of rejected plans."""
    seconds, gaps, proven, wrong = [], [], 0, 0
    for seed in range(1, options.seeds + 1):
        path = shop_jobs.write(seed, steps, folder / f"{steps}-{seed}")
        timetable, spent = planned(path)
        seconds.append(spent)
        wrong += bool(rejected(path, timetable))
        if timetable["status"] != "planned":
            print(f"  no plan: seed {seed}, {timetable['status']}, {limits(path)}: {timetable['why']}")
            continue
        gaps.append(gap(timetable))
        proven += timetable["ready_proven"]
        if not timetable["ready_proven"]:
            tell_open(path, seed, timetable, spent, options)
    print(f"{steps} steps (wanted {WANTED.get(steps, 'a plan')}): {len(gaps)} of {options.seeds} planned, {proven} proven, "
          f"{wrong} rejected by the checker, worst gap {max(gaps, default=0):.1f} %, {took(seconds)}", flush=True)
    return wrong


def took(seconds):
    return f"mean {sum(seconds) / len(seconds):.3f} s, worst {max(seconds):.3f} s"


def first_plans(folder, options):
    """Plans large jobs with no search beyond the first plan, and prints the time of planning alone."""
    paths = [shop_jobs.write(seed, FIRST_PLAN, folder / f"{FIRST_PLAN}-{seed}") for seed in range(1, options.seeds + 1)]
    done = subprocess.run([BENCH, "--effort", "1", *paths], cwd=program.ROOT, capture_output=True, text=True, check=True)
    seconds = [float(line.split()[-2]) for line in done.stdout.splitlines()]
    print(f"{FIRST_PLAN} steps, the first plan alone (wanted within 0.050 s): {done.stdout.count(', ready ')} of {options.seeds} "
          f"planned, {took(seconds)}")
    return sum(bool(rejected(path, planned(path, "--effort", "1")[0])) for path in paths)


def main(arguments):
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seeds", type=int, default=10)
    parser.add_argument("--steps", default=",".join(map(str, WANTED)))
    parser.add_argument("--why", action="store_true")
    parser.add_argument("--keep")
    options = parser.parse_args(arguments)
    with tempfile.TemporaryDirectory() as scratch:
        wrong = sum(measure(int(steps), Path(scratch), options) for steps in options.steps.split(","))
        wrong += first_plans(Path(scratch), options)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
