#!/usr/bin/env python3
"""ics.py FILE...: holds iCalendar files against RFC 5545's tables; prints each break as FILE:LINE: text.

Ours are calendars to import: no METHOD, every event with UID and DTSTAMP, every TZID with its VTIMEZONE, every RELATED-TO
with its target.
"""
import sys
from pathlib import Path

import ics_lines
import ics_values
import ics_zones

ONCE, MAYBE, MANY = "once", "at most once", "any number"


def table(once=(), maybe=(), many=()):
    return {**{n: ONCE for n in once}, **{n: MAYBE for n in maybe}, **{n: MANY for n in many}}


# RFC 5545, sections 3.4, 3.6.1, 3.6.2, 3.6.5, 3.6.6.
PROPERTIES = {
    "VCALENDAR": table(["PRODID", "VERSION"], ["CALSCALE"]),
    "VEVENT": table(["DTSTAMP", "UID", "DTSTART"],
                    ["CLASS", "CREATED", "DESCRIPTION", "GEO", "LAST-MODIFIED", "LOCATION", "ORGANIZER", "PRIORITY", "SEQUENCE",
                     "STATUS", "SUMMARY", "TRANSP", "URL", "RECURRENCE-ID", "RRULE", "DTEND", "DURATION"],
                    ["ATTACH", "ATTENDEE", "CATEGORIES", "COMMENT", "CONTACT", "EXDATE", "REQUEST-STATUS", "RELATED-TO",
                     "RESOURCES", "RDATE"]),
    "VTODO": table(["DTSTAMP", "UID"],
                   ["CLASS", "COMPLETED", "CREATED", "DESCRIPTION", "DTSTART", "GEO", "LAST-MODIFIED", "LOCATION", "ORGANIZER",
                    "PERCENT-COMPLETE", "PRIORITY", "RECURRENCE-ID", "SEQUENCE", "STATUS", "SUMMARY", "URL", "RRULE", "DUE",
                    "DURATION"],
                   ["ATTACH", "ATTENDEE", "CATEGORIES", "COMMENT", "CONTACT", "EXDATE", "REQUEST-STATUS", "RELATED-TO",
                    "RESOURCES", "RDATE"]),
    "VTIMEZONE": table(["TZID"], ["LAST-MODIFIED", "TZURL"]),
    "STANDARD": table(["DTSTART", "TZOFFSETTO", "TZOFFSETFROM"], ["RRULE"], ["COMMENT", "RDATE", "TZNAME"]),
    "DAYLIGHT": table(["DTSTART", "TZOFFSETTO", "TZOFFSETFROM"], ["RRULE"], ["COMMENT", "RDATE", "TZNAME"]),
    "VALARM": table(["ACTION", "TRIGGER"], ["DESCRIPTION", "SUMMARY", "DURATION", "REPEAT"], ["ATTACH", "ATTENDEE"]),
}
CHILDREN = {"VCALENDAR": {"VEVENT", "VTODO", "VTIMEZONE"}, "VEVENT": {"VALARM"}, "VTODO": {"VALARM"},
            "VTIMEZONE": {"STANDARD", "DAYLIGHT"}}
# RFC 5545, 3.2.15, and RFC 9253, 5: DEPENDS-ON stands in the task that waits.
RELATIONS = {"PARENT", "CHILD", "SIBLING", "FINISHTOSTART", "FINISHTOFINISH", "STARTTOFINISH", "STARTTOSTART", "DEPENDS-ON"}


