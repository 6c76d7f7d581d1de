"""Jobs planned together in one shop: each keeps every rule of its own, and all of them together keep what the shop holds."""
import dataclasses

import case
import checker
import drying
import finish_reader
import plan_reader
import rules_batches
import rules_float
import rules_report
import rules_shop
import rules_time
import shares
import units
from case import Violation


# What a job's own steps must keep where one of its batches is moved.
ALONE = [*rules_time.RULES[1:], rules_shop.no_dust_falls_on_a_wet_surface, rules_shop.coats_are_laid_in_air_that_they_bear,
         rules_shop.water_and_reaction_films_stay_within_limits_until_handle, rules_batches.films_are_dry_by_their_hour,
         rules_batches.no_more_coats_a_day_than_the_piece_bears]
# Rules on whole batches and on slack: of a batch that jobs share each sees a part, so that they are asked of all jobs together.
OF_ALL = (rules_batches.batches_run_as_their_units_do, rules_batches.a_gun_is_clean_before_its_pot_life_ends,
          rules_batches.hands_on_minutes_add_up, rules_float.steps_slip_as_far_as_they_say)


def of_all(number, name):
    """The id of a step among those of all jobs."""
    return f"{number}:{name}"


class Joint:
    """All jobs as one: their steps, and batches of which each job has a part as the one batch that they are."""

    def __init__(self, cases):
        self.cases, self.job, self.show, self.person = cases, cases[0].job, cases[0].show, cases[0].person
        self.steps = {of_all(k, name): step for k, one in enumerate(cases) for name, step in one.steps.items()}
        shared = {}
        for k, one in enumerate(cases):
            for part in one.batches:
                key = (part.person, part.helper, part.id.rpartition("/")[0], part.start, part.end)
                shared.setdefault(key, []).append((k, part))
        self.batches = [self.joined(parts) for parts in shared.values()]
        self.behind = [rules_float.waits_behind(one) for one in cases]

    def joined(self, parts):
        """One batch of the parts that jobs have of it."""
        rows = [plan_reader.Row(of_all(k, row.id), row.start, row.end) for k, part in parts for row in part.steps]
        rows.sort(key=lambda row: (row.start, row.end))
        _, first = parts[0]
        whole = dataclasses.replace(first, steps=rows)
        whole.parts = parts
        return whole

    def part_of(self, name):
        number, _, step = name.partition(":")
        return self.cases[int(number)], step

    def work(self, name):
        one, step = self.part_of(name)
        return one.work(step)

    def sprays(self, batch):
        op = rules_batches.main_work(self, batch)
        return op.do == "apply" and op.coat.tool in finish_reader.SPRAYED

    def kept(self):
        """What moving a batch changes, for `restored`."""
        return ([(s, s.start, s.end) for s in self.steps.values()], [(b, b.start, b.end) for b in self.batches],
                [(r, r.start, r.end) for b in self.batches for r in b.steps])

    def ready(self):
        return [rules_report.true_ready(one) for one in self.cases]

    def push(self, batch):
        """Puts later what waits for a batch, in each job; False where a moment never comes."""
        rows = [self.part_of(row.id) for row in batch.steps]
        return all(rules_float.pushed(one, behind, [one.steps[name] for of, name in rows if of is one])
                   for one, behind in zip(self.cases, self.behind))


def cases_of(jobs, timetables):
    return [case.Case(job, plan_reader.Timetable(timetable, job.zone)) for job, timetable in zip(jobs, timetables)]


def capacities(joint):
    """The first moment at which the jobs together hold more than the shop has."""
    shop = joint.job.shop
    sprayed = [(b.start, b.end, 1, b.id) for b in joint.batches if joint.sprays(b)]
    limits = [("together no more spraying than spray places", sprayed, shop.spray_places)]
    if shop.rack is not None:
        held = [(begin, end, amount, f"job {k}: {name}") for k, one in enumerate(joint.cases, 1)
                for begin, end, amount, name in rules_shop.rack_held(one)]
        limits.append(("together wet pieces fit on the rack", held, float(shop.rack)))
    for rule, held, limit in limits:
        found = rules_shop.peaks(held, limit)
        if found:
            yield Violation(rule, f"{joint.show(found[0])}: {', '.join(found[1])}")


def persons(joint):
    """Nobody is in two batches at once."""
    for violation in rules_batches.nobody_works_twice_at_once(joint):
        yield Violation("together nobody works twice at once", violation.text)


