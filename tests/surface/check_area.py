#!/usr/bin/env -S python3 -B
"""Part lists of every shape, made at random: the program's areas against those of the checker, which shares no line with
it; the arithmetic of every part on request; and the drawing, which names every area, stays within its frame and tells
schedules apart without colour."""
import json
import math
import random
import re
import struct
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as tree
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))

import job_reader
import program
import surfaces

SVG = "{http://www.w3.org/2000/svg}"
COLUMNS = """part piece qty shape wood length width thickness height diameter diameter2 hole width2 member girth base
side sides points corners profile open area region file file-units size grooves chamfer roundover covered face back edges
ends inside outside all note""".split()
SCHEDULES = ["oil", "varnish", "wax & polish <2>"]
passed = failed = 0


def check(name, sound):
    global passed, failed
    passed, failed = passed + bool(sound), failed + (not sound)
    if not sound:
        print(f"{sys.argv[0]}: {name}")


class Maker:
    """Rows of a part list, lengths written in one of the ways that makers use."""

    def __init__(self, seed, units, folder):
        self.random, self.units, self.folder = random.Random(seed), units, folder

    def length(self, low, high):
        """About low to high millimetres."""
        mm = self.random.uniform(low, high)
        eighths = max(1, round(mm / 25.4 * 8))
        inches = f"{eighths // 8} {eighths % 8}/8" if eighths % 8 and eighths >= 8 else f"{eighths}/8" if eighths % 8 else str(eighths // 8)
        bare = f"{mm:.1f}" if self.units == "mm" else inches
        return self.random.choice([bare, bare, f"{mm:.2f} mm", f"{mm / 10:.2f} cm", f"{inches} in", f'{inches}"'])

    def lengths(self, *ranges):
        return [self.length(low, high) for low, high in ranges]

    def mm(self, value):
        return f"{value:.2f} mm"

    def board(self):
        length, width, thick = self.lengths((200, 2000), (80, 700), (12, 40))
        row = {"length": length, "width": width, "thickness": thick}
        if self.random.random() < 0.5:
            row[self.random.choice(["chamfer", "roundover"])] = self.length(1, 8)
        if self.random.random() < 0.3:
            row["grooves"] = "2 x 100 mm x 12 mm; 1 x 1/4 in x 20 mm"
        if self.random.random() < 0.3:
            row["covered"] = "back 2 x 40 mm x 60 mm; face 30 mm x 50 mm"
        return row

    def lumber(self):
        row = {"shape": "board", "size": self.random.choice(["1x4", "2x6", "4/4", "8/4"]), "length": self.length(300, 2000)}
        if "/" in row["size"]:
            row["width"] = self.length(100, 300)
        return row

    def triangle(self):
        if self.random.random() < 0.5:
            return {"base": self.length(60, 200), "height": self.length(40, 200), "thickness": self.length(4, 20)}
        a, b = self.random.uniform(80, 200), self.random.uniform(80, 200)
        c = abs(a - b) + (a + b - abs(a - b)) * self.random.uniform(0.1, 0.9)
        row = {"sides": " ".join(map(self.mm, (a, b, c))), "thickness": "12 mm"}
        if self.random.random() < 0.5:
            row["chamfer"] = "1.5 mm"
        return row

    def polygon(self):
        if self.random.random() < 0.4:
            row = {"corners": str(self.random.randint(3, 12)), "side": self.length(40, 90), "thickness": self.length(15, 30)}
            return {**row, **self.random.choice([{}, {"chamfer": "3 mm"}, {"roundover": "1/8 in"}])}
        corners = self.random.randint(5, 12)
        points = []
        for i in range(corners):
            reach, angle = self.random.uniform(60, 200), 2 * math.pi * (i + self.random.uniform(0, 0.6)) / corners
            points.append((300 + reach * math.cos(angle), 300 + reach * math.sin(angle)))
        if self.random.random() < 0.5:
            points.reverse()
        return {"points": "; ".join(f"{self.mm(x)} {self.mm(y)}" for x, y in points), "thickness": self.length(10, 30)}

    def disc(self):
        row = {"diameter": self.length(200, 900), "thickness": self.length(15, 40)}
        return {**row, **self.random.choice([{}, {"hole": self.length(20, 90)}, {"chamfer": "5 mm"}, {"roundover": "3/8 in"}])}

    def round(self):
        return {"diameter": self.length(8, 60), "length": self.length(200, 900)}

    def taper(self):
        return {"width": self.length(40, 70), "width2": self.length(20, 39), "length": self.length(300, 800)}

    def cone(self):
        return {"diameter": self.length(40, 70), "diameter2": self.length(10, 39), "length": self.length(300, 800)}

    def turning(self):
        along, points = 0.0, []
        for _ in range(self.random.randint(2, 9)):
            points.append(f"{self.mm(along)} {self.length(15, 60)}")
            along += self.random.choice([0, 20, 35.5])
        points.append(f"{self.mm(along + 30)} {self.length(15, 60)}")
        return {"profile": "; ".join(points)}

    def moulding(self):
        return {"girth": self.length(30, 120), "length": self.length(500, 3000)}

    def frame(self):
        return {"length": self.length(500, 900), "width": self.length(300, 499), "member": self.length(40, 90), "thickness": self.length(18, 25)}

    def box(self):
        sides = ["front", "back", "left", "right", "top", "bottom"]
        return {"length": self.length(300, 1100), "width": self.length(250, 600), "height": self.length(80, 900),
                "thickness": self.length(6, 22), "open": " ".join(self.random.sample(sides, self.random.randint(0, 5)))}

    def area(self):
        return {"area": self.random.choice(["1.25 m2", "400 cm2", "20 sq ft", "300 mm x 2 ft"]), "region": self.random.choice(["", "face", "inside"])}

    def mesh(self):
        name = f"mesh-{self.random.randrange(10**9)}"
        triangles = [[self.random.uniform(0, 90) for _ in range(9)] for _ in range(self.random.randint(1, 40))]
        if self.random.random() < 0.5:
            body = b"".join(struct.pack("<12fH", 0, 0, 0, *t, 0) for t in triangles)
            (self.folder / f"{name}.stl").write_bytes(bytes(80) + struct.pack("<I", len(triangles)) + body)
            return {"file": f"{name}.stl", "file-units": self.random.choice(["mm", "in"])}
        lines = ["v {} {} {}\nv {} {} {}\nv {} {} {}\nf -3 -2 -1".format(*t) for t in triangles]
        (self.folder / f"{name}.obj").write_text("\n".join(lines))
        return {"file": f"{name}.obj", "file-units": self.random.choice(["cm", "mm"])}

    def row(self, number):
        shape = self.random.choice("board lumber triangle polygon disc round taper cone turning moulding frame box area mesh".split())
        row = {"part": f'part {number}, "{shape}"', "qty": str(self.random.randint(1, 20)), "shape": shape, "wood": "oak", "note": "a, b; c\nd"}
        row.update(getattr(self, shape)())
        row["all"] = self.random.choice(SCHEDULES + ["-"])
        for region in "face", "back":
            if shape in ("board", "triangle", "disc") and self.random.random() < 0.3:
                row[region] = self.random.choice(SCHEDULES + ["-"])
        return row


def write_head(folder, units, name):
    job = {"format": "coatwright-job/1", "job": name, "zone": "Europe/London", "units": units,
           "start": "2027-03-01 08:00", "deliver": "2027-12-20 14:00", "parts": "parts.csv",
           "schedules": {name: [{"coat": "danish-oil"}] for name in SCHEDULES}}
    (folder / "job.json").write_text(json.dumps(job))
    return job


def write_job(seed, units, separator, folder):
    maker = Maker(seed, units, folder)
    rows = [maker.row(i) for i in range(150)]

    def cell(text):
        return '"' + text.replace('"', '""') + '"' if re.search(r'[",;\n]', text) else text
    lines = [separator.join(COLUMNS), "# a remark", ""]
    lines += [separator.join(cell(row.get(name, "")) for name in COLUMNS) for row in rows]
    (folder / "parts.csv").write_text("\r\n".join(lines))
    return write_head(folder, units, f"Areas & <more>, seed {seed}")


def compare(name, job, folder):
    """The areas, one by one; gives the program's."""
    code, out, errors = program.run("area", folder / "job.json", "--json")
    check(f"{name}: {out[:300]} {errors[-300:]}", code == 0)
    got = json.loads(out)
    parts = job_reader.read_parts(job, folder)
    want = [s for part in parts for s in surfaces.of_part(part) if s.area > 1e-9]
    check(f"{name}: {len(got['surfaces'])} surfaces, not {len(want)}", len(got["surfaces"]) == len(want))
    for mine, theirs in zip(got["surfaces"], want):
        same = (mine["part"], mine["region"], mine["schedule"]) == (theirs.part.name, theirs.region, theirs.schedule)
        close = math.isclose(mine["area_m2"], theirs.area, rel_tol=1e-9)
        check(f"{name}: {mine} is {theirs.area} by the checker: {theirs.part.cells}", same and close)
    total = math.fsum(s.area for s in want if s.schedule)
    check(f"{name}: {got['finished_m2']} finished, not {total}", math.isclose(got["finished_m2"], total, rel_tol=1e-9))
    return got


def explain(name, got, folder):
    for part in sorted({s["part"] for s in got["surfaces"]})[:40]:
        code, out, errors = program.run("area", folder / "job.json", "--explain", part)
        lines = out.splitlines()
        check(f"{name}: {part}: {errors[-200:]}", code == 0 and lines and lines[0].startswith(part + ": "))
        check(f"{name}: {part}: over 80 columns", max(map(len, lines)) <= 80)


def luminance(colour):
    """Relative luminance (WCAG 2.1)."""
    parts = [int(colour[i:i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def hatching(pattern):
    """What is seen of a pattern in black and white."""
    ink = pattern[1]
    return ink.tag, pattern.get("patternTransform"), pattern.get("width")


def check_tints(name, root):
    patterns = list(root.iter(SVG + "pattern"))
    check(f"{name}: two schedules are hatched alike", len({hatching(p) for p in patterns}) == len(patterns))
    for pattern in patterns:
        ground, ink = pattern[0].get("fill"), pattern[1].get("stroke") or pattern[1].get("fill")
        contrast = (luminance(ground) + 0.05) / (luminance(ink) + 0.05)
        check(f"{name}: contrast {contrast:.1f} of {pattern.get('id')}", contrast >= 4.5)


def corners(path):
    numbers = [float(n) for n in re.findall(r"-?[\d.]+", path)]
    return list(zip(numbers[::2], numbers[1::2]))


def draw(name, got, job_file, folder):
    file = folder / "areas.svg"
    code, _, errors = program.run("area", job_file, "--svg", file)
    check(f"{name}: {errors[-200:]}", code == 0)
    root = tree.parse(file).getroot()
    width, height = float(root.get("width")), float(root.get("height"))
    for path in root.iter(SVG + "path"):
        inside = all(-0.01 <= x <= width + 0.01 and -0.01 <= y <= height + 0.01 for x, y in corners(path.get("d")))
        check(f"{name}: out of its frame: {path.get('d')}", inside)
    check(f"{name}: styles", not any({"style", "class"} & set(e.keys()) for e in root.iter()))
    check_tints(name, root)
    said = {}
    for text in (e.text for e in root.iter(SVG + "text")):
        match = re.fullmatch(r"(\w+(?: \w+)?) ([\d.]+) (m²|cm²|ft²|in²): (.*)", text)
        if match:
            area, rounding = measured(match[2], match[3])
            sums = said.setdefault((match[1], match[4]), [0, 0])
            sums[0], sums[1] = sums[0] + area, sums[1] + rounding
    want = {}
    for surface in got["surfaces"]:
        key = (surface["region"], surface["schedule"] or "bare")
        want[key] = want.get(key, 0) + surface["area_m2"]
    check(f"{name}: regions {said.keys() ^ want.keys()}", said.keys() == want.keys())
    for key, area in want.items():
        check(f"{name}: {key} {said.get(key)}, is {area}", key in said and abs(said[key][0] - area) <= said[key][1])


def measured(number, unit):
    """An area in m2, and how far it may be off as it is rounded."""
    size = {"m²": 1, "cm²": 1e-4, "ft²": 0.09290304, "in²": 0.00064516}[unit]
    return float(number) * size, 0.51 * size * 10 ** -len(number.partition(".")[2])


def many(folder):
    """100,000 rows in one list."""
    lines = ["part,qty,length,width,thickness,all"] + [f"p{i},{i % 3 + 1},{500 + i % 700},{100 + i % 83},3/4 in,oil" for i in range(100_000)]
    (folder / "parts.csv").write_text("\n".join(lines))
    write_head(folder, "mm", "many")
    code, out, errors = program.run("area", folder / "job.json", "--json")
    sizes = ((i % 3 + 1, 500 + i % 700, 100 + i % 83) for i in range(100_000))
    want = math.fsum(n * 2 * (a * b + (a + b) * 19.05) / 1e6 for n, a, b in sizes)
    got = re.search(r'"finished_m2": ([\d.]+)', out)
    check(f"100,000 rows: {code} {errors[-200:]}", code == 0 and got)
    check(f"100,000 rows: {got and got[1]}, not {want}", got and math.isclose(float(got[1]), want, rel_tol=1e-11))


def main():
    for seed, units, separator in (1, "mm", ","), (2, "in", ";"), (3, "mm", ";"):
        with tempfile.TemporaryDirectory() as folder:
            name, folder = f"seed {seed}", Path(folder)
            job = write_job(seed, units, separator, folder)
            got = compare(name, job, folder)
            explain(name, got, folder)
            if units == "mm":
                draw(name, got, folder / "job.json", folder)
    with tempfile.TemporaryDirectory() as folder:
        many(Path(folder))
        for job in program.examples():
            draw(job.name, json.loads(program.run("area", job, "--json")[1]), job, Path(folder))


program.need()
main()
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
