"""Decisions: what is asked, the ways to answer, and one part of an answer."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from scopegen.quantities import written
from scopegen.quantities.fields import (
    Area,
    Entry,
    Hours,
    Length,
    Money,
    Words,
    YesNo,
    complaint,
    kind_of,
)
from scopegen.quantities.texts import day
from scopegen.quantities.units import NotAQuantity, shortened

BED_DECISIONS = ("bed_prep", "edging", "debris", "substrate")
DECISIONS = ("material", *BED_DECISIONS)
SITE_DECISIONS = (
    "buried-lines", "access", "irrigation-and-lighting", "drains-and-slope", "plants",
    "movables-and-pets", "clean-up", "leftover", "care-after",
)  # fmt: skip
WAYS = ("included", "add-on", "excluded", "customer", "elsewhere", "not-needed", "no-charge")
PRICED_WAYS = ("included", "add-on", "no-charge")
IF_NOT_DONE = ("we do it", "leave the bed", "come back")

Way = Literal["included", "add-on", "excluded", "customer", "elsewhere", "not-needed", "no-charge", "open"]


def _rest(value: Any) -> Any:
    if value is None:
        raise complaint("nothing is written here", "write a measure, or 'rest'")
    return None if isinstance(value, str) and value.strip() == "rest" else value


Rest = Literal["rest"]
AreaOrRest = Annotated[Area | None, BeforeValidator(_rest, json_schema_input_type=Area | Rest)]
LengthOrRest = Annotated[Length | None, BeforeValidator(_rest, json_schema_input_type=Length | Rest)]


@dataclass(frozen=True, slots=True)
class By:
    """The day by which the customer's work is done: of the calendar, or so many days before the start."""

    day: date | None = None
    days_before_start: int | None = None


_BY = written.text(
    f"(?:{written.one_of(('start', 'the start'))}"
    rf"|[0-9]{{1,3}} {written.one_of(('day', 'days'))} [bB][eE][fF][oO][rR][eE] (?:[tT][hH][eE] )?"
    f"{written.any_case('start')}|{written.DATE})",
    "so many days before the start, 'start', or a day",
    "2 days before start",
    "start",
    "2027-04-10",
)


def _by(value: Any) -> Any:
    if isinstance(value, By):
        return value
    if isinstance(value, (list, tuple, dict)):
        raise complaint(
            f"{kind_of(value)} stands where a day belongs",
            "write '2 days before start', 'start', or a day like 2027-04-10",
        )
    text = value.strip().lower() if isinstance(value, str) else ""
    if text in ("start", "the start"):
        return By(days_before_start=0)
    words = re.fullmatch(r"([0-9]{1,3}) days? before (?:the )?start", text)
    if words:
        return By(days_before_start=int(words[1]))
    try:
        return By(day=day(text))
    except NotAQuantity:
        fix = "write '2 days before start', 'start', or a day like 2027-04-10"
        raise complaint(f"'{shortened(value)}' is not a day", fix) from None


class Part(Entry):
    """One part of a decision. What each way needs is asked by the rules, not here.

    `area`, `along` and `on` are None where they were not said; `area: rest` and `along: rest` are
    None too, and told apart by `said`.
    """

    MAY_BE_EMPTY = frozenset({"decided"})

    decided: Way | None = None
    work: Words | None = None
    on: Words | None = None
    area: AreaOrRest = None
    along: LengthOrRest = None
    worker_hours: Hours | None = None
    by: Annotated[By | None, BeforeValidator(_by, json_schema_input_type=written.as_written(_BY))] = None
    if_not_done: Literal["we do it", "leave the bed", "come back"] | None = None
    who: Words | None = None
    because: Words | None = None
    declined: YesNo = False
    spot: Words | None = None
    way: Words | None = None  # of access: a key of the chart's `access`
    note: Words | None = None
    choose_one: Words | None = None  # the name of a group of add-ons of which one at the most is chosen
    not_over: Money | None = None
    visit: Words | None = None

    def said(self, key: str) -> bool:
        """Whether the job description has this key in this part."""
        return key in self.model_fields_set

    @property
    def open(self) -> bool:
        """Nobody decided."""
        return self.decided in (None, "open")

    @property
    def how(self) -> str | None:
        """How it is decided, or None where it is open."""
        return None if self.open else self.decided

    @property
    def whole(self) -> bool:
        """The part is not limited to a piece of the bed."""
        return not (self.said("on") or self.said("area") or self.said("along"))


class MaterialPart(Part):
    """What is spread on a bed, or a part of it. With `use` and no `decided` it is included."""

    use: Words | None = None
    depth: Length | None = None
    top_up_to: Length | None = None
    supplied_by: Literal["us", "customer"] = "us"

    @property
    def open(self) -> bool:
        """Neither a material nor a decision was said."""
        return self.decided == "open" or (self.decided is None and self.use is None)

    @property
    def how(self) -> str | None:
        """How it is decided; a named material is included unless the job says otherwise."""
        return None if self.open else self.decided or "included"


def parts_of(value: Any) -> Any:
    """A decision as written, as a list of parts: one part alone, a list, or the word `open`."""
    if value is None:
        return None
    if isinstance(value, str):
        if value.strip() == "open":
            return [{"decided": "open"}]
        raise complaint(
            f"'{shortened(value)}' is not a decision", f"write {{decided: …}} with one of: {', '.join(WAYS)}"
        )
    many = value if isinstance(value, (list, tuple)) else [value]
    if not many:
        return None
    return many


Open = Literal["open"]
Parts = Annotated[
    tuple[Part, ...] | None,
    BeforeValidator(parts_of, json_schema_input_type=Part | tuple[Part, ...] | Open | None),
]
MaterialParts = Annotated[
    tuple[MaterialPart, ...] | None,
    BeforeValidator(parts_of, json_schema_input_type=MaterialPart | tuple[MaterialPart, ...] | Open | None),
]


class Decided(Entry):
    """The material and the four decisions, said for one bed or for every bed."""

    MAY_BE_EMPTY = frozenset(DECISIONS)

    material: MaterialParts = None
    bed_prep: Parts = None
    edging: Parts = None
    debris: Parts = None
    substrate: Parts = None


class Site(Entry):
    """The decisions that a job raises once; a bed may answer one otherwise."""

    MAY_BE_EMPTY = frozenset(SITE_DECISIONS)

    buried_lines: Parts = Field(default=None, alias="buried-lines")
    access: Parts = None
    irrigation_and_lighting: Parts = Field(default=None, alias="irrigation-and-lighting")
    drains_and_slope: Parts = Field(default=None, alias="drains-and-slope")
    plants: Parts = None
    movables_and_pets: Parts = Field(default=None, alias="movables-and-pets")
    clean_up: Parts = Field(default=None, alias="clean-up")
    leftover: Parts = None
    care_after: Parts = Field(default=None, alias="care-after")

    def answer(self, decision: str) -> tuple[Part, ...] | None:
        """The parts of one site decision by its YAML key."""
        parts: tuple[Part, ...] | None = getattr(self, decision.replace("-", "_"))
        return parts
