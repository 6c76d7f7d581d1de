#!/usr/bin/env python3
"""A file includes its own room and the rooms above it, and no modules need each other in a circle.

A module is the pair room/name.c and room/name.h. The solver's room uses base alone, for it knows no trade words;
the program and its page use base and the public headers alone. What comes in and what goes out do not see each other: source sees no
work, plan or timetable, report sees no reader. A library is known to the files that it is for alone.
"""
import os, re
from source import ROOMS, files, finish, read

ALONE = {"solver": {"base"}, "page": {"base"}, "app": {"base", "page"}, "publish": {"base", "format"}}
BLIND = {"report": {"source"}, "amount": {"format", "source"}, "timetable": {"format", "source"}, "plan": {"format", "source"},
         "finish": {"format"}, "job": {"format"}, "surface": {"format"}}
PUBLIC = {"api", "page", "app"}
LIBRARIES = {r"microhttpd\.h": r"src/page/", r"jansson\.h": r"src/page/", r"curl/": r"src/publish/(?:http|url)", r"expat\.h": r"src/(?:publish/multistatus|format/sheet)", r"zip\.h": r"src/format/sheet"}
INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]')


def includes(path):
    for number, line in enumerate(read(path).splitlines(), 1):
        match = INCLUDE.match(line)
        if match:
            yield number, match.group(1) == '"', match.group(2)


def may_see(room, other):
    if room == other:
        return True
    if other in BLIND.get(room, ()):
        return False
    return other in ALONE[room] if room in ALONE else ROOMS.index(other) < ROOMS.index(room)


def wrong(path, own, name):
    """Why this file may not include that one, or None."""
    room = path.split("/")[1]
    for library, home in LIBRARIES.items():
        if re.match(library, name) and not re.match(home, path):
            return f"{name} belongs to {home}* only"
    if not own:
        return None
    if path.startswith("include/") and name != "coatwright.h":
        return f'the public header includes no file of the project, not "{name}"'
    if re.fullmatch(r"coatwright\w*\.h", name):
        return None if room in PUBLIC or path.startswith("include/") else "only api, page and app include the public header"
    if not os.path.exists(f"src/{name}"):
        return f'"{name}" is not a path below src'
    other = name.split("/")[0]
    return None if may_see(room, other) else f'{room} includes "{name}", but {other} is not above it'


def circle(edges, start):
    """A way from start back to it, as a list of modules, or None."""
    way, seen = [[start]], set()
    while way:
        path = way.pop(0)
        for following in sorted(edges.get(path[-1], {})):
            if following == start:
                return path + [start]
            if following not in seen:
                seen.add(following)
                way.append(path + [following])
    return None


problems, edges = [], {}
for path in files("src/**/*.[ch]", "include/*.h"):
    module = path[4:-2]
    if path.startswith("src/") and path.split("/")[1] not in ROOMS:
        problems.append((path, 1, "no such room in the house"))
        continue
    for number, own, name in includes(path):
        reason = wrong(path, own, name)
        if reason:
            problems.append((path, number, reason))
        if own and path.startswith("src/") and name[:-2] != module:
            edges.setdefault(module, {}).setdefault(name[:-2], (path, number))
for module in sorted(edges):
    way = circle(edges, module)
    if way:
        problems.append((*edges[module][way[1]], "modules need each other: " + " -> ".join(way)))
finish(problems)
