#!/usr/bin/env -S python3 -B
"""The lives of the examples: what goes right and wrong in a shop, entry by entry. After every entry the independent checker accepts
the plan of what is left, done batches stand in the calendar at their real times, and no event changes its number that did not
change. LIVES=all: every life of every example, seen after every batch; otherwise a few entries of each example, and
of the other lives one example each, seen now and then."""
import csv
import datetime as dt
import json
import os
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))

import case
import check_log
import checker
import ics_facts
import job_reader
import mutants
import mutations_facts
import plan_reader
import program

ALL = os.environ.get("LIVES") == "all"
EVERY = 1 if ALL else 6  # batches between two looks
LARGE = 100  # steps of a job that is looked at less often
DAY = dt.timedelta(days=1)

moment = check_log.moment


class Life(check_log.Life):
    """An example with its log, its calendar and what is seen of both."""

    def __init__(self, tally, name, what):
        super().__init__(name)
        self.tally, self.what, self.calendar, self.recorded = tally, f"{name}, {what}", None, 0
        self.first = self.plan()
        self.begin = moment(self.first["timetable"]["start"])
        self.every = EVERY if len(self.first["timetable"]["steps"]) < LARGE else 8 * EVERY

    def note(self, where, problems):
        self.tally.note(f"{self.what}, {where}", [str(p) for p in problems])

    def record(self, rows, batch, later=dt.timedelta(0), **more):
        """Steps of a batch as done."""
        for row in rows:
            self.number += 1
            entry = {"entry": self.number, "step": row["id"], "began": (moment(row["start"]) + later).isoformat(),
                     "done": (moment(row["end"]) + later).isoformat(), "batch": batch["id"], **more}
            with open(self.log, "a", encoding="utf-8") as log:
                log.write(json.dumps(entry) + "\n")

    def look(self, now):
        """The plan of what is left, after everything about it was checked."""
        found, error = program.plan(self.job, "--now", now.isoformat())
        if error:
            self.note(f"at {now}", [error])
            return None
        job = job_reader.read_job(self.job, checker.TABLE, now.isoformat())
        self.note(f"at {now}: the checker", (f"{v.rule}: {v.text}" for v in checker.violations(job, found)))
        self.see_calendar(job, found, now)
        return found["timetable"]

    def see_calendar(self, job, found, now):
        if found["timetable"]["status"] != "planned":
            return
        path = self.folder / "timetable.ics"
        program.run("timetable", self.job, "--ics", path, "--now", now.isoformat())
        data = path.read_bytes()
        checked = case.Case(job, plan_reader.Timetable(found["timetable"], job.zone))
        self.note(f"at {now}: what was done in the calendar", ics_facts.of_what_was_done(checked, data))
        if self.calendar:
            self.note(f"at {now}: the calendar before", ics_facts.since(self.calendar, data))
        self.calendar = data

    def work(self, table, count=1):
        """(the plan's next batches, with those that are begun meanwhile; when all of them are done)."""
        rest = sorted(table["batches"], key=lambda b: moment(b["end"]))
        if not rest:
            return [], None
        until = plan_reader.when_done(rest, moment(rest[min(count, len(rest)) - 1]["end"]))
        return [batch for batch in rest if moment(batch["end"]) <= until], until

    def go_on(self, table, until=None):
        """Works as planned to the end, or up to so many batches, with a look now and then."""
        done, at = 0, None
        while table and table["status"] == "planned" and table["batches"] and (until is None or done < until):
            batches, at = self.work(table, min(self.every, until - done) if until else self.every)
            for batch in batches:
                self.record(batch["steps"], batch)
            done += len(batches)
            table = self.look(at)
        return table, at


def on_time(life):
    """Everything as planned: it is ready no later than was planned."""
    table = life.look(life.begin)
    ready, late = moment(table["ready"]), table["late_min"]
    table, _ = life.go_on(table)
    life.note("the end", [] if table and not table["steps"] and table["late_min"] <= late and moment(table["ready"]) <= ready else
              [f"{len(table['steps']) if table else 'no plan'} steps are left, ready {table and table['ready']}, planned {ready}"])


def a_day_late(life):
    """The work of the first day was done a day later."""
    table = life.look(life.begin)
    day = moment(table["batches"][0]["start"]).date()
    first = [b for b in table["batches"] if moment(b["start"]).date() == day]
    for batch in first:
        life.record(batch["steps"], batch, DAY)
    life.go_on(life.look(max(moment(b["end"]) for b in first) + DAY), None if ALL else 6)


def until_a_coat_is_done(life):
    """The timetable when the first coat was done, and the moment."""
    table = life.look(life.begin)
    while not coats_done(table):
        batches, at = life.work(table)
        for batch in batches:
            life.record(batch["steps"], batch)
        table = life.look(at)
    return table, at


