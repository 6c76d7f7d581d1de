#!/usr/bin/env -S python3 -B
"""What the logs of a folder teach: a shop that is known is found, as well as the formula says; what was learned is written and planned with;
what cannot be read is told and left out. Litres and minutes are worked by hand: panels of 1 m2 of maple, Danish oil by cloth at 12 m2 a
litre, later 20, of which 5 ml stay in the cloth."""
import datetime as dt
import json
import math
import os
import random
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))

import checker
import job_reader
import program

LAID_ML = {1: 1000 / 12, 2: 50.0, 3: 50.0}
LOSS_ML, TOLERANCE = 5, 0.20


class Shop:
    """A folder of jobs of one panel each, with logs."""

    def __init__(self):
        self.folder = Path(tempfile.mkdtemp(dir=os.environ.get("TEST_TMP")))
        (self.folder / "own").mkdir()

    def job(self, name, own=True, log=None, **more):
        job = {"format": "coatwright-job/1", "job": name, "zone": "UTC", "start": "2027-03-01", "deliver": "2027-04-30",
               **({"finishes": "own"} if own else {}),
               "schedules": {"oil": [{"coat": "danish-oil", "coats": 3, "by": "cloth"}]},
               "parts": [{"part": "panel", "piece": "panel", "length": 1000, "width": 1000, "thickness": 20, "wood": "maple", "face": "oil", "back": "-"}],
               **more}
        path = self.folder / f"{name}.json"
        path.write_text(json.dumps(job))
        if log is not None:
            path.with_suffix(".log").write_text("".join(json.dumps({"entry": i + 1, **entry}) + "\n" for i, entry in enumerate(log)))
        return path

    def learned(self, *options):
        code, out, err = program.run("learned", self.folder, "--json", *options)
        assert code == 0, (code, out, err)
        return json.loads(out), err

    def row(self, *options):
        return next(row for row in self.learned(*options)[0]["learned"] if (row["finish"], row["tool"]) == ("danish-oil", "cloth"))


def entry(coat, ratio, minutes=None, batch=None, **more):
    """A coat that took so many times its litres, and minutes where they were measured."""
    return {"step": f"panel/oil/{coat}/apply", "done": f"2027-03-{coat:02}T08:{minutes or 30:02}Z",
            **({"began": f"2027-03-{coat:02}T08:00Z"} if minutes else {}),
            **({"batch": batch} if batch else {}),
            **({"used": f"{LAID_ML[coat] * ratio + LOSS_ML:.9f} ml"} if ratio else {}), **more}


def estimate(logs, tolerance=TOLERANCE):
    """The formula of the method, written once more."""
    n, logs = len(logs), [max(-math.log(2), min(math.log(2), y)) for y in logs]
    mean = sum(logs) / n if n else 0
    s2 = (4 * tolerance ** 2 / 8 + sum((y - mean) ** 2 for y in logs) + n / (n + 1) * mean ** 2) / (4 + n)
    return math.exp(n * mean / (n + 1)), 2 * math.sqrt(s2 * (1 + 1 / (n + 1)))


def near(got, want, by=1e-6):
    return abs(got - want) <= by * abs(want)


def check(tally, held, what):
    tally.note(what, [] if held else ["does not hold"])


def by_hand(tally):
    """Three coats that take 1.1, 1.2 and 1.3 times: factor 1.1445, tolerance 20.40 %; 12 / 1.1445 = 10.485, 20 / 1.1445 = 17.474."""
    shop = Shop()
    shop.job("one", log=[entry(1, 1.1), entry(2, 1.2), entry(3, 1.3)])
    row = shop.row()
    coverage = row["coverage_m2_per_l"]
    check(tally, coverage["table"] == {"first": 12, "later": 20, "tolerance": 0.2}, f"by hand: the table's {coverage}")
    check(tally, near(coverage["learned"]["first"], 10.485, 1e-4) and near(coverage["learned"]["later"], 17.474, 1e-4) and
                near(coverage["learned"]["tolerance"], 0.2040, 1e-4), f"by hand: {coverage}")
    check(tally, (coverage["coats"], coverage["batches"], coverage["bounded"]) == (3, 3, 0), f"by hand: how many {coverage}")
    check(tally, row["minutes"]["coats"] == 0 and row["minutes"]["factor"] == 1 and near(row["minutes"]["tolerance"], 0.3), f"by hand: no minutes {row}")
    code, out, err = program.run("learned", shop.folder)
    check(tally, code == 0 and "10.5 m²/L ± 20 %" in out and "3 coats" in out and not err, f"by hand: {out} {err}")


