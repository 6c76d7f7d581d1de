#!/usr/bin/env python3
"""The shared library loaded into another program, whose numbers have a comma: texts, JSON and drawings are the same to the
last byte as without, a job from memory is walked through the structs of the header, and two threads each plan."""
import ctypes, glob, locale, os, subprocess, sys, tempfile, threading

NOW = b"2027-01-04T08:00Z"
TEXT, JSON, CSV, ICALENDAR, SVG = range(5)
CHECK, AREA, BUY, MIX, TIMETABLE, PLAN, _, COST = range(1, 9)
WRITTEN = [(CHECK, TEXT), (CHECK, JSON), (AREA, TEXT), (AREA, JSON), (AREA, SVG), (BUY, TEXT), (BUY, JSON), (BUY, CSV),
           (MIX, TEXT), (MIX, JSON), (TIMETABLE, TEXT), (TIMETABLE, JSON), (TIMETABLE, ICALENDAR), (TIMETABLE, SVG),
           (PLAN, TEXT), (PLAN, JSON), (COST, TEXT), (COST, JSON), (COST, CSV)]


class Options(ctypes.Structure):
    PROGRESS = ctypes.CFUNCTYPE(ctypes.c_bool, ctypes.c_void_p, ctypes.c_void_p)
    _fields_ = [("size", ctypes.c_size_t), ("memory_ceiling", ctypes.c_size_t), ("finishes", ctypes.c_char_p),
                ("now", ctypes.c_char_p), ("effort", ctypes.c_int64), ("latest", ctypes.c_bool), ("soonest", ctypes.c_bool),
                ("advice", ctypes.c_bool), ("trust_paths", ctypes.c_bool), ("given_only", ctypes.c_bool),
                ("units", ctypes.c_int), ("colour", ctypes.c_bool), ("progress", PROGRESS),
                ("caller", ctypes.c_void_p)]


class Step(ctypes.Structure):
    _fields_ = [(name, ctypes.c_char_p) for name in "id piece schedule side action finish batch note".split()] + [
        ("coat", ctypes.c_int), ("coats", ctypes.c_int), ("person", ctypes.c_int), ("start_min", ctypes.c_int64),
        ("end_min", ctypes.c_int64), ("slack_min", ctypes.c_int64), ("critical", ctypes.c_bool),
        ("volume_l", ctypes.c_double), ("lot", ctypes.c_int), ("lots", ctypes.c_int)]


class Batch(ctypes.Structure):
    _fields_ = [(name, ctypes.c_char_p) for name in "id action finish tool words person helper note".split()] + [
        (name, ctypes.c_int64) for name in "start_min end_min work_from_min work_until_min slack_min".split()] + [
        ("hands_on_min", ctypes.c_int), ("volume_l", ctypes.c_double), ("steps", ctypes.POINTER(ctypes.c_char_p)),
        ("step_count", ctypes.c_size_t), ("mixes", ctypes.c_void_p), ("mix_count", ctypes.c_size_t)]


def load():
    path = glob.glob(os.path.join(os.environ.get("BUILD", "build"), "libcoatwright.so.*"))[0]
    library = ctypes.CDLL(os.path.abspath(path))
    session = [ctypes.c_void_p]
    for name, result, arguments in [
            ("open", ctypes.c_void_p, [ctypes.POINTER(Options)]), ("close", None, session),
            ("read", ctypes.c_bool, session + [ctypes.c_char_p]),
            ("add_text", ctypes.c_bool, session + [ctypes.c_char_p, ctypes.c_char_p, ctypes.c_size_t]),
            ("read_text", ctypes.c_bool, session + [ctypes.c_char_p, ctypes.c_char_p, ctypes.c_size_t]),
            ("plan", ctypes.c_bool, session + [ctypes.c_void_p]),
            ("write", ctypes.c_char_p, session + [ctypes.c_int, ctypes.c_int]),
            ("step_count", ctypes.c_size_t, session), ("step", ctypes.POINTER(Step), session + [ctypes.c_size_t]),
            ("batch_count", ctypes.c_size_t, session),
            ("batch", ctypes.POINTER(Batch), session + [ctypes.c_size_t])]:
        function = getattr(library, "coatwright_" + name)
        function.restype, function.argtypes = result, arguments
    return library


