#!/usr/bin/env -S python3 -B
"""The problems worked by hand, planned by the program and compared to the minute.

WORKED=basic leaves out those that need the whole model: rack, dust, several people, --latest.
"""
import os
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))

import batch_swaps
import checker
import hours
import job_reader
import plan_reader
import program
import worked

ALL = os.environ.get("WORKED", "all") == "all"


def moments(problem):
    """{step id: minute} as worked by hand."""
    return {plan_reader.key_of(k): hours.from_text(worked.dated(v), problem.job["zone"]) for k, v in problem.starts.items()}


def kinds(starts):
    """(kind of work, minute) in order, for pieces that are alike."""
    return sorted((name.split("/")[2:], minute) for name, minute in starts.items())


def differences(problem, timetable):
    """What the program says otherwise than the hand."""
    wanted, got = moments(problem), {s.id: s.start for s in timetable.list}
    if problem.same and kinds(wanted) == kinds(got):
        return
    for name in sorted(set(wanted) | set(got)):
        if wanted.get(name) != got.get(name):
            shown = [hours.show(t[name], problem.job["zone"]) if name in t else "not there" for t in (got, wanted)]
            yield f"{name}: {shown[0]}, by hand {shown[1]}"


def reported(problem, timetable):
    """Ready, lateness, notes and chain."""
    zone = problem.job["zone"]
    ready = hours.from_text(worked.dated(problem.ready), zone)
    if timetable.ready != ready:
        yield f"ready {hours.show(timetable.ready, zone)}, by hand {hours.show(ready, zone)}"
    if timetable.data["late_min"] != problem.late_min:
        yield f"late {timetable.data['late_min']} min, by hand {problem.late_min}"
    for name, note in problem.notes.items():
        if timetable.steps[name].row["note"] != note:
            yield f"{name} notes {timetable.steps[name].row['note']!r}, by hand {note!r}"
    for name in problem.chain:
        if name not in map(plan_reader.key_of, timetable.data["chain"]):
            yield f"the chain leaves out {name}: {timetable.data['chain']}"


def problems_of(problem, folder):
    """Everything wrong with the program's answer."""
    path = worked.write(problem, folder)
    plan, error = program.plan(path, *problem.options)
    if error:
        return [error]
    job = job_reader.read_job(path, checker.TABLE)
    timetable = plan_reader.Timetable(plan["timetable"], job.zone)
    wanted = "impossible" if problem.ready is None else "planned"
    if timetable.status != wanted:
        return [f"{timetable.status}, by hand {wanted}: {timetable.data['why']}"]
    broken = [f"{v.rule}: {v.text}" for v in checker.violations(job, plan)]
    if problem.ready is None:
        return broken
    return broken + list(batch_swaps.wasted(job, plan)) + list(differences(problem, timetable)) + list(reported(problem, timetable))


def main():
    tally = program.Tally()
    program.need()
    with program.scratch() as scratch:
        for number, problem in enumerate(p for p in worked.PROBLEMS if ALL or not p.whole_model):
            tally.note(problem.name, problems_of(problem, Path(scratch) / str(number)))
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
