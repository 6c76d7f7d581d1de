"""Ways to break a valid plan of a job with a log: what was done is moved, invented or forgotten, or what follows does not wait for its
real end."""
import copy

import case
import hours
import log_reader
import plan_reader
import rules_facts
from mutations import FIVE, breaks, drop, shift, steps_of

DAY = 1440
WAITS = ("a film is at", "a step follows the one before", "recoat windows hold", "polish windows hold", "nothing is planned before now",
         "water and reaction films")


def done_of(plan):
    return plan["timetable"].get("done") or []


def films(plan, job):
    """Rows of coats that were laid, of which steps that are planned still wait to dry: the last of their row of steps."""
    stems = {"/".join(s["id"].split("/")[:2]) for s in steps_of(plan)}
    last = {}
    for row in done_of(plan):
        if row["id"].endswith("/apply") and "/".join(row["id"].split("/")[:2]) in stems:
            last["/".join(row["id"].split("/")[:2])] = row
    return list(last.values())


def entry_of(job, row):
    return next(entry for entry in job.log if entry.number == row["entry"])


@breaks("what was done stands")
def a_fact_moved(plan, job, chance):
    shift(chance.choice(done_of(plan)), ("began", "done"), 6 * FIVE)


@breaks("what was done stands")
def a_fact_forgotten(plan, job, chance):
    done_of(plan).remove(chance.choice(done_of(plan)))


@breaks("nothing is done that was not recorded", "every operation stands exactly once")
def not_recorded_taken_as_done(plan, job, chance):
    row, step = chance.choice(done_of(plan)), chance.choice(steps_of(plan))
    drop(plan, step)
    done_of(plan).append({**row, "id": step["id"]})


@breaks("nothing is done that was not recorded", "every operation stands exactly once")
def not_recorded_passed_over(plan, job, chance):
    step = chance.choice(steps_of(plan) if done_of(plan) else [])
    drop(plan, step)
    plan["timetable"]["passed_over"].append(step["id"])


@breaks("nothing is done that was not recorded", "every operation stands exactly once", "every step stands in one batch")
def done_again(plan, job, chance):
    steps_of(plan).append({**chance.choice(steps_of(plan)), "id": chance.choice(done_of(plan))["id"]})


@breaks(*WAITS)
def waits_from_the_planned_end(plan, job, chance):
    """The last coats were laid just before now, as the plan tells too; what follows waits as if that had been as planned."""
    other = copy.deepcopy(job)
    other.facts = None
    rows = films(plan, job)
    if not rows:
        raise StopIteration
    for row in rows:
        entry = entry_of(other, row)
        by = other.now - entry.done
        entry.began, entry.done = (entry.began or entry.done) + by, other.now
        shift(row, ("began", "done"), by * FIVE / 5)
    if not waits_now(plan, other):
        raise StopIteration
    return other


def waits_now(plan, job):
    """Whether a step begins before a film of now can be dry to anything."""
    checked = case.Case(job, plan_reader.Timetable(plan["timetable"], job.zone))
    return any(wait.kind == "state" and wait.source in checked.facts and wait.to in checked.timetable.steps and
               (checked.reach(wait.source, wait.value) or 0) > checked.steps[wait.to].start + 1 for wait in checked.expected.waits)


@breaks("nothing is planned before now")
def planned_behind(plan, job, chance):
    other = copy.deepcopy(job)
    other.facts, other.now = None, max(hours.from_text(step["end"], job.zone) for step in steps_of(plan))
    return other if done_of(plan) else next(iter(()))


@breaks("a film is at", "recoat windows hold", "states are reached", "ready is the latest", "water and reaction films", "links tell true",
        "coats are laid in air", "air outside the limits", "what a fact broke", "mixes", "a batch runs", "films are dry", "no dust falls")
def measured_air_ignored(plan, job, chance):
    """It was cold since the last coats were laid, and the plan does not know."""
    rows = films(plan, job)
    other = copy.deepcopy(job)
    other.facts = None
    entry = entry_of(other, rows[-1] if rows else next(iter(())))
    at = entry.done + 1
    while at < other.now + 3 * DAY:
        other.log.append(log_reader.Entry(10 ** 6 + at, "air", air=(at, 1, 0.9)))
        at += 60
    return other


@breaks("what a fact broke")
def a_break_untold(plan, job, chance):
    chance.choice([row for row in done_of(plan) if row["broke"]])["broke"].clear()


@breaks("what a fact broke")
def a_break_invented(plan, job, chance):
    row = chance.choice([row for row in done_of(plan) if not row["broke"] and row["id"].endswith("/apply")])
    row["broke"].append(f"{row['id']} {rules_facts.WORDS['wait']} dry to recoat (now): test how hard it is")


FACTS = [a_fact_moved, a_fact_forgotten, not_recorded_taken_as_done, not_recorded_passed_over, done_again, waits_from_the_planned_end,
         planned_behind, measured_air_ignored, a_break_untold, a_break_invented]
