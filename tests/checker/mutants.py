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
import mutations_amounts
import mutations_batches
import mutations_facts


def mutate(plan, job, mutation, seed):
    """A broken copy of the plan and the job that it breaks; None where the mutation has no place in it."""
    broken = copy.deepcopy(plan)
    try:
        other = mutation(broken, job, random.Random(seed))
    except (IndexError, ValueError, StopIteration):
        return None
    return broken, other or job


def ways(amounts=True):
    """All mutations."""
    return mutations.TIMETABLE + mutations_batches.BATCHES + mutations_facts.FACTS + (mutations_amounts.AMOUNTS if amounts else [])


def slipped(job, plan, seed, count, amounts=True, before=()):
    """(names of the mutations that had a place, names of mutants that the checker let pass), of so many; those that had no place
    `before` come first. Plans without steps have no mutants."""
    tried, passed, chance = [], [], random.Random(seed)
    if plan["timetable"]["status"] != "planned" or not plan["timetable"]["steps"]:
        return [], []
    shuffled = ways(amounts)
    chance.shuffle(shuffled)
    for mutation in sorted(shuffled, key=lambda way: way.__name__ in before):
        found = mutate(plan, job, mutation, seed) if len(tried) < count else None
        if found is None:
            continue
        tried.append(mutation.__name__)
        named = [v.rule for v in checker.violations(found[1], found[0], amounts)]
        if not any(rule.startswith(mutation.rules) for rule in named):
            passed.append(mutation.__name__)
    return tried, passed


def main(arguments):
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("job")
    parser.add_argument("plan")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=100)
    parser.add_argument("--now", help="the moment at which it was planned; without it a log is not looked at")
    parser.add_argument("--table", default=checker.TABLE)
    options = parser.parse_args(arguments)
    job = job_reader.read_job(options.job, options.table, options.now)
    plan = json.loads(Path(options.plan).read_text(encoding="utf-8"))
    tried, passed = slipped(job, plan, options.seed, options.count)
    for name in passed:
        print(f"{options.job}: slipped through: {name} (seed {options.seed})")
    print(f"{len(tried) - len(passed)} of {len(tried)} mutants rejected")
    return 1 if passed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
