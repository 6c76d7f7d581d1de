#!/usr/bin/env -S python3 -B
"""What plans say of dangers. Of every finish, laid by every one of its tools, and of 40 drawn pairs (seed 20270301): no plan
names two kinds of respiratory protection for one exposure, and where isocyanate is sprayed none beside supplied air. Then
jobs whose dangers are worked by hand: frost, stripping, dust and overspray that heat themselves, fresh air for the lungs."""
import json
import math
import random
import re
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "checker"))

import program

tally = program.Tally()
KINDS = {"supplied air": r"supplied air", "cartridge": r"organic-vapour cartridge", "dust respirator": r"dust respirator"}
OTHERS = re.compile(r"cartridge|respirator|\bmasks?\b|particle filter", re.I)
SPRAYED = {"hvlp", "conventional", "airless"}


def finishes():
    return {f["finish"]: f for f in json.loads(program.run("finishes", "--json")[1])["finishes"]}


def job(schedule, **more):
    return {"format": "coatwright-job/1", "job": "by hand", "zone": "Europe/Berlin", "start": "2027-03-01 08:00",
            "deliver": "2027-06-30", "deliver-at": "handle", "schedules": {"s": schedule},
            "parts": [{"part": "top", "length": "1000", "width": "500", "thickness": "20", "wood": "ash", "face": "s"}]} | more


def told(the_job):
    """The sentences of caution of a plan, and all of its text."""
    with program.scratch() as folder:
        path = Path(folder) / "job.json"
        path.write_text(json.dumps(the_job), encoding="utf-8")
        ends = ("--now", "2027-03-01", "--effort", "1")
        plan = json.loads(program.run("plan", path, "--json", *ends)[1])
        return plan["cautions"], program.run("plan", path, *ends)[1]


def kinds(text):
    return {name for name, pattern in KINDS.items() if re.search(pattern, re.sub(r"\s+", " ", text))}


def faults(cautions, text, names):
    """What is named twice for one exposure."""
    for name in names:
        mine = set().union(*(kinds(c) for c in cautions if name in c.split(": ")[0]))
        if len(mine) > 1:
            yield f"{name}: {sorted(mine)}"
    if "supplied air" in kinds(text) and OTHERS.search(text):
        yield f"beside supplied air: {OTHERS.search(text).group()}"


def coat(finish, tool):
    return [{"sand": 150}, {"coat": finish["finish"], "by": tool, "coats": 1}]


def each_finish(table):
    for finish in table.values():
        for tool in finish["by"]:
            cautions, text = told(job(coat(finish, tool)))
            found = list(faults(cautions, text, [finish["name"]]))
            isocyanate = "isocyanate" in finish["cautions"]
            if tool in SPRAYED and ("supplied air" in kinds(text)) != isocyanate:
                found.append("supplied air is for sprayed isocyanate")
            if tool not in SPRAYED and isocyanate and ("supplied air" in text or not re.search(r"training", text)):
                found.append("brushed: gloves, fresh air and training")
            tally.note(f"{finish['finish']} by {tool}", found)


def drawn_pairs(table):
    draw = random.Random(20270301)
    for _ in range(40):
        a, b = draw.sample(sorted(table), 2)
        steps = coat(table[a], draw.choice(table[a]["by"])) + coat(table[b], draw.choice(table[b]["by"]))
        tally.note(f"{a} and {b}", list(faults(*told(job(steps)), [table[a]["name"], table[b]["name"]])))


def any_of(cautions, *words):
    return any(all(w in c for w in words) for c in cautions)


