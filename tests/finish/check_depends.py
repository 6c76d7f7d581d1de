#!/usr/bin/env -S python3 -B
"""What depends on which figure of a finish: each is made a tenth larger and a tenth smaller, and the outputs that change
must be those that depends.json names for it, no more and no less.

A figure is a number of a finish file, by its JSON pointer; `times/at` holds two. An output is a path in what `plan`,
`buy --cost` and `finishes --own` print as JSON, and `warnings` the lines in which `plan` warns of the job: those of `check`.
Items of lists are told apart by the names in KEYS, steps, batches and links not at all: their paths have a `*`, and all
values under one path are compared together, those of steps and batches in the order of their ids, so that one that only
moves changes its moments and nothing else.
Planned is the first plan alone, without a search: what a better plan moves elsewhere says nothing of the figure. Which of the
equal people does a step is left out for the same reason, and so are the words of a batch, which say again what other keys do.
An entry of depends.json is a list of paths with alternatives in {braces}, FINISH and COMPONENT standing for its own, and of
the groups above it; or a sentence that says why nothing but `finishes` depends on the figure here. What `finishes` shows of a
figure stands under `shown`, once for all finishes, N being the number of a component, and under the name of a finish that differs.
"""
import concurrent.futures
import copy
import json
import re
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "checker"))

import program
from every_figure import FINISHES, JOB, SHOP, STOCK

SPANS = {"min": 1, "h": 60, "d": 1440, "wk": 7 * 1440, "mo": 30 * 1440, "y": 365 * 1440}
KEYS = {"finishes": "finish", "components": "component", "mixes": "finish", "states": "state"}
WORDS = {"format", "finish", "name", "short", "family", "dries-by", "component", "mix-by", "by", "flip", "late-recoat", "cautions", "food", "child", "solvent",
         "sources", "label"}
LEAST = {"resists": 0}
AIR = re.compile(r"(\d+) C (\d+) %")
FIRST_PLAN = ["--effort", "1"]
LEFT_OUT = {"person", "helper", "words"}
BY_ID = {"plan/timetable/steps", "plan/timetable/batches"}
WARNING = re.compile(r"^\S*job\.json:(.*: warning: .*)$", re.M)

def leaves(value, path=()):
    if isinstance(value, (dict, list)):
        for key, item in value.items() if isinstance(value, dict) else enumerate(value):
            if key not in WORDS:
                yield from leaves(item, path + (key,))
    elif isinstance(value, str) and AIR.fullmatch(value):
        yield path + ("temperature",)
        yield path + ("humidity",)
    else:
        yield path


def span(minutes):
    return f"{round(minutes)} min"


def grown(path, value, factor, part=None):
    """The figure a tenth larger or smaller; whole numbers by the next one at least."""
    if part:
        warm, damp = map(int, AIR.fullmatch(value).groups())
        return f"{warm * factor if part == 'temperature' else warm} C {damp * factor if part == 'humidity' else damp} %"
    if path[-1] == "parts":
        return value * factor
    if isinstance(value, int):
        step = max(1, round(abs(value * (factor - 1))))
        return max(LEAST.get(path[0], 1), value + (step if factor > 1 else -step))
    number, _, unit = value.partition(" ")
    if not unit:
        return f"{float(value) * factor:.2f}"
    if unit in SPANS:
        return span(float(number) * SPANS[unit] * factor)
    return f"{round(float(number) * factor, 6)} {unit}"


def changed(finish, path, factor):
    """A copy of the finish with that one figure changed."""
    made = copy.deepcopy(finish)
    part = path[-1] if path[-2:-1] == ("at",) else None
    *way, last = path[:-1] if part else path
    at = made
    for key in way:
        at = at[key]
    at[last] = grown(path, at[last], factor, part)
    return made


def values(value, found, path=""):
    """{path: every value under it, in order}; a list's length is a value of the list."""
    if isinstance(value, dict):
        for key, item in value.items():
            if key not in LEFT_OUT:
                values(item, found, f"{path}/{key}")
    elif isinstance(value, list):
        key = KEYS.get(path.rpartition("/")[2])
        found.setdefault(path, []).append(len(value))
        for item in sorted(value, key=lambda item: item["id"]) if path in BY_ID else value:
            name = item.get(key, "*") if isinstance(item, dict) else "*"
            values(item, found, f"{path}/{name}")
    else:
        found.setdefault(path, []).append(value)
    return found


def write(folder, finishes):
    (folder / "own").mkdir(parents=True)
    (folder / "stock.csv").write_text(STOCK, encoding="utf-8")
    (folder / "shop.json").write_text(json.dumps(SHOP), encoding="utf-8")
    (folder / "job.json").write_text(json.dumps(JOB), encoding="utf-8")
    for finish in finishes:
        (folder / "own" / f"{finish['finish']}.json").write_text(json.dumps(finish), encoding="utf-8")


