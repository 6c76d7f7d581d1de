#!/usr/bin/env python3
"""run.py [--seed S] [--count N] [--rooms a,b] [--files GLOB] [--jobs J] [--units] - puts N faults, one at a time, into the pure
rooms and src/source, and tells which no test notices.

A fault is a small change of one line (mutants.py). It is compiled in a copy of the tree below build/mutants; where the
optimised object is the same as before it is no change, and another is drawn. Then the tests run, those of its room
first, until one fails or takes far longer than it should; with --units no scripts are tried. What survives is printed with its place; equivalent.txt lists
those that change nothing that anybody could see, each with its reason. Exit 1 below 90 % killed of the others.
"""
import argparse, collections, fnmatch, glob, os, queue, re, resource, shutil, signal, subprocess, sys, threading

import mutants

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(os.path.dirname(HERE))
ROOMS = "finish job surface amount solver timetable plan source".split()
# Checks of one room that take longer than a unit: only what the quick tests let pass meets them.
LONGER = {
    "finish": "finish/check_finishes.py finish/check_depends.py finish/test_drying",
    "job": "app/check_new.py app/check_apply.py",
    "surface": "surface/check_area.py",
    "amount": "amount/check_buy.py amount/check_mix.py",
    "solver": "timetable/check_reached.py timetable/check_batches.py timetable/check_plans.py",
    "timetable": "timetable/check_reached.py timetable/check_batches.py timetable/check_properties.py timetable/check_plans.py plan/check_log.py",
    "plan": "plan/check_cautions.py plan/check_learned.py plan/check_log.py plan/test_chance_order plan/check_advice.py",
    "source": "source/check_agreement.sh source/check_sheets.py source/test_busy_drawn app/check_new.py app/check_apply.py",
}
SLOW = "api api_walk busy_drawn chance_order drying mesh_large save several zone_outside".split()
ALL_QUICK = ["tests/app/check_golden.sh", "tests/timetable/check_worked.py"]
LIBRARIES = "-lcmocka -lcjson -lmicrohttpd -ljansson -lcurl -lexpat -lzip -lm -lpthread".split()
# Functions of the library stay as the compiler made them, so that one library can be replaced below all tests.
FLAGS = "-O2 -fvisibility=default -fno-semantic-interposition"


