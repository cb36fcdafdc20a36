"""The words on papers, by language, and how that language writes lists, days and money."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any

from scopegen.load import parse
from scopegen.quantities.show import decimal

SHIPPED: Traversable = files(__package__)


@dataclass(frozen=True)
class Lexicon:
    """One language's words. Texts hold blanks in braces: `say("page_of", page=1)`."""

    language: str
    texts: dict[str, Any]
    currency: str = "USD"

    def say(self, key: str, /, **values: object) -> str:
        """The text of a key such as `decided.add-on`, its blanks filled. KeyError for an unknown key."""
        found = self._at(key)
        return str(found).format(**values) if values else str(found)

    def counted(self, key: str, count: Fraction | int, /, places: int = 2, **values: object) -> str:
        """A text with a count, to so many places, as `{count}`: `1 day`, `2 days`. It is one text for any
        count, or one for each plural category that the language has in the CLDR, `other` among them."""
        figure, forms = decimal(Fraction(count), places), self._at(key)
        if isinstance(forms, dict):
            forms = forms.get(self._plural(figure), forms["other"])
        return str(forms).format(count=figure, **values)

    def looked_for(self, key: str) -> tuple[str, ...]:
        """Words, in small letters, by which a text of the job is known to speak of something."""
        return tuple(self.say(f"looked_for.{key}").split(", "))

    def _at(self, key: str) -> Any:
        found: Any = self.texts
        for step in key.split("."):
            found = found[step]
        return found

    def _plural(self, figure: str) -> str:
        """The plural category of a figure as it is printed."""
        from babel import Locale

        return str(Locale.parse(self.locale).plural_form(Decimal(figure) if "." in figure else int(figure)))

    def in_currency(self, currency: str) -> Lexicon:
        """The same words with money in another currency (ISO 4217 letters)."""
        return replace(self, currency=currency)

    @property
    def locale(self) -> str:
        """How this language writes days, money and plurals, by its name in the CLDR."""
        return self.say("locales.language")

    def list(self, items: Iterable[str]) -> str:
        """Items as a sentence lists them: `A, B and C`, `A, B y C`."""
        from babel.lists import format_list

        known = tuple(items)
        blanks = [f"{{{number}}}" for number in range(len(known))]  # so that only the joints are looked at
        joined = format_list(blanks, style="standard", locale=self.say("locales.lists"))
        return str(joined).format(*known)

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

        return str(format_skeleton("MMMEd", day, locale=self.say("locales.short_days")))

    def money(self, amount: Decimal, *, all_digits: bool = False) -> str:
        """An amount of money: `$1,069.60`; where all its digits are asked for, `$1,069.605`."""
        from babel.numbers import format_currency

        rounded = not all_digits
        return str(format_currency(amount, self.currency, locale=self.locale, decimal_quantization=rounded))


def languages(folder: Traversable = SHIPPED) -> tuple[str, ...]:
    """The languages that papers can be written in: one data file each."""
    return tuple(
        sorted(entry.name.removesuffix(".yaml") for entry in folder.iterdir() if entry.name.endswith(".yaml"))
    )


@cache
def lexicon(language: str, folder: Traversable = SHIPPED) -> Lexicon:
    """The words of a language. KeyError where there is no file for it."""
    if language not in languages(folder):
        raise KeyError(language)
    text = (folder / f"{language}.yaml").read_text(encoding="utf-8")
    data = parse(text, f"words/{language}.yaml").data
    assert isinstance(data, dict)
    return Lexicon(language, data)
