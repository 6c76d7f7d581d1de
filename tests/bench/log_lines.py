#!/usr/bin/env python3
"""How long a log of 100,000 lines takes to read: `area` of a small job with it, less the same without it. The bound is 0.2 s of the
processor, so that a busy machine tells the same."""
import json, os, resource, statistics, subprocess, tempfile
from pathlib import Path

PROGRAM, LINES, RUNS, BOUND_S = os.environ["COATWRIGHT"], 100_000, 7, 0.2


def used_s():
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    return children.ru_utime + children.ru_stime


def took_s(job):
    before = used_s()
    done = subprocess.run([PROGRAM, "area", job, "--now", "2027-04-01"], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    if done.returncode:
        raise SystemExit(f"{done.stderr.decode()[:500]}")
    return used_s() - before


def line(number):
    hour, minute = number % 9 + 8, number % 60
    return json.dumps({"entry": number, "written": f"2027-03-01T{hour:02}:{minute:02}:00+00:00", "step": f"top/oil/{number % 7}/apply",
                       "began": f"2027-03-01T{hour:02}:00:00+00:00", "done": f"2027-03-01T{hour:02}:{minute:02}:00+00:00", "used": "75 ml",
                       "person": "Ann"})


with tempfile.TemporaryDirectory() as folder:
    job, log = Path(folder, "job.json"), Path(folder, "job.log")
    job.write_text(json.dumps({
        "format": "coatwright-job/1", "job": "Long log", "zone": "Europe/London", "start": "2027-03-01 08:00", "deliver": "2027-12-20 14:00",
        "schedules": {"oil": [{"coat": "danish-oil"}]},
        "parts": [{"part": "top", "length": 1000, "width": 500, "thickness": 20, "wood": "oak", "all": "oil"}]}))
    without = [took_s(job) for _ in range(RUNS)]
    log.write_text("".join(line(number) + "\n" for number in range(1, LINES + 1)))
    reading_s = statistics.median(took_s(job) for _ in range(RUNS)) - statistics.median(without)
    print(f"a log of {LINES} lines ({log.stat().st_size / 1e6:.1f} MB) is read in {reading_s:.2f} s, {'within' if reading_s <= BOUND_S else 'over'} "
          f"the bound of {BOUND_S} s; median of {RUNS} runs")
