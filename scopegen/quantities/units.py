"""Units by their spelling, and the parsing of what a person writes: `12 ft 6 in`, `0.8 yd3/h`.

Everything is an exact `Fraction` in one unit a dimension: feet, square feet, cubic yards, pounds,
hours. Factors: 1 ft = 0.3048 m and 1 lb = 0.45359237 kg exactly, 1 short ton = 2,000 lb
(NIST Handbook 44, Appendix C; NIST SP 811, Appendix B).
"""

from __future__ import annotations

import re
from fractions import Fraction

FT_PER_M = 1 / Fraction("0.3048")
LB_PER_KG = 1 / Fraction("0.45359237")
FT3_PER_YD3 = 27
LB_PER_TON = 2000
IN_PER_FT = 12

LENGTH = {
    **dict.fromkeys(("ft", "foot", "feet", "'"), Fraction(1)),
    **dict.fromkeys(("in", "inch", "inches", '"'), Fraction(1, IN_PER_FT)),
    **dict.fromkeys(("yd", "yard", "yards"), Fraction(3)),
    **dict.fromkeys(("m", "meter", "meters", "metre", "metres"), FT_PER_M),
    **dict.fromkeys(("cm", "centimeter", "centimeters", "centimetre", "centimetres"), FT_PER_M / 100),
    **dict.fromkeys(("mm", "millimeter", "millimeters", "millimetre", "millimetres"), FT_PER_M / 1000),
}
AREA = {
    **dict.fromkeys(("ft2", "sq ft", "sqft", "square foot", "square feet"), Fraction(1)),
    **dict.fromkeys(("yd2", "sq yd", "square yard", "square yards"), Fraction(9)),
    **dict.fromkeys(
        ("m2", "sq m", "square meter", "square meters", "square metre", "square metres"), FT_PER_M**2
    ),
}
VOLUME = {
    **dict.fromkeys(("yd3", "cu yd", "cubic yard", "cubic yards"), Fraction(1)),
    **dict.fromkeys(("ft3", "cu ft", "cubic foot", "cubic feet"), Fraction(1, FT3_PER_YD3)),
    **dict.fromkeys(
        ("m3", "cu m", "cubic meter", "cubic meters", "cubic metre", "cubic metres"),
        FT_PER_M**3 / FT3_PER_YD3,
    ),
    **dict.fromkeys(("l", "liter", "liters", "litre", "litres"), FT_PER_M**3 / FT3_PER_YD3 / 1000),
}
WEIGHT = {
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), Fraction(1)),
    **dict.fromkeys(("ton", "tons"), Fraction(LB_PER_TON)),
    **dict.fromkeys(("kg", "kilogram", "kilograms"), LB_PER_KG),
    **dict.fromkeys(("t", "tonne", "tonnes"), LB_PER_KG * 1000),
}
TIME = {
    **dict.fromkeys(("h", "hour", "hours"), Fraction(1)),
    **dict.fromkeys(("min", "minute", "minutes"), Fraction(1, 60)),
}
DAYS = {
    **dict.fromkeys(("day", "days"), Fraction(1)),
    **dict.fromkeys(("week", "weeks"), Fraction(7)),
}
# How much of ft, ft2, yd3 or short ton each unit is that things are sold and work is priced by.
UNIT_SIZE = {
    **dict.fromkeys(("ft", "ft2", "yd3", "ton", "worker-hour", "job"), Fraction(1)),
    "m": LENGTH["m"],
    "m2": AREA["m2"],
    "m3": VOLUME["m3"],
    "t": WEIGHT["t"] / LB_PER_TON,
}
DIMENSIONS = {"length": LENGTH, "area": AREA, "volume": VOLUME, "weight": WEIGHT, "time": TIME, "days": DAYS}
EXAMPLES = {
    "length": "12 ft 6 in, 12'6\", 1/2 in or 3.5 m",
    "area": "40 ft2 or 12 m2",
    "volume": "0.75 yd3 or 2 m3",
    "weight": "9000 lb, 2 ton or 900 kg",
    "time": "30 min or 1.5 h",
    "days": "21 days or 3 weeks",
}

