#!/usr/bin/env -S python3 -B
"""The ceilings of the code are those that coatwright-method(7) tells, row by row and sentence by sentence."""
import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "src/man/coatwright-method.7.md").read_text(encoding="utf-8").split("# LIMITS", 1)[1].split("\n# ", 1)[0]
# The first words of a row, and the constants behind its numbers in their order.
ROWS = [
    ("a text;", ["format/file.h FILE_MOST"]),
    ("what one sheet unpacks to", ["format/sheet.h SHEET_PART_MOST"]),
    ("a JSON file", ["format/file.h FILE_MOST", "format/json_tree.h JSON_MOST", "format/json_tree.h JSON_DEEPEST"]),
    ("a list in text", ["format/file.h FILE_MOST", "format/csv.h CSV_CELLS_MOST"]),
    ("a sheet", ["format/sheet.h SHEET_ROWS_MOST", "format/sheet.h SHEET_COLUMNS_MOST", "format/sheet.h SHEET_CELLS_MOST"]),
    ("a busy calendar", ["format/ical_text.c CALENDAR_MOST", "format/ical_text.c LINES_MOST", "format/ical_text.c EVENTS_MOST",
                         "format/ical_text.c DEEPEST"]),
    ("the events of all busy", ["format/ical_busy.c BUSY_MOST"]),
    ("a year in a calendar", ["format/ical_value.c YEAR_LEAST", "format/ical_value.c YEAR_MOST"]),
    ("the year of a job's", ["source/job_file.c YEAR_LEAST", "source/job_file.c YEAR_MOST"]),
    ("the corners of a polygon", ["surface/polygon.h POLYGON_MOST"]),
    ("parts in a row", ["limit QTY"]),
    ("coats of one step", ["limit COATS", "limit COATS_A_DAY"]),
    ("people; spray", ["limit PEOPLE", "limit SPRAY_PLACES"]),
    ("a job and its plan", ["timetable/planning.c MOST_OPERATIONS"]),
    ("jobs planned together", ["app/options.h OPERANDS_MOST"]),
    ("files copied", ["api/apply.c FILES_MOST"]),
    ("an answer of a calendar", ["publish/http.h HTTP_ANSWER_MOST", "publish/http.h HTTP_SECONDS"]),
    ("a request to the page", ["page/*.h PAGE_BODY_MOST"]),
    ("memory of a job", ["app/run.c MEMORY_MB"]),
    ("counted work", ["timetable/planning.c usual_effort"]),
]
UNITS = {"MiB": 1 << 20}


def limits():
    """{name: (most, words or None)} of source/limit.c."""
    text = (ROOT / "src/source/limit.c").read_text(encoding="utf-8")
    rows = re.findall(r"\[LIMIT_(\w+)\] = \{[^,{]+, ([^,]+), +(NULL|\"[^\"]*\")\}", text)
    return {name: (most, None if words == "NULL" else words.strip('"')) for name, most, words in rows}


def constant(place):
    where, name = place.split()
    if where == "limit":
        return int(limits()[name][0])
    for path in (ROOT / "src").glob(where):
        found = re.search(rf"\b{name} = ([0-9]+(?: << [0-9]+)?)", path.read_text(encoding="utf-8"))
        if found:
            number, _, shift = found.group(1).partition(" << ")
            return int(number) << int(shift or 0)
    raise SystemExit(f"{place} is not found")


def numbers(row):
    return [int(number.replace(",", "")) * UNITS.get(unit, 1) for number, unit in re.findall(r"([0-9][0-9,]*)(?: (MiB))?", row)]


def main():
    passed = failed = 0
    rows = re.findall(r"^\| (.+?) \| (.+?) \|$", PAGE, re.M)
    said = " ".join(PAGE.split())
    checks = []
    for words, places in ROWS:
        told = [numbers(value) for name, value in rows if words in name][:1]
        want = [constant(place) for place in places]
        checks.append((words, bool(told) and told[0][:len(want)] == want, f"the page tells {told}, the code {want}"))
    for name, (_, words) in limits().items():
        if words:
            # Spans of time share the beginning of a sentence.
            short = words.removeprefix("a time span ")
            checks.append((name, short in said, f"the page does not tell: {words}"))
    for what, good, wrong in checks:
        passed, failed = passed + good, failed + (not good)
        if not good:
            print(f"{what}: {wrong}")
    print(f"{passed} passed, {failed} failed")
    return failed > 0


sys.exit(main())
