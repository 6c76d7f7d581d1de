"""Whether a single step could start earlier while the others stay: a warning, since it breaks no limit."""
import case
import drying
import plan_reader
import rules_shop
import rules_time

FARTHEST = 400  # candidates tried for one step


def candidates(checked, step):
    """Earlier starts inside working stretches, from the nearest on."""
    tried = 0
    for start in range(step.start - drying.SLOT, checked.job.start - 1, -drying.SLOT):
        if checked.job.hours.holds(start, start + step.end - step.start):
            tried += 1
            yield start
        if tried >= FARTHEST:
            return


def breaks(checked):
    return any(True for rule in rules_time.RULES + rules_shop.RULES[:1] + rules_shop.RULES[2:] for _ in rule(checked))


def waits_hold(checked, step):
    """The cheap test: the step comes after all that it waits for."""
    return all(step.start >= checked.steps[w.source].end for w in checked.expected.waits
               if w.to == step.id and w.source in checked.steps)


def warnings(job, plan):
    """One line for each step that could start earlier."""
    checked = case.Case(job, plan_reader.Timetable(plan["timetable"], job.zone))
    for step in checked.timetable.list:
        kept = step.start, step.end
        for start in candidates(checked, step):
            step.start, step.end = start, start + kept[1] - kept[0]
            if not waits_hold(checked, step):
                break
            if not breaks(checked):
                yield f"{step.id} at {checked.show(kept[0])} could start {checked.show(start)}"
                break
        step.start, step.end = kept
