#!/usr/bin/env python3
"""Words that are not the trade's, and what stands instead: in what a user reads (texts of the program, documents, finishes), and
in code and comments, where the words of the scheduling literature stand."""
import re
from source import files, finish, read

# What a user reads: (pattern, say instead).
USER = [
    (r"\bin hand\b", "to spare; your can"),
    (r"\bno quicker way\b", "no earlier finish is possible"),
    (r"\bmay slip\b(?! without)", "slack"),
    (r"\bhangs? on\b", "critical path, waits for"),
    (r"\b(?:DEAD|dead) at\b|\bpot is dead\b", "apply by, pot life ends"),
    (r"\brules? of thumb\b", "estimated"),
    (r"\bdrinks?\b", "absorption"),
    (r"\blands\b", "transfer efficiency"),
    (r"\b0000 wool\b", "steel wool 0000"),
    (r"\bready to wrap\b|\bdry to wrap\b", "safe to wrap"),
    (r"\bwear a mask\b|\ba mask for\b", "respirator with organic-vapour cartridge, supplied air, dust respirator"),
    (r"\b[Ll]ay(?:s|ing)? (?:it|them|a|the|on)\b|\blaid by\b|\bis laid\b|\bto lay\b", "apply"),
    (r"\bno hand is\b|\bhand %d\b|\bhands enough\b|\bhands are\b", "person, people"),
    (r"\bworth a look\b|\bassumed and risky\b|\bbe there in time\b|\bworth knowing\b", "warnings, assumptions, notes"),
    (r"\b[Ss]quare metres\b", "areas"),
    (r"\bTouch, wrap\b|\btouch-dry\b", "dry to handle"),
    (r"\bon the shelf\b", "in stock"),
    (r"\bshall\b|\breckons?\b|\bholds against\b", "plain verbs: is, takes, needs"),
    (r"(?<![\w\"'])(?:\d|%s|%d|\d\)) ?(?:m2|ft2|cm2|in2|um)\b(?!/)", "m², ft², µm where it is not to be typed"),
]
# Code and comments.
CODE = [
    (r"\bclash(?:es|ed)?\b", "conflict"),
    (r"\bsure parts?\b", "compulsory part"),
    (r"\brelent(?:s|ed)?\b", "insertion with unscheduling"),
    (r"\bcontract, section\b|\b(?:method|solver|figures|words|design|contract|batches)\.md\b", "the thing itself, or the publication"),
    (r"\bhangs? on\b", "depends on, critical path"),
    (r"\bpot is dead\b", "its pot life has ended"),
    (r"\brules? of thumb\b", "estimate"),
    (r"\breckons?\b", "computes"),
    (r"\bin hand\b", "to spare, at hand"),
    (r"\bheld against\b", "compared with"),
    (r"\btold at\b|\bwhich is told\b", "reported"),
]
ROOMS = ("amount", "api", "app", "finish", "job", "plan", "report", "source", "surface", "timetable")
TEXTS = [f"src/{room}/**/*.c" for room in ROOMS]
PAGES = ["README.md", "src/man/*.md", "finishes/*.json", "finishes/*/*.json"]
SOURCES = ["src/**/*.[ch]", "include/*.h", "tests/*/*.[ch]", "tests/*/*.py"]
TOKEN = re.compile(r'/\*.*?\*/|//[^\n]*|("(?:[^"\\\n]|\\.)*"(?:\s*"(?:[^"\\\n]|\\.)*")*)|\'(?:[^\'\\\n]|\\.)*\'', re.S)


def strings(text):
    """(offset, contents) of each string; neighbours are one, as the compiler reads them."""
    for match in TOKEN.finditer(text):
        if match[1] and not text[:match.start()].rstrip(" \t").endswith("#include"):
            yield match.start(1), re.sub(r'"\s*"', "", match[1])


def line_of(text, offset):
    return text.count("\n", 0, offset) + 1


problems = []
for path in files(*TEXTS):
    text = read(path)
    for offset, said in strings(text):
        for pattern, instead in USER:
            if match := re.search(pattern, said):
                problems.append((path, line_of(text, offset), f'"{match[0]}" in what a user reads: {instead}'))
for path in files(*PAGES):
    text = read(path)
    for pattern, instead in USER[:-1]:
        for match in re.finditer(pattern, text):
            line = line_of(text, match.start())
            if '"between": [' not in text.splitlines()[line - 1]:  # words that a user may write, however they are spelt
                problems.append((path, line, f'"{match[0]}" in what a user reads: {instead}'))
for path in files(*SOURCES):
    text = read(path)
    for pattern, instead in CODE:
        for match in re.finditer(pattern, text):
            problems.append((path, line_of(text, match.start()), f'"{match[0]}": {instead}'))
finish(sorted(problems))
