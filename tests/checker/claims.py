"""What a timetable claims of all others: that none takes less work, or is ready sooner, than it says; and whether another one shows
that it is wrong. A timetable is what `timetable --json` prints, or the part of it that `essence` keeps."""
import datetime as dt
import json

import program

moment = dt.datetime.fromisoformat
KEPT = "late_min spare_min to_spare_min ready hands_on_min no_less_work_min no_earlier_than".split()


def planned(path, *options):
    """(timetable, None), or (None, what went wrong)."""
    code, out, errors = program.run("timetable", path, "--json", *options)
    if code > 1:
        return None, errors.strip()
    timetable = json.loads(out)
    return (timetable, None) if timetable["status"] == "planned" else (None, timetable["status"])


def lots_of(timetable):
    """Into how many lots each piece is divided."""
    return {step["piece"]: step["lots"] for step in timetable["steps"]} if "steps" in timetable else timetable["lots"]


def essence(timetable):
    """All that the claims speak of."""
    return {**{key: timetable[key] for key in KEPT}, "lots": lots_of(timetable)}


def as_little_late(one, other):
    """Whether a plan is one of those of which the other's bound on work speaks."""
    if other["spare_min"] >= other["to_spare_min"]:
        return one["late_min"] == 0 and one["spare_min"] >= one["to_spare_min"]
    return one["late_min"] == 0 if other["late_min"] == 0 else moment(one["ready"]) <= moment(other["ready"])


def too_soon(one, other):
    """Where a plan in the same lots is ready before what was proven beside another of the same job."""
    if lots_of(one) == lots_of(other) and moment(one["ready"]) < moment(other["no_earlier_than"]):
        return [f"ready {one['ready']}, not before {other['no_earlier_than']}"]
    return []


def less_as_soon(one, other):
    """Where a plan in the same lots and ready no later takes less work than was proven beside another that is wanted soonest."""
    as_soon = lots_of(one) == lots_of(other) and moment(one["ready"]) <= moment(other["ready"])
    if as_soon and one["hands_on_min"] < other["no_less_work_min"]:
        return [f"ready {one['ready']} with {one['hands_on_min']} min of work, no less than {other['no_less_work_min']}"]
    return []


def beaten(one, other):
    """Where a plan is better than what was proven beside another of the same job, the one with the least work."""
    problems = too_soon(one, other)
    if as_little_late(one, other) and one["hands_on_min"] < other["no_less_work_min"]:
        problems.append(f"work {one['hands_on_min']}, no less than {other['no_less_work_min']}")
    return problems