def by_hand():
    cold = {"air": [{"from": "00:00", "temperature": "18 C", "humidity": "50 %"},
                    {"from": "18:00", "temperature": "-2 C", "humidity": "50 %"}]}
    water, varnish = [{"coat": "soap-finish", "coats": 1}], [{"coat": "brushing-varnish", "coats": 2, "between": {"sand": 320}}]
    two_hours = {"hours": {day: ["08:00-10:00"] for day in ("mon", "tue", "wed", "thu", "fri")}}
    cases = [
        ("dust of a scuff for a missed window", told(job([{"coat": "brushing-varnish", "coats": 2}], shop=two_hours))[0], ["wood dust"], True),
        ("no dust", told(job([{"coat": "brushing-varnish", "coats": 1}]))[0], ["wood dust"], False),
        ("frost", told(job(water, shop=cold))[0], ["frost", "film while it dries"], True),
        ("no frost", told(job(water))[0], ["frost"], False),
        ("stripping", told(job([{"task": "strip the old paint", "takes": "1 h"}, *varnish]))[0], ["lead", "caustic", "solvent"], True),
        ("no stripping", told(job(varnish))[0], ["lead"], False),
        ("dust heats itself", told(job(varnish))[0], ["sanding dust", "heats up by itself"], True),
        ("rags at once", told(job(varnish))[0], ["Brushing varnish: rags", "at once"], True),
        ("white spirit burns", told(job(varnish))[0], ["Brushing varnish: it burns"], True),
        ("oil thinned with it, too", told(job([{"coat": "boiled-linseed-oil", "coats": 1, "thin": "20 %"}]))[0], ["Boiled linseed oil: it burns"], True),
        ("oil alone does not", told(job([{"coat": "boiled-linseed-oil", "coats": 1}]))[0], ["it burns"], False),
        ("no lacquer beside alkyd", told(job([{"coat": "alkyd-primer", "by": "hvlp"}, {"coat": "nitrocellulose-lacquer"}]))[0],
         ["same booth or filter"], True),
        ("alkyd overspray", told(job([{"coat": "alkyd-primer", "by": "hvlp"}]))[0], ["overspray", "heats up"], True),
    ]
    for name, cautions, words, wanted in cases:
        tally.note(name, [] if any_of(cautions, *words) == wanted else [f"{words} in {cautions}"])


def air_of(cautions):
    """(what is said of fresh air, its cubic metres for the lungs)."""
    said = [c for c in cautions if "of fresh air" in c]
    found = re.search(r"([\d ]+) m³ of fresh air", said[0]) if len(said) == 1 else None
    return (said[0], int(found.group(1).replace(" ", ""))) if found else ("; ".join(said), None)


def fresh_air():
    """0.5 m2 of ash, which absorbs 1.25 times, at 11 m2/l and 10 ml in the brush: 66.8 ml of varnish at 390 g/l are 26.06 g of
    white spirit, and 350 mg/m3 (NIOSH) of it take 74.5 m3."""
    cautions, _ = told(job([{"coat": "brushing-varnish", "coats": 1}]))
    tally.note("air for the lungs", [] if any_of(cautions, "75 m³ of fresh air keep it under", "350 mg/m³") else cautions)


STEADY = {"air": [{"from": "00:00", "temperature": "20 C", "humidity": "50 %"}]}
WORKERS = [{"person": "Ann", "does": ["brush"]}, {"person": "Ben", "does": ["cloth"]}, {"person": "Cyd", "does": ["hvlp"]}]
VARNISH, SHELLAC, LACQUER = (1 / 11 + 0.010) * 390 / 0.350, (1 / 11 + 0.005) * 675 / 1.9, (1 / (10 * 0.65) + 0.030) * 668 / 0.375


def areas(*rows, **more):
    """A job of plain areas of beech, which absorbs once: (piece, m2, schedule)."""
    parts = [{"part": name, "piece": name, "shape": "area", "area": f"{m2} m2", "wood": "beech", "face": schedule}
             for name, m2, schedule in rows]
    schedules = {"varnish": [{"coat": "brushing-varnish", "coats": 1, "by": "brush"}],
                 "twice": [{"coat": "brushing-varnish", "coats": 2, "by": "brush"}],
                 "shellac": [{"coat": "shellac-dewaxed", "coats": 1, "by": "cloth"}],
                 "lacquer": [{"coat": "nitrocellulose-lacquer", "coats": 1, "by": "hvlp"}]}
    used = {name: steps for name, steps in schedules.items() if name in {row[2] for row in rows}}
    return job([], **{"shop": STEADY, "schedules": used, "parts": parts, "zone": "UTC"} | more)


