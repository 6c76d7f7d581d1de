"""The alarms that a calendar must hold: before a polish or recoat window ends, for each section to be wiped
off, and at the end of each pot's life."""
import datetime as dt
import re

import hours
import ics_lines
import ics_moments
import ics_zones
import minutes

UTC = dt.timezone.utc
EARLY = 60  # minutes: an alarm sooner than that before its moment is of no use
DURATION = re.compile(r"([+-]?)P(?:(\d+)W)?(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?)?")


def span_of(text):
    """A duration as a time span."""
    sign, *parts = DURATION.fullmatch(text).groups()
    weeks, days, hour, minute, second = (int(p or 0) for p in parts)
    span = dt.timedelta(weeks=weeks, days=days, hours=hour, minutes=minute, seconds=second)
    return -span if sign == "-" else span


def moment_of(alarm, event, zones):
    """When an alarm goes off, in minutes since the epoch."""
    trigger = alarm.one("TRIGGER")
    if trigger.parameters.get("VALUE") == ["DATE-TIME"]:
        moment = ics_zones.local(trigger.value).replace(tzinfo=UTC)
    else:
        edge = "DTEND" if trigger.parameters.get("RELATED") == ["END"] else "DTSTART"
        moment = ics_moments.own_moment(event.one(edge), zones) + span_of(trigger.value)
    return hours.minutes(moment)


def of_calendar(data):
    """[(UID of the event, minute)] of all alarms."""
    root = ics_lines.read(data, lambda line, text: None)[0]
    zones = {c.one("TZID").value: ics_zones.Zone(c) for c in root.children if c.name == "VTIMEZONE"}
    return [(event.one("UID").value, moment_of(alarm, event, zones)) for event in root.children if event.name == "VEVENT"
            for alarm in event.children]


def last_open_hour(job, minute):
    """[from, to] of the last open hour that begins before a moment; the moment itself where the shop is open then."""
    before = [(a, b) for a, b in job.hours.stretches if a < minute]
    if not before:
        return minute, minute
    opened, closes = before[-1]
    return (minute - EARLY, minute) if minute <= closes else (max(opened, closes - EARLY), closes)


def rings_before(alarms, minute, job=None):
    """Whether some alarm goes off shortly before a moment, or at it, or in the last open hour before."""
    spans = [(minute - EARLY, minute)] + ([last_open_hour(job, minute), last_open_hour(job, minute - EARLY)] if job else [])
    return any(a <= at <= b for _, at in alarms for a, b in spans)


def out_of_hours(case, alarms):
    """Alarms that ring while nobody is there."""
    for uid, at in alarms:
        if not case.job.hours.holds(at, at) and not any(b.start <= at <= b.end for b in case.batches):
            yield f"{uid}: an alarm rings at {case.show(at)}, in closed hours"


def windows_without_alarm(case, alarms):
    """Windows told by a link of a step; one that ends after the delivery, such as the year of shellac, asks for no alarm."""
    deliver = hours.from_text(case.timetable.data["deliver"], case.job.zone)
    for step in case.timetable.list:
        for link in step.after:
            if link.most is not None and link.most < deliver and not rings_before(alarms, link.most, case.job):
                yield f"no alarm before {step.id} must start, {case.show(link.most)}"


def lots_without_alarm(case, alarms):
    """An alarm for each section that is wiped off, while the coat is laid, at the batch in which it is."""
    for step, op in case.applies():
        if not op.coat.finish.is_wiped(op.coat.run):
            continue
        wanted = minutes.lots(case.job, op.passed, op.coat, case.warmest(op.coat.finish))[0]
        found = sum(f"/{step.row['batch']}@" in uid and step.start <= at <= step.end for uid, at in alarms)
        if found < wanted:
            yield f"{step.id}: {found} alarms for {wanted} sections"


def pots_without_alarm(case, alarms, mixes):
    for mix in mixes:
        if mix["apply_by"] and not rings_before(alarms, hours.from_text(mix["apply_by"], case.job.zone),
                                                case.job):
            yield f"no alarm before {mix['finish']} must be applied, {mix['apply_by']}"


def missing(case, plan, data):
    """Every alarm that is not there, or is out of place."""
    alarms = of_calendar(data)
    return [*windows_without_alarm(case, alarms), *lots_without_alarm(case, alarms),
            *pots_without_alarm(case, alarms, plan["mix"]["mixes"]), *out_of_hours(case, alarms)]