MOST_DIGITS = 15  # longer numbers are slips of the hand, and cost time to compute with
_SIGNS = str.maketrans({"’": "'", "′": "'", "”": '"', "“": '"', "″": '"', "⁄": "/", "\u00a0": " "})
_FRACTIONS = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3",
    "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅙": "1/6", "⅚": "5/6",
}  # fmt: skip
# not \d: it takes the digits of every script
_NUMBER = r"(?:[0-9]+[ ]+[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_PIECE = re.compile(rf"\s*(?P<number>{_NUMBER})\s*(?P<unit>'|\"|[a-z]+(?:[ ]+[a-z]+)?[23]?)", re.I)


class NotAQuantity(ValueError):
    """What a person wrote is not a quantity; `fix` says how it is written."""

    def __init__(self, message: str, fix: str) -> None:
        super().__init__(message)
        self.fix = fix


def plain(text: str) -> str:
    """The text with one spelling for primes, exponents and fractions."""
    text = text.translate(_SIGNS).replace("''", '"')
    text = re.sub("(?<=[A-Za-z])[²³]", lambda sign: {"²": "2", "³": "3"}[sign[0]], text)
    for sign, spelled in _FRACTIONS.items():
        text = text.replace(sign, f" {spelled} ")
    return text.strip()


def number(text: str, *, of: str = "a number", example: str = "12.5 or 1 1/2", within: str = "") -> Fraction:
    """An unsigned number: `12`, `12.5`, `.5`, `1/2`, `1 1/2`, `½`. A message quotes what it
    stands `within`, such as a number with its unit.

    Raises NotAQuantity for a sign, a comma, an exponent, a zero denominator or too many digits.
    """
    cleaned, said = plain(text), shortened((within or text).strip())
    refuse_signs((within or text).strip(), cleaned, example)
    if not re.fullmatch(_NUMBER, cleaned):
        raise NotAQuantity(f"'{said}' is not {of}", f"write it like {example}")
    if sum(sign.isdigit() for sign in cleaned) > MOST_DIGITS:
        raise NotAQuantity(
            f"'{said}' has more than {MOST_DIGITS} digits", f"round it, and write it like {example}"
        )
    whole, _, fraction = cleaned.rpartition(" ")
    if "/" in fraction and int(fraction.split("/")[1]) == 0:
        raise NotAQuantity(f"'{said}' divides by zero", f"write it like {example}")
    return (Fraction(whole.strip()) if whole.strip() else Fraction(0)) + Fraction(fraction)


def refuse_signs(text: str, cleaned: str, example: str) -> None:
    """Raises NotAQuantity for what people write in numbers that could be read two ways."""
    if "," in cleaned:
        raise NotAQuantity(
            f"'{shortened(text)}' has a comma, which could be read two ways",
            f"write it without a comma, like {example}",
        )
    if cleaned[:1] in "+-−" and cleaned:
        raise NotAQuantity(f"'{shortened(text)}' has a sign", f"write it without a sign, like {example}")


def quantity(text: str, dimension: str) -> Fraction:
    """A quantity with its unit, in the dimension's own unit (ft, ft2, yd3, lb, h, days).

    Lengths may have two pieces, feet then inches. Raises NotAQuantity.
    """
    units, example = DIMENSIONS[dimension], EXAMPLES[dimension]
    cleaned = plain(text)
    refuse_signs(text, cleaned, example)
    if re.fullmatch(_NUMBER, cleaned):
        raise NotAQuantity(f"'{shortened(text)}' has no unit", f"write the unit too, like {example}")
    pieces, position = [], 0
    while position < len(cleaned):
        found = _PIECE.match(cleaned, position)
        unit = _known_unit(found["unit"], units) if found else None
        if found is None or unit is None:
            raise NotAQuantity(f"'{shortened(text)}' is not {_a(dimension)}", f"write it like {example}")
        pieces.append((number(found["number"], example=example, within=text), units[unit]))
        position = found.end()
    if not pieces or len(pieces) > 1 and not _falling(pieces, dimension):
        raise NotAQuantity(f"'{shortened(text)}' is not {_a(dimension)}", f"write it like {example}")
    return sum((count * factor for count, factor in pieces), Fraction(0))


def rate(text: str, dimension: str, per: str) -> Fraction:
    """A quantity of one dimension for one unit of another: `650 lb/yd3`, `90 ft/h`. Raises NotAQuantity."""
    example = {"weight": "650 lb/yd3", "volume": "0.8 yd3/h", "length": "90 ft/h", "area": "300 ft2/h"}.get(
        dimension, ""
    )
    upper, slash, lower = plain(text).rpartition("/")
    unit = _known_unit(lower.strip(), DIMENSIONS[per])
    if not slash or unit is None or upper.strip().isdigit():
        raise NotAQuantity(f"'{shortened(text)}' is not a rate", f"write it like {example}")
    return quantity(upper, dimension) / DIMENSIONS[per][unit]


def shortened(text: str, most: int = 40) -> str:
    """The text, cut where it is too long for a message."""
    return text if len(text) <= most else text[: most - 1] + "…"


def _known_unit(unit: str, units: dict[str, Fraction]) -> str | None:
    folded = re.sub(r"\s+", " ", unit.strip().lower())
    return folded if folded in units else None


def _falling(pieces: list[tuple[Fraction, Fraction]], dimension: str) -> bool:
    """Feet then inches, and fewer inches than make a foot: `12 ft 6 in`, but not `6 in 12 ft`."""
    (_, first), *rest = pieces
    return (
        dimension == "length"
        and len(rest) == 1
        and first == 1
        and rest[0][1] == Fraction(1, 12)
        and rest[0][0] < IN_PER_FT
    )


def _a(dimension: str) -> str:
    return {"area": "an area", "time": "a time", "days": "a number of days"}.get(dimension, f"a {dimension}")