def fresh_air_of_all_that_is_wet():
    """Grams of vapour over the limit of NIOSH (350, 1900, 375 mg/m3), in m3, summed over what is laid in a batch and over batches
    whose vapour meets: limits of a mixture are shares that add up (29 CFR 1910.1000(d)(2)(i)). Varnish on 3 m2 in one batch takes
    3/11 l, and 10 ml once; shellac and lacquer on 1 m2 each are laid beside it by two others. A second coat of varnish is laid when
    the first has long been dry, and is the smaller. Where nothing is planned what could be one batch counts as one, with the loss
    of each coat."""
    batch = (3 / 11 + 0.010) * 390 / 0.350
    pieces = [("a", 1, "varnish"), ("b", 2, "varnish")]
    together = [*pieces, ("c", 1, "shellac"), ("d", 1, "lacquer")]
    cases = [("one coat", areas(("a", 1, "varnish")), VARNISH, ["on a"]),
             ("one batch", areas(*pieces), batch, ["coats on", "350 mg/m³"]),
             ("three solvents at once", areas(*together, shop=STEADY | {"people": WORKERS}), batch + SHELLAC + LACQUER,
              ["Stoddard solvent", "ethyl alcohol", "toluene", "350, 1900 and 375"]),
             ("what cannot be planned", areas(*pieces, shop={"air": [{"from": "00:00", "temperature": "2 C", "humidity": "50 %"}]}),
              (3 / 11 + 2 * 0.010) * 390 / 0.350, ["a, b"]),
             ("coats of two days", areas(("a", 1, "twice")), VARNISH, ["on a"]),
             ("one after another while the first is wet", areas(("a", 1, "varnish"), ("d", 1, "lacquer"), pieces=[
                 {"piece": "a"}, {"piece": "d", "ready": "2027-03-01 09:00"}]), VARNISH + LACQUER, ["on a, d"])]
    for name, the_job, wanted, words in cases:
        said, found = air_of(told(the_job)[0])
        missing = [w for w in words if w not in said]
        tally.note(f"air for {name}", [] if found == math.ceil(wanted) and not missing else [f"{said}: by hand {wanted:.1f}, {missing}"])


def fresh_air_of_jobs_that_share_a_shop():
    """What two jobs lay in one batch or at one time meets in one room: each is told all of it. No loss here, which stands once
    a batch."""
    dry = STEADY | {"losses": {"brush": "0 ml"}}
    with program.scratch() as folder:
        paths = []
        for name, m2 in (("a", 1), ("b", 2)):
            paths.append(Path(folder) / f"{name}.json")
            paths[-1].write_text(json.dumps(areas((name, m2, "varnish"), job=name, shop=dry)), encoding="utf-8")
        text = program.run("timetable", *paths, "--now", "2027-03-01")[1]
    found = re.findall(r"([\d ]+) m³ of fresh air", re.sub(r"\s+", " ", text))
    wanted = math.ceil(3 / 11 * 390 / 0.350)
    tally.note("air for two jobs", [] if [int(f.replace(" ", "")) for f in found] == [wanted] * 2 else [f"{found}, by hand {wanted} twice"])


def whose_limits():
    for zone, words in (("Europe/Berlin", "the EU limit of 400"), ("Europe/London", "the UK limit of 400"),
                        ("America/New_York", "the US limit of 450")):
        cautions, _ = told(job([{"coat": "brushing-varnish", "coats": 1}], zone=zone))
        tally.note(f"limits in {zone}", [] if any_of(cautions, words) and not any(
            x in c for c in cautions for x in ("EU limit", "UK limit", "US limit") if x not in words) else cautions)
    own = told(job([{"coat": "brushing-varnish", "coats": 1}], zone="Asia/Tokyo", shop={"country": "US"}))[0]
    tally.note("as the shop says", [] if any_of(own, "the US limit of 450") else own)
    none = told(job([{"coat": "brushing-varnish", "coats": 1}], zone="Asia/Tokyo"))[0]
    tally.note("none known", [] if any_of(none, "VOC") and not any_of(none, "U limit") and not any_of(none, "US limit") else none)


def moisture():
    """12 % for a clear finish inside: UFGS-09995; 15 % outside is common practice."""
    for use, words in ((None, "at most 12 % moisture"), ("outdoors", "at most 15 % moisture")):
        _, text = told(job([{"coat": "exterior-oil", "coats": 1}], **({"pieces": [{"piece": "top", "use": [use]}]} if use else {})))
        tally.note(f"wood, {use or 'inside'}", [] if re.search(r"wood, assumed:\s+" + words, text) else [text])


if __name__ == "__main__":
    program.need()
    table = finishes()
    each_finish(table)
    drawn_pairs(table)
    by_hand()
    fresh_air()
    fresh_air_of_all_that_is_wet()
    fresh_air_of_jobs_that_share_a_shop()
    whose_limits()
    moisture()
    sys.exit(tally.close())
