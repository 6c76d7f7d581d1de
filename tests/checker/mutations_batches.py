"""Ways to break the batches of a valid plan; some leave the plan and take from the job what the plan rests upon: they return the
job that the plan then breaks. As in mutations.py each names the rules of which the checker must tell one.
"""
import copy
import dataclasses
import datetime as dt
from fractions import Fraction as F

import case
import expected
import hours
import job_reader
import plan_reader
import rules_batches
import rules_shop
import units
from mutations import FIVE, batch_of, batches_of, breaks, find, put, shift, steps_of, when

DAY = dt.timedelta(days=1)


def seen(plan, job):
    """The plan as the rules see it."""
    return case.Case(job, plan_reader.Timetable(plan["timetable"], job.zone))


def other_shop(job, **changes):
    """A job like this in a shop with something else."""
    other = copy.copy(job)
    other.shop, other.facts = copy.copy(job.shop), None
    vars(other.shop).update(changes)
    return other


def other_person(job, name, **changes):
    """A job like this of which one person is otherwise."""
    persons = [copy.copy(person) for person in job.shop.persons]
    vars(next(person for person in persons if person.name == name)).update(changes)
    return other_shop(job, persons=persons)


def other_piece(job, name, **changes):
    """A job like this of which one piece is otherwise."""
    other = copy.copy(job)
    other.pieces, other.facts = dict(job.pieces), None
    other.pieces[name] = copy.copy(job.pieces[name])
    vars(other.pieces[name]).update(changes)
    return other


