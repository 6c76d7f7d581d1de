"""Rules on when each step may stand: each function is named after the sentence that it checks and yields what breaks it."""
import drying
import expected
from case import Violation


def every_operation_stands_exactly_once(case):
    seen = set()
    for step in case.timetable.list:
        if step.id in seen:
            yield Violation("every operation stands exactly once", f"{step.id} stands twice")
        seen.add(step.id)
    for name in case.left:
        if name not in seen:
            yield Violation("every operation stands exactly once", f"{name} is missing")
    added = {s.id for s in case.scuffs}
    for name in seen - set(case.operations) - added:
        yield Violation("every operation stands exactly once", f"{name} is not asked for")


def what_a_step_says_is_so(case):
    """Piece, lot, schedule, number and kind of work agree with the operation."""
    for step in case.timetable.list:
        op = case.operations.get(step.id)
        if op is None:
            continue
        if step.do != op.do or (op.piece and (step.piece, step.schedule) != (op.piece, op.schedule)):
            yield Violation("a step says what it is", f"{step.id}: {step.do} {step.piece} {step.schedule}")
        if op.piece and step.row["lot"] != op.lot:
            yield Violation("a step says what it is", f"{step.id}: lot {step.row['lot']}, asked: {op.lot}")
        if op.coat and (step.coat, step.coats, step.finish) != (op.coat.number, op.coat.coats, op.coat.finish.id):
            yield Violation("a step says what it is",
                            f"{step.id}: coat {step.coat} of {step.coats}, {step.finish}; asked: {op.coat.number} of "
                            f"{op.coat.coats}, {op.coat.finish.id}")


def nothing_starts_before_the_job_or_its_ready_date(case):
    for step in case.timetable.list:
        piece = case.job.pieces.get(step.piece)
        earliest = max(case.job.start, case.job.now or case.job.start, piece.ready if piece and piece.ready is not None else case.job.start)
        if step.start < earliest:
            yield Violation("nothing starts before the job or its ready date",
                            f"{step.id} at {case.show(step.start)}, earliest {case.show(earliest)}")


def too_early(case, wait, moment, rule):
    """The violation of a minimum wait, if there is one."""
    step = case.steps[wait.to]
    if moment is None or step.start < moment - drying.TOLERANCE:
        yield Violation(rule, f"{wait.to} at {case.show(step.start)}, not before {case.show(moment)} ({wait.source})")


def present(case, *kinds):
    """The waits of some kinds whose both ends stand in the plan."""
    return [w for w in case.expected.waits if w.kind in kinds and w.source in case.steps and w.to in case.timetable.steps]


def a_step_follows_the_one_before(case):
    for wait in present(case, expected.END, expected.SPAN):
        moment = case.steps[wait.source].end + (wait.value or 0)
        yield from too_early(case, wait, moment, "a step follows the one before")


def films_are_dry_enough_for_what_follows(case):
    for wait in present(case, expected.STATE):
        yield from too_early(case, wait, case.reach(wait.source, wait.value), f"a film is at {wait.value} before what follows")


def keyed_again(case, wait):
    """Whether the film of a late coat was sanded, scuffed or rubbed between the two coats, on its side."""
    film, coat = case.operations[wait.source], case.steps[wait.to]
    mine = [s for s in case.steps.values() if (s.piece, s.row["lot"]) == (film.piece, film.lot) and s.do in ("sand", "scuff", "rub") and s.start >= case.steps[wait.source].end]
    prefix = wait.source.rpartition("/")[0] + "/"
    return any(s.id.startswith(prefix) and s.end <= coat.start for s in mine)


def recoat_windows_hold_or_a_scuff_opens_them(case):
    for wait in present(case, expected.WINDOW):
        closes = case.window_end(wait.source)
        step = case.steps[wait.to]
        if closes is None or step.start <= drying.down(closes):
            continue
        if case.operations[wait.source].coat.finish.refuses or not keyed_again(case, wait):
            yield Violation("recoat windows hold or a scuff opens them",
                            f"{wait.to} at {case.show(step.start)}, window closed {case.show(closes)} ({wait.source})")


def polish_windows_hold(case):
    for wait in present(case, expected.POLISH):
        waited = case.steps[wait.to].start - case.steps[wait.source].end
        if not wait.value[0] <= waited <= wait.value[1]:
            yield Violation("polish windows hold", f"{wait.to} begins {waited} min after {wait.source}, "
                            f"window {int(wait.value[0])} to {int(wait.value[1])}")


