"""What was taped of a shape, as lines with their lengths: what a drawing puts its dimensions on."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from scopegen import shapes
from scopegen.drawing.values import Line

# `side`: on a side of the outline; `inside`: across the bed; `beside`: a length told beside the bed, between
# two of its points; `across`: one of many widths; `spoke`: from the center to the edge.
Where = Literal["side", "inside", "beside", "across", "spoke"]


@dataclass(frozen=True, slots=True)
class Taped:
    """One measure: the line it was taken along in ft, its length in ft, and where it lies."""

    line: Line
    length: Fraction | float
    where: Where
    every: Fraction | None = None  # the step of a baseline along which widths were taken


def taped(shape: shapes.Shape) -> tuple[Taped, ...]:
    """Every measure that gave the shape, in the shape's own layout. The sides of corners given by their
    places and of a map ring are worked out from these."""
    match shape:
        case shapes.Rectangle(length, width) | shapes.Strip(length, width):
            lines = _sides(shape)
            return Taped(lines["front"], length, "side"), Taped(lines["right"], width, "side")
        case shapes.Circle(diameter):
            return (_across(diameter),)
        case shapes.Ring(outer, inner):
            half = float(inner) / 2
            return _across(outer), Taped(((-half, 0.0), (half, 0.0)), inner, "inside")
        case shapes.Ellipse(length, width):
            half = float(width) / 2
            return _across(length, half), Taped(
                ((float(length) / 2, -half), (float(length) / 2, half)), width, "beside"
            )
        case shapes.HalfCircle(diameter):
            return (Taped(_sides(shape)["straight"], diameter, "side"),)
        case shapes.QuarterCircle(radius):
            return (Taped(_sides(shape)["right"], radius, "side"),)
        case shapes.TriangleByHeight(base, height):
            foot = float(base) / 2
            upright = ((foot, 0.0), (foot, float(height)))
            return Taped(_sides(shape)["base"], base, "side"), Taped(upright, height, "inside")
        case shapes.Trapezoid():
            return _trapezoid(shape)
        case shapes.Quadrilateral(diagonal=diagonal):
            across = Taped(((0.0, 0.0), (float(diagonal), 0.0)), diagonal, "inside")
            return *_every_side(shape), across
        case shapes.Widths():
            return tuple(_widths(shape))
        case shapes.Spokes(lengths):
            ends = shapes.drawn_sides(shape)[0][1]
            pairs = zip(ends, lengths, strict=False)  # the ring of ends closes on its first
            return tuple(Taped(((0.0, 0.0), end), length, "spoke") for end, length in pairs)
        case shapes.StatedArea() | shapes.StatedVolume() | shapes.Composed():
            return ()
        case _:
            return _every_side(shape)


def _sides(shape: shapes.Shape) -> dict[str, Line]:
    return dict(shapes.drawn_sides(shape) or ())


def _every_side(shape: shapes.Shape) -> tuple[Taped, ...]:
    lengths = shapes.sides(shape) or {}
    return tuple(Taped(line, lengths[name], "side") for name, line in _sides(shape).items())


def _across(length: Fraction, half_height: float | None = None) -> Taped:
    """A diameter or a long axis, told under the bed."""
    half = float(length) / 2
    below = -(half if half_height is None else half_height)
    return Taped(((-half, below), (half, below)), length, "beside")


def _trapezoid(shape: shapes.Trapezoid) -> tuple[Taped, ...]:
    lines, apart = _sides(shape), float(shape.apart)
    foot = float(shape.a) / 2  # the middle of a, which is the middle of b too
    return (
        Taped(lines["a"], shape.a, "side"),
        Taped(lines["b"], shape.b, "side"),
        Taped(((foot, 0.0), (foot, apart)), shape.apart, "inside"),
    )


def _widths(shape: shapes.Widths):
    baseline = _sides(shape)["baseline"]
    yield Taped(baseline, shape.every * (len(shape.across) - 1), "side", shape.every)
    for step, width in enumerate(shape.across):
        along = float(shape.every * step)
        yield Taped(((along, 0.0), (along, float(width))), width, "across")


def moved(line: Line, place: shapes.Placed) -> Line:
    """A line of a part's own layout where the part lies in its bed."""
    x, y = (float(value) for value in place.at or (0, 0))
    turn = math.radians(float(place.turned))
    cos, sin = math.cos(turn), math.sin(turn)
    return tuple((x + a * cos - b * sin, y + a * sin + b * cos) for a, b in line)


def long(line: Line) -> float:
    """How long a line is."""
    return sum(math.dist(here, there) for here, there in pairwise(line))
