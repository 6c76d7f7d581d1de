#!/usr/bin/env python3
"""No function over 60 lines, its signature included, no file over 500, and no room that holds over a fifth of the lines of src."""
import re
from source import code, files, finish, read

FUNCTION, FILE, ROOM = 60, 500, 0.2
SMALL = 5000  # lines: less is too little a house to have rooms alike


def functions(text):
    """(name, first line, last line) of every function body at file scope."""
    text = re.sub(r"^[ \t]*#(?:.*\\\n)*.*", lambda m: "\n" * m.group().count("\n"), text, flags=re.M)
    depth, began, name, first = 0, 0, None, 0
    for at in (m.start() for m in re.finditer(r"[{};]", text)):
        if text[at] == "{":
            head = text[began:at]
            if depth == 0 and head.rstrip().endswith(")") and "=" not in head:
                name = (re.findall(r"(\w+)\s*\(", head) or ["?"])[0]
                first = text.count("\n", 0, began + len(head) - len(head.lstrip())) + 1
            depth += 1
        elif text[at] == "}":
            depth -= 1
            if depth == 0 and name:
                yield name, first, text.count("\n", 0, at) + 1
                name = None
        if depth == 0:
            began = at + 1


def crowded(lines):
    """(room, message) of each room that holds too much; lines are those of each file of src."""
    rooms = {}
    for path, count in lines.items():
        room = "/".join(path.split("/")[:2])
        rooms[room] = rooms.get(room, 0) + count
    total = sum(rooms.values())
    for room, count in rooms.items():
        if total > SMALL and count > ROOM * total:
            yield room, f"holds {100 * count / total:.1f} % of src, the ceiling is {100 * ROOM:.0f} %"


problems, sizes = [], {}
for path in files("src/**/*.[ch]", "include/*.h", "tests/*/*.[ch]"):
    for name, first, last in functions(code(path)):
        if last - first + 1 > FUNCTION:
            problems.append((path, first, f"{name} has {last - first + 1} lines, the ceiling is {FUNCTION}"))
    lines = read(path).count("\n")
    if path.startswith("src/"):
        sizes[path] = lines
    if lines > FILE:
        problems.append((path, FILE + 1, f"{lines} lines, the ceiling is {FILE}"))
problems += [(room, 1, message) for room, message in crowded(sizes)]
finish(problems)
