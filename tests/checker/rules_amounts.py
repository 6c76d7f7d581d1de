"""Rules on square metres, litres, mixes and purchases, each recomputed from the job."""
import datetime as dt
import itertools
import math

import finish_reader
import hours
import litres
import minutes
import surfaces
import units
from case import Violation

NEAR = 1e-9
COLOUR_RESERVE = 0.25
FEED_ML = 80  # what a gun needs to feed at all
BRUTE_LIMIT = 200_000


def near(a, b, share=NEAR, least=1e-9):
    return abs(a - b) <= max(share * max(abs(a), abs(b)), least)


def surfaces_are_taken_off_right(case, plan):
    told = plan["area"]["surfaces"]
    mine = [s for s in case.surfaces if s.area > 1e-12]
    rows = [r for r in told if r["area_m2"] > 1e-12]
    if len(rows) != len(mine):
        yield Violation("surfaces are taken off right", f"{len(rows)} surfaces, not {len(mine)}")
    for row, s in zip(rows, mine):
        told_key = (row["piece"], row["part"], row["qty"], row["region"], row["schedule"])
        if told_key != (s.part.piece, s.part.name, s.part.qty, s.region, s.schedule) or not near(row["area_m2"], s.area):
            yield Violation("surfaces are taken off right", f"{told_key} {row['area_m2']}, is {s.schedule} {s.area}")


def area_sums_are_right(case, plan):
    told = {row["schedule"]: row["area_m2"] for row in plan["area"]["by_schedule"]}
    mine = surfaces.by_schedule(case.surfaces, case.job.schedules)
    for name, area in mine.items():
        if not near(told.get(name, 0.0), area):
            yield Violation("area sums are right", f"{name}: {told.get(name)}, is {area}")
    if not near(plan["area"]["bare_m2"], surfaces.bare(case.surfaces)):
        yield Violation("area sums are right", f"bare {plan['area']['bare_m2']}, is {surfaces.bare(case.surfaces)}")
    if not near(plan["area"]["finished_m2"], surfaces.finished(case.surfaces)):
        yield Violation("area sums are right", f"finished {plan['area']['finished_m2']}, is {surfaces.finished(case.surfaces)}")


def litres_needed_are_right(case, plan):
    told = {row["finish"]: row["need_l"] for row in plan["buy"]["finishes"]}
    mine = litres.needs(case)
    for name in set(told) | set(mine):
        row, need = told.get(name), mine.get(name)
        if row is None or need is None:
            yield Violation("litres needed are right", f"{name}: told {row}, is {need}")
            continue
        for key in ("low", "likely", "high"):
            if not near(row[key], getattr(need, key), 1e-6):
                yield Violation("litres needed are right", f"{name} {key}: {row[key]}, is {getattr(need, key)}")


def components_share_the_need(case, plan):
    for row in plan["buy"]["finishes"]:
        finish = case.job.finishes[row["finish"]]
        for part, share, component in zip(row["components"], finish.volume_shares(), finish.components):
            need = row["need_l"]["likely"] * float(share)
            if not near(part["need_ml"] / 1000, need, 1e-6) or not near(part["need_g"], need * float(component.density), 1e-6):
                yield Violation("components share the need", f"{finish.id} {part['component']}: {part['need_ml']} ml {part['need_g']} g")


def last_coat_day(case, finish):
    """The civil day of the last coat of a finish; the delivery's where nothing is planned."""
    starts = [step.start for step, op in case.applies() if op.coat.finish.id == finish.id]
    return hours.wall(max(starts, default=case.job.deliver), case.job.zone).date()


def keeps(row, component, day):
    """Whether what stands on the shelf is still good on a day."""
    if row.get("best-before") and dt.date.fromisoformat(row["best-before"]) < day:
        return False
    if not row.get("opened") or component.opened_life is None:
        return True
    return (day - dt.date.fromisoformat(row["opened"])).days * 1440 <= component.opened_life


