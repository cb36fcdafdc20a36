"""The area of parts whose positions are known, where what overlaps counts once."""

from __future__ import annotations

import math
from collections.abc import Iterable
from fractions import Fraction

from .areas import area
from .kinds import Circle, Ellipse, HalfCircle, QuarterCircle, Ring, Shape, Spokes, Widths
from .layout import corners

Placed = tuple[Shape, tuple[Fraction | float, Fraction | float], Fraction | float]


def united_area(placed: Iterable[Placed]) -> float:
    """The area in ft2 of (shape, (x, y), turned) each, where what overlaps counts once.

    The origin of the shape's layout lies at (x, y) ft, and the shape is turned about it by so many degrees
    counterclockwise. ValueError for a stated area or volume, which has no place.
    """
    from shapely import affinity, union_all

    regions = []
    for shape, (x, y), turned in placed:
        turned_region = affinity.rotate(_region(shape), float(turned), origin=(0, 0))
        regions.append(affinity.translate(turned_region, float(x), float(y)))
    return float(union_all(regions).area)


def _region(shape: Shape):
    """The shape as a region of just its own area: corners on a curve move out to make up for the chords."""
    from shapely import Polygon, affinity, make_valid

    if isinstance(shape, Ring):
        return _region(Circle(shape.outer)).difference(_region(Circle(shape.inner)))
    laid, own_area = corners(shape), area(shape)
    if laid is None or own_area is None:
        raise ValueError(f"{type(shape).__name__} has no outline to be placed")
    region = make_valid(Polygon(laid))
    match shape:
        case Circle() | HalfCircle() | QuarterCircle() | Ellipse() | Spokes():
            larger = math.sqrt(own_area / region.area)
            return affinity.scale(region, larger, larger, origin=(0, 0))
        case Widths():  # by Simpson's rule or the average: the baseline stays, the widths make it up
            return affinity.scale(region, 1, own_area / region.area, origin=(0, 0))
        case _:
            return region