def nothing_seen(tally):
    shop = Shop()
    shop.job("one")
    row, found = shop.row(), shop.learned()[0]
    check(tally, row["coverage_m2_per_l"]["learned"] == row["coverage_m2_per_l"]["table"] or
                near(row["coverage_m2_per_l"]["learned"]["tolerance"], 0.2) and row["coverage_m2_per_l"]["learned"]["first"] == 12, f"none: {row}")
    check(tally, row["loss_l"] == {"table": 0.005, "learned": 0.005, "batches": 0}, f"none: loss {row}")
    check(tally, (found["jobs"], found["logs"]) == (1, 0), f"none: {found}")
    code, out, _ = program.run("learned", shop.folder)
    check(tally, code == 0 and "Nothing was measured yet" in out, f"none: {out}")
    shop.learned("--write")
    check(tally, not list((shop.folder / "own").iterdir()), "none: nothing is written")


def minutes(tally):
    """Only what was measured teaches; the break from 12:00 to 13:00 is not worked."""
    shop = Shop()
    path = shop.job("one")
    found, _ = program.plan(path, "--now", "2027-03-01T08:00Z")
    planned = next(s for s in found["timetable"]["steps"] if s["id"] == "panel/oil/1/apply")
    shop.job("one", log=[entry(1, None, 40), {**entry(2, None), "began": "2027-03-02T11:50Z", "done": "2027-03-02T13:20Z"},
                         entry(3, None, 55, **{"as-planned": True})])
    row = shop.row()["minutes"]
    check(tally, row["coats"] == 2, f"minutes: {row}")
    # The units of a coat are those of its step before it is rounded up to a whole minute.
    begin, end = (int(planned[key][11:13]) * 60 + int(planned[key][14:16]) for key in ("start", "end"))
    low, high = (estimate([math.log(40 / m), math.log(30 / m)], 0.3)[0] for m in (end - begin, end - begin - 1))
    check(tally, low <= row["factor"] <= high, f"minutes: {row}, {low} to {high}")
    shop = Shop()
    path = shop.job("one")
    code, out, err = program.run("done", path, "apply/danish-oil/1/1", "--at", "09:30", "--used", "90 ml", "--now", "2027-03-01T10:00Z")
    check(tally, code == 0 and '"as-planned": true' in path.with_suffix(".log").read_text(), f"minutes: a batch at once {out} {err}")
    code, out, err = program.run("done", path, "panel/oil/2/apply", "--began", "08:00", "--at", "08:40", "--now", "2027-03-02T10:00Z")
    check(tally, code == 0 and path.with_suffix(".log").read_text().count("as-planned") == 1, f"minutes: a step by itself {out} {err}")
    row = shop.row()
    check(tally, row["minutes"]["coats"] == 1 and row["coverage_m2_per_l"]["coats"] == 1, f"minutes: recorded by the program {row}")


def one_batch(tally):
    """Two panels of one batch whose 5 ml in the cloth are lost once: one observation of two coats."""
    shop = Shop()
    parts = [{"part": f"panel {k}", "piece": k, "length": 1000, "width": 1000, "thickness": 20, "wood": "maple", "face": "oil", "back": "-"} for k in "ab"]
    used = (2 * LAID_ML[1] * 1.2 + LOSS_ML) / 2
    shop.job("one", parts=parts, log=[{"step": f"{k}/oil/1/apply", "done": "2027-03-01T09:00Z", "used": f"{used:.9f} ml", "batch": "apply/danish-oil/1/1"} for k in "ab"])
    coverage = shop.row()["coverage_m2_per_l"]
    want, _ = estimate([math.log(1.2)])
    check(tally, near(coverage["learned"]["first"], 12 / want) and (coverage["coats"], coverage["batches"]) == (2, 1), f"batch: {coverage}")


