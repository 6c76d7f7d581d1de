#!/usr/bin/env python3
"""Sanity of the shipped finish table, read here without the program: orders of times, published ranges, sources,
and densities, solids and solvent that can be true together. Each rule also has to refuse a spoiled finish."""
import copy
import json
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
FOLDER = ROOT / "finishes"
MINUTES = {"min": 1, "h": 60, "d": 1440, "wk": 7 * 1440, "mo": 30 * 1440, "y": 365 * 1440}
FT2_PER_GAL = 0.09290304 / 3.785411784  # m2/l, NIST Handbook 44 appendix C
FT2_PER_LB = 0.09290304 / 0.45359237  # m2/kg

# Published ranges, first and later coat. BC: Building Construction vol. 4, art. 59, early 1900s. TM: US Army
# TM 43-0139, table 3-2, new wood. WH: USDA Wood Handbook FPL-GTR-190, ch. 16, 2010, smooth wood.
PUBLISHED = {
    "brushing-varnish": ((350, 450), (450, 550), FT2_PER_GAL, "Building Construction"),
    "spar-varnish": ((350, 450), (450, 550), FT2_PER_GAL, "Building Construction"),
    "alkyd-paint": ((500, 600), (500, 600), FT2_PER_GAL, "TM 43-0139"),
    "exterior-oil": ((200, 400), (200, 400), FT2_PER_GAL, "Wood Handbook"),
    "grain-filler": ((40, 50), (40, 50), FT2_PER_LB, "Building Construction"),
}
EU = "EU directive 2004/42, annex II phase II"
US = "US 40 CFR 59 subpart D, table 1"  # limits from memory
MIL = "MIL-HDBK-1110, 7.4.1"  # 45-90 F for most paints
TM = "US Army TM 43-0139"
WOOD = "USDA Wood Handbook FPL-GTR-190, ch. 16"
UFGS = "UFGS-09971"
F_45, F_60, F_90 = 7.2, 15.6, 32.2  # degrees C of 45, 60 and 90 F

