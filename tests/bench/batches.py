#!/usr/bin/env python3
"""batches.py [--seeds N] [--pieces N,N,...]: kitchens of so many pieces, planned for the least work and soonest.

Prints for each what is proven, the bounds, nodes, effort, memory of the whole process and seconds of planning (bench_examples); then how
many that fall into at most 40 batches were planned within 0.3 s, and whether 500 pieces were within 10 s and 200 MB, which is
what is aimed at. The jobs are those of checker/kitchen_jobs.py.
"""
import argparse
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))
sys.dont_write_bytecode = True

import kitchen_jobs
import program

BENCH = program.ROOT / os.environ.get("BUILD", "build") / "tests/bench/bench_examples"
FEW_BATCHES, FEW_SECONDS, MANY, MANY_SECONDS, MANY_MEGABYTES = 40, 0.3, 500, 10, 200
ROW = re.compile(r", (\d+) batches, .* (\d+) MB, ([\d.]+) s$")


def measured(path, aim):
    """(batches, megabytes, seconds) of a plan, its row printed."""
    done = subprocess.run([BENCH, *aim, path], cwd=program.ROOT, capture_output=True, text=True, check=False)
    row = done.stdout.strip().removeprefix(f"{path}: ")
    print(f"  {' '.join(aim) or 'least work'}: {row or done.stderr.strip()}", flush=True)
    found = ROW.search(row)
    return (int(found[1]), int(found[2]), float(found[3])) if found else None


def main(arguments):
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seeds", type=int, default=2)
    parser.add_argument("--pieces", default="5,10,20,40,500")
    options = parser.parse_args(arguments)
    few, many = [], []
    with tempfile.TemporaryDirectory() as scratch:
        for pieces in map(int, options.pieces.split(",")):
            for seed in range(1, (options.seeds if pieces < MANY else 1) + 1):
                path = kitchen_jobs.write(seed, Path(scratch) / f"{pieces}-{seed}", pieces)
                print(f"kitchen {seed} of {pieces} pieces", flush=True)
                rows = [row for row in (measured(path, aim) for aim in ([], ["--soonest"])) if row]
                few += [row for row in rows if row[0] <= FEW_BATCHES and pieces < MANY]
                many += rows if pieces >= MANY else []
    print(f"at most {FEW_BATCHES} batches: {sum(row[2] <= FEW_SECONDS for row in few)} of {len(few)} within {FEW_SECONDS} s")
    print(f"{MANY} pieces: {sum(row[2] <= MANY_SECONDS and row[1] <= MANY_MEGABYTES for row in many)} of {len(many)} within "
          f"{MANY_SECONDS} s and {MANY_MEGABYTES} MB")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
