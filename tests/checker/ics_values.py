"""Value types of iCalendar properties (RFC 5545, sections 3.3 and 3.8). Each check returns what is wrong, or None."""
import datetime as dt
import re

DATE = re.compile(r"\d{8}")
DATE_TIME = re.compile(r"\d{8}T\d{6}Z?")
DURATION = re.compile(r"[+-]?P(?:\d+W|\d+D(?:T(?:\d+H(?:\d+M(?:\d+S)?)?|\d+M(?:\d+S)?|\d+S))?|"
                      r"T(?:\d+H(?:\d+M(?:\d+S)?)?|\d+M(?:\d+S)?|\d+S))")
OFFSET = re.compile(r"[+-](?:[01]\d|2[0-3])[0-5]\d(?:[0-5]\d)?")
ESCAPED = re.compile(r"(?:[^\\;,]|\\[\\;,nN])*")
ESCAPED_LIST = re.compile(r"(?:[^\\;]|\\[\\;,nN])*")
RULE_PARTS = {"FREQ", "UNTIL", "COUNT", "INTERVAL", "BYSECOND", "BYMINUTE", "BYHOUR", "BYDAY", "BYMONTHDAY", "BYYEARDAY",
              "BYWEEKNO", "BYMONTH", "BYSETPOS", "WKST"}


def is_text(value, parameters):
    return None if ESCAPED.fullmatch(value) else "text with an unescaped comma, semicolon or backslash"


def is_text_list(value, parameters):
    return None if ESCAPED_LIST.fullmatch(value) else "text with an unescaped semicolon or backslash"


def is_date(value):
    """Whether eight digits are a civil date."""
    try:
        return bool(DATE.fullmatch(value)) and bool(dt.date(int(value[:4]), int(value[4:6]), int(value[6:])))
    except ValueError:
        return False


def is_clock(value):
    return int(value[:2]) < 24 and int(value[2:4]) < 60 and int(value[4:6]) <= 60


def is_moment(value, parameters):
    """DATE-TIME with a zone or in UTC, or DATE where VALUE says so; floating times have no place here."""
    if parameters.get("VALUE") == ["DATE"]:
        return None if is_date(value) and "TZID" not in parameters else "no date"
    if not DATE_TIME.fullmatch(value) or not is_date(value[:8]) or not is_clock(value[9:15]):
        return "no date and time"
    if value.endswith("Z") == ("TZID" in parameters):
        return "a moment has either a TZID or a Z"
    return None


def is_utc(value, parameters):
    return None if value.endswith("Z") and is_moment(value, parameters) is None else "no moment in UTC"


def is_local(value, parameters):
    """The DTSTART of a zone's observance: local, without TZID."""
    good = DATE_TIME.fullmatch(value) and not value.endswith("Z") and "TZID" not in parameters and is_date(value[:8])
    return None if good else "no local date and time"


def is_local_list(value, parameters):
    return next(filter(None, (is_local(v, parameters) for v in value.split(","))), None)


def is_duration(value, parameters):
    return None if DURATION.fullmatch(value) else "no duration"


def is_trigger(value, parameters):
    """A duration, related to start or end; or a moment in UTC where VALUE says so."""
    if parameters.get("VALUE") == ["DATE-TIME"]:
        return "RELATED at a moment" if "RELATED" in parameters else is_utc(value, parameters)
    if parameters.get("RELATED", ["START"])[0] not in ("START", "END"):
        return "RELATED is START or END"
    return is_duration(value, parameters)


def is_integer(value, parameters):
    return None if re.fullmatch(r"[+-]?\d{1,10}", value) and abs(int(value)) < 2 ** 31 else "no integer"


def is_offset(value, parameters):
    return None if OFFSET.fullmatch(value) and value not in ("-0000", "-000000") else "no offset from UTC"


def is_uri(value, parameters):
    return None if re.match(r"[A-Za-z][A-Za-z0-9+.-]*:", value) else "no URI"


def is_rule(value, parameters):
    """A recurrence rule: known parts, each once, FREQ among them, UNTIL and COUNT not both."""
    names = [part.partition("=")[0] for part in value.split(";")]
    if "FREQ" not in names or len(set(names)) != len(names) or not set(names) <= RULE_PARTS:
        return "no recurrence rule"
    return "UNTIL and COUNT" if {"UNTIL", "COUNT"} <= set(names) else None


def one_of(*words):
    def check(value, parameters):
        return None if value.upper() in words else f"none of {', '.join(words)}"
    return check


def anything(value, parameters):
    return None


TYPES = {
    "PRODID": is_text, "VERSION": one_of("2.0"), "CALSCALE": one_of("GREGORIAN"), "UID": is_text, "SUMMARY": is_text,
    "DESCRIPTION": is_text, "LOCATION": is_text, "COMMENT": is_text, "CONTACT": is_text, "CATEGORIES": is_text_list,
    "RESOURCES": is_text_list, "RELATED-TO": is_text, "TZID": is_text, "TZNAME": is_text, "DTSTAMP": is_utc, "CREATED": is_utc,
    "LAST-MODIFIED": is_utc, "COMPLETED": is_utc, "DTSTART": is_moment, "DTEND": is_moment, "DUE": is_moment,
    "RECURRENCE-ID": is_moment, "DURATION": is_duration, "TRIGGER": is_trigger, "SEQUENCE": is_integer,
    "PRIORITY": is_integer, "PERCENT-COMPLETE": is_integer, "REPEAT": is_integer, "TZOFFSETTO": is_offset,
    "TZOFFSETFROM": is_offset, "TZURL": is_uri, "URL": is_uri, "RRULE": is_rule, "TRANSP": one_of("OPAQUE", "TRANSPARENT"),
    "ACTION": one_of("AUDIO", "DISPLAY", "EMAIL"), "CLASS": one_of("PUBLIC", "PRIVATE", "CONFIDENTIAL"),
    "GEO": anything, "ORGANIZER": is_uri, "ATTENDEE": is_uri, "ATTACH": anything, "EXDATE": anything, "RDATE": anything,
    "REQUEST-STATUS": anything,
}
STATUS = {"VEVENT": one_of("TENTATIVE", "CONFIRMED", "CANCELLED"),
          "VTODO": one_of("NEEDS-ACTION", "COMPLETED", "IN-PROCESS", "CANCELLED")}


def wrong(component, prop):
    """What is wrong with a property's value inside a component, or None; extensions may say anything."""
    observance = component in ("STANDARD", "DAYLIGHT")
    if prop.name == "STATUS" and component in STATUS:
        return STATUS[component](prop.value, prop.parameters)
    if observance and prop.name == "DTSTART":
        return is_local(prop.value, prop.parameters)
    if observance and prop.name == "RDATE":
        return is_local_list(prop.value, prop.parameters)
    return TYPES.get(prop.name, anything)(prop.value, prop.parameters)