# What a publication says of a figure: finishes, group of figures, figure, least, most, document. The figure has to lie in the
# range and the group's source has to name the document.
RANGES = [
    # g/l ready to use: the limit of the kind that the finish belongs to
    ("brushing-varnish hardwax-oil spar-varnish", "voc", "voc", 0, 400, EU),
    ("waterborne-polyurethane waterborne-lacquer dye-stain acrylic-paint milk-paint matt-furniture-paint"
     " waterborne-lacquer-pigmented", "voc", "voc", 0, 130, EU),
    ("danish-oil pigment-stain exterior-oil glaze", "voc", "voc", 0, 700, EU),
    ("waterborne-polyurethane-two-part", "voc", "voc", 0, 140, EU),
    ("two-part-urethane post-catalysed-varnish moisture-cured-urethane two-part-urethane-paint two-part-urethane-primer", "voc",
     "voc", 0, 500, EU),
    ("alkyd-paint", "voc", "voc", 0, 300, EU),
    ("acrylic-primer", "voc", "voc", 0, 30, EU),
    ("alkyd-primer", "voc", "voc", 0, 350, EU),
    ("nitrocellulose-lacquer acrylic-lacquer sanding-sealer pre-catalysed-lacquer vinyl-sealer", "voc", "voc", 0, 680, US),
    ("shellac-dewaxed shellac-waxed washcoat knotting", "voc", "voc", 0, 730, US),
    ("shellac-primer", "voc", "voc", 0, 550, US),
    ("wiping-varnish gel-varnish", "voc", "voc", 0, 450, US),
    # degrees C
    ("brushing-varnish spar-varnish alkyd-paint alkyd-primer wiping-varnish gel-varnish danish-oil hardwax-oil grain-filler"
     " pigment-stain boiled-linseed-oil tung-oil exterior-oil glaze", "air", "lowest", F_45, F_90, MIL),
    ("brushing-varnish spar-varnish alkyd-paint alkyd-primer wiping-varnish gel-varnish danish-oil hardwax-oil grain-filler"
     " pigment-stain boiled-linseed-oil tung-oil exterior-oil glaze", "air", "highest", F_45, F_90, MIL),
    ("nitrocellulose-lacquer acrylic-lacquer sanding-sealer pre-catalysed-lacquer shellac-dewaxed shellac-waxed washcoat"
     " post-catalysed-varnish vinyl-sealer shellac-primer knotting spirit-dye", "air", "lowest", 10, 99, TM),
    ("acrylic-paint acrylic-primer waterborne-polyurethane milk-paint matt-furniture-paint waterborne-polyurethane-two-part"
     " waterborne-grain-filler", "air", "lowest", 10, 99, WOOD),
    ("two-part-urethane two-part-urethane-paint two-part-urethane-primer", "air", "lowest", F_60, F_90, UFGS),
    ("two-part-urethane two-part-urethane-paint two-part-urethane-primer", "air", "highest", F_60, F_90, UFGS),
    # minutes
    ("shellac-dewaxed shellac-waxed", "times", "handle", 60, 60, TM),
    ("shellac-dewaxed shellac-waxed", "times", "recoat", 120, 180, TM),
    ("shellac-dewaxed shellac-waxed", "times", "light-use", 1440, 1440, TM),
    ("shellac-dewaxed shellac-waxed", "later-times", "later recoat", 120, 180, TM),
    ("shellac-dewaxed shellac-waxed", "late-times", "late recoat", 360, 2880, "Cyclopedia of Architecture, Carpentry and Building"),
    ("exterior-oil", "times", "recoat", 20, 20, WOOD),
    ("exterior-oil", "times", "recoat-last", 60, 60, WOOD),
    ("exterior-oil", "wipe-off", "wipe-off", 45, 60, WOOD),
    ("exterior-oil", "wipe-off", "wipe-off-last", 60, 75, WOOD),
    ("grain-filler", "wipe-off", "wipe-off", 5, 10, "NAVEDTRA 14044"),
    ("grain-filler", "times", "recoat", 1440, 1440, "NAVEDTRA 14044"),
    ("brushing-varnish spar-varnish", "times", "sand", 1440, 1440, "Fine Woodworking"),
    ("brushing-varnish", "times", "recoat", 240, 240, "woodworking handbook"),
    ("brushing-varnish", "times", "recoat-last", 360, 360, "woodworking handbook"),
    ("brushing-varnish wiping-varnish gel-varnish", "times", "cured", 14 * 1440, 21 * 1440, "Fine Woodworking"),
    ("boiled-linseed-oil", "times", "dust-free", 0, 1200, "Ohio Revised Code 3741.09"),
    ("sanding-sealer", "times", "recoat", 0, 60, "GSA A-A-1572"),
    ("two-part-urethane two-part-urethane-paint", "pot-life", "pot-life", 120, 120, UFGS),
    # kg/l at 15.6 C; tung oil at 25 C, some 0.003 to 0.004 lighter than at 20 C
    ("boiled-linseed-oil", "components", "density", 0.935, 0.945, "Ohio Revised Code 3741.09"),
    ("tung-oil", "components", "density", 0.933 + 0.003, 0.938 + 0.004, "ASTM D12-88"),
    # per cent by volume, and by weight from the density and what leaves the film
    ("boiled-linseed-oil", "solids", "solids", 99.5, 100, "Ohio Revised Code 3741.09"),
    ("boiled-linseed-oil", "voc", "voc", 0, 5, "Ohio Revised Code 3741.09"),
    ("nitrocellulose-lacquer", "solids", "solids", 19, 20, "EPA wood furniture hub"),
    ("nitrocellulose-lacquer", "solids", "solids by weight", 0, 25, "EPA wood furniture hub"),
    ("sanding-sealer", "solids", "solids", 17, 19, "GSA A-A-1572"),
    ("sanding-sealer", "solids", "solids by weight", 21, 100, "GSA A-A-1572"),
    ("brushing-varnish", "solids", "solids by weight", 45, 100, "GSA A-A-1546A"),
    # two thirds of a 3-pound cut, which has 28.5 % by weight: 2 lb to 7.4 lb of alcohol and lac against 3 lb
    ("shellac-dewaxed shellac-waxed", "solids", "solids by weight", 28.5 * 2 / 3, 28.5, "ASTM D360-89"),
    # 2 lb of flakes and 1 gal of 190-proof alcohol, 0.81 kg/l, make 1.2 gal
    ("shellac-dewaxed shellac-waxed", "components", "density", 0.868, 0.882, "ASTM D360-89"),
]
PUBLISHED_LEAST = 60  # groups of figures, each compared with its publication
NEEDED = """wiping-varnish brushing-varnish hardwax-oil-two-part hardwax-oil danish-oil tung-oil boiled-linseed-oil
 shellac-dewaxed nitrocellulose-lacquer waterborne-polyurethane waterborne-polyurethane-two-part post-catalysed-varnish
 casting-epoxy paste-wax alkyd-primer acrylic-primer alkyd-paint acrylic-paint milk-paint matt-furniture-paint dye-stain
 pigment-stain washcoat grain-filler sanding-sealer pre-catalysed-lacquer acrylic-lacquer moisture-cured-urethane
 two-part-urethane spar-varnish gel-varnish exterior-oil soap-finish white-wood-lye mineral-oil board-conditioner
 flood-coat-epoxy shellac-waxed shellac-primer two-part-urethane-primer two-part-urethane-paint waterborne-lacquer
 waterborne-lacquer-pigmented vinyl-sealer glaze spirit-dye wood-bleach waterborne-grain-filler knotting""".split()
