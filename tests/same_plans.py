#!/usr/bin/env -S python3 -B
"""same_plans.py OLD NEW [--commit C] [--jobs N]: what two programs say of the same jobs, as JSON, is equal but for what was renamed.

OLD is the program of an earlier commit C (a82fd3a), whose finishes and examples are taken from git; NEW is that of this tree.
Compared are every example, with each command that takes a job, the table of finishes, some mixes without a job, and N (200)
jobs drawn by checker/jobs.py and checker/shop_jobs.py. Each program reads its own spelling of a job and its own table of finishes.
RENAMED, ADDED and SENTENCES say what may differ; whatever else differs is printed with its path, and the exit status is 1.
"""
import argparse
import concurrent.futures
import json
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests/checker"))

import jobs
import shop_jobs

NOW = "2027-01-04T08:00Z"
# New key: old key. A key with a folder before it is renamed below that key only.
KEYS = {"handling": "touch", "coverage/tolerance": "spread", "coverage_m2_per_l/tolerance": "spread", "pot_life_ends": "use_by"}
# New word: old word, where it is a whole value or a whole member of an id such as "top/oil/1/apply".
VALUES = {"conventional": "gun", "matt-furniture-paint": "chalk-paint", "board-conditioner": "board-wax-oil", "conditioner": "wax-oil",
          "steel wool 0000": "0000 wool", "fully cured": "cured", "fit for light use": "ready for light use",
          "light use": "ready for light use"}
# Keys that the new program says more.
ADDED = {"short", "apply_by"}
# What is written for people: counted, not compared.
SENTENCES = {"why", "note", "notes", "warnings", "cautions", "messages"}
# Lists of sentences that may have become shorter by one: of sprayed isocyanate one sentence asks for supplied air, where a second one
# asked for a mask.
SHORTER = {"cautions"}
COMMANDS = [["area"], ["buy"], ["buy", "--cost"], ["mix"], ["timetable"], ["timetable", "--late"], ["timetable", "--chance"], ["plan"],
            ["check"]]
LONE = [["finishes"], ["mix", "hardwax-oil-two-part", "350 ml"], ["mix", "danish-oil", "1", "qt", "--at", "15 C"]]
OPTIONS = {"--late": "--latest"}  # old option: new option


def respelt(value, keys, values, above=""):
    """The same JSON with its keys and values exchanged as the two tables say."""
    if isinstance(value, dict):
        return {keys.get(f"{above}/{k}", keys.get(k, k)): respelt(v, keys, values, k) for k, v in value.items()}
    if isinstance(value, list):
        return [respelt(item, keys, values, above) for item in value]
    if isinstance(value, str):
        return "/".join(values.get(part, part) for part in value.split("/"))
    return value


def counted(value):
    """What is told in sentences, as their number."""
    return len(value) if isinstance(value, list) else bool(value)


def differences(old, new, path=""):
    """Each path at which the two differ, with both values."""
    if isinstance(old, dict) and isinstance(new, dict):
        for key in sorted(old.keys() | new.keys()):
            at = f"{path}/{key}"
            if key in ADDED and key not in old:
                continue
            if key in SENTENCES and key in old and key in new and not isinstance(old[key], dict):
                fewer = counted(old[key]) - counted(new[key])
                if fewer and not (key in SHORTER and fewer == 1):
                    yield at, counted(old[key]), counted(new[key])
            elif key not in old or key not in new:
                yield at, old.get(key, "not there"), new.get(key, "not there")
            else:
                yield from differences(old[key], new[key], at)
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for i, (one, other) in enumerate(zip(old, new)):
            yield from differences(one, other, f"{path}/{i}")
    elif old != new:
        yield path, old, new