def several_lots(tally):
    """A step of two lots recorded in one go: what was used is shared by them, and their minutes are not known apart."""
    shop = Shop()
    parts = [{"part": "panel", "piece": "panel", "qty": 3, "length": 1000, "width": 1000, "thickness": 20, "wood": "maple", "face": "oil", "back": "-"}]
    path = shop.job("one", parts=parts, pieces=[{"piece": "panel", "lots": 2}])
    code, out, err = program.run("done", path, "panel/oil/1/apply", "--used", "300 ml", "--began", "08:00", "--at", "10:00", "--now", "2027-03-01T17:00Z")
    entries = [json.loads(line) for line in path.with_suffix(".log").read_text().splitlines()]
    used = [float(e["used"].split()[0]) * {"ml": 1, "l": 1000}[e["used"].split()[1]] for e in entries]
    check(tally, code == 0 and len(used) == 2 and near(sum(used), 300) and near(max(used), 200, 0.02), f"two lots: {entries} {out} {err}")
    check(tally, shop.row()["minutes"]["coats"] == 0, f"two lots: {shop.row()}")


def error_falls(tally):
    """Logs drawn of shops whose coverage is known: the mean square of the error is (t^2 + n d^2) / (n + 1)^2."""
    seed = int(os.environ.get("SEED", "20270301"))
    draw, off, scatter, before = random.Random(seed), 0.14, 0.06, math.inf
    for jobs in (1, 3, 9):
        squares, rounds = 0, 40
        for _ in range(rounds):
            shop, logs = Shop(), []
            for job in range(jobs):
                ys = [draw.gauss(off, scatter) for _ in range(3)]
                logs += ys
                shop.job(f"job{job}", log=[entry(coat + 1, math.exp(y)) for coat, y in enumerate(ys)])
            got = shop.row()["coverage_m2_per_l"]["learned"]
            want = estimate(logs)
            if not (near(got["first"], 12 / want[0]) and near(got["tolerance"], want[1])):
                check(tally, False, f"seed {seed}: {got}, {want}")
            squares += (math.log(12 / got["first"]) - off) ** 2 / rounds
        n = 3 * jobs
        expected = (off ** 2 + n * scatter ** 2) / (n + 1) ** 2
        check(tally, 0.6 < squares / expected < 1.6 and squares < before, f"seed {seed}, {n} coats: {squares} by {expected}")
        before = squares


def absurd(tally):
    """An entry of ten times moves the estimate by 2^(1/(n+1)) where the others are as planned, and is told."""
    shop = Shop()
    for job in range(3):
        shop.job(f"job{job}", log=[entry(1, 1), entry(2, 1), entry(3, 10 if job == 2 else 1)])
    coverage = shop.row()["coverage_m2_per_l"]
    check(tally, near(coverage["learned"]["first"], 12 / 2 ** (1 / 10)) and coverage["bounded"] == 1, f"absurd: {coverage}")
    _, out, _ = program.run("learned", shop.folder)
    check(tally, "counted as that" in " ".join(out.split()), f"absurd: {out}")


def taken_back(tally):
    shop = Shop()
    shop.job("one", log=[entry(1, 1.3), {"undo": 1}])
    check(tally, shop.row()["coverage_m2_per_l"]["coats"] == 0, "what was taken back teaches nothing")


