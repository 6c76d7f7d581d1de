"""Finish files as records in base units: litres, grams a litre, m2 a litre, minutes."""
import functools
import json
from dataclasses import dataclass
from fractions import Fraction as F
from pathlib import Path

import measure

STATES = ["dust-free", "handle", "recoat", "sand", "wrap", "light-use", "cured"]
COLOURS = {"stain", "paint"}
SPRAYED = {"hvlp", "conventional", "airless"}


@dataclass(frozen=True)
class Component:
    name: str
    parts: F
    density: F  # grams a litre
    packs: tuple  # (litres, price or None)
    opened_life: object  # minutes, None: not given


@dataclass(frozen=True)
class Times:
    """Minutes at reference air from the end of the application; `recoat_last` None: the window stays open."""
    after: dict
    recoat_last: object


@dataclass(frozen=True)
class Finish:
    id: str
    family: str
    dries_by: str
    components: tuple
    kits: tuple
    by_mass: bool
    ratio_tolerance: F
    induction: F
    pot_life: object  # None: does not die
    coverage: tuple  # first, later
    tolerance: F
    by: tuple
    coats: dict
    flip_now: bool
    first: Times
    later: Times
    at: tuple  # temperature, humidity of the times
    wipe_off: object
    polish: object
    refuses: bool
    between: object
    air: tuple  # (low, high) of temperature, (low, high) of humidity
    colours: bool
    pot_mass: object  # grams; None: mass does not matter
    tool_coverage: dict
    tool_loss: dict  # litres
    no_between: frozenset  # tools that need no step between coats
    late: Times
    late_after: int
    wipe_off_from: int
    solvent: object

    def times(self, number, tool=None):
        """Times after the number-th coat in an unbroken run of this finish; the late ones are not those of the rubber."""
        if self.late_after and number >= self.late_after and tool != "rubber":
            return self.late
        return self.first if number == 1 else self.later

    def coverage_by(self, first, tool):
        """m2 a litre on bare wood or on a film, laid with a tool."""
        return self.tool_coverage.get(tool) or self.coverage[0 if first else 1]

    def loss_of(self, tool, shop):
        """Litres that stay in a tool: the finish's own figure goes before the shop's."""
        return self.tool_loss.get(tool, shop.loss(tool))

    def is_wiped(self, number):
        return self.wipe_off is not None and number >= self.wipe_off_from

    def volume_shares(self):
        """Each component's share of the mixed volume."""
        volumes = [c.parts / c.density if self.by_mass else c.parts for c in self.components]
        return [v / sum(volumes) for v in volumes]


def read_pair(value, reader):
    """A range written as a list of two, or one value for both."""
    values = value if isinstance(value, list) else [value]
    return reader(values[0]), reader(values[-1])


def read_recoat(value):
    """The recoat window: minimum and maximum (None: no end)."""
    if not isinstance(value, list):
        return measure.span(value), None
    return measure.span(value[0]), measure.span(value[1]) if len(value) > 1 and value[1] is not None else None


def given_times(data):
    """What a list of times says itself: minutes by state, and the end of the recoat window under its own key."""
    found = {state: measure.span(data[state]) for state in STATES if state in data and state != "recoat"}
    if "recoat" in data:
        found["recoat"], found["recoat_last"] = read_recoat(data["recoat"])
    return found


def whole_times(given):
    """Ready to sand when it may be recoated, to wrap when it may be used, where nothing else is said."""
    after = {"sand": given["recoat"], "wrap": given["light-use"], **given}
    return Times({state: after[state] for state in STATES}, given["recoat_last"])


def read_reference(text):
    """`23 C 50 %` as temperature and humidity share."""
    temperature, humidity = text.split("C")
    return measure.temperature(temperature + "C"), measure.share(humidity)


def pack_litres(text, density):
    """A pack's litres; packs sold by mass have theirs by the density."""
    terms = measure.terms(text, {**measure.VOLUME, **measure.MASS})
    return measure.volume(text) if terms[0][1] in measure.VOLUME else measure.mass(text) / density


def read_component(data):
    density = measure.density(data["density"])
    packs = tuple((pack_litres(p["size"], density), F(str(p["price"])) if p.get("price") else None)
                  for p in data.get("packs", []))
    return Component(data["component"], F(str(data.get("parts", 1))), density, packs,
                     measure.span(data["opened-life"]) if "opened-life" in data else None)


def read_coverage(data, density):
    if "wet-film" in data:
        film = measure.length(data["wet-film"]) * 1000  # micrometres
        return F(1000) / film, F(1000) / film
    first = measure.coverage(data["first"], density)
    return first, measure.coverage(data["later"], density) if "later" in data else first


def mixed_density(components, by_mass):
    parts = sum(c.parts for c in components)
    if by_mass:
        return parts / sum(c.parts / c.density for c in components)
    return sum(c.parts * c.density for c in components) / parts


def read_finish(data):
    """One finish from its parsed JSON."""
    components = tuple(read_component(c) for c in data["components"])
    by_mass = data.get("mix-by") == "mass"
    first = given_times(data["times"])
    later = {**first, **given_times(data.get("later-times", {}))}
    late = {**later, **given_times(data.get("late-times", {}))}
    own_tools, density = data.get("by-tool", {}), mixed_density(components, by_mass)
    return Finish(
        id=data["finish"], family=data["family"], dries_by=data["dries-by"], components=components,
        kits=tuple(data.get("kits", [])), by_mass=by_mass, ratio_tolerance=measure.share(data.get("ratio-tolerance", "0 %")),
        induction=measure.span(data["induction"]) if "induction" in data else F(0),
        pot_life=measure.span(data["pot-life"]) if "pot-life" in data else None,
        coverage=read_coverage(data["coverage"], mixed_density(components, by_mass)),
        tolerance=measure.share(data["coverage"].get("tolerance", "0 %")), by=tuple(data["by"]), coats=data["coats"],
        flip_now=data.get("flip") == "now", first=whole_times(first), later=whole_times(later),
        at=read_reference(data["times"]["at"]),
        wipe_off=read_pair(data["wipe-off"], measure.span) if "wipe-off" in data else None,
        polish=read_pair(data["polish"], measure.span) if "polish" in data else None,
        refuses=data["late-recoat"] == "refuse", between=data.get("between"),
        air=(read_pair(data["air"]["temperature"], measure.temperature), read_pair(data["air"]["humidity"], measure.share)),
        colours=data["family"] in COLOURS,
        pot_mass=measure.mass(data["pot-mass"]) if "pot-mass" in data else None,
        tool_coverage={tool: measure.coverage(own["coverage"], density) for tool, own in own_tools.items() if "coverage" in own},
        tool_loss={tool: measure.volume(own["loss"]) for tool, own in own_tools.items() if "loss" in own},
        no_between=frozenset(tool for tool, own in own_tools.items() if own.get("no-between")),
        late=whole_times(late), late_after=data.get("late-times", {}).get("after-coat", 0),
        wipe_off_from=data.get("wipe-off-from", 1), solvent=data.get("solvent"))


@functools.lru_cache
def read_table(folder):
    """The shipped table, read once."""
    return read_folder(folder)


def read_folder(folder):
    """The finishes of a folder by id."""
    found = {}
    for path in sorted(Path(folder).glob("*.json")):
        data = json.loads(path.read_text(encoding="utf-8"))
        if data.get("format") == "coatwright-finish/1":
            found[data["finish"]] = read_finish(data)
    return found
