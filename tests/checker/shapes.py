"""Areas of the regions of one part in m2, from its cells.

Every function takes the lengths in metres through `Cells` and returns {region: area}.
"""
import math
import struct
from pathlib import Path

import measure
import woods

# Dressed sizes in inches (PS 20 softwood; NHLA hardwood, surfaced).
SOFTWOOD_THICK = {"1": 0.75, "2": 1.5}
SOFTWOOD_WIDE = {"2": 1.5, "3": 2.5, "4": 3.5, "6": 5.5, "8": 7.25, "10": 9.25, "12": 11.25}
HARDWOOD_SURFACED = {"4/4": 13 / 16, "5/4": 1 + 1 / 16, "6/4": 1 + 5 / 16, "8/4": 1.75}


class Cells:
    """The cells of a row as lengths in metres."""

    def __init__(self, part):
        self.part, self.cells = part, lumber(part.cells)

    def __contains__(self, name):
        return name in self.cells

    def __call__(self, name, default=None):
        if name not in self.cells:
            return default
        return float(measure.length(self.cells[name], self.part.units)) / 1000

    def many(self, name):
        return [float(v) / 1000 for v in measure.lengths(self.cells[name], self.part.units)]

    def pairs(self, name):
        """`x y; x y; ...`"""
        rows = [row for row in self.cells[name].split(";") if row.strip()]
        return [tuple(float(v) / 1000 for v in measure.lengths(row.replace(",", " "), self.part.units)) for row in rows]


def lumber(cells):
    """The cells with width and thickness filled from a trade size."""
    size = cells.get("size", "").split()
    if not size:
        return cells
    if "x" in size[0]:
        thick, wide = size[0].split("x")
        found = {"thickness": f"{SOFTWOOD_THICK[thick]} in", "width": f"{SOFTWOOD_WIDE[wide]} in"}
    else:
        rough = "rough" in size
        found = {"thickness": f"{float(measure.number(size[0])) if rough else HARDWOOD_SURFACED[size[0]]} in"}
    return {**found, **cells}


EXTENTS = {"board": ("length", "width", "thickness"), "box": ("length", "width", "height"),
           "frame": ("length", "width", "thickness"), "round": ("diameter", "diameter", "length"),
           "disc": ("diameter", "diameter", "thickness")}


def extents(part):
    """The three sizes of the box round a part; None for a shape that has none stated."""
    cells = Cells(part)
    if part.shape == "cone":
        widest = max(cells("diameter"), cells("diameter2"))
        return [widest, widest, cells("length")]
    found = [cells(name) for name in EXTENTS.get(part.shape, [])]
    return found if found and None not in found else None


def shoelace(points):
    return abs(sum(x * v - u * y for (x, y), (u, v) in zip(points, points[1:] + points[:1]))) / 2


def perimeter(points):
    return sum(math.dist(p, q) for p, q in zip(points, points[1:] + points[:1]))


def line_offset(p, q, inset):
    """The side p-q of a counter-clockwise outline moved inwards, as a point and a direction."""
    length = math.dist(p, q)
    ux, uy = (q[0] - p[0]) / length, (q[1] - p[1]) / length
    return (p[0] - uy * inset, p[1] + ux * inset), (ux, uy)


def meet(first, second):
    """Where two lines, each a point and a direction, cross."""
    (p, d), (q, e) = first, second
    cross = d[0] * e[1] - d[1] * e[0]
    t = ((q[0] - p[0]) * e[1] - (q[1] - p[1]) * e[0]) / cross
    return p[0] + t * d[0], p[1] + t * d[1]


def inset_outline(points, inset):
    """A convex outline with every side moved inwards."""
    signed = sum(x * v - u * y for (x, y), (u, v) in zip(points, points[1:] + points[:1]))
    points = points if signed > 0 else points[::-1]
    lines = [line_offset(p, q, inset) for p, q in zip(points, points[1:] + points[:1])]
    return [meet(lines[i - 1], lines[i]) for i in range(len(lines))]


def triangle_points(cells):
    """Corners of a triangle from its three sides, or from base and height (isosceles)."""
    if "sides" in cells:
        a, b, c = cells.many("sides")
        x = (a * a + b * b - c * c) / (2 * a)
        return [(0.0, 0.0), (a, 0.0), (x, math.sqrt(max(b * b - x * x, 0.0)))]
    base, height = cells("base"), cells("height")
    return [(0.0, 0.0), (base, 0.0), (base / 2, height)]


