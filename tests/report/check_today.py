#!/usr/bin/env -S python3 -B
"""The day card. Its batches are those of the plan on that day, each with its steps, neither more nor fewer: the cards of all days
put together are the plan, and the cards of all people put together are the day. What a batch needs is what its steps wait for.
A day is one of the wall of the jobs; a card without work names the next one."""
import datetime as dt
import json
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests/checker"))
import batch_worked  # noqa: E402  (tests/checker has to be on the path before)
import program  # noqa: E402
import worked  # noqa: E402

NOW = ("--now", "2027-01-04T08:00Z")
BRIEF = ("--effort", "300000")  # the card does not depend on how long the plan was sought
TIMES = ("start", "work_from", "work_until", "end")


def day_of(moment):
    return moment[:10]


def card(jobs, *options):
    """(card, None) or (None, what went wrong)."""
    code, out, errors = program.run("today", *jobs, "--json", *NOW, *options)
    if code not in (0, 1):
        return None, f"exit status {code}: {(out + errors).strip()[:300]}"
    return json.loads(out), None


def planned(jobs, *options):
    """Timetables by the name of their job."""
    _, out, _ = program.run("timetable", *jobs, "--json", *NOW, *options)
    found = json.loads(out)
    return {table["job"]: table for table in found.get("jobs", [found])}


def key(batch, job, identity):
    return (job, identity, batch["person"], batch.get("helper"), *(batch[name] for name in TIMES))


def shares(batch):
    """A card's batch as the batches of its jobs: the key of each with its steps."""
    return {key(batch, of["job"], of["id"]): {(s["id"], s["start"], s["end"]) for s in batch["steps"] if s["job"] == of["job"]}
            for of in batch["of"]}


def batches_of(tables):
    return {key(batch, job, batch["id"]): {(s["id"], s["start"], s["end"]) for s in batch["steps"]}
            for job, table in tables.items() for batch in table["batches"]}


def days_of(tables):
    """Every day from the one before the plan to the one behind it."""
    starts = [dt.date.fromisoformat(day_of(b["start"])) for table in tables.values() for b in table["batches"]]
    first, last = min(starts) - dt.timedelta(1), max(starts) + dt.timedelta(1)
    return [str(first + dt.timedelta(days)) for days in range((last - first).days + 1)]


def needs_wrong(batch, tables):
    """A need that no step of the batch has, or one that was over later than is said."""
    for need in batch["before"]:
        table = tables[need["job"]]
        of_batch = {of["id"] for of in batch["of"] if of["job"] == need["job"]}
        waits = [a for s in table["steps"] if s["batch"] in of_batch for a in s["after"] if a["min_until"]]
        if not any(a["id"] == need["id"] and a["what"] == need["what"] and a["min_until"] == need["since"] for a in waits):
            yield f"{need} is nothing that the plan waits for"
        if need["since"] > max(s["start"] for s in batch["steps"]):
            yield f"{need} comes after the last step"
    for of in batch["of"]:
        for step in (s for s in tables[of["job"]]["steps"] if s["batch"] == of["id"]):
            for after in step["after"]:
                film = after["what"].startswith(("dry to", "safe to", "fit for", "fully"))
                same = any(s["id"] == after["id"] for s in batch["steps"])
                if film and not same and not any(n["what"] == after["what"] and n["since"] >= after["min_until"] for n in batch["before"]):
                    yield f"{step['id']} waits until {after['id']} is {after['what']}: the card does not say so"


def next_wrong(found, tables):
    """The first batch of each person on a later day, and no other."""
    want = {}
    for job, table in tables.items():
        for batch in table["batches"]:
            if day_of(batch["start"]) > found["day"] and found["person"] in (None, batch["person"], batch.get("helper")):
                who = batch["person"] if found["person"] is None else found["person"]
                want[who] = min(want.get(who, batch["start"]), batch["start"])
    got = {found["person"] or n["person"]: n["start"] for n in found["next"]}
    return [] if got == want else [f"next {got}, not {want}"]


def examine(tally, name, jobs, *options):
    tables = planned(jobs, *options)
    want, got = batches_of(tables), {}
    people = sorted({b["person"] for t in tables.values() for b in t["batches"]})
    for day in days_of(tables):
        found, error = card(jobs, "--day", day, *options)
        wrong = [error] if error else []
        for batch in [] if error else found["batches"]:
            mine = shares(batch)
            wrong += [f"{day}: {k[1]} is there twice" for k in mine if k in got]
            wrong += [f"{day}: {k[1]} is of another day" for k in mine if day_of(k[4]) != day]
            wrong += list(needs_wrong(batch, tables))
            got |= mine
        if not error:
            wrong += next_wrong(found, tables)
            wrong += person_wrong(found, jobs, people, day, options, tables)
        tally.note(f"{name}, {day}", wrong[:5])
    tally.note(f"{name}: all days", [] if got == want else
               [f"not on a card: {sorted(set(want) - set(got))[:2]}, on a card alone: {sorted(set(got) - set(want))[:2]}, "
                f"other steps: {[k[1] for k in want if k in got and want[k] != got[k]][:2]}"])


def person_wrong(found, jobs, people, day, options, tables):
    """The cards of all people of a day are its batches; one that two hold is on both."""
    rows = []
    for person in people:
        one, error = card(jobs, "--day", day, "--person", person, *options)
        if error:
            return [error]
        if one["person"] != person or any(person not in (b["person"], b.get("helper")) for b in one["batches"]):
            return [f"{day}: the card of {person} is another's"]
        rows += one["batches"]
        if next_wrong(one, tables):
            return next_wrong(one, tables)
    helped = [b for b in found["batches"] if b.get("helper")]
    order = lambda batch: (batch["start"], batch["person"])
    return [] if sorted(rows, key=order) == sorted(found["batches"] + helped, key=order) else [f"{day}: the people's cards are not the day"]