def the_shelf_counts_what_keeps_until_the_last_coat(case, plan):
    used = litres.used(case)
    for row in plan["buy"]["finishes"]:
        finish = case.job.finishes[row["finish"]]
        day = last_coat_day(case, finish)
        for part, component, share in zip(row["components"], finish.components, finish.volume_shares()):
            mine = [s for s in case.job.stock if s["finish"] == finish.id and
                    s.get("component") in (component.name, "" if len(finish.components) == 1 else None)]
            litres_there = sum(finish_reader.pack_litres(s["amount"], component.density) for s in mine if keeps(s, component, day))
            there_ml = max(0.0, float(litres_there) - used.get(finish.id, 0.0) * float(share)) * 1000
            if not near(part["on_hand_ml"], there_ml, 1e-6, 1e-6):
                yield Violation("the shelf counts what keeps until the last coat",
                                f"{finish.id} {component.name}: {part['on_hand_ml']} ml, are {there_ml}")


def reserve_of(case, finish):
    return max(float(case.job.reserve), COLOUR_RESERVE if finish.colours else 0.0)


def purchases_cover_the_need_with_reserve(case, plan):
    for row in plan["buy"]["finishes"]:
        finish = case.job.finishes[row["finish"]]
        for part in row["components"]:
            bought = sum(b["size_ml"] * b["count"] for b in part["buy"])
            wanted = part["need_ml"] * (1 + reserve_of(case, finish)) - part["on_hand_ml"]
            if bought < wanted - 1 and has_packs(finish, part["component"]):
                yield Violation("purchases cover the need with reserve", f"{finish.id} {part['component']}: {bought} ml of {wanted:.1f}")
            if not near(part["left_ml"], max(bought + part["on_hand_ml"] - part["need_ml"], 0), 1e-6, 0.5):
                yield Violation("what is left is what was bought less the need", f"{finish.id} {part['component']}: {part['left_ml']}")


def has_packs(finish, name):
    return any(c.name == name and c.packs for c in finish.components)


def worth(packs, counts):
    """What a choice of packs costs, in the order of the aims: cost, packs, litres; without prices litres, packs."""
    total = sum(float(size) * n for (size, _), n in zip(packs, counts))
    if all(price is not None for _, price in packs):
        return sum(price * n for (_, price), n in zip(packs, counts)), sum(counts), round(total, 9)
    return round(total, 9), sum(counts)


def best_choice(packs, litres_wanted):
    """The best packs by trying them all; None where that is too much."""
    most = [math.ceil(litres_wanted / float(size)) for size, _ in packs]
    if math.prod(n + 1 for n in most) > BRUTE_LIMIT:
        return None
    enough = [c for c in itertools.product(*(range(n + 1) for n in most))
              if sum(float(size) * n for (size, _), n in zip(packs, c)) >= litres_wanted - 1e-9]
    return min(enough, key=lambda counts: worth(packs, counts))


def purchases_are_the_cheapest(case, plan):
    for row in plan["buy"]["finishes"]:
        finish = case.job.finishes[row["finish"]]
        for part, component in zip(row["components"], finish.components):
            wanted = (part["need_ml"] * (1 + reserve_of(case, finish)) - part["on_hand_ml"]) / 1000
            if not component.packs or finish.kits or wanted <= 0:
                continue
            best = best_choice(component.packs, wanted)
            bought = {b["size_ml"]: b["count"] for b in part["buy"]}
            counts = [bought.get(float(size * 1000), 0) for size, _ in component.packs]
            if best and worth(component.packs, counts) > worth(component.packs, best):
                yield Violation("purchases are the cheapest", f"{finish.id} {component.name}: {counts}, better {best}")


def costs_add_up(case, plan):
    for row in plan["buy"]["finishes"]:
        prices = [(b["price"], b["count"]) for c in row["components"] for b in c["buy"]]
        if row["cost"] is not None and not case.job.finishes[row["finish"]].kits:
            total = sum(float(p) * n for p, n in prices)
            if not near(float(row["cost"]), total, 0, 0.005):
                yield Violation("costs add up", f"{row['finish']}: {row['cost']}, is {total:.2f}")
    costs = [row["cost"] for row in plan["buy"]["finishes"]]
    if plan["buy"]["cost"] is not None and not near(float(plan["buy"]["cost"]), sum(float(c) for c in costs), 0, 0.005):
        yield Violation("costs add up", f"{plan['buy']['cost']} in all")


