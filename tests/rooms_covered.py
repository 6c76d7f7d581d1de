#!/usr/bin/env python3
"""rooms_covered.py COUNTS - the shares of lines and branches that the tests reach, room by room, of gcovr's counts in JSON.

Of the rooms that compute or read, 95 % of the lines and 88 % of the branches must be reached; else the exit status is 1. What is not is
in build-cov/coverage.txt. Beside each share stands what it is with the lines that unreached.txt explains; a line there that is gone from
its file is a mistake, one that is reached by now is told. Assertions are not counted: a test that reaches the other branch of one has found a bug.
"""
import collections, json, os, sys

HELD = "finish job surface amount solver timetable plan format source".split()
LEAST = {"lines": 95, "branches": 88}
REASONS = os.path.join(os.path.dirname(os.path.abspath(__file__)), "unreached.txt")


def explained(text):
    """{(file, "function: line of source")} of a list of reasons: a paragraph each, the file first, its lines indented."""
    rows = set()
    for paragraph in text.split("\n\n"):
        lines = [line for line in paragraph.splitlines() if line and not line.startswith("#")]
        rows |= {(lines[0], line.strip()) for line in lines if line.startswith(" ")}
    return rows


def gone(rows):
    """Those of the rows whose line does not stand in its file any more."""
    texts = {file: {line.strip() for line in open(file)} for file, _ in rows}
    return sorted((file, row) for file, row in rows if row.split(": ", 1)[1] not in texts[file])


def rows_of(file):
    """(what a list of reasons calls it, its counts) of each line of code."""
    source = open(file["file"]).read().splitlines()
    starts = sorted((function["lineno"], function["name"]) for function in file["functions"])
    for line in file["lines"]:
        if not line["gcovr/noncode"]:
            number = line["line_number"]
            inside = [name for start, name in starts if start <= number]
            yield (file["file"], f"{inside[-1] if inside else ''}: {source[number - 1].strip()}"), line


def count(files, excused):
    """({room: {what: [reached, all, explained]}}, the excused rows that some line needs)."""
    rooms, needed = collections.defaultdict(lambda: {what: [0, 0, 0] for what in LEAST}), set()
    for file in files:
        room = rooms[file["file"].split("/")[1]]
        for row, line in rows_of(file):
            for what, counts in ("lines", [line["count"]]), ("branches", [branch["count"] for branch in line["branches"]]):
                missed = sum(not n for n in counts)
                room[what][0] += len(counts) - missed
                room[what][1] += len(counts)
                if missed and row in excused:
                    room[what][2] += missed
                    needed.add(row)
    return rooms, needed


def share(reached, total):
    return 100 * reached / max(1, total)


def main():
    excused = explained(open(REASONS).read())
    rooms, needed = count(json.load(open(sys.argv[1]))["files"], excused)
    low = 0
    for name, room in sorted(rooms.items()):
        short = name in HELD and any(share(*room[what][:2]) < LEAST[what] for what in LEAST)
        low += short
        told = [f"{share(reached, total):5.1f} % of {total:5} {what} ({share(reached + told, total):5.1f} %)" for what, (reached, total, told) in room.items()]
        print(f"{name:10} {', '.join(told)}{': too few' if short else ''}")
    for file, line in sorted(excused - needed):
        print(f"unreached.txt: now it is reached, or gone: {file}: {line}")
    sys.exit(low > 0 or bool(gone(excused)))


main()
