"""Quantities as text, read into exact fractions of one base unit each.

Base units: mm, m2, litre, gram, degree Celsius, minute, share (0..1).
Factors: NIST Handbook 44 appendix C and NIST SP 811, exact.
"""
import re
from fractions import Fraction as F

INCH = F(254, 10)
LENGTH = {"mm": F(1), "cm": F(10), "m": F(1000), "um": F(1, 1000), "µm": F(1, 1000), "μm": F(1, 1000),
          "mil": INCH / 1000, "in": INCH, '"': INCH, "″": INCH, "ft": 12 * INCH, "'": 12 * INCH,
          "′": 12 * INCH, "yd": 36 * INCH, "yard": 36 * INCH}
AREA = {"m2": F(1), "m²": F(1), "cm2": F(1, 10**4), "cm²": F(1, 10**4), "mm2": F(1, 10**6), "mm²": F(1, 10**6),
        "ft2": F(9290304, 10**8), "ft²": F(9290304, 10**8), "sq ft": F(9290304, 10**8),
        "in2": F(64516, 10**8), "in²": F(64516, 10**8), "sq in": F(64516, 10**8)}
GALLON, IMPERIAL = F(3785411784, 10**9), F(454609, 10**5)
VOLUME = {"ml": F(1, 1000), "cl": F(1, 100), "dl": F(1, 10), "l": F(1), "L": F(1), "cm3": F(1, 1000),
          "gal": GALLON, "qt": GALLON / 4, "pt": GALLON / 8, "fl oz": GALLON / 128,
          "imp gal": IMPERIAL, "imp qt": IMPERIAL / 4, "imp pt": IMPERIAL / 8, "imp fl oz": IMPERIAL / 160}
POUND = F(45359237, 10**5)
MASS = {"g": F(1), "kg": F(1000), "mg": F(1, 1000), "lb": POUND, "oz": POUND / 16}
SPAN = {"min": 1, "h": 60, "d": 1440, "wk": 10080, "mo": 30 * 1440, "y": 365 * 1440}
VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8",
          "⅞": "7/8", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6"}
NUMBER = r"-?\d+(?:[ -]\d+/\d+|/\d+|\.\d+)?"


class BadQuantity(ValueError):
    """Text that is no quantity of the kind asked for."""


def plain(text):
    """The text with vulgar fractions spelt out and spaces made single."""
    for sign, spelt in VULGAR.items() if not text.isascii() else ():
        text = re.sub(r"(?<=\d)" + sign, " " + spelt, text).replace(sign, spelt)
    return re.sub(r"\s+", " ", text).strip()


def number(text):
    """One number in any of the contract's forms."""
    text = plain(str(text))
    if not re.fullmatch(NUMBER, text):
        raise BadQuantity(f"no number: {text!r}")
    parts = re.split(r"[ -](?=\d+/)", text) if "/" in text else [text]
    return sum((F(part) for part in parts), F(0))


def terms(text, units):
    """The (number, unit) pairs of a text such as `5 ft 2 3/8 in`; the unit is "" for a bare number."""
    names = "|".join(re.escape(u) for u in sorted(units, key=len, reverse=True))
    token = re.compile(rf"\s*({NUMBER})\s*({names})?(?![A-Za-z0-9/²³])")
    text, place, found = plain(text), 0, []
    while place < len(text):
        match = token.match(text, place)
        if not match:
            raise BadQuantity(f"cannot read {text!r}")
        found.append((number(match[1]), match[2] or ""))
        place = match.end()
    if not found:
        raise BadQuantity("empty quantity")
    return found


def summed(text, units):
    """A quantity of one or more terms, all with units."""
    pairs = terms(str(text), units)
    if any(unit == "" for _, unit in pairs):
        raise BadQuantity(f"no unit in {text!r}")
    return sum((n * units[u] for n, u in pairs), F(0))


def length(value, default="mm"):
    """mm; a bare number is in the job's units."""
    if isinstance(value, (int, float, F)):
        return F(value) * LENGTH[default]
    pairs = terms(value, LENGTH)
    if len(pairs) == 1 and pairs[0][1] == "":
        return pairs[0][0] * LENGTH[default]
    return summed(value, LENGTH)


def lengths(text, default="mm"):
    """Several lengths in one cell: separated by `;` or `,`, else each number with its unit is one."""
    if isinstance(text, (int, float, F)):
        return [length(text, default)]
    if re.search(r"[;,]", text):
        return [length(part, default) for part in re.split(r"[;,]", text) if part.strip()]
    return [n * LENGTH[u or default] for n, u in terms(text, LENGTH)]


def product(text, default="mm"):
    """`length x length`, as m2."""
    sides = re.split(r"[x×]", text)
    if len(sides) != 2:
        raise BadQuantity(f"no area: {text!r}")
    return length(sides[0], default) * length(sides[1], default) / 10**6


def area(text, default="mm"):
    """m2."""
    return product(text, default) if re.search(r"\d.*[x×].*\d", text) else summed(text, AREA)


def volume(text):
    """Litres."""
    return summed(text, VOLUME)


def mass(text):
    """Grams."""
    return summed(text, MASS)


def density(text):
    """Grams a litre."""
    amount, per = text.split("/")
    return mass(amount) / VOLUME[per.strip()]


def coverage(text, grams_per_litre=None):
    """m2 a litre; the density is needed where the text speaks of mass."""
    amount, per = (part.strip() for part in text.rsplit("/", 1))
    if per in VOLUME:
        return summed(amount, AREA) / VOLUME[per]
    if per in MASS:
        return summed(amount, AREA) / MASS[per] * grams_per_litre
    litres = volume(amount) if terms(amount, {**VOLUME, **MASS})[0][1] in VOLUME else mass(amount) / grams_per_litre
    return AREA[per] / litres


def temperature(text):
    """Degrees Celsius."""
    match = re.fullmatch(rf"({NUMBER})\s*°?\s*([CF])", plain(str(text)))
    if not match:
        raise BadQuantity(f"no temperature: {text!r}")
    value = number(match[1])
    return value if match[2] == "C" else (value - 32) * F(5, 9)


def share(text):
    """`50 %` as 1/2."""
    return number(str(text).rstrip().rstrip("%").strip()) / 100


def span(text):
    """Minutes."""
    return summed(text, SPAN)


def ratio(text):
    """The numbers of `4:1:0.5`."""
    return [number(part) for part in str(text).split(":")]
