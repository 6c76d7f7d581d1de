#!/usr/bin/env -S python3 -B
"""Patches of pieces: an area of a region that a schedule of its own treats after the work on bare wood and before the region's
first coat. Orders, amounts and areas worked by hand, mistakes at their places, and plans of many shapes by the independent checker."""
import json
import math
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "checker"))

import checker
import job_reader
import program

tally = program.Tally()
PATCH = {"schedule": "knots", "area": "400 cm2", "region": "face"}
VARNISH = [{"sand": 150}, {"coat": "brushing-varnish", "coats": 2, "by": "brush"}]
KNOTS = [{"sand": 180}, {"coat": "shellac-dewaxed", "coats": 1, "by": "brush"}]
SHOP = {"air": [{"from": "00:00", "temperature": "20 C", "humidity": "50 %"}], "losses": {"brush": "10 ml"}}
HOURS = {"hours": {day: ["08:00-10:00"] for day in ("mon", "tue", "wed", "thu", "fri")}}
BOARDS = {"part": "board", "piece": "top", "qty": 2, "length": "1000", "width": "500", "thickness": "20", "wood": "beech"}


def job(patch=None, laid="flat", varnished=VARNISH, knots=KNOTS, regions=("face", "back"), shop=SHOP, **piece):
    """Two beech boards, 1 m2 of face and 1 m2 of back together."""
    return {"format": "coatwright-job/1", "job": "patched", "zone": "UTC", "start": "2027-03-01 08:00", "deliver": "2027-06-30",
            "deliver-at": "handle", "shop": shop, "schedules": {"varnished": varnished, "knots": knots},
            "pieces": [{"piece": "top", "laid": laid, "patch": patch or PATCH, **piece}],
            "parts": [BOARDS | {r: "varnished" if r in regions else "-" for r in ("face", "back", "edges", "ends")}]}


def asked(command, the_job, *options):
    """(exit status, JSON or None, text of mistakes)."""
    with program.scratch() as folder:
        path = Path(folder) / "job.json"
        path.write_text(json.dumps(the_job), encoding="utf-8")
        code, out, errors = program.run(command, path, *options)
        read = job_reader.read_job(str(path), checker.TABLE) if command == "plan" else None
    return code, json.loads(out) if "--json" in options and code in (0, 1) else None, out + errors, read


def planned(the_job):
    _, plan, _, read = asked("plan", the_job, "--json", "--now", "2027-03-01")
    return plan, read


def order_of(plan):
    return [s["id"].removeprefix("top/") for s in plan["timetable"]["steps"]]


def orders():
    """All sanding of bare wood comes first. The patch of the face is treated with the face up, so the boards are turned over before
    the back gets its first coat; that of the back needs no turn. A missed window after the patch is opened on the patch alone."""
    face = ["varnished/0/sand-150", "knots/0f/sand-180", "knots/1f/apply", "varnished/0f/flip", "varnished/1b/apply", "varnished/1b/flip",
            "varnished/1f/apply"]
    one_coat = [VARNISH[0], VARNISH[1] | {"coats": 1}]
    late = [{"coat": "brushing-varnish", "coats": 1, "by": "brush"}]
    cases = [
        ("on the face", job(varnished=one_coat), face),
        ("on the back", job(PATCH | {"region": "back"}, varnished=one_coat),
         ["varnished/0/sand-150", "knots/0b/sand-180", "knots/1b/apply", "varnished/1b/apply", "varnished/1b/flip", "varnished/1f/apply"]),
        ("on a standing piece", job(laid="standing", varnished=one_coat),
         ["varnished/0/sand-150", "knots/0/sand-180", "knots/1/apply", "varnished/1/apply"]),
        ("sanding alone", job(varnished=one_coat, knots=KNOTS[:1]),
         [step for step in face if step != "knots/1f/apply"]),
        ("its window missed", job(laid="standing", varnished=one_coat, knots=late, shop=SHOP | HOURS),
         ["varnished/0/sand-150", "knots/1/apply", "knots/1/scuff-320", "varnished/1/apply"]),
    ]
    for name, the_job, wanted in cases:
        got = order_of(planned(the_job)[0])
        tally.note(f"order, {name}", [] if got == wanted else [f"{got}, by hand {wanted}"])


