"""Whole minutes that add up: who gets a minute more when exact shares are rounded."""
import math
from fractions import Fraction


def largest_remainder(exact, total):
    """Each share rounded down, and one more for those that lose the most by it, the first of equal ones, until they are `total`."""
    whole = [math.floor(share) for share in exact]
    by_loss = sorted(range(len(exact)), key=lambda i: (whole[i] - exact[i], i))
    for i in by_loss[:max(0, total - sum(whole))]:
        whole[i] += 1
    return whole


def of_batches(seconds, hands):
    """Minutes told of each batch: where two work, rounded up and counted twice; else so that all are the sum of all hands."""
    exact = [Fraction(s) / 60 for s in seconds]
    of_two = {i: math.ceil(exact[i]) for i, n in enumerate(hands) if n == 2}
    others = [i for i in range(len(exact)) if i not in of_two]
    total = math.ceil(sum(share * n for share, n in zip(exact, hands))) - 2 * sum(of_two.values())
    told = of_two | dict(zip(others, largest_remainder([exact[i] for i in others], total)))
    return [told[i] for i in range(len(exact))]


def of_jobs(seconds, minutes):
    """Minutes told of each job's part in a batch of `minutes`, by the seconds of its units; of none, the first has all."""
    units = sum(seconds)
    return largest_remainder([Fraction(minutes * s, units) if units else minutes * (i == 0) for i, s in enumerate(seconds)], minutes)
