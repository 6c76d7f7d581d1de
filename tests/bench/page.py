#!/usr/bin/env python3
"""The page: one change of a field to the new ready moment (POST /api/try, quick), beside an empty request; home, planned and kept; and the sheet, requests per second
beside Python's own server of static files. The aims are medians below 50 ms for the desk and 300 ms for the kitchen."""
import http.client, json, os, statistics, subprocess, sys, tempfile, time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests/page"))
from serving import Server

RUNS, SECONDS = 25, 2
FILES = {"desk": ("desk.json", "desk-parts.csv", "desk-shop.json", "desk-finishes"),
         "kitchen": ("kitchen.json", "kitchen-parts.csv", "kitchen-shop.json", "kitchen-finishes")}


def ask(connection, method, target, body=None):
    began = time.perf_counter()
    connection.request(method, target, body, {"Content-Type": "application/json"} if body else {})
    answer = connection.getresponse()
    said = answer.read()
    if answer.status not in (200, 404):
        raise SystemExit(f"{target}: {answer.status} {said[:300]}")
    return (time.perf_counter() - began) * 1000, said


def tries(server, name):
    """Milliseconds of a change of a length in the part list, each another one, and of an empty request."""
    connection = server.connect()
    parts = (server.folder / f"{name}-parts.csv").read_text().splitlines()
    took, empty = [], []
    for i in range(RUNS):
        head, rest = parts[-1].split(",", 1)
        changed = "\n".join([*parts[:-1], f"{head} {i},{rest}"]) + "\n"
        body = json.dumps({"texts": {f"{name}-parts.csv": changed}, "effort": "quick"})
        ms, said = ask(connection, "POST", f"/api/try/{name}.json", body)
        if not json.loads(said)["plan"]["ready"]:
            raise SystemExit(f"{name}: no ready moment: {said[:300]}")
        took.append(ms)
        empty.append(ask(connection, "GET", "/api/nothing")[0])
    return statistics.median(took), statistics.median(empty)


def rate(connection, target):
    """Requests a second over one connection that stays."""
    ask(connection, "GET", target)
    end, count = time.perf_counter() + SECONDS, 0
    while time.perf_counter() < end:
        ask(connection, "GET", target)
        count += 1
    return count / SECONDS


for name, files in FILES.items():
    with Server(*files) as server:
        change, empty = tries(server, name)
        print(f"page, {name}: a change to the new ready moment {change:.1f} ms, {change / empty:.0f} times an empty request ({empty:.2f} ms); medians of {RUNS}")
with Server(*FILES["desk"], *FILES["kitchen"]) as server:
    first, again = (ask(server.connect(), "GET", "/api/folder")[0] for _ in range(2))
    print(f"page, home with desk and kitchen: {first:.0f} ms, {again:.0f} ms while the plans are kept")
with Server(*FILES["desk"]) as server, tempfile.TemporaryDirectory() as folder:
    _, sheet = ask(server.connect(), "GET", "/files/desk.json/sheet.html")
    Path(folder, "sheet.html").write_bytes(sheet)
    static = subprocess.Popen([sys.executable, "-u", "-m", "http.server", "0", "--bind", "127.0.0.1", "--directory", folder, "--protocol", "HTTP/1.1"],
                              stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    port = int(static.stdout.readline().split(" port ")[1].split()[0])
    ours, theirs = rate(server.connect(), "/files/desk.json/sheet.html"), rate(http.client.HTTPConnection("127.0.0.1", port), "/sheet.html")
    static.terminate()
    print(f"page, sheet of the desk ({len(sheet) / 1000:.0f} kB): {ours:.0f} requests a second, {ours / theirs:.2f} times a server of static files ({theirs:.0f})")
