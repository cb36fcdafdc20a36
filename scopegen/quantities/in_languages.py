"""Texts that say the same in several languages, and how they stand in a file."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Annotated, Any

from pydantic import PlainValidator

from scopegen.quantities import written
from scopegen.quantities.fields import complaint, empty, one_line

HOUSE = ""  # stands for the house's language, which only company.yaml names
_LANGUAGE = re.compile("[a-z]{2,3}")  # the letters of ISO 639


class InLanguages(str):
    """A text by its language, until one is chosen. As plain text it is the first that was written.

    `wordings` has the text of each language; `HOUSE` is that of a text that was written alone.
    """

    wordings: Mapping[str, str]

    def __new__(cls, wordings: Mapping[str, str]) -> InLanguages:
        """Of a text for each language, at least one."""
        text = super().__new__(cls, next(iter(wordings.values())))
        text.wordings = dict(wordings)
        return text

    def __getnewargs__(self) -> tuple[Any, ...]:
        return (self.wordings,)

    def said_in(self, language: str, house: str) -> str | None:
        """The text in a language; None where it is not there."""
        return self.wordings.get(language) or (self.wordings.get(HOUSE) if language == house else None)


def is_language(key: object) -> bool:
    """Whether a key is the short name of a language."""
    return isinstance(key, str) and _LANGUAGE.fullmatch(key) is not None


def _grouped(value: dict[Any, Any]) -> InLanguages:
    example = "write {en: Weed by hand, es: Deshierbe a mano}"
    if not value:
        raise complaint("nothing is written here", example)
    for language, text in value.items():
        if not is_language(language):
            raise complaint(f"'{language}' is not the short name of a language", example)
        if text is None:
            raise empty(str(language))
    return InLanguages({language: one_line(text) for language, text in value.items()})


def _text(value: Any) -> str:
    if isinstance(value, InLanguages):
        return value
    return _grouped(value) if isinstance(value, dict) else InLanguages({HOUSE: one_line(value)})


def _name(value: Any) -> str:
    if isinstance(value, InLanguages):
        return value
    return _grouped(value) if isinstance(value, dict) else one_line(value)


_WRITTEN = written.as_written(written.BY_LANGUAGE)
# A text for papers: alone it is in the house's language; a name or a number is the same in every language.
Text = Annotated[str, PlainValidator(_text, json_schema_input_type=_WRITTEN)]
Name = Annotated[str, PlainValidator(_name, json_schema_input_type=_WRITTEN)]
