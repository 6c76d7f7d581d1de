#!/usr/bin/env python3
"""checker.py JOB PLAN [--table FOLDER] [--left-shift]: verifies the JSON of `coatwright plan JOB --json`.

Recomputes the plan's surfaces, litres, minutes and moments from the job alone and holds every rule of the method
against the timetable. Prints what was verified, or each broken rule; exit status 0 or 1.
"""
import argparse
import json
import sys
from pathlib import Path

import case
import job_reader
import left_shift
import plan_reader
import rules_air
import rules_batches
import rules_amounts
import rules_facts
import rules_float
import rules_report
import rules_shop
import rules_time

TABLE = Path(__file__).resolve().parents[2] / "finishes"


def timetable_violations(checked, left_out=()):
    """Broken rules of a timetable, but those left out: first those that later ones rest upon."""
    found = list(rules_time.every_operation_stands_exactly_once(checked))
    if any("missing" in v.text for v in found):
        return found
    ground = [v for rule in rules_batches.GROUND for v in rule(checked)]
    if ground:
        return found + ground
    rules = rules_facts.RULES + rules_batches.RULES + rules_time.RULES[1:] + rules_shop.RULES + rules_report.RULES + rules_float.RULES + rules_air.RULES
    return found + [v for rule in rules if rule not in left_out for v in rule(checked)]


def unplanned_violations(timetable):
    """What holds of a timetable without a plan."""
    data = timetable.data
    if data["ready"] is not None or data["steps"] or not data["why"]:
        yield case.Violation("no plan has no ready moment, no steps, and a reason", data["status"])


def amount_violations(checked, plan):
    return [v for rule in rules_amounts.RULES for v in rule(checked, plan)]


def violations(job, plan, amounts=True):
    """Every broken rule of a plan."""
    checked = case.Case(job, plan_reader.Timetable(plan["timetable"], job.zone))
    if checked.timetable.status == "planned":
        found = timetable_violations(checked)
    else:
        found = list(unplanned_violations(checked.timetable))
    known = all(checked.work(row.id) for batch in checked.batches for row in batch.steps)
    return found + (amount_violations(checked, plan) if amounts and known else [])


def summary(job, plan):
    steps = plan["timetable"]["steps"]
    rules = len(rules_batches.GROUND) + sum(len(r.RULES) for r in (rules_time, rules_facts, rules_batches, rules_shop, rules_report, rules_float, rules_air, rules_amounts))
    return (f"{job.name}: {len(steps)} steps of {len(job.pieces)} pieces, {len(plan['area']['surfaces'])} surfaces, "
            f"{len(plan['mix']['mixes'])} mixes, {len(plan['buy']['finishes'])} finishes keep {rules} rules")


def main(arguments):
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("job")
    parser.add_argument("plan", help="file, or - for standard input")
    parser.add_argument("--table", default=TABLE, help="folder of the shipped finishes")
    parser.add_argument("--now", help="the moment at which it was planned; without it a log is not looked at")
    parser.add_argument("--left-shift", action="store_true", help="warn of steps that could start earlier")
    options = parser.parse_args(arguments)
    job = job_reader.read_job(options.job, options.table, options.now)
    text = sys.stdin.read() if options.plan == "-" else Path(options.plan).read_text(encoding="utf-8")
    plan = json.loads(text)
    found = violations(job, plan)
    for violation in found:
        print(f"{options.job}: {violation.rule}: {violation.text}")
    if options.left_shift and not found:
        for warning in left_shift.warnings(job, plan):
            print(f"{options.job}: warning: {warning}")
    if not found:
        print(summary(job, plan))
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
