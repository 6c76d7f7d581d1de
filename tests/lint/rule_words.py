#!/usr/bin/env python3
"""Words that may not stand: unsafe calls, hidden state, floating point in the solver, promises, paths of one machine."""
import re
from source import code, files, finish, read

EVERY = ("**/*", ".ci/*", ".clang-*")
# In code, comments and strings apart: (files, pattern, what is wrong with it).
CODE = [
    (("src/**/*.[ch]", "include/*.h", "tests/*/*.[ch]"),
     r"\b(?:strcpy|strcat|sprintf|vsprintf|gets|atoi|atol|atoll|atof|strtok|localtime|gmtime|ctime|asctime)\s*\(",
     "banned call"),
    (("src/**/*.[ch]",), r"\b(?:setlocale|localeconv|strto(?:d|f|ld)|[fs]?scanf)\s*\(", "numbers would depend on the locale"),
    (("src/solver/**/*.[ch]",), r"\b(?:float|double)\b", "the solver computes in whole numbers"),
    (("src/**/*.[ch]", "include/*.h"), r"\btypedef\s+(?:struct|union|enum)\b(?!\s+\w+\s*;)", "a struct keeps its name: no typedef"),
]
# In the whole text. The patterns are spelt so that this file does not match itself.
TEXT = [
    (EVERY, r"\b(?:TO[D]O|FIX[M]E|X[X]X|HA[C]K)\b", "a promise: do it or leave it"),
    (EVERY, r"(?<![\w.}])/(?:hom[e]|roo[t]|wor[k]|User[s])/", "a path of one machine"),
    (("src/**/*", "include/*"), r"(?<![\w.])/tm[p]\b", "a path of one machine"),
]
# printf writes the decimal point of the host's locale; number_fixed and its like do not.
FLOATING = re.compile(r'"(?:[^"\\\n]|\\.)*?%[-+#0]*(?:\d+|\*)?(?:\.(?:\d+|\*))?L?[feEgGaAF](?![A-Za-z])(?:[^"\\\n]|\\.)*"')
NUMBERS = "src/base/number.c"
SKIPPED = re.compile(r"build[^/]*/|tests/fuzz/corpus/")


def matches(table, reader):
    for patterns, word, message in table:
        for path in files(*patterns):
            if SKIPPED.match(path):
                continue
            try:
                text = reader(path)
            except (IsADirectoryError, UnicodeDecodeError):
                continue
            for match in re.finditer(word, text):
                yield path, text.count("\n", 0, match.start()) + 1, f"{match.group().strip(' (')}: {message}"


def floating():
    for path in files("src/**/*.[ch]"):
        text = read(path).replace("%%", "--") if path != NUMBERS else ""
        for match in FLOATING.finditer(text):
            yield path, text.count("\n", 0, match.start()) + 1, f"{match.group()}: a number would depend on the locale"


finish([*matches(CODE, code), *matches(TEXT, read), *floating()])