def batches(joint):
    """Whole batches run as their units do, are of one kind, and their minutes are those of their parts."""
    for rule in (rules_batches.a_batch_is_of_one_kind, rules_batches.batches_run_as_their_units_do,
                 rules_batches.a_gun_is_clean_before_its_pot_life_ends):
        yield from (Violation(f"together {v.rule}", v.text) for v in rule(joint))


def minutes(joint):
    """What each job says of its parts and of all of them: the jobs share the minutes of a batch after the time of their units."""
    if any(True for _ in rules_batches.batches_run_as_their_units_do(joint)):
        return
    names = [person.name for person in joint.job.shop.persons]
    batches = sorted(joint.batches, key=lambda b: (b.start, names.index(b.person)))
    totals, hands = [0] * len(joint.cases), [2 if batch.helper else 1 for batch in batches]
    of_all = shares.of_batches([rules_batches.run_of(joint, b, joint.person(b.person)).worked for b in batches], hands)
    for batch, whole, n in zip(batches, of_all, hands):
        seconds = [sum(units.seconds(joint.work(row.id).units)[-1] for row in batch.steps if row.id.startswith(f"{k}:"))
                   for k in range(len(joint.cases))]
        wanted = shares.of_jobs(seconds, whole)
        for k, part in batch.parts:
            totals[k] += wanted[k] * n
            if part.row["hands_on_min"] != wanted[k]:
                yield Violation("together hands-on minutes add up",
                                f"{part.id} says {part.row['hands_on_min']}, are {wanted[k]} of {whole}")
    for one, total in zip(joint.cases, totals):
        if one.timetable.data["hands_on_min"] != total:
            yield Violation("together hands-on minutes add up",
                            f"{one.job.name} says {one.timetable.data['hands_on_min']}, are {total}")


def bears(joint, batch, later):
    """Whether the waits bear a batch so much later: it runs from there, and no job is ready later."""
    ready, before = joint.ready(), joint.kept()
    good = rules_float.placed(joint, batch, batch.start + later) and joint.push(batch)
    after = joint.ready() if good else []
    rules_float.restored(before)
    return good and None not in after and all(a <= b for a, b in zip(after, ready))


def waits_stay(one, names):
    waits = [w for w in one.expected.waits if w.source in names and w.to in one.steps and w.to not in names]
    moments = [(rules_float.least(one, w), one.steps[w.to].start) for w in waits]
    return all(moment is not None and moment <= start for moment, start in moments)


def moves_alone(joint, batch):
    """Whether a batch stands as well 5 minutes later, all others and their hands where they are."""
    ready, before = joint.ready(), joint.kept()
    rows = [joint.part_of(row.id) for row in batch.steps]
    good = rules_float.placed(joint, batch, batch.start + drying.SLOT) and not rules_float.meets_own_hand(joint, batch)
    good = good and all(waits_stay(one, {name for of, name in rows if of is one}) for one in joint.cases)
    good = good and joint.ready() == ready and not any(True for one in joint.cases for rule in ALONE for _ in rule(one))
    good = good and not any(True for rule in (capacities, dust, rules_batches.two_turn_what_is_heavy) for _ in rule(joint))
    rules_float.restored(before)
    return good


def slack(joint):
    """A batch slips as a whole, so that all its parts and their steps say the same."""
    for batch in joint.batches:
        steps = [step.row for step in (joint.steps[row.id] for row in batch.steps)]
        told = {row["float_min"] for row in [*steps, *(part.row for _, part in batch.parts)]}
        least = min(told)
        if len(told) > 1 or least < 0 or least % drying.SLOT or (least and not bears(joint, batch, least)):
            yield Violation(f"together {rules_float.RULE_FAR}", f"{batch.id} by {sorted(told)} min")
        elif least == 0 and moves_alone(joint, batch):
            yield Violation(f"together {rules_float.RULE_ALONE}", batch.id)


def dust(joint):
    """In a room of its own sanding of one job never meets what is wet of another."""
    shop = joint.job.shop
    if not shop.dust_shared:
        return
    for raising in joint.cases:
        for bearing in (one for one in joint.cases if one is not raising):
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
        own = checker.timetable_violations(one, OF_ALL) if planned else checker.unplanned_violations(one.timetable)
        found += [Violation(v.rule, f"{job.name}: {v.text}") for v in own]
    cases = [one for one in cases_of(jobs, timetables) if one.timetable.status == "planned"]
    grounds = any(True for one in cases for rule in rules_batches.GROUND for _ in rule(one))
    if any("missing" in v.text for v in found) or grounds or not cases:
        return found
    joint = Joint(cases)
    return found + [v for rule in (capacities, persons, dust, batches, minutes, slack) for v in rule(joint)]
