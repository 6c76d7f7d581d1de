#!/usr/bin/env -S python3 -B
"""What plans say of dangers. Of every finish, laid by every one of its tools, and of 40 drawn pairs (seed 20270301): no plan
names two kinds of respiratory protection for one exposure, and where isocyanate is sprayed none beside supplied air. Then
jobs whose dangers are worked by hand: frost, stripping, dust and overspray that heat themselves, fresh air for the lungs."""
import json
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
    cases = [
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


def fresh_air():
    """0.5 m2 of ash, which absorbs 1.25 times, at 11 m2/l and 10 ml in the brush: 66.8 ml of varnish at 390 g/l are 26.06 g of
    white spirit, and 350 mg/m3 (NIOSH) of it take 74.5 m3."""
    cautions, _ = told(job([{"coat": "brushing-varnish", "coats": 1}]))
    tally.note("air for the lungs", [] if any_of(cautions, "75 m³ of fresh air keep it under", "350 mg/m³") else cautions)


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
    whose_limits()
    moisture()
    sys.exit(tally.close())
