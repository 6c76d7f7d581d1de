"""Rules on what the shop can hold at once: people, rack, spray places, dust and air."""
import drying
import finish_reader
from case import Violation

DEW_MARGIN = 3
NEEDS_LIMITS_UNTIL_HANDLE = {"water", "reaction"}
SMALL = 1e-9


def peaks(intervals, limit, since=None):
    """The first set of names whose intervals meet and whose amounts together exceed the limit, if any; what was so before
    `since` is over."""
    for moment in sorted({begin for begin, _, _, _ in intervals if since is None or begin >= since}):
        inside = [(name, amount) for begin, end, amount, name in intervals
                  if begin <= moment and (end is None or moment < end)]
        if sum(amount for _, amount in inside) > limit + SMALL:
            return moment, [name for name, _ in inside]
    return None


def merged(spans):
    """Spans of one piece made one where they meet: a piece lies on the rack once."""
    result = []
    for begin, end in sorted(spans, key=lambda s: s[0]):
        if result and (result[-1][1] is None or begin <= result[-1][1]):
            last = result[-1][1]
            result[-1] = (result[-1][0], None if last is None or end is None else max(last, end))
        else:
            result.append((begin, end))
    return result


def rack_held(case):
    held = []
    for piece in case.job.pieces.values():
        for lot in {op.lot for _, op in case.laid() if op.piece == piece.name}:
            spans = [(s.start, case.reach(s.id, "handle")) for s, op in case.laid() if (op.piece, op.lot) == (piece.name, lot)]
            held += [(begin, end, case.rack_of_lot(piece, lot), f"{piece.name} {lot}") for begin, end in merged(spans)]
    return held


def wet_pieces_fit_on_the_rack(case):
    if case.job.shop.rack is None:
        return
    found = peaks(rack_held(case), float(case.job.shop.rack), case.job.now)
    if found:
        yield Violation("wet pieces fit on the rack", f"{case.show(found[0])}: {', '.join(found[1])}")


def spray_places_held(case):
    """A batch takes a place from its set-up to its clean-up."""
    sprayed = {s.id for s, op in case.applies() if op.coat.tool in finish_reader.SPRAYED}
    return [(b.start, b.end, 1, b.id) for b in case.batches if any(row.id in sprayed for row in b.steps)]


def no_more_spraying_than_spray_places(case):
    found = peaks(spray_places_held(case), case.job.shop.spray_places)
    if found:
        yield Violation("no more spraying than spray places", f"{case.show(found[0])}: {', '.join(found[1])}")


def dusty_steps(case):
    added = {s.id for s in case.scuffs}
    return [s for s in case.steps.values() if s.id in added or (s.id in case.operations and case.operations[s.id].dusty)]


def wet_surfaces(case):
    return [(s, case.reach(s.id, "dust-free")) for s, _ in case.laid()]


def dust_meets(dusty, wet, free, settle):
    """Whether dust is raised or settles while a surface is wet."""
    return wet.start < dusty.end + settle and (free is None or dusty.start < free - drying.TOLERANCE)


def no_dust_falls_on_a_wet_surface(case):
    """In a shared room dust also settles after the work; in a separate one only the piece itself counts."""
    settle = case.job.shop.settle if case.job.shop.dust_shared else 0
    wet = wet_surfaces(case)
    for dusty in dusty_steps(case):
        for apply, free in wet:
            meet = dust_meets(dusty, apply, free, settle) and not {dusty.id, apply.id} <= set(case.facts)
            if meet and (case.job.shop.dust_shared or dusty.id.split("/")[0] == apply.id.split("/")[0]):
                yield Violation("no dust falls on a wet surface",
                                f"{dusty.id} at {case.show(dusty.start)}, {apply.id} wet until {case.show(free)}")


def outside(finish, spell):
    """Whether the air is outside what the finish bears."""
    (low, high), (dry, damp) = finish.air
    return not (low - SMALL <= spell.temperature <= high + SMALL and dry - SMALL <= spell.humidity <= damp + SMALL)


def coats_are_laid_in_air_that_they_bear(case):
    for step, op in case.applies():
        for spell in case.drying.air.over(step.start, step.end):
            dew = drying.dew_point(spell.temperature, spell.humidity)
            if outside(op.coat.finish, spell) or spell.temperature - dew < DEW_MARGIN - SMALL:
                yield Violation("coats are laid in air that they bear",
                                f"{step.id}: {spell.temperature:g} C {spell.humidity:.0%} at {case.show(step.start)}")


def water_and_reaction_films_stay_within_limits_until_handle(case):
    for step, op in case.applies():
        if op.coat.finish.dries_by not in NEEDS_LIMITS_UNTIL_HANDLE:
            continue
        until = case.reach(step.id, "handle")
        bad = until is None or any(outside(op.coat.finish, s) for s in case.drying.air.over(step.start, until))
        if bad:
            yield Violation("water and reaction films stay within limits until handle", step.id)


RULES = [wet_pieces_fit_on_the_rack,
         no_more_spraying_than_spray_places, no_dust_falls_on_a_wet_surface, coats_are_laid_in_air_that_they_bear,
         water_and_reaction_films_stay_within_limits_until_handle]
