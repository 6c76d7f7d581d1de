"""Whose minutes the batches of a plan are: everybody who works in one is at it from set-up to clean-up, and its steps share that
after their units."""
import math

import rules_batches
import shares


def people_of(batch):
    return 1 if batch.helper is None else 2


def of_pieces(case):
    """{piece, None for tasks of the job: (minutes, how many batches they come from)}, and the minutes of all."""
    found, total = {}, 0
    seconds = [rules_batches.run_of(case, b, case.person(b.person)).worked for b in case.batches]
    told = shares.of_batches(seconds, [people_of(b) for b in case.batches])
    for batch, minutes in zip(case.batches, told):
        minutes *= people_of(batch)
        works = [case.work(row.id) for row in batch.steps]
        units = [math.fsum(work.units) for work in works]
        total += minutes
        for work, mine in zip(works, units):
            had, batches = found.get(work.piece or None, (0.0, 0))
            found[work.piece or None] = (had + minutes * mine / math.fsum(units), batches + 1)
    return found, total
