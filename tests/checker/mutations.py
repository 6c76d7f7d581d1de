"""Ways to break a valid plan. Each is built so that the result breaks a limit whatever else holds, and names the rules, by
their first words, of which the checker must tell one. An IndexError, ValueError or StopIteration says that the mutation
has no place in this plan: no polish, no flip, no rack.
"""
import copy
import datetime as dt

import case
import plan_reader
import rules_float

FIVE = dt.timedelta(minutes=5)
TOO_EARLY = ("a step follows the one before", "a film is at", "polish windows hold", "pieces and tasks keep their order",
             "no dust falls", "one person does one batch", "wet pieces fit", "no more spraying", "a batch runs as its units do",
             "nothing starts before", "no more coats a day", "coats are laid in air", "water and reaction films",
             "added scuffs", "a side is worked on", "a step starts inside its links")


def breaks(*rules):
    """Marks a mutation with the rules, by their first words, of which the checker must name one."""
    def mark(mutation):
        mutation.rules = rules
        return mutation
    return mark


def when(text):
    return dt.datetime.fromisoformat(text)


def shift(row, keys, by):
    for key in keys:
        row[key] = (when(row[key]) + by).isoformat()


def put(plan, step, start):
    """Moves a step with its whole batch, so that the step begins at `start`."""
    by, batch = start - when(step["start"]), batch_of(plan, step)
    shift(batch, ("start", "work_from", "work_until", "end"), by)
    for mix in batch["mixes"] or []:
        shift(mix, ("at",), by)
    for row in batch["steps"]:
        shift(row, ("start", "end"), by)
        shift(find(plan, row["id"]), ("start", "end"), by)


def steps_of(plan):
    return plan["timetable"]["steps"]


def batches_of(plan):
    return plan["timetable"]["batches"]


def batch_of(plan, step):
    return next(b for b in batches_of(plan) if b["id"] == step["batch"])


def drop(plan, step):
    """Takes a step out of the plan and out of its batch."""
    steps_of(plan).remove(step)
    batch = batch_of(plan, step)
    batch["steps"] = [row for row in batch["steps"] if row["id"] != step["id"]]
    if not batch["steps"]:
        batches_of(plan).remove(batch)


def find(plan, name):
    return next(s for s in steps_of(plan) if s["id"] == name)


def bound_pairs(plan):
    """(step, step) of two batches where the second waits for the first and begins at its very end."""
    steps = {s["id"]: s for s in steps_of(plan)}
    return [(steps[a["id"]], s) for s in steps_of(plan) for a in s["after"] if steps[a["id"]]["end"] == s["start"]
            and steps[a["id"]]["batch"] != s["batch"]]


def tight_steps(plan):
    """Steps that begin at the very moment that one of their links allows."""
    return [s for s in steps_of(plan) if any(a["min_until"] and when(a["min_until"]) == when(s["start"]) for a in s["after"])]


@breaks(*TOO_EARLY)
def five_minutes_early(plan, job, chance):
    step = chance.choice(tight_steps(plan))
    put(plan, step, when(step["start"]) - FIVE)


