"""One clause: a text for each way to decide, in each language, in versions by season."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, Literal, Self

from pydantic import BeforeValidator, ConfigDict, Discriminator, Field, Tag, model_validator

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


class Limits(Entry):
    """A range that an amount lies in: every limit that is said must hold. Each is a number, or a quantity
    with its unit, as `facts.yaml` has it for what is asked."""

    at_least: Words | None = None
    over: Words | None = None
    at_most: Words | None = None
    under: Words | None = None

    @model_validator(mode="after")
    def _says_something(self) -> Self:
        if not self.said:
            raise complaint("no limit is written here", "write at_least, over, at_most or under")
        return self

    @property
    def said(self) -> dict[str, str]:
        """The limits that are written, by their words."""
        keys = ("at_least", "over", "at_most", "under")
        return {key: value for key in keys if (value := getattr(self, key)) is not None}


# Any of these values, or an amount within these limits.
Asked = Annotated[
    Annotated[tuple[Words, ...], OneOrMany, Tag("values")] | Annotated[Limits, Tag("limits")],
    Discriminator(lambda value: "limits" if isinstance(value, (dict, Limits)) else "values"),
]


class NoLonger(Entry):
    """From which season on a clause is no longer used, why, and which clause stands for it."""

    season: Whole
    because: Words
    instead: Words | None = None


class Clause(Entry):
    """Wording for one decision (`decides`, with its `ways`), or one text for all (`says`).

    In a contractor's own folder a file stands whole for the clause of its name, or `replaces: parts` of it,
    or says from when on it is used `no_longer`.
    """

    clause: Words
    replaces: Literal["parts"] | None = None
    no_longer: NoLonger | None = None
    decides: Words | None = None
    title: ByLanguage = {}
    ways: tuple[Way, ...] = ()
    needs: tuple[Words, ...] = ()
    when: dict[str, Asked] = {}
    order: Whole = 0
    calls_for: tuple[Words, ...] = ()
    forbids: tuple[Words, ...] = ()
    name_if_absent: ByLanguage = {}
    wording: tuple[Annotated[Version, BeforeValidator(_version, json_schema_input_type=Written)], ...] = ()

    @property
    def stands_whole(self) -> bool:
        """It says all of the clause, rather than parts of it or only that it is no longer used."""
        return self.replaces is None and bool(self.wording)

    @model_validator(mode="after")
    def _says_all_of_it(self) -> Self:
        if not self.wording and not self.no_longer:
            raise complaint("the clause has no wording", "add 'wording:' with a season and a text")
        if self.stands_whole and not self.title:
            raise complaint("the clause has no title", "add 'title: {en: …}'")
        if self.replaces and set(self.model_fields_set) & {"ways", "needs", "when", "order", "decides"}:
            raise complaint(
                "a clause that replaces parts has texts and titles of its own, and nothing else",
                "take out decides, ways, needs, when and order, or take out 'replaces: parts'",
            )
        return self

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
