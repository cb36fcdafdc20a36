"""A price chart: one season, one price for everyone."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Annotated

from pydantic import BeforeValidator

from scopegen.chart.material import Material
from scopegen.chart.work import Work
from scopegen.quantities.fields import (
    AboveZero,
    Currency,
    Entry,
    Hours,
    Money,
    OneOrMany,
    Percent,
    Volume,
    Weight,
    WeightPerVolume,
    Whole,
    Words,
)  # fmt: skip
from scopegen.quantities.in_languages import Text


class JobPrice(Entry):
    """The least that a job costs, the hours of setting up and cleaning up (a whole crew's), and what
    coming back another day costs."""

    minimum: Money = Decimal("0.00")
    set_up: Hours = Fraction(0)
    clean_up: Hours = Fraction(0)
    come_back: Money | None = None


class Delivery(Entry):
    """One truckload of material: its volume, its payload, its price, and what it costs the contractor."""

    load: Volume
    payload: Weight
    fee: Money
    cost: Money | None = None
    tax: Annotated[tuple[Words, ...], OneOrMany] = ()


class Stream(Entry):
    """Spoil of one sort: how much it swells when dug, and its weight in the ground, or loose.

    `in_ground_weight` goes with in-ground volume, `loose_weight` with loose volume; never mixed.
    """

    name: Text
    swell: Percent = Fraction(0)
    in_ground_weight: WeightPerVolume | None = None
    loose_weight: WeightPerVolume | None = None


class Barrow(Entry):
    """A wheelbarrow: its volume and what a person can push in it."""

    volume: Volume
    payload: Weight


class Tax(Entry):
    """A tax by its kind: its name on paper and its rate."""

    name: Text
    rate: Percent


class Access(Entry):
    """A way to the beds that makes the work slower: hours are multiplied by the factor."""

    name: Text
    factor: AboveZero


class Wage(Entry):
    """What an hour of one worker costs the contractor, and the share on top of it for taxes and insurance."""

    hour: Money
    burden: Percent = Fraction(0)


class Tolerance(Entry):
    """How far measuring in one way may be out, as shares of the area: by chance, each bed for itself, and
    the same way for every bed (a stride that is always long)."""

    random: Percent
    common: Percent


class Tolerances(Entry):
    """The contractor's own tolerances; what is not said here is as shipped. `depth` is how far the depth
    laid is out over a whole job."""

    tape: Tolerance | None = None
    wheel: Tolerance | None = None
    map: Tolerance | None = None
    pacing: Tolerance | None = None
    eye: Tolerance | None = None
    depth: Percent | None = None


def _none_left(value: object) -> object:
    """The list whose last line was taken off by hand."""
    return () if value is None else value


ToReview = Annotated[
    tuple[Words, ...], BeforeValidator(_none_left, json_schema_input_type=tuple[Words, ...] | None)
]


class Chart(Entry):
    """A season's price chart. `to_review` names the prices that nobody has looked at since the season was
    opened, as `chart.prices` names them."""

    MAY_BE_EMPTY = frozenset({"to_review"})

    season: Whole
    to_review: ToReview = ()
    currency: Currency
    worker_hour: Money
    crew: Whole
    productive_hours: AboveZero
    job: JobPrice = JobPrice()
    delivery: Delivery | None = None
    barrow: Barrow | None = None
    streams: dict[str, Stream] = {}
    taxes: dict[str, Tax] = {}
    access: dict[str, Access] = {}
    materials: dict[str, Material] = {}
    work: dict[str, Work] = {}
    wage: Wage | None = None
    overhead: Money | None = None
    profit: Percent | None = None
    tolerances: Tolerances = Tolerances()
