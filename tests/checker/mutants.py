#!/usr/bin/env python3
"""mutants.py JOB PLAN [--seed N] [--count N]: breaks a valid plan in seeded ways and sees that the checker rejects each.

Prints each mutant that slipped through; exit status 0 or 1.
"""
import argparse
import copy
import json
import random
import sys
from pathlib import Path

import checker
import job_reader
import mutations


def mutate(plan, job, mutation, seed):
    """A broken copy of the plan; None where the mutation has no place in it."""
    broken = copy.deepcopy(plan)
    try:
        mutation(broken, job, random.Random(seed))
    except (IndexError, ValueError, StopIteration):
        return None
    return broken


def slipped(job, plan, seed, count, amounts=True):
    """(tried, names of mutants that the checker let pass); plans without steps have no mutants."""
    tried, passed, chance = 0, [], random.Random(seed)
    if plan["timetable"]["status"] != "planned" or not plan["timetable"]["steps"]:
        return 0, []
    ways = mutations.TIMETABLE + (mutations.AMOUNTS if amounts else [])
    chance.shuffle(ways)
    for mutation in ways:
        broken = mutate(plan, job, mutation, seed) if tried < count else None
        if broken is None:
            continue
        tried += 1
        named = [v.rule for v in checker.violations(job, broken, amounts)]
        if not any(rule.startswith(mutation.rules) for rule in named):
            passed.append(mutation.__name__)
    return tried, passed


def main(arguments):
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("job")
    parser.add_argument("plan")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=100)
    parser.add_argument("--table", default=checker.TABLE)
    options = parser.parse_args(arguments)
    job = job_reader.read_job(options.job, options.table)
    plan = json.loads(Path(options.plan).read_text(encoding="utf-8"))
    tried, passed = slipped(job, plan, options.seed, options.count)
    for name in passed:
        print(f"{options.job}: slipped through: {name} (seed {options.seed})")
    print(f"{tried - len(passed)} of {tried} mutants rejected")
    return 1 if passed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
