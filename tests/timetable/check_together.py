#!/usr/bin/env -S python3 -B
"""Jobs planned together in one shop, verified by the independent checker: worked problems cut into two jobs, which share what
one job's pieces share, and generated jobs, of which broken copies must be rejected and whose work is recorded and planned again until
all is done. SEEDS=n generated shops (4)."""
import datetime as dt
import json
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))

import case
import checker
import ics
import ics_facts
import job_reader
import plan_reader
import program
import shop_jobs
import together
import together_mutants
import worked

SEEDS, STEPS = program.draws("SEEDS", 4), 18
LATER = dt.timedelta(minutes=15)  # than planned, what is recorded

moment = dt.datetime.fromisoformat


def planned(paths, *options):
    """(the jobs' timetables, None), or (None, what went wrong)."""
    code, out, errors = program.run("timetable", *paths, "--json", *options)
    if code not in (0, 1):
        return None, f"exit status {code}: {(out + errors).strip()[:600]}"
    tables = json.loads(out)["jobs"]
    late = any(table["status"] != "planned" or table["late_min"] for table in tables)
    return (tables, None) if code == late else (None, f"exit status {code}, late: {late}")


def wanted(name, area, steps, **more):
    return worked.job(name, {"s": steps}, [(name, area, "s")], **more)


def dust_of_two_jobs():
    """A coated (30 min, dust-free 2 h, handle 6 h), B sanded (1 h) and then coated. A is due on Tuesday at 14:30 and has a day to
    spare only where it is coated at 08:00; B is not sanded before A is free of dust at 10:30."""
    coat = worked.finish("v", {"dust-free": "2 h", "handle": "6 h"})
    jobs = [wanted("a", "0.5 m2", [worked.coats("v")]), wanted("b", "1 m2", [{"sand": 120}, worked.coats("v")])]
    jobs[0]["deliver"] = "2027-03-02 14:30"
    return (jobs, [coat], {}, {"a/s/1/apply": "Mon 08:00", "b/s/0/sand-120": "Mon 10:30", "b/s/1/apply": "Mon 11:30"})


def dust_before_either_coat():
    """The same where A has time, until Tuesday at 17:00: work is the same in any order, and the sooner all is ready the better. B is
    sanded first, A coated at 09:00, B at 09:30 and ready at 16:30; A before the sanding would make it 18:30."""
    jobs, finishes, shop, _ = dust_of_two_jobs()
    jobs[0]["deliver"] = "2027-03-02 17:00"
    return (jobs, finishes, shop, {"b/s/0/sand-120": "Mon 08:00", "a/s/1/apply": "Mon 09:00", "b/s/1/apply": "Mon 09:30"})


def rack_of_two_jobs():
    """Problem 8 in two jobs: rack 1 m2, two pieces of 0.6 m2, apply 1 h each, handle 6 h: A 08:00, B at 15:00."""
    jobs = [wanted(name, "1 m2", [worked.coats("v")], pieces=[{"piece": name, "rack": "0.6 m2"}]) for name in "ab"]
    jobs[1]["deliver"] = "2027-05-03 17:00"
    return (jobs, [worked.finish("v", {"handle": "6 h"})], {"rack": "1 m2"},
            {"a/s/1/apply": "Mon 08:00", "b/s/1/apply": "Mon 15:00"})


def one_spray_place_for_two_jobs():
    """Two people, two finishes and one gun: what takes an hour each is sprayed one after the other. B is due on Tuesday at 10:00 and
    has a day to spare only where it is sprayed at 08:00."""
    guns = [worked.finish(name, {"handle": "1 h"}, by=["hvlp"]) for name in "vw"]
    jobs = [wanted(name, "1 m2", [worked.coats(of, by="hvlp")]) for name, of in zip("ab", "vw")]
    jobs[1]["deliver"] = "2027-03-02 10:00"
    return (jobs, guns, {"people": 2, "spray-places": 1, "rates": {"hvlp": "1 m2/h"}},
            {"b/s/1/apply": "Mon 08:00", "a/s/1/apply": "Mon 09:00"})


def write_worked(problem, folder):
    jobs, finishes, more, _ = problem
    paths = []
    for job in jobs:
        job["shop"] = worked.shop(**{key: dict(value) if isinstance(value, dict) else value for key, value in more.items()})
        home = folder / job["job"]
        (home / "finishes").mkdir(parents=True)
        for finish in finishes:
            (home / "finishes" / f"{finish['finish']}.json").write_text(json.dumps(finish))
        paths.append(home / "job.json")
        paths[-1].write_text(json.dumps(job))
    return paths


def verify(tally, name, paths):
    """The jobs' timetables where each rule holds."""
    tables, error = planned(paths)
    jobs = [job_reader.read_job(path, checker.TABLE) for path in paths]
    tally.note(name, [error] if error else [f"{v.rule}: {v.text}" for v in together.violations(jobs, tables)])
    return jobs, tables


def check_worked(tally, problem, folder):
    name = problem.__name__
    jobs, tables = verify(tally, name, write_worked(problem(), folder / name))
    found = {row["id"]: row["start"][:16].replace("T", " ") for table in tables or [] for row in table["steps"]}
    starts = {step: worked.dated(text) for step, text in problem()[3].items()}
    tally.note(f"{name}, to the minute", [] if found == starts else [f"starts {found}, not {starts}"])
    return check_mutants(tally, name, jobs, tables, 1)


