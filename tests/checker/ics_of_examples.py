"""Plans every example into a folder and checks the calendar that lies there; run by check_ics.sh."""
import datetime as dt
import json
import re
import sys
from pathlib import Path

import case
import checker
import ics
import ics_alarms
import ics_moments
import job_reader
import plan_reader
import program

NOW = "2027-01-04 08:00"
FEW = 100  # steps of a job that is planned twice


def calendar_of(job, folder):
    """(bytes of the calendar, plan, what went wrong) of a plan written to a folder."""
    code, _, errors = program.run("plan", job, "--out", folder, "--now", NOW)
    if code not in (0, 1):
        return None, None, f"exit status {code}: {errors.strip()[:400]}"
    plan = json.loads((folder / "plan.json").read_text(encoding="utf-8"))
    return (folder / "timetable.ics").read_bytes(), plan, None


def alarms(path, plan, data):
    """Alarms that are not there; and whether their absence would be seen."""
    job = job_reader.read_job(path, checker.TABLE)
    checked = case.Case(job, plan_reader.Timetable(plan["timetable"], job.zone))
    silent = re.sub(rb"BEGIN:VALARM.*?END:VALARM\r\n", b"", data, flags=re.S)
    unseen = b"VALARM" in data and not ics_alarms.missing(checked, plan, silent)
    return ics_alarms.missing(checked, plan, data) + (["taking the alarms away is not seen"] if unseen else [])


def shopping(data):
    """An all-day VTODO with its DUE for what must be bought, and an event of that day."""
    items = ics.Checker(data).roots[0].children
    due = [t.one("DUE") for t in items if t.name == "VTODO"]
    days = [e.one("DTSTART") for e in items if e.name == "VEVENT" and e.one("CATEGORIES").value == "shopping"]
    good = len(due) == len(days) == 1 and due[0] and due[0].parameters.get("VALUE") == ["DATE"] and due[0].value == days[0].value
    return [] if good else ["no all-day VTODO for the shopping with an event of its day"]


def verify(tally, job, folder):
    data, plan, error = calendar_of(job, folder)
    if error:
        return tally.note(job, [error])
    timetable = plan["timetable"]
    tally.note(f"{job} strict", [f"line {line}: {text}" for line, text in ics.problems(data)])
    tally.note(f"{job} own reader", list(ics_moments.differences("our reader", ics_moments.own_spans(data), timetable)))
    tally.note(f"{job} icalendar", list(ics_moments.differences("icalendar", ics_moments.foreign_spans(data), timetable)))
    tally.note(f"{job} alarms", alarms(job, plan, data))
    tally.note(f"{job} shopping", shopping(data))
    return same_again(tally, job, data) if len(timetable["steps"]) <= FEW else None


def same_again(tally, job, data):
    """Planned again on another day, the UIDs are the same."""
    with program.scratch() as folder:
        code, _, errors = program.run("plan", job, "--out", folder, "--now", str(dt.date(2027, 1, 5)) + " 08:00")
        again = (Path(folder) / "timetable.ics").read_bytes() if code in (0, 1) else b""
    uids = [sorted(line for line in text.split(b"\r\n") if line.startswith(b"UID:")) for text in (data, again)]
    tally.note(f"{job} UIDs", [] if uids[0] == uids[1] else [errors or "other UIDs on another day"])


def main():
    program.need()
    tally = program.Tally()
    with program.scratch() as scratch:
        for number, job in enumerate(program.examples()):
            folder = Path(scratch) / str(number)
            folder.mkdir()
            verify(tally, job, folder)
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
