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


HOURS = {"hours": {day: ["08:00-18:00"] for day in ("mon", "tue", "wed", "thu", "fri")}}
STEADY = {"air": [{"from": "00:00", "temperature": "20 C", "humidity": "50 %"}]}


def told_by(command, finish, by, parts, shop, *options):
    """What a command says in JSON of one coat of a finish of our own."""
    job = {"format": "coatwright-job/1", "job": "by hand", "zone": "UTC", "start": "2027-03-01 08:00", "deliver": "2027-03-31",
           "shop": HOURS | shop, "finishes": "own", "schedules": {"s": [{"coat": "quick", "coats": 1, "by": by}]}, "parts": parts}
    with program.scratch() as folder:
        own = Path(folder) / "own"
        own.mkdir()
        (own / "quick.json").write_text(json.dumps(finish), encoding="utf-8")
        (Path(folder) / "job.json").write_text(json.dumps(job), encoding="utf-8")
        return json.loads(program.run(command, Path(folder) / "job.json", "--json", "--now", "2027-03-01", *options)[1])


def floor(area):
    return [{"part": "floor", "shape": "area", "area": area, "wood": "beech", "face": "s"}]


def mixes_of(finish, by, area, air, rate):
    """The mixes of one coat on a plain area."""
    return told_by("mix", finish, by, floor(area), {"air": air, "rates": {by: rate}})["mixes"]


def the_hour_decides():
    """150 min to lay. At 10 C a pot of 60 min at 20 C lives 120 and is worked for 108: two mixes. But from 08:45 it is 25 C: 42 min,
    38 to work. Three mixes of 50 min or two of 75 would die; four do not: the first is stirred in the cold."""
    air = [{"from": "00:00", "temperature": "10 C", "humidity": "50 %"}, {"from": "08:45", "temperature": "25 C", "humidity": "50 %"},
           {"from": "20:00", "temperature": "10 C", "humidity": "50 %"}]
    got = mixes_of(two_part(by=["hvlp", "brush"]), "brush", "25 m2", air, "10 m2/h")
    lives = [120.0] + [60 * 2 ** -0.5] * 3
    tally.note("mixes in air that warms", [] if [round(m["pot_life_min"], 6) for m in got] == [round(x, 6) for x in lives]
               else [f"{[m['pot_life_min'] for m in got]}, by hand {lives}"])
    tally.note("each is laid while it lives", [f"{m['apply_min']} of {m['pot_life_min']} min" for m in got
                                               if m["apply_min"] > 0.9 * m["pot_life_min"]])


def the_gun_decides():
    """A pot of 60 min at 20 C is worked for 54, but a gun takes 25 to be cleaned while it lives: 35. 10 m2 at 15 m2/h are 40 min, and
    1 to pick the part up, by gun 1.5: one mix by brush, by gun 35 min and then 6.5 of another. Mixes follow one another as the work
    needs them, each as much as can be applied while it lives."""
    for by, wanted in (("brush", [41.0]), ("hvlp", [35.0, 6.5])):
        got = mixes_of(two_part(by=["hvlp", "brush"]), by, "10 m2", STEADY["air"], "15 m2/h")
        tally.note(f"minutes of each mix by {by}", [] if [round(m["apply_min"], 6) for m in got] == wanted
                   else [f"{[m['apply_min'] for m in got]}, by hand {wanted}"])


def moments(mix):
    return [mix[key][11:16] for key in ("mixed_at", "apply_by", "pot_life_ends")]


