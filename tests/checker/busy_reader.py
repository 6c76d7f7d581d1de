"""Busy times from another calendar: the events of an .ics file that block work, single ones only."""
import datetime as dt
from pathlib import Path
from zoneinfo import ZoneInfo

import hours


def unfolded(text):
    """Content lines with their folding undone."""
    lines = []
    for line in text.replace("\r\n", "\n").split("\n"):
        if line[:1] in (" ", "\t") and lines:
            lines[-1] += line[1:]
        else:
            lines.append(line)
    return lines


def moment(name, value, zone):
    """Minutes of a DTSTART or DTEND line; the shop's zone where the line names none."""
    parameters = dict(p.split("=", 1) for p in name.split(";")[1:])
    if value.endswith("Z"):
        return hours.minutes(dt.datetime.strptime(value, "%Y%m%dT%H%M%SZ").replace(tzinfo=dt.timezone.utc))
    form = "%Y%m%d" if parameters.get("VALUE") == "DATE" else "%Y%m%dT%H%M%S"
    return hours.minutes(dt.datetime.strptime(value, form).replace(tzinfo=ZoneInfo(parameters.get("TZID", zone))))


def read(path, zone):
    """(begin, end) of every opaque event, in minutes."""
    found, event = [], None
    for line in unfolded(Path(path).read_text(encoding="utf-8")):
        name, _, value = line.partition(":")
        if line == "BEGIN:VEVENT":
            event = {}
        elif line == "END:VEVENT":
            if event.get("TRANSP") != "TRANSPARENT" and event.get("STATUS") != "CANCELLED":
                found.append((event["DTSTART"], event["DTEND"]))
        elif event is not None:
            key = name.split(";")[0]
            event[key] = moment(name, value, zone) if key in ("DTSTART", "DTEND") else value
    return found
