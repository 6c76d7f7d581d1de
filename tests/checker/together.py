"""Jobs planned together in one shop: each keeps every rule of its own, and all of them together keep what the shop holds."""
import case
import checker
import plan_reader
import rules_float
import rules_shop
from case import Violation


SEEN_IN_PART = (rules_float.RULE_ALONE, "a batch runs as its units do", "a step slips no farther than its waits bear",
                "hands-on minutes add up", "a mix is made when it is needed")


def cases_of(jobs, timetables):
    return [case.Case(job, plan_reader.Timetable(timetable, job.zone)) for job, timetable in zip(jobs, timetables)]


def all_held(cases, held):
    """Intervals of every job, each name with its job's place in the row."""
    return [(begin, end, amount, f"job {k}: {name}") for k, one in enumerate(cases, 1) for begin, end, amount, name in held(one)]


def capacities(cases):
    """The first moment at which the jobs together hold more than the shop has."""
    shop = cases[0].job.shop
    limits = [("together no more spraying than spray places", rules_shop.spray_places_held, shop.spray_places)]
    if shop.rack is not None:
        limits.append(("together wet pieces fit on the rack", rules_shop.rack_held, float(shop.rack)))
    for rule, held, limit in limits:
        found = rules_shop.peaks(all_held(cases, held), limit)
        if found:
            yield Violation(rule, f"{cases[0].show(found[0])}: {', '.join(found[1])}")


def persons(cases):
    """Nobody is in two batches at once; one that jobs share is named by each of them."""
    held = sorted({(b["person"], b["start"], b["end"]) for one in cases for b in one.timetable.data["batches"]})
    for before, after in zip(held, held[1:]):
        if before[0] == after[0] and after[1] < before[2]:
            yield Violation("together nobody works twice at once", f"{after[0]} from {after[1]}, busy until {before[2]}")


def dust(cases):
    """In a room of its own sanding of one job never meets what is wet of another."""
    shop = cases[0].job.shop
    if not shop.dust_shared:
        return
    for raising in cases:
        for bearing in (one for one in cases if one is not raising):
            wet = rules_shop.wet_surfaces(bearing)
            for dusty in rules_shop.dusty_steps(raising):
                for apply, free in wet:
                    if rules_shop.dust_meets(dusty, apply, free, shop.settle):
                        yield Violation("together no dust falls on a wet surface",
                                        f"{raising.job.name}: {dusty.id} at {raising.show(dusty.start)}, {bearing.job.name}: "
                                        f"{apply.id} wet until {bearing.show(free)}")


def violations(jobs, timetables):
    """Every broken rule; jobs without a plan hold nothing of the shop."""
    found = []
    for job, one in zip(jobs, cases_of(jobs, timetables)):
        planned = one.timetable.status == "planned"
        own = checker.timetable_violations(one) if planned else checker.unplanned_violations(one.timetable)
        # What seems free to be moved alone may be held by another job's work, and of a batch that jobs share each sees a part.
        found += [Violation(v.rule, f"{job.name}: {v.text}") for v in own if v.rule not in SEEN_IN_PART]
    cases = [one for one in cases_of(jobs, timetables) if one.timetable.status == "planned"]
    if any("missing" in v.text for v in found) or not cases:
        return found
    return found + [v for rule in (capacities, persons, dust) for v in rule(cases)]
