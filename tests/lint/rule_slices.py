#!/usr/bin/env python3
"""Few headers serve a single module, or declare a single function: such a header is a slice that fits a limit, not an idea.

A header's users are the modules of src that include it, its own apart; main programs and the public header are none. At most
CEILING headers may have one user or one function, for there are good reasons now and then; with more of them all are named, and with --list
in any case.
"""
import re, sys
from source import code, files, finish, read

CEILING = 35
INCLUDE = re.compile(r'^\s*#\s*include\s*"([^"]+)"', re.M)
# A name, its arguments and a semicolon at the end of a declaration: neither a typedef nor a pointer to a function in a struct.
FUNCTION = re.compile(r"^(?!typedef\b)[a-z][\w\s*]*?\b(\w+)\s*\([^;{}]*\)[^;{}]*;", re.M)


def functions(path):
    """The functions that a header declares, those in the bodies of structs and enums apart."""
    text = re.sub(r"^[ \t]*#(?:.*\\\n)*.*", "", code(path), flags=re.M)
    while True:
        flat = re.sub(r"\{[^{}]*\}", "", text)
        if flat == text:
            return set(FUNCTION.findall(text))
        text = flat


users = {}
for path in files("src/**/*.[ch]"):
    for name in INCLUDE.findall(read(path)):
        if name[:-2] != path[4:-2]:
            users.setdefault(f"src/{name}", set()).add(path[4:-2])
slices = []
for path in files("src/**/*.h"):
    outside, names = users.get(path, set()), functions(path)
    if len(outside) == 1:
        slices.append((path, 1, f"only {next(iter(outside))} includes it"))
    elif len(names) == 1:
        slices.append((path, 1, f"declares {next(iter(names))} alone"))
if "--list" in sys.argv:
    finish(slices)
if len(slices) > CEILING:
    slices.append(("src", 1, f"{len(slices)} headers have one user or one function, the ceiling is {CEILING}"))
    finish(slices)
