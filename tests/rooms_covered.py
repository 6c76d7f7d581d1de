#!/usr/bin/env python3
"""rooms_covered.py SUMMARY - the shares of lines and branches that the tests reach, room by room, of gcovr's summary in JSON.

Of the rooms that compute or read, 95 % of the lines and 88 % of the branches must be reached; else the exit status is 1. The lines
that are not are in build-cov/coverage.txt. Assertions are not counted: a test that reaches the other branch of one has found a bug.
"""
import json, sys

HELD = "finish job surface amount solver timetable plan format source".split()
LEAST = {"line": 95, "branch": 88}

rooms = {}
for file in json.load(open(sys.argv[1]))["files"]:
    room = rooms.setdefault(file["filename"].split("/")[1], {})
    for key in (f"{what}_{count}" for what in LEAST for count in ("covered", "total")):
        room[key] = room.get(key, 0) + file[key]
low = 0
for name, room in sorted(rooms.items()):
    shares = {what: 100 * room[f"{what}_covered"] / max(1, room[f"{what}_total"]) for what in LEAST}
    short = name in HELD and any(shares[what] < LEAST[what] for what in LEAST)
    low += short
    print(f"{name:10} {shares['line']:5.1f} % of {room['line_total']:5} lines, {shares['branch']:5.1f} % of {room['branch_total']:5} branches"
          + (": too few" if short else ""))
sys.exit(low > 0)