def sticks_take_longer_for_a_litre():
    """Ten panels of 1 m2, then twenty sticks of 0.1 m2, which go half as fast; 10 m2/l, 10 ml stay in the brush. A panel takes 4 min
    and 1 to pick it up, a stick 0.8 and 1: 50 min on 1 l, 36 min on 0.2 l. The first mix serves 54 min: all panels and two sticks
    (53.6 min), 1.02 of the 1.2 l, though it is 62 % of the minutes. With the loss shared alike 1.21 l are mixed. Set-up is 10 min, a
    mix 5: the first is made at 08:10, applied by 09:09 and dead at 09:15, the second 53.6 min after 08:15, told on the full minute."""
    parts = [{"part": "panel", "piece": "p", "qty": 10, "length": "1000", "width": "1000", "thickness": "20", "wood": "beech", "face": "s"},
             {"part": "stick", "piece": "p", "qty": 20, "length": "2000", "width": "50", "thickness": "20", "wood": "beech", "face": "s"}]
    got = told_by("mix", two_part(by=["brush"]), "brush", parts, STEADY | {"rates": {"brush": "15 m2/h"}, "losses": {"brush": "10 ml"}})["mixes"]
    litres = [1.21 * 1.02 / 1.2, 1.21 * 0.18 / 1.2]
    tally.note("litres of mixes", [] if len(got) == 2 and all(math.isclose(m["volume_ml"], 1000 * x, rel_tol=1e-6) for m, x in zip(got, litres))
               else [f"{[m['volume_ml'] for m in got]}, by hand {litres}"])
    tally.note("minutes of mixes", [] if [round(m["apply_min"], 2) for m in got] == [53.6, 32.4] else [f"{[m['apply_min'] for m in got]}"])
    parts_of = [[(s["from_part"], s["to_part"], s["parts"]) for s in m["serves"]] for m in got]
    tally.note("parts of mixes", [] if parts_of == [[(1, 12, 30)], [(13, 30, 30)]] else [f"{parts_of}"])
    told = [moments(m) for m in got]
    tally.note("moments of mixes", [] if told == [["08:10", "09:09", "09:15"], ["09:09", "10:08", "10:14"]] else [f"{told}"])


def the_next_stands_while_the_one_before_is_applied():
    """The panels and sticks again, with a finish that stands 10 min before use: worked for (60 - 10) x 0.9 = 45 min. Set-up until
    08:10, stirred until 08:15, from 08:25 nine panels of 5 min until 09:10. The second is first used at 09:15, so that it is stirred
    from 09:00: applied by 10:00, dead at 10:05."""
    parts = [{"part": "panel", "piece": "p", "qty": 10, "length": "1000", "width": "1000", "thickness": "20", "wood": "beech", "face": "s"},
             {"part": "stick", "piece": "p", "qty": 20, "length": "2000", "width": "50", "thickness": "20", "wood": "beech", "face": "s"}]
    shop = STEADY | {"rates": {"brush": "15 m2/h"}}
    got = told_by("mix", two_part(by=["brush"], induction="10 min"), "brush", parts, shop)["mixes"]
    told = [moments(m) for m in got]
    tally.note("moments of mixes that stand", [] if told == [["08:10", "09:10", "09:15"], ["09:00", "10:00", "10:05"]] else [f"{told}"])


def two_people_have_mixes_of_their_own():
    """Two pieces of 10 m2, 41 min each: alone one person makes two mixes, one after the other; where each does one piece each has
    a mix at 08:10, of the piece and a loss of its own."""
    parts = [{**floor("10 m2")[0], "part": name, "piece": name} for name in ("a", "b")]
    alone = STEADY | {"rates": {"brush": "15 m2/h"}, "losses": {"brush": "10 ml"}}
    both = alone | {"people": [{"person": "Ann"}, {"person": "Ben"}]}
    finish = two_part(by=["brush"])
    one = told_by("mix", finish, "brush", parts, alone)["mixes"]
    tally.note("mixes of one person", [] if [(m["pieces"], moments(m)[0], round(m["volume_ml"], 3)) for m in one] ==
               [(["a"], "08:10", 1005.0), (["b"], "08:56", 1005.0)] else [f"{one}"])
    plan = told_by("plan", finish, "brush", parts, both, "--soonest")
    two = [(m["pieces"], moments(m), round(m["volume_ml"], 3)) for m in plan["mix"]["mixes"]]
    tally.note("mixes of two people", [] if sorted(two) == [([p], ["08:10", "09:09", "09:15"], 1010.0) for p in ("a", "b")] else [f"{two}"])
    people = {b["person"] for b in plan["timetable"]["batches"]}
    tally.note("two people", [] if people == {"Ann", "Ben"} else [f"{people}"])


def mix_and_plan_agree():
    """Both tell the mixes of one plan."""
    for path in program.examples():
        words = (path, "--json", "--now", "2027-02-26")
        mixes, plan = (json.loads(program.run(command, *words)[1]) for command in ("mix", "plan"))
        tally.note(f"mix and plan, {path.name}", [] if plan["mix"] == {k: mixes[k] for k in plan["mix"]} else ["they differ"])


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
    sticks_take_longer_for_a_litre()
    the_next_stands_while_the_one_before_is_applied()
    two_people_have_mixes_of_their_own()
    mix_and_plan_agree()
    spoilt()
    sys.exit(tally.close())
