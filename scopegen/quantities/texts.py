"""From the text of one value to what it says, exact: a day, an amount, a share. Raises NotAQuantity."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction

from scopegen.quantities.units import (
    LB_PER_TON,
    UNIT_SIZE,
    NotAQuantity,
    number,
    quantity,
    rate,
    shortened,
)

LARGEST = {  # beyond these it is a slip of the hand: ft, ft2, yd3, lb, h, days
    "length": 100_000, "area": 10_000_000, "volume": 1_000_000, "weight": 1_000_000_000,
    "time": 10_000, "days": 3_660,
}  # fmt: skip
MOST_MONEY = Decimal(100_000_000)
YEARS = range(2000, 2101)  # other years are slips of the hand; days are counted from these


def within(dimension: str, *, above_zero: bool) -> Callable[[str], Fraction]:
    """Reads a quantity of a dimension that a job can have."""

    def parse(text: str) -> Fraction:
        value = quantity(text, dimension)
        if above_zero and value == 0:
            raise NotAQuantity(f"'{shortened(text)}' is zero", "write what was measured, or take the key out")
        if value > LARGEST[dimension]:
            raise NotAQuantity(f"'{shortened(text)}' is larger than any job", "check the number and its unit")
        return value

    return parse


def rate_of(dimension: str, per: str) -> Callable[[str], Fraction]:
    """Reads a quantity of one dimension for a unit of another, above zero."""

    def parse(text: str) -> Fraction:
        value = rate(text, dimension, per)
        if value == 0:
            raise NotAQuantity(f"'{shortened(text)}' is zero", "write what was weighed or timed")
        return value

    return parse


def day(text: str) -> date:
    """A day written year-month-day, within the years of any job. Raises NotAQuantity."""
    try:
        found = date.fromisoformat(text) if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text) else None
    except ValueError:
        found = None
    if found is None:
        raise NotAQuantity(
            f"'{shortened(text)}' is not a day of the calendar", "write year-month-day, like 2027-03-19"
        )
    if found.year not in YEARS:
        raise NotAQuantity(f"'{shortened(text)}' is not in the time of any job", "check the year")
    return found


def money(text: str) -> Decimal:
    """Dollars and cents, exact: `150.00`, `$150`."""
    value = number(text.removeprefix("$").strip(), of="an amount of money", example="150.00", within=text)
    exact = Decimal(value.numerator) / Decimal(value.denominator)
    if value * 100 != int(value * 100):
        raise NotAQuantity(
            f"'{shortened(text)}' has a part of a cent", "write dollars and cents, like 150.00"
        )
    if exact > MOST_MONEY:
        raise NotAQuantity(f"'{shortened(text)}' is larger than any job", "check the amount")
    return exact.quantize(Decimal("0.01"))


def percent(text: str) -> Fraction:
    """A share from 0 to 1: `25 %`."""
    if not text.strip().endswith("%"):
        raise NotAQuantity(f"'{shortened(text)}' is not a percentage", "write it like 25 %")
    value = number(text.strip()[:-1], of="a percentage", example="25 %", within=text) / 100
    if value > 1:
        raise NotAQuantity(
            f"'{shortened(text)}' is more than the whole", "write a percentage from 0 % to 100 %"
        )
    return value


def whole(text: str) -> int:
    """A whole number above zero."""
    value = number(text, of="a whole number", example="3")
    if value.denominator != 1:
        raise NotAQuantity(f"'{shortened(text)}' is not a whole number", "write it like 3")
    if value == 0:
        raise NotAQuantity(f"'{shortened(text)}' is zero", "write a number above zero")
    return int(value)


def yes_no(text: str) -> bool:
    """Yes or no, also as true or false."""
    answer = {"yes": True, "true": True, "no": False, "false": False}.get(text.strip().lower())
    if answer is None:
        raise NotAQuantity(f"'{shortened(text)}' is neither yes nor no", "write yes or no")
    return answer


def unsigned(text: str) -> Fraction:
    """A number without a sign."""
    return number(text)


def above_zero(text: str) -> Fraction:
    """A number above zero."""
    value = number(text)
    if value == 0:
        raise NotAQuantity(f"'{shortened(text)}' is zero", "write a number above zero")
    return value


def degrees(text: str) -> Fraction:
    """Degrees of longitude or latitude, west and south below zero: `-71.0587`."""
    cleaned = text.strip()
    below = cleaned[:1] in ("-", "−")
    value = number(cleaned[1:] if below else cleaned, of="degrees", example="-71.0587", within=text)
    return -value if below else value


def angle(text: str) -> Fraction:
    """A turn counterclockwise in degrees: `30 degrees`, `30°`."""
    cleaned = re.sub(r"\s*(°|deg|degrees?)$", "", text.strip().lower())
    value = number(cleaned, of="an angle", example="30 degrees", within=text)
    if cleaned == text.strip().lower():
        raise NotAQuantity(f"'{shortened(text)}' has no unit", "write it like 30 degrees")
    if value >= 360:
        raise NotAQuantity(f"'{shortened(text)}' is more than a whole turn", "write less than 360 degrees")
    return value


def currency(text: str) -> str:
    """A currency by its letters, as ISO 4217 has them; only those that people pay with today, and that have
    hundredths. The code list has metals, units of account and a code for tests too; which of them is legal
    tender somewhere is told by CLDR."""
    from babel import Locale
    from babel.core import get_global
    from babel.numbers import get_currency_precision

    code = text.strip()
    if code not in Locale("en").currencies:
        raise NotAQuantity(
            f"'{shortened(text)}' is not a currency", "write its three letters, like USD, CAD or EUR"
        )
    tender = {
        known
        for used in get_global("territory_currencies").values()
        for known, _, end, by in used
        if by and not end
    }
    if code not in tender:
        raise NotAQuantity(
            f"nobody pays with '{shortened(code)}' today",
            "write the letters of the money that you are paid in, like USD, CAD or EUR",
        )
    if get_currency_precision(code) != 2:
        raise NotAQuantity(
            f"'{shortened(code)}' has no hundredths, and prices here are reckoned in hundredths",
            "write a currency that has hundredths, like USD, CAD or EUR",
        )
    return code


def share(text: str) -> Decimal | Fraction:
    """A percentage as Fraction of the whole, or an amount of money as Decimal."""
    if "%" in text:
        return percent(text)
    amount, said = money(text), shortened(text.strip())
    if not re.search(r"\.[0-9][0-9]$", text.strip()):
        fix = f"write '{said.removeprefix('$')} %' for a share, or '{amount}' for money"
        raise NotAQuantity(f"'{said}' may be a share or an amount of money", fix)
    return amount


@dataclass(frozen=True, slots=True)
class Amount:
    """So much of a material: `value` in yd3 where it was said by volume, in short tons by weight."""

    value: Fraction
    unit: str  # yd3 or ton

    def of(self, unit: str) -> Fraction:
        """The amount in the unit that the material is sold by: yd3, m3, ton or t."""
        return self.value / UNIT_SIZE[unit]


def amount(text: str) -> Amount:
    """So much of a material, by volume or by weight."""
    try:
        return Amount(within("volume", above_zero=True)(text), "yd3")
    except NotAQuantity:
        try:
            return Amount(within("weight", above_zero=True)(text) / LB_PER_TON, "ton")
        except NotAQuantity:
            raise NotAQuantity(
                f"'{shortened(text)}' is not an amount of material", "write it like 0.25 yd3 or 0.5 ton"
            ) from None