def written(tally):
    """Jobs plan with what was written; learning again is still against the table; a file of the shop's own is left."""
    shop = Shop()
    path = shop.job("one", log=[entry(1, 1.1), entry(2, 1.2), entry(3, 1.3)])
    other = shop.job("other")
    before, _ = program.plan(other)
    found, _ = shop.learned("--write")
    file = shop.folder / "own" / "danish-oil.json"
    check(tally, found["files"] == [{"file": str(file), "what": "written"}], f"written: {found['files']}")
    finish = json.loads(file.read_text())
    check(tally, finish["coverage"] == {"first": "10.5 m2/l", "later": "17.5 m2/l", "tolerance": "20.4 %"}, f"written: {finish['coverage']}")
    check(tally, finish["sources"]["coverage"].startswith("learned from 3 coats of this shop"), f"written: {finish['sources']['coverage']}")
    shipped = json.loads((program.ROOT / "finishes" / "danish-oil.json").read_text())
    del shipped["coverage"], finish["coverage"], shipped["sources"]["coverage"], finish["sources"]["coverage"]
    check(tally, finish == shipped, "written: all else is the table's")
    after, _ = program.plan(other)
    need = [next(f["need_l"] for f in plan["buy"]["finishes"]) for plan in (before, after)]
    laid = (1 / 10.5 + 2 / 17.5) / (1 / 12 + 2 / 20)
    want = ((need[0]["likely"] - 0.015) * laid + 0.015)
    check(tally, near(need[1]["likely"], want) and near(need[1]["high"], want * 1.204), f"written: planned with {need}, {want}")
    again, _ = shop.learned("--write")
    check(tally, again["files"] == [{"file": str(file), "what": "replaced"}] and again["learned"] == found["learned"], f"written again: {again}")
    finish = json.loads(file.read_text())
    finish["sources"]["coverage"] = "the label of our can, 2026"
    finish["coverage"] = {"first": "10 m2/l", "later": "16 m2/l", "tolerance": "10 %"}
    file.write_text(json.dumps(finish))
    mine = file.read_bytes()
    left, _ = shop.learned("--write")
    check(tally, left["files"] == [{"file": str(file), "what": "left"}] and file.read_bytes() == mine, f"the shop's own is left: {left['files']}")
    want, _ = estimate([math.log(r * 10 / 12) if coat == 1 else math.log(r * 16 / 20) for coat, r in ((1, 1.1), (2, 1.2), (3, 1.3))], 0.1)
    table = next(row for row in left["learned"])["coverage_m2_per_l"]
    check(tally, table["table"]["first"] == 10 and near(table["learned"]["first"], 10 / want), f"learned against the shop's own: {table}")
    file.unlink()
    file.symlink_to(shop.folder / "elsewhere.json")
    code, out, err = program.run("learned", shop.folder, "--write")
    check(tally, code != 0 and not (shop.folder / "elsewhere.json").exists(), f"no link is written through: {code} {out} {err}")
    del path


def for_the_chance(tally):
    """Minutes are written for --chance and loss for the tool: three coats that took a third longer than the units that were planned."""
    shop = Shop()
    path = shop.job("one")
    found, _ = program.plan(path, "--now", "2027-03-01T08:00Z")
    coats = [s for s in found["timetable"]["steps"] if s["id"].endswith("/apply")]
    spans = [dt.datetime.fromisoformat(s["end"]) - dt.datetime.fromisoformat(s["start"]) for s in coats]
    took = [round(span.total_seconds() / 60 * 4 / 3) for span in spans]
    shop.job("one", log=[entry(coat, 1, minutes) for coat, minutes in enumerate(took, 1)])
    before = chance_of(shop.job("other"))
    check(tally, before["learned"] == [], f"chance, before: {before}")
    row = shop.row("--write")["minutes"]
    check(tally, row["coats"] == 3 and row["factor"] > 1.15, f"chance: {row}")
    finish = json.loads((shop.folder / "own" / "danish-oil.json").read_text())
    learned = finish["by-tool"]["cloth"]["minutes"]
    check(tally, near(learned["times"], row["factor"], 0.005) and near(float(learned["tolerance"].split()[0]) / 100, row["tolerance"], 0.005), f"chance: written {learned}, {row}")
    check(tally, "loss" not in finish["by-tool"]["cloth"] and finish["sources"]["by-tool"].startswith("learned from "), f"chance: {finish['by-tool']}")
    after = chance_of(shop.folder / "other.json")
    told = after["learned"][0]
    check(tally, len(after["learned"]) == 1 and (told["finish"], told["tool"], told["factor"]) == ("danish-oil", "cloth", learned["times"]) and
                near(told["tolerance"] * 100, float(learned["tolerance"].split()[0])), f"chance: told {after}")
    _, out, _ = program.run("timetable", shop.folder / "other.json", "--chance")
    check(tally, "coats of Danish oil by cloth take" in " ".join(out.split()) and "other work by hand" in " ".join(out.split()), f"chance: in words {out[-700:]}")
    again, _ = shop.learned("--write")
    check(tally, near(again["learned"][0]["minutes"]["factor"], row["factor"]), f"chance: learned again against the rates of the shop {again}")


def chance_of(path):
    code, out, err = program.run("timetable", path, "--chance", "--json", "--now", "2027-03-01T08:00Z")
    assert code in (0, 1), (code, err)
    return json.loads(out)["chance"]