def check_mutants(tally, name, jobs, tables, seed):
    """The mutants that had a place, each of them rejected."""
    places, slipped = together_mutants.slipped(jobs, tables, seed) if tables else ([], [])
    tally.note(f"{name}, mutants", [f"slipped through: {mutant}" for mutant in slipped])
    return set(places)


def lateness(tables):
    return sorted((table["late_min"] for table in tables), reverse=True)


def check_late(tally, seed, jobs, tables, paths):
    """As late as the deliveries allow: every rule holds, and no job is later for it."""
    late, error = planned(paths, "--latest")
    problems = [error] if error else [f"{v.rule}: {v.text}" for v in together.violations(jobs, late)]
    if late and lateness(late) != lateness(tables):
        problems.append(f"late by {lateness(late)}, not {lateness(tables)}")
    tally.note(f"seed {seed}, as late as can be", problems)


def check_calendar(tally, seed, tables, paths, calendar):
    """One calendar of all jobs: valid, an event for every batch under its job's name, and the same when written again."""
    _, error = planned(paths, "--ics", calendar, "--now", "2027-01-04T08:00Z")
    data = calendar.read_bytes() if not error else b""
    problems = [error] if error else [f"line {line}: {text}" for line, text in ics.problems(data)]
    events = [event for root in ics.Checker(data).roots for event in root.children if event.name == "VEVENT"] if data else []
    for table in tables:
        mine = [e for e in events if e.one("SUMMARY").value.endswith(f" ({table['job']})") and e.one("DTEND")]
        if len(mine) != len(table["batches"]):
            problems.append(f"{len(mine)} events of {table['job']}, not {len(table['batches'])}")
    planned(paths, "--ics", calendar, "--now", "2027-01-04T08:00Z")
    problems += [] if error or calendar.read_bytes() == data else ["written again it is another"]
    tally.note(f"seed {seed}, calendar", problems)


def work_until(tables, share):
    """When so much of what is left has been done, with all that is begun meanwhile; None where nothing is left."""
    batches = sorted((batch for table in tables for batch in table["batches"]), key=lambda b: moment(b["end"]))
    if not batches:
        return None
    return plan_reader.when_done(batches, moment(batches[int((len(batches) - 1) * share)]["end"]))


def record(path, table, until, later):
    """The work of one job up to a moment, in its log: so much later than planned."""
    log = path.with_suffix(".log")
    entries = len(log.read_text(encoding="utf-8").splitlines()) if log.exists() else 0
    steps = [(step, batch) for batch in table["batches"] if moment(batch["end"]) <= until for step in batch["steps"]]
    with open(log, "a", encoding="utf-8") as file:
        for number, (step, batch) in enumerate(steps, entries + 1):
            began, done = ((moment(step[key]) + later).isoformat() for key in ("start", "end"))
            file.write(json.dumps({"entry": number, "step": step["id"], "began": began, "done": done, "batch": batch["id"]}) + "\n")


def check_lived(tally, seed, tables, paths, calendar):
    """Work that jobs shared is recorded, each job's in its own log, on time or late: what is left keeps every rule of each job and of
    the shop, and the one calendar has what was done at its moments and changes nothing else."""
    before = calendar.read_bytes()
    for share, later in ((0.3, LATER), (0.5, 0 * LATER), (1.0, 0 * LATER)):
        until = work_until(tables, share)
        if until is None:
            break
        for path, table in zip(paths, tables):
            record(path, table, until, later)
        now = (until + later).isoformat()
        tables, error = planned(paths, "--now", now, "--ics", calendar)
        if error:
            return tally.note(f"seed {seed}, at {now}", [error])
        jobs = [job_reader.read_job(path, checker.TABLE, now) for path in paths]
        problems = [f"{v.rule}: {v.text}" for v in together.violations(jobs, tables)]
        after = calendar.read_bytes()
        for job, table in zip(jobs, tables):
            one = case.Case(job, plan_reader.Timetable(table, job.zone))
            problems += ics_facts.of_what_was_done(one, after, f" ({job.name})")
        tally.note(f"seed {seed}, at {now}", [*problems, *ics_facts.since(before, after)])
        before = after
    left = [step["id"] for table in tables for step in table["steps"]]
    return tally.note(f"seed {seed}, all is done", left)


def check_generated(tally, folder):
    """The mutants that had a place in any of the plans."""
    tried = set()
    for seed in range(1, SEEDS + 1):
        paths = shop_jobs.write_several(seed, 2 + seed % 2, STEPS, folder / str(seed), (3, 9) if seed % 2 else (8, 20))
        jobs, tables = verify(tally, f"seed {seed}", paths)
        tried |= check_mutants(tally, f"seed {seed}", jobs, tables, seed)
        if tables:
            check_late(tally, seed, jobs, tables, paths)
            check_calendar(tally, seed, tables, paths, folder / f"{seed}.ics")
            check_lived(tally, seed, tables, paths, folder / f"{seed}.ics")
    return tried


def main():
    program.need()
    tally = program.Tally()
    with program.scratch() as scratch:
        tried = check_generated(tally, Path(scratch))
        for problem in (dust_of_two_jobs, dust_before_either_coat, rack_of_two_jobs, one_spray_place_for_two_jobs):
            tried |= check_worked(tally, problem, Path(scratch))
    missing = {mutation.__name__ for mutation in together_mutants.MUTATIONS} - tried
    tally.note("every mutant had a place", [f"{name} had none" for name in sorted(missing)])
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
