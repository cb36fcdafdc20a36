"""A material in the price chart."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal, Self

from pydantic import model_validator

from scopegen.quantities.fields import (
    Entry,
    Money,
    NotYet,
    OneOrMany,
    Percent,
    SoldAmount,
    VolumePerHour,
    WeightPerVolume,
    Words,
    YesNo,
    complaint,
)  # fmt: skip


class VolumePrice(Entry):
    """The price of one unit where more than `over` is bought."""

    over: SoldAmount
    price: Money


class Material(Entry):
    """What is spread on beds: its price in place, how it is sold and bought, how heavy, how fast it is laid.

    `unit` is yd3 or ton (short ton); `weight` lb a yd3, loose; `lays` yd3 an hour by one worker;
    `forgives` the share of the sold quantity that is not rounded up for; `settles` the share by which
    it is laid deeper, to end at the depth that was said; `waste` the share that is ordered on top.
    """

    name: Words
    kind: Literal["mulch", "stone", "compost", "soil"]
    unit: Literal["yd3", "ton"]
    price: Money
    price_group: NotYet = None
    volume_price: Annotated[tuple[VolumePrice, ...], OneOrMany] = ()
    applies_to: Literal["whole quantity", "the rest"] = "whole quantity"
    larger_may_cost_less: YesNo = False
    sold_in: SoldAmount
    forgives: Percent = Fraction(0)
    bought_in: SoldAmount | None = None
    settles: Percent = Fraction(0)
    weight: WeightPerVolume
    wet: NotYet = None
    waste: Percent = Fraction(0)
    order_in_parts: NotYet = None
    lays: VolumePerHour
    cost: NotYet = None
    spread_only: NotYet = None
    tax: Words | None = None
    clause: Words
    cautions: tuple[Words, ...] = ()

    @model_validator(mode="after")
    def _one_unit(self) -> Self:
        amounts = [
            self.sold_in,
            *(step.over for step in self.volume_price),
            *([self.bought_in] if self.bought_in else []),
        ]
        if any(amount.unit != self.unit for amount in amounts):
            raise complaint(
                f"'{self.name}' is sold by the {self.unit}, but an amount of it is in another unit",
                f"write sold_in, bought_in and volume_price in {self.unit}",
            )
        steps = [step.over.value for step in self.volume_price]
        if steps != sorted(set(steps)):
            raise complaint(
                f"the volume prices of '{self.name}' do not rise",
                "list them from the smallest quantity to the largest, each once",
            )
        return self
