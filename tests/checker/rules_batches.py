"""Rules on batches: one kind of work, one set-up, one person; pauses, mixes and minutes as the units ask for."""
import finish_reader
import hours
import minutes
import shares
import units
from case import Violation

RULE_RUN = "a batch runs as its units do"
RULE_PERSON = "one person does one batch at a time"
RULE_STANDS = "every step stands in one batch"
RULE_SHOP = "a batch has a person of the shop"


def every_step_stands_in_one_batch(case):
    rule, seen = RULE_STANDS, {}
    for batch in case.batches:
        for row in batch.steps:
            step = case.timetable.steps.get(row.id)
            if row.id in seen or step is None:
                yield Violation(rule, f"{row.id} in {batch.id}, and in {seen.get(row.id)}")
            elif (step.start, step.end, step.row["batch"]) != (row.start, row.end, batch.id):
                yield Violation(rule, f"{row.id} of {batch.id}: the step says {step.row['batch']} {case.show(step.start)}")
            seen[row.id] = batch.id
    for name in case.timetable.steps:
        if name not in seen:
            yield Violation(rule, f"{name} is in none")


def a_batch_has_a_person_and_steps(case):
    for batch in case.batches:
        if case.person(batch.person) is None or not batch.steps:
            yield Violation(RULE_SHOP, f"{batch.id}: {batch.person}")


def a_batch_has_its_own_id(case):
    names = [b.id for b in case.batches]
    for batch in case.batches:
        if names.count(batch.id) != 1 or batch.id.split("/")[0] != batch.do:
            yield Violation("a batch has an id of its own", batch.id)


def a_batch_is_of_one_kind(case):
    """Flips may stand inside a batch of the coat that they serve: see below."""
    for batch in case.batches:
        kinds = {case.work(row.id).kind for row in batch.steps}
        kinds -= {("flip", None)} if len(kinds) > 1 else set()
        if len(kinds) > 1 or (len(kinds) == 1 and next(iter(kinds))[0] not in (batch.do, "sand" if batch.do == "scuff" else "")):
            yield Violation("a batch is of one kind", f"{batch.id}: {sorted(map(str, kinds))}")


def coat_behind(case, flip):
    """The work that directly follows a flip on its piece; None: nothing does."""
    row = next(r for rows in case.expected.rows.values() for r in rows if flip in r)
    behind = row[row.index(flip) + 1:]
    return case.operations[behind[0]] if behind else None


def a_flip_stands_with_coats_as_the_one_that_it_serves(case):
    """Who coats turns the part for the next coat of the same kind; any other flip is a batch of its own."""
    for batch in case.batches:
        works = [case.work(row.id) for row in batch.steps]
        kinds = {w.kind for w in works if w.do != "flip"}
        for row, work in zip(batch.steps, works):
            coat = coat_behind(case, row.id) if kinds and work.do == "flip" and row.id in case.operations else None
            if kinds and work.do == "flip" and (coat is None or coat.do != "apply" or coat.kind not in kinds):
                yield Violation("a flip stands with coats as the one that it serves", f"{row.id} in {batch.id}")


def main_work(case, batch):
    """The work of a batch: a flip among coats is a part of their batch."""
    works = [case.work(row.id) for row in batch.steps]
    return next((w for w in works if w.do != "flip"), works[0])


def tool_of(case, batch):
    """Of what is sanded and what is scuffed in one batch the larger set-up."""
    main = main_work(case, batch)
    if not main.dusty:
        return main.tool
    return max((case.work(row.id).tool for row in batch.steps), key=lambda tool: tool.set_up)


def run_of(case, batch, person, start=None):
    """The batch as its units run, from its own start or another."""
    works = [case.work(row.id) for row in batch.steps]
    return units.Run(person.hours, tool_of(case, batch), [(w.units, w.do == "apply") for w in works],
                     batch.start if start is None else start)