YEAR = re.compile(r"\b(1[89]|20)\d\d")
PUBLISHED_SOURCE = re.compile(r"[A-Z][^,:;]+, [^,:;]+, ([^,:;]+, )?([A-Za-z]+ )?(1[89]|20)\d\d")
GROUPS = {"components": "components", "ratio-tolerance": "mix", "induction": "induction", "pot-life": "pot-life",
          "coverage": "coverage", "solids": "solids", "coats": "coats", "times": "times",
          "later-times": "later-times", "wipe-off": "wipe-off", "polish": "polish", "late-recoat": "late-recoat",
          "between": "between", "air": "air", "resists": "resists", "voc": "voc", "food": "food", "by-tool": "by-tool",
          "thin-most": "thin-most", "dry-film-most": "dry-film-most", "late-times": "late-times"}
# The second coat goes on before the first is dry: Wood Handbook ch. 16; epoxy while it is tacky, from memory.
RECOATED_WET = {"exterior-oil", "casting-epoxy", "flood-coat-epoxy"}
FILLED = {"paint", "primer", "stain", "filler", "lye", "bleach"}  # pigment or filler among the solids


def span(text):
    parts = re.findall(r"(\d+(?:\.\d+)?) (min|h|d|wk|mo|y)\b", text)
    assert parts and " ".join(f"{n} {u}" for n, u in parts) == text, text
    return sum(float(n) * MINUTES[u] for n, u in parts)


def number(text, unit):
    match = re.fullmatch(r"(-?\d+(?:\.\d+)?) " + re.escape(unit), text)
    assert match, (text, unit)
    return float(match.group(1))


def states(finish, later):
    times = dict(finish["times"])
    if later:
        times.update(finish.get("later-times", {}))
    got = {k: span(v) for k, v in times.items() if k not in ("recoat", "at")}
    got["recoat"], got["recoat-last"] = map(span, times["recoat"])
    got.setdefault("sand", got["recoat"])
    got.setdefault("wrap", got["light-use"])
    return got


def mixed_density(finish):
    parts = [(c["parts"], number(c["density"], "kg/l")) for c in finish["components"]]
    if finish.get("mix-by", "volume") == "mass":
        return sum(p for p, _ in parts) / sum(p / d for p, d in parts)
    return sum(p * d for p, d in parts) / sum(p for p, _ in parts)


def coverage(finish, coat):
    """m2/l of a coat; m2/kg for a paste whose file says so."""
    c = finish["coverage"]
    if "wet-film" in c:
        value, unit = c["wet-film"].split()
        return 1000 / (float(value) * {"um": 1, "mm": 1000}[unit])
    value, unit = c[coat].split()
    if unit == "g/m2":
        return 1000 * mixed_density(finish) / float(value)
    return float(value)


def rule_times(finish):
    for later in (False, True):
        t = states(finish, later)
        yield t["recoat"] < t["recoat-last"], "recoat window is empty"
        yield t["dust-free"] <= t["handle"], "handle before dust-free"
        yield t["handle"] <= min(t["wrap"], t["light-use"], t["cured"]), "wrap, use or cured before handle"
        yield t["light-use"] <= t["cured"] and t["wrap"] <= t["cured"], "cured before wrap or light-use"
        yield finish["finish"] in RECOATED_WET or t["dust-free"] <= t["recoat"], "recoat before dust-free"
        yield t["dust-free"] <= t["sand"] <= t["cured"], "sand before dust-free or after cured"
    opens, closes = span(finish["times"]["recoat"][0]), span(finish["times"]["recoat"][1])
    needs = span(finish["times"].get("sand", finish["times"]["recoat"][0])) if "between" in finish else opens
    yield max(opens, needs) < closes, "sanding between coats ends after the recoat window"


