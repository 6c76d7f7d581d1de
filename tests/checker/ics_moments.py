"""The moments of a calendar beside those of the timetable's JSON, read twice: by our own reader with the calendar's own
VTIMEZONE, and by python3-icalendar, a reader that knows nothing of us. Both must give the steps of the plan."""
import collections
import datetime as dt

import ics_lines
import ics_zones

UTC = dt.timezone.utc


def plan_spans(timetable):
    """(start, end) in UTC of every hands-on step, counted."""
    moments = [(dt.datetime.fromisoformat(s["start"]), dt.datetime.fromisoformat(s["end"])) for s in timetable["steps"]]
    return collections.Counter((a.astimezone(UTC), b.astimezone(UTC)) for a, b in moments)


def coat_ends(timetable):
    """The ends of all coats: films dry from then on."""
    return collections.Counter(dt.datetime.fromisoformat(s["end"]).astimezone(UTC) for s in timetable["steps"]
                               if s["do"] == "apply")


def own_moment(prop, zones):
    value = prop.value
    if value.endswith("Z"):
        return ics_zones.local(value).replace(tzinfo=UTC)
    return zones[prop.parameters["TZID"][0]].utc(value).replace(tzinfo=UTC)


def own_spans(data):
    """(work, drying) spans of a calendar by our own reader."""
    root = ics_lines.read(data, lambda line, text: None)[0]
    zones = {c.one("TZID").value: ics_zones.Zone(c) for c in root.children if c.name == "VTIMEZONE"}
    work, drying = collections.Counter(), collections.Counter()
    for event in (c for c in root.children if c.name == "VEVENT"):
        clear = event.one("TRANSP") is not None and event.one("TRANSP").value == "TRANSPARENT"
        span = own_moment(event.one("DTSTART"), zones), own_moment(event.one("DTEND"), zones)
        (drying if clear else work)[span] += 1
    return work, drying


def foreign_spans(data):
    """The same by python3-icalendar."""
    import icalendar
    work, drying = collections.Counter(), collections.Counter()
    for event in icalendar.Calendar.from_ical(data).walk("VEVENT"):
        span = event["DTSTART"].dt.astimezone(UTC), event["DTEND"].dt.astimezone(UTC)
        (drying if event.get("TRANSP") == "TRANSPARENT" else work)[span] += 1
    return work, drying


def differences(name, spans, timetable):
    """What one reader finds otherwise than the plan says."""
    work, drying = spans
    for span in plan_spans(timetable) - work:
        yield f"{name} finds no event {span[0]} to {span[1]}"
    for span in work - plan_spans(timetable):
        yield f"{name} finds an event {span[0]} to {span[1]} that is no step"
    begins = collections.Counter()
    for (begin, _), count in drying.items():
        begins[begin] += count
    for moment in begins - coat_ends(timetable):
        yield f"{name} finds drying from {moment}, where no coat ends"
    for moment in coat_ends(timetable) - begins:
        yield f"{name} finds no drying from {moment}"