def batches_run_as_their_units_do(case):
    for batch in case.batches:
        run = run_of(case, batch, case.person(batch.person))
        if run.wrong:
            yield Violation(RULE_RUN, f"{batch.id} at {case.show(batch.start)}: {run.wrong}")
            continue
        yield from as_it_runs(case, batch, run)


def as_it_runs(case, batch, run):
    for row, (begin, end) in zip(batch.steps, run.spans):
        if (row.start, row.end) != (begin, end):
            yield Violation(RULE_RUN, f"{row.id} {case.show(row.start)} to {case.show(row.end)}, its units {case.show(begin)} to "
                            f"{case.show(end)}")
            return
    told = (batch.work_from, batch.work_until, batch.end)
    if told != (run.spans[0][0], run.spans[-1][1], run.end):
        yield Violation(RULE_RUN, f"{batch.id} works {', '.join(map(case.show, told))}; "
                        f"{case.show(run.spans[0][0])}, {case.show(run.spans[-1][1])}, {case.show(run.end)}")
    if batch.mixes != run.mixes:
        yield Violation("mixes follow the set-up as units need them",
                        f"{batch.id}: {[case.show(m) for m in batch.mixes]}, its units ask for {[case.show(m) for m in run.mixes]}")


def batches_begin_on_5_minutes_of_the_clock(case):
    for batch in case.batches:
        if batch.start % units.GRID or batch.end % units.GRID:
            yield Violation("batches begin and end on 5 minutes", f"{batch.id} at {case.show(batch.start)}")


def mixes_are_stirred_when_somebody_is_there(case):
    for batch in case.batches:
        stretches = case.person(batch.person).hours.stretches
        for mix in batch.mixes:
            if mix < batch.start or not any(begin <= mix < end for begin, end in stretches):
                yield Violation("mixes are stirred when somebody is there", f"{batch.id}: {case.show(mix)}")


def cleaned(case, batch):
    """When a gun that sprays a two-part finish is clean, and until when its last mix lives; None where nothing dies in a gun."""
    op = main_work(case, batch)
    if op.do != "apply" or op.coat.tool not in finish_reader.SPRAYED or op.tool.pot_life is None or not batch.mixes:
        return None
    return batch.work_until + op.tool.clean_up, batch.mixes[-1] + minutes.MIXING + op.tool.pot_life


def a_gun_is_clean_before_its_pot_life_ends(case):
    for batch in case.batches:
        found = cleaned(case, batch)
        if found and found[0] > found[1] + 1:
            yield Violation("a gun is clean before its pot life ends",
                            f"{batch.id}: clean {case.show(found[0])}, pot life ends {case.show(found[1])}")


def helps(case, batch):
    """Whether who helps in a batch is there whenever its person works."""
    person, helper = case.person(batch.person), case.person(batch.helper)
    if helper is None or helper is person:
        return False
    both = [(max(a, batch.start), min(b, batch.end)) for a, b in person.hours.stretches if a < batch.end and batch.start < b]
    return all(any(a <= begin and end <= b for a, b in helper.hours.stretches) for begin, end in both)


def two_turn_what_is_heavy(case):
    """Where the shop has two, somebody helps from start to end of the turning; nobody where one can."""
    rule, two = "two turn what is heavy", len(case.job.shop.persons) > 1
    for batch in case.batches:
        heavy = any(case.work(row.id).people > 1 for row in batch.steps)
        if not (heavy and two):
            if batch.helper is not None:
                yield Violation(rule, f"{batch.id}: {batch.helper} helps with what one can do")
            continue
        if not helps(case, batch):
            yield Violation(rule, f"{batch.id}: {batch.person} and {batch.helper}")


def nobody_works_twice_at_once(case):
    for name in {p for b in case.batches for p in (b.person, b.helper)} - {None}:
        rows = sorted((b for b in case.batches if name in (b.person, b.helper)), key=lambda b: (b.start, b.end))
        for first, second in zip(rows, rows[1:]):
            if second.start < first.end:
                yield Violation(RULE_PERSON, f"{first.id} and {second.id}, {name}")


SKILLS = {"scuff": "sand", "raise": None, "mask": None, "flip": None, "task": None}


