#!/usr/bin/env python3
"""Part rows per second: `area` of a list of 100,000 rows, beside a plain pass over the same file (wc -l)."""
import json, os, random, statistics, subprocess, tempfile, time
from pathlib import Path

PROGRAM, ROWS, RUNS = os.environ["COATWRIGHT"], 100_000, 5


def median_s(*command):
    took = []
    for _ in range(RUNS):
        began = time.perf_counter()
        done = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
        took.append(time.perf_counter() - began)
        if done.returncode:
            raise SystemExit(f"{' '.join(map(str, command))}: {done.stderr.decode()[:500]}")
    return statistics.median(took)


def row(number, some):
    if number % 3:
        thick = some.choice(["19", "3/4 in", "2.5 cm"])
        return f"board {number},{number % 5 + 1},board,oak,{some.randint(100, 2000)},{some.randint(50, 600)},{thick},,oil"
    return f"tile {number},4,triangle,oak,,,10,{some.randint(100, 200)} {some.randint(100, 200)} 150,oil"


with tempfile.TemporaryDirectory() as folder:
    parts, job, some = Path(folder, "parts.csv"), Path(folder, "job.json"), random.Random(1)
    lines = ["part,qty,shape,wood,length,width,thickness,sides,all"] + [row(i, some) for i in range(ROWS)]
    parts.write_text("\n".join(lines) + "\n")
    job.write_text(json.dumps({
        "format": "coatwright-job/1", "job": "Rows", "zone": "Europe/London", "start": "2027-03-01 08:00",
        "deliver": "2027-12-20 14:00", "schedules": {"oil": [{"coat": "danish-oil"}]}, "parts": "parts.csv"}))
    ours, plain = median_s(PROGRAM, "area", job, "--json"), median_s("wc", "-l", parts)
    print(f"area of {ROWS} rows ({parts.stat().st_size / 1e6:.1f} MB): {ours:.2f} s, {ROWS / ours:,.0f} rows a second; "
          f"a plain pass {plain * 1000:.1f} ms; medians of {RUNS} runs")
