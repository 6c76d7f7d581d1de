#!/usr/bin/env -S python3 -B
"""What must hold between plans of generated jobs: whole weeks shift everything; where both are proven to be ready as early as can be, more hands or
a larger rack are never later, a closed day is never earlier. SEEDS=n jobs (8); a failing one is named by its seed."""
import datetime as dt
import json
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))

import jobs
import program

SEEDS = program.draws("SEEDS", 8)
FIRST_SEED = 41000
WEEKS = 5


def change(path, edit):
    """Rewrites a JSON file through edit(value)."""
    value = json.loads(path.read_text(encoding="utf-8"))
    edit(value)
    path.write_text(json.dumps(value), encoding="utf-8")


def plain(folder):
    """A job without dates of its own but start and delivery, in UTC, so that weeks are alike."""
    def of_job(job):
        job["zone"] = "UTC"
        for piece in job.get("pieces", []):
            piece.pop("ready", None)
        job.pop("stock", None)

    def of_shop(shop):
        shop.pop("closed", None)
        shop.pop("busy", None)
        if "air" in shop:
            shop["air"] = [spell for spell in shop["air"] if "on" not in spell]

    change(folder / "job.json", of_job)
    change(folder / "shop.json", of_shop)


def timetable(folder):
    plan, error = program.plan(folder / "job.json")
    return None if error else plan["timetable"]


def later(text, weeks):
    """A moment of the job file, moved."""
    form = "%Y-%m-%d %H:%M" if " " in text else "%Y-%m-%d"
    return (dt.datetime.strptime(text, form) + dt.timedelta(weeks=weeks)).strftime(form)


def moved(moment, weeks):
    return moment and (dt.datetime.fromisoformat(moment) + dt.timedelta(weeks=weeks)).isoformat()


def shift(job):
    job["start"], job["deliver"] = later(job["start"], WEEKS), later(job["deliver"], WEEKS)


def weeks_shift_everything(folder, first):
    """The same steps, each five weeks later."""
    change(folder / "job.json", shift)
    second = timetable(folder)
    wanted = [(s["id"], moved(s["start"], WEEKS), moved(s["end"], WEEKS)) for s in first["steps"]]
    return second and [(s["id"], s["start"], s["end"]) for s in second["steps"]] == wanted


def never_later(first, second):
    both = first["ready_proven"] and second and second["ready_proven"]
    return not both or second["ready"] <= first["ready"]


def one_more(shop):
    shop["people"] = shop.get("people", 1) + 1
    shop["spray-places"] = shop.get("spray-places", 1) + 1
    shop.pop("rack", None)


def main():
    program.need()
    tally = program.Tally()
    with program.scratch() as scratch:
        for seed in range(FIRST_SEED, FIRST_SEED + SEEDS):
            folder = Path(scratch) / str(seed)
            jobs.write(seed, "shop", folder)
            plain(folder)
            first = timetable(folder)
            if not first or first["status"] != "planned":
                continue
            note = lambda good, what: tally.note(f"seed {seed}", [] if good else [what])
            note(weeks_shift_everything(folder, first), "weeks do not shift everything")
            base = timetable(folder)
            day = dt.datetime.fromisoformat(base["steps"][0]["start"]).date().isoformat() if base["steps"] else None
            change(folder / "shop.json", lambda shop: shop.update(closed=[day] if day else []))
            closed = timetable(folder)
            note(never_later(closed, base) if closed and closed["ready"] else True, "a closed day made it earlier")
            change(folder / "shop.json", one_more)
            note(never_later(closed, timetable(folder)) if closed and closed["ready"] else True, "more made it later")
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
