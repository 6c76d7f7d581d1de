#!/usr/bin/env python3
"""Fails the n-th call of each kind to the system (fault.c), for n from 1 until none is left, on the commands that read or write
files. Whatever fails: no crash and no hang; with status 0 everything is printed and written as without the fault; otherwise a
message says what failed, no file of a temporary name is left, and of each old file either all is there or all of the new one.

The first calls of a kind are all tried, later ones in growing steps, and memory on two commands only (FAULTS=all: every call
on every command; FAULTS=KIND: that kind alone)."""
import os, resource, shutil, subprocess, sys, tempfile

COATWRIGHT = os.path.abspath(os.environ.get("COATWRIGHT", "build/coatwright"))
BUNDLE = "tests/fuzz/corpus/job/shelf"
NOW = "2027-01-04T08:00Z"
KINDS = "open read readdir stat mkdir write short fsync rename close malloc calloc realloc strdup".split()
MEMORY = ("malloc", "calloc", "realloc", "strdup")
COMMANDS = [
    ("plan --out", ["plan", "job.json", "--out", "out"]),
    ("timetable --ics", ["timetable", "job.json", "--ics", "out/timetable.ics"]),
    ("timetable --svg", ["timetable", "job.json", "--svg", "out/drawing.svg"]),
    ("area --svg", ["area", "job.json", "--svg", "out/drawing.svg"]),
    ("buy --csv", ["buy", "job.json", "--csv", "out/shopping.csv"]),
    ("check", ["check", "job.json"]),
    ("finishes", ["finishes"]),
    ("mix", ["mix", "danish-oil", "350 ml"]),
]
EVERY = 30       # so many calls are all tried
GROWTH = 1.25    # then so many times as far each
PATIENCE = 60    # seconds


def unbundle(folder):
    with open(BUNDLE, encoding="utf-8") as file:
        for part in ("\n" + file.read()).split("\n@@ ")[1:]:
            name, _, text = part.partition("\n")
            path = os.path.join(folder, name)
            os.makedirs(os.path.dirname(path), exist_ok=True)
            with open(path, "w", encoding="utf-8") as out:
                out.write(text)


def contents(folder):
    found = {}
    for at, _, names in os.walk(folder):
        for name in names:
            path = os.path.join(at, name)
            with open(path, "rb") as file:
                found[os.path.relpath(path, folder)] = file.read()
    return found


class Bench:
    """One command, the old files in its folder, and what it does without a fault."""

    def __init__(self, folder, arguments):
        self.folder, self.arguments = folder, arguments
        self.out, self.mark = os.path.join(folder, "out"), os.path.join(folder, "mark")
        self.run(now="2027-01-11T09:00Z")
        self.old = contents(self.out)
        self.restore()
        self.status, self.printed, _ = self.run()
        self.new = contents(self.out)

    def run(self, now=NOW, **fault):
        environment = {**os.environ, "COATWRIGHT_FINISHES": os.path.abspath("tests/fuzz/finishes"), **fault}
        done = subprocess.run([COATWRIGHT, *self.arguments, "--now", now], cwd=self.folder, env=environment,
                              stdin=subprocess.DEVNULL, capture_output=True, timeout=PATIENCE, check=False)
        return done.returncode, done.stdout, done.stderr.decode(errors="replace")

    def restore(self):
        shutil.rmtree(self.out, ignore_errors=True)
        os.makedirs(self.out)
        for name, text in self.old.items():
            with open(os.path.join(self.out, name), "wb") as file:
                file.write(text)
        if os.path.exists(self.mark):
            os.remove(self.mark)

    def fail(self, kind, number):
        """None: there is no such call. Otherwise what is wrong, "" where nothing is."""
        self.restore()
        try:
            status, printed, said = self.run(LD_PRELOAD=FAULT, FAULT_CALL=kind, FAULT_AT=str(number), FAULT_MARK=self.mark)
        except subprocess.TimeoutExpired:
            return "it hangs"
        if not os.path.exists(self.mark):
            return None
        return self.judge(status, printed, said)

    def judge(self, status, printed, said):
        now = contents(self.out)
        if any(name not in self.new and name not in self.old for name in now):
            return f"left behind: {sorted(set(now) - set(self.new) - set(self.old))}"
        if any(now.get(name) not in (self.old.get(name), self.new.get(name)) for name in self.new):
            return "a file that is neither the old nor the new one"
        if len({now.get(name) == self.new[name] for name in self.new if self.old.get(name) != self.new[name]}) > 1:
            return "some files are old, some new"
        if status < 0:
            with open(self.mark, encoding="utf-8") as mark:
                caller = os.path.basename(mark.read())
            return f"it crashes with signal {-status} after a call of {caller}"
        if status == self.status:
            return "" if printed == self.printed and now == self.new else "less than all, and no word of it"
        if status not in (3, 4):
            return f"status {status}: {said[:200]}"
        if "expected" not in said:
            return f"no message: {said[:200]!r}"
        return ""


