"""Ways to break plans that share a shop, each in what only all of them together hold. As in mutations.py: an IndexError or
StopIteration says that the mutation has no place in these plans."""
import copy
import random

import rules_shop
import together
from mutations import breaks, put, when


def steps_at(cases, tables, wanted):
    """(case, row of the plan) of the steps of each job that `wanted` tells apart by their operations."""
    return [[row for row in table["steps"] if wanted(one, row["id"])] for one, table in zip(cases, tables)]


def sprayed(one, name):
    return name in {held[3] for held in rules_shop.spray_places_held(one)}


def applied(one, name):
    return name in one.operations and one.operations[name].do == "apply"


def dusty(one, name):
    return name in {step.id for step in rules_shop.dusty_steps(one)}


def two_of(rows, chance):
    """A step each of two jobs."""
    first, second = chance.sample([of_job for of_job in rows if of_job], 2)
    return chance.choice(first), chance.choice(second)


def move(tables, row, moment):
    """Moves a step of one of the jobs with its batch."""
    table = next(table for table in tables if any(step is row for step in table["steps"]))
    put({"timetable": table}, row, moment)


@breaks("together nobody works twice at once")
def one_person_for_both(cases, tables, chance):
    """A batch of one job is given to whoever is at a batch of another."""
    pairs = [(a, b) for mine in tables for other in tables if mine is not other for a in mine["batches"] for b in other["batches"]
             if (a["start"], a["end"]) != (b["start"], b["end"]) and when(a["start"]) < when(b["end"])]
    first, second = chance.choice(pairs)
    second["person"], second["start"] = first["person"], first["start"]


@breaks("together no more spraying than spray places")
def spraying_of_both(cases, tables, chance):
    first, second = two_of(steps_at(cases, tables, sprayed), chance)
    if cases[0].job.shop.spray_places > 1:
        raise IndexError
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
    raising, bearing = chance.sample(range(len(tables)), 2)
    row = chance.choice(steps_at(cases, tables, dusty)[raising])
    move(tables, row, when(chance.choice(steps_at(cases, tables, applied)[bearing])["start"]))


MUTATIONS = [one_person_for_both, spraying_of_both, rack_of_both, dust_of_the_other]


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
