"""A price chart: one season, one price for everyone."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator

from scopegen.chart.material import Material
from scopegen.chart.work import Work
from scopegen.quantities.fields import (
    AboveZero,
    Entry,
    Hours,
    Money,
    NotYet,
    Percent,
    Volume,
    Weight,
    WeightPerVolume,
    Whole,
    Words,
    not_yet,
)  # fmt: skip


class JobPrice(Entry):
    """The least that a job costs, the hours of setting up and cleaning up (a whole crew's), and what
    coming back another day costs."""

    minimum: Money = Decimal("0.00")
    set_up: Hours = Fraction(0)
    clean_up: Hours = Fraction(0)
    come_back: Money | None = None


class Delivery(Entry):
    """One truckload of material: its volume, its payload, and its price."""

    load: Volume
    payload: Weight
    fee: Money
    tax: Words | None = None


class Stream(Entry):
    """Spoil of one sort: how much it swells when dug, and its weight in the ground, or loose.

    `in_ground_weight` goes with in-ground volume, `loose_weight` with loose volume; never mixed.
    """

    name: Words
    swell: Percent = Fraction(0)
    in_ground_weight: WeightPerVolume | None = None
    loose_weight: WeightPerVolume | None = None


class Barrow(Entry):
    """A wheelbarrow: its volume and what a person can push in it."""

    volume: Volume
    payload: Weight


class Tax(Entry):
    """A tax by its kind: its name on paper and its rate."""

    name: Words
    rate: Percent


class Access(Entry):
    """A way to the beds that makes the work slower: hours are multiplied by the factor."""

    name: Words
    factor: AboveZero


def _currency(value: Any) -> Any:
    if value != "USD":
        raise not_yet("a currency other than USD", "write 'currency: USD'")
    return value


class Chart(Entry):
    """A season's price chart."""

    season: Whole
    currency: Annotated[Literal["USD"], BeforeValidator(_currency)]
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
    profit: NotYet = None
    wage: NotYet = None
    overhead: NotYet = None