def skill(op):
    """The work or tool that one must be able to do; None: everybody can."""
    return op.coat.tool if op.do == "apply" else SKILLS.get(op.do, op.do)


def who_works_can_do_it(case):
    for batch in case.batches:
        person = case.person(batch.person)
        if person.does is None:
            continue
        for row in batch.steps:
            op = case.work(row.id)
            if skill(op) is not None and skill(op) not in person.does and not (op.do == "scuff" and "scuff" in person.does):
                yield Violation("who works can do it", f"{row.id}: {batch.person} does {person.does}")


def lots_stay_together(case):
    """A piece has as many lots at every step, numbered from 1, as `lots` says where it does."""
    for piece in case.job.pieces.values():
        counts = {s.row["lots"] for s in case.of_piece(piece.name)}
        if len(counts) > 1 or (piece.lots and counts and counts != {piece.lots}):
            yield Violation("lots stay together", f"{piece.name}: {sorted(counts)} lots, asked {piece.lots}")


def films_are_dry_by_their_hour(case):
    for step, op in case.applies():
        clock = case.job.pieces[op.piece].dry_by
        if clock is None:
            continue
        by = hours.at_wall(hours.wall(step.end, case.job.zone).date(), clock, case.job.zone)
        dry = case.reach(step.id, "handle")
        if dry is None or dry > by + 1e-6:
            yield Violation("films are dry by their hour", f"{step.id} dry {case.show(dry)}, by {case.show(by)}")


def no_more_coats_a_day_than_the_piece_bears(case):
    days = {}
    for step, op in case.laid():
        most = case.job.pieces[op.piece].a_day
        key = (op.piece, op.lot, op.schedule, op.side, hours.wall(step.start, case.job.zone).date())
        days.setdefault(key, []).append(step.id)
        if most is not None and len(days[key]) > int(most) and set(days[key]) - set(case.facts):
            yield Violation("no more coats a day than the piece bears", ", ".join(days[key]))


def hands_on_minutes_add_up(case):
    """Minutes of a batch are those of one person, whole ones that add up to those of all hands."""
    if any(True for _ in batches_run_as_their_units_do(case)):
        return
    hands = [2 if batch.helper else 1 for batch in case.batches]
    wanted = shares.of_batches([run_of(case, b, case.person(b.person)).worked for b in case.batches], hands)
    for batch, minutes_of_it in zip(case.batches, wanted):
        if batch.row["hands_on_min"] != minutes_of_it:
            yield Violation("hands-on minutes add up", f"{batch.id} says {batch.row['hands_on_min']}, are {minutes_of_it}")
    total = sum(minutes_of_it * n for minutes_of_it, n in zip(wanted, hands))
    if case.timetable.data["hands_on_min"] != total:
        yield Violation("hands-on minutes add up", f"says {case.timetable.data['hands_on_min']}, are {total}")


def what_is_proven_is_met(case):
    data, rule = case.timetable.data, "what is proven is met"
    if data["no_less_work_min"] > data["hands_on_min"] or data["work_proven"] != (data["no_less_work_min"] == data["hands_on_min"]):
        yield Violation(rule, f"{data['hands_on_min']} min, bound {data['no_less_work_min']}, proven {data['work_proven']}")


GROUND = [every_step_stands_in_one_batch, a_batch_has_a_person_and_steps]  # what later rules rest upon
RULES = [a_batch_has_its_own_id, a_batch_is_of_one_kind, a_flip_stands_with_coats_as_the_one_that_it_serves, batches_run_as_their_units_do,
         batches_begin_on_5_minutes_of_the_clock, mixes_are_stirred_when_somebody_is_there, a_gun_is_clean_before_its_pot_life_ends,
         two_turn_what_is_heavy, nobody_works_twice_at_once, who_works_can_do_it, lots_stay_together,
         films_are_dry_by_their_hour, no_more_coats_a_day_than_the_piece_bears, hands_on_minutes_add_up, what_is_proven_is_met]
