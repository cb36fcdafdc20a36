"""The price of a material: sold quantity, volume prices, and why buying more never costs less."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from scopegen.chart import Material
from scopegen.chart.material import SOLD_BY
from scopegen.price.values import ZERO, Line, Step
from scopegen.quantities.fields import Amount
from scopegen.quantities.rounding import cents, up
from scopegen.quantities.units import LB_PER_TON, UNIT_SIZE


def by_volume(material: Material) -> bool:
    """It is sold by volume; else by weight."""
    return SOLD_BY[material.unit] == "yd3"


def measured_amount(material: Material, volume: Fraction) -> Fraction:
    """What is needed for a volume in yd3, in the unit of sale, with the waste on top."""
    amount = volume if by_volume(material) else volume * material.weight / LB_PER_TON
    return amount / UNIT_SIZE[material.unit] * (1 + material.waste)


def sold_amount(material: Material, volume: Fraction) -> Fraction:
    """What is sold for a volume in yd3: rounded up once, over the whole delivery."""
    return up(measured_amount(material, volume), material.sold_in.of(material.unit), material.forgives)


def in_volume(material: Material, amount: Amount) -> Fraction:
    """An amount of a material in yd3; what was said by weight, by its dry weight."""
    return amount.value if amount.unit == "yd3" else amount.value * LB_PER_TON / material.weight


def to_order(material: Material, line: Line) -> Fraction:
    """What is ordered from the supplier for a sold line: the next multiple of `bought_in`, if it has one."""
    needed = line.measured if line.measured is not None else line.quantity
    return up(needed, material.bought_in.of(material.unit)) if material.bought_in else line.quantity


def bulk(material: Material, sold: Fraction) -> tuple[Fraction, Fraction]:
    """The volume (yd3) and dry weight (lb) of a sold amount."""
    amount = sold * UNIT_SIZE[material.unit]
    if by_volume(material):
        return amount, amount * material.weight
    return amount * LB_PER_TON / material.weight, amount * LB_PER_TON


def unit_price(material: Material, quantity: Fraction) -> Decimal:
    """The chart's price of one unit when so much is bought."""
    price = material.price or ZERO
    for step in material.volume_price:
        if quantity > step.over.of(material.unit):
            price = step.price
    return price


def cost(
    material: Material, sold: Fraction, after: Fraction = Fraction(0)
) -> tuple[Decimal, tuple[Step, ...], str]:
    """The price of `sold` bought on top of `after`: amount, steps, and the reason where one price a unit
    does not tell it.

    With `whole quantity` all of it takes the price of its bracket, but it costs the most that any
    smaller order inside it would cost. With `the rest` each stretch takes the price of its own bracket.
    """
    if material.applies_to == "the rest":
        steps = _stretches(material, sold, after)
        return (
            sum((cents(s.quantity * Fraction(s.unit_price)) for s in steps), Decimal("0.00")),
            steps,
            "steps" if len(steps) > 1 else "",
        )
    price = unit_price(material, after + sold)
    best, steps, reason = cents(sold * Fraction(price)), (Step(sold, price),), ""
    if material.larger_may_cost_less:
        return best, steps, reason
    for step in material.volume_price:
        over = step.over.of(material.unit)
        smaller = over - after
        if 0 < smaller < sold:
            step_price = unit_price(material, over)
            amount = cents(smaller * Fraction(step_price))
            if amount > best:
                best, reason = amount, "at step"
                steps = (Step(smaller, step_price), Step(sold - smaller, Decimal("0.00")))
    return best, steps, reason


def _stretches(material: Material, sold: Fraction, after: Fraction) -> tuple[Step, ...]:
    steps = [step.over.of(material.unit) for step in material.volume_price]
    bounds = [over for over in steps if after < over < after + sold]
    edges = [after, *bounds, after + sold]
    return tuple(
        Step(end - begin, unit_price(material, end)) for begin, end in zip(edges, edges[1:], strict=False)
    )
