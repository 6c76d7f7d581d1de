"""Passes: what goes under the hand in one go, a piece's schedule all round or on one side of a flat piece."""
from dataclasses import dataclass

import shapes

STICKS = {"moulding", "taper"}
ROUNDS = {"round", "cone", "turning"}
NARROW_MM = 60


@dataclass
class Pass:
    piece: str
    schedule: str
    side: str  # "b", "f" or "" for all round
    surfaces: list

    def parts(self):
        """Parts that are handled, each of a row's qty counted."""
        return sum(part.qty for part in {id(s.part): s.part for s in self.surfaces}.values())


def is_narrow(part):
    """A board under 60 mm wide is a stick."""
    width = shapes.Cells(part)("width") if part.shape == "board" else None
    return width is not None and width * 1000 < NARROW_MM - 1e-9


def is_spindle(part):
    """Round, at most 45 mm thick and at least twelve times as long."""
    cells = shapes.Cells(part)
    if part.shape == "turning":
        points = cells.pairs("profile")
        thick, length = max(d for _, d in points), points[-1][0] - points[0][0]
    else:
        thick, length = max(cells("diameter", 0), cells("diameter2", 0)), cells("length", 0)
    return 0 < thick <= 0.045 + 1e-12 and length >= 12 * thick - 1e-12


def is_stick(surface):
    """Narrow boards, mouldings, and the edges and ends of whatever is not round."""
    part = surface.part
    return part.shape in STICKS or is_narrow(part) or part.shape not in ROUNDS and surface.region in ("edges", "ends")


def fan_misses(surface):
    """Sticks and turnings: most of a spray fan goes by."""
    return surface.part.shape in ROUNDS or surface.region != "inside" and is_stick(surface)


def ease(surface):
    """Factor on the rate of work."""
    shape, region = surface.part.shape, surface.region
    if shape in ROUNDS:
        return 0.2 if is_spindle(surface.part) else 0.35
    if region == "inside":
        return 0.4
    if shape == "mesh" or is_stick(surface):
        return 0.5
    return 1.0


def two_sided(piece, surfaces):
    """Whether a piece is laid flat with a scheduled back and a scheduled face."""
    regions = {s.region for s in surfaces if s.schedule and s.part.piece == piece.name and s.area > 0}
    return piece.flat and {"back", "face"} <= regions


def on_side(surface, side, faced):
    """Whether a surface is laid with a side: edges and ends go with the face, or with the back where its schedule has
    no face (`faced`)."""
    if side == "b":
        return surface.region == "back" or not faced
    return side == "" or surface.region != "back"


def patch_of(piece, surfaces):
    """What the patch of a piece covers."""
    return Pass(piece.name, piece.patch["schedule"], "", [s for s in surfaces if s.part.piece == piece.name and s.patch])


def pass_of(piece, schedule, side, surfaces):
    """The surfaces of a piece's schedule, on one side where asked; its patch stands by itself."""
    mine = [s for s in surfaces if s.part.piece == piece.name and s.schedule == schedule and s.area > 0 and not s.patch]
    faced = any(s.region == "face" for s in mine)
    return Pass(piece.name, schedule, side, [s for s in mine if on_side(s, side, faced)])
