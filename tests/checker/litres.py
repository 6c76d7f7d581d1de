"""Litres of every coat: A x absorb / (coverage x transfer) + loss."""
import math
from collections import namedtuple

import facts
import finish_reader
import log_reader
import passes
import units
import woods

TRANSFER = {"hvlp": 0.65, "conventional": 0.3, "airless": 0.5}
Need = namedtuple("Need", "low likely high thinner")


def transfer(job, tool, surface):
    share = TRANSFER.get(tool, 1.0)
    return share / 2 if tool in finish_reader.SPRAYED and passes.fan_misses(surface) else share


def of_surface(job, surface, coat):
    """Litres of what the coverage counts that one surface takes of one coat."""
    coverage = float(coat.finish.coverage_by(coat.number == 1, coat.tool)) * transfer(job, coat.tool, surface)
    return surface.area * woods.absorb(surface, coat.finish, coat.number) / coverage


def counted_thinned(coat):
    """Thinner for a litre of what the coverage counts: by hand on bare wood that is the mixture."""
    return coat.thin if coat.number == 1 and coat.tool not in finish_reader.SPRAYED else 0.0


def laid(case, op):
    """Litres of what the coverage counts that an operation lays."""
    return math.fsum(area * of_surface(case.job, s, op.coat) for s, area in parts_of(case, op))


def losses(case):
    """{operation: its litres of what stays in the tool}, once a batch, shared by its coats after the litres of finish that they
    take."""
    found = {}
    for batch in case.batches:
        coats_of = [op for op in (case.work(row.id) for row in batch.steps) if op.do == "apply"]
        taken = [laid(case, op) / (1 + counted_thinned(op.coat)) for op in coats_of]
        for op, litres_of in zip(coats_of, taken):
            found[op.id] = float(op.coat.finish.loss_of(op.coat.tool, case.job.shop)) * litres_of / math.fsum(taken)
    return found


def coats(case):
    """[(operation, litres of finish)]: loss counted, thinner not."""
    loss = losses(case)
    return [(op, (laid(case, op) + loss.get(name, 0.0)) / (1 + counted_thinned(op.coat)))
            for name, op in case.left.items() if op.do == "apply"]


def used(case):
    """{finish: litres of it that were laid already}."""
    found = {}
    coats_of = [fact for fact in case.facts.values() if fact.do == "apply"]
    for fact in coats_of:
        together = [laid(case, f.operation) / (1 + counted_thinned(f.operation.coat)) for f in coats_of if facts.same_batch(fact, f)]
        own = laid(case, fact.operation) / (1 + counted_thinned(fact.operation.coat))
        loss = float(fact.operation.coat.finish.loss_of(fact.operation.coat.tool, case.job.shop)) * own / math.fsum(together) / (1 + counted_thinned(fact.operation.coat))
        told = log_reader.litres(fact.entry)
        name = fact.operation.coat.finish.id
        found[name] = found.get(name, 0.0) + (own + loss if told is None else told)
    return found


def parts_of(case, op):
    """(surface, share of it) of the parts of an operation's lot."""
    divided = case.lots.get(op.piece)
    if divided is None:
        return [(s, 1.0) for s in op.passed.surfaces]
    instances = units.Instances(case.surfaces, op.piece).list
    mine = [instances[i][0] for i in divided[op.lot - 1]]
    return [(s, sum(part is s.part for part in mine) / s.part.qty) for s in op.passed.surfaces]


def needs(case):
    """Litres by finish, without reserve."""
    sums = {fact.operation.coat.finish.id: (0.0, 0.0, 0.0, 0.0) for fact in case.facts.values() if fact.do == "apply"}
    for op, likely in coats(case):
        finish = op.coat.finish
        low, mid, high, thin = sums.get(finish.id, (0.0, 0.0, 0.0, 0.0))
        tolerance = float(finish.tolerance)
        sums[finish.id] = (low + likely * (1 - tolerance), mid + likely, high + likely * (1 + tolerance),
                           thin + likely * op.coat.thin)
    return {name: Need(*values) for name, values in sums.items()}
