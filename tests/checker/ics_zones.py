"""What a VTIMEZONE says of local times: its onsets from DTSTART, RDATE and a yearly RRULE, and the offset in force."""
import calendar
import datetime as dt
import re

DAYS = {"MO": 0, "TU": 1, "WE": 2, "TH": 3, "FR": 4, "SA": 5, "SU": 6}
LAST_YEAR = 2100


def local(value):
    return dt.datetime.strptime(value.rstrip("Z"), "%Y%m%dT%H%M%S")


def offset(value):
    """`+0130` as a time span."""
    sign = -1 if value[0] == "-" else 1
    return sign * dt.timedelta(hours=int(value[1:3]), minutes=int(value[3:5]), seconds=int(value[5:7] or 0))


def nth_weekday(year, month, text):
    """The day of `-1SU` or `2SU` in a month."""
    nth, weekday = int(re.match(r"[+-]?\d+", text)[0]), DAYS[text[-2:]]
    days = [d for d in range(1, calendar.monthrange(year, month)[1] + 1) if dt.date(year, month, d).weekday() == weekday]
    return days[nth - 1] if nth > 0 else days[nth]


def yearly(start, rule, shift):
    """Local onsets of a yearly rule by month and weekday; UNTIL is in UTC, `shift` the offset before the onset."""
    parts = dict(part.split("=") for part in rule.split(";"))
    until = local(parts["UNTIL"]) + (shift if parts["UNTIL"].endswith("Z") else dt.timedelta()) if "UNTIL" in parts else None
    found = []
    for year in range(start.year, LAST_YEAR):
        month = int(parts.get("BYMONTH", start.month))
        day = nth_weekday(year, month, parts["BYDAY"]) if "BYDAY" in parts else int(parts.get("BYMONTHDAY", start.day))
        moment = start.replace(year=year, month=month, day=day)
        if until and moment > until or "COUNT" in parts and len(found) >= int(parts["COUNT"]):
            break
        found.append(moment)
    return found


class Zone:
    """The onsets of a VTIMEZONE in UTC order."""

    def __init__(self, component):
        self.onsets = sorted(onset for child in component.children for onset in self.of_observance(child))

    def of_observance(self, child):
        before, after = offset(child.one("TZOFFSETFROM").value), offset(child.one("TZOFFSETTO").value)
        start = local(child.one("DTSTART").value)
        moments = {start} | {local(v) for p in child.all("RDATE") for v in p.value.split(",")}
        for rule in child.all("RRULE"):
            moments |= set(yearly(start, rule.value, before))
        return [(moment - before, moment, after) for moment in moments]

    def utc(self, value):
        """UTC of a local time; None where it lies before the first onset."""
        moment = local(value)
        past = [after for utc, _, after in self.onsets if utc + after <= moment]
        return moment - past[-1] if past else None