def options(**given):
    return Options(size=ctypes.sizeof(Options), now=NOW, effort=5000000, **given)


def everything(library, path):
    session = library.coatwright_open(options())
    texts = []
    if library.coatwright_read(session, path.encode()) and library.coatwright_plan(session, None):
        texts = [library.coatwright_write(session, *what) for what in WRITTEN]
    library.coatwright_close(session)
    return texts


def comma(folder):
    """A locale with a decimal comma, made below the folder."""
    made = os.path.join(folder, "de_DE.UTF-8")
    subprocess.run(["localedef", "-i", "de_DE", "-f", "UTF-8", made], check=False, capture_output=True)
    os.environ["LOCPATH"] = folder
    locale.setlocale(locale.LC_ALL, "de_DE.UTF-8")
    return locale.localeconv()["decimal_point"] == ","


def walked(library):
    """Every coat of a job from memory; none where its batches do not hold its steps."""
    job = b"""{"format": "coatwright-job/1", "job": "Shelf", "units": "mm", "zone": "Europe/London",
     "start": "2027-03-01 08:00", "deliver": "2027-04-01",
     "schedules": {"oil": [{"sand": 180}, {"coat": "danish-oil", "coats": 3}]}, "parts": "parts.csv"}"""
    parts = b"part,piece,qty,shape,wood,length,width,thickness,all\nboard,shelf,4,board,oak,900.5,300,20,oil\n"
    session = library.coatwright_open(options(given_only=True))
    library.coatwright_add_text(session, b"parts.csv", parts, len(parts))
    coats = []
    if library.coatwright_read_text(session, b"job.json", job, len(job)) and library.coatwright_plan(session, None):
        steps = [library.coatwright_step(session, i).contents for i in range(library.coatwright_step_count(session))]
        coats = [(step.piece, step.finish, step.coat, step.coats, step.volume_l > 0) for step in steps
                 if step.action == b"apply"]
        past = library.coatwright_step(session, len(steps))
        batches = [library.coatwright_batch(session, i).contents for i in range(library.coatwright_batch_count(session))]
        told = [(batch.id, batch.steps[i]) for batch in batches for i in range(batch.step_count)]
        whole = sorted(told) == sorted((step.batch, step.id) for step in steps)
        coats = coats if whole and not past else []
    library.coatwright_close(session)
    return coats


if os.environ.get("SAN") and "asan" not in os.environ.get("LD_PRELOAD", ""):
    # The sanitizer's library must come first; what this program itself leaves is not asked about.
    os.environ["LD_PRELOAD"] = subprocess.check_output([os.environ.get("CC", "gcc"), "-print-file-name=libasan.so"], text=True).strip()
    os.environ["ASAN_OPTIONS"] = "detect_leaks=0"
    os.execv(sys.executable, [sys.executable, *sys.argv])
passed = failed = 0


def check(name, holds):
    global passed, failed
    passed, failed = passed + bool(holds), failed + (not holds)
    if not holds:
        print(f"{sys.argv[0]}: {name}: does not hold")


library = load()
paths = sorted(path for path in glob.glob("examples/*.json") if "-shop" not in path)
plain = {path: everything(library, path) for path in paths}
check("every example is written", all(len(texts) == len(WRITTEN) and all(texts) for texts in plain.values()))
with tempfile.TemporaryDirectory(dir=os.environ.get("TEST_TMP")) as folder:
    check("the host's numbers have a comma", comma(folder))
    for path in paths:
        check(f"{path} is the same under de_DE", everything(library, path) == plain[path])
    check("three coats of the shelf", walked(library) == [(b"shelf", b"danish-oil", n, 3, True) for n in (1, 2, 3)])
    together = {}
    threads = [threading.Thread(target=lambda path=path: together.update({path: everything(library, path)}))
               for path in paths]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    check("threads change nothing", together == plain)
print(f"{passed} passed, {failed} failed")
sys.exit(failed > 0)
