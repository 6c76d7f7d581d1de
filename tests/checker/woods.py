"""How much a wood drinks: grain class by name (common practice, from memory), and the factors of method, section 2."""

HALF_OPEN = {"bubinga", "butternut", "cocobolo", "mahogany", "okoume", "purpleheart", "rosewood", "rubberwood", "sapele",
             "teak", "walnut"}
OPEN = {"ash", "balsa", "chestnut", "elm", "hickory", "iroko", "meranti", "oak", "padauk", "robinia", "wenge", "zebrano"}
SOFTWOOD = {"cedar", "cypress", "fir", "larch", "pine", "redwood", "spruce", "yew"}
SHEETS = {"plywood": "plywood", "blockboard": "plywood", "mdf": "mdf", "hardboard": "mdf", "chipboard": "mdf"}
FACTOR = {"closed": 1.0, "half-open": 1.1, "open": 1.25, "softwood": 1.15, "plywood": 1.1, "mdf": 1.2}
DENSITY = {  # kg/m3 at 12 % moisture (USDA Wood Handbook, table 5-3, and common practice, from memory)
    "alder": 450, "apple": 830, "ash": 680, "aspen": 420, "balsa": 150, "bamboo": 700, "basswood": 420, "beech": 710,
    "birch": 680, "birch plywood": 680, "blockboard": 520, "boxwood": 970, "bubinga": 890, "butternut": 430,
    "cedar": 380, "cherry": 560, "chestnut": 550, "chipboard": 650, "cocobolo": 1100, "cypress": 510,
    "douglas fir": 510, "ebony": 1050, "elm": 600, "fir": 420, "hard maple": 700, "hardboard": 900, "hickory": 810,
    "holly": 640, "hornbeam": 740, "iroko": 660, "larch": 580, "lime": 540, "mahogany": 590, "maple": 650,
    "maple plywood": 640, "mdf": 750, "meranti": 550, "oak": 720, "oak plywood": 640, "okoume": 430, "olive": 990,
    "padauk": 750, "pear": 690, "pine": 500, "pine plywood": 560, "plywood": 600, "poplar": 450, "purpleheart": 900,
    "red oak": 700, "redwood": 420, "robinia": 770, "rosewood": 850, "rubberwood": 600, "sapele": 670,
    "soft maple": 600, "spruce": 450, "sycamore": 610, "teak": 650, "walnut": 640, "walnut plywood": 600,
    "wenge": 870, "white oak": 760, "willow": 430, "yew": 670, "zebrano": 800}
USUAL_DENSITY = 700
VENEER, ROUGH = 0.9, 2.0
SECOND = 1.4


def bare_name(wood):
    """(species, is veneer, is rough) of `oak veneer`, `rough oak`."""
    words = wood.lower().split()
    veneer, rough = "veneer" in words, "rough" in words or "rough-sawn" in words
    return " ".join(w for w in words if w not in ("veneer", "rough", "rough-sawn")), veneer, rough


def grain(wood):
    """The grain class; closed where the name tells nothing."""
    words = set(bare_name(wood)[0].split())
    for word in words & set(SHEETS):
        return SHEETS[word]
    for kind, names in (("half-open", HALF_OPEN), ("open", OPEN), ("softwood", SOFTWOOD)):
        if words & names:
            return kind
    return "closed"


def of_surface(surface):
    """The wood of a surface: a veneered part's edges and ends are of its core."""
    part = surface.part
    return part.core if part.core and surface.region in ("edges", "ends") else part.wood


def wood_factor(surface):
    wood = of_surface(surface)
    cored = bool(surface.part.core) and surface.region not in ("edges", "ends")
    return FACTOR[grain(wood)] * (VENEER if cored or bare_name(wood)[1] else 1)


def region_factor(surface, finish):
    """End grain, the edges of sheets and rough-sawn faces absorb more."""
    wood = of_surface(surface)
    kind, plain = grain(wood), ROUGH if bare_name(wood)[2] else 1.0
    if surface.region not in ("edges", "ends"):
        return plain
    if kind in ("plywood", "mdf"):
        return 1.5 if kind == "plywood" else 2.5
    if surface.region == "ends":
        return 2.5 if finish.family.endswith("oil") else 2.0
    return plain


def absorb(surface, finish, number):
    """Factor on the litres of the number-th coat on this surface."""
    if number == 1:
        return wood_factor(surface) * region_factor(surface, finish)
    kind = grain(of_surface(surface))
    thirsty = kind == "mdf" and surface.region == "edges" or surface.region == "ends" and kind != "plywood"
    rough = bare_name(of_surface(surface))[2] and (surface.region != "ends" or kind in ("plywood", "mdf"))
    return (SECOND if number == 2 and thirsty else 1.0) * (2.0 if rough else 1.0)


def density(wood):
    """kg/m3; of a veneer, whose core is not given, and of a wood that is not known, the usual."""
    name, veneer, _ = bare_name(wood)
    return USUAL_DENSITY if veneer else DENSITY.get(name, USUAL_DENSITY)