class Tree:
    """A copy of what is compiled and tested, in which one object at a time is another."""

    def __init__(self, place, like=None):
        """Builds it, or copies what another one has built."""
        self.place = place
        if like:
            shutil.rmtree(place, ignore_errors=True)
            subprocess.run(["cp", "-pR", like.place, place], check=True)
            self.env = dict(like.env, COATWRIGHT=os.path.join(place, "build/coatwright"))
            self.units, self.house, self.compile = like.units, like.house, like.compile
        else:
            self.build()

    def build(self):
        place = self.place
        for name in "src include tests finishes examples Makefile .ci README.md".split():
            here, there = os.path.join(ROOT, name), os.path.join(place, name)
            os.makedirs(place, exist_ok=True)
            shutil.rmtree(there, ignore_errors=True)
            subprocess.run(["cp", "-pR", here, there], check=True)
        self.env = dict(os.environ, CI="", BUILD="build", COATWRIGHT=os.path.join(place, "build/coatwright"), PYTHONDONTWRITEBYTECODE="1",
                        PATH="/usr/bin:/bin:" + os.environ["PATH"], NODE_PATH="/usr/share/nodejs")
        self.env.pop("CI")
        self.units = sorted(p[:-2] for p in self.glob("tests/*/test_*.c"))
        self.house = [f"build/obj/{p[:-2]}.o" for p in self.glob("src/*/*.c") + self.glob("src/*/*/*.c") if not re.search("/(app|page)/", p)]
        self.command("make", "-s", "-j2", f"CFLAGS={FLAGS}", "build/house.a")
        self.link()
        for unit in self.units:
            self.program(f"build/{unit}", f"{ROOT}/build/obj/{unit}.o", f"{ROOT}/build/tests.a")
        asking = [f"{p[:-2]}.o" for p in self.glob("src/app/*.c") + self.glob("src/page/*.c")] + ["src/page/assets/table.o"]
        self.program("build/coatwright", *[f"{ROOT}/build/obj/{p}" for p in asking])
        self.compile = ["gcc", "-Isrc", "-Iinclude", *open(f"{place}/build/flags").read().split()[1:], "-w", "-c"]

    def glob(self, pattern):
        return [os.path.relpath(p, self.place) for p in sorted(glob.glob(os.path.join(self.place, pattern)))]

    def command(self, *words):
        done = subprocess.run(words, cwd=self.place, env=self.env, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
        if done.returncode:
            sys.exit(f"{' '.join(words)[:200]}\n{done.stdout}")

    def link(self):
        self.command("gcc", "-shared", "-Wl,-soname,house.so", "-o", "build/house.so", *self.house, *LIBRARIES[2:])

    def program(self, name, *objects):
        target = os.path.join(self.place, name)
        if not os.path.exists(target) or any(os.path.getmtime(os.path.join(self.place, o)) > os.path.getmtime(target) for o in objects):
            os.makedirs(os.path.dirname(target), exist_ok=True)
            self.command("gcc", "-o", name, *objects, "build/house.so", "-Wl,-rpath,$ORIGIN:$ORIGIN/../..", *LIBRARIES)

    def put(self, m, text):
        """Compiles the fault in; False: it does not compile, or changes nothing."""
        target, spare = f"{self.place}/build/obj/{m.file[:-2]}.o", f"{self.place}/build/spare.o"
        shutil.copyfile(target, spare)
        with open(os.path.join(self.place, m.file), "w") as file:
            file.write(mutants.applied(text, m))
        made = subprocess.run([*self.compile, "-o", target, m.file], cwd=self.place, env=self.env, stderr=subprocess.DEVNULL)
        if made.returncode or open(target, "rb").read() == open(spare, "rb").read():
            self.take_back(m, text)
            return False
        self.link()
        return True

    def take_back(self, m, text):
        with open(os.path.join(self.place, m.file), "w") as file:
            file.write(text)
        os.replace(f"{self.place}/build/spare.o", f"{self.place}/build/obj/{m.file[:-2]}.o")

    def test(self, name, cpu_s):
        """(whether it passes, the seconds of processor it took); it may take cpu_s."""
        path = f"build/{name}" if os.path.exists(f"{self.place}/build/{name}") else name
        scratch = os.path.join(self.place, "scratch")
        shutil.rmtree(scratch, ignore_errors=True)
        os.makedirs(scratch)

        def limits():
            os.setsid()
            resource.setrlimit(resource.RLIMIT_CPU, (int(cpu_s) + 1, int(cpu_s) + 2))
            resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))
            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        run = subprocess.Popen([os.path.join(self.place, path)], cwd=self.place, env=dict(self.env, TEST_TMP=scratch), preexec_fn=limits,
                               stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        late = threading.Timer(60 + 20 * cpu_s, lambda: os.killpg(run.pid, signal.SIGKILL))
        late.start()
        _, status, used = os.wait4(run.pid, 0)
        run.returncode = status
        late.cancel()
        try:
            os.killpg(run.pid, signal.SIGKILL)
        except ProcessLookupError:
            pass
        return status == 0, used.ru_utime + used.ru_stime


class Known:
    """What the tests did so far: the seconds of those that passed, and which judge nothing because they fail anyway."""
    UNIT_S, OTHER_S = 20, 600

    def __init__(self, tree, units_only):
        self.units = [u for u in tree.units if os.path.basename(u)[5:] not in SLOW]
        self.units_only, self.seconds, self.sound, self.broken = units_only, {}, set(), set()

    def tests_of(self, file):
        """The tests that a fault of the file meets, in their order: those of rooms that cannot see it are left out."""
        room, words = file.split("/")[1], set(re.split(r"[_/.]", file))
        able = [t for t in self.units if t.split("/")[1] not in ("base", "format")]

        def order(test):
            return test.split("/")[1] != room, -len(words & set(re.split(r"[_/.]", test))), self.seconds.get(test, 1), test
        scripts = [] if self.units_only else ALL_QUICK + ["tests/" + t for t in LONGER[room].split()]
        return [t for t in sorted(able, key=order) + scripts if t not in self.broken]

    def passes(self, tree, test):
        limit = self.UNIT_S if test in self.units else self.OTHER_S
        passes, seconds = tree.test(test, min(limit, 2 + 5 * self.seconds.get(test, limit)))
        if passes:
            self.seconds[test] = max(seconds, self.seconds.get(test, 0))
        return passes

    def is_sound(self, tree, test):
        """Whether a test that has failed passes without the fault."""
        if test not in self.sound | self.broken:
            good = self.passes(tree, test)
            (self.sound if good else self.broken).add(test)
            if not good:
                print(f"{test} fails without a fault and is left out", flush=True)
        return test in self.sound


def excused():
    """(file, before, after) of every fault that equivalent.txt explains."""
    path = os.path.join(HERE, "equivalent.txt")
    lines = [line for line in open(path).read().splitlines() if line and not line.startswith("#")]
    return {tuple(lines[i:i + 3]) for i in range(0, len(lines), 4)}  # the fourth is the reason


def try_one(tree, m, text, known):
    """The test that notices the fault; None: it survives; False: it is no fault."""
    if not tree.put(m, text):
        return False
    by = next((test for test in known.tests_of(m.file) if not known.passes(tree, test)), None)
    tree.take_back(m, text)
    if by and by not in known.sound:
        tree.link()
        if not known.is_sound(tree, by):
            return try_one(tree, m, text, known)
    return by


class Tally:
    def __init__(self, count, log):
        self.lock, self.left, self.log = threading.Lock(), count, log
        self.killed, self.alive, self.excused, self.same = collections.Counter(), [], [], 0

    def note(self, m, text, by, excuses):
        line, before, after = mutants.told(text, m)
        room = m.file.split("/")[1]
        with self.lock:
            self.left -= 1
            if by:
                self.killed[room] += 1
            elif (m.file, before, after) in excuses:
                self.excused.append(m)
            else:
                self.alive.append((room, f"{m.file}:{line}: {m.kind}\n    {before}\n    {after}"))
            word = f"killed by {by}" if by else "excused" if (m.file, before, after) in excuses else "SURVIVED"
            self.log.write(f"{m.file}:{line}: {m.kind}: {before} -> {after}: {word}\n")
            self.log.flush()


def work(tree, waiting, texts, known, excuses, tally):
    while tally.left > 0:
        try:
            m = waiting.get_nowait()
        except queue.Empty:
            return
        by = try_one(tree, m, texts[m.file], known)
        if by is False:
            tally.same += 1
        else:
            tally.note(m, texts[m.file], by, excuses)


def report(tally, rooms):
    for room, what in sorted(tally.alive):
        print(f"survived: {what}")
    for room in rooms:
        alive = sum(r == room for r, _ in tally.alive)
        same = sum(m.file.split("/")[1] == room for m in tally.excused)
        if tally.killed[room] + alive + same:
            print(f"{room}: {tally.killed[room]} killed, {alive} survived, {same} explained")
    killed, alive = sum(tally.killed.values()), len(tally.alive)
    share = 100 * killed / max(1, killed + alive)
    print(f"{killed} killed, {alive} survived ({share:.1f} % killed), {len(tally.excused)} explained, "
          f"{tally.same} drawn that did not compile or changed no object")
    return 0 if share >= 90 else 1


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--seed", default="1")
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--rooms", default=",".join(ROOMS))
    parser.add_argument("--files", default="*")
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--units", action="store_true")
    asked = parser.parse_args()
    rooms = asked.rooms.split(",")
    os.nice(5)
    work_place = os.path.join(ROOT, "build", "mutants")
    units = [f"build/obj/{os.path.relpath(p, ROOT)[:-2]}.o" for p in sorted(glob.glob(ROOT + "/tests/*/test_*.c"))]
    subprocess.run(["make", "-s", "-j2", "all", "build/tests.a", *units], cwd=ROOT, check=True)
    trees = [Tree(os.path.join(work_place, "tree0"))]
    trees += [Tree(os.path.join(work_place, f"tree{n}"), trees[0]) for n in range(1, asked.jobs)]
    known = Known(trees[0], asked.units)
    files = [f for room in rooms for f in trees[0].glob(f"src/{room}/*.c") + trees[0].glob(f"src/{room}/*/*.c")
             if fnmatch.fnmatch(f, asked.files)]
    texts = {f: open(os.path.join(ROOT, f)).read() for f in files}
    waiting = queue.Queue()
    for m in mutants.drawn(texts, [m for f in files for m in mutants.of_file(f, texts[f])], asked.seed):
        waiting.put(m)
    print(f"{waiting.qsize()} faults can be made, {asked.count} are tried", flush=True)
    with open(os.path.join(work_place, "log"), "a") as log:
        tally = Tally(asked.count, log)
        hands = [threading.Thread(target=work, args=(t, waiting, texts, known, excused(), tally)) for t in trees]
        for hand in hands:
            hand.start()
        for hand in hands:
            hand.join()
    return report(tally, rooms)


sys.exit(main())