def a_coat_that_ran(life):
    """A coat is sanded and laid again when it is dry; then all goes on."""
    table, at = until_a_coat_is_done(life)
    coat = coats_done(table)[-1]
    code, _, err = life.say("again", coat, "--because", "ran", "--sand", "320", now=at.isoformat())
    life.number += 1
    life.note("again", [] if code == 0 else [err])
    table = life.look(at)
    names = {s["id"] for s in table["steps"]}
    life.note("what is repeated", [] if {coat + "-again", coat.rpartition("/")[0] + "/sand-320-again"} <= names else [f"{coat}: {sorted(names)}"])
    life.go_on(table, None if ALL else 6)


def coats_done(table):
    return [row["id"] for row in table["done"] if row["id"].endswith("/apply")]


def some_of_the_parts(life):
    """Of the first coat of a piece of several parts more than half were laid; the rest of the lot goes its own way."""
    table = life.look(life.begin)
    job = job_reader.read_job(life.job, checker.TABLE)
    counts = {piece: sum(part.qty for part in job.parts if part.piece == piece) for piece in job.pieces}
    at = life.begin
    while True:
        batches, until = life.work(table)
        step = next((s for b in batches for s in table["steps"] if s["batch"] == b["id"] and s["do"] == "apply" and s["lots"] == 1 and
                     counts[s["piece"]] > 1), None)
        for batch in batches:
            life.record([row for row in batch["steps"] if step is None or row["id"] != step["id"]], batch)
        if step:
            break
        table, at = life.look(until), until
        if not table["batches"]:
            return life.note("no piece of several parts", [])
    parts = counts[step["piece"]] * 7 // 12 or 1
    code, _, err = life.say("done", step["id"], "--parts", str(parts), "--began", step["start"], "--at", step["end"], now=until.isoformat())
    life.number += 1
    life.note("some of the parts", [] if code == 0 else [err])
    table = life.look(until)
    left = [s for s in table["steps"] if s["do"] == "apply" and s["piece"] == step["piece"] and s["coat"] == step["coat"] and
            s["schedule"] == step["schedule"] and s["side"] == step["side"]]
    life.note("the rest of the lot", [] if len(left) == 1 and left[0]["lots"] == 2 else [f"{[s['id'] for s in left]} of {step['id']}"])
    return life.go_on(table, None if ALL else 4)


def two_cold_nights(life):
    """The heating failed for two nights: what dries meanwhile takes longer."""
    table, at = life.go_on(life.look(life.begin), 4 if not ALL else 6)
    for night in (0, 1):
        evening = (at + night * DAY).replace(hour=18, minute=0)
        if evening < at:
            continue
        life.number += 1
        with open(life.log, "a", encoding="utf-8") as log:
            log.write(json.dumps({"entry": life.number, "air": {"from": evening.isoformat(), "temperature": "6 C", "humidity": "80 %"}}) + "\n")
    warm = moment(table["ready"])
    table = life.look((at + DAY).replace(hour=18, minute=5))
    life.note("cold nights", [] if table["status"] != "planned" or moment(table["ready"]) >= warm else [f"ready {table['ready']}, was {warm}"])
    life.go_on(table, None if ALL else 4)