def rule_work(finish):
    coats = finish["coats"]
    yield 1 <= coats["usual"] <= coats["most"], "usual coats above the most"
    yield coats.get("a-day", 1) >= 1, "no coat a day"
    for key in ("wipe-off", "polish"):
        if key in finish:
            yield span(finish[key][0]) < span(finish[key][1]), f"{key} window is empty"
    if "pot-life" in finish:
        yield span(finish["pot-life"]) > 2 * span(finish.get("induction", "0 min")), "induction eats the pot life"
        yield len(finish["components"]) > 1, "a pot life without a hardener"
    yield len(finish["components"]) < 2 or "pot-life" in finish, "two components without a pot life"
    yield finish.get("flip") != "now" or "wipe-off" in finish, "flipped wet, yet not wiped off"


def rule_coverage(finish):
    first, later = coverage(finish, "first"), coverage(finish, "later")
    yield 0.3 <= first <= 50 and first <= later <= 2 * first, f"coverage {first:.1f}, {later:.1f}"
    yield 5 <= number(finish["coverage"]["tolerance"], "%") <= 30, "tolerance"
    if finish["finish"] in PUBLISHED:
        a, b, factor, document = PUBLISHED[finish["finish"]]
        yield a[0] * factor <= first * 1.001 and first <= a[1] * factor, f"first coverage {first:.2f} outside {document}"
        yield b[0] * factor <= later * 1.001 and later <= b[1] * factor, f"later coverage {later:.2f} outside {document}"
        yield document in finish["sources"].get("coverage", ""), f"coverage does not name {document}"


def weight_share(finish):
    """Per cent of the mass that stays in the film: what does not leave it as VOC."""
    return 100 * (1 - number(finish["voc"], "g/l") / 1000 / mixed_density(finish))


def known_figures(finish):
    """The figures that RANGES names."""
    known = dict(states(finish, False))
    known.update({"voc": number(finish["voc"], "g/l"), "density": number(finish["components"][0]["density"], "kg/l"),
                  "solids by weight": weight_share(finish)})
    known["lowest"], known["highest"] = (number(t, "C") for t in finish["air"]["temperature"])
    for key in ("pot-life",):
        if key in finish:
            known[key] = span(finish[key])
    if "solids" in finish:
        known["solids"] = number(finish["solids"], "%")
    if "wipe-off" in finish:
        known["wipe-off"], known["wipe-off-last"] = map(span, finish["wipe-off"])
    for key in ("later", "late"):
        if f"{key}-times" in finish:
            known[f"{key} recoat"] = span(finish[f"{key}-times"]["recoat"][0])
    return known


def rule_published(finish):
    known = known_figures(finish)
    for names, group, figure, least, most, document in RANGES:
        if finish["finish"] not in names.split():
            continue
        yield least - 1e-9 <= known[figure] <= most + 1e-9, f"{figure} {known[figure]:.4g}, {document}: {least:.4g} to {most:.4g}"
        yield document in finish["sources"].get(group, ""), f"{group} does not name {document}"


def published_groups():
    """(finish, group) of everything that is compared with a publication."""
    groups = {(name, group) for names, group, *_ in RANGES for name in names.split()}
    return groups | {(name, "coverage") for name in PUBLISHED}


def rule_contact(finish):
    """Of every finish it is said what is known of it on food and for children."""
    words = {"never", "ask", "made"}
    yield finish.get("food") in words and finish.get("child") in words, "food or child is not said"
    yield finish["food"] != "made" or finish["family"] == "mineral-oil", "made for food, and yet it is no food-grade oil"
    yield not (finish["family"] in ("stain", "filler", "lye", "bleach") and finish["food"] != "never"), "no top coat, yet for food"


