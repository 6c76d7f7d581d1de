"""Rules on what a timetable says of itself: ready, late, states, links, chain."""
import datetime as dt

import drying
import expected
import hours
import plan_reader
from case import Violation

FAR = 366 * 1440  # a window that closes later is as good as open: its moment is not compared with the job
RULE_READY = "ready is the latest piece at its state and the end of every task"


def true_ready(case):
    """The latest of every piece at deliver-at, of the end of every step and task, and of closing waits; None: never."""
    moments = [case.state_of(piece, case.job.deliver_at) for piece in case.job.pieces
               if any(s.piece == piece for s in case.steps.values())]
    for source, kind, value in (hold for hold in case.expected.holds if hold[0] in case.steps):
        moments.append(drying.up(case.reach(source, value) if kind == expected.STATE else case.steps[source].end + value))
    if None in moments:
        return None
    return max(moments + [s.end for s in case.steps.values()], default=case.job.start)


def ready_is_the_latest_state_and_task(case):
    ready = true_ready(case)
    if case.timetable.ready != ready:
        yield Violation(RULE_READY, f"says {case.show(case.timetable.ready)}, is {case.show(ready)}")


def late_and_spare_minutes_add_up(case):
    data, ready = case.timetable.data, true_ready(case)
    if ready is None:
        return
    late, spare = max(0, ready - case.job.deliver), max(0, case.job.deliver - ready)
    if (data["late_min"], data["spare_min"]) != (late, spare):
        yield Violation("late and spare minutes add up",
                        f"says {data['late_min']} and {data['spare_min']}, are {late} and {spare}")


def the_head_names_the_job(case):
    data = case.timetable.data
    wanted = {"job": case.job.name, "zone": case.job.zone}
    for key, value in wanted.items():
        if data[key] != value:
            yield Violation("the head names the job", f"{key} {data[key]!r}, not {value!r}")
    for key, value in (("start", case.job.start), ("deliver", case.job.deliver)):
        if moment_of(case, data[key]) != value:
            yield Violation("the head names the job", f"{key} {data[key]}, not {case.show(value)}")
    if data["to_spare_min"] != case.job.to_spare:
        yield Violation("the head names the job", f"to_spare_min {data['to_spare_min']}, not {case.job.to_spare}")


def moment_of(case, text):
    return plan_reader.moment(text, case.job.zone)


def bounds_are_no_later_than_ready(case):
    data = case.timetable.data
    bound = moment_of(case, data["no_earlier_than"])
    if bound is not None and bound > case.timetable.ready:
        yield Violation("bounds are no later than ready", f"{data['no_earlier_than']} after {data['ready']}")
    if data["ready_proven"] != (bound == case.timetable.ready):
        yield Violation("proven means that ready is the bound", f"{data['no_earlier_than']}, ready {data['ready']}")


def states_are_reached_when_said(case):
    for (piece, state), said in case.timetable.states.items():
        if piece not in case.job.pieces:
            yield Violation("states are reached when said", f"no piece {piece!r}")
        elif case.expected.last_coats[piece] and said != case.state_of(piece, state):
            yield Violation("states are reached when said",
                            f"{piece} {state}: {case.show(said)}, is {case.show(case.state_of(piece, state))}")
    for piece in case.job.pieces:
        if case.expected.last_coats[piece] and (piece, case.job.deliver_at) not in case.timetable.states:
            yield Violation("states are reached when said", f"{piece} {case.job.deliver_at} is not told")


def steps_stand_by_start_then_id(case):
    rows = [(s.start, s.row["id"]) for s in case.timetable.list]
    if rows != sorted(rows):
        yield Violation("steps stand by start, then id", "they do not")


def next_days(case, source, to):
    """The midnight after a coat, where so many coats a day hold the next one back."""
    first, second = case.operations[source], case.operations[to]
    if not (first.coat and second.coat and (second.coat.finish.coats.get("a-day") or case.job.pieces[second.piece].a_day)):
        return set()
    day = hours.wall(case.steps[source].start, case.job.zone).date() + dt.timedelta(days=1)
    return {hours.at_wall(day, "00:00", case.job.zone)}