def mix_components(finish, mix):
    """The mixed components with their densities; thinner on top has none that we know."""
    known = {c.name: c for c in finish.components}
    return [(part, known.get(part["component"])) for part in mix["components"]]


def mixes_add_up_and_agree_by_density(case, plan):
    for mix in plan["mix"]["mixes"]:
        finish = case.job.finishes[mix["finish"]]
        parts = mix_components(finish, mix)
        made = sum(p["ml"] for p, _ in parts)
        if not near(made, mix["volume_ml"], 1e-6) and (made < mix["volume_ml"] or can_be_weighed(case, mix)):
            yield Violation("components of a mix add up", f"{finish.id}: {made} ml of {mix['volume_ml']} ml")
        whole = sum(p["ml"] for p, c in parts if c)
        for part, component in parts:
            if component is None:
                continue
            share = float(finish.volume_shares()[finish.components.index(component)])
            if not near(part["ml"], whole * share, 1e-6):
                yield Violation("components of a mix keep the ratio", f"{finish.id} {component.name}: {part['ml']} ml")
            if not near(part["g"], part["ml"] / 1000 * float(component.density), 1e-6):
                yield Violation("masses and volumes agree by density", f"{finish.id} {component.name}: {part['g']} g")


def can_be_weighed(case, mix):
    """Whether the volume asked can be weighed within the tolerance, and fed by the tool: then no more may be made."""
    finish, scale = case.job.finishes[mix["finish"]], float(case.job.shop.scale)
    if mix["volume_ml"] < FEED_ML and set(finish.by) & finish_reader.SPRAYED:
        return False
    whole = mix["volume_ml"] * sum(p["ml"] for p, c in mix_components(finish, mix) if c) / sum(p["ml"] for p in mix["components"])
    exact = [whole * float(s * c.density) / 1000 / scale for s, c in zip(finish.volume_shares(), finish.components)]
    choices = itertools.product(*({math.floor(e + 1e-9), math.ceil(e - 1e-9)} for e in exact))
    return any(ratio_error(steps, exact) <= float(finish.ratio_tolerance) + 1e-9 for steps in choices)


def ratio_error(weighed, exact):
    """The largest error of component to first component, as weighed against as asked."""
    if not weighed[0]:
        return math.inf
    return max((abs(w / weighed[0] * exact[0] / e - 1) for w, e in zip(weighed[1:], exact[1:])), default=0.0)


def weighing_keeps_to_the_scale_and_tells_its_error(case, plan):
    scale = float(case.job.shop.scale)
    for mix in plan["mix"]["mixes"]:
        parts = mix_components(case.job.finishes[mix["finish"]], mix)
        for part, _ in parts:
            steps = part["weigh_g"] / scale
            if not near(steps, round(steps), 1e-9, 1e-6):
                yield Violation("weighing keeps to the scale", f"{mix['finish']} {part['component']}: {part['weigh_g']} g")
        known = [p for p, component in parts if component]
        error = 100 * ratio_error([p["weigh_g"] for p in known], [p["g"] for p in known])
        if not near(mix["ratio_error_pct"], error, 1e-6, 1e-6):
            yield Violation("the ratio error is the true one", f"{mix['finish']}: {mix['ratio_error_pct']}, is {error}")


