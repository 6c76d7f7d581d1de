"""How much a wood drinks: grain class by name (common practice, from memory), and the factors of method, section 2."""

HALF_OPEN = {"bubinga", "butternut", "cocobolo", "mahogany", "okoume", "purpleheart", "rosewood", "rubberwood", "sapele",
             "teak", "walnut"}
OPEN = {"ash", "balsa", "chestnut", "elm", "hickory", "iroko", "meranti", "oak", "padauk", "robinia", "wenge", "zebrano"}
SOFTWOOD = {"cedar", "cypress", "fir", "larch", "pine", "redwood", "spruce", "yew"}
SHEETS = {"plywood": "plywood", "blockboard": "plywood", "mdf": "mdf", "hardboard": "mdf", "chipboard": "mdf"}
FACTOR = {"closed": 1.0, "half-open": 1.1, "open": 1.25, "softwood": 1.15, "plywood": 1.1, "mdf": 1.2}
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
