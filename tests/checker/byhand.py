"""A plan's JSON made from given starts: for trying the rules on plans whose truth is known by hand.

Each step is a batch of its own, unless the hand says which are done together: set-up and the first mix before its start, its
units without a pause, clean-up behind. Nothing here asks who is there or what is open: a plan may be as wrong as its starts.
"""
import datetime as dt

import case
import drying
import hours
import plan_reader
import rules_air
import rules_float
import rules_report
import units


def text_of(minute, zone):
    """RFC 3339 with the zone's offset."""
    return None if minute is None else hours.wall(float(minute), zone).isoformat(timespec="seconds")


def blank(job):
    """A timetable without steps."""
    return {"job": job.name, "zone": job.zone, "status": "planned", "start": text_of(job.start, job.zone), "ready": None,
            "deliver": text_of(job.deliver, job.zone), "late_min": 0, "spare_min": 0, "to_spare_min": job.to_spare, "ready_proven": False, "work_proven": False,
            "no_earlier_than": text_of(job.start, job.zone), "hands_on_min": 0,
            "no_less_work_min": 0, "batches": [], "steps": [], "states": [], "chain": [], "why": []}


def length(op):
    """Whole minutes of a step's units."""
    return units.told(units.seconds(op.units)[-1])


def step_row(job, checked, name, start):
    """A step from its start to the end of its units."""
    op = checked.work(name)
    film = op.coat or checked.operations.get(f"{name.rpartition('/')[0]}/apply", op).coat
    return {"id": name, "piece": op.piece, "schedule": op.schedule, "coat": film.number if film else op.number,
            "coats": film.coats if film else op.number, "side": op.side or None, "do": op.do,
            "finish": op.coat.finish.id if op.coat else None, "start": text_of(start, job.zone),
            "end": text_of(start + length(op), job.zone), "person": 1, "batch": None, "lot": 1,
            "lots": 1 if op.piece else 0, "float_min": 0, "after": [], "note": None}


def minute_of(job, text):
    return hours.from_text(text, job.zone)


def first_free(job, batches):
    """Gives each batch the first person who is free; the first of all where nobody is."""
    until = {}
    for batch in batches:
        start, end = (dt.datetime.fromisoformat(batch[k]) for k in ("start", "end"))
        names = [person.name for person in job.shop.persons]
        batch["person"] = next((name for name in names if until.get(name, start) <= start), names[0])
        until[batch["person"]] = end


def batch_row(job, checked, rows, number):
    """Steps that are done one after another with one set-up, one mix at most and one clean-up."""
    works = [checked.work(row["id"]) for row in rows]
    main = next((op for op in works if op.do != "flip"), works[0])
    tool, mixed = main.tool, 5 if main.tool.working is not None else 0
    begin, until = minute_of(job, rows[0]["start"]), minute_of(job, rows[-1]["end"])
    start, end = begin - tool.set_up - mixed - (tool.induction if mixed else 0), until + tool.clean_up
    end = -(-end // drying.SLOT) * drying.SLOT
    what = str(main.kind[1]) if main.do in ("sand", "scuff") else main.coat.finish.id if main.coat else main.do
    moments = {"start": start, "work_from": begin, "work_until": until, "end": end}
    work = begin - start + sum(map(length, works)) + tool.clean_up
    batch = {"id": f"{main.do}/{what}/{main.number}/{number}", "do": main.do, "finish": main.coat.finish.id if main.coat else None,
             "tool": main.coat.tool if main.coat else None, "person": None, "hands_on_min": work, "float_min": 0,
             **{key: text_of(moment, job.zone) for key, moment in moments.items()},
             "steps": [{key: row[key] for key in ("id", "start", "end")} for row in rows],
             "mixes": [{"at": text_of(start + tool.set_up, job.zone)}] if mixed else [], "note": None}
    for row in rows:
        row["batch"] = batch["id"]
    return batch


def timetable(job, starts, together=()):
    """The timetable of steps that begin at the given moments, with all that follows from them; `together` are rows of steps that
    share a batch."""
    data = blank(job)
    empty = case.Case(job, plan_reader.Timetable(data, job.zone))
    rows = {name: step_row(job, empty, name, minute_of(job, text)) for name, text in starts.items()}
    groups = [[name for name in group if name in rows] for group in together]
    groups += [[name] for name in rows if not any(name in group for group in groups)]
    data["batches"] = sorted((batch_row(job, empty, [rows[name] for name in group], number)
                              for number, group in enumerate(groups, 1) if group), key=lambda b: (b["start"], b["id"]))
    first_free(job, data["batches"])
    data["steps"] = sorted(rows.values(), key=lambda row: (row["start"], row["id"]))
    data["hands_on_min"] = sum(batch["hands_on_min"] for batch in data["batches"])
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
        for batch, told in zip(checked.batches, data["batches"]):
            told["float_min"] = slip(checked, batch, ready)
            for row in batch.steps:
                checked.steps[row.id].row["float_min"] = told["float_min"]
        for step, op in checked.applies():
            stretches = rules_air.outside(checked, step, op)
            step.row["note"] = rules_air.words(checked, stretches) if stretches else None
    return data


def slip(checked, batch, ready):
    """The farthest that the waits bear."""
    behind = rules_float.waits_behind(checked)
    return next(m for m in range(max(ready - batch.end, 0) // drying.SLOT * drying.SLOT, -1, -drying.SLOT)
                if m == 0 or rules_float.bears(checked, behind, batch, m))


def links(job, checked, name):
    """The `after` entries of a step, from all that it waits for."""
    rows = []
    for source in dict.fromkeys(w.source for w in checked.expected.waits if w.to == name and w.source in checked.steps):
        least, most = rules_report.known_moments(checked, source, name)
        most = {m for m in most if m is not None and m >= checked.steps[name].start}
        rows.append({"id": source, "what": "waits", "min_until": text_of(max(least), job.zone),
                     "max_until": text_of(min(most, default=None), job.zone)})
    return rows


def plan(job, starts, together=()):
    return {"timetable": timetable(job, starts, together)}
