"""How the values of the contractor's files are written, as JSON Schema for an editor.

A schema takes whatever the reader takes, and refuses what it can: a missing unit, a unit of another kind.
What needs reckoning (zero, a day that the calendar does not have) is left to `scopegen check`. A number
stands where an editor's YAML parser gives one, as for `280.00`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, WithJsonSchema
from pydantic_core import CoreSchema
from pydantic_core.core_schema import no_info_before_validator_function

from scopegen.quantities.units import DIMENSIONS, EXAMPLES

Schema = dict[str, Any]

_VULGAR = "½¼¾⅓⅔⅛⅜⅝⅞⅙⅚"
_GAP = r"\s*"
NUMERAL = "(?:{})".format(
    "|".join(
        (
            r"[0-9]+\s+[0-9]+[/⁄][0-9]+",
            r"[0-9]+[/⁄][0-9]+",
            rf"[0-9]*\s*[{_VULGAR}]",
            r"[0-9]+(?:\.[0-9]+)?",
            r"\.[0-9]+",
        )
    )
)
_SPELLED = {"'": "['’′]", '"': "(?:[\"”“″]|'')", "2": "[2²]", "3": "[3³]", " ": r"\s+"}


def any_case(word: str) -> str:
    """A pattern for a word in capitals or small letters, with one gap for a space."""
    return "".join(
        _SPELLED.get(sign) or (f"[{sign.lower()}{sign.upper()}]" if sign.isalpha() else re.escape(sign))
        for sign in word
    )


def one_of(words: Iterable[str]) -> str:
    """A pattern for any of some words, the longest first."""
    return f"(?:{'|'.join(any_case(word) for word in sorted(words, key=lambda word: (-len(word), word)))})"


def text(pattern: str, description: str, *examples: str) -> Schema:
    """A text that fits a pattern as a whole, with gaps around it."""
    return {
        "type": "string",
        "pattern": f"^{_GAP}{pattern}{_GAP}$",
        "description": description,
        "examples": list(examples),
    }


def measure(dimension: str) -> Schema:
    """A quantity with its unit; a length may be feet and inches."""
    units = one_of(DIMENSIONS[dimension])
    inches = one_of(unit for unit, factor in DIMENSIONS[dimension].items() if factor * 12 == 1)
    more = f"(?:{_GAP}{NUMERAL}{_GAP}{inches})?" if dimension == "length" else ""
    said = EXAMPLES[dimension]
    return text(f"{NUMERAL}{_GAP}{units}{more}", f"with its unit: {said}", *re.split(", | or ", said))


def rate(dimension: str, per: str, *examples: str) -> Schema:
    """A quantity of one dimension for one unit of another."""
    units, lower = one_of(DIMENSIONS[dimension]), one_of(DIMENSIONS[per])
    return text(
        f"{NUMERAL}{_GAP}{units}{_GAP}/{_GAP}{lower}", f"with both units: {' or '.join(examples)}", *examples
    )


def number(least: int | None, above: int | None, description: str, *examples: Any) -> Schema:
    """An unsigned number, or a text that spells one: `12.5`, `1 1/2`."""
    limit: Schema = {"minimum": least} if least is not None else {"exclusiveMinimum": above}
    spelled = text(NUMERAL, description)
    return {
        "anyOf": [{"type": "number", **limit}, {"type": "string", "pattern": spelled["pattern"]}],
        "description": description,
        "examples": list(examples),
    }


def as_written(schema: dict[str, Any]) -> Any:
    """A type that only says, as JSON Schema, how a value is written; for `json_schema_input_type`."""
    return Annotated[Any, WithJsonSchema(schema)]


class _OneOrMany:
    """On a list: one entry alone stands for a list of it."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return no_info_before_validator_function(
            lambda value: value if isinstance(value, (list, tuple)) else [value], handler(source)
        )

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        many = handler(core)
        return {"anyOf": [many["items"], many]}


class _OneKey:
    """On a group of keys: exactly one of them stands there. The reader asks for that itself."""

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {**handler(core), "minProperties": 1, "maxProperties": 1}


ONE_OR_MANY = _OneOrMany()
ONE_KEY = _OneKey()
TEXT: Schema = {"type": ["string", "number", "boolean"]}
BY_LANGUAGE: Schema = {
    "anyOf": [
        TEXT,
        {
            "type": "object",
            "minProperties": 1,
            "propertyNames": {"pattern": "^[a-z]{2,3}$"},
            "additionalProperties": TEXT,
            "examples": [{"en": "Weed by hand", "es": "Deshierbe a mano"}],
        },
    ]
}
MONEY: Schema = {
    "anyOf": [
        {"type": "number", "minimum": 0},
        {"type": "string", "pattern": f"^{_GAP}\\$?{_GAP}{NUMERAL}{_GAP}$"},
    ],
    "description": "an amount of money: 150.00",
    "examples": [150.00],
}
PERCENT = text(f"{NUMERAL}{_GAP}%", "a percentage: 25 %", "25 %")
SHARE: Schema = {
    "anyOf": [PERCENT, MONEY],
    "description": "a percentage, or an amount of money with its cents: 25 % or 300.00",
}
WHOLE: Schema = {
    "anyOf": [{"type": "integer", "minimum": 1}, {"type": "string", "pattern": f"^{_GAP}{NUMERAL}{_GAP}$"}],
    "description": "a whole number: 3",
    "examples": [3],
}
NUMBER = number(0, None, "a number: 12.5 or 1 1/2", 12.5, "1 1/2")
ABOVE_ZERO = number(None, 0, "a number above zero: 12.5 or 1 1/2", 12.5, "1 1/2")
STATE = text("[A-Z]{2}", "a state by its two postal letters: PA", "PA")
YES_NO: Schema = {
    "anyOf": [
        {"enum": ["yes", "no"]},
        {"type": "boolean"},
        {"type": "string", "pattern": f"^{_GAP}{one_of(('yes', 'no', 'true', 'false'))}{_GAP}$"},
    ],
    "description": "yes or no",
}
DATE = "[0-9]{4}-[0-9]{2}-[0-9]{2}"
DAY = text(DATE, "a day, year-month-day: 2027-03-19", "2027-03-19")
AMOUNT: Schema = {
    "anyOf": [measure("volume"), measure("weight")],
    "description": "an amount of material with its unit: 0.25 yd3 or 0.5 ton",
    "examples": ["0.25 yd3", "0.5 ton"],
}
DEGREES: Schema = {
    "anyOf": [
        {"type": "number"},
        {"type": "string", "pattern": f"^{_GAP}[-−]?{_GAP}{NUMERAL}{_GAP}$"},
    ],
    "description": "degrees, west and south below zero: -71.0587",
    "examples": [-71.0587],
}
ANGLE = text(
    f"{NUMERAL}{_GAP}(?:°|{one_of(('deg', 'degree', 'degrees'))})",
    "a turn counterclockwise: 30 degrees",
    "30 degrees",
)
CURRENCY = text("[A-Z]{3}", "three letters of ISO 4217: USD", "USD", "CAD", "EUR")
REST: Schema = {"const": "rest", "description": "whatever is left"}
