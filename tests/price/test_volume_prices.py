"""Volume prices: buying more never costs less."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scopegen.chart import Material
from scopegen.price.material import cost
from scopegen.price.values import Step


def material(steps: list[tuple[str, str]], **others: Any) -> Material:
    return Material.model_validate({
        "name": "Bark", "kind": "mulch", "unit": "yd3", "price": "112.00", "sold_in": "0.25 yd3",
        "weight": "650 lb/yd3",
        "lays": "1 yd3/h", "clause": "material.mulch",
        "volume_price": [{"over": f"{over} yd3", "price": price} for over, price in steps], **others,
    })  # fmt: skip


ONE_STEP = material([("15", "99.00")])


@pytest.mark.parametrize(
    ("yards", "amount", "reason"),
    [
        ("14", "1568.00", ""),
        ("15", "1680.00", ""),  # not over 15 yet
        ("15.5", "1680.00", "at step"),  # 15.5 × 99 = 1534.50 would be less than 15 yards cost
        ("16.75", "1680.00", "at step"),  # 16.75 × 99 = 1658.25
        ("17", "1683.00", ""),
    ],
)
def test_price_is_held_at_that_of_the_step(yards: str, amount: str, reason: str) -> None:
    """Over 15 yards at 99 instead of 112: the price is never below that of 15 yards."""
    found, steps, why = cost(ONE_STEP, Fraction(yards))
    assert (found, why) == (Decimal(amount), reason)
    assert sum(step.quantity * Fraction(step.unit_price) for step in steps) == Fraction(amount)


def test_the_rest_alone_takes_the_lower_price() -> None:
    """With `applies_to: the rest` 15 yards cost 112 each and the half yard beyond 99."""
    found, steps, _ = cost(material([("15", "99.00")], applies_to="the rest"), Fraction("15.5"))
    assert found == Decimal("1729.50")
    assert steps == (Step(Fraction(15), Decimal("112.00")), Step(Fraction(1, 2), Decimal("99.00")))


def test_a_chart_may_say_that_more_costs_less() -> None:
    """`larger_may_cost_less: yes` prices all of it at its bracket."""
    found, _, why = cost(material([("15", "99.00")], larger_may_cost_less="yes"), Fraction("15.5"))
    assert (found, why) == (Decimal("1534.50"), "")


def test_add_on_takes_the_bracket_that_it_reaches_on_top() -> None:
    """Behind a base of 14 yards, 3 more reach over 15: all 3 at 99. One more stays at 112."""
    assert cost(ONE_STEP, Fraction(3), Fraction(14))[0] == Decimal("297.00")
    assert cost(ONE_STEP, Fraction(1), Fraction(14))[0] == Decimal("112.00")
    # 1.1 yards at 99 would be 108.90, less than the first yard alone costs
    assert cost(ONE_STEP, Fraction("1.1"), Fraction(14))[0] == Decimal("112.00")


STEPS = st.lists(
    st.tuples(st.integers(1, 60), st.integers(0, 20000)),
    min_size=0,
    max_size=4,
    unique_by=lambda step: step[0],
)


@given(
    steps=STEPS,
    after=st.integers(0, 200),
    quarters=st.lists(st.integers(1, 400), min_size=2, max_size=6),
    rest=st.booleans(),
)
def test_more_never_costs_less(
    steps: list[tuple[int, int]], after: int, quarters: list[int], rest: bool
) -> None:
    """Whatever the chart's volume prices, and whatever the base already buys, a larger order never costs
    less than a smaller one."""
    chart = material(
        [(str(over), f"{price / 100:.2f}") for over, price in sorted(steps)],
        applies_to="the rest" if rest else "whole quantity",
    )
    amounts = [cost(chart, Fraction(number, 4), Fraction(after, 4))[0] for number in sorted(quarters)]
    assert amounts == sorted(amounts)
