#!/usr/bin/env -S python3 -B
"""Fails the n-th call of each kind to the system (fault.c), for n from 1 to the last, on every command that reads or
writes (folders.py); bench.py says what each may answer.

Of each command and kind a sample is tried, of each command another one.
FAULTS=all tries every call of every command (hours), FAULTS=KIND,KIND a sample of those kinds, FAULTS_OF=TITLE the commands
whose title begins so, FAULTS_SAMPLE=N so many calls of each. Counted are the calls that failed, those that were told or survived, and those that lost something."""
import os
import resource
import subprocess
import sys
import tempfile
import zlib

import bench
import folders
import page_bench

SAMPLE = int(os.environ.get("FAULTS_SAMPLE", "2"))  # calls of a kind and command


def numbers(calls, what, every):
    """Those that are tried of so many calls: spread, and from another one on in each row."""
    if every or calls <= SAMPLE:
        return range(1, calls + 1)
    first = zlib.crc32(what.encode())
    return sorted(1 + (first + i * calls // SAMPLE) % calls for i in range(SAMPLE))


def squeezed(place):
    """The address space grows from nothing until a check succeeds: how often it was tried, and what is wrong on the way."""
    os.makedirs(place)
    folders.shelf(folders.Path(place))
    tried, wrong, size, status = 0, [], 8 << 20, None
    while status != 0 and size < 1 << 30:
        done = subprocess.run([folders.program(), "check", "job.json", "--now", folders.PLANNED], cwd=place, env=folders.environment(),
                              stdin=subprocess.DEVNULL, capture_output=True, timeout=bench.PATIENCE, check=False,
                              preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (size, size)))
        status = done.returncode
        if status != 127:  # there it cannot even be loaded
            tried += 1
            if status not in (0, 4) or (status == 4 and b"expected" not in done.stderr):
                wrong.append(f"{size >> 10} KiB of address space: status {status}: {done.stderr[:200]!r}")
        size += 1 << 18
    return tried, wrong


class Tally:
    def __init__(self):
        self.told = self.survived = self.lost = 0

    def note(self, what, ended):
        if ended in ("told", "survived"):
            setattr(self, ended, getattr(self, ended) + 1)
        else:
            self.lost += 1
            print(f"{what}: {ended}", flush=True)

    def failed(self):
        return self.told + self.survived + self.lost


def break_command(tally, one, chosen):
    if one.status not in (0, 1):
        tally.note(one.title, f"status {one.status} without a fault: {one.said[:200]!r}")
    for kind, calls in one.calls.items() if one.status in (0, 1) else ():
        if chosen in ("", "all") or kind in chosen.split(","):
            for number in numbers(calls, f"{one.title} {kind}", chosen == "all"):
                ended = one.fail(kind, number)
                if ended is not None:
                    tally.note(f"{one.title}: {kind} {number}", ended)
    one.close()


def main():
    chosen, of = os.environ.get("FAULTS", ""), os.environ.get("FAULTS_OF", "")
    tally = Tally()
    with tempfile.TemporaryDirectory(dir=os.environ.get("TEST_TMP")) as place:
        fault = bench.build_fault(place)
        if chosen in ("", "all", "space"):
            number, wrong = squeezed(os.path.join(place, "space"))
            tally.told += number - len(wrong)
            for line in wrong:
                tally.note("check", line)
        rows = [(bench.Bench, row) for row in folders.COMMANDS] + [(page_bench.PageBench, row) for row in folders.PAGES]
        for i, (kind, row) in enumerate(rows):
            if row[0].startswith(of):
                break_command(tally, kind(os.path.join(place, str(i)), fault, *row), chosen)
    print(f"{tally.failed()} calls failed: {tally.told} told, {tally.survived} survived, {tally.lost} lost")
    print(f"{tally.told + tally.survived} passed, {tally.lost} failed")
    return tally.lost > 0


sys.exit(main())
