"""Rules on what was done already: it stands at its real moments, nothing else counts as done, what follows begins after now, and
what broke a rule is told with what follows from it."""
import drying
import expected
import plan_reader
import rules_shop
from case import Violation

RULE_STANDS = "what was done stands as it was recorded"
RULE_ONLY = "nothing is done that was not recorded"
RULE_TOLD = "what a fact broke is told with what follows"
WORDS = {"wait": "was begun before the film beneath it was", "window": "was begun after its window had ended",
         "order": "was begun before", "air": "was applied in air outside the limits"}
FOLLOWS = ("test how hard", "test it where it does not show", "was done")


def what_was_done_stands_as_it_was_recorded(case):
    rows = {plan_reader.key_of(row["id"]): row for row in case.timetable.data.get("done") or []}
    for name, fact in case.facts.items():
        row = rows.get(name)
        if row is None:
            yield Violation(RULE_STANDS, f"{name} of entry {fact.entry.number} is not told")
            continue
        told = tuple(plan_reader.moment(row[key], case.job.zone) for key in ("began", "done")) + (row["entry"],)
        if told != (fact.start, fact.end, fact.entry.number):
            yield Violation(RULE_STANDS, f"{name}: told {told}, was {(fact.start, fact.end, fact.entry.number)}")


def nothing_is_done_that_was_not_recorded(case):
    for row in case.timetable.data.get("done") or []:
        name = plan_reader.key_of(row["id"])
        if name not in case.facts:
            yield Violation(RULE_ONLY, f"{name}, entry {row['entry']}")
    over = {plan_reader.key_of(name) for name in case.timetable.data.get("passed_over") or []}
    for name in over ^ case.passed_over:
        yield Violation(RULE_ONLY, f"{name} is {'told as' if name in over else 'not told as'} passed over")
    for name in set(case.timetable.steps) & (set(case.facts) | case.passed_over):
        yield Violation(RULE_ONLY, f"{name} is behind, and planned again")


def nothing_is_planned_before_now(case):
    for batch in case.batches if case.job.now is not None else []:
        if batch.start < case.job.now:
            yield Violation("nothing is planned before now", f"{batch.id} at {case.show(batch.start)}, now is {case.show(case.job.now)}")


def limits(case, fact):
    """(what it would be, when it would have been right) of everything that one fact asked of another."""
    for wait in case.expected.waits:
        if wait.to != fact.id or wait.source not in case.facts:
            continue
        before = case.facts[wait.source]
        if wait.kind in (expected.END, expected.SPAN, expected.SETTLED):
            yield "order", fact.start < before.end, False
        elif wait.kind == expected.STATE:
            dry = case.reach(wait.source, wait.value)
            yield "wait", dry is None or fact.start <= dry - drying.SLOT, dry is not None and fact.start < dry
        elif wait.kind == expected.WINDOW:
            closes = case.window_end(wait.source)
            late = closes is not None and fact.start > closes
            yield "window", late and fact.start > closes + drying.SLOT and not keyed(case, before, fact), late
        elif wait.kind == expected.POLISH:
            yield "window", fact.start > before.end + wait.value[1] + drying.SLOT, fact.start > before.end + wait.value[1]


def entries_before(case, fact):
    """The pieces and tasks that the job puts before the row that a fact begins."""
    if fact.do == "task":
        own = [task for task in case.job.tasks.values() if case.task_steps(task.name)[0].id == fact.id]
        return own[0].after if own else []
    if not any(row[0] == fact.id for row in case.expected.rows[fact.piece]):
        return []
    tasks = [task.name for task in case.job.tasks.values() for name in task.before if case.named(name)[1] == fact.piece]
    return [*case.job.pieces[fact.piece].after, *tasks]


def limits_of_the_job(case, fact):
    """As `limits`, of what the job puts before."""
    for entry in entries_before(case, fact):
        kind, name, _ = case.named(entry)
        moment = case.moment_of(entry)
        steps = case.task_steps(name) if kind == "task" else case.of_piece(name)
        known, early = all(s.id in case.facts for s in steps), moment is None or fact.start < moment
        if kind == "task":
            yield "order", known and early, early
        else:
            yield "wait", known and (moment is None or fact.start <= moment - drying.SLOT), early


def keyed(case, before, fact):
    """Whether the film was sanded, scuffed or rubbed in between."""
    prefix = before.id.rpartition("/")[0] + "/"
    return any(other.do in ("sand", "scuff", "rub") and name.startswith(prefix) and before.end <= other.start <= fact.start
               for name, other in case.facts.items())


def broken(case, fact):
    """(kinds that it broke for certain, kinds that it may have broken: within the five minutes to which films are computed)."""
    sure, maybe = set(), set()
    for kind, surely, nearly in (*limits(case, fact), *limits_of_the_job(case, fact)):
        sure |= {kind} if surely else set()
        maybe |= {kind} if nearly else set()
    if fact.do == "apply":
        spell = case.drying.air.over(fact.start, fact.start + 1)[0]
        sure |= {"air"} if rules_shop.outside(fact.operation.coat.finish, spell) else set()
    return sure, maybe | sure


def what_a_fact_broke_is_told(case):
    rows = {plan_reader.key_of(row["id"]): row for row in case.timetable.data.get("done") or []}
    for name, fact in case.facts.items():
        told = rows[name]["broke"] if name in rows else []
        sure, maybe = broken(case, fact)
        kinds = {kind for kind in ("wait", "window", "air") if any(WORDS[kind] in text for text in told)}
        kinds |= {"order"} if any("was begun before" in text and text.endswith("was done") for text in told) else set()
        if not sure <= kinds or not kinds <= maybe:
            yield Violation(RULE_TOLD, f"{name} broke {sorted(sure)}, told {told}")
        for text in told:
            if name not in {plan_reader.key_of(word) for word in text.split()[:1]} or not any(words in text for words in FOLLOWS):
                yield Violation(RULE_TOLD, f"{name}: {text!r} names no consequence")


RULES = [what_was_done_stands_as_it_was_recorded, nothing_is_done_that_was_not_recorded, nothing_is_planned_before_now,
         what_a_fact_broke_is_told]
