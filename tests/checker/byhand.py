"""A plan's JSON made from given starts: for trying the rules on plans whose truth is known by hand."""
import datetime as dt

import case
import drying
import hours
import plan_reader
import rules_air
import rules_float
import rules_report


def text_of(minute, zone):
    """RFC 3339 with the zone's offset."""
    return None if minute is None else hours.wall(float(minute), zone).isoformat(timespec="seconds")


def blank(job):
    """A timetable without steps."""
    return {"job": job.name, "zone": job.zone, "status": "planned", "start": text_of(job.start, job.zone), "ready": None,
            "deliver": text_of(job.deliver, job.zone), "late_min": 0, "spare_min": 0, "ready_proven": False, "work_proven": False,
            "no_earlier_than": text_of(job.start, job.zone), "steps": [], "states": [], "chain": [], "why": []}


def step_row(job, op, start, length):
    end = start + length
    coat = op.coat
    return {"id": op.id, "piece": op.piece, "schedule": op.schedule, "coat": coat.number if coat else op.number,
            "coats": coat.coats if coat else op.number, "side": op.side or None, "do": op.do,
            "finish": coat.finish.id if coat else None, "start": text_of(start, job.zone), "end": text_of(end, job.zone),
            "person": 1, "float_min": 0, "after": [], "note": None}


def scuff_row(job, checked, name, start):
    base = name.rpartition("/")[0]
    under = checked.operations[f"{base}/apply"]
    row = step_row(job, under, start, min(checked.scuff_minutes(under)))
    return {**row, "id": name, "do": "scuff", "finish": None}


def minute_of(job, text):
    return hours.from_text(text, job.zone)


def first_free(rows):
    """Gives each step the first person who is free."""
    until = {}
    for row in rows:
        start, end = (dt.datetime.fromisoformat(row[k]) for k in ("start", "end"))
        row["person"] = next(p for p in range(1, len(rows) + 2) if until.get(p, start) <= start)
        until[row["person"]] = end


def timetable(job, starts):
    """The timetable of steps that begin at the given moments, with all that follows from them."""
    data = blank(job)
    empty = case.Case(job, plan_reader.Timetable(data, job.zone))
    for name, text in starts.items():
        start, op = minute_of(job, text), empty.operations.get(name)
        data["steps"].append(step_row(job, op, start, min(op.minutes)) if op else scuff_row(job, empty, name, start))
    data["steps"].sort(key=lambda row: (row["start"], row["id"]))
    first_free(data["steps"])
    return finished(job, data)


def finished(job, data):
    """Adds links, states, ready, late and spare minutes, floats."""
    checked = case.Case(job, plan_reader.Timetable(data, job.zone))
    for row in data["steps"]:
        row["after"] = links(job, checked, row["id"])
    data["states"] = [{"piece": p, "state": job.deliver_at, "at": text_of(checked.state_of(p, job.deliver_at), job.zone)}
                      for p in job.pieces if checked.expected.last_coats[p]]
    ready = rules_report.true_ready(checked)
    data["ready"] = text_of(ready, job.zone)
    if ready is not None:
        data["late_min"], data["spare_min"] = max(0, ready - job.deliver), max(0, job.deliver - ready)
        for step in checked.timetable.list:
            step.row["float_min"] = slip(checked, step, ready)
        for step, op in checked.applies():
            stretches = rules_air.outside(checked, step, op)
            step.row["note"] = rules_air.words(checked, stretches) if stretches else None
    return data


def slip(checked, step, ready):
    """The farthest that the waits bear."""
    behind = rules_float.waits_behind(checked)
    return next(m for m in range(max(ready - step.end, 0), -1, -drying.SLOT)
                if m == 0 or rules_float.bears(checked, behind, step, m))


def links(job, checked, name):
    """The `after` entries of a step, from all that it waits for."""
    rows = []
    for source in dict.fromkeys(w.source for w in checked.expected.waits if w.to == name and w.source in checked.steps):
        least, most = rules_report.known_moments(checked, source, name)
        most = {m for m in most if m is not None and m >= checked.steps[name].start}
        rows.append({"id": source, "what": "waits", "min_until": text_of(max(least), job.zone),
                     "max_until": text_of(min(most, default=None), job.zone)})
    return rows


def plan(job, starts):
    return {"timetable": timetable(job, starts)}
