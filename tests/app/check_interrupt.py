#!/usr/bin/env python3
"""Ctrl-C ends a search that would go on for hours: the best plan so far is printed and written, and says so. Long work says
on a terminal, and nowhere else, how far it has come."""
import json, os, pty, select, shutil, signal, subprocess, sys, tempfile, time

COATWRIGHT = os.environ.get("COATWRIGHT", "build/coatwright")
NOW = ["--now", "2027-01-04T08:00Z"]


def hard_kitchen():
    """The kitchen with every piece lying on the rack with its largest region: too tight for a quick proof."""
    folder = os.path.join(tempfile.mkdtemp(dir=os.environ.get("TEST_TMP")), "hard")
    shutil.copytree("examples", folder)
    path = os.path.join(folder, "kitchen.json")
    largest = {}
    area = subprocess.run([COATWRIGHT, "area", path, "--json"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=True)
    for row in json.loads(area.stdout)["surfaces"]:
        largest[row["piece"]] = max(row["area_m2"], largest.get(row["piece"], 0))
    with open(path, encoding="utf-8") as file:
        job = json.load(file)
    given = {piece["piece"]: piece for piece in job.get("pieces", [])}
    job["pieces"] = [given.get(name, {"piece": name}) | {"rack": f"{m2:.6f} m2"} for name, m2 in largest.items()]
    with open(path, "w", encoding="utf-8") as file:
        json.dump(job, file)
    return path


ENDLESS = [hard_kitchen(), "--effort", "1000000000000", *NOW]
PATIENCE = 120  # seconds, on the slowest machine
passed = failed = 0


def check(name, holds, said=""):
    global passed, failed
    passed, failed = passed + bool(holds), failed + (not holds)
    if not holds:
        print(f"{sys.argv[0]}: {name}: does not hold: {said!r}")


def read_until(terminal, word):
    """What the terminal shows until the word stands there, or patience ends."""
    shown, end = b"", time.monotonic() + PATIENCE
    while word not in shown and time.monotonic() < end:
        if select.select([terminal], [], [], 1)[0]:
            try:
                shown += os.read(terminal, 4096)
            except OSError:  # closed
                break
    return shown


def interrupted(*arguments):
    """Runs with a terminal for the messages and interrupts as soon as it tells how far it is."""
    terminal, other = pty.openpty()
    began = time.monotonic()
    process = subprocess.Popen([COATWRIGHT, *arguments], stdout=subprocess.PIPE, stderr=other)
    os.close(other)
    shown = read_until(terminal, b"planning: ")
    process.send_signal(signal.SIGINT)
    sent = time.monotonic()
    try:
        out = process.communicate(timeout=PATIENCE)[0].decode()
    except subprocess.TimeoutExpired:
        process.kill()
        out = ""
    shown += read_until(terminal, b"best plan so far\r\n")
    os.close(terminal)
    return process.returncode, out, shown.decode(), time.monotonic() - sent, sent - began


try:
    for end in pty.openpty():
        os.close(end)
except OSError:
    print(f"{sys.argv[0]}: not tried: this system lends no terminal\nok 1 # skip")
    sys.exit(0)
status, out, shown, took, began = interrupted("timetable", *ENDLESS)
check("it tells how far it is", "planning: " in shown, shown)
check("and that it was interrupted", "interrupted: the best plan so far" in shown, shown)
check("it ends soon", took < PATIENCE / 2, took)
check("with a plan in time", status == 0, status)
check("that says so", "the search was ended early" in " ".join(out.split()).lower(), out[:400])
status, out, shown, took, began = interrupted("timetable", "--json", *ENDLESS)
check("JSON says so", status == 0 and json.loads(out).get("ended_early") is True, out[:400])
with tempfile.TemporaryDirectory(dir=os.environ.get("TEST_TMP")) as folder:
    status, out, shown, took, began = interrupted("plan", *ENDLESS, "--out", folder)
    check("its files are written", sorted(os.listdir(folder)) == ["plan.json", "sheet.html", "shopping.csv", "timetable.ics"],
          os.listdir(folder))
quiet = subprocess.run([COATWRIGHT, "timetable", *ENDLESS[:2], "30000000", *ENDLESS[3:]], capture_output=True, text=True,
                       timeout=PATIENCE, check=False)
check("no word of it without a terminal", "planning" not in quiet.stderr and "\r" not in quiet.stderr, quiet.stderr)
print(f"{passed} passed, {failed} failed")
sys.exit(failed > 0)