def loss_written(tally):
    """Four batches of which the largest lays four times what the smallest does, each 1.2 times its litres and 30 ml in the cloth: with the
    table's 5 ml as one batch more (5 + 4 x 30) / 5 = 25 ml, from which the next job is planned."""
    shop = Shop()
    for k, length in enumerate((500, 1000, 1500, 2000)):
        part = {"part": "panel", "piece": "panel", "length": length, "width": 1000, "thickness": 20, "wood": "maple", "face": "oil", "back": "-"}
        shop.job(f"job{k}", parts=[part], log=[{"step": "panel/oil/1/apply", "done": "2027-03-01T09:00Z", "used": f"{1.2 * LAID_ML[1] * length / 1000 + 30:.9f} ml"}])
    loss = shop.row("--write")["loss_l"]
    check(tally, near(loss["learned"], 0.025) and loss["batches"] == 4, f"loss: {loss}")
    finish = json.loads((shop.folder / "own" / "danish-oil.json").read_text())
    check(tally, finish["by-tool"] == {"cloth": {"loss": "25 ml"}}, f"loss: written {finish['by-tool']}")
    other = shop.job("other")
    plan, _ = program.plan(other)
    first, later, tolerance = (float(finish["coverage"][key].split()[0]) for key in ("first", "later", "tolerance"))
    want = 1 / first + 2 / later + 3 * 0.025
    need = plan["buy"]["finishes"][0]["need_l"]
    check(tally, near(need["likely"], want) and near(need["high"], want * (1 + tolerance / 100)) and near(need["low"], want * (1 - tolerance / 100)), f"loss: planned with {need}, {want}")
    tally.note("loss: the checker", [f"{v.rule}: {v.text}" for v in checker.violations(job_reader.read_job(other, checker.TABLE), plan)])
    again, _ = shop.learned()
    check(tally, again["learned"][0]["loss_l"] == loss, f"loss: learned again {again['learned'][0]['loss_l']}")


def refusals(tally):
    shop = Shop()
    rows = [(["learned"], 2, "expected FOLDER after learned"), (["learned", shop.folder / "none"], 4, "no such folder"),
            (["learned", shop.folder], 3, "expected a folder with a job, found none")]
    for words, status, told in rows:
        code, out, err = program.run(*words)
        check(tally, code == status and told in err and not out, f"{words}: {code} {err}")
    (shop.folder / "notes.json").write_text('{"format": "coatwright-shop/1"}')
    (shop.folder / "broken.json").write_text('{"format": ')
    shop.job("bad", deliver="soon", zone="Nowhere")
    code, _, err = program.run("learned", shop.folder)
    check(tally, code == 3 and "only jobs with mistakes" in err and "bad.json: warning: this job is left out: it has 2 mistakes" in err, f"bad: {code} {err}")
    shop.job("good", own=False, log=[entry(1, 1.2)])
    found, err = shop.learned()
    check(tally, found["jobs"] == 1 and "this job is left out" in err, f"one good, one bad: {found} {err}")
    code, _, err = program.run("learned", shop.folder, "--write")
    check(tally, code == 2 and "under finishes" in err, f"no folder of own finishes: {code} {err}")
    shop.job("good", log=[entry(1, 1.2), {**entry(2, 1.2), "step": "lid/oil/2/apply"}])
    found, err = shop.learned()
    check(tally, found["learned"][0]["coverage_m2_per_l"]["coats"] == 1 and "good.log: warning: 1 entry names no step of the job" in err, f"stray: {err}")
    shop.job("good", log=[entry(1, 1.2)])
    with open(shop.folder / "good.log", "a", encoding="utf-8") as log:
        log.write('{"entry": 2, "step": "panel/oil/2/app')
    found, err = shop.learned()
    check(tally, found["learned"][0]["coverage_m2_per_l"]["coats"] == 1 and "good.log:2:1: warning: the last line is not finished" in err, f"torn: {err}")


def main():
    program.need()
    tally = program.Tally()
    for case in (by_hand, nothing_seen, minutes, one_batch, several_lots, error_falls, absurd, taken_back, written, for_the_chance, loss_written, refusals):
        case(tally)
    sys.exit(tally.close())


if __name__ == "__main__":
    main()
