#!/usr/bin/env -S python3 -B
"""What is proven of the jobs of drawn_jobs.py, with the least work and soonest: no plan that is found with four times the effort is better
than a bound, none is ready before it, the checker accepts every plan, and what was proven once still is.

PROOFS=n tries the first n jobs (24).
"""
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))

import checker
import drawn_jobs
import job_reader
import program
from claims import beaten, less_as_soon, planned, too_soon

JOBS = program.draws("PROOFS", 24)
USUAL_EFFORT = 6000000  # usual_effort of timetable/planning.c
QUICK_EFFORT = 600000
MIXES_OVER_BREAKS = 139  # a coat a day, and a break that a mix does not outlive
MASKED = (64, 93)  # soonest in lots, some of which have nothing of the schedule with the step that `takes`
# Of the first 40, and of that one, those whose work is proven at the usual effort.
PROVEN = {MIXES_OVER_BREAKS, 0, 3, 5, 6, 7, 8, 9, 11, 12, 13, 15, 16, 17, 19, 20, 21, 23, 24, 25, 26, 27, 28, 29, 30, 31, 33, 35, 38, 39}
# And those whose ready moment is.
PROVEN_READY = {8, 17, 18, 24, 38}
SHARED = 112  # soonest: proven by trying each way to share items among as few batches as can be
# And those of which the work is that are wanted soonest, at four times QUICK_EFFORT.
PROVEN_SOONEST = {SHARED, 3, 5, 6, 8, 13, 16, 17, 20, 21, 23, 24, 25, 27, 28, 31, 33, 38}
TRADED, TRADED_WORK = 10, 1147  # without that the search ends at 1327
SCUFFED = 456  # the search ends with a scuff for a window that is kept since


def rejected(path, timetable):
    """The rules that a plan breaks."""
    found = checker.violations(job_reader.read_job(path, checker.TABLE), {"timetable": timetable}, amounts=False)
    return [f"{violation.rule}: {violation.text}" for violation in found]


def tried_soonest(number, path, usual):
    """What is wrong with the plans of one job that are ready soonest."""
    soonest, wrong = planned(path, "--soonest", "--effort", str(QUICK_EFFORT))
    more, wrong_too = planned(path, "--soonest", "--effort", str(4 * QUICK_EFFORT)) if soonest else (None, wrong)
    if not more:
        return [wrong or wrong_too]
    problems = rejected(path, soonest) + rejected(path, more) + too_soon(soonest, usual) + too_soon(more, usual)
    problems += less_as_soon(more, soonest) + less_as_soon(soonest, more)
    if number in PROVEN_SOONEST and not more["work_proven"]:
        problems.append(f"soonest: work {more['hands_on_min']} is not proven any more: no less than {more['no_less_work_min']}")
    return problems


def saves_work(folder):
    """What is wrong with a plan for which the search must be late on its way to less work."""
    soonest, wrong = planned(drawn_jobs.write(TRADED, folder / str(TRADED)), "--soonest")
    if not soonest:
        return [wrong]
    return [] if soonest["hands_on_min"] <= TRADED_WORK else [f"{soonest['hands_on_min']} min of work, {TRADED_WORK} will do"]


def scuffs_no_more(folder):
    """What is wrong with a plan that scuffs where nothing has to be."""
    path = drawn_jobs.write(SCUFFED, folder / str(SCUFFED))
    soonest, wrong = planned(path, "--soonest")
    return rejected(path, soonest) if soonest else [wrong]


def tried(number, folder):
    """What is wrong with the plans of one job."""
    path = drawn_jobs.write(number, folder / str(number))
    usual, wrong = planned(path)
    more, wrong_too = planned(path, "--effort", str(4 * USUAL_EFFORT)) if usual else (None, wrong)
    if not more:
        return [wrong or wrong_too]
    problems = rejected(path, usual) + rejected(path, more) + beaten(more, usual) + beaten(usual, more)
    problems += tried_soonest(number, path, usual)
    if number in PROVEN and not usual["work_proven"]:
        problems.append(f"work {usual['hands_on_min']} is not proven any more: no less than {usual['no_less_work_min']}")
    if number in PROVEN_READY and not usual["ready_proven"]:
        problems.append(f"ready {usual['ready']} is not proven any more: not before {usual['no_earlier_than']}")
    return problems


def main():
    program.need()
    tally = program.Tally()
    with program.scratch() as scratch:
        for number in [*range(JOBS), *MASKED, MIXES_OVER_BREAKS, SHARED]:
            tally.note(f"drawn job {number}", tried(number, Path(scratch)))
        tally.note(f"drawn job {TRADED} with less work", saves_work(Path(scratch)))
        tally.note(f"drawn job {SCUFFED} without a needless scuff", scuffs_no_more(Path(scratch)))
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
