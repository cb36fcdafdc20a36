"""The area of one shape, and the name of the method that gave it."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise

from .geodesy import ring_area
from .kinds import (
    Circle,
    Composed,
    Ellipse,
    HalfCircle,
    MapRing,
    Polygon,
    Quadrilateral,
    QuarterCircle,
    Rectangle,
    Ring,
    Shape,
    Spokes,
    StatedArea,
    StatedVolume,
    Strip,
    Trapezoid,
    TriangleByHeight,
    TriangleBySides,
    Widths,
)
from .roots import square_root

HALF = Fraction(1, 2)

_METHODS: dict[type, str] = {
    Rectangle: "rectangle",
    Strip: "strip",
    TriangleBySides: "heron",
    TriangleByHeight: "base and height",
    Quadrilateral: "two triangles",
    Trapezoid: "trapezoid",
    Circle: "circle",
    HalfCircle: "half circle",
    QuarterCircle: "quarter circle",
    Ring: "ring",
    Ellipse: "ellipse",
    Polygon: "corners",
    Spokes: "average radius",
    MapRing: "geodesic",
    StatedArea: "stated area",
    StatedVolume: "stated volume",
}
_WIDTHS_METHODS = {"trapezoid": "trapezoid rule", "simpson": "simpson", "average": "average width"}

_PARTS_METHODS = {True: "united parts", False: "sum of parts"}

METHODS: tuple[str, ...] = (*_METHODS.values(), *_WIDTHS_METHODS.values(), *_PARTS_METHODS.values())


def method(shape: Shape) -> str:
    """The key, one of METHODS, of how the shape's area is worked out."""
    match shape:
        case Widths():
            return _WIDTHS_METHODS[shape.rule]
        case Composed():
            return _PARTS_METHODS[shape.positioned]
        case _:
            return _METHODS[type(shape)]


def area(shape: Shape) -> Fraction | float | None:
    """The area in ft2 of a shape without faults; None for a volume told by eye.

    A fraction where the figures allow it; a float where it is curved, geodesic or an uneven root.
    """
    match shape:
        case Rectangle(length, width) | Strip(length, width):
            return length * width
        case TriangleBySides(a, b, c):
            return triangle_area(a, b, c)
        case TriangleByHeight(base, height):
            return base * height * HALF
        case Quadrilateral(a, b, c, d, diagonal):
            return triangle_area(a, b, diagonal) + triangle_area(c, d, diagonal)
        case Trapezoid(a, b, apart):
            return (a + b) * HALF * apart
        case Circle(diameter):
            return _disk(diameter * diameter)
        case HalfCircle(diameter):
            return _disk(diameter * diameter) / 2
        case QuarterCircle(radius):
            return _disk(radius * radius)
        case Ring(outer, inner):
            return _disk(outer * outer - inner * inner)
        case Ellipse(length, width):
            return _disk(length * width)
        case Polygon(corners):
            return abs(twice_enclosed(corners)) * HALF
        case Widths():
            return _widths_area(shape)
        case Spokes(lengths):
            return math.pi * float(mean(lengths) ** 2)
        case MapRing():
            return ring_area(shape)
        case StatedArea(stated):
            return stated
        case StatedVolume():
            return None
        case Composed():
            return _composed_area(shape)


def fits(hole: Shape, outer: Shape) -> bool:
    """Whether the area left out is no larger than the bed's. False where either has no area."""
    left_out, whole = area(hole), area(outer)
    return left_out is not None and whole is not None and left_out <= whole


def triangle_area(a: Fraction, b: Fraction, c: Fraction) -> Fraction | float:
    """Heron's formula in ft2. ValueError where the sides cannot close.

    The product under the root is exact, so that a thin triangle loses no digits.
    """
    return square_root((a + b + c) * (b + c - a) * (a + c - b) * (a + b - c)) / 4


def twice_enclosed(corners: tuple[tuple[Fraction, Fraction], ...]) -> Fraction:
    """Twice the enclosed area in ft2, by cross products of corners; below zero if walked clockwise."""
    following = corners[1:] + corners[:1]
    return sum(
        (x * next_y - next_x * y for (x, y), (next_x, next_y) in zip(corners, following, strict=True)),
        Fraction(0),
    )


def mean(values: tuple[Fraction, ...]) -> Fraction:
    """The exact mean of one value or more."""
    return sum(values, Fraction(0)) / len(values)


def _disk(diameter_squared: Fraction) -> float:
    return math.pi * float(diameter_squared) / 4


def _composed_area(bed: Composed) -> Fraction | float:
    if bed.positioned:
        from .union import united_area

        return united_area(bed.parts)
    return sum((area(part.shape) or Fraction(0) for part in bed.parts), Fraction(0))


def _widths_area(bed: Widths) -> Fraction:
    """Average: the mean width over the whole length. Simpson's 1/3 needs an even number of strips."""
    match bed.rule:
        case "trapezoid":
            return sum((left + right for left, right in pairwise(bed.across)), Fraction(0)) * bed.every * HALF
        case "simpson":
            ends = bed.across[0] + bed.across[-1]
            return (
                (ends + 4 * sum(bed.across[1:-1:2]) + 2 * sum(bed.across[2:-1:2])) * bed.every / Fraction(3)
            )
        case "average":
            return mean(bed.across) * bed.every * (len(bed.across) - 1)
