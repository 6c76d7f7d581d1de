#!/usr/bin/env -S python3 -B
"""Kills the program at its n-th call of each kind to the system while it writes. Whoever saves into the folder next finishes
what was begun or finds it as it was: the files of one plan are all the old ones or all the new ones, and nothing else is
left once the command has run to its end. KILLS=N tries so many moments of each command and kind (2)."""
import os
import sys
import tempfile
import zlib

import bench
import folders

KILLS = int(os.environ.get("KILLS", "2"))
KINDS = "mkdir open flock write fsync close truncate rename unlink".split()
TITLES = ("plan --out", "plan --out, new", "plan --out, after a kill", "timetable --ics", "timetable --svg", "area --svg", "buy --csv",
          "sheet --out", "done", "done, a second time", "learned --write", "timetable --apply --out")


def moments(calls, what):
    first = zlib.crc32(what.encode())
    return range(1, calls + 1) if calls <= KILLS else sorted({1 + (first + i * calls // KILLS) % calls for i in range(KILLS)})


def folder_of_set(one):
    return next(word for before, word in zip(one.arguments, one.arguments[1:]) if before == "--out")


def looked_at(one):
    """What is wrong with the set once another command has saved into its folder."""
    folder = folder_of_set(one)
    if os.path.isdir(one.folder / folder):
        folders.coatwright(one.folder, "buy", "job.json", "--csv", f"{folder}/other.csv", "--now", folders.PLANNED)
    now = bench.contents(one.folder)
    names = [name for name in one.new if name.startswith(folder + "/")]
    finished = {name: text for name, text in one.old.items() if not os.path.basename(name).startswith(".")}
    finished.update({name.replace("/.", "/").removesuffix(".new"): text for name, text in one.old.items() if name.endswith(".new")})
    sets = [{name: now.get(name) for name in names} == {name: of.get(name) for name in names} for of in (one.old, finished, one.new)]
    (one.folder / folder / "other.csv").unlink(missing_ok=True)
    return "" if any(sets) else f"a set of two hands in {folder}"


def killed(one, kind, number):
    one.restore()
    status, _, _ = one.run(FAULT_CALL=kind, FAULT_AT=str(number), FAULT_MARK=str(one.mark), FAULT_KILL="1")
    if status != -9:
        return f"status {status}, and no kill"
    wrong = looked_at(one) if "plan" in one.title else ""
    if "--apply" in one.title and one.all_contents() == one.new:
        return ""  # once it is whole, another run would refuse to write over it
    status, _, said = one.run()
    if wrong or ("done" not in one.title and status != one.status):
        return wrong or f"the next run fails: {said[:200]!r}"
    now = one.all_contents()
    hidden = sorted(set(now) - set(one.new))
    return f"left behind: {hidden}" if hidden else "" if now == one.new else "the next run leaves something else"


def main():
    passed = failed = 0
    with tempfile.TemporaryDirectory(dir=os.environ.get("TEST_TMP")) as place:
        fault = bench.build_fault(place)
        for row in folders.COMMANDS:
            if row[0] not in TITLES:
                continue
            one = bench.Bench(os.path.join(place, str(folders.COMMANDS.index(row))), fault, *row)
            for kind in KINDS:
                for number in moments(one.calls.get(kind, 0), f"{one.title} {kind}"):
                    wrong = killed(one, kind, number)
                    passed, failed = passed + (not wrong), failed + bool(wrong)
                    if wrong:
                        print(f"{one.title}: killed at {kind} {number}: {wrong}", flush=True)
    print(f"{passed} passed, {failed} failed")
    return failed > 0


sys.exit(main())
