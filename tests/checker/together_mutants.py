"""Ways to break plans that share a shop, each in what only all of them together hold. As in mutations.py: an IndexError or
StopIteration says that the mutation has no place in these plans."""
import copy
import random

import finish_reader
import rules_shop
import together
from mutations import FIVE, batch_of, breaks, find, put, shift, when


def steps_at(cases, tables, wanted):
    """(case, row of the plan) of the steps of each job that `wanted` tells apart by their operations."""
    return [[row for row in table["steps"] if wanted(one, row["id"])] for one, table in zip(cases, tables)]


def sprayed(one, name):
    return applied(one, name) and one.operations[name].coat.tool in finish_reader.SPRAYED


def applied(one, name):
    return name in one.operations and one.operations[name].do == "apply"


def dusty(one, name):
    return name in {step.id for step in rules_shop.dusty_steps(one)}


def table_of(tables, row):
    return next(table for table in tables if any(step is row for step in table["steps"]))


def batch_at(tables, row):
    return batch_of({"timetable": table_of(tables, row)}, row)


def shared(tables, batch):
    """The parts that jobs have of a batch, where there are several."""
    key = lambda b: (b["person"], b.get("helper"), b["id"].rpartition("/")[0], b["start"], b["end"])
    parts = [b for table in tables for b in table["batches"] if key(b) == key(batch)]
    return parts if len(parts) > 1 else []


def shared_part(tables, chance):
    """A job's part of a batch of several jobs, and its job's timetable."""
    return chance.choice([(part, table) for table in tables for part in table["batches"] if shared(tables, part)])


def move(tables, row, moment):
    """Moves a step of one of the jobs with its batch."""
    put({"timetable": table_of(tables, row)}, row, moment)


@breaks("together nobody works twice at once")
def one_person_for_both(cases, tables, chance):
    """A batch of one job is given to whoever is at a batch of another."""
    pairs = [(a, b) for mine in tables for other in tables if mine is not other for a in mine["batches"] for b in other["batches"]
             if (a["start"], a["end"]) != (b["start"], b["end"]) and when(a["start"]) < when(b["end"])]
    first, second = chance.choice(pairs)
    second["person"], second["start"] = first["person"], first["start"]


@breaks("together no more spraying than spray places")
def spraying_of_both(cases, tables, chance):
    rows = steps_at(cases, tables, sprayed)
    pairs = [(a, b) for mine in rows for other in rows if mine is not other for a in mine for b in other if a["start"] != b["start"]
             and not shared(tables, batch_at(tables, a))]
    if cases[0].job.shop.spray_places > 1:
        raise IndexError
    first, second = chance.choice(pairs)
    move(tables, second, when(first["start"]))


@breaks("together wet pieces fit on the rack")
def rack_of_both(cases, tables, chance):
    """A coat of another job while so much is on the rack that it does not fit beside it."""
    limit = cases[0].job.shop.rack
    coats = [(one, row) for one, rows in zip(cases, steps_at(cases, tables, applied)) for row in rows]
    area = lambda one, row: one.rack_of(one.job.pieces[row["piece"]])
    pairs = [(a, b) for one, a in coats for two, b in coats
             if limit is not None and one is not two and area(one, a) + area(two, b) > float(limit)]
    first, second = chance.choice(pairs)
    move(tables, second, when(first["start"]))


@breaks("together no dust falls on a wet surface")
def dust_of_the_other(cases, tables, chance):
    """Sanding at the moment at which a coat of another job is laid, in a shared room."""
    if not cases[0].job.shop.dust_shared:
        raise IndexError
    raised, wet = steps_at(cases, tables, dusty), steps_at(cases, tables, applied)
    pairs = [(a, b) for k, mine in enumerate(raised) for j, other in enumerate(wet) if k != j for a in mine for b in other]
    row, coat = chance.choice(pairs)
    move(tables, row, when(coat["start"]))


@breaks("together a batch runs as its units do")
def a_part_at_another_time(cases, tables, chance):
    """The steps that one job has in a batch of several are 5 minutes later, while the others are where they were."""
    part, table = shared_part(tables, chance)
    for row in part["steps"]:
        for moved in (row, find({"timetable": table}, row["id"])):
            shift(moved, ("start", "end"), FIVE)


@breaks("together hands-on minutes add up")
def a_part_that_counts_its_set_up_again(cases, tables, chance):
    """Each job counts the set-up of a batch that they share."""
    part, table = shared_part(tables, chance)
    part["hands_on_min"] += 5
    table["hands_on_min"] += 5


@breaks("together a step slips no farther than its waits bear")
def a_part_that_slips_alone(cases, tables, chance):
    """One job says that its part of a batch may slip farther than the others say of theirs."""
    part, table = shared_part(tables, chance)
    for row in [part, *(find({"timetable": table}, row["id"]) for row in part["steps"])]:
        row["float_min"] += 5


MUTATIONS = [one_person_for_both, spraying_of_both, rack_of_both, dust_of_the_other, a_part_at_another_time,
             a_part_that_counts_its_set_up_again, a_part_that_slips_alone]


def slipped(jobs, tables, seed):
    """(names of the mutations that had a place, names of those that the checker let pass)."""
    tried, passed = [], []
    for mutation in MUTATIONS:
        broken = copy.deepcopy(tables)
        try:
            mutation(together.cases_of(jobs, broken), broken, random.Random(seed))
        except (IndexError, ValueError, StopIteration):
            continue
        tried.append(mutation.__name__)
        if not any(v.rule.startswith(mutation.rules) for v in together.violations(jobs, broken)):
            passed.append(mutation.__name__)
    return tried, passed
