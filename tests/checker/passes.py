"""Passes: what goes under the hand in one go, a piece's schedule all round or on one side of a flat piece."""
from dataclasses import dataclass

FLAT_SHAPES = {"board", "triangle", "polygon", "disc", "area"}
STICKS = {"frame", "moulding", "taper"}
ROUNDS = {"round", "cone", "turning"}
NARROW_MM = 60


@dataclass
class Pass:
    piece: str
    schedule: str
    side: str  # "b", "f" or "" for all round
    surfaces: list

    def area(self):
        return sum(s.area for s in self.surfaces)

    def parts(self):
        """Parts that are handled, each of a row's qty counted."""
        return sum(part.qty for part in {id(s.part): s.part for s in self.surfaces}.values())


def is_narrow(part):
    """A board under 60 mm wide is a stick."""
    import shapes
    width = shapes.Cells(part)("width") if part.shape == "board" else None
    return width is not None and width * 1000 < NARROW_MM - 1e-9


def is_stick(surface):
    """Sticks and turnings: most of a spray fan misses them."""
    return surface.part.shape in STICKS | ROUNDS or is_narrow(surface.part)


def ease(surface):
    """Factor on the rate of work."""
    shape, region = surface.part.shape, surface.region
    if shape in ROUNDS:
        return 0.35
    if region == "inside":
        return 0.4
    if shape == "mesh" or is_stick(surface) or region in ("edges", "ends"):
        return 0.5
    return 1.0


def side_of(surface):
    return "b" if surface.region == "back" else "f"


def two_sided(piece, surfaces):
    """Whether a piece is laid flat with something scheduled on its back and something on a face."""
    regions = {s.region for s in surfaces if s.schedule and s.part.piece == piece.name}
    return piece.flat and "back" in regions and bool(regions - {"back"})


def pass_of(piece, schedule, side, surfaces):
    """The surfaces of a piece's schedule, on one side where asked."""
    mine = [s for s in surfaces if s.part.piece == piece.name and s.schedule == schedule and s.area > 0]
    return Pass(piece.name, schedule, side, [s for s in mine if side in ("", side_of(s))])
