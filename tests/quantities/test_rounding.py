"""The one rounding step, at its boundaries."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scopegen.quantities.rounding import cents, half_up, share_out, up

QUARTER, TWO_PERCENT = Fraction(1, 4), Fraction(2, 100)


@pytest.mark.parametrize(
    ("needed", "sold"),
    [
        ("4", "4"),
        ("4.01", "4"),  # 0.01 is less than 2 % of 4.01
        ("4.08", "4"),  # 0.08 is less than 2 % of 4.08 = 0.0816
        ("4.09", "4.25"),  # 0.09 is more than 2 % of 4.09 = 0.0818
        ("0.01", "0.25"),  # nothing that is needed at all becomes nothing
        ("0", "0"),
    ],
)
def test_material_is_rounded_up_unless_forgiven(needed: str, sold: str) -> None:
    """Sold in quarters of a yard, with 2 % let go."""
    assert up(Fraction(needed), QUARTER, TWO_PERCENT) == Fraction(sold)


def test_one_yard_stays_one_yard() -> None:
    """108 ft² at 3 in, 162 at 2 in, 81 at 4 in and 324 at 1 in are exactly one cubic yard: no dust of floats
    turns it into more (by definition: 27 ft³ × 12 in = 324 ft² in)."""
    for area, inches in ((108, 3), (162, 2), (81, 4), (324, 1)):
        assert up(area * Fraction(inches, 12) / 27, Fraction(1, 2)) == 1


@pytest.mark.parametrize(
    ("exact", "printed"), [("0.005", "0.01"), ("0.0049", "0.00"), ("2.675", "2.68"), ("135.2965", "135.30")]
)
def test_money_is_rounded_half_up(exact: str, printed: str) -> None:
    """Half a cent goes up."""
    assert cents(Fraction(exact)) == Decimal(printed)


@given(total=st.integers(0, 10**9), weights=st.lists(st.integers(0, 10**6), min_size=1, max_size=8))
def test_shares_add_up(total: int, weights: list[int]) -> None:
    """Whatever the weights, the shares come to the total, and each is within a cent of its part."""
    money = Decimal(total).scaleb(-2)
    shares = share_out(money, [Fraction(weight) for weight in weights])
    assert sum(shares) == money
    if sum(weights):
        for share, weight in zip(shares, weights, strict=True):
            assert abs(Fraction(share) - Fraction(money) * weight / sum(weights)) < Fraction(1, 100)


@given(value=st.fractions(0, 10**6), step=st.sampled_from([Fraction(1), QUARTER, Fraction(1, 10)]))
def test_half_up_is_the_nearest(value: Fraction, step: Fraction) -> None:
    """The printed figure is a multiple of the step, and no multiple is nearer."""
    rounded = half_up(value, step)
    assert rounded % step == 0
    assert abs(rounded - value) <= step / 2
