"""Rules on how far a batch says that it may slip: not farther than the waits behind it and the delivery's moment bear, and
not nought where it can be moved alone.

The float is that of the plan's whole order of work, of which the checker knows the waits for certain and the rest only as
limits: so it holds the float against what waits alone allow (never less than the truth) and against a single batch moved by
five minutes (never more than it).
"""
import collections

import drying
import expected
import rules_batches
import rules_report
import rules_shop
import rules_time
from case import Violation

RULE_FAR = "a step slips no farther than its waits bear"
RULE_ALONE = "a step that can be moved alone may slip"


def least(case, wait):
    """The first moment that a wait allows as the steps stand; None: never. A window allows all. States are on the 5 minutes;
    within a batch work begins on any minute."""
    end = case.steps[wait.source].end
    if wait.kind == expected.STATE:
        return drying.up(case.reach(wait.source, wait.value))
    if wait.kind == expected.SETTLED:
        return end + (case.job.shop.settle if case.job.shop.dust_shared else 0)
    if wait.kind == expected.POLISH:
        return end + wait.value[0]
    return end if wait.kind == expected.WINDOW else end + (wait.value or 0)


def move(step, start, end=None):
    step.start, step.end = start, start + step.end - step.start if end is None else end


def placed(case, batch, start):
    """The batch's steps and itself put where its units run from another start; False where they cannot."""
    run = rules_batches.run_of(case, batch, case.person(batch.person), start)
    if run.wrong:
        return False
    for row, (begin, end) in zip(batch.steps, run.spans):
        row.start, row.end = begin, end
        move(case.steps[row.id], begin, end)
    batch.start, batch.end = start, run.end
    return True


def pushed(case, behind, steps):
    """Puts later what waits for some steps, as soon as the waits allow, at whatever hour: never later than it could truly be.
    False where a moment never comes."""
    queue = collections.deque(steps)
    while queue:
        for wait in behind[queue.popleft().id]:
            to, moment = case.steps[wait.to], least(case, wait)
            if moment is None:
                return False
            if moment > to.start:
                move(to, moment, moment + sum(case.work(to.id).units))
                queue.append(to)
    return True


def kept(case):
    return ([(s, s.start, s.end) for s in case.timetable.list], [(b, b.start, b.end) for b in case.batches],
            [(r, r.start, r.end) for b in case.batches for r in b.steps])


def restored(before):
    for rows in before:
        for row, start, end in rows:
            row.start, row.end = start, end


def bears(case, behind, batch, minutes):
    """Whether the waits bear a batch so much later: it runs from there, and ready does not move."""
    ready, before = rules_report.true_ready(case), kept(case)
    good = placed(case, batch, batch.start + minutes) and pushed(case, behind, [case.steps[row.id] for row in batch.steps])
    later = rules_report.true_ready(case) if good else None
    restored(before)
    return later is not None and later <= ready


def meets_own_hand(case, batch):
    """Whether who does a batch, or helps, has begun the next one: each hand keeps its order of work."""
    hands = {batch.person, batch.helper} - {None}
    return any(hands & {b.person, b.helper} and b is not batch and b.start < batch.end and batch.start < b.end for b in case.batches)


def moves_alone(case, batch):
    """Whether a batch stands as well 5 minutes later, all others and their hands where they are. Not asked where the rack is limited, nor
    where parts are turned within the batch: of a film the program says by the 5 minutes of the clock when it bears that, the checker
    by the second."""
    if case.job.shop.rack is not None or any(case.work(row.id).do == "flip" for row in batch.steps):
        return False
    ready, before = rules_report.true_ready(case), kept(case)
    names = {row.id for row in batch.steps}
    waits = [w for w in case.expected.waits if w.source in names and w.to in case.timetable.steps and w.to not in names]
    cheap = placed(case, batch, batch.start + drying.SLOT) and not meets_own_hand(case, batch) and all(
        least(case, w) is not None and least(case, w) <= case.steps[w.to].start for w in waits)
    rules = rules_time.RULES[1:] + rules_shop.RULES + [rules_batches.films_are_dry_by_their_hour, rules_batches.two_turn_what_is_heavy,
                                                       rules_batches.no_more_coats_a_day_than_the_piece_bears]
    good = cheap and rules_report.true_ready(case) == ready and not any(True for rule in rules for _ in rule(case))
    restored(before)
    return good


def waits_behind(case):
    """{id: what waits for it}, of steps that stand in the plan."""
    behind = collections.defaultdict(list)
    for wait in case.expected.waits:
        if wait.source in case.steps and wait.to in case.timetable.steps:
            behind[wait.source].append(wait)
    for scuff in case.scuffs:
        under, following = rules_time.scuffed_film(case, scuff)
        if following not in case.steps:
            continue
        behind[scuff.id].append(expected.Wait(scuff.id, following, expected.SETTLED, None))
        behind[under.id].append(expected.Wait(under.id, scuff.id, expected.STATE, "sand"))
        for wait in case.expected.waits:
            if wait.to == following and case.operations[wait.source].do == "flip":
                behind[wait.source].append(expected.Wait(wait.source, scuff.id, expected.END, None))
    return behind


def steps_slip_as_far_as_they_say(case):
    """A batch slips as a whole, so its steps say the same."""
    behind = waits_behind(case)
    for batch in case.batches:
        told = {batch.row["float_min"]} | {case.steps[row.id].row["float_min"] for row in batch.steps}
        minutes = min(told)
        if len(told) > 1 or minutes < 0 or minutes % drying.SLOT or (minutes and not bears(case, behind, batch, minutes)):
            yield Violation(RULE_FAR, f"{batch.id} by {sorted(told)} min")
        elif minutes == 0 and moves_alone(case, batch):
            yield Violation(RULE_ALONE, batch.id)


RULES = [steps_slip_as_far_as_they_say]
