"""Types for the fields of the contractor's files: text in, one exact value out, or one clear complaint.

Every scalar arrives as text. A bare number where a unit is needed is refused, never guessed.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Annotated, Any, ClassVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, model_validator
from pydantic_core import PydanticCustomError

from scopegen.quantities import written
from scopegen.quantities.units import LB_PER_TON, NotAQuantity, number, quantity, rate, shortened

LARGEST = {  # beyond these it is a slip of the hand: ft, ft2, yd3, lb, h, days
    "length": 100_000, "area": 10_000_000, "volume": 1_000_000, "weight": 1_000_000_000,
    "time": 10_000, "days": 3_660,
}  # fmt: skip
MOST_MONEY = Decimal(100_000_000)
YEARS = range(2000, 2101)  # other years are slips of the hand; days are counted from these


class Entry(BaseModel):
    """A part of a contractor's file: frozen, every key known, and none without a value but those in
    `MAY_BE_EMPTY`, where an empty value leaves a decision open."""

    MAY_BE_EMPTY: ClassVar[frozenset[str]] = frozenset()

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        populate_by_name=True,
        arbitrary_types_allowed=True,
        protected_namespaces=(),
    )

    @model_validator(mode="before")
    @classmethod
    def _refuse_empty(cls, data: Any) -> Any:
        for key in cls.empty_keys(data):
            raise empty(key)
        return data

    @classmethod
    def empty_keys(cls, data: Any) -> list[str]:
        """The keys that stand there without a value, and may not."""
        if not isinstance(data, dict):
            return []
        not_built = {name for name, info in cls.model_fields.items() if info.annotation is type(None)}
        said_elsewhere = cls.MAY_BE_EMPTY | not_built  # what is not built says so itself
        return [key for key, value in data.items() if value is None and key not in said_elsewhere]


def empty(key: str) -> PydanticCustomError:
    """The error for a key without a value."""
    return complaint(f"'{key}' has no value", f"give '{key}' a value, or take it out")


def complaint(message: str, fix: str, rule: str = "value") -> PydanticCustomError:
    """An error that carries what is wrong and what to do, both in plain words."""
    return PydanticCustomError("said", "{message}", {"message": message, "fix": fix, "rule": rule})


def not_yet(what: str, fix: str) -> PydanticCustomError:
    """The error for what the files can say but this version cannot work with."""
    return complaint(f"{what} is known, but this version cannot work with it yet", fix, "not-yet")


def _text(value: Any, what: str) -> str:
    if isinstance(value, str):
        return value
    if value is None:
        raise complaint("nothing is written here", f"write {what}, or take the key out")
    raise complaint(
        f"{'a list' if isinstance(value, list) else 'a group of keys'} stands where {what} belongs",
        f"write {what}",
    )


def _reads(parse: Callable[[str], Any], what: str, schema: dict[str, Any] | None = None) -> BeforeValidator:
    """Reads text by `parse`; an editor sees `schema`, or any number or text where none is given."""

    def read(value: Any) -> Any:
        if isinstance(value, (Fraction, Decimal, date, int, Amount)):
            return value
        try:
            return parse(_text(value, what))
        except NotAQuantity as error:
            raise complaint(str(error), error.fix) from None

    schema = schema or {**written.TEXT, "description": what}
    return BeforeValidator(read, json_schema_input_type=written.as_written(schema))


def _within(dimension: str, *, above_zero: bool) -> Callable[[str], Fraction]:
    def parse(text: str) -> Fraction:
        value = quantity(text, dimension)
        if above_zero and value == 0:
            raise NotAQuantity(f"'{text}' is zero", "write what was measured, or take the key out")
        if value > LARGEST[dimension]:
            raise NotAQuantity(f"'{shortened(text)}' is larger than any job", "check the number and its unit")
        return value

    return parse


def _rate(dimension: str, per: str) -> Callable[[str], Fraction]:
    def parse(text: str) -> Fraction:
        value = rate(text, dimension, per)
        if value == 0:
            raise NotAQuantity(f"'{text}' is zero", "write what was weighed or timed")
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
        raise NotAQuantity(f"'{text}' is not in the time of any job", "check the year")
    return found


def _money(text: str) -> Decimal:
    value = number(text.removeprefix("$").strip(), of="an amount of money", example="150.00")
    exact = Decimal(value.numerator) / Decimal(value.denominator)
    if value * 100 != int(value * 100):
        raise NotAQuantity(f"'{text}' has a part of a cent", "write dollars and cents, like 150.00")
    if exact > MOST_MONEY:
        raise NotAQuantity(f"'{text}' is larger than any job", "check the amount")
    return exact.quantize(Decimal("0.01"))


def _percent(text: str) -> Fraction:
    if not text.strip().endswith("%"):
        raise NotAQuantity(f"'{shortened(text)}' is not a percentage", "write it like 25 %")
    value = number(text.strip()[:-1], of="a percentage", example="25 %") / 100
    if value > 1:
        raise NotAQuantity(f"'{text}' is more than the whole", "write a percentage from 0 % to 100 %")
    return value


def _whole(text: str) -> int:
    value = number(text, of="a whole number", example="3")
    if value.denominator != 1:
        raise NotAQuantity(f"'{text}' is not a whole number", "write it like 3")
    if value == 0:
        raise NotAQuantity(f"'{text}' is zero", "write a number above zero")
    return int(value)


def _yes_no(text: str) -> bool:
    answer = {"yes": True, "true": True, "no": False, "false": False}.get(text.strip().lower())
    if answer is None:
        raise NotAQuantity(f"'{shortened(text)}' is neither yes nor no", "write yes or no")
    return answer


def _words(value: Any) -> str:
    text = " ".join(_text(value, "some words").split())
    if not text:
        raise complaint("nothing is written here", "write some words, or take the key out")
    return text


def _unsigned(text: str) -> Fraction:
    return number(text)


def _positive(text: str) -> Fraction:
    value = number(text)
    if value == 0:
        raise NotAQuantity(f"'{text}' is zero", "write a number above zero")
    return value


def _not_yet(value: Any) -> Any:
    raise not_yet("this key", "take it out, or say it in a note")


Length = Annotated[
    Fraction, _reads(_within("length", above_zero=True), "a length", written.measure("length"))
]
Width = Annotated[
    Fraction, _reads(_within("length", above_zero=False), "a length", written.measure("length"))
]
Area = Annotated[Fraction, _reads(_within("area", above_zero=True), "an area", written.measure("area"))]
Volume = Annotated[
    Fraction, _reads(_within("volume", above_zero=True), "a volume", written.measure("volume"))
]
Weight = Annotated[
    Fraction, _reads(_within("weight", above_zero=True), "a weight", written.measure("weight"))
]
Hours = Annotated[Fraction, _reads(_within("time", above_zero=False), "a time", written.measure("time"))]
Days = Annotated[
    Fraction, _reads(_within("days", above_zero=False), "a number of days", written.measure("days"))
]
Day = Annotated[date, _reads(day, "a day", written.DAY)]
Money = Annotated[Decimal, _reads(_money, "an amount of money", written.MONEY)]
Percent = Annotated[Fraction, _reads(_percent, "a percentage", written.PERCENT)]
Whole = Annotated[int, _reads(_whole, "a whole number", written.WHOLE)]
Number = Annotated[Fraction, _reads(_unsigned, "a number", written.NUMBER)]
AboveZero = Annotated[Fraction, _reads(_positive, "a number", written.ABOVE_ZERO)]
YesNo = Annotated[bool, _reads(_yes_no, "yes or no", written.YES_NO)]
Words = Annotated[str, BeforeValidator(_words, json_schema_input_type=written.as_written(written.TEXT))]
WeightPerVolume = Annotated[
    Fraction,
    _reads(
        _rate("weight", "volume"),
        "a weight for a volume, like 650 lb/yd3",
        written.rate("weight", "volume", "650 lb/yd3"),
    ),
]
VolumePerHour = Annotated[
    Fraction,
    _reads(_rate("volume", "time"), "a rate, like 0.8 yd3/h", written.rate("volume", "time", "0.8 yd3/h")),
]


def _share(text: str) -> Decimal | Fraction:
    if "%" in text:
        return _percent(text)
    if text.strip().isdigit():
        fix = f"write '{text.strip()} %' for a share, or '{text.strip()}.00' for dollars"
        raise NotAQuantity(f"'{text}' may be a share or an amount of money", fix)
    return _money(text)


# A percentage (Fraction of the whole) or an amount of money (Decimal).
Share = Annotated[Decimal | Fraction, _reads(_share, "a percentage or an amount of money", written.SHARE)]


@dataclass(frozen=True, slots=True)
class Amount:
    """So much of a material, in the unit that it is sold by: yd3 or ton (short ton)."""

    value: Fraction
    unit: str


def _amount(text: str) -> Amount:
    try:
        return Amount(_within("volume", above_zero=True)(text), "yd3")
    except NotAQuantity:
        try:
            return Amount(_within("weight", above_zero=True)(text) / LB_PER_TON, "ton")
        except NotAQuantity:
            raise NotAQuantity(
                f"'{shortened(text)}' is not an amount of material", "write it like 0.25 yd3 or 0.5 ton"
            ) from None


SoldAmount = Annotated[Amount, _reads(_amount, "an amount of material", written.AMOUNT)]
NotYet = Annotated[None, BeforeValidator(_not_yet)]
OneOrMany = written.ONE_OR_MANY
