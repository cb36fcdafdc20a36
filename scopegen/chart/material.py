"""A material in the price chart."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any, Literal, Self

from pydantic import BeforeValidator, model_validator

from scopegen.quantities.fields import (
    Entry,
    Money,
    OneOrMany,
    Percent,
    SoldAmount,
    VolumePerHour,
    WeightPerVolume,
    Words,
    YesNo,
    complaint,
)  # fmt: skip
from scopegen.quantities.in_languages import Text

SOLD_BY = {"yd3": "yd3", "m3": "yd3", "ton": "ton", "t": "ton"}  # by volume, or by weight


class VolumePrice(Entry):
    """The price of one unit where more than `over` is bought."""

    over: SoldAmount
    price: Money


class SpreadOnly(Entry):
    """The price of spreading one unit of a material that the customer has."""

    price: Money
    tax: Annotated[tuple[Words, ...], OneOrMany] = ()


def _spread_only(value: Any) -> Any:
    return value if isinstance(value, (dict, SpreadOnly)) else {"price": value}


def _rest(value: Any) -> Any:
    return None if isinstance(value, str) and value.strip() == "rest" else value


ShareOrRest = Annotated[
    Percent | None, BeforeValidator(_rest, json_schema_input_type=Percent | Literal["rest"])
]


class Material(Entry):
    """What is spread on beds: its price in place, how it is sold and bought, how heavy, how fast it is laid.

    `unit` is yd3, m3, ton (short ton) or t (tonne); `weight` lb a yd3, loose and dry; `wet` the share by
    which it is heavier when wet; `lays` yd3 an hour by one worker; `forgives` the share of the sold
    quantity that is not rounded up for; `settles` the share by which it is laid deeper, to end at the
    depth that was said; `waste` the share that is ordered on top; materials of one `price_group` count
    together for the volume price; `texture` is how finely it was shredded or ground; `order_in_parts`
    are shares of the order, the rest None; `cost` is what a unit costs the contractor.
    """

    name: Text
    kind: Literal["mulch", "stone", "compost", "soil"]
    texture: Literal["fine", "coarse"] | None = None
    unit: Literal["yd3", "ton", "m3", "t"]
    price: Money | None = None
    price_group: Words | None = None
    volume_price: Annotated[tuple[VolumePrice, ...], OneOrMany] = ()
    applies_to: Literal["whole quantity", "the rest"] = "whole quantity"
    larger_may_cost_less: YesNo = False
    sold_in: SoldAmount
    forgives: Percent = Fraction(0)
    bought_in: SoldAmount | None = None
    settles: Percent = Fraction(0)
    weight: WeightPerVolume
    wet: Percent = Fraction(0)
    waste: Percent = Fraction(0)
    order_in_parts: tuple[ShareOrRest, ...] = ()
    lays: VolumePerHour
    cost: Money | None = None
    spread_only: Annotated[
        SpreadOnly | None, BeforeValidator(_spread_only, json_schema_input_type=Money | SpreadOnly)
    ] = None
    tax: Annotated[tuple[Words, ...], OneOrMany] = ()
    clause: Words
    cautions: tuple[Words, ...] = ()

    @model_validator(mode="after")
    def _one_unit(self) -> Self:
        if self.price is None and self.spread_only is None:
            raise complaint(f"'{self.name}' has no price", "add 'price: …', or 'spread_only: …' without it")
        amounts = [
            self.sold_in,
            *(step.over for step in self.volume_price),
            *([self.bought_in] if self.bought_in else []),
        ]
        if any(amount.unit != SOLD_BY[self.unit] for amount in amounts):
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
        self._whole_order()
        return self

    def _whole_order(self) -> None:
        """The parts of an order make the whole: shares below it, then the rest."""
        shares = self.order_in_parts
        if shares and (None in shares[:-1] or shares[-1] is not None or sum(shares[:-1]) >= 1):  # type: ignore[arg-type]
            raise complaint(
                f"the parts that '{self.name}' is ordered in do not end with the rest",
                "write shares below 100 % together, then 'rest': [50 %, 25 %, rest]",
            )
