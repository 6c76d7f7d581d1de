"""What a calendar says of work that was done, and of what did not change: done batches at their real moments, nothing lost,
the number of an event rises only with its change."""
import hours
import ics_lines
import ics_moments
import ics_zones

SEEN = ("DTSTART", "DTEND", "DUE", "SUMMARY", "DESCRIPTION", "STATUS", "LOCATION", "CATEGORIES")


def items_of(data):
    """{UID: component}, and its zones."""
    root = ics_lines.read(data, lambda line, text: None)[0]
    zones = {z.one("TZID").value: ics_zones.Zone(z) for z in root.children if z.name == "VTIMEZONE"}
    return {c.one("UID").value: c for c in root.children if c.name in ("VEVENT", "VTODO")}, zones


def face(item):
    """What a person sees of an event."""
    return tuple((p.name, p.value) for p in sorted(item.properties, key=lambda p: (p.name, p.value)) if p.name in SEEN)


def sequence(item):
    return int(item.one("SEQUENCE").value) if item.one("SEQUENCE") else 0


def of_what_was_done(case, data, of=""):
    """Every recorded batch has its event, from the first beginning to the last end of its steps; where several jobs share the calendar,
    its summary ends as `of` says."""
    items, zones = items_of(data)
    items = {uid: item for uid, item in items.items() if item.one("SUMMARY").value.endswith(of)}
    batches = {}
    for fact in case.facts.values():
        if fact.entry.batch:
            batches.setdefault(fact.entry.batch, []).append(fact)
    for name, rows in batches.items():
        event = next((item for uid, item in items.items() if uid.endswith(f"/{name}@coatwright")), None)
        if event is None:
            yield f"{name} was done and has no event"
            continue
        told = tuple(hours.minutes(ics_moments.own_moment(event.one(key), zones)) for key in ("DTSTART", "DTEND"))
        was = min(fact.start for fact in rows), max(fact.end for fact in rows)
        if told != was:
            yield f"{name} was done {case.show(was[0])} to {case.show(was[1])}, its event is {case.show(told[0])} to {case.show(told[1])}"


def since(before, after):
    """What an update must not do to a calendar that was there."""
    old, new = items_of(before)[0], items_of(after)[0]
    for uid, item in old.items():
        if uid not in new:
            yield f"{uid} is gone"
        elif face(item) == face(new[uid]) and sequence(new[uid]) != sequence(item) and not item.one("RELATED-TO"):
            yield f"{uid} is as it was, its number rose from {sequence(item)} to {sequence(new[uid])}"
        elif face(item) != face(new[uid]) and sequence(new[uid]) <= sequence(item):
            yield f"{uid} changed, its number did not rise above {sequence(item)}"