def squeezed():
    """The address space grows from nothing until a check succeeds: what is wrong on the way, a line each."""
    place = tempfile.mkdtemp(dir=tmp)
    unbundle(place)
    tried, wrong, size = 0, [], 8 << 20
    environment = {**os.environ, "COATWRIGHT_FINISHES": os.path.abspath("tests/fuzz/finishes")}
    status = None
    while status != 0 and size < 1 << 30:
        done = subprocess.run([COATWRIGHT, "check", "job.json", "--now", NOW], cwd=place, env=environment,
                              stdin=subprocess.DEVNULL, capture_output=True, timeout=PATIENCE, check=False,
                              preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (size, size)))
        status = done.returncode
        if status != 127:  # there it cannot even be loaded
            tried += 1
            if status not in (0, 4) or (status == 4 and b"expected" not in done.stderr):
                wrong.append(f"{size >> 10} KiB of address space: status {status}: {done.stderr[:200]!r}")
        size += 1 << 18
    return tried, wrong


def numbers(every):
    number = 1
    while True:
        yield number
        number = number + 1 if every or number < EVERY else max(number + 1, int(number * GROWTH))


passed = failed = 0
tmp = tempfile.mkdtemp(dir=os.environ.get("TEST_TMP"))
FAULT = os.path.join(tmp, "fault.so")
chosen = os.environ.get("FAULTS", "")
if os.environ.get("SAN") or os.environ.get("COV"):
    # A sanitizer brings an allocator of its own: the faults are those of the program without one.
    subprocess.run(["make", "-s", "SAN=", "COV=", "BUILD=build", "build/coatwright"], check=True)
    COATWRIGHT = os.path.abspath("build/coatwright")
subprocess.run([os.environ.get("CC", "gcc"), "-std=gnu11", "-O1", "-fPIC", "-shared", "-o", FAULT, "tests/faults/fault.c", "-ldl"],
               check=True)
if chosen in ("", "all", "space"):
    tried, wrong = squeezed()
    passed, failed = tried - len(wrong), len(wrong)
    for line in wrong:
        print(f"{sys.argv[0]}: {line}")
for title, arguments in COMMANDS:
    place = tempfile.mkdtemp(dir=tmp)
    unbundle(place)
    os.makedirs(os.path.join(place, "out"))
    bench = Bench(place, arguments)
    for kind in KINDS:
        if chosen not in ("", "all", kind) or (not chosen and kind in MEMORY and title not in ("plan --out", "finishes")):
            continue
        for number in numbers(chosen == "all"):
            wrong = bench.fail(kind, number)
            if wrong is None:
                break
            passed, failed = passed + (not wrong), failed + bool(wrong)
            if wrong:
                print(f"{sys.argv[0]}: {title}: {kind} {number}: {wrong}")
print(f"{passed} passed, {failed} failed")
sys.exit(failed > 0)
