"""The area of parts whose positions are known, where what overlaps counts once."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from .areas import area
from .kinds import Circle, Composed, Ellipse, HalfCircle, Placed, QuarterCircle, Ring, Shape, Spokes, Widths
from .layout import corners


def united_area(parts: Iterable[Placed]) -> float:
    """The area in ft2 of parts whose places are known, where what overlaps counts once.

    ValueError for a stated area or volume, which has no place.
    """
    return float(_united(parts).area)


def united_outline(parts: Iterable[Placed]) -> float:
    """The outer line in ft round parts whose places are known; round each of them where they lie apart."""
    united = _united(parts)
    return float(sum(piece.exterior.length for piece in getattr(united, "geoms", (united,))))


def placeable(shape: Shape) -> bool:
    """Whether the shape has an outline, and its parts their places, so that it can be laid on another."""
    if isinstance(shape, Composed):
        return shape.positioned and all(placeable(part.shape) for part in shape.parts)
    return corners(shape) is not None


def area_outside(bed: Shape, hole: Placed) -> float:
    """How many ft2 of a shape that is laid on a bed lie outside it. Both must be placeable."""
    return float(_united([hole]).difference(_united([Placed(bed, (Fraction(0), Fraction(0)))])).area)


def shared_area(one: Placed, other: Placed) -> float:
    """How many ft2 two shapes have in common. Both must be placeable."""
    return float(_united([one]).intersection(_united([other])).area)


def laid_over(grounds: Sequence[tuple[Placed, tuple[Placed, ...]]]) -> Iterator[tuple[int, int, float]]:
    """Which shapes lie over each other, each less what is left out of it at these places of its own layout:
    the numbers of both, the lower first, and the ft2 that they have in common. All must be placeable."""
    if len(grounds) < 2:
        return
    from shapely import STRtree, affinity

    regions = []
    for ground, holes in grounds:
        region = _region(ground.shape).difference(_united(holes))
        turned = affinity.rotate(region, float(ground.turned), origin=(0, 0))
        regions.append(affinity.translate(turned, *(float(value) for value in ground.at or (0, 0))))
    tree = STRtree(regions)
    for number, region in enumerate(regions):
        for other in sorted(int(found) for found in tree.query(region)):
            if other > number and (shared := float(region.intersection(regions[other]).area)):
                yield number, other, shared


def _united(parts: Iterable[Placed]):
    from shapely import affinity, union_all

    regions = []
    for part in parts:
        x, y = part.at or (0, 0)
        turned = affinity.rotate(_region(part.shape), float(part.turned), origin=(0, 0))
        regions.append(affinity.translate(turned, float(x), float(y)))
    return union_all(regions)


def _region(shape: Shape):
    """The shape as a region of just its own area: corners on a curve move out to make up for the chords."""
    from shapely import Polygon, affinity, make_valid

    if isinstance(shape, Ring):
        return _region(Circle(shape.outer)).difference(_region(Circle(shape.inner)))
    if isinstance(shape, Composed):
        return _united(shape.parts)
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