def outputs(folder, finishes):
    """({path: values}, None), or (None, what went wrong)."""
    write(folder, finishes)
    found = {}
    job = folder / "job.json"
    for name, arguments in (("plan", ["plan", job, *FIRST_PLAN]), ("quote", ["buy", "--cost", job, *FIRST_PLAN]),
                            ("shown", ["finishes", "--own", folder / "own"])):
        code, out, errors = program.run(*arguments, "--json", "--now", "2027-03-01T08:00Z")
        if code not in (0, 1):
            return None, f"exit status {code}: {(out + errors).strip()[:400]}"
        values(json.loads(out), found, name)
        if name == "plan":
            found["warnings"] = WARNING.findall(errors)
    return found, None


def differences(before, after):
    return {path for path in before.keys() | after.keys() if before.get(path) != after.get(path)}


def depends(folder, finish, path, before):
    """(outputs that change with a figure, what went wrong)."""
    found = set()
    for factor in (0.9, 1.1):
        others = [f for f in FINISHES if f is not finish]
        after, error = outputs(folder / str(factor), others + [changed(finish, path, factor)])
        if error:
            return found, f"times {factor}: {error}"
        found |= differences(before, after)
    return found, None


def expand(pattern):
    """The paths of a pattern with alternatives in braces."""
    match = re.search(r"\{([^{}]*)\}", pattern)
    if not match:
        return {pattern}
    return {path for word in match[1].split(",") for path in expand(pattern[:match.start()] + word + pattern[match.end():])}


def shown(table, finish, figure):
    """The paths of what `finishes` shows of a figure."""
    names = [c["component"] for c in finish["components"]]
    common = re.sub(r"^components/\d+", "components/N", re.sub(r"^kits/0/contents/.*", "kits/0/contents", figure))
    own = table["shown"][finish["finish"]] if finish["finish"] in table["shown"] else {}
    patterns = own.get(figure, table["shown"]["every"].get(common, []))
    part = names[int(figure.split("/")[1])] if figure.startswith("components/") else ""
    return {f"shown/finishes/{finish['finish']}/{path}" for p in patterns for path in expand(p.replace("COMPONENT", part))}


def named(table, finish, figure):
    """The paths that a figure's entry names; a sentence names none but what is shown."""
    entry = table["finishes"][finish["finish"]].get(figure, [])
    parts = "{" + ",".join(c["component"] for c in finish["components"]) + "}"
    patterns = [] if isinstance(entry, str) else [p for word in entry for p in table["groups"].get(word, [word])]
    paths = {path for p in patterns for path in expand(p.replace("FINISH", finish["finish"]).replace("COMPONENT", parts))}
    return paths | shown(table, finish, figure)


def wrong(got, wanted):
    return ([f"changes too: {path}" for path in sorted(got - wanted)] +
            [f"does not change: {path}" for path in sorted(wanted - got)])


def wrong_figures(table):
    """Figures that the table leaves out or that there are not, and kinds of figures that no finish here has."""
    for finish in FINISHES:
        own = {"/".join(map(str, path)) for path in leaves(finish)}
        told = table["finishes"][finish["finish"]].keys()
        yield from (f"{finish['finish']}: no entry for {name}" for name in sorted(own - told))
        yield from (f"{finish['finish']}: {name} is no figure" for name in sorted(told - own))
    schema = json.loads((program.ROOT / "finishes/schema/finish.schema.json").read_text(encoding="utf-8"))
    used = {key for finish in FINISHES for key in finish}
    yield from (f"no finish here has {key}" for key in sorted(schema["properties"].keys() - WORDS - used))


def run(table, scratch, tally):
    before, error = outputs(scratch / "before", FINISHES)
    if error:
        tally.note("unchanged", [error])
        return
    tally.note("figures", list(wrong_figures(table)))
    tally.note("the comparison itself", [] if wrong({"a"}, {"b"}) == ["changes too: a", "does not change: b"] else ["is blind"])
    figures = [(finish, path) for finish in FINISHES for path in leaves(finish)]
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        tries = pool.map(lambda figure: depends(scratch / f"{figures.index(figure)}", *figure, before), figures)
        for (finish, path), (got, error) in zip(figures, tries):
            name = "/".join(map(str, path))
            tally.note(f"{finish['finish']}: {name}", [error] if error else wrong(got, named(table, finish, name)))


def main():
    tally = program.Tally()
    program.need()
    table = json.loads((HERE / "depends.json").read_text(encoding="utf-8"))
    with program.scratch() as scratch:
        run(table, Path(scratch), tally)
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