def rule_matter(finish):
    """Density, solids and solvent of the mix must be true together."""
    density = mixed_density(finish)
    yield 0.8 <= density <= 1.7, f"density {density:.2f}"
    if "solids" not in finish:
        yield number(finish["voc"], "g/l") == 0, "neither solids nor their absence"
        return
    solids, voc = number(finish["solids"], "%") / 100, number(finish["voc"], "g/l") / 1000
    rest = 1 - solids
    if finish["dries-by"] == "water":
        stuff = (density - rest) / solids
        yield voc <= 0.15, "a water-borne finish with that much solvent"
    else:
        stuff = (density - voc) / solids
        if rest > 0.05:
            yield 0.7 <= voc / rest <= 0.9, f"solvent of density {voc / rest:.2f}"
    most = 2.6 if finish["family"] in FILLED or solids < 0.08 else 1.35
    yield 0.9 <= stuff <= most, f"solids of density {stuff:.2f}"


def rule_air(finish):
    (cold, warm), (dry, damp) = finish["air"]["temperature"], finish["air"]["humidity"]
    at, humidity = re.fullmatch(r"(\d+ C) (\d+ %)", finish["times"]["at"]).groups()
    yield number(cold, "C") < number(at, "C") < number(warm, "C"), "reference temperature outside the limits"
    yield number(dry, "%") < number(humidity, "%") < number(damp, "%"), "reference humidity outside the limits"
    # The stated default shop, 18 C and 55 % by day (contract section 8), must be able to lay every finish.
    yield number(cold, "C") <= 18 and number(damp, "%") >= 55, "the default shop cannot lay it"


def rule_cautions(finish):
    has = set(finish["cautions"])
    voc = number(finish["voc"], "g/l")
    yield finish["dries-by"] != "oxidation" or "oily-rags" in has, "a drying oil without oily-rags"
    yield (voc >= 200) == ("vapour" in has), "vapour and voc disagree"
    # Every solvent of the table but water flashes below 60 C (GHS category 3, from memory; white spirit 39-43 C: OSHA).
    yield ("vapour" not in has) or ("flammable" in has), "a solvent that flashes below 60 C without flammable"
    yield (finish["dries-by"] == "water" or finish.get("solvent") == "water") == ("frost" in has), "water and frost disagree"
    yield ("exotherm" in has) == ("pot-mass" in finish), "what heats itself needs the mass of its pot life"
    yield not any(c["component"] == "hardener" for c in finish["components"]) or has & {"isocyanate", "skin"}, \
        "a hardener without caution"
    sprayed = bool({"hvlp", "conventional", "airless"} & set(finish["by"]))
    yield sprayed == ("spray-mist" in has), "spray tools and spray-mist disagree"
    yield finish["family"] != "epoxy" or "exotherm" in has, "epoxy without exotherm"


def rule_sources(finish):
    sources = finish["sources"]
    wanted = {group for key, group in GROUPS.items() if key in finish}
    if any({"shelf-life", "opened-life"} & set(c) for c in finish["components"]):
        wanted.add("shelf-life")
    if any("packs" in c for c in finish["components"]):
        wanted.add("packs")
    yield set(sources) == wanted, f"sources: missing {sorted(wanted - set(sources))}, idle {sorted(set(sources) - wanted)}"
    for group, text in sources.items():
        yield not YEAR.search(text) or PUBLISHED_SOURCE.search(text), f"{group}: a year without document and place"
        memory = "common practice" in text or "from memory" in text
        yield memory or re.search(r"\b\d{4}", text), f"source of {group} names neither a year nor common practice"


def rule_packs(finish):
    for component in finish["components"]:
        sizes = [volume(p["size"]) for p in component.get("packs", [])]
        yield len(sizes) >= 2 and sizes == sorted(set(sizes)), f"packs of {component['component']}"
        yield not any("price" in p for p in component.get("packs", [])), "a shipped price"


def volume(text):
    value, unit = text.split()
    return float(value) * {"ml": 1, "l": 1000}[unit]


def rule_names(finish):
    yield len(finish["short"]) <= 16, "a short name of more than 16 characters"
    yield "," not in finish["name"] + finish["short"], "a comma in a name"


RULES = [rule_times, rule_work, rule_coverage, rule_published, rule_matter, rule_air, rule_cautions, rule_sources,
         rule_packs, rule_contact, rule_names]


def put(finish, path, value):
    *way, last = path
    for key in way:
        finish = finish[key]
    if value is None:
        del finish[last]
    else:
        finish[last] = value


