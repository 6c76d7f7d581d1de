#!/usr/bin/env python3
"""How long `plan` takes for each example, beside a run of the program that does nothing. The aim is 30 times."""
import glob, json, os, statistics, subprocess, time

PROGRAM, RUNS = os.environ["COATWRIGHT"], 15


def median_ms(*arguments):
    took = []
    for _ in range(RUNS):
        began = time.perf_counter()
        done = subprocess.run([PROGRAM, *arguments], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
        took.append((time.perf_counter() - began) * 1000)
        if done.returncode > 1:
            raise SystemExit(f"{' '.join(arguments)}: {done.stderr.decode()}")
    return statistics.median(took)


def is_job(path):
    with open(path, encoding="utf-8") as file:
        return str(json.load(file).get("format", "")).startswith("coatwright-job")


idle = median_ms("--version")
print(f"--version: {idle:.2f} ms, the median of {RUNS} runs")
for path in filter(is_job, sorted(glob.glob("examples/**/*.json", recursive=True))):
    took = median_ms("plan", path, "--now", "2027-01-04T08:00Z")
    print(f"plan {path}: {took:.2f} ms, {took / idle:.1f} times as long")