def delivery_moved(life):
    """The customer wants it a week earlier, when half of it is done."""
    table, at = life.go_on(life.look(life.begin), max(2, len(life.first["timetable"]["batches"]) // 2))
    job = json.loads(life.job.read_text(encoding="utf-8"))
    day, _, clock = job["deliver"].partition(" ")
    job["deliver"] = " ".join(filter(None, [str(dt.date.fromisoformat(day) - 7 * DAY), clock]))
    life.job.write_text(json.dumps(job), encoding="utf-8")
    life.go_on(life.look(at), None if ALL else 4)


def the_can_used_up(life):
    """Of half a litre of each finish in stock the first coats take more than there is: what is left to do is bought."""
    job = json.loads(life.job.read_text(encoding="utf-8"))
    with open(life.folder / "stock.csv", "w", encoding="utf-8", newline="") as stock:
        csv.writer(stock).writerows([("finish", "component", "amount")] + [
            (row["finish"], part["component"], "0.5 l") for row in life.first["buy"]["finishes"] for part in row["components"]])
    life.job.write_text(json.dumps({**job, "stock": "stock.csv"}), encoding="utf-8")
    table, at = life.look(life.begin), None
    while table["batches"] and not coats_done(table):
        batches, at = life.work(table)
        for batch in batches:
            life.record(batch["steps"], batch, **({"used": "0.9 l"} if batch["do"] == "apply" else {}))
        table = life.look(at)
    found, _ = program.plan(life.job, "--now", at.isoformat())
    used = {s["finish"] for s in life.first["timetable"]["steps"] if s["id"] in coats_done(table)}
    empty = [row for row in found["buy"]["finishes"] if row["finish"] in used and len(row["components"]) == 1]
    life.note("the can", [f"{row['finish']}: {row['components'][0]['on_hand_ml']} ml are left" for row in empty if row["components"][0]["on_hand_ml"] > 0])
    life.go_on(table, None if ALL else 4)


def a_coat_too_early(life):
    """A second coat on a film that is still wet: a fact, told with what follows from it."""
    table, at = until_a_coat_is_done(life)
    first = coats_done(table)[-1]
    beneath = next(s for s in life.first["timetable"]["steps"] if s["id"] == first)
    surface = ("piece", "schedule", "side")
    step = next(s for s in table["steps"] if s["do"] == "apply" and [s[key] for key in surface] == [beneath[key] for key in surface])
    soon = at + dt.timedelta(minutes=2) - moment(step["start"])
    life.record([step], {"id": step["batch"]}, soon)
    table = life.look(moment(step["end"]) + soon)
    told = next(row["broke"] for row in table["done"] if row["id"] == step["id"])
    life.note("too early", [] if any("test how hard it is" in text for text in told) else [f"{step['id']}: {told}"])
    mutants_are_rejected(life, moment(step["end"]) + soon)
    life.go_on(table, None if ALL else 4)


def a_few_entries(life):
    """Two batches are done, what follows the first half an hour late; the steps of a batch ahead are left out: its event is cancelled, those
    that are done or planned still are not."""
    half = dt.timedelta(minutes=30)
    batches, at = life.work(life.look(life.begin), 2)
    for batch in batches:
        life.record(batch["steps"], batch, half if batch is not batches[0] else 0 * half)
    table = life.look(at + half)
    before = ics_facts.items_of(life.calendar)[0]
    smallest = min((b for b in reversed(table["batches"]) if b["do"] != "task" and not any(s["id"].endswith("/flip") for s in b["steps"])),
                   key=lambda b: len(b["steps"]))
    for row in smallest["steps"]:
        code, _, err = life.say("skip", row["id"], now=(at + half).isoformat())
        life.number += 1
        life.note("skip", [] if code == 0 else [err])
    left = life.look(at + half)
    after = ics_facts.items_of(life.calendar)[0]
    live = {b["id"] for b in left["batches"]} | {b["id"] for b in batches}
    gone = {b["id"] for b in table["batches"]} - live
    events = {name: uid for uid in after for name in live | gone if uid.endswith(f"/{name}@coatwright")}
    life.note("what is in the calendar", [f"no event of {name}" for name in live | gone if name not in events])
    for name, uid in events.items():
        cancelled = ("STATUS", "CANCELLED") in ics_facts.face(after[uid])
        life.note(name, [] if cancelled == (name in gone) else [f"cancelled: {cancelled}"])
        if name in gone:
            rose = ics_facts.sequence(after[uid]) > ics_facts.sequence(before[uid])
            life.note(f"{name}, its number", [] if rose else ["did not rise"])
    life.note("what went", [] if gone else ["nothing"])


def mutants_are_rejected(life, now):
    """Plans that forget, move or invent what was done are told from true ones."""
    found = life.plan(now.isoformat())
    job = job_reader.read_job(life.job, checker.TABLE, now.isoformat())
    tried = []
    for mutation in mutations_facts.FACTS:
        made = mutants.mutate(found, job, mutation, 1)
        if made is None:
            continue
        tried.append(mutation.__name__)
        rules = [v.rule for v in checker.violations(made[1], made[0])]
        life.note(f"mutant {mutation.__name__}", [] if any(rule.startswith(mutation.rules) for rule in rules) else [f"slipped through: {rules}"])
    life.note("mutants", [] if len(tried) >= 8 else [f"only {tried} have a place"])


EXAMPLES = ("desk", "doors", "staircase", "kitchen")
LIVES = [*((a_few_entries, name) for name in EXAMPLES), (on_time, "doors"), (a_day_late, "desk"), (a_coat_that_ran, "desk"), (some_of_the_parts, "doors"), (two_cold_nights, "desk"),
         (delivery_moved, "desk"), (the_can_used_up, "desk"), (a_coat_too_early, "desk")]


def main():
    program.need()
    tally = program.Tally()
    asked = os.environ.get("LIFE", "")
    lives = [(live, name) for live in dict.fromkeys(live for live, _ in LIVES) for name in EXAMPLES] if ALL else LIVES
    for live, name in lives:
        if asked in f"{live.__name__} {name}":
            live(Life(tally, name, live.__name__.replace("_", " ")))
    sys.exit(tally.close())


if __name__ == "__main__":
    main()
