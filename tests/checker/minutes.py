"""Hands-on minutes of a pass, in floating point, rounded at the end.

Each function returns minutes; `rounded` gives the whole 5-minute steps that a tolerance of 1 s allows.
"""
import math

import finish_reader
import job_reader
import passes

MIXING = 5
THINNER = {"water": 1.0, "mineral spirits": 0.78, "lacquer thinner": 0.83, "denatured alcohol": 0.81, "urethane thinner": 0.90,
           "catalysed-lacquer thinner": 0.85, "dearomatised white spirit": 0.77, "mineral spirits or citrus solvent": 0.78}
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
    usual = 1.5 if key in finish_reader.SPRAYED else 0 if key == "raise" else 1
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


def haste(finish, temperature):
    """How much faster a reaction goes than at the reference: twice per 10 C (UFGS-09971, 3.7.1.3), an epoxy 2.4 times."""
    base = 2.4 if getattr(finish, "family", None) == "epoxy" else 2.0
    return base ** ((temperature - float(finish.at[0])) / 10)


def pot_life(finish, temperature, mass=0.0):
    """Minutes that so many grams live in one cup: twice the pot mass lives half as long."""
    if finish.pot_life is None:
        return math.inf
    pot_mass = getattr(finish, "pot_mass", None)
    heats = max(mass / float(pot_mass), 1.0) if pot_mass else 1.0
    return float(finish.pot_life) / haste(finish, temperature) / heats


def working_time(finish, temperature, mass=0.0):
    """Minutes in which a mix may be laid."""
    return (pot_life(finish, temperature, mass) - float(finish.induction)) * MARGIN


def laying_time(job, coat, temperature, mass=0.0):
    """Minutes in which one mix may be laid; a two-part finish must also be out of the gun before the pot dies."""
    working = working_time(coat.finish, temperature, mass)
    if len(coat.finish.components) > 1 and coat.tool in finish_reader.SPRAYED:
        alive = pot_life(coat.finish, temperature, mass) - float(coat.finish.induction)
        working = min(working, alive - clean_up(job, coat.finish, coat.tool))
    return working


def longest_mix(job, coat, temperature, grams):
    """Whole minutes for which a mix may be laid, taken at so many grams a minute: of what heats itself a larger one lives shorter.
    One that is dead before it can be laid is told with its card, and planned as if it lived."""
    low, high = 0.0, laying_time(job, coat, temperature)
    if high <= 0 or math.isinf(high):
        return math.inf
    if not getattr(coat.finish, "pot_mass", None):
        return max(1, math.floor(high + 1e-9))
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if laying_time(job, coat, temperature, grams * middle) >= middle else (low, middle)
    return max(1, math.floor(low + 1e-9))


def lot_mass(job, pas, lot, coat):
    """Grams of a coat on the parts of a lot, thinner included, without what stays in the tool."""
    import litres

    parts = [lot.instances.list[i][0] for i in lot.parts]
    taken = math.fsum(litres.of_surface(job, s, coat) / s.part.qty for part in parts for s in pas.surfaces if s.part is part)
    return grams_of(taken / (1 + litres.counted_thinned(coat)), coat)


def grams_of(likely, coat):
    """Grams of so many litres of finish with their thinner."""
    return likely * (float(finish_reader.mixed_density(coat.finish.components, coat.finish.by_mass))
                     + coat.thin * 1000 * THINNER.get(coat.finish.solvent, 0.0))


def mixes(job, pas, coat, laying, temperature):
    """The fewest equal mixes of a coat, each laid while its own mass lives."""
    if laying_time(job, coat, temperature) <= 0:
        return 1
    mass, count = coat_mass(job, pas, coat), 1
    while True:
        working = laying_time(job, coat, temperature, mass / count)
        if working > 0 and laying / count <= working * (1 + 1e-9) + 1e-9:
            return count
        count += 1


def coat_mass(job, pas, coat):
    """Grams of a coat, what stays in the tool and thinner included."""
    import litres

    taken = math.fsum(litres.of_surface(job, s, coat) for s in pas.surfaces) + float(coat.finish.loss_of(coat.tool, job.shop))
    return grams_of(taken / (1 + litres.counted_thinned(coat)), coat)


def is_mixed(coat):
    """Whether anything is mixed for a coat: several components, or thinner."""
    return len(coat.finish.components) > 1 or coat.thin > 0


def wipe_window(finish, temperature):
    """The two times between which a spot is wiped; both move with the temperature."""
    return tuple(float(v) / haste(finish, temperature) for v in finish.wipe_off)


def lot_fits(lots, laying, wiping, span):
    """Whether every spot of equal lots is wiped between the two times after it was wetted; minutes of one lot."""
    least, most = span
    lay, wipe = laying / lots, wiping / lots
    taken = max(lay, least)
    return taken + wipe if lay <= most + 1e-9 and taken + wipe - lay <= most + 1e-9 else None


def lots(job, pas, coat, temperature):
    """Number of sections and minutes of laying and wiping all of them; both ends of the wipe-off move with the temperature."""
    finish = coat.finish
    laying, wiping = work(job, pas, coat.tool), work(job, pas, "wipe")
    least, most = (float(v) / haste(finish, temperature) for v in finish.wipe_off)
    for count in range(1, 10000):
        taken = lot_fits(count, laying, wiping, (least, most))
        if taken is not None:
            return count, count * taken
    raise ValueError(f"{finish.id} cannot be wiped off in its time")


def laying(job, pas, coat, temperature):
    """Minutes of laying a coat, wiping off in sections included."""
    if not coat.finish.is_wiped(coat.run):
        return work(job, pas, coat.tool)
    return lots(job, pas, coat, temperature)[1]


def apply(job, pas, coat, temperature):
    """Set-up, mixing, handling, laying, clean-up of one coat."""
    laid = laying(job, pas, coat, temperature)
    mixing = MIXING * mixes(job, pas, coat, laid, temperature) if is_mixed(coat) else 0
    waiting = float(coat.finish.induction) if is_mixed(coat) else 0
    ready = max(set_up(job, coat.tool), waiting)
    return ready + mixing + handling(job, pas, coat.tool) + laid + clean_up(job, coat.finish, coat.tool)
