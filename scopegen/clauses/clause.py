"""One clause: a text for each way to decide, in each language, in versions by season."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, Literal, Self

from pydantic import BeforeValidator, ConfigDict, Field, model_validator

from scopegen.quantities.fields import Day, Entry, OneOrMany, Whole, Words, complaint

# Only the ways that a contractor can decide in: `open` has no wording.
Way = Literal["included", "add-on", "excluded", "customer", "elsewhere", "not-needed", "no-charge"]
Texts = dict[str, dict[str, Words]]  # language -> way (or `says`) -> text


class Version(Entry):
    """The wording from a season on, or from a day within it."""

    season: Whole
    from_: Day | None = Field(default=None, alias="from")
    texts: Texts

    def serves(self, season: int, dated: date) -> bool:
        """Whether it was in force for a job of this season, dated so."""
        return self.season < season or self.season == season and (self.from_ is None or self.from_ <= dated)

    @property
    def order(self) -> tuple[int, date]:
        """Versions rise by season, then by day."""
        return self.season, self.from_ or date.min

    @property
    def name(self) -> str:
        """How the paper names it: `2027`, or `2027, from 2027-06-01`."""
        return f"{self.season}" if self.from_ is None else f"{self.season}, from {self.from_}"


class Written(Entry):
    """The wording from a season on, or from a day within it: for each language a text for each way."""

    model_config = ConfigDict(extra="allow")
    __pydantic_extra__: dict[str, dict[Literal[Way, "says"], Words]]

    season: Whole
    from_: Day | None = Field(default=None, alias="from")


def _version(value: Any) -> Any:
    if not isinstance(value, dict):
        raise complaint(
            "a version is a group of keys", "write '- season: 2027', then the wording of each language"
        )
    head = {key: value[key] for key in ("season", "from") if key in value}
    return {**head, "texts": {key: said for key, said in value.items() if key not in head}}


def _by_language(value: Any) -> Any:
    if isinstance(value, str):
        raise complaint("a text here has a language", f'write {{en: "{value}"}}')
    return value


ByLanguage = Annotated[
    dict[str, Words], BeforeValidator(_by_language, json_schema_input_type=dict[str, Words])
]


class Clause(Entry):
    """Wording for one decision (`decides`, with its `ways`), or one text for all (`says`)."""

    clause: Words
    decides: Words | None = None
    title: ByLanguage
    ways: tuple[Way, ...] = ()
    needs: tuple[Words, ...] = ()
    when: dict[str, Annotated[tuple[Words, ...], OneOrMany]] = {}
    order: Whole = 0
    calls_for: tuple[Words, ...] = ()
    name_if_absent: ByLanguage = {}
    wording: tuple[Annotated[Version, BeforeValidator(_version, json_schema_input_type=Written)], ...]

    @model_validator(mode="after")
    def _ways_are_listed(self) -> Self:
        if self.decides and not self.ways:
            raise complaint(
                "the clause decides something, but lists no ways",
                "add 'ways: [included]', with each way that it has wording for",
            )
        return self

    def version(self, season: int, dated: date) -> Version | None:
        """The newest version that serves a job of this season and date; None where all are later."""
        serving = [version for version in self.wording if version.serves(season, dated)]
        return max(serving, key=lambda version: version.order, default=None)