@breaks("a batch runs as its units do", "every step stands in one batch")
def five_minutes_longer(plan, job, chance):
    step = chance.choice(steps_of(plan))
    row = next(r for r in batch_of(plan, step)["steps"] if r["id"] == step["id"])
    step["end"] = row["end"] = (when(step["end"]) + FIVE).isoformat()


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
def paused_too_long(plan, job, chance):
    """The second half of a batch a week later: no tool rests so long."""
    batch = chance.choice([b for b in batches_of(plan) if len(b["steps"]) > 1])
    for row in batch["steps"][len(batch["steps"]) // 2:]:
        shift(row, ("start", "end"), dt.timedelta(days=7))
        shift(find(plan, row["id"]), ("start", "end"), dt.timedelta(days=7))
    shift(batch, ("work_until", "end"), dt.timedelta(days=7))


@breaks("a batch is of one kind")
def two_kinds_in_one_batch(plan, job, chance):
    """The steps of another kind are said to stand in the batch."""
    first, second = chance.sample(batches_of(plan), 2)
    kinds = [(b["do"], b["finish"], b["tool"], b["id"].split("/")[1]) for b in (first, second)]
    if kinds[0] == kinds[1] or "flip" in (first["do"], second["do"]) or first["do"] == "task" or second["do"] == "task":
        raise IndexError
    first["steps"] += second["steps"]
    for row in second["steps"]:
        find(plan, row["id"])["batch"] = first["id"]
    batches_of(plan).remove(second)


@breaks("who works can do it")
def without_the_skill(plan, job, chance):
    """A batch is given to somebody who does not do such work."""
    rows = [(b, p) for b in batches_of(plan) for p in job.shop.persons
            if p.does is not None and b["do"] in ("apply", "sand") and (b["tool"] or b["do"]) not in p.does]
    batch, person = chance.choice(rows)
    batch["person"] = person.name


@breaks("hands-on minutes add up")
def work_misreported(plan, job, chance):
    plan["timetable"]["hands_on_min"] -= 5


@breaks("what is proven is met")
def proof_misreported(plan, job, chance):
    table = plan["timetable"]
    table["work_proven"] = not table["work_proven"]


@breaks("films are dry by their hour")
def wet_after_its_hour(plan, job, chance):
    """A coat of a piece with such an hour begins when it strikes."""
    step = chance.choice([s for s in steps_of(plan) if s["do"] == "apply" and job.pieces[s["piece"]].dry_by])
    hour, minute = map(int, job.pieces[step["piece"]].dry_by.split(":"))
    put(plan, step, when(step["start"]).replace(hour=hour, minute=minute))


@breaks("no more coats a day than the piece bears")
def a_coat_too_many_that_day(plan, job, chance):
    """The next coat of a piece with such a limit on the day of the one before."""
    coats = [s for s in steps_of(plan) if s["do"] == "apply" and job.pieces[s["piece"]].a_day]
    pairs = [(a, b) for a in coats for b in coats if (a["piece"], a["lot"], a["side"], a["schedule"]) ==
             (b["piece"], b["lot"], b["side"], b["schedule"]) and b["coat"] == a["coat"] + 1]
    first, second = chance.choice(pairs)
    put(plan, second, when(first["end"]))


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


@breaks("one person does one batch at a time")
def two_at_once(plan, job, chance):
    """Two batches of one person at one moment."""
    name = chance.choice([b["person"] for b in batches_of(plan)])
    first, second = chance.sample([b for b in batches_of(plan) if b["person"] == name], 2)
    put(plan, find(plan, second["steps"][0]["id"]), when(first["steps"][0]["start"]))


@breaks("a batch has a person of the shop")
def nobody_of_the_shop(plan, job, chance):
    chance.choice(batches_of(plan))["person"] = "nobody"


@breaks("every operation stands exactly once", "links name steps", "added scuffs", "recoat windows hold")
def a_step_dropped(plan, job, chance):
    drop(plan, chance.choice(steps_of(plan)))


@breaks("every operation stands exactly once")
def a_step_twice(plan, job, chance):
    steps_of(plan).append(copy.deepcopy(chance.choice(steps_of(plan))))


@breaks("every operation stands exactly once")
def a_flip_dropped(plan, job, chance):
    drop(plan, chance.choice([s for s in steps_of(plan) if s["do"] == "flip"]))


@breaks("nothing starts before the job")
def before_the_start(plan, job, chance):
    step = chance.choice(steps_of(plan))
    put(plan, step, when(plan["timetable"]["start"]) - dt.timedelta(days=7))


@breaks("a film is at")
def drying_wait_ignored(plan, job, chance):
    """The second of two coats of a side directly at the end of the first."""
    later = [s for s in steps_of(plan) if s["do"] == "apply" and s["coat"] > 1]
    step = chance.choice(later)
    head, number = step["id"].split("/")[:2], step["id"].split("/")[2]
    before = find(plan, "/".join(head + [number.replace(str(step["coat"]), str(step["coat"] - 1)), "apply"]))
    put(plan, step, when(before["end"]))


@breaks("a step follows the one before", "pieces and tasks keep their order", "added scuffs", "recoat windows hold",
        "a side is worked on while it is up", "one person does one batch", "hands-on steps of a lot")
def coats_in_wrong_order(plan, job, chance):
    """Two steps of which one waits for the other change places."""
    first, second = chance.choice(bound_pairs(plan))
    begin = when(first["start"])
    put(plan, second, begin)
    put(plan, first, when(second["end"]))


@breaks("polish windows hold")
def polish_window_missed(plan, job, chance):
    """A polish a day later than its coat."""
    step = chance.choice([s for s in steps_of(plan) if s["do"] == "polish" and polishes(plan, job, s)])
    put(plan, step, when(step["start"]) + dt.timedelta(days=1))


def polishes(plan, job, step):
    """Whether a polish belongs to a finish with a polish window shorter than a day."""
    name = step["id"].rpartition("/")[0] + "/apply"
    rows = [s for s in steps_of(plan) if s["id"] == name]
    window = job.finishes[rows[0]["finish"]].polish if rows else None
    return window is not None and window[1] < 1440


@breaks("recoat windows hold")
def recoat_window_missed(plan, job, chance):
    """A coat over a film that refuses one after its window, put off until a year later."""
    step = chance.choice([s for s in steps_of(plan) if s["do"] == "apply" and refusing(plan, job, s)])
    put(plan, step, when(step["start"]) + dt.timedelta(days=365))


def refusing(plan, job, step):
    """Whether one of the step's links is a window of less than a month that its film does not let pass."""
    films = [find(plan, a["id"]) for a in step["after"] if a["max_until"]]
    finishes = [job.finishes[f["finish"]] for f in films if f["do"] == "apply"]
    return any(f.refuses and max(f.first.recoat_last, f.later.recoat_last) < 30 * 1440 for f in finishes)


@breaks("ready is the latest")
def ready_misreported(plan, job, chance):
    table = plan["timetable"]
    table["ready"] = (when(table["ready"]) - FIVE).isoformat()


@breaks("late and spare minutes add up")
def spare_misreported(plan, job, chance):
    table = plan["timetable"]
    table[chance.choice(["late_min", "spare_min"])] += 5


@breaks("states are reached when said")
def state_misreported(plan, job, chance):
    coated = {s["piece"] for s in steps_of(plan) if s["do"] == "apply"}
    state = chance.choice([s for s in plan["timetable"]["states"] if s["at"] and s["piece"] in coated])
    state["at"] = (when(state["at"]) - FIVE).isoformat()


@breaks("a step slips no farther")
def slips_beyond_ready(plan, job, chance):
    batch = chance.choice(batches_of(plan))
    for row in batch["steps"]:
        step = find(plan, row["id"])
        step["float_min"] = 5 * round((when(plan["timetable"]["ready"]) - when(batch["start"])).total_seconds() / 300) + 5


@breaks("a step that can be moved alone")
def slips_not_at_all(plan, job, chance):
    """Batches that stand as well five minutes later are said to stand where they are for ever."""
    checked = case.Case(job, plan_reader.Timetable(plan["timetable"], job.zone))
    loose = [b for b in checked.batches if checked.steps[b.steps[0].id].row["float_min"] > 0 and rules_float.moves_alone(checked, b)]
    for row in chance.choice(loose).steps:
        checked.steps[row.id].row["float_min"] = 0


@breaks("air outside the limits")
def air_untold(plan, job, chance):
    """A warning is kept back, or given where all is well."""
    step = chance.choice([s for s in steps_of(plan) if s["do"] == "apply"])
    bad = "outside its limits" in (step["note"] or "")
    step["note"] = None if bad else "dries in air outside its limits from Mon 1 Mar 18:00 to Tue 2 Mar 07:00"


@breaks("links name steps")
def link_to_nowhere(plan, job, chance):
    step = chance.choice([s for s in steps_of(plan) if s["after"]])
    step["after"][0]["id"] += "-x"


@breaks("a step starts inside its links")
def link_later_than_its_step(plan, job, chance):
    step = chance.choice([s for s in steps_of(plan) if s["after"]])
    step["after"][0]["min_until"] = (when(step["start"]) + FIVE).isoformat()


@breaks("the chain names steps")
def chain_to_nowhere(plan, job, chance):
    plan["timetable"]["chain"].append("nothing/of/1/kind")


@breaks("no dust falls on a wet surface")
def wet_in_dust(plan, job, chance):
    """Dust is raised at the moment at which a coat goes on, in a shared room."""
    if not job.shop.dust_shared:
        raise IndexError
    dusty = chance.choice([s for s in steps_of(plan) if s["do"] in ("sand", "scuff")])
    wet = chance.choice([s for s in steps_of(plan) if s["do"] == "apply"])
    put(plan, dusty, when(wet["start"]))


@breaks("wet pieces fit on the rack")
def rack_overfull(plan, job, chance):
    """All pieces of a coat at one moment, where the rack cannot hold them together."""
    if job.shop.rack is None:
        raise IndexError
    first = {}
    for step in steps_of(plan):
        if step["do"] == "apply":
            first.setdefault(step["piece"], step)
    sizes = [job.pieces[p].rack for p in first]
    if None in sizes or sum(sizes) <= job.shop.rack:
        raise IndexError
    start = when(min(first.values(), key=lambda s: when(s["start"]))["start"])
    for step in first.values():
        put(plan, step, start)


@breaks("a step says what it is")
def wrong_finish(plan, job, chance):
    step = chance.choice([s for s in steps_of(plan) if s["do"] == "apply"])
    step["finish"] += "-x"


@breaks("every operation stands exactly once")
def a_step_of_nothing(plan, job, chance):
    step = copy.deepcopy(chance.choice(steps_of(plan)))
    step["id"] = step["id"].rpartition("/")[0] + "/sand-1"
    steps_of(plan).append(step)


@breaks("surfaces are taken off right")
def a_square_metre_more(plan, job, chance):
    chance.choice(plan["area"]["surfaces"])["area_m2"] += 1


@breaks("litres needed are right")
def a_litre_less(plan, job, chance):
    chance.choice(plan["buy"]["finishes"])["need_l"]["likely"] *= 0.9


@breaks("components of a mix")
def a_short_component(plan, job, chance):
    mix = chance.choice(plan["mix"]["mixes"])
    mix["components"][0]["ml"] *= 0.9


TIMETABLE = [five_minutes_early, five_minutes_longer, off_the_five_minutes, over_a_break, on_a_closed_night, two_at_once,
             nobody_of_the_shop, without_its_set_up, mixed_before_the_set_up, a_mix_too_few, two_hands_on_one_unit, in_no_batch,
             a_lot_torn_apart, paused_too_long, two_kinds_in_one_batch, without_the_skill, work_misreported, proof_misreported,
             wet_after_its_hour, a_coat_too_many_that_day, a_step_dropped, a_step_twice, a_flip_dropped, before_the_start, drying_wait_ignored,
             coats_in_wrong_order, polish_window_missed, recoat_window_missed, ready_misreported, spare_misreported,
             state_misreported, slips_beyond_ready, slips_not_at_all, air_untold, link_to_nowhere, link_later_than_its_step,
             chain_to_nowhere, wet_in_dust, rack_overfull, wrong_finish, a_step_of_nothing]
AMOUNTS = [a_square_metre_more, a_litre_less, a_short_component]
