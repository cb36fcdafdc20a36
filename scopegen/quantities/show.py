"""Quantities as they are printed. Each prints the same rounded figure wherever it stands."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from scopegen.quantities.rounding import half_up
from scopegen.quantities.units import FT3_PER_YD3, FT_PER_M, IN_PER_FT, LB_PER_KG, LB_PER_TON

_SIGNS = {"ft2": "ft²", "yd3": "yd³", "m2": "m²", "m3": "m³", "ft3": "ft³"}
_EIGHTHS = {0: "", 1: "⅛", 2: "¼", 3: "⅜", 4: "½", 5: "⅝", 6: "¾", 7: "⅞"}


def decimal(value: Fraction, places: int = 4) -> str:
    """A plain decimal string, half up, without trailing zeros: the form of quantities in JSON."""
    rounded = half_up(abs(value), Fraction(1, 10**places))
    text = f"{Decimal(int(rounded * 10**places)).scaleb(-places):f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return f"-{text}" if value < 0 and rounded else text


def grouped(value: Fraction, places: int) -> str:
    """A decimal with thousands grouped: 1,234.5."""
    text = decimal(value, places)
    whole, dot, rest = text.partition(".")
    return f"{int(whole):,}{dot}{rest}"


def fixed(value: Fraction, places: int) -> str:
    """A decimal with thousands grouped and all its places: 1,234.50."""
    rounded = half_up(value, Fraction(1, 10**places))
    return f"{Decimal(int(rounded * 10**places)).scaleb(-places):,.{places}f}"


def unit_sign(unit: str) -> str:
    """A unit as printed: ft², yd³."""
    return _SIGNS.get(unit, unit)


def measure(value: Fraction, unit: str, places: int = 2) -> str:
    """A quantity with its unit: `6.25 yd³`."""
    return f"{grouped(value, places)} {unit_sign(unit)}"


def length(feet: Fraction, units: str = "us") -> str:
    """A length to the inch, or the centimetre: `32 ft`, `4 ft 6 in`, `9.75 m`."""
    if units == "metric":
        return f"{grouped(feet / FT_PER_M, 2)} m"
    inches = int(half_up(feet * IN_PER_FT, Fraction(1)))
    whole, rest = divmod(inches, IN_PER_FT)
    return f"{whole:,} ft" + (f" {rest} in" if rest else "") if whole else f"{rest} in"


def run(feet: Fraction, units: str = "us") -> str:
    """A run of edge, as it is priced: to a tenth of a foot: `52.5 ft`."""
    return f"{grouped(feet / FT_PER_M, 1)} m" if units == "metric" else f"{grouped(feet, 1)} ft"


def depth(feet: Fraction, units: str = "us") -> str:
    """A depth to the eighth of an inch, or the millimetre: `2 in`, `2½ in`, `50 mm`."""
    if units == "metric":
        return f"{grouped(feet / FT_PER_M * 1000, 0)} mm"
    whole, eighths = divmod(int(half_up(feet * IN_PER_FT * 8, Fraction(1))), 8)
    return f"{whole if whole or not eighths else ''}{_EIGHTHS[eighths]} in"


def area(ft2: Fraction, units: str = "us", *, column: bool = False) -> str:
    """An area to a tenth: `144 ft²`, `13.4 m²`; in a column of figures with the tenth always printed."""
    if column:
        return f"{fixed(ft2 / FT_PER_M**2, 1)} m²" if units == "metric" else f"{fixed(ft2, 1)} ft²"
    return measure(ft2 / FT_PER_M**2, "m2", 1) if units == "metric" else measure(ft2, "ft2", 1)


def volume(yd3: Fraction, units: str = "us") -> str:
    """A volume to a hundredth, both places printed: `0.70 yd³`."""
    if units == "metric":
        return f"{fixed(yd3 * FT3_PER_YD3 / FT_PER_M**3, 2)} m³"
    return f"{fixed(yd3, 2)} yd³"


def weight(lb: Fraction, units: str = "us") -> str:
    """A weight to the pound below a short ton, in short tons from there on; or to the kilogram."""
    if units == "metric":
        return f"{grouped(lb / LB_PER_KG, 0)} kg"
    return f"{grouped(lb, 0)} lb" if lb < LB_PER_TON else f"{grouped(lb / LB_PER_TON, 2)} ton"


def percent(share: Fraction) -> str:
    """A share as a percentage: `6.25 %`."""
    return f"{decimal(share * 100, 3)} %"


def tape(feet: Fraction | float, units: str = "us") -> str:
    """A length as it is read off a tape: `4 ft 6½ in`, `3.25 m`. What no tape read, worked out or told
    in other units, is printed as a run."""
    if isinstance(feet, float) or units != "metric" and (feet * IN_PER_FT * 8).denominator != 1:
        return run(Fraction(feet), units)
    if units == "metric":
        return f"{grouped(Fraction(feet) / FT_PER_M, 2)} m"
    inches, eighths = divmod(int(half_up(Fraction(feet) * IN_PER_FT * 8, Fraction(1))), 8)
    whole, rest = divmod(inches, IN_PER_FT)
    part = f"{rest if rest or not eighths else ''}{_EIGHTHS[eighths]} in" if rest or eighths else ""
    return " ".join(filter(None, (f"{whole:,} ft" if whole or not part else "", part)))
