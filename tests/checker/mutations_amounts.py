"""Ways to break what a valid plan says of square metres, litres, purchases and mixes; as in mutations.py each names the rules of
which the checker must tell one.
"""
import copy
import dataclasses
from fractions import Fraction as F

from mutations import FIVE, breaks, when


def bought(plan):
    return plan["buy"]["finishes"]


def components(plan):
    return [part for row in bought(plan) for part in row["components"]]


@breaks("surfaces are taken off right")
def a_square_metre_more(plan, job, chance):
    chance.choice(plan["area"]["surfaces"])["area_m2"] += 1


@breaks("area sums are right")
def a_sum_of_areas_misreported(plan, job, chance):
    row = chance.choice(plan["area"]["by_schedule"] + [plan["area"]])
    row[chance.choice([key for key in ("area_m2", "bare_m2", "finished_m2") if key in row])] += 0.01


@breaks("litres needed are right")
def a_litre_less(plan, job, chance):
    chance.choice(bought(plan))["need_l"]["likely"] *= 0.9


@breaks("components share the need")
def a_component_needed_more(plan, job, chance):
    chance.choice([part for part in components(plan) if part["need_ml"] > 1])["need_ml"] *= 1.1


@breaks("the shelf counts what keeps")
def a_tin_on_the_shelf_that_is_not_there(plan, job, chance):
    chance.choice(components(plan))["on_hand_ml"] += 100


@breaks("purchases cover the need")
def a_pack_too_few(plan, job, chance):
    """One pack less of what is bought for no more than the need and the reserve."""
    part = chance.choice([part for part in components(plan) if part["buy"]])
    chance.choice(part["buy"])["count"] -= 1


@breaks("purchases are the cheapest")
def a_pack_too_many(plan, job, chance):
    """One pack more than is needed, counted to what is left."""
    single = [row for row in bought(plan) if not job.finishes[row["finish"]].kits]
    part = chance.choice([part for row in single for part in row["components"] if part["buy"]])
    pack = chance.choice(part["buy"])
    pack["count"] += 1
    part["left_ml"] += pack["size_ml"]


@breaks("what is left is what was bought")
def left_over_misreported(plan, job, chance):
    chance.choice(components(plan))["left_ml"] += 5


@breaks("costs add up")
def a_cost_misreported(plan, job, chance):
    row = chance.choice([row for row in bought(plan) + [plan["buy"]] if row["cost"] is not None])
    row["cost"] = f"{float(row['cost']) + 1:.2f}"


@breaks("components of a mix")
def a_short_component(plan, job, chance):
    chance.choice(plan["mix"]["mixes"])["components"][0]["ml"] *= 0.9


@breaks("masses and volumes agree")
def a_mass_of_another_density(plan, job, chance):
    mix = chance.choice(plan["mix"]["mixes"])
    chance.choice([p for p in mix["components"] if p["component"] in {c.name for c in job.finishes[mix["finish"]].components}])["g"] *= 1.1


@breaks("weighing keeps to the scale")
def weighed_finer_than_the_scale(plan, job, chance):
    chance.choice(chance.choice(plan["mix"]["mixes"])["components"])["weigh_g"] += float(job.shop.scale) / 2


@breaks("the ratio error is")
def a_ratio_error_misreported(plan, job, chance):
    chance.choice(plan["mix"]["mixes"])["ratio_error_pct"] += 1


@breaks("mixes are laid within their pot life")
def applied_when_the_mix_is_dead(plan, job, chance):
    """The finish lives a quarter as long as the plan says."""
    mixes = [mix for mix in plan["mix"]["mixes"] if mix["mixed_at"] and job.finishes[mix["finish"]].pot_life is not None]
    finish = job.finishes[chance.choice(mixes)["finish"]]
    other = copy.copy(job)
    other.facts, other.finishes = None, dict(job.finishes)
    other.finishes[finish.id] = dataclasses.replace(finish, pot_life=finish.pot_life * F(1, 4))
    return other


@breaks("mixes make what the coats take")
def a_mix_left_out(plan, job, chance):
    mixes = plan["mix"]["mixes"]
    mixes.remove(chance.choice(mixes))


@breaks("mixes are told as they are stirred")
def a_mix_told_too_soon(plan, job, chance):
    mix = chance.choice([mix for mix in plan["mix"]["mixes"] if mix["mixed_at"]])
    mix["mixed_at"] = (when(mix["mixed_at"]) - FIVE).isoformat()


@breaks("mixes serve the whole laying")
def a_mix_that_serves_longer(plan, job, chance):
    chance.choice([mix for mix in plan["mix"]["mixes"] if mix["apply_min"]])["apply_min"] += 1


AMOUNTS = [a_square_metre_more, a_sum_of_areas_misreported, a_litre_less, a_component_needed_more,
           a_tin_on_the_shelf_that_is_not_there, a_pack_too_few, a_pack_too_many, left_over_misreported, a_cost_misreported,
           a_short_component, a_mass_of_another_density, weighed_finer_than_the_scale, a_ratio_error_misreported,
           applied_when_the_mix_is_dead, a_mix_left_out, a_mix_told_too_soon,
           a_mix_that_serves_longer]