def by_hand(tally, folder):
    """Two pieces of 20 minutes, two coats by brush, set-up and clean-up 10, dry to recoat after 3 h, one person of two who brushes: the
    first batch 08:00 to 09:00, the second set up at 11:20 so that A begins when it is dry at 11:30; B, dry at 11:50, comes after lunch.
    Each takes a third of a square metre, at 10 m2 to the litre 33 ml. The finish is flammable and irritates the skin; nothing is sanded."""
    v = worked.finish("v", {"dust-free": "10 min", "handle": "1 h", "recoat": ["3 h", worked.FOREVER]}, cautions=["flammable", "skin"])
    shop = batch_worked.shop(10, 10, people=[{"person": "Ann"}, {"person": "Bea", "does": ["sand"]}])
    job = worked.job("pause", {"s": [worked.coats("v", 2)]}, batch_worked.rows("AB", 20, "s"), shop=shop)
    path = worked.write(worked.Problem("pause", job, [v], {}, None), Path(folder))
    found, error = card([path], "--day", "2027-03-01")
    if error:
        return tally.note("by hand", [error])
    got = [[b["person"], b["start"][11:16], b["end"][11:16], [(s["id"], s["start"][11:16]) for s in b["steps"]],
            [(n["what"], n["since"][11:16], n["id"]) for n in b["before"]], [round(s["volume_ml"]) for s in b["steps"]]]
           for b in found["batches"]]
    first = ["Ann", "08:00", "09:00", [("a/s/1/apply", "08:10"), ("b/s/1/apply", "08:30")], [], [33, 33]]
    second = ["Ann", "11:20", "13:30", [("a/s/2/apply", "11:30"), ("b/s/2/apply", "13:00")],
              [("dry to recoat", "11:50", "b/s/1/apply")], [33, 33]]
    tally.note("by hand: batches", [] if got == [first, second] else [f"{got}"])
    words = " ".join(found["batches"][0]["cautions"]) if found["batches"] else ""
    tally.note("by hand: cautions", [] if "no flame" in words and "nitrile" in words and "dust" not in words else [words])
    refused(tally, path)
    code, out, _ = program.run("today", path, "--person", "Bea", "--day", "2027-03-01", *NOW)
    tally.note("nothing to do", [] if code == 0 and "no work" in out else [f"{code}: {out}"])
    without_work(tally, path)


def refused(tally, job):
    for options, words in ((["--person", "Anne"], 'found "Anne" (did you mean "Ann"?)'), (["--person", "3"], 'found "3"'),
                           (["--day", "tomorow"], 'found "tomorow"'), (["--day", "2027-02-30"], 'found "2027-02-30"')):
        code, out, errors = program.run("today", job, *options, *NOW)
        tally.note(f"today {' '.join(options)}", [] if code == 2 and words in errors and not out else [f"{code}: {out}{errors}"])
        code, out, _ = program.run("today", job, *options, *NOW, "--json")
        tally.note(f"today --json {' '.join(options)}", [] if code == 2 and "errors" in out else [f"{code}: {out}"])


def without_work(tally, job):
    """The day is that of --now on the jobs' wall; before the plan the card names its first batch, behind it there is none."""
    for moment, day, text in (("2027-02-28T23:30:00-02:00", "2027-03-01", "08:00"), ("2027-02-27 12:00", "2027-02-27", "Mon 1 Mar 08:00"),
                              ("2027-04-01 12:00", "2027-04-01", "no work")):
        _, out, _ = program.run("today", job, "--now", moment, "--json")
        tally.note(f"the day of {moment}", [] if json.loads(out or "{}").get("day") == day else [out[:200]])
        _, out, _ = program.run("today", job, "--now", moment)
        tally.note(f"the card of {moment}", [] if text in out else [out])


def hours_of_cautions(tally):
    """The doors are sprayed with isocyanate and sanded: supplied air belongs to every coat and to nothing else, dust to every sanding;
    no other respirator is named on such a day, which would be taken for enough."""
    job, wrong = ROOT / "examples/doors.json", []
    days = {day_of(b["start"]) for b in next(iter(planned([job], *BRIEF).values()))["batches"]}
    for batch in [b for day in sorted(days) for b in card([job], "--day", day, *BRIEF)[0]["batches"]]:
        words = " ".join(batch["cautions"])
        if ("supplied air" in words, "isocyanate" in words, "wood dust" in words) != (batch["do"] == "apply",) * 2 + (batch["do"] == "sand",):
            wrong.append(f"{batch['start']} {batch['do']}: {words}")
        if "respirator" in words:
            wrong.append(f"{batch['start']}: {words}")
    tally.note("the hours of cautions", wrong)


def main():
    program.need()
    tally = program.Tally()
    for job in program.examples():
        examine(tally, job.name, [job], *BRIEF)
    hours_of_cautions(tally)
    with program.scratch() as folder:
        by_hand(tally, folder)
        desk = json.loads((ROOT / "examples/desk.json").read_text(encoding="utf-8"))
        for name in ("shop", "parts", "finishes"):
            desk[name] = str(ROOT / "examples" / desk[name])
        desk["job"] = "A second desk"
        second = Path(folder) / "second.json"
        second.write_text(json.dumps(desk), encoding="utf-8")
        examine(tally, "two desks", [ROOT / "examples/desk.json", second], "--trust-paths", *BRIEF)
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