def scuffed_film(case, scuff):
    """The apply under an added scuff and the one after it; None where there is no such place."""
    base = scuff.id.rpartition("/")[0]
    under = case.operations.get(f"{base}/apply")
    if under is None:
        return None, None
    following = next((w.to for w in case.expected.waits if w.source == under.id and w.kind == expected.WINDOW), None)
    return under, following


def added_scuffs_open_a_missed_window_of_a_hard_film(case):
    rule = "added scuffs open a missed window of a hard film"
    for scuff in case.scuffs:
        under, following = scuffed_film(case, scuff)
        if following is None or under.id not in case.steps or following not in case.steps:
            yield Violation(rule, f"{scuff.id} has no coats about it")
            continue
        coat, hard = case.steps[following], case.reach(under.id, "sand")
        closes = case.window_end(under.id)
        if closes is None or coat.start <= closes:
            yield Violation(rule, f"{scuff.id}: the window of {under.id} was not missed")
        if hard is None or scuff.start < hard - drying.TOLERANCE or scuff.end > coat.start:
            yield Violation(rule, f"{scuff.id} at {case.show(scuff.start)}: hard {case.show(hard)}, {following} follows")
        yield from side_is_up(case, scuff, following)


def side_is_up(case, scuff, following):
    """A scuff of a side stands after the flip that brought the side up."""
    row = next(r for rows in case.expected.rows.values() for r in rows if following in r)
    flips = [n for n in row[:row.index(following)] if n.endswith("/flip") and n in case.steps]
    if flips and scuff.start < case.steps[flips[-1]].end:
        yield Violation("a side is worked on while it is up", f"{scuff.id} before {flips[-1]}")


def hands_on_steps_of_a_lot_never_overlap(case):
    for piece, lot in {(s.piece, s.row["lot"]) for s in case.timetable.list if s.piece is not None}:
        steps = sorted(case.of_lot(piece, lot), key=lambda s: (s.start, s.end))
        for first, second in zip(steps, steps[1:]):
            if second.start < first.end:
                yield Violation("hands-on steps of a lot never overlap", f"{first.id} and {second.id}")


def pieces_and_tasks_keep_their_order(case):
    rule = "pieces and tasks keep their order"
    for piece in case.job.pieces.values():
        for entry in piece.after:
            moment, first = case.moment_of(entry), case.first_start(piece.name)
            begun = any(fact.piece == piece.name for fact in case.facts.values())
            if not begun and first is not None and (moment is None or first < moment):
                yield Violation(rule, f"{piece.name} begins {case.show(first)}, {entry} only {case.show(moment)}")
    for task in case.job.tasks.values():
        yield from task_keeps_its_order(case, task, rule)


def task_keeps_its_order(case, task, rule):
    steps = case.task_steps(task.name)
    if not steps or any(s.id in case.facts for s in steps):
        return
    for entry in task.after:
        moment = case.moment_of(entry)
        if moment is None or min(s.start for s in steps) < moment:
            yield Violation(rule, f"task {task.name} begins before {entry} at {case.show(moment)}")
    for name in task.before:
        piece = case.named(name)[1]
        first = case.first_start(piece)
        begun = any(fact.piece == piece for fact in case.facts.values())
        if not begun and first is not None and first < case.task_end(task.name):
            yield Violation(rule, f"{name} begins before the end of task {task.name}")


def no_more_coats_a_day_than_the_finish_bears(case):
    days = {}
    for step, op in case.laid():
        most = op.coat.finish.coats.get("a-day")
        day = (op.piece, op.lot, op.schedule, op.side, op.coat.finish.id, case.show(step.start)[:14])
        days.setdefault(day, []).append(step.id)
        if most and len(days[day]) > int(most) and set(days[day]) - set(case.facts):
            yield Violation("no more coats a day than the finish bears", f"{', '.join(days[day])}")


RULES = [every_operation_stands_exactly_once, what_a_step_says_is_so,
         nothing_starts_before_the_job_or_its_ready_date, a_step_follows_the_one_before,
         films_are_dry_enough_for_what_follows, recoat_windows_hold_or_a_scuff_opens_them, polish_windows_hold,
         added_scuffs_open_a_missed_window_of_a_hard_film, hands_on_steps_of_a_lot_never_overlap,
         pieces_and_tasks_keep_their_order, no_more_coats_a_day_than_the_finish_bears]
