#!/usr/bin/env python3
"""Few headers serve a single module, or declare a single function: such a header is a slice that fits a limit, not an idea.

A header's users are the modules of src, its own apart, that name one of its functions, structs, enums, constants or macros, whichever
header brought it to them; who includes it and names nothing is none. At most CEILING headers may have one user or none, or one
function, for there are good reasons now and then; with more of them all are named, and with --list in any case.
"""
import re, sys
from source import code, files, finish

CEILING = 16
# A name, its arguments and a semicolon at the end of a declaration: neither a typedef nor a pointer to a function in a struct.
FUNCTION = re.compile(r"^(?!typedef\b)[a-z][\w\s*]*?\b(\w+)\s*\([^;{}]*\)[^;{}]*;", re.M)
INLINE = re.compile(r"^static inline [\w\s*]*?\b(\w+)\s*\(", re.M)
TAG = re.compile(r"\b((?:struct|enum|union) \w+)\s*\{")
CONSTANTS = re.compile(r"\benum\b[^{;]*\{([^}]*)\}")
CONSTANT = re.compile(r"\b[A-Z]\w*\b")
WORD = re.compile(r"\b(?:(?:struct|enum|union) )?\w+")
MACRO = re.compile(r"^\s*#\s*define (\w+)\b(?!\s*$)", re.M)


def functions(path):
    """The functions that a header declares, those in the bodies of structs and enums apart."""
    text = re.sub(r"^[ \t]*#(?:.*\\\n)*.*", "", code(path), flags=re.M)
    while True:
        flat = re.sub(r"\{[^{}]*\}", "", text)
        if flat == text:
            return set(FUNCTION.findall(text))
        text = flat


def names(path):
    text = code(path)
    constants = {name for body in CONSTANTS.findall(text) for name in CONSTANT.findall(body)}
    return functions(path) | set(INLINE.findall(text)) | set(TAG.findall(text)) | constants | set(MACRO.findall(text))


modules = {}
for path in files("src/**/*.[ch]"):
    modules.setdefault(path[4:-2], set()).update(WORD.findall(code(path)))
slices = []
for path in files("src/**/*.h"):
    named = names(path)
    users = sorted(module for module, words in modules.items() if module != path[4:-2] and not words.isdisjoint(named))
    if not users:
        slices.append((path, 1, "nobody uses it"))
    elif len(users) == 1:
        slices.append((path, 1, f"only {users[0]} uses it"))
    elif len(functions(path)) == 1:
        slices.append((path, 1, f"declares {min(functions(path))} alone"))
if "--list" in sys.argv:
    finish(slices)
if len(slices) > CEILING:
    slices.append(("src", 1, f"{len(slices)} headers have one user or one function, the ceiling is {CEILING}"))
    finish(slices)
