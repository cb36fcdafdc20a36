"""Square roots that stay exact where they can."""

from __future__ import annotations

import math
from fractions import Fraction


def square_root(value: Fraction) -> Fraction | float:
    """The root of `value`: a fraction where it is one, else a float. ValueError below zero."""
    above, below = math.isqrt(value.numerator), math.isqrt(value.denominator)
    if above * above == value.numerator and below * below == value.denominator:
        return Fraction(above, below)
    return math.sqrt(value)


def distance(start: tuple[Fraction, Fraction], end: tuple[Fraction, Fraction]) -> Fraction | float:
    """The straight distance between two points, in their unit."""
    return square_root((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2)
