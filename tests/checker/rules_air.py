"""Rules on what a timetable says of the air in which its films dry: outside the finish's limits is told with its hours."""
import drying
import expected
import finish_reader
import hours
import rules_shop
from case import Violation

RULE = "air outside the limits while drying is told with its hours"


def next_state(case, name):
    """What a film dries to: the delivery's state for a last coat, else the first that a step on it waits for."""
    if any(name in last for last in case.expected.last_coats.values()):
        return case.job.deliver_at
    states = [w.value for w in case.expected.waits if w.source == name and w.kind == expected.STATE and w.to in case.steps]
    order = list(finish_reader.STATES)
    return min((s for s in states if s != "dust-free"), key=order.index, default=case.job.deliver_at)


def outside(case, step, op):
    """Stretches of air outside the limits from the end of a coat until its film is at the next state, joined; of a film that never
    is, which breaks other rules, none."""
    reached = case.reach(step.id, next_state(case, step.id))
    if reached is None:
        return []
    until = drying.up(reached)
    spells = case.drying.air.over(step.end, until)
    ends = [spell.begin for spell in spells[1:]] + [until]
    bad = [(max(spell.begin, step.end), min(end, until)) for spell, end in zip(spells, ends)
           if rules_shop.outside(op.coat.finish, spell)]
    return hours.joined([(begin, end) for begin, end in bad if begin < end])


def span(minutes):
    parts = [(minutes // 1440, "d"), (minutes // 60 % 24, "h"), (minutes % 60, "min")]
    return " ".join(f"{count} {unit}" for count, unit in parts if count)


def words(case, stretches):
    clock = [hours.wall(moment, case.job.zone).strftime("%a %-d %b %H:%M") for moment in stretches[0]]
    again = f" and again, {span(sum(end - begin for begin, end in stretches))} in all" if len(stretches) > 1 else ""
    return f"dries in air outside its limits from {clock[0]} to {clock[1]}{again}"


def air_outside_the_limits_is_told(case):
    for step, op in case.applies():
        stretches, note = outside(case, step, op), step.row["note"] or ""
        wanted = words(case, stretches) if stretches else ""
        if (wanted and not note.endswith(wanted)) or (not wanted and "outside its limits" in note):
            yield Violation(RULE, f"{step.id}: {note!r}, not {wanted!r}")


RULES = [air_outside_the_limits_is_told]
