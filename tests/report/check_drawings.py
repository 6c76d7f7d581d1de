#!/usr/bin/env python3
"""What `timetable --svg` writes is XML to another reader, holds no style that a strict page forbids, leaves its frame
nowhere, and names every piece and every coat of the plan; its letters can be read in print and keep apart."""
import json, os, re, subprocess, sys, tempfile
import xml.etree.ElementTree as tree

ROOT = os.path.abspath(os.path.join(os.path.dirname(__file__), "../.."))
PROGRAM = os.environ.get("COATWRIGHT", os.path.join(ROOT, "build/coatwright"))
SVG = "{http://www.w3.org/2000/svg}"
ALLOWED = {SVG + name for name in "svg title defs pattern g rect line path text circle".split()}
passed = failed = 0


def check(name, sound):
    global passed, failed
    passed, failed = passed + bool(sound), failed + (not sound)
    if not sound:
        print(f"{sys.argv[0]}: {name}")


def inside(shape, width, height):
    x, y = float(shape.get("x", 0)), float(shape.get("y", 0))
    return -0.01 <= x <= x + float(shape.get("width")) <= width + 0.01 and \
        -0.01 <= y <= y + float(shape.get("height")) <= height + 0.01


def holds(name, piece):
    """Whether a row is that of the piece, or of a run "door 1 to 3" with it."""
    run = re.fullmatch("(.* )(\\d+) to (\\d+)", name)
    own = re.fullmatch("(.* )(\\d+)", piece)
    return name == piece or bool(run and own and run[1] == own[1] and int(run[2]) <= int(own[2]) <= int(run[3]))


def touching(shapes):
    """Texts on one line that run into each other; a letter takes at least half of its height."""
    spans = []
    for shape in (shape for shape in shapes if shape.tag == SVG + "text"):
        x, size = float(shape.get("x")), float(shape.get("font-size"))
        half = 0.5 * size * len(shape.text) / 2
        middle = x + {"start": half, "middle": 0, "end": -half}[shape.get("text-anchor", "start")]
        spans.append((float(shape.get("y")), middle - half, middle + half, shape.text))
    spans.sort()
    return [(a[3], b[3]) for a, b in zip(spans, spans[1:]) if a[0] == b[0] and b[1] < a[2]]


def look(job, folder):
    file = os.path.join(folder, "drawing.svg")
    made = subprocess.run([PROGRAM, "timetable", f"examples/{job}.json", "--now", "2027-01-04T08:00Z", "--json",
                           "--svg", file], cwd=ROOT, capture_output=True, text=True)
    check(f"{job}: exit status {made.returncode}", made.returncode in (0, 1))
    plan, root = json.loads(made.stdout), tree.parse(file).getroot()
    width, height = float(root.get("width")), float(root.get("height"))
    shapes = list(root.iter())
    texts = [shape.text for shape in shapes if shape.tag == SVG + "text"]
    tips = [shape.text for shape in shapes if shape.tag == SVG + "title"]
    check(f"{job}: only plain shapes", {shape.tag for shape in shapes} <= ALLOWED)
    check(f"{job}: no style", not any({"style", "class"} & set(shape.keys()) for shape in shapes))
    check(f"{job}: within its frame", all(inside(shape, width, height) for shape in shapes if shape.tag == SVG + "rect"))
    for piece in {step["piece"] for step in plan["steps"] if step["piece"]}:
        check(f"{job}: no row of {piece}", any(holds(text, piece) for text in texts))
    for step in plan["steps"]:
        if step["do"] == "apply":
            check(f"{job}: no tip of {step['id']}", any(re.search(", coat \\d", tip) and holds(re.split(r"(?: \((?:back|face)\))?, coat", tip)[0], step["piece"])
                                                       for tip in tips))
    check(f"{job}: letters of 8 points on A4 landscape", all(8 / 785 * width <= float(s.get("font-size")) for s in shapes if s.tag == SVG + "text"))
    check(f"{job}: words that touch", not touching(shapes))
    check(f"{job}: ready and delivery", sum(t.startswith(("ready ", "delivery ")) for t in texts) >= 2)


with tempfile.TemporaryDirectory() as folder:
    for job in ("desk", "doors", "kitchen", "staircase"):
        look(job, folder)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