# One figure of a sound finish made wrong, and the rule that must notice.
SPOILED = [
    (rule_times, "wiping-varnish", ("times", "recoat"), ["3 d", "6 h"]),
    (rule_times, "wiping-varnish", ("times", "cured"), "2 h"),
    (rule_times, "wiping-varnish", ("times", "sand"), "4 d"),
    (rule_times, "shellac-dewaxed", ("later-times", "recoat"), ["5 min", "1 y"]),
    (rule_work, "danish-oil", ("coats", "usual"), 9),
    (rule_work, "danish-oil", ("wipe-off",), ["30 min", "15 min"]),
    (rule_work, "hardwax-oil-two-part", ("pot-life",), None),
    (rule_coverage, "brushing-varnish", ("coverage", "first"), "14 m2/l"),
    (rule_coverage, "exterior-oil", ("coverage", "later"), "12 m2/l"),
    (rule_published, "shellac-dewaxed", ("times", "handle"), "2 h"),
    (rule_published, "two-part-urethane", ("voc",), "520 g/l"),
    (rule_matter, "wiping-varnish", ("solids",), "70 %"),
    (rule_matter, "nitrocellulose-lacquer", ("voc",), "450 g/l"),
    (rule_matter, "casting-epoxy", ("components", 0, "density"), "1.6 kg/l"),
    (rule_matter, "wiping-varnish", ("solids",), "70 %"),
    (rule_published, "boiled-linseed-oil", ("components", 0, "density"), "0.93 kg/l"),
    (rule_published, "nitrocellulose-lacquer", ("solids",), "22 %"),
    (rule_published, "grain-filler", ("times", "recoat"), ["8 h", "1 y"]),
    (rule_published, "wiping-varnish", ("air", "temperature"), ["5 C", "30 C"]),
    (rule_published, "washcoat", ("sources", "voc"), "common practice, from memory"),
    (rule_cautions, "wiping-varnish", ("cautions",), ["oily-rags", "vapour"]),
    (rule_cautions, "casting-epoxy", ("pot-mass",), None),
    (rule_cautions, "soap-finish", ("cautions",), []),
    (rule_contact, "pigment-stain", ("food",), "ask"),
    (rule_contact, "pigment-stain", ("child",), "yes"),
    (rule_names, "knotting", ("short",), "Knotting, for knots"),
    (rule_air, "paste-wax", ("times", "at"), "35 C 50 %"),
    (rule_cautions, "tung-oil", ("cautions",), ["seed-oil"]),
    (rule_sources, "tung-oil", ("sources", "coverage"), None),
    (rule_sources, "tung-oil", ("sources", "coverage"), "the label"),
    (rule_sources, "tung-oil", ("sources", "coverage"), "USDA Wood Handbook, 2010: 10 m2/l"),
    (rule_packs, "tung-oil", ("components", 0, "packs"), [{"size": "1 l", "price": "9.00"}, {"size": "5 l"}]),
]


def main():
    finishes = {p.stem: json.loads(p.read_text("utf-8")) for p in sorted(FOLDER.glob("*.json"))}
    passed, faults = 0, []
    for name, finish in finishes.items():
        for rule in RULES:
            bad = [told for good, told in rule(finish) if not good]
            passed += not bad
            faults += [f"{name}: {rule.__name__}: {told}" for told in bad]
    for name in NEEDED:
        passed += name in finishes
        faults += [] if name in finishes else [f"{name}: not in the table"]
    for rule, name, path, value in SPOILED:
        finish = copy.deepcopy(finishes[name])
        put(finish, path, value)
        noticed = not all(good for good, _ in rule(finish))
        passed += noticed
        faults += [] if noticed else [f"{name}: {rule.__name__} lets {'/'.join(map(str, path))} = {value} pass"]
    groups = published_groups()
    passed += len(groups) >= PUBLISHED_LEAST
    faults += [] if len(groups) >= PUBLISHED_LEAST else [f"{len(groups)} groups with a publication"]
    print(f"{len(groups)} groups of figures compared with a publication")
    texts = [text for finish in finishes.values() for text in finish["sources"].values()]
    memory = sum("common practice" in t or "from memory" in t for t in texts)
    dated = sum(bool(re.search(r"\b\d{4}", t)) for t in texts)
    print(f"{len(finishes)} finishes, {len(texts)} sources: {dated} name a published one, "
          f"{memory} are wholly or in part common practice")
    print("\n".join(faults), end="\n" if faults else "")
    print(f"{passed} passed, {len(faults)} failed")
    return 1 if faults else 0


sys.exit(main())
