"""A shape laid out flat in feet, for drawing it and for uniting parts whose positions are known.

x runs to the right, y away from the viewer. (0, 0) is the start of the first side of a straight-sided shape,
the center of a round one and of spokes, the middle of a half circle's straight side, the square corner of a
quarter circle and the first point of a map ring. A polygon stays where its corners say.
"""

from __future__ import annotations

import math
from fractions import Fraction

from .areas import HALF, triangle_area
from .geodesy import ring_corners
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

Point = tuple[float, float]
Side = tuple[str, tuple[Point, ...]]

STEPS_ROUND = 96  # points on a full circle: the chord is off the curve by 1/1870 of the radius
ORIGIN = (0.0, 0.0)


def corners(shape: Shape) -> tuple[Point, ...] | None:
    """The outer line as corners in ft; None for what was only stated.

    Counterclockwise, or as walked where corners or points were given. A triangle by its height and a
    trapezoid are drawn symmetric, spokes at equal angles.
    """
    drawn = drawn_sides(shape)
    if drawn is None:
        return None
    points = [point for _, line in drawn for point in line]
    following = points[1:] + points[:1]
    return tuple(point for point, after in zip(points, following, strict=True) if point != after)


def drawn_sides(shape: Shape) -> tuple[Side, ...] | None:
    """Each side's name, '' where it was not measured, with its points in ft; None for a stated figure."""
    match shape:
        case Rectangle(length, width) | Strip(length, width):
            return _between(
                ("front", "right", "back", "left"), ((0, 0), (length, 0), (length, width), (0, width))
            )
        case TriangleBySides(a, b, c):
            return _between(("a", "b", "c"), ((0, 0), (a, 0), _apex(a, c, b)))
        case TriangleByHeight(base, height):
            return _between(("base", "", ""), ((0, 0), (base, 0), (base * HALF, height)))
        case Quadrilateral(a, b, c, d, diagonal):
            x, y = _apex(diagonal, a, b)
            return _between(("a", "b", "c", "d"), ((0, 0), (x, -y), (diagonal, 0), _apex(diagonal, d, c)))
        case Trapezoid(a, b, apart):
            inset = (a - b) * HALF
            return _between(("a", "", "b", ""), ((0, 0), (a, 0), (a - inset, apart), (inset, apart)))
        case Circle(diameter) | Ring(diameter):
            return (("around", _arc(diameter, diameter, 360)),)
        case Ellipse(length, width):
            return (("around", _arc(length, width, 360)),)
        case HalfCircle(diameter):
            curve = _arc(diameter, diameter, 180)
            return ("straight", (curve[-1], curve[0])), ("curve", curve)
        case QuarterCircle(radius):
            curve = _arc(2 * radius, 2 * radius, 90)
            return ("right", (ORIGIN, curve[0])), ("curve", curve), ("left", (curve[-1], ORIGIN))
        case Polygon(given):
            return _between(_numbers(len(given)), given)
        case Widths():
            return _widths_lines(shape)
        case Spokes(lengths):
            ends = [_round(2 * r, 2 * r, 360 * k / len(lengths)) for k, r in enumerate(lengths)]
            return (("", (*ends, ends[0])),)
        case MapRing():
            laid = ring_corners(shape)
            return _between(_numbers(len(laid)), laid)
        case StatedArea() | StatedVolume() | Composed():
            return None


def _between(names, points) -> tuple[Side, ...]:
    """Straight sides, each from its corner to the next one, the last back to the first."""
    flat = [(float(x), float(y)) for x, y in points]
    return tuple(zip(names, zip(flat, flat[1:] + flat[:1], strict=True), strict=True))


def _numbers(count: int) -> list[str]:
    return [str(number) for number in range(1, count + 1)]


def _apex(base: Fraction, left: Fraction, right: Fraction) -> tuple[Fraction, Fraction | float]:
    """The third corner over a base from (0, 0) to (base, 0), so far from its left and right end."""
    across = (left * left + base * base - right * right) / (2 * base)
    return across, 2 * triangle_area(base, left, right) / base


def _round(length: Fraction, width: Fraction, degrees: float) -> Point:
    turn = math.radians(degrees)
    # Rounded, so that a quarter turn ends on the axis and not 6e-17 beside it.
    return float(length) / 2 * round(math.cos(turn), 15), float(width) / 2 * round(math.sin(turn), 15)


def _arc(length: Fraction, width: Fraction, degrees: int) -> tuple[Point, ...]:
    steps = STEPS_ROUND * degrees // 360
    return tuple(_round(length, width, degrees * step / steps) for step in range(steps + 1))


def _widths_lines(bed: Widths) -> tuple[Side, ...]:
    far = [(float(bed.every * step), float(width)) for step, width in enumerate(bed.across)][::-1]
    end = (far[0][0], 0.0)
    return (
        ("baseline", (ORIGIN, end)),
        ("end", (end, far[0])),
        ("far", tuple(far)),
        ("start", (far[-1], ORIGIN)),
    )