def later_half(plan, batch, by):
    """The second half of a batch's steps so much later."""
    for row in batch["steps"][len(batch["steps"]) // 2:]:
        shift(row, ("start", "end"), by)
        shift(find(plan, row["id"]), ("start", "end"), by)
    shift(batch, ("work_until", "end"), by)


@breaks("batches begin and end on 5 minutes")
def off_the_five_minutes(plan, job, chance):
    step = chance.choice(steps_of(plan))
    put(plan, step, when(step["start"]) + dt.timedelta(minutes=2))


@breaks("a batch runs as its units do")
def without_its_set_up(plan, job, chance):
    """A batch whose first step begins at its very start."""
    batch = chance.choice([b for b in batches_of(plan) if when(b["work_from"]) - when(b["start"]) >= FIVE])
    batch["start"] = (when(batch["start"]) + FIVE).isoformat()


@breaks("mixes follow the set-up")
def mixed_before_the_set_up(plan, job, chance):
    batch = chance.choice([b for b in batches_of(plan) if b["mixes"] and b["mixes"][0]["at"] != b["start"]])
    batch["mixes"][0]["at"] = batch["start"]


@breaks("mixes follow the set-up")
def a_mix_too_few(plan, job, chance):
    chance.choice([b for b in batches_of(plan) if b["mixes"]])["mixes"].pop()


@breaks("mixes are stirred when somebody is there")
def stirred_in_the_night(plan, job, chance):
    batch = chance.choice([b for b in batches_of(plan) if b["mixes"]])
    batch["mixes"][-1]["at"] = (when(batch["start"]).replace(hour=0, minute=30) + DAY).isoformat()


@breaks("every step stands in one batch")
def two_hands_on_one_unit(plan, job, chance):
    """Somebody else does the same step at the same time."""
    batch = copy.deepcopy(chance.choice(batches_of(plan)))
    batch["id"] += "-again"
    batches_of(plan).append(batch)


@breaks("every step stands in one batch")
def in_no_batch(plan, job, chance):
    chance.choice(batches_of(plan))["steps"].pop()


@breaks("lots stay together", "every operation stands exactly once")
def a_lot_torn_apart(plan, job, chance):
    """One step of a piece is divided otherwise than the rest."""
    step = chance.choice([s for s in steps_of(plan) if s["lots"] and sum(o["piece"] == s["piece"] for o in steps_of(plan)) > 1])
    step["lots"] += 1


@breaks("a batch runs as its units do")
def over_a_break(plan, job, chance):
    """A step that begins 5 minutes before its stretch ends, and takes longer than that."""
    step = chance.choice([s for s in steps_of(plan) if when(s["end"]) - when(s["start"]) > FIVE])
    closing = next(end for begin, end in job.hours.stretches if end * 60 >= when(step["end"]).timestamp())
    put(plan, step, dt.datetime.fromtimestamp(closing * 60, when(step["start"]).tzinfo) - FIVE)


@breaks("a batch runs as its units do")
def on_a_closed_night(plan, job, chance):
    """A step at an hour when nobody is there."""
    step = chance.choice(steps_of(plan))
    gaps = [end for (_, end), (begin, _) in zip(job.hours.stretches, job.hours.stretches[1:]) if begin - end >= 600]
    after = next(end for end in gaps if end * 60 >= when(step["end"]).timestamp())
    put(plan, step, dt.datetime.fromtimestamp(after * 60 + 3600, when(step["start"]).tzinfo))


@breaks("a batch has a person of the shop")
def nobody_of_the_shop(plan, job, chance):
    chance.choice(batches_of(plan))["person"] = "nobody"


@breaks("hands-on minutes add up")
def work_misreported(plan, job, chance):
    plan["timetable"]["hands_on_min"] -= 5


@breaks("a batch runs as its units do")
def without_its_clean_up(plan, job, chance):
    """A batch whose person leaves the tool as it is."""
    ends = [when(b["work_until"]) + dt.timedelta(minutes=-when(b["work_until"]).minute % 5) for b in batches_of(plan)]
    batch, end = chance.choice([(b, end) for b, end in zip(batches_of(plan), ends) if end < when(b["end"])])
    batch["end"] = end.isoformat()


@breaks("a batch runs as its units do")
def paused_over_the_night(plan, job, chance):
    """The second half of a batch a day later: no tool rests so long."""
    later_half(plan, chance.choice([b for b in batches_of(plan) if len(b["steps"]) > 1]), DAY)


@breaks("a batch runs as its units do")
def paused_for_no_reason(plan, job, chance):
    """The second half of a batch ten minutes later: its person is there and does nothing."""
    later_half(plan, chance.choice([b for b in batches_of(plan) if len(b["steps"]) > 1]), 2 * FIVE)


@breaks("a batch runs as its units do")
def paused_inside_a_section(plan, job, chance):
    """A unit begins 5 minutes before its stretch ends, and goes on behind the break."""
    checked = seen(plan, job)
    step = chance.choice([s for s in steps_of(plan) if len(checked.work(plan_reader.key_of(s["id"])).units) == 1
                          and when(s["end"]) - when(s["start"]) > 2 * FIVE])
    person = checked.person(batch_of(plan, step)["person"])
    breaks_of = zip(person.hours.stretches, person.hours.stretches[1:])
    closing, opening = next((a[1], b[0]) for a, b in breaks_of if a[1] * 60 >= when(step["end"]).timestamp())
    put(plan, step, dt.datetime.fromtimestamp(closing * 60, when(step["start"]).tzinfo) - FIVE)
    batch, pause = batch_of(plan, step), dt.timedelta(minutes=opening - closing)
    place = [row["id"] for row in batch["steps"]].index(step["id"])
    for k, row in enumerate(batch["steps"][place:]):
        for moved in (row, find(plan, row["id"])):
            shift(moved, ("end",) if k == 0 else ("start", "end"), pause)
    shift(batch, ("work_until", "end"), pause)


@breaks("a batch runs as its units do")
def rests_longer_than_its_tool(plan, job, chance):
    """The tool of a batch that pauses may rest a minute less than that."""
    checked, found = seen(plan, job), []
    for batch in checked.batches:
        run = rules_batches.run_of(checked, batch, checked.person(batch.person))
        coats = [checked.work(row.id).coat for row in batch.steps if checked.work(row.id).coat and checked.work(row.id).do == "apply"]
        found += [(coats[0].tool, max(b - a for a, b in run.pauses))] if coats and run.pauses else []
    tool, longest = chance.choice(found)
    return other_shop(job, spans={**job.shop.spans, "rest": {tool: F(longest - 1)}})


@breaks("a gun is clean before its pot life ends")
def cleaned_when_the_pot_is_dead(plan, job, chance):
    """The last mix of a gun's batch was made so early that it is dead before the gun is clean."""
    checked = seen(plan, job)
    batch = chance.choice([b for b in batches_of(plan) if rules_batches.cleaned(checked, read_batch(checked, b["id"]))])
    until, alive = rules_batches.cleaned(checked, read_batch(checked, batch["id"]))
    batch["mixes"][-1]["at"] = (when(batch["mixes"][-1]["at"]) - dt.timedelta(minutes=float(alive - until) // 1 + 3)).isoformat()


def read_batch(checked, name):
    return next(b for b in checked.batches if b.id == name)


@breaks("mixes follow the set-up")
def one_mix_for_two(plan, job, chance):
    """One mix serves what two were made for: longer than it can be applied."""
    chance.choice([b for b in batches_of(plan) if len(b["mixes"] or []) > 1])["mixes"].pop(1)


@breaks("a step says what it is")
def a_part_of_another_lot(plan, job, chance):
    """A step is said to be of another lot of its piece."""
    step = chance.choice([s for s in steps_of(plan) if s["lots"] > 1])
    step["lot"] = step["lot"] % step["lots"] + 1


@breaks("wet pieces fit on the rack")
def one_part_too_many_on_the_rack(plan, job, chance):
    """The rack holds all that lies there at once, but for less than the smallest part of it."""
    checked = seen(plan, job)
    held = [h for h in rules_shop.rack_held(checked) if h[2] > 0]
    load = max(sum(h[2] for h in held if h[0] <= begin and (h[1] is None or begin < h[1])) for begin, _, _, _ in held)
    smallest = min(checked.footprint(i, piece) for piece in job.pieces.values() if piece.laid != "hung"
                   for i in range(len(units.Instances(checked.surfaces, piece.name).list)))
    return other_shop(job, rack=F(load - smallest / 2))


@breaks("a batch is of one kind")
def two_kinds_in_one_batch(plan, job, chance):
    """The steps of another kind are said to stand in the batch."""
    checked = seen(plan, job)
    kind = {b.id: {checked.work(row.id).kind for row in b.steps} - {("flip", None)} for b in checked.batches}
    working = [b for b in batches_of(plan) if kind[b["id"]]]
    pairs = [(a, b) for a in working for b in working if kind[a["id"]] != kind[b["id"]]]
    first, second = chance.choice(pairs)
    first["steps"] += second["steps"]
    for row in second["steps"]:
        find(plan, row["id"])["batch"] = first["id"]
    batches_of(plan).remove(second)


@breaks("a flip stands with coats")
def turned_in_between(plan, job, chance):
    """A part is turned over in the middle of other work."""
    checked = seen(plan, job)
    kinds = {b.id: {checked.work(row.id).kind for row in b.steps} for b in checked.batches}
    flips = [b for b in batches_of(plan) if kinds[b["id"]] == {("flip", None)}]
    flip = chance.choice(flips)
    coat = rules_batches.coat_behind(checked, plan_reader.key_of(flip["steps"][0]["id"]))
    other = chance.choice([b for b in batches_of(plan) if not kinds[b["id"]] & {("flip", None), coat.kind if coat else None}])
    other["steps"] += flip["steps"]
    for row in flip["steps"]:
        find(plan, row["id"])["batch"] = other["id"]
    batches_of(plan).remove(flip)


@breaks("a batch has an id of its own")
def two_batches_of_one_name(plan, job, chance):
    first, second = chance.sample(batches_of(plan), 2)
    second["id"] = first["id"]
    for row in second["steps"]:
        find(plan, row["id"])["batch"] = first["id"]


@breaks("no more spraying than spray places")
def sprayed_without_a_place(plan, job, chance):
    """The shop has a place less than are taken at once."""
    held = rules_shop.spray_places_held(seen(plan, job))
    taken = max(sum(a <= begin < b for a, b, _, _ in held) for begin, _, _, _ in held)
    return other_shop(job, spray_places=taken - 1)


@breaks("pieces and tasks keep their order")
def begun_before_what_it_waits_for(plan, job, chance):
    """The piece that begins first waits for one that is not there by then."""
    checked = seen(plan, job)
    pieces = sorted({s.piece for s in checked.timetable.list if s.piece}, key=checked.first_start)
    return other_piece(job, pieces[0], after=[f"{chance.choice(pieces[1:])} handle"])


@breaks("hands-on steps of a lot never overlap")
def two_hands_on_one_lot(plan, job, chance):
    """A step of a lot begins when another of it does."""
    steps = [s for s in steps_of(plan) if s["piece"] and when(s["end"]) > when(s["start"])]
    first = chance.choice(steps)
    second = chance.choice([s for s in steps if (s["piece"], s["lot"]) == (first["piece"], first["lot"]) and s["batch"] != first["batch"]])
    put(plan, second, when(first["start"]))


def in_other_air(job, op):
    """A job like this of which one finish bears no air that a shop has."""
    other = copy.copy(job)
    other.facts, other.finishes = None, dict(job.finishes)
    finish = op.coat.finish
    other.finishes[finish.id] = dataclasses.replace(finish, air=((F(36), F(40)), finish.air[1]))
    return other


@breaks("coats are laid in air that they bear")
def applied_in_the_cold(plan, job, chance):
    return in_other_air(job, chance.choice(seen(plan, job).applies())[1])


@breaks("water and reaction films stay within limits")
def dried_in_the_cold(plan, job, chance):
    applies = seen(plan, job).applies()
    return in_other_air(job, chance.choice([op for _, op in applies if op.coat.finish.dries_by in rules_shop.NEEDS_LIMITS_UNTIL_HANDLE]))


@breaks("who works can do it")
def without_the_skill(plan, job, chance):
    """Who does a batch can do everything but that."""
    checked = seen(plan, job)
    skills = {b.id: {rules_batches.skill(checked.work(row.id)) for row in b.steps} - {None} for b in checked.batches}
    batch = chance.choice([b for b in checked.batches if skills[b.id]])
    person = checked.person(batch.person)
    every = person.does or ["sand", "rub", "polish", *job_reader.LOSSES]
    return other_person(job, person.name, does=[s for s in every if s not in skills[batch.id] | {"scuff"}])


@breaks("a batch runs as its units do")
def while_its_person_is_away(plan, job, chance):
    """Who does a batch is away in the middle of one of its units."""
    checked = seen(plan, job)
    row = chance.choice([row for row in checked.batches for row in row.steps if row.end - row.start > 1])
    batch = next(b for b in checked.batches if row in b.steps)
    middle = (row.start + row.end) // 2
    away = copy.copy(checked.person(batch.person).hours)
    away.stretches = [part for stretch in away.stretches for part in hours.without(stretch, [(middle, middle + 1)])]
    away.starts = [begin for begin, _ in away.stretches]
    return other_person(job, batch.person, hours=away)


@breaks("two turn what is heavy")
def a_heavy_part_turned_alone(plan, job, chance):
    batch = chance.choice([b for b in batches_of(plan) if b.get("helper")])
    chance.choice([dict.pop, lambda b, key: b.update(helper=b["person"])])(batch, "helper")


@breaks("one person does one batch at a time")
def helps_in_two_places(plan, job, chance):
    """Who helps is busy with a batch of their own."""
    helped = chance.choice([b for b in batches_of(plan) if b.get("helper")])
    other = chance.choice([b for b in batches_of(plan) if b["person"] == helped["helper"] and b is not helped])
    put(plan, find(plan, other["steps"][0]["id"]), when(helped["start"]))


@breaks("two turn what is heavy")
def helps_from_home(plan, job, chance):
    """Who helps is not there."""
    checked = seen(plan, job)
    batch = chance.choice([b for b in checked.batches if b.helper])
    away = copy.copy(checked.person(batch.helper).hours)
    away.stretches = [part for stretch in away.stretches for part in hours.without(stretch, [(batch.start, batch.end)])]
    away.starts = [begin for begin, _ in away.stretches]
    return other_person(job, batch.helper, hours=away)


@breaks("films are dry by their hour")
def wet_after_its_hour(plan, job, chance):
    """The films of a piece are to be dry an hour before one of them is."""
    checked = seen(plan, job)
    step, op = chance.choice(checked.applies())
    by = max(step.end, int(checked.reach(step.id, "handle")) - 60)
    by = by if hours.wall(by, job.zone).date() == hours.wall(step.end, job.zone).date() else step.end
    return other_piece(job, op.piece, dry_by=hours.wall(by, job.zone).strftime("%H:%M"))


def coats_of_one_day(checked, key):
    """Coats of which another of the same lot, side and `key` begins that day."""
    days = {}
    for step, op in checked.applies():
        day = hours.wall(step.start, checked.job.zone).date()
        days.setdefault((op.piece, op.lot, op.schedule, op.side, key(op), day), []).append(op)
    return [ops[0] for ops in days.values() if len(ops) > 1]


@breaks("no more coats a day than the piece bears")
def a_coat_too_many_for_the_piece(plan, job, chance):
    """A piece with two coats on one day bears one a day."""
    op = chance.choice(coats_of_one_day(seen(plan, job), lambda op: None))
    return other_piece(job, op.piece, a_day=1)


@breaks("no more coats a day than the finish bears")
def a_coat_too_many_for_the_finish(plan, job, chance):
    """A finish of which two coats are on one side on one day bears one a day."""
    finish = chance.choice(coats_of_one_day(seen(plan, job), lambda op: op.coat.finish.id)).coat.finish
    other = copy.copy(job)
    other.facts, other.finishes = None, dict(job.finishes)
    other.finishes[finish.id] = dataclasses.replace(finish, coats={**finish.coats, "a-day": 1})
    return other


@breaks("a film is at")
def turned_while_wet(plan, job, chance):
    """A side that has to be dry to handle is turned at the end of its coat."""
    checked = seen(plan, job)
    waits = [w for w in checked.expected.waits if w.kind == expected.STATE and w.to.endswith("/flip") and w.to in checked.steps
             and checked.steps[w.source].row["batch"] != checked.steps[w.to].row["batch"]]
    wait = chance.choice(waits)
    put(plan, checked.steps[wait.to].row, when(checked.steps[wait.source].row["end"]))


@breaks("hands-on minutes add up")
def work_of_a_batch_misreported(plan, job, chance):
    chance.choice(batches_of(plan))["hands_on_min"] += 1


@breaks("a step slips no farther")
def a_batch_slips_otherwise_than_its_steps(plan, job, chance):
    chance.choice(batches_of(plan))["float_min"] += 5


@breaks("the head names the job")
def to_spare_misreported(plan, job, chance):
    plan["timetable"]["to_spare_min"] += 60


BATCHES = [off_the_five_minutes, without_its_set_up, mixed_before_the_set_up, a_mix_too_few, stirred_in_the_night, two_hands_on_one_unit,
           in_no_batch, a_lot_torn_apart, over_a_break, on_a_closed_night, nobody_of_the_shop, work_misreported,
           without_its_clean_up, paused_over_the_night, paused_for_no_reason, paused_inside_a_section,
           rests_longer_than_its_tool, cleaned_when_the_pot_is_dead, one_mix_for_two, a_part_of_another_lot,
           one_part_too_many_on_the_rack, two_kinds_in_one_batch, turned_in_between, two_batches_of_one_name,
           sprayed_without_a_place, begun_before_what_it_waits_for, two_hands_on_one_lot, applied_in_the_cold, dried_in_the_cold,
           without_the_skill, while_its_person_is_away,
           a_heavy_part_turned_alone, helps_in_two_places, helps_from_home, wet_after_its_hour,
           a_coat_too_many_for_the_piece, a_coat_too_many_for_the_finish, turned_while_wet, work_of_a_batch_misreported,
           a_batch_slips_otherwise_than_its_steps, to_spare_misreported]
