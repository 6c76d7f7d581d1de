#!/usr/bin/env python3
"""proofs.py [--jobs N] [--first N] [--soonest] [--effort N] [--keep FOLDER] [--unchecked]: of generated jobs, how many have a work
or a ready moment that is proven.

The jobs are those of checker/drawn_jobs.py. Each plan is compared with the independent checker unless told; what that rejects
fails. Prints a line for each job whose work is
not proven, then the sums: how many were planned, proven in work and in ready, the largest gap between work and bound in per cent of
the work, seconds of the whole program.
"""
import argparse
import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))
sys.dont_write_bytecode = True

import checker
import drawn_jobs
import job_reader
import program


def planned(path, *options):
    """(timetable, seconds); timetable None where the job is refused."""
    began = time.perf_counter()
    done = subprocess.run([program.path(), "timetable", path, "--json", *options], capture_output=True, check=False)
    spent = time.perf_counter() - began
    if done.returncode > 1:
        return None, spent
    return json.loads(done.stdout), spent


def rejected(path, timetable):
    """The rules that a plan breaks, printed."""
    found = checker.violations(job_reader.read_job(path, checker.TABLE), {"timetable": timetable}, amounts=False)
    for violation in found:
        print(f"{path}: {violation.rule}: {violation.text}")
    return bool(found)


def gap(timetable):
    """Per cent of the work that may be saved at the most."""
    return 100 * (timetable["hands_on_min"] - timetable["no_less_work_min"]) / timetable["hands_on_min"]


def main(arguments):
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--jobs", type=int, default=40)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--soonest", action="store_true")
    parser.add_argument("--effort")
    parser.add_argument("--keep")
    parser.add_argument("--unchecked", action="store_true")
    options = parser.parse_args(arguments)
    more = (["--soonest"] if options.soonest else []) + (["--effort", options.effort] if options.effort else [])
    refused = wrong = 0
    tables, seconds = [], []
    with tempfile.TemporaryDirectory() as scratch:
        for number in range(options.first, options.first + options.jobs):
            path = drawn_jobs.write(number, Path(options.keep or scratch) / str(number))
            timetable, spent = planned(path, *more)
            if timetable is None:
                refused += 1
                continue
            seconds.append(spent)
            wrong += not options.unchecked and rejected(path, timetable)
            if timetable["status"] != "planned":
                print(f"job {number}: {timetable['status']}, {spent:.2f} s", flush=True)
                continue
            tables.append(timetable)
            if not timetable["work_proven"]:
                print(f"job {number}: {len(timetable['steps'])} steps, {len(timetable['batches'])} batches, late {timetable['late_min']}, "
                      f"work {timetable['hands_on_min']} of {timetable['no_less_work_min']}, ready "
                      f"{'proven' if timetable['ready_proven'] else 'open'}, {spent:.2f} s", flush=True)
    count = len(seconds)
    print(f"{count} jobs{' soonest' if options.soonest else ''} ({refused} refused): {len(tables)} planned, "
          f"{sum(t['work_proven'] for t in tables)} proven in work, {sum(t['ready_proven'] for t in tables)} in ready, {wrong} rejected "
          f"by the checker, largest gap of work {max(map(gap, tables), default=0):.1f} %, mean {sum(seconds) / count:.2f} s, worst {max(seconds):.2f} s")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
