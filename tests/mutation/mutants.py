"""Small faults that can be put into a C file: each is one change of the text, within one line or one condition.

The operators are those of the literature on mutation analysis (Offutt, Lee, Rothermel, Untch, Zapf 1996: "An
Experimental Determination of Sufficient Mutant Operators"; statement deletion after Deng, Offutt, Li 2013).
"""
import collections, hashlib, re

CONTEXT = 300  # characters before a fault by which it is known again

Mutant = collections.namedtuple("Mutant", "file start end new kind")

SWAPPED = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "==", "&&": "||", "||": "&&",
           "+": "-", "-": "+", "*": "/", "/": "*", "+=": "-=", "-=": "+="}
KINDS = {"relation": "< <= > >= == !=", "logic": "&& ||", "arithmetic": "+ - * / += -="}
PLACE = r"\*?[A-Za-z_]\w*(?:->\w+|\.\w+|\[[^=;]*\])*"
STATEMENT = re.compile(r"^[ ]{4,}(?:(?!return\b)[a-z_]\w*\([^;]*\)|%s (?:[-+*/|&]?=) [^;{]*|%s(?:\+\+|--)|continue|break);$"
                       % (PLACE, PLACE), re.M)


def masked(text):
    """The text with the same length, where comments, strings, preprocessor lines and assertions are blanks."""
    def blank(found):
        return re.sub(r"[^\n]", " ", found.group())
    text = re.sub(r"/\*.*?\*/|//[^\n]*|\"(?:\\.|[^\"\\\n])*\"|'(?:\\.|[^'\\\n])*'", blank, text, flags=re.S)
    text = re.sub(r"^[ \t]*#(?:[^\n]*\\\n)*[^\n]*", blank, text, flags=re.M)
    return re.sub(r"\b(?:assert|_Static_assert|static_assert)\([^;]*;", blank, text)


def closed(code, start):
    """Where the bracket that opens at start closes."""
    depth = 0
    for at in range(start, len(code)):
        depth += {"(": 1, ")": -1}.get(code[at], 0)
        if not depth:
            return at
    raise ValueError("a bracket stays open")


def operators(file, code):
    for kind, signs in KINDS.items():
        either = "|".join(re.escape(s) for s in sorted(signs.split(), key=len, reverse=True))
        for found in re.finditer(r"(?<= )(?:%s)(?=[ \n])" % either, code):
            yield Mutant(file, *found.span(), SWAPPED[found.group()], kind)


def constants(file, code):
    for found in re.finditer(r"(?<![\w.])\d+(?![\w.])", code):
        value = int(found.group())
        yield Mutant(file, *found.span(), str(value + 1), "constant")
        if value:
            yield Mutant(file, *found.span(), str(value - 1), "constant")


def conditions(file, code):
    for found in re.finditer(r"\b(?:if|while) (\()", code):
        end = closed(code, found.start(1)) + 1
        yield Mutant(file, found.start(1), end, None, "negated")


def statements(file, code):
    for found in STATEMENT.finditer(code):
        start = found.start() + len(found.group()) - len(found.group().lstrip())
        yield Mutant(file, start, found.end(), ";", "removed")


def returned(file, code):
    for found in re.finditer(r"\breturn ([^;]+);", code):
        value = found.group(1)
        new = {"true": "false", "false": "true", "0": "1", "NULL": None}.get(value, "0")
        if new:
            yield Mutant(file, *found.span(1), new, "returned")


def of_file(file, text):
    code = masked(text)
    found = [m for make in (operators, constants, conditions, statements, returned) for m in make(file, code)]
    return [m._replace(new="(!" + text[m.start:m.end] + ")") if m.new is None else m for m in found]


def applied(text, m):
    return text[:m.start] + m.new + text[m.end:]


def told(text, m):
    """(line number, the line before, the line after): what a reader needs to make the change by hand."""
    first = text.rfind("\n", 0, m.start) + 1
    last = text.find("\n", m.end)
    before, after = text[first:last], text[first:m.start] + m.new + text[m.end:last]
    return text.count("\n", 0, m.start) + 1, " ".join(before.split()), " ".join(after.split())


def drawn(texts, all_mutants, seed):
    """All of them in an order that the seed decides, kinds taking turns. Each has its place by what its line says, and some before it,
    not by where it stands: a run after the next change of the source tries the same ones again, but for the lines that are new."""
    def place(m):
        text = texts[m.file]
        before = " ".join(text[max(0, m.start - CONTEXT):m.start].split(" ")[1:])
        return hashlib.sha256("\0".join((str(seed), m.file, before, text[m.start:m.end], m.new)).encode()).digest(), m.start

    kinds = collections.defaultdict(list)
    for m in sorted(all_mutants, key=place, reverse=True):
        kinds[m.kind].append(m)
    while kinds:
        for kind in sorted(kinds):
            yield kinds[kind].pop()
            if not kinds[kind]:
                del kinds[kind]
