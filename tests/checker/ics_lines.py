"""Content lines and components of an iCalendar stream (RFC 5545, sections 3.1 to 3.4), read strictly.

`complain` is called with (physical line number, text) for everything that the grammar forbids.
"""
import re
from dataclasses import dataclass, field

OCTETS = 75
NAME = re.compile(r"[A-Za-z0-9-]+")
PARAMETER = re.compile(r';([A-Za-z0-9-]+)=((?:"[^"\x00-\x08\x0a-\x1f\x7f]*"|[^";:,\x00-\x08\x0a-\x1f\x7f]*)'
                       r'(?:,(?:"[^"\x00-\x08\x0a-\x1f\x7f]*"|[^";:,\x00-\x08\x0a-\x1f\x7f]*))*)')
CONTROL = re.compile(r"[\x00-\x08\x0a-\x1f\x7f]")


@dataclass
class Property:
    name: str
    parameters: dict
    value: str
    line: int


@dataclass
class Component:
    name: str
    line: int
    properties: list = field(default_factory=list)
    children: list = field(default_factory=list)

    def all(self, name):
        return [p for p in self.properties if p.name == name]

    def one(self, name):
        return next(iter(self.all(name)), None)


def physical_lines(data, complain):
    """Lines without their CRLF; every other line end, a missing last one and long lines are complained of."""
    if not data.endswith(b"\r\n"):
        complain(data.count(b"\n") + 1, "the last line does not end in CRLF")
    lines = data.split(b"\r\n")
    for number, line in enumerate(lines[:-1], 1):
        if b"\n" in line or b"\r" in line:
            complain(number, "a line end that is not CRLF")
        if len(line) > OCTETS:
            complain(number, f"{len(line)} octets in a line")
    return lines[:-1] if lines[-1] == b"" else lines


def logical_lines(data, complain):
    """(number of the first physical line, text) with folding undone; no fold may fall inside a character."""
    found = []
    for number, line in enumerate(physical_lines(data, complain), 1):
        try:
            text = line.decode("utf-8")
        except UnicodeDecodeError:
            complain(number, "not UTF-8, or a character that is cut by folding")
            text = line.decode("utf-8", "replace")
        if text[:1] in (" ", "\t") and found:
            found[-1] = (found[-1][0], found[-1][1] + text[1:])
        elif text == "":
            complain(number, "an empty line")
        else:
            found.append((number, text))
    return found


def read_property(number, text, complain):
    """One content line as a property; None where it is none."""
    name = NAME.match(text)
    place = name.end() if name else 0
    parameters = {}
    while name and (match := PARAMETER.match(text, place)):
        key, place = match[1].upper(), match.end()
        if key in parameters:
            complain(number, f"parameter {key} twice")
        parameters[key] = [v.strip('"') for v in re.findall(r'"[^"]*"|[^,]+', match[2])]
    if not name or place >= len(text) or text[place] != ":":
        complain(number, f"no content line: {text[:40]!r}")
        return None
    if CONTROL.search(text):
        complain(number, "a control character")
    return Property(name[0].upper(), parameters, text[place + 1:], number)


def read(data, complain):
    """The components of a stream, outermost first."""
    roots, stack = [], []
    for number, text in logical_lines(data, complain):
        prop = read_property(number, text, complain)
        if prop is None:
            continue
        if prop.name == "BEGIN":
            component = Component(prop.value.upper(), number)
            (stack[-1].children if stack else roots).append(component)
            stack.append(component)
        elif prop.name == "END":
            if not stack or stack[-1].name != prop.value.upper():
                complain(number, f"END:{prop.value} closes nothing")
            else:
                stack.pop()
        elif stack:
            stack[-1].properties.append(prop)
        else:
            complain(number, f"{prop.name} outside a component")
    for component in stack:
        complain(component.line, f"{component.name} is not closed")
    return roots
