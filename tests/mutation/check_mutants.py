#!/usr/bin/env python3
"""The faults that mutants.py makes of a small text are those stated here, and none of them is in what is no code."""
import mutants

TEXT = '''#define FIVE (2 + 3)
static int least(int a, int b)
{
    /* a < b && 1 */
    assert(a > 0);
    if (a <= b && a != 7)
        return a - 1;
    text_add(out, "a > b");
    total->sum[a] += b;
    return 0;
}
'''
WANTED = {
    ("relation", "if (a <= b && a != 7)", "if (a < b && a != 7)"),
    ("relation", "if (a <= b && a != 7)", "if (a <= b && a == 7)"),
    ("logic", "if (a <= b && a != 7)", "if (a <= b || a != 7)"),
    ("constant", "if (a <= b && a != 7)", "if (a <= b && a != 8)"),
    ("constant", "if (a <= b && a != 7)", "if (a <= b && a != 6)"),
    ("negated", "if (a <= b && a != 7)", "if (!(a <= b && a != 7))"),
    ("arithmetic", "return a - 1;", "return a + 1;"),
    ("constant", "return a - 1;", "return a - 2;"),
    ("constant", "return a - 1;", "return a - 0;"),
    ("returned", "return a - 1;", "return 0;"),
    ("removed", 'text_add(out, "a > b");', ";"),
    ("removed", "total->sum[a] += b;", ";"),
    ("arithmetic", "total->sum[a] += b;", "total->sum[a] -= b;"),
    ("constant", "return 0;", "return 1;"),
    ("returned", "return 0;", "return 1;"),
}
FILE = "src/room/least.c"
made = mutants.of_file(FILE, TEXT)
told = {(m.kind, *mutants.told(TEXT, m)[1:]) for m in made}
lines = {mutants.told(TEXT, m)[0] for m in made}
orders = [list(mutants.drawn({FILE: TEXT}, made, seed)) for seed in ("1", "1", "2")]
FAR = "/* " + "-" * mutants.CONTEXT + " */\n" + TEXT
later = [[mutants.told(text, m)[1:] for m in mutants.drawn({FILE: text}, mutants.of_file(FILE, text), "1")] for text in (FAR, "int x;\n" + FAR)]
checks = {
    "the faults": told == WANTED,
    "their lines": lines == {6, 7, 8, 9, 10},
    "a seed decides the order": orders[0] == orders[1] != orders[2] and sorted(orders[2]) == sorted(made),
    "a line more, far from them, changes nothing": later[0] == later[1] and len(later[0]) == len(made),
    "kinds take turns": len({m.kind for m in orders[0][:6]}) == 6,
}
for name in (name for name, holds in checks.items() if not holds):
    print(f"check_mutants.py: {name}: got {sorted(told ^ WANTED)} {sorted(lines)}")
print(f"{sum(checks.values())} passed, {len(checks) - sum(checks.values())} failed")
raise SystemExit(not all(checks.values()))
