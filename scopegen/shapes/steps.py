"""The steps of an area with their values, for a paper that shows how it was worked out."""

from __future__ import annotations

import dataclasses
from fractions import Fraction

from .areas import area, mean, triangle_area, twice_enclosed
from .geodesy import ring_points
from .kinds import Composed, MapRing, Polygon, Quadrilateral, Shape, Spokes, TriangleBySides, Widths

Step = tuple[str, Fraction | float]


def working(shape: Shape) -> tuple[Step, ...]:
    """What was measured, what was worked out on the way, then `area` in ft2; or only `volume` in ft3.

    Names repeat where a measure does: a polygon has x, y, x, y and so on, widths a `width` each.
    """
    result = area(shape)
    measured_and_between = _between(shape)
    if result is None or measured_and_between[-1][0] == "area":
        return measured_and_between
    return *measured_and_between, ("area", result)


def _between(shape: Shape) -> tuple[Step, ...]:
    match shape:
        case TriangleBySides(a, b, c):
            return *_measured(shape), ("half the outline", (a + b + c) / 2)
        case Quadrilateral(a, b, c, d, diagonal):
            first, second = triangle_area(a, b, diagonal), triangle_area(c, d, diagonal)
            return *_measured(shape), ("first triangle", first), ("second triangle", second)
        case Polygon(corners):
            placed = [step for x, y in corners for step in (("x", x), ("y", y))]
            return *placed, ("twice the area", abs(twice_enclosed(corners)))
        case Widths():
            widths = (("width", width) for width in shape.across)
            return ("every", shape.every), *widths, *_rule_sums(shape)
        case Spokes(lengths):
            return *(("spoke", length) for length in lengths), ("average radius", mean(lengths))
        case Composed(parts):
            return tuple(("part", area(part.shape) or Fraction(0)) for part in parts)
        case MapRing():
            return (("points", Fraction(len(ring_points(shape)))),)
        case _:
            return _measured(shape)


def _measured(shape: Shape) -> tuple[Step, ...]:
    return tuple((field.name, getattr(shape, field.name)) for field in dataclasses.fields(shape))


def _rule_sums(bed: Widths) -> tuple[Step, ...]:
    """The sums that a rule multiplies: by the step for trapezoids, by a third of it for Simpson's."""
    ends, inner = bed.across[0] + bed.across[-1], bed.across[1:-1]
    match bed.rule:
        case "trapezoid":
            return ("half the first and last", ends / 2), ("those between", sum(inner, Fraction(0)))
        case "simpson":
            fourfold, double = sum(inner[::2], Fraction(0)), sum(inner[1::2], Fraction(0))
            return (
                ("first and last", ends),
                ("four times every second", 4 * fourfold),
                ("twice the others", 2 * double),
            )
        case "average":
            return ("average width", mean(bed.across)), ("length", bed.every * (len(bed.across) - 1))
