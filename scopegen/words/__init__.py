"""The words on papers, by language, and how that language writes lists, days and money."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from functools import cache
from importlib.resources import files
from typing import Any

from scopegen.load import parse


@dataclass(frozen=True)
class Lexicon:
    """One language's words. Texts hold blanks in braces: `say("page_of", page=1)`."""

    language: str
    texts: dict[str, Any]
    currency: str = "USD"

    def say(self, key: str, /, **values: object) -> str:
        """The text of a key such as `decided.add-on`, its blanks filled. KeyError for an unknown key."""
        found: Any = self.texts
        for step in key.split("."):
            found = found[step]
        return str(found).format(**values) if values else str(found)

    def in_currency(self, currency: str) -> Lexicon:
        """The same words with money in another currency (ISO 4217 letters)."""
        return replace(self, currency=currency)

    @property
    def locale(self) -> str:
        """How this language writes lists, days and money, by its name in the CLDR."""
        return str(self.texts["locale"])

    def list(self, items: Iterable[str]) -> str:
        """Items as a sentence lists them: `A, B and C`, `A, B y C`."""
        from babel.lists import format_list

        known = tuple(items)
        blanks = [f"{{{number}}}" for number in range(len(known))]  # so that only the joints are looked at
        joined = str(format_list(blanks, style=self.texts["list_style"], locale=self.locale))
        if self.language == "en":  # American English in the CLDR has a comma before 'and'
            joined = joined.replace(", and ", " and ")
        return joined.format(*known)

    def day(self, day: date) -> str:
        """A day, written out: `March 19, 2027`."""
        from babel.dates import format_date

        return str(format_date(day, format="long", locale=self.locale))

    def day_of_year(self, day: date) -> str:
        """A day without its year: `March 19`."""
        from babel.dates import format_skeleton

        return str(format_skeleton("MMMMd", day, locale=self.locale))

    def short_day(self, day: date) -> str:
        """A day of the week and of the year, for a narrow column: `Fri, Mar 19`."""
        from babel.dates import format_skeleton

        # the language's own form: that of es_US has a 'de' more
        return str(format_skeleton("MMMEd", day, locale=self.language))

    def money(self, amount: Decimal) -> str:
        """An amount of money: `$1,069.60`."""
        from babel.numbers import format_currency

        return str(format_currency(amount, self.currency, locale=self.locale))


def languages() -> tuple[str, ...]:
    """The languages that papers can be written in: one data file each."""
    return tuple(
        sorted(
            entry.name.removesuffix(".yaml")
            for entry in files(__package__).iterdir()
            if entry.name.endswith(".yaml")
        )
    )


@cache
def lexicon(language: str) -> Lexicon:
    """The words of a language. KeyError where there is no file for it."""
    if language not in languages():
        raise KeyError(language)
    text = (files(__package__) / f"{language}.yaml").read_text(encoding="utf-8")
    data = parse(text, f"words/{language}.yaml").data
    assert isinstance(data, dict)
    return Lexicon(language, data)
