"""The moments of a calendar beside those of the timetable's JSON, read twice: by our own reader with the calendar's own
VTIMEZONE, and by python3-icalendar, a reader that knows nothing of us. Both must give the batches of the plan, and the moments
that end or begin something."""
import collections
import datetime as dt

import ics_lines
import ics_zones

UTC = dt.timezone.utc


def utc(text):
    return dt.datetime.fromisoformat(text).astimezone(UTC)


def plan_spans(timetable):
    """(start, end) in UTC of every batch, counted."""
    return collections.Counter((utc(b["start"]), utc(b["end"])) for b in timetable["batches"])


def plan_moments(timetable):
    """Moments that end or begin something: {category: counted moments in UTC}. Of one batch's pieces the last that is safe to
    wrap is told, and the first of its recoat windows to end before the delivery."""
    steps = {s["id"]: s for s in timetable["steps"]}
    last = {}  # the batch of a piece's last coat
    for step in timetable["steps"]:
        if step["do"] == "apply":
            last[step["piece"]] = step["batch"]
    wraps, windows = {}, {}
    for state in timetable["states"]:
        if state["state"] == "wrap" and state["at"] and state["piece"] in last:
            batch = last[state["piece"]]
            wraps[batch] = max(wraps.get(batch, utc(state["at"])), utc(state["at"]))
    for link in (link for step in timetable["steps"] for link in step["after"]):
        if link["max_until"] and steps[link["id"]]["do"] == "apply" and utc(link["max_until"]) < utc(timetable["deliver"]):
            batch = steps[link["id"]]["batch"]
            windows[batch] = min(windows.get(batch, utc(link["max_until"])), utc(link["max_until"]))
    return {"wrap": collections.Counter(wraps.values()), "window": collections.Counter(windows.values()),
            "ready": collections.Counter([utc(timetable["ready"])]), "delivery": collections.Counter([utc(timetable["deliver"])])}


def own_moment(prop, zones):
    value = prop.value
    if value.endswith("Z"):
        return ics_zones.local(value).replace(tzinfo=UTC)
    return zones[prop.parameters["TZID"][0]].utc(value).replace(tzinfo=UTC)


def own_spans(data):
    """(spans of work, {category: moments}, [days of shopping]) of a calendar by our own reader."""
    root = ics_lines.read(data, lambda line, text: None)[0]
    zones = {c.one("TZID").value: ics_zones.Zone(c) for c in root.children if c.name == "VTIMEZONE"}
    work, moments, days = collections.Counter(), {}, []
    for event in (c for c in root.children if c.name == "VEVENT"):
        start, end, category = event.one("DTSTART"), event.one("DTEND"), event.one("CATEGORIES").value
        if start.parameters.get("VALUE") == ["DATE"]:
            days.append(dt.datetime.strptime(start.value, "%Y%m%d").date())
        elif end is None:
            moments.setdefault(category, collections.Counter())[own_moment(start, zones)] += 1
        else:
            work[own_moment(start, zones), own_moment(end, zones)] += 1
    return work, moments, days


def foreign_spans(data):
    """The same by python3-icalendar."""
    import icalendar
    work, moments, days = collections.Counter(), {}, []
    for event in icalendar.Calendar.from_ical(data).walk("VEVENT"):
        start, category = event["DTSTART"].dt, event["CATEGORIES"].to_ical().decode()
        if not isinstance(start, dt.datetime):
            days.append(start)
        elif "DTEND" not in event:
            moments.setdefault(category, collections.Counter())[start.astimezone(UTC)] += 1
        else:
            work[start.astimezone(UTC), event["DTEND"].dt.astimezone(UTC)] += 1
    return work, moments, days


def counted_apart(name, what, found, wanted):
    for moment in wanted - found:
        yield f"{name} finds no {what} at {moment}"
    for moment in found - wanted:
        yield f"{name} finds a {what} at {moment} that the plan does not have"


def differences(name, spans, timetable):
    """What one reader finds otherwise than the plan says: an event a batch, none for drying, moments without length."""
    work, moments, days = spans
    yield from counted_apart(name, "batch", work, plan_spans(timetable))
    wanted = plan_moments(timetable)
    for category in {*wanted, *moments}:
        found = moments.get(category, collections.Counter())
        if category == "window":  # a polish window is no film's end: only those of films are events
            yield from (f"{name} finds a window at {m} that the plan does not have" for m in found - wanted[category])
        else:
            yield from counted_apart(name, category, found, wanted.get(category, collections.Counter()))
    first = min((dt.datetime.fromisoformat(s["start"]).date() for s in timetable["steps"] if s["do"] not in ("flip", "task")),
                default=None)
    if len(days) > 1 or any(first is None or day >= first for day in days):
        yield f"{name} finds shopping on {days}, the first work is on {first}"