def regular_points(corners, side):
    radius = side / (2 * math.sin(math.pi / corners))
    return [(radius * math.cos(2 * math.pi * i / corners), radius * math.sin(2 * math.pi * i / corners))
            for i in range(corners)]


def outline_points(cells):
    shape = cells.part.shape
    if shape == "board":
        length, width = cells("length"), cells("width")
        return [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)]
    if shape == "triangle":
        return triangle_points(cells)
    if "points" in cells:
        return cells.pairs("points")
    return regular_points(int(cells.cells["corners"]), cells("side"))


def softened(area, inset_area, rim, inset_rim, cells):
    """Face and sloped or rounded strip of an outline, with the depth that the strip takes off the edge.

    A 45 degree chamfer: strip = (A - A_inset) sqrt 2. A quarter round of radius r, mitred at the corners, sums the rim
    at every inset s = r (1 - cos t) along the arc: P r pi/2 - (P - P_inset) r (pi/2 - 1).
    """
    if "chamfer" in cells:
        return inset_area, (area - inset_area) * math.sqrt(2), cells("chamfer")
    radius = cells("roundover")
    strip = radius * (rim * math.pi / 2 - (rim - inset_rim) * (math.pi / 2 - 1))
    return inset_area, strip, radius


def flat_outline(cells):
    """Board, triangle, polygon: face, back, edges; a board's ends are its short sides."""
    points, thick = outline_points(cells), cells("thickness")
    area, rim = shoelace(points), perimeter(points)
    face, strip, depth = area, 0.0, 0.0
    inset = cells("chamfer") or cells("roundover")
    if inset:
        inner = inset_outline(points, inset)
        face, strip, depth = softened(area, shoelace(inner), rim, perimeter(inner), cells)
    if cells.part.shape != "board":
        return {"face": face, "back": area, "edges": rim * (thick - depth) + strip}
    length, width = cells("length"), cells("width")
    return {"face": face, "back": area, "edges": 2 * length * (thick - depth) + strip, "ends": 2 * width * (thick - depth)}


def disc(cells):
    """Face, back, and the rims of the outside and of the hole as edge."""
    outer, hole, thick = cells("diameter") / 2, cells("hole", 0.0) / 2, cells("thickness")
    area, face, strip, depth = math.pi * outer ** 2, math.pi * outer ** 2, 0.0, 0.0
    inset = cells("chamfer") or cells("roundover")
    if inset:
        inner = outer - inset
        face, strip, depth = softened(area, math.pi * inner ** 2, 2 * math.pi * outer, 2 * math.pi * inner, cells)
    opening = math.pi * hole ** 2
    edges = 2 * math.pi * outer * (thick - depth) + strip + 2 * math.pi * hole * thick
    return {"face": face - opening, "back": area - opening, "edges": edges}


def frustum(r, s, height):
    return math.pi * (r + s) * math.hypot(height, r - s)


def round_(cells):
    radius = cells("diameter") / 2
    return {"face": 2 * math.pi * radius * cells("length"), "ends": 2 * math.pi * radius ** 2}


def taper(cells):
    wide, narrow, length = cells("width"), cells("width2"), cells("length")
    slant = math.hypot(length, (wide - narrow) / 2)
    return {"face": 2 * (wide + narrow) * slant, "ends": wide ** 2 + narrow ** 2}


def cone(cells):
    r, s = cells("diameter") / 2, cells("diameter2", 0.0) / 2
    return {"face": frustum(r, s, cells("length")), "ends": math.pi * (r ** 2 + s ** 2)}


def turning(cells):
    """Frusta between the points of the profile; a shoulder is a flat ring and counts to the face."""
    profile = cells.pairs("profile")
    face = sum(frustum(d / 2, e / 2, w - z) for (z, d), (w, e) in zip(profile, profile[1:]))
    return {"face": face, "ends": math.pi * (profile[0][1] ** 2 + profile[-1][1] ** 2) / 4}


def moulding(cells):
    return {"face": cells("girth") * cells("length")}


