#!/usr/bin/env python3
"""rule_objects.py OBJECTS - what the compiled rooms hold and call, as the object files tell it.

No room keeps a variable outside a function, nor a static one inside. The rooms from base to plan, format and source apart, compute
only: no files, no streams, no clock, no environment, no process.
"""
import re, subprocess, sys
from source import ROOMS, code, files, finish

PURE = set(ROOMS[:ROOMS.index("report")]) - {"format", "source"}
VARIABLE = re.compile(r"^[0-9a-f]+ .{7} (?:\.data(?!\.rel\.ro)|\.bss|\.tdata|\.tbss|\*COM\*)\S*\s+[0-9a-f]+ (?:\.hidden )?(\S+)$")
IMPURE = re.compile(r"^(?:f?open(?:at|64)?|fdopen|freopen|creat|read|write|close|remove|rename|unlink|mkdir|l?stat(?:64)?|"
                    r"fstat(?:64)?|v?f?printf|puts|putchar|fput[sc]|fwrite|fread|perror|std(?:in|out|err)|getenv|"
                    r"secure_getenv|time|clock|clock_gettime|gettimeofday|mktime|localtime_r|gmtime_r|s?rand(?:om)?|"
                    r"system|fork|exec\w*|popen|exit)$")


def tell(tool, path):
    return subprocess.run([*tool, path], check=True, capture_output=True, text=True).stdout.splitlines()


def line_of(source, name, after=""):
    text = code(source)
    match = re.search(rf"\b{re.escape(name)}\b{after}", text)
    return text.count("\n", 0, match.start()) + 1 if match else 1


problems = []
folder = sys.argv[1].rstrip("/")
for path in files(f"{folder}/**/*.o"):
    module = path[len(folder) + 1:-2]
    room, source = module.split("/")[0], f"src/{module}.c"
    if source not in files(source):
        continue  # an object whose source is gone
    for row in tell(["objdump", "-t"], path):
        match = VARIABLE.match(row)
        if match and not match.group(1).startswith("."):
            name = match.group(1).split(".")[0]
            problems.append((source, line_of(source, name), f"{name} is a variable outside any call"))
    for row in tell(["nm", "-u"], path) if room in PURE else []:
        name = row.split()[-1]
        if IMPURE.match(name):
            line = line_of(source, name, r"\s*[(;,)]")
            problems.append((source, line, f"{room} computes only, and {name} reaches outside"))
finish(problems)
