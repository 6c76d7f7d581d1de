"""Finishes of a generated job's own shop: narrow recoat windows, induction, short pots, every way of drying, prices."""

PREPARED = ["components", "mix", "pot-life", "induction", "coverage", "coats", "times", "later-times", "wipe-off", "late-recoat",
            "air", "resists", "packs", "flip", "shelf-life", "solids", "voc"]


def components(chance):
    """One or two components with priced packs, and how they are mixed."""
    packs = [{"size": size, "price": price} for size, price in (("250 ml", "9.50"), ("1 l", "27.00"), ("2.5 l", "61.00"))]
    first = {"component": "lacquer", "parts": chance.choice([1, 2, 4, 10]), "density": "1.02 kg/l", "packs": packs,
             "opened-life": chance.choice(["2 wk", "6 mo"])}
    if chance.random() < 0.5:
        return {"components": [{**first, "parts": 1}]}
    second = {"component": "hardener", "parts": 1, "density": "1.11 kg/l", "packs": packs[:2]}
    return {"components": [first, second], "mix-by": chance.choice(["volume", "mass"]), "ratio-tolerance": "5 %",
            "pot-life": f"{chance.randint(2, 8)} h", "induction": chance.choice(["0 min", "10 min", "30 min"])}


def times(chance):
    """Times in their order, with a window of a few hours to a few days."""
    handle, recoat = chance.randint(1, 5), chance.randint(2, 10)
    window = recoat + chance.choice([10, 20, 40, 80, 200])
    found = {"dust-free": f"{chance.choice([15, 30, 60])} min", "handle": f"{handle} h", "recoat": [f"{recoat} h", f"{window} h"],
             "light-use": "24 h", "cured": f"{chance.randint(2, 9)} d", "at": chance.choice(["20 C 50 %", "23 C 50 %"])}
    if chance.random() < 0.5:
        found["sand"] = f"{recoat + chance.randint(0, 4)} h"
    return found


def coats(chance):
    found = {"usual": chance.randint(1, 3), "most": 6}
    return {**found, **({"a-day": chance.randint(1, 2)} if chance.random() < 0.5 else {})}


def finish(chance):
    """A finish of the shop's own."""
    record = {"format": "coatwright-finish/1", "finish": "house-finish", "name": "House finish", "family": "lacquer",
              "dries-by": chance.choice(["oxidation", "solvent", "water", "reaction", "moisture", "none"]), **components(chance),
              "coverage": chance.choice([{"first": "9 m2/l", "later": "11 m2/l", "tolerance": "15 %"},
                                         {"first": "110 g/m2", "later": "100 g/m2", "tolerance": "15 %"},
                                         {"wet-film": "100 um", "tolerance": "20 %"}]),
              "by": ["brush", "cloth"], "coats": coats(chance), "flip": chance.choice(["now", "handle"]), "times": times(chance),
              "late-recoat": chance.choice(["scuff", "scuff", "refuse"]),
              "air": {"temperature": ["10 C", "32 C"], "humidity": ["0 %", "85 %"]},
              "resists": {"water": 1, "alcohol": 1, "heat": 1, "wear": 1, "outdoors": 0}, "cautions": [],
              "sources": {group: "made up" for group in PREPARED}}
    if chance.random() < 0.3:
        record["between"] = chance.choice([{"sand": 320}, {"scuff": 400}])
    if chance.random() < 0.3:
        record["later-times"] = {"recoat": ["3 h", "90 h"]}
    if chance.random() < 0.3:
        record["wipe-off"] = ["5 min", "20 min"]
    return record


def stock(chance, day):
    """Rows of a shelf: one that keeps, one long open, one past its day."""
    rows = [("house-finish", "lacquer", "300 ml", "", ""), ("shellac-dewaxed", "", "0.4 kg", "2026-06-01", ""),
            ("wiping-varnish", "", "250 ml", str(day), "2028-01-01"), ("brushing-varnish", "", "1 l", "", "2027-01-31")]
    return [",".join(row) for row in ["finish component amount opened best-before".split(), *chance.sample(rows, 3)]]