def either(moment, rounded):
    """A moment of whole minutes, or on the five minutes of the clock: work begins on any minute within a batch."""
    return {int(moment), rounded(moment)}


def known_moments(case, source, to):
    """The minima and maxima that the waits between two steps allow a link to name."""
    least, most = {case.steps[source].end} | next_days(case, source, to), set()
    for wait in (w for w in case.expected.waits if w.source == source and w.to == to):
        if wait.kind == expected.SPAN:
            least |= either(case.steps[source].end + wait.value, drying.up)
        elif wait.kind == expected.SETTLED:
            least |= either(case.steps[source].end + case.job.shop.settle, drying.up)
        elif wait.kind == expected.STATE:
            least.add(drying.up(case.reach(source, wait.value)))
        elif wait.kind == expected.POLISH:
            least |= either(case.steps[source].end + wait.value[0], drying.up)
            most |= either(case.steps[source].end + wait.value[1], drying.down)
        elif wait.kind == expected.WINDOW:
            most.add(drying.down(case.window_end(source)))
    return least, most


def links_hold_and_are_true(case):
    pairs = {(w.source, w.to) for w in case.expected.waits}
    for step in case.timetable.list:
        for link in step.after:
            if link.id not in case.timetable.steps:
                yield Violation("links name steps", f"{step.id} after {link.id}")
                continue
            yield from link_holds(step, link, case)
            if (link.id, step.id) in pairs:
                yield from link_is_true(step, link, case)


def link_holds(step, link, case):
    if link.least is not None and step.start < link.least:
        yield Violation("a step starts inside its links", f"{step.id} at {case.show(step.start)}, {link.id} from {case.show(link.least)}")
    if link.most is not None and step.start > link.most:
        yield Violation("a step starts inside its links", f"{step.id} at {case.show(step.start)}, {link.id} until {case.show(link.most)}")


def link_is_true(step, link, case):
    least, most = known_moments(case, link.id, step.id)
    if link.least is not None and link.least not in least:
        yield Violation("links tell true moments", f"{step.id} after {link.id} from {case.show(link.least)}, "
                        f"is {' or '.join(case.show(m) for m in least)}")
    far = link.most is not None and link.most > case.steps[link.id].end + FAR
    if link.most is not None and link.most not in most and not (far and most):
        yield Violation("links tell true moments", f"{step.id} after {link.id} until {case.show(link.most)}, "
                        f"is {' or '.join(case.show(m) for m in most) or 'open'}")


def ready_because_of(case, step):
    """The moments that a step may give to the job: its end, its film at deliver-at, the end of a wait behind it."""
    moments = {step.end} | {drying.up(case.reach(source, value) if kind == expected.STATE else step.end + value)
                            for source, kind, value in case.expected.holds if source == step.id}
    op = case.operations.get(step.id)
    return moments | ({drying.up(case.reach(step.id, case.job.deliver_at))} if op and op.coat else set())


def the_chain_names_steps_that_end_in_ready(case):
    names = [plan_reader.key_of(name) for name in case.timetable.data["chain"]]
    missing = [name for name in names if name not in case.timetable.steps]
    if missing or len(set(names)) != len(names):
        yield Violation("the chain names steps, each once", " ".join(missing or names))
    elif names and case.timetable.ready not in ready_because_of(case, case.steps[names[-1]]):
        yield Violation("the chain ends in the ready moment", f"{names[-1]}, ready {case.show(case.timetable.ready)}")


RULES = [ready_is_the_latest_state_and_task, late_and_spare_minutes_add_up, the_head_names_the_job,
         bounds_are_no_later_than_ready, states_are_reached_when_said, steps_stand_by_start_then_id,
         links_hold_and_are_true, the_chain_names_steps_that_end_in_ready]
