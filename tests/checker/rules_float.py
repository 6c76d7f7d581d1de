"""Rules on how far a step says that it may slip: not farther than the waits behind it and the delivery's moment bear, and
not nought where it can be moved alone.

The float is that of the plan's whole order of work, of which the checker knows the waits for certain and the rest only as
limits: so it holds the float against what waits alone allow (never less than the truth) and against a single step moved by
five minutes (never more than it).
"""
import collections

import drying
import expected
import rules_report
import rules_shop
import rules_time
from case import Violation

RULE_FAR = "a step slips no farther than its waits bear"
RULE_ALONE = "a step that can be moved alone may slip"
FARTHEST = 20000  # slots tried for the next hours that hold a step


def least(case, wait):
    """The first moment that a wait allows as the steps stand; None: never. A window allows all."""
    end = case.steps[wait.source].end
    if wait.kind == expected.STATE:
        return drying.up(case.reach(wait.source, wait.value))
    if wait.kind == expected.SETTLED:
        return drying.up(end + (case.job.shop.settle if case.job.shop.dust_shared else 0))
    if wait.kind == expected.POLISH:
        return drying.up(end + wait.value[0])
    return end if wait.kind == expected.WINDOW else drying.up(end + (wait.value or 0))


def move(step, start):
    step.start, step.end = start, start + step.end - step.start


def opened(case, step, start):
    """The first start from a moment on at which working hours hold a step; None: none near."""
    for _ in range(FARTHEST):
        if case.job.hours.holds(start, start + step.end - step.start):
            return start
        start += drying.SLOT
    return None


def pushed(case, behind, step):
    """Puts later what waits for a step; False where a moment never comes."""
    queue = collections.deque([step])
    while queue:
        for wait in behind[queue.popleft().id]:
            to, moment = case.steps[wait.to], least(case, wait)
            if moment is None:
                return False
            if moment <= to.start:
                continue
            moment = opened(case, to, moment)
            if moment is None:
                return False
            move(to, moment)
            queue.append(to)
    return True


def windows_hold(case):
    rules = (rules_time.recoat_windows_hold_or_a_scuff_opens_them, rules_time.polish_windows_hold)
    return not any(True for rule in rules for _ in rule(case))


def bears(case, behind, step, minutes):
    """Whether the waits bear a step so much later: nothing of it leaves its hours or its window, and ready does not move."""
    ready, kept = rules_report.true_ready(case), [(s, s.start) for s in case.timetable.list]
    move(step, step.start + minutes)
    good = (case.job.hours.holds(step.start, step.end) and pushed(case, behind, step) and windows_hold(case)
            and rules_report.true_ready(case) == ready)
    for moved, start in kept:
        move(moved, start)
    return good


def meets_own_hand(case, step):
    """Whether the hand that does a step has begun the next one: each hand keeps its order of work."""
    return any(s.person == step.person and s.id != step.id and s.start < step.end and step.start < s.end
               for s in case.timetable.list)


def moves_alone(case, step):
    """Whether a step stands as well 5 minutes later, all others and their hands where they are."""
    ready = rules_report.true_ready(case)
    waits = [w for w in case.expected.waits if w.source == step.id and w.to in case.steps]
    move(step, step.start + drying.SLOT)
    cheap = case.job.hours.holds(step.start, step.end) and not meets_own_hand(case, step) and all(
        least(case, w) is not None and least(case, w) <= case.steps[w.to].start for w in waits)
    rules = rules_time.RULES[1:] + rules_shop.RULES
    good = cheap and rules_report.true_ready(case) == ready and not any(True for rule in rules for _ in rule(case))
    move(step, step.start - drying.SLOT)
    return good


def waits_behind(case):
    """{id: what waits for it}, of steps that stand in the plan."""
    behind = collections.defaultdict(list)
    for wait in case.expected.waits:
        if wait.source in case.steps and wait.to in case.steps:
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
    behind = waits_behind(case)
    for step in case.timetable.list:
        minutes = step.row["float_min"]
        if minutes < 0 or minutes % drying.SLOT or (minutes and not bears(case, behind, step, minutes)):
            yield Violation(RULE_FAR, f"{step.id} by {minutes} min")
        elif minutes == 0 and moves_alone(case, step):
            yield Violation(RULE_ALONE, step.id)


RULES = [steps_slip_as_far_as_they_say]
