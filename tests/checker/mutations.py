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


@breaks("what is proven is met")
def proof_misreported(plan, job, chance):
    table = plan["timetable"]
    table["work_proven"] = not table["work_proven"]


@breaks("one person does one batch at a time")
def two_at_once(plan, job, chance):
    """Two batches of one person at one moment."""
    name = chance.choice([b["person"] for b in batches_of(plan)])
    first, second = chance.sample([b for b in batches_of(plan) if b["person"] == name], 2)
    put(plan, find(plan, second["steps"][0]["id"]), when(first["steps"][0]["start"]))


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
    for row in [batch, *(find(plan, row["id"]) for row in batch["steps"])]:
        row["float_min"] = 5 * round((when(plan["timetable"]["ready"]) - when(batch["start"])).total_seconds() / 300) + 5


@breaks("a step that can be moved alone")
def slips_not_at_all(plan, job, chance):
    """Batches that stand as well five minutes later are said to stand where they are for ever."""
    checked = case.Case(job, plan_reader.Timetable(plan["timetable"], job.zone))
    loose = [b for b in checked.batches if checked.steps[b.steps[0].id].row["float_min"] > 0 and rules_float.moves_alone(checked, b)]
    batch = chance.choice(loose)
    for row in [batch.row, *(checked.steps[row.id].row for row in batch.steps)]:
        row["float_min"] = 0


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
    checked = case.Case(job, plan_reader.Timetable(plan["timetable"], job.zone))
    first = {}
    for step in steps_of(plan):
        if step["do"] == "apply":
            first.setdefault((step["piece"], step["lot"]), step)
    taken = sum(checked.rack_of_lot(job.pieces[piece], lot) for piece, lot in first)
    if job.shop.rack is None or taken <= job.shop.rack + 1e-6:
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


@breaks("bounds are no later than ready")
def a_bound_behind_ready(plan, job, chance):
    table = plan["timetable"]
    table["no_earlier_than"] = (when(table["ready"]) + FIVE).isoformat()


@breaks("proven means that ready is the bound")
def proof_of_ready_misreported(plan, job, chance):
    plan["timetable"]["ready_proven"] = not plan["timetable"]["ready_proven"]


@breaks("steps stand by start")
def steps_out_of_order(plan, job, chance):
    steps = steps_of(plan)
    place = chance.randrange(len(steps) - 1)
    steps[place], steps[place + 1] = steps[place + 1], steps[place]


@breaks("links tell true moments")
def a_link_that_allows_too_much(plan, job, chance):
    """A step is said to wait less long than it must."""
    links = [a for s in steps_of(plan) for a in s["after"] if a["min_until"] and "/" in a["id"]]
    link = chance.choice(links)
    link["min_until"] = (when(link["min_until"]) - dt.timedelta(days=366)).isoformat()


@breaks("the chain ends in the ready moment")
def a_chain_that_ends_too_soon(plan, job, chance):
    """The critical path ends in a step that is over before another begins."""
    table = plan["timetable"]
    last = when(table["ready"])
    early = [s["id"] for s in steps_of(plan) if s["do"] != "apply" and when(s["end"]) + dt.timedelta(days=1) < last and s["piece"]]
    table["chain"] = [chance.choice(early)]


TIMETABLE = [five_minutes_early, five_minutes_longer, two_at_once, proof_misreported, a_step_dropped, a_step_twice, a_flip_dropped,
             before_the_start, drying_wait_ignored, coats_in_wrong_order, polish_window_missed, recoat_window_missed,
             ready_misreported, spare_misreported, state_misreported, slips_beyond_ready, slips_not_at_all, air_untold,
             link_to_nowhere, link_later_than_its_step, chain_to_nowhere, wet_in_dust, rack_overfull, wrong_finish,
             a_step_of_nothing, a_bound_behind_ready, proof_of_ready_misreported, steps_out_of_order, a_link_that_allows_too_much,
             a_chain_that_ends_too_soon]
