"""Litres of every coat: A x absorb / (coverage x transfer) + loss."""
import math
from collections import namedtuple

import finish_reader
import passes
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


def coats(case):
    """[(operation, litres of finish)]: the loss stands once a coat of a piece's schedule; thinner is not counted."""
    found, lost = [], set()
    for name, op in case.operations.items():
        if op.do != "apply":
            continue
        key = (op.piece, op.schedule, op.number)
        loss = 0.0 if key in lost else float(case.job.shop.loss(op.coat.tool))
        lost.add(key)
        counted = math.fsum([*(of_surface(case.job, s, op.coat) for s in op.passed.surfaces), loss])
        found.append((op, counted / (1 + counted_thinned(op.coat))))
    return found


def needs(case):
    """Litres by finish, without reserve."""
    sums = {}
    for op, likely in coats(case):
        finish = op.coat.finish
        low, mid, high, thin = sums.get(finish.id, (0.0, 0.0, 0.0, 0.0))
        tolerance = float(finish.tolerance)
        sums[finish.id] = (low + likely * (1 - tolerance), mid + likely, high + likely * (1 + tolerance),
                           thin + likely * op.coat.thin)
    return {name: Need(*values) for name, values in sums.items()}