def mixes_are_laid_within_their_pot_life(case, plan):
    rule = "mixes are laid within their pot life"
    for mix in plan["mix"]["mixes"]:
        finish = case.job.finishes[mix["finish"]]
        if finish.pot_life is None or mix["mixed_at"] is None:
            continue
        at = moment(case, mix["mixed_at"])
        air = case.drying.air.over(at, at + 1)[0]
        mass = sum(c["weigh_g"] for c in mix["components"])
        life, working = (f(finish, air.temperature, mass) for f in (minutes.pot_life, minutes.working_time))
        if not near(mix["pot_life_min"], life, 1e-6, 1):
            yield Violation(rule, f"{finish.id}: pot life {mix['pot_life_min']}, is {life:.1f}")
        # A gun is clean before the pot life ends.
        coats = [op.coat for op in case.operations.values() if op.coat and op.coat.finish is finish]
        working = min([working, *(minutes.laying_time(case.job, coat, air.temperature, mass) for coat in coats)])
        if mix["apply_min"] > working + 1:
            yield Violation(rule, f"{finish.id}: {mix['apply_min']} min to lay, {working:.1f} to work")
        by, ends = moment(case, mix["apply_by"]), moment(case, mix["pot_life_ends"])
        at += minutes.MIXING  # both run from when it is mixed
        if by is None or ends is None or not at + working - 5 <= by <= ends or not at + life - 1 <= ends <= at + life + 1:
            yield Violation(rule, f"{finish.id}: apply by {mix['apply_by']}, ends {mix['pot_life_ends']}, mixed {mix['mixed_at']}, "
                                  f"lives {life:.0f} min")


def mixes_are_told_as_they_are_stirred(case, plan):
    """By finish: each mix of a batch, at its moment."""
    told = sorted((mix["finish"], moment(case, mix["mixed_at"])) for mix in plan["mix"]["mixes"] if mix["mixed_at"])
    works = [(batch, next((w for w in map(case.work, (row.id for row in batch.steps)) if w.do == "apply"), None)) for batch in case.batches]
    mine = sorted((work.coat.finish.id, at) for batch, work in works if work for at in batch.mixes)
    if told != mine:
        yield Violation("mixes are told as they are stirred", f"{sorted(set(told) ^ set(mine))[:4]}")


def moment(case, text):
    import plan_reader
    return plan_reader.moment(text, case.job.zone)


def mixes_make_what_the_coats_take(case, plan):
    """By finish, finish and thinner together, of all coats that are mixed at all."""
    made, wanted = {}, {}
    for mix in plan["mix"]["mixes"]:
        made[mix["finish"]] = made.get(mix["finish"], 0.0) + mix["volume_ml"] / 1000
    for op, taken in litres.coats(case):
        if minutes.is_mixed(op.coat):
            name = op.coat.finish.id
            wanted[name] = wanted.get(name, 0.0) + taken * (1 + op.coat.thin)
    for name in set(made) | set(wanted):
        if not near(made.get(name, 0.0), wanted.get(name, 0.0), 1e-6):
            yield Violation("mixes make what the coats take", f"{name}: {made.get(name)} l, coats take {wanted.get(name)}")


def mixes_serve_the_whole_laying(case, plan):
    """By finish: the minutes that the mixes serve are those of the units of all its coats."""
    served, wanted = {}, {}
    for mix in plan["mix"]["mixes"]:
        served[mix["finish"]] = served.get(mix["finish"], 0.0) + (mix["apply_min"] or 0.0)
    for op in case.left.values():
        if op.coat and op.do == "apply" and minutes.is_mixed(op.coat):
            wanted[op.coat.finish.id] = wanted.get(op.coat.finish.id, 0.0) + units.seconds(op.units)[-1] / 60
    for name in set(served) | set(wanted):
        if not near(served.get(name, 0.0), wanted.get(name, 0.0), 1e-6):
            yield Violation("mixes serve the whole laying", f"{name}: {served.get(name)} min, laying takes {wanted.get(name)}")


RULES = [surfaces_are_taken_off_right, area_sums_are_right, litres_needed_are_right, components_share_the_need,
         the_shelf_counts_what_keeps_until_the_last_coat,
         purchases_cover_the_need_with_reserve, purchases_are_the_cheapest, costs_add_up,
         mixes_add_up_and_agree_by_density, weighing_keeps_to_the_scale_and_tells_its_error,
         mixes_are_laid_within_their_pot_life, mixes_make_what_the_coats_take,
         mixes_serve_the_whole_laying, mixes_are_told_as_they_are_stirred]
