"""Hands-on minutes of a pass, in floating point, rounded at the end.

Each function returns minutes; `rounded` gives the whole 5-minute steps that a tolerance of 1 s allows.
"""
import math

import finish_reader
import job_reader
import passes

MIXING = 5
FLIP = 5
MARGIN = 0.9
WIDER_THAN_A_SECOND = 1 / 60 + 1e-6
NARROWER_THAN_A_SECOND = 1 / 60 - 1e-6


def rounded(value):
    """Rounded up to 5 minutes, as the set of what 1 s of tolerance allows."""
    return {max(0, 5 * math.ceil((value - slack) / 5)) for slack in (WIDER_THAN_A_SECOND, NARROWER_THAN_A_SECOND)}


def work(job, pas, rate_key):
    """Minutes of a rate in m2/h over the surfaces of a pass."""
    rate = float(job.shop.rate(rate_key)) / 60
    return sum(s.area * float(s.part.work) / (rate * passes.ease(s)) for s in pas.surfaces)


def handling(job, pas, key):
    usual = 1.5 if key in finish_reader.SPRAYED else 1
    return float(job.shop.span("handling", key, usual)) * pas.parts()


def set_up(job, key):
    return float(job.shop.span("set-up", key, job_reader.SET_UP.get(key, 5)))


def clean_up(job, finish, tool):
    usual = job_reader.CLEAN_UP[tool]
    if tool in finish_reader.SPRAYED and len(finish.components) > 1:
        usual = 25
    return float(job.shop.span("clean-up", tool, usual))


def plain_work(job, pas, kind):
    """Sanding, scuffing, rubbing out, polishing: set-up, handling and the surface itself."""
    return set_up(job, kind) + handling(job, pas, kind) + work(job, pas, kind)


def halved(finish, minutes, temperature):
    """Minutes that halve per 10 C above the reference, double below (UFGS-09971, 3.7.1.3)."""
    return float(minutes) * 2 ** ((float(finish.at[0]) - temperature) / 10)


def pot_life(finish, temperature):
    return math.inf if finish.pot_life is None else halved(finish, finish.pot_life, temperature)


def working_time(finish, temperature):
    """Minutes in which a mix may be laid."""
    return (pot_life(finish, temperature) - float(finish.induction)) * MARGIN


def laying_time(job, coat, temperature):
    """Minutes in which one mix may be laid; a two-part finish must also be out of the gun before the pot dies."""
    working = working_time(coat.finish, temperature)
    if len(coat.finish.components) > 1 and coat.tool in finish_reader.SPRAYED:
        alive = pot_life(coat.finish, temperature) - float(coat.finish.induction)
        working = min(working, alive - clean_up(job, coat.finish, coat.tool))
    return working


def mixes(laying, working):
    """How many mixes a coat takes."""
    return max(1, math.ceil(laying / working - 1e-9)) if working > 0 else 1


def is_mixed(coat):
    """Whether anything is mixed for a coat: several components, or thinner."""
    return len(coat.finish.components) > 1 or coat.thin > 0


def lot_fits(lots, laying, wiping, span):
    """Whether every spot of equal lots is wiped between the two times after it was wetted; minutes of one lot."""
    least, most = span
    lay, wipe = laying / lots, wiping / lots
    taken = max(lay, least)
    return taken + wipe if lay <= most + 1e-9 and taken + wipe - lay <= most + 1e-9 else None


def lots(job, pas, finish, tool, temperature):
    """Number of lots and minutes of laying and wiping all of them."""
    laying, wiping = work(job, pas, tool), work(job, pas, "wipe")
    least, most = (float(v) for v in finish.wipe_off)
    most = min(most, halved(finish, most, temperature))
    for count in range(1, 10000):
        taken = lot_fits(count, laying, wiping, (least, most))
        if taken is not None:
            return count, count * taken
    raise ValueError(f"{finish.id} cannot be wiped off in its time")


def laying(job, pas, coat, temperature):
    """Minutes of laying a coat, wiping off in lots included."""
    if coat.finish.wipe_off is None:
        return work(job, pas, coat.tool)
    return lots(job, pas, coat.finish, coat.tool, temperature)[1]


def apply(job, pas, coat, temperature):
    """Set-up, mixing, handling, laying, clean-up of one coat."""
    laid = laying(job, pas, coat, temperature)
    mixing = MIXING * mixes(laid, laying_time(job, coat, temperature)) if is_mixed(coat) else 0
    waiting = float(coat.finish.induction) if is_mixed(coat) else 0
    ready = max(set_up(job, coat.tool), waiting)
    return ready + mixing + handling(job, pas, coat.tool) + laid + clean_up(job, coat.finish, coat.tool)
