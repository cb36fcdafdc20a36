"""Types for the fields of the contractor's files: text in, one exact value out, or one clear complaint.

Every scalar arrives as text. A bare number where a unit is needed is refused, never guessed.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Annotated, Any, ClassVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, model_validator
from pydantic_core import PydanticCustomError

from scopegen.quantities import texts, written
from scopegen.quantities.texts import Amount
from scopegen.quantities.units import NotAQuantity, shortened

MOST_BEDS, MOST_POINTS, MOST_ENTRIES = 1_000, 200, 100  # more are slips, and cost minutes of layout


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
        return [key for key, value in data.items() if value is None and key not in cls.MAY_BE_EMPTY]


def empty(key: str) -> PydanticCustomError:
    """The error for a key without a value."""
    return complaint(f"'{key}' has no value", f"give '{key}' a value, or take it out")


def complaint(message: str, fix: str, rule: str = "value") -> PydanticCustomError:
    """An error that carries what is wrong and what to do, both in plain words."""
    return PydanticCustomError("said", "{message}", {"message": message, "fix": fix, "rule": rule})


def too_many(count: int, most: int, what: str) -> tuple[str, str]:
    """What is wrong with a list of so many, and what to do."""
    return (
        f"there are {count:,} {what} here, and no more than {most} are read",
        "split them over several jobs",
    )


def at_most(most: int, what: str) -> BeforeValidator:
    """On a list: no more entries than any job has."""

    def counted(value: Any) -> Any:
        if isinstance(value, (list, tuple)) and len(value) > most:
            raise complaint(*too_many(len(value), most, what), rule="too-many-entries")
        return value

    return BeforeValidator(counted)


def _text(value: Any, what: str) -> str:
    if isinstance(value, str):
        return value
    if value is None:
        raise complaint("nothing is written here", f"write {what}, or take the key out")
    raise complaint(f"{kind_of(value)} stands where {what} belongs", f"write {what}")


def kind_of(value: Any) -> str:
    """What stands there in place of text."""
    return "a list" if isinstance(value, (list, tuple)) else "a group of keys"


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


def one_line(value: Any) -> str:
    """A text on one line, none of it empty, or a complaint."""
    text = " ".join(_text(value, "one line of text").split())
    if not text:
        raise complaint("nothing is written here", "write some words, or take the key out")
    return text


def _measure(dimension: str, what: str, *, above_zero: bool) -> BeforeValidator:
    return _reads(texts.within(dimension, above_zero=above_zero), what, written.measure(dimension))


Length = Annotated[Fraction, _measure("length", "a length", above_zero=True)]
Width = Annotated[Fraction, _measure("length", "a length", above_zero=False)]
Area = Annotated[Fraction, _measure("area", "an area", above_zero=True)]
Volume = Annotated[Fraction, _measure("volume", "a volume", above_zero=True)]
Weight = Annotated[Fraction, _measure("weight", "a weight", above_zero=True)]
Hours = Annotated[Fraction, _measure("time", "a time", above_zero=False)]
Days = Annotated[Fraction, _measure("days", "a number of days", above_zero=False)]
Day = Annotated[date, _reads(texts.day, "a day", written.DAY)]
Money = Annotated[Decimal, _reads(texts.money, "an amount of money", written.MONEY)]
Percent = Annotated[Fraction, _reads(texts.percent, "a percentage", written.PERCENT)]
Whole = Annotated[int, _reads(texts.whole, "a whole number", written.WHOLE)]
Number = Annotated[Fraction, _reads(texts.unsigned, "a number", written.NUMBER)]
AboveZero = Annotated[Fraction, _reads(texts.above_zero, "a number", written.ABOVE_ZERO)]
YesNo = Annotated[bool, _reads(texts.yes_no, "yes or no", written.YES_NO)]
Words = Annotated[str, BeforeValidator(one_line, json_schema_input_type=written.as_written(written.TEXT))]
WeightPerVolume = Annotated[
    Fraction,
    _reads(
        texts.rate_of("weight", "volume"),
        "a weight for a volume, like 650 lb/yd3",
        written.rate("weight", "volume", "650 lb/yd3"),
    ),
]
VolumePerHour = Annotated[
    Fraction,
    _reads(
        texts.rate_of("volume", "time"),
        "a rate, like 0.8 yd3/h",
        written.rate("volume", "time", "0.8 yd3/h"),
    ),
]
Degrees = Annotated[Fraction, _reads(texts.degrees, "degrees, like -71.0587", written.DEGREES)]
Angle = Annotated[Fraction, _reads(texts.angle, "an angle, like 30 degrees", written.ANGLE)]
Currency = Annotated[str, _reads(texts.currency, "a currency", written.CURRENCY)]
# A percentage (Fraction of the whole) or an amount of money (Decimal).
Share = Annotated[
    Decimal | Fraction, _reads(texts.share, "a percentage or an amount of money", written.SHARE)
]
SoldAmount = Annotated[Amount, _reads(texts.amount, "an amount of material", written.AMOUNT)]
OneOrMany = written.ONE_OR_MANY


def _state(value: Any) -> Any:
    if isinstance(value, str) and re.fullmatch(r"[A-Z]{2}", value.strip()):
        return value.strip()
    stands = (
        f"'{shortened(value)}' is not a state" if isinstance(value, str) else f"{kind_of(value)} is no state"
    )
    raise complaint(stands, "write its two postal letters in capitals, like PA")


State = Annotated[str, BeforeValidator(_state, json_schema_input_type=written.as_written(written.STATE))]
Points = at_most(MOST_POINTS, "points")
Few = at_most(MOST_ENTRIES, "entries")