class Checker:
    def __init__(self, data):
        self.problems = []
        self.roots = ics_lines.read(data, self.complain)
        for root in self.roots:
            self.component(root)
        if len(self.roots) != 1 or self.roots[0].name != "VCALENDAR":
            self.complain(1, "a stream of one VCALENDAR is wanted")
        else:
            self.calendar(self.roots[0])

    def complain(self, line, text):
        self.problems.append((line, text))

    def component(self, component):
        """Cardinality and values of its properties, and what lies inside it."""
        rules = PROPERTIES.get(component.name)
        if rules is None:
            return self.complain(component.line, f"a component {component.name}")
        for name, how in rules.items():
            count = len(component.all(name))
            if how == ONCE and count != 1 or how == MAYBE and count > 1:
                self.complain(component.line, f"{component.name}: {name} {count} times, must be there {how}")
        for prop in component.properties:
            self.property(component, prop, rules)
        for child in component.children:
            if child.name not in CHILDREN.get(component.name, ()):
                self.complain(child.line, f"{child.name} inside {component.name}")
            self.component(child)
        getattr(self, component.name.lower(), lambda c: None)(component)
        return None

    def property(self, component, prop, rules):
        if prop.name not in rules and not prop.name.startswith("X-"):
            self.complain(prop.line, f"{prop.name} has no place in {component.name}")
        problem = ics_values.wrong(component.name, prop)
        if problem:
            self.complain(prop.line, f"{prop.name}: {problem}: {prop.value[:60]!r}")

    def vevent(self, event):
        start, end = event.one("DTSTART"), event.one("DTEND")
        if end and event.one("DURATION"):
            self.complain(event.line, "DTEND and DURATION")
        if start and end:
            self.ordered(event, start, end)

    def ordered(self, component, start, end):
        """Both of one kind, the end after the start."""
        if start.parameters.get("VALUE") != end.parameters.get("VALUE"):
            self.complain(end.line, f"{end.name} is of another kind than {start.name}")
        elif start.parameters.get("TZID") == end.parameters.get("TZID") and end.value <= start.value:
            self.complain(end.line, f"{end.name} is not after {start.name}")

    def vtodo(self, todo):
        if todo.one("DUE") and todo.one("DURATION"):
            self.complain(todo.line, "DUE and DURATION")
        if todo.one("DURATION") and not todo.one("DTSTART"):
            self.complain(todo.line, "DURATION without DTSTART")
        if todo.one("DTSTART") and todo.one("DUE"):
            self.ordered(todo, todo.one("DTSTART"), todo.one("DUE"))

    def vtimezone(self, zone):
        if not zone.children:
            self.complain(zone.line, "VTIMEZONE without STANDARD or DAYLIGHT")

    def valarm(self, alarm):
        """What each action demands (section 3.6.6)."""
        action = alarm.one("ACTION").value.upper() if alarm.one("ACTION") else ""
        needed = {"DISPLAY": ["DESCRIPTION"], "EMAIL": ["DESCRIPTION", "SUMMARY", "ATTENDEE"]}.get(action, [])
        for name in needed:
            if not alarm.one(name):
                self.complain(alarm.line, f"VALARM {action} without {name}")
        if bool(alarm.one("DURATION")) != bool(alarm.one("REPEAT")):
            self.complain(alarm.line, "DURATION and REPEAT come together")

    def calendar(self, root):
        """What holds between components: zones, UIDs, relations."""
        zones = {c.one("TZID").value: c for c in root.children if c.name == "VTIMEZONE" and c.one("TZID")}
        items = [c for c in root.children if c.name in ("VEVENT", "VTODO")]
        if not items:
            self.complain(root.line, "a calendar without components")
        readable = {} if self.problems else {name: ics_zones.Zone(zone) for name, zone in zones.items()}
        for item in items:
            self.zones_of(item, zones, readable)
        uids = [c.one("UID").value for c in items if c.one("UID")]
        for uid in {u for u in uids if uids.count(u) > 1}:
            self.complain(root.line, f"UID {uid} twice")
        for prop in (p for c in items for p in c.all("RELATED-TO")):
            self.relation(prop, uids)
        used = {t for c in items for p in c.properties for t in p.parameters.get("TZID", [])}
        for name in set(zones) - used:
            self.complain(zones[name].line, f"VTIMEZONE {name} is not used")

    def zones_of(self, item, zones, readable):
        """Every TZID has its VTIMEZONE, which covers the moment; the latter only where all could be read."""
        for prop in item.properties:
            for name in prop.parameters.get("TZID", []):
                if name not in zones:
                    self.complain(prop.line, f"no VTIMEZONE {name}")
                elif name in readable and readable[name].utc(prop.value) is None:
                    self.complain(prop.line, f"{prop.value} lies before VTIMEZONE {name} begins")

    def relation(self, prop, uids):
        if prop.value not in uids:
            self.complain(prop.line, f"RELATED-TO nothing: {prop.value}")
        if prop.parameters.get("RELTYPE", ["PARENT"])[0].upper() not in RELATIONS:
            self.complain(prop.line, f"RELTYPE {prop.parameters['RELTYPE'][0]}")


def problems(data):
    """[(line, text)] of everything wrong with a stream."""
    return Checker(data).problems


def main(arguments):
    broken = 0
    for name in arguments:
        for line, text in problems(Path(name).read_bytes()):
            print(f"{name}:{line}: {text}")
            broken += 1
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