def frame(cells):
    length, width, member, thick = cells("length"), cells("width"), cells("member"), cells("thickness")
    inner_length, inner_width = length - 2 * member, width - 2 * member
    ring = length * width - inner_length * inner_width
    return {"face": ring, "back": ring, "edges": 2 * thick * (length + width + inner_length + inner_width)}


def box(cells):
    """Outside, inside and the rims of the open sides; each closed side takes one thickness off the inside."""
    open_sides = set(cells.cells.get("open", "").replace(",", " ").split())
    size = {"length": cells("length"), "width": cells("width"), "height": cells("height")}
    across = {"length": ("left", "right"), "width": ("front", "back"), "height": ("top", "bottom")}
    planes = {("front", "back"): ("length", "height"), ("left", "right"): ("width", "height"),
              ("top", "bottom"): ("length", "width")}
    inner = {name: size[name] - cells("thickness") * sum(side not in open_sides for side in across[name]) for name in size}
    found = {"outside": 0.0, "inside": 0.0, "edges": 0.0}
    for sides, (a, b) in planes.items():
        for side in sides:
            if side in open_sides:
                found["edges"] += size[a] * size[b] - inner[a] * inner[b]
            else:
                found["outside"] += size[a] * size[b]
                found["inside"] += inner[a] * inner[b]
    return found


def area_given(cells):
    region = cells.cells.get("region", "face")
    return {region: float(measure.area(cells.cells["area"], cells.part.units))}


def triangle_area(a, b, c):
    u, v = [y - x for x, y in zip(a, b)], [y - x for x, y in zip(a, c)]
    cross = (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])
    return math.sqrt(sum(x * x for x in cross)) / 2


def stl_triangles(data):
    """Triangles of an STL file, binary or text."""
    count = struct.unpack_from("<I", data, 80)[0] if len(data) >= 84 else -1
    if len(data) == 84 + 50 * count:
        for i in range(count):
            values = struct.unpack_from("<12f", data, 84 + 50 * i)
            yield values[3:6], values[6:9], values[9:12]
        return
    rows = [line.split() for line in data.decode("utf-8", "replace").splitlines()]
    points = [tuple(float(v) for v in row[1:4]) for row in rows if row[:1] == ["vertex"]]
    yield from zip(points[0::3], points[1::3], points[2::3])


def obj_triangles(data):
    """Triangles of an OBJ file; a polygon is a fan, a negative index counts from the last vertex."""
    points = []
    for row in (line.split() for line in data.decode("utf-8", "replace").splitlines()):
        if row[:1] == ["v"]:
            points.append(tuple(float(v) for v in row[1:4]))
        elif row[:1] == ["f"]:
            index = [int(word.split("/")[0]) for word in row[1:]]
            corner = [points[i - 1] if i > 0 else points[i] for i in index]
            yield from ((corner[0], corner[i], corner[i + 1]) for i in range(1, len(corner) - 1))


def mesh(cells):
    path = Path(cells.part.folder) / cells.cells["file"]
    scale = float(measure.LENGTH[cells.cells.get("file-units", "mm")]) / 1000
    read = obj_triangles if path.suffix.lower() == ".obj" else stl_triangles
    return {"face": math.fsum(triangle_area(*t) for t in read(path.read_bytes())) * scale ** 2}


SHAPES = {"board": flat_outline, "triangle": flat_outline, "polygon": flat_outline, "disc": disc, "round": round_,
          "taper": taper, "cone": cone, "turning": turning, "moulding": moulding, "frame": frame, "box": box,
          "mesh": mesh, "area": area_given}


def part_areas(part):
    """m2 by region of one part, nothing covered."""
    cells = Cells(part)
    found = SHAPES[part.shape](cells)
    if "grooves" in cells:
        for item in cells.cells["grooves"].split(";"):
            count, length, girth = item.split("x")
            sides = measure.length(length, part.units) * measure.length(girth, part.units)
            found["face"] += float(measure.number(count) * sides) / 10 ** 6
    return found


def mass(part):
    """Kilograms of a flat part: its face by its thickness by the density of the wood, that of the core under a veneer; 0 where
    the shape has no face or no thickness."""
    thick = Cells(part)("thickness", 0.0)
    return part_areas(part).get("face", 0.0) * thick * woods.density(part.core or part.wood)