def amounts():
    """0.04 m2 of shellac at 11 m2/l and 10 ml that stay in the brush; the varnish is that of the boards without a patch: the region
    is coated once. Both boards are picked up for it: 1 min each, and 0.04 m2 at the brush's rate."""
    plan, _ = planned(job())
    without = job()
    del without["pieces"][0]["patch"], without["schedules"]["knots"]
    needs, plain = ({f["finish"]: f["need_l"]["likely"] for f in p["buy"]["finishes"]} for p in (plan, planned(without)[0]))
    tally.note("shellac of the patch", [] if math.isclose(needs["shellac-dewaxed"], 0.04 / 11 + 0.010, rel_tol=1e-9) else [f"{needs}"])
    tally.note("varnish of the boards", [] if math.isclose(needs["brushing-varnish"], plain["brushing-varnish"], rel_tol=1e-9)
               else [f"{needs}, without a patch {plain}"])
    sums = {r["schedule"]: r["area_m2"] for r in plan["area"]["by_schedule"]}
    told = (round(sums["varnished"], 9), round(sums["knots"], 9), round(plan["area"]["finished_m2"], 9))
    tally.note("areas", [] if told == (2.0, 0.04, 2.0) else [f"{told}"])
    marked = [(r["schedule"], round(r["area_m2"], 9)) for r in plan["area"]["surfaces"] if r.get("patch")]
    tally.note("the patch among the surfaces", [] if marked == [("knots", 0.04)] else [f"{marked}"])


def mistakes():
    cases = [
        ("no such region", PATCH | {"region": "inside"}, "/pieces/0/patch/region: expected a region of the piece that gets a schedule"),
        ("a bare region", PATCH | {"region": "edges"}, "/pieces/0/patch/region: expected a region of the piece that gets a schedule"),
        ("no region at all", PATCH | {"region": "side"}, "/pieces/0/patch/region: expected one of \"face\""),
        ("larger than the region", PATCH | {"area": "2 m2"}, "/pieces/0/patch/area: expected at most the 1.00 m² of the face, found 2.00 m²"),
        ("no area", PATCH | {"area": "0 m2"}, "/pieces/0/patch/area: expected an area from 1 mm2"),
        ("unknown schedule", PATCH | {"schedule": "knot"}, "/pieces/0/patch/schedule: expected a schedule of this job, found \"knot\" (did you"),
        ("the region's own schedule", PATCH | {"schedule": "varnished"}, "/pieces/0/patch/schedule: expected another schedule than that of"),
        ("no part of that name", PATCH | {"part": "leg"}, "/pieces/0/patch/part: expected a region of the piece that gets a schedule"),
        ("unknown key", PATCH | {"aera": "1 m2"}, "/pieces/0/patch/aera: expected a key of a patch, found \"aera\" (did you mean \"area\"?)"),
    ]
    for name, patch, wanted in cases:
        code, _, text, _ = asked("check", job(patch))
        tally.note(f"mistake, {name}", [] if code != 0 and wanted in text else [f"{code} {text}"])
    code, _, text, _ = asked("check", job())
    tally.note("no warning of a schedule that a patch uses", [] if code == 0 and "warning" not in text else [text])
    _, _, text, _ = asked("check", job(knots=[{"coat": "paste-wax", "coats": 1}]))
    tally.note("varnish over the wax of a patch", [] if "Brushing varnish over Paste wax" in text else [text])


def by_the_checker():
    hinted = [{"coat": "danish-oil", "coats": 2}, {"wait": "cured"}]
    cases = {"face": job(), "back": job(PATCH | {"region": "back"}), "standing": job(laid="standing"), "two lots": job(lots=2),
             "one side": job(regions=("face",)), "all round": job(PATCH | {"region": "edges"}, regions=("face", "back", "edges", "ends")),
             "a named part": job(PATCH | {"part": "board"}), "window": job(knots=VARNISH[1:], shop=SHOP | HOURS), "wait": job(knots=hinted)}
    for name, the_job in cases.items():
        plan, read = planned(the_job)
        tally.note(f"the checker, {name}", [f"{v.rule}: {v.text}" for v in checker.violations(read, plan)])


if __name__ == "__main__":
    program.need()
    orders()
    amounts()
    mistakes()
    by_the_checker()
    sys.exit(tally.close())
