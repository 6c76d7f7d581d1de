"""The take-off: which region of which part gets which schedule, in m2 for all its qty together."""
import math
import re
from collections import namedtuple

import job_reader
import measure
import shapes

Surface = namedtuple("Surface", "part region schedule area")


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


def of_job(job):
    """All surfaces in file order."""
    return [surface for part in job.parts for surface in of_part(part)]


def by_schedule(surfaces, schedules):
    """m2 by schedule."""
    return {name: math.fsum(s.area for s in surfaces if s.schedule == name) for name in schedules}


def bare(surfaces):
    return math.fsum(s.area for s in surfaces if s.schedule is None)
