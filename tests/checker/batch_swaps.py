"""Whether a plan alternates two kinds of work where swapping two neighbours would save a set-up: a, b, a by one person, though
both batches of a could be one, before b or behind it, without a broken rule and without the job being ready later.
"""
import case
import plan_reader
import rules_batches
import rules_report
import rules_shop
import rules_time
import units

SLOT = 5
RULES = rules_time.RULES + rules_shop.RULES + [rules_batches.films_are_dry_by_their_hour,
                                               rules_batches.no_more_coats_a_day_than_the_piece_bears]


def kind_of(checked, batch):
    return next((checked.work(row.id).kind for row in batch.steps if checked.work(row.id).do != "flip"), ("flip", None))


def alternations(checked):
    """Three batches that one person does one after another, the first and the last of one kind."""
    for name in {b.person for b in checked.batches}:
        mine = sorted((b for b in checked.batches if b.person == name), key=lambda b: b.start)
        for first, middle, last in zip(mine, mine[1:], mine[2:]):
            kind = kind_of(checked, first)
            if kind == kind_of(checked, last) != kind_of(checked, middle) and kind[0] not in ("task", "flip"):
                yield first, middle, last


def run(checked, person, rows, start):
    works = [checked.work(row.id) for row in rows]
    return units.Run(person.hours, next((w.tool for w in works if w.do != "flip"), works[0].tool),
                     [(w.units, w.do == "apply") for w in works], start)


def put(checked, rows, spans):
    for row, (start, end) in zip(rows, spans):
        checked.steps[row.id].start, checked.steps[row.id].end = start, end


def places(checked, person, parts, begin, end):
    """Rows with their spans where the parts, one after another, fit between two moments: the first as early as it can."""
    starts = [begin + SLOT * i for i in range((end - begin) // SLOT)]
    for start in starts:
        first = run(checked, person, parts[0], start)
        second = None if first.wrong or first.end > end else next(
            (r for r in (run(checked, person, parts[1], s) for s in starts if s >= first.end) if not r.wrong and r.end <= end), None)
        if second is not None:
            yield (parts[0], first.spans), (parts[1], second.spans)


def serves(checked, placed, ready):
    """Whether everything holds with some rows moved."""
    for rows, spans in placed:
        put(checked, rows, spans)
    moved = rules_report.true_ready(checked)
    return moved is not None and moved <= ready and not any(True for rule in RULES for _ in rule(checked))


def saved(checked, trio, ready):
    first, middle, last = trio
    together, person = first.steps + last.steps, checked.person(first.person)
    kept = {row.id: (checked.steps[row.id].start, checked.steps[row.id].end) for b in trio for row in b.steps}
    found = any(serves(checked, placed, ready) for parts in ((together, middle.steps), (middle.steps, together))
                for placed in places(checked, person, parts, first.start, last.end))
    for name, (start, end) in kept.items():
        checked.steps[name].start, checked.steps[name].end = start, end
    return found


def wasted(job, plan):
    """One line for each swap that would save a set-up."""
    checked = case.Case(job, plan_reader.Timetable(plan["timetable"], job.zone))
    for trio in alternations(checked):
        tool = checked.work(trio[0].steps[0].id).tool
        if tool.set_up + tool.clean_up > 0 and saved(checked, trio, checked.timetable.ready):
            yield f"{trio[0].id} and {trio[2].id} could be one batch, {trio[1].id} before or behind it"