class Side:
    """A program with its own tree of finishes and examples."""

    def __init__(self, program, tree, respells):
        self.program, self.tree, self.respells = str(Path(program).resolve()), Path(tree), respells

    def told(self, arguments, folder):
        """(exit status, JSON) of a command."""
        arguments = [a if self.respells else OPTIONS.get(a, a) for a in arguments]
        env = {**os.environ, "COATWRIGHT_FINISHES": str(self.tree / "finishes"), "LC_ALL": "C.UTF-8"}
        done = subprocess.run([self.program, *arguments, "--json", "--now", NOW], cwd=folder, env=env, stdin=subprocess.DEVNULL,
                              capture_output=True, timeout=600, check=False)
        try:
            return done.returncode, json.loads(done.stdout)
        except json.JSONDecodeError:
            return done.returncode, {"messages": [done.stderr.decode("utf-8", "replace")]}

    def spell(self, folder):
        """Writes the files of a generated job as this program reads them."""
        if self.respells:
            for path in Path(folder).rglob("*.json"):
                text = json.loads(path.read_text(encoding="utf-8"))
                path.write_text(json.dumps(respelt(text, KEYS, VALUES), indent=1), encoding="utf-8")


def drawn(number, folder):
    """Writes the number-th generated job: two of three by every feature in turn, the third such as a shop has."""
    if number % 3 == 2:
        return shop_jobs.write(number, 12 + 4 * (number % 5), folder)
    return jobs.write(77000 + number, ("basic", "shop", "all")[number // 3 % 3], folder)


def names_of(tree):
    return {path.stem: json.loads(path.read_text(encoding="utf-8"))["name"] for path in Path(tree, "finishes").glob("*.json")}


def compared(old, new, name, arguments, folders):
    """What differs between the programs' answers to one command, in lines."""
    (code, one), (status, other) = old.told(arguments, folders[0]), new.told(arguments, folders[1])
    before = names_of(old.tree)
    names = {now: before.get(VALUES.get(key, key), now) for key, now in names_of(new.tree).items()}
    other = respelt(other, KEYS, {**VALUES, **names})
    for answer in (one, other):  # the table is in the order of its names
        if "components" in str(answer.get("finishes", "")):
            answer["finishes"].sort(key=lambda finish: finish["finish"])
    lines = [f"exit status {code}, then {status}"] if code != status else []
    for path, was, now in differences(one, other):
        lines.append(f"{path}: {json.dumps(was)[:120]}, then {json.dumps(now)[:120]}")
    return f"{name}: {' '.join(arguments)}", lines


def cases(old, new, count, scratch):
    """(name, arguments, folders of both programs) of everything to compare."""
    for arguments in LONE:
        yield "no job", arguments, (old.tree, new.tree)
    for path in sorted((old.tree / "examples").glob("*.json")):
        if '"coatwright-job/1"' in path.read_text(encoding="utf-8"):
            for command in COMMANDS:
                yield path.name, [command[0], f"examples/{path.name}", *command[1:]], (old.tree, new.tree)
    for number in range(count):
        folders = [scratch / side / str(number) for side in ("old", "new")]
        for side, folder in zip((old, new), folders):
            drawn(number, folder)
            side.spell(folder)
        for command in (["plan"], ["buy", "--cost"], ["check"]):
            yield f"job {number}", [command[0], "job.json", *command[1:]], folders


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("old")
    parser.add_argument("new")
    parser.add_argument("--commit", default="a82fd3a")
    parser.add_argument("--jobs", type=int, default=200)
    options = parser.parse_args()
    same = different = 0
    with tempfile.TemporaryDirectory() as scratch:
        tree = Path(scratch) / "tree"
        tree.mkdir()
        packed = subprocess.run(["git", "archive", options.commit, "finishes", "examples"], cwd=ROOT, check=True, capture_output=True)
        subprocess.run(["tar", "x"], cwd=tree, input=packed.stdout, check=True)
        old, new = Side(options.old, tree, True), Side(options.new, ROOT, False)
        with concurrent.futures.ThreadPoolExecutor(len(os.sched_getaffinity(0))) as pool:
            every = list(cases(old, new, options.jobs, Path(scratch)))
            for name, lines in pool.map(lambda case: compared(old, new, *case), every):
                same, different = same + (not lines), different + bool(lines)
                if lines:
                    print("\n  ".join([name, *lines[:12]] + ([f"and {len(lines) - 12} more"] if len(lines) > 12 else [])))
    print(f"{same} passed, {different} failed")
    return 1 if different or not same else 0


if __name__ == "__main__":
    sys.exit(main())
