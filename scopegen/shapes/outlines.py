"""The sides of one shape by name, and the length of its outline."""

from __future__ import annotations

import math
from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise
from types import MappingProxyType

from .geodesy import ring_sides
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
from .roots import distance
from .union import united_outline

Lengths = Mapping[str, Fraction | float]


def sides(shape: Shape) -> Lengths | None:
    """The sides that can be named, in the order walked, with their lengths in ft; None where there are none.

    A triangle by its height has only its `base`, a trapezoid its parallel sides `a` and `b`. Widths are
    taken from a straight `baseline`; `far` joins the ends of the widths; a width of 0 ft at either end
    is a side of length 0. A quarter circle's `left` and `right` are seen from its square corner.
    """
    named = _named(shape)
    return None if named is None else MappingProxyType(named)


def outline(shape: Shape) -> Fraction | float | None:
    """The whole outer line in ft; None where not every side was measured."""
    match shape:
        case TriangleByHeight() | Trapezoid():
            return None
        case Composed(parts):
            return united_outline(parts) if shape.positioned else None
        case _:
            named = _named(shape)
            return None if named is None else sum(named.values(), Fraction(0))


def ellipse_perimeter(length: Fraction, width: Fraction) -> float:
    """The perimeter, in the unit of the two axes, good to 1e-12 of itself.

    The arithmetic-geometric mean with the sum of its squared differences: NIST Digital Library of
    Mathematical Functions, 19.8(i), for the complete elliptic integral of the second kind.
    """
    larger, smaller = sorted((float(length) / 2, float(width) / 2), reverse=True)
    squares, weight = (larger**2 + smaller**2) / 2, 1
    # The differences shrink by squares, so that at 1e-9 the next one is beyond a float's digits.
    while larger - smaller > 1e-9 * larger:
        squares -= weight * ((larger - smaller) / 2) ** 2
        larger, smaller, weight = (larger + smaller) / 2, math.sqrt(larger * smaller), 2 * weight
    return 2 * math.pi * squares / ((larger + smaller) / 2)


def _named(shape: Shape) -> dict[str, Fraction | float] | None:
    match shape:
        case Rectangle(length, width) | Strip(length, width):
            return {"front": length, "right": width, "back": length, "left": width}
        case TriangleBySides(a, b, c):
            return {"a": a, "b": b, "c": c}
        case TriangleByHeight(base):
            return {"base": base}
        case Quadrilateral(a, b, c, d):
            return {"a": a, "b": b, "c": c, "d": d}
        case Trapezoid(a, b):
            return {"a": a, "b": b}
        case Circle(diameter) | Ring(diameter):
            return {"around": math.pi * float(diameter)}
        case HalfCircle(diameter):
            return {"straight": diameter, "curve": math.pi * float(diameter) / 2}
        case QuarterCircle(radius):
            return {"right": radius, "curve": math.pi * float(radius) / 2, "left": radius}
        case Ellipse(length, width):
            return {"around": ellipse_perimeter(length, width)}
        case Polygon(corners):
            return _numbered(distance(*leg) for leg in pairwise((*corners, corners[0])))
        case Widths():
            return _widths_sides(shape)
        case MapRing():
            return _numbered(ring_sides(shape))
        case Spokes() | StatedArea() | StatedVolume() | Composed():
            return None


def _numbered(lengths) -> dict[str, Fraction | float]:
    return {str(number): length for number, length in enumerate(lengths, start=1)}


def _widths_sides(bed: Widths) -> dict[str, Fraction | float]:
    slants = (distance((Fraction(0), here), (bed.every, there)) for here, there in pairwise(bed.across))
    return {
        "baseline": bed.every * (len(bed.across) - 1),
        "end": bed.across[-1],
        "far": sum(slants, Fraction(0)),
        "start": bed.across[0],
    }
