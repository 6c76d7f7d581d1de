"""The take-off: which region of which part gets which schedule, in m2 for all its qty together."""
import math
import re
from collections import namedtuple

import job_reader
import measure
import shapes

Surface = namedtuple("Surface", "part region schedule area patch", defaults=[False])


def covered(part):
    """m2 by region that another part or glue hides on one part: `back 300 mm x 120 mm; face 2 x 40 mm x 600 mm`."""
    hidden = {}
    for entry in filter(str.strip, part.covered.split(";")):
        region, sizes = entry.strip().split(None, 1)
        numbers = re.split(r"[x×]", sizes)
        count = measure.number(numbers.pop(0)) if len(numbers) == 3 else 1
        sides = [measure.length(n, part.units) for n in numbers]
        hidden[region] = hidden.get(region, 0.0) + float(count * sides[0] * sides[1]) / 10 ** 6
    return hidden


def of_part(part):
    """The surfaces of one row."""
    areas, hidden = shapes.part_areas(part), covered(part)
    return [Surface(part, region, part.schedule[region], part.qty * (areas[region] - hidden.get(region, 0.0)))
            for region in job_reader.REGIONS if region in areas]


def lies_under(surface, name, patch):
    """Whether a patch of a piece lies on a surface."""
    return surface.part.piece == name and surface.region == patch["region"] and surface.schedule and \
        patch.get("part", surface.part.name) == surface.part.name


def patches(job, took):
    """{number of a surface: the part of a patch that lies on it}: spread over the region as its surfaces are."""
    found = {}
    for piece in job.pieces.values():
        under = [i for i, s in enumerate(took) if piece.patch and lies_under(s, piece.name, piece.patch)]
        whole = math.fsum(took[i].area for i in under)
        for i in under:
            share = float(measure.area(piece.patch["area"])) / whole
            found[i] = took[i]._replace(schedule=piece.patch["schedule"], area=took[i].area * share, patch=True)
    return found


def of_job(job):
    """All surfaces in file order, a patch behind what it lies on."""
    took = [surface for part in job.parts for surface in of_part(part)]
    on = patches(job, took)
    return [surface for i, s in enumerate(took) for surface in ([s, on[i]] if i in on else [s])]


def finished(surfaces):
    """m2 that get a finish; a patch is part of what it lies on."""
    return math.fsum(s.area for s in surfaces if s.schedule and not s.patch)


def by_schedule(surfaces, schedules):
    """m2 by schedule."""
    return {name: math.fsum(s.area for s in surfaces if s.schedule == name) for name in schedules}


def bare(surfaces):
    return math.fsum(s.area for s in surfaces if s.schedule is None)
