"""The one rounding step: where a quantity is sold, and where money is printed."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from math import ceil, floor

CENT = Fraction(1, 100)


def half_up(value: Fraction, step: Fraction) -> Fraction:
    """The nearest multiple of step; halves go up. Values are not negative."""
    return floor(value / step + Fraction(1, 2)) * step


def up(value: Fraction, step: Fraction, forgives: Fraction = Fraction(0)) -> Fraction:
    """The next multiple of step, unless the value is above one by no more than `forgives` of itself.

    With `forgives` 2 %, 4.05 in steps of 0.25 is 4.00; nothing that is needed at all becomes zero.
    """
    below = floor(value / step) * step
    if below == value:
        return value
    if below > 0 and value - below <= value * forgives:
        return below
    return below + step


def whole_up(value: Fraction) -> int:
    """The next whole number."""
    return ceil(value)


def cents(value: Fraction) -> Decimal:
    """Money, rounded half up to the cent."""
    return Decimal(int(half_up(value, CENT) / CENT)).scaleb(-2)


def share_out(total: Decimal, weights: Sequence[Fraction]) -> tuple[Decimal, ...]:
    """`total` split by weight into cents that add up to it, by largest remainder; ties to the first.

    All weights zero: everything goes to the first.
    """
    if not weights:
        return ()
    whole = sum(weights, Fraction(0))
    if whole == 0:
        return (total, *([Decimal("0.00")] * (len(weights) - 1)))
    exact = [Fraction(total) * 100 * weight / whole for weight in weights]
    parts = [floor(value) for value in exact]
    missing = int(total * 100) - sum(parts)
    by_remainder = sorted(range(len(exact)), key=lambda i: (parts[i] - exact[i], i))
    for i in by_remainder[:missing]:
        parts[i] += 1
    return tuple(Decimal(part).scaleb(-2) for part in parts)
