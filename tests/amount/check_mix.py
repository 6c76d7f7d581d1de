#!/usr/bin/env -S python3 -B
"""Mixes as the program tells them: what is so of every one, on drawn amounts of the shipped table (seed 20270301), and two
jobs worked by hand in which the hour and the gun decide how large a mix may be."""
import json
import math
import random
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "checker"))

import program

tally = program.Tally()


def ask(*words):
    return json.loads(program.run(*words, "--json")[1])


def faults_of(mix, finish, thin, scale):
    """What is not so of one mix: sums, densities, steps of the scale, the ratio error."""
    known = {c["component"]: c for c in finish["components"]}
    parts = [c for c in mix["components"] if c["component"] in known]
    made = sum(c["ml"] for c in mix["components"])
    if made < mix["volume_ml"] * (1 - 1e-9):
        yield f"{made} ml of components make no {mix['volume_ml']} ml"
    shares = [known[c["component"]]["parts"] / (known[c["component"]]["density_kg_per_l"] if finish["mix_by"] == "mass" else 1)
              for c in parts]
    for c, share in zip(parts, shares):
        if not math.isclose(c["ml"] * (1 + thin), made * share / sum(shares), rel_tol=1e-9):
            yield f"{c['component']} is {c['ml']} of {made} ml"
        if not math.isclose(c["g"], c["ml"] * known[c["component"]]["density_kg_per_l"], rel_tol=1e-9):
            yield f"{c['component']}: {c['ml']} ml weigh no {c['g']} g"
        if abs(c["weigh_g"] / scale - round(c["weigh_g"] / scale)) > 1e-6:
            yield f"{c['component']}: {c['weigh_g']} g on a scale in steps of {scale} g"
    error = max((abs(c["weigh_g"] / parts[0]["weigh_g"] / (c["g"] / parts[0]["g"]) - 1) for c in parts[1:]), default=0)
    if not math.isclose(mix["ratio_error_pct"], 100 * error, rel_tol=1e-6, abs_tol=1e-6):
        yield f"ratio error {mix['ratio_error_pct']} %, it is {100 * error} %"
    if error > (finish["ratio_tolerance"] or 0) + 1e-9:
        yield f"{100 * error} % is more than allowed"


def drawn():
    draw = random.Random(20270301)
    finishes = ask("finishes")["finishes"]
    for _ in range(60):
        finish = draw.choice(finishes)
        ml, thin = round(10 ** draw.uniform(0.8, 3.5), 1), draw.choice([0, 0, 0.1, 0.5])
        scale = draw.choice([0.1, 1, 5])
        words = ["mix", finish["finish"], f"{ml} ml", "--scale", f"{scale} g", "--at", f"{draw.randint(8, 30)} C"]
        got = ask(*words, *(["--thin", f"{round(thin * 100)} %"] if thin else []))
        tally.note(" ".join(words), [f for mix in got["mixes"] for f in faults_of(mix, finish, thin, scale)])


def two_part(**more):
    text = json.loads((program.ROOT / "finishes/post-catalysed-varnish.json").read_text("utf-8"))
    return text | {"finish": "quick", "pot-life": "1 h", "induction": "0 min", "coverage": {"wet-film": "100 um", "tolerance": "10 %"},
                   "air": {"temperature": ["5 C", "35 C"], "humidity": ["0 %", "90 %"]}} | more


def mixes_of(finish, by, area, air, rate):
    """The mixes of one coat on a plain area."""
    shop = {"air": air, "rates": {by: rate}, "hours": {day: ["08:00-18:00"] for day in ("mon", "tue", "wed", "thu", "fri")}}
    job = {"format": "coatwright-job/1", "job": "by hand", "zone": "UTC", "start": "2027-03-01 08:00", "deliver": "2027-03-31",
           "shop": shop, "finishes": "own", "schedules": {"s": [{"coat": "quick", "coats": 1, "by": by}]},
           "parts": [{"part": "floor", "shape": "area", "area": area, "wood": "beech", "face": "s"}]}
    with program.scratch() as folder:
        own = Path(folder) / "own"
        own.mkdir()
        (own / "quick.json").write_text(json.dumps(finish), encoding="utf-8")
        (Path(folder) / "job.json").write_text(json.dumps(job), encoding="utf-8")
        return json.loads(program.run("mix", Path(folder) / "job.json", "--json", "--now", "2027-03-01")[1])["mixes"]


def the_hour_decides():
    """150 min to lay. At 10 C a pot of 60 min at 20 C lives 120 and is worked for 108: two mixes. But from 08:45 it is 25 C: 42 min,
    38 to work. Three mixes of 50 min or two of 75 would die; four of 37.5 do not."""
    air = [{"from": "00:00", "temperature": "10 C", "humidity": "50 %"}, {"from": "08:45", "temperature": "25 C", "humidity": "50 %"},
           {"from": "20:00", "temperature": "10 C", "humidity": "50 %"}]
    got = mixes_of(two_part(by=["hvlp", "brush"]), "brush", "25 m2", air, "10 m2/h")
    lives = [120.0] + [60 * 2 ** -0.5] * 3
    tally.note("mixes in air that warms", [] if [round(m["pot_life_min"], 6) for m in got] == [round(x, 6) for x in lives]
               else [f"{[m['pot_life_min'] for m in got]}, by hand {lives}"])
    tally.note("each is laid while it lives", [f"{m['apply_min']} of {m['pot_life_min']} min" for m in got
                                               if m["apply_min"] > 0.9 * m["pot_life_min"]])


def the_gun_decides():
    """A pot of 60 min at 20 C is worked for 54, but a gun takes 25 to be cleaned while it lives: 35. 40 min to lay are one mix by
    brush and two by gun."""
    air = [{"from": "00:00", "temperature": "20 C", "humidity": "50 %"}]
    for by, wanted in (("brush", [40.0]), ("hvlp", [20.0, 20.0])):
        got = mixes_of(two_part(by=["hvlp", "brush"]), by, "10 m2", air, "15 m2/h")
        tally.note(f"minutes of each mix by {by}", [] if [round(m["apply_min"], 6) for m in got] == wanted
                   else [f"{[m['apply_min'] for m in got]}, by hand {wanted}"])


def spoilt():
    """The rules see what is wrong."""
    finish = {f["finish"]: f for f in ask("finishes")["finishes"]}["hardwax-oil-two-part"]
    good = ask("mix", "hardwax-oil-two-part", "400 ml")["mixes"][0]
    for key, value in (("ml", 1), ("g", 1), ("weigh_g", 0.5), ("weigh_g", 1)):
        mix = json.loads(json.dumps(good))
        mix["components"][1][key] += value
        tally.note(f"{key} that is {value} off", [] if list(faults_of(mix, finish, 0, 1)) else ["is let pass"])


if __name__ == "__main__":
    program.need()
    drawn()
    the_hour_decides()
    the_gun_decides()
    spoilt()
    sys.exit(tally.close())
