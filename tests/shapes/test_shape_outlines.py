"""Named sides and outlines, against Pythagoras, a published meridian and quadrature of the arc length."""

import math
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scopegen.shapes import (
    Circle,
    Ellipse,
    HalfCircle,
    Polygon,
    Quadrilateral,
    QuarterCircle,
    Rectangle,
    Ring,
    Spokes,
    StatedArea,
    StatedVolume,
    Strip,
    Trapezoid,
    TriangleByHeight,
    TriangleBySides,
    Widths,
    outline,
    sides,
)

NAMED = [
    (Rectangle(F(32), F(9, 2)), {"front": 32, "right": F(9, 2), "back": 32, "left": F(9, 2)}, 73),
    (Strip(F(40), F(2)), {"front": 40, "right": 2, "back": 40, "left": 2}, 84),
    (TriangleBySides(F(3), F(4), F(5)), {"a": 3, "b": 4, "c": 5}, 12),
    (TriangleByHeight(F(10), F(20)), {"base": 10}, None),
    (Quadrilateral(F(3), F(4), F(12), F(13), F(5)), {"a": 3, "b": 4, "c": 12, "d": 13}, 32),
    (Trapezoid(F(90), F(60), F(80)), {"a": 90, "b": 60}, None),
    # Offsets of 0, 3, 3 and 7 ft, 4 ft apart: slants of 5 (3-4-5), 4 and 4 x root 2, by Pythagoras.
    (
        Widths(F(4), (F(0), F(3), F(3), F(7))),
        {"baseline": 12, "end": 7, "far": 9 + 4 * math.sqrt(2), "start": 0},
        28 + 4 * math.sqrt(2),
    ),
    (Polygon(((F(0), F(0)), (F(4), F(0)), (F(4), F(3)))), {"1": 4, "2": 3, "3": 5}, 12),
    (Circle(F(10)), {"around": 10 * math.pi}, 10 * math.pi),
    (Ring(F(10), F(3)), {"around": 10 * math.pi}, 10 * math.pi),
    (HalfCircle(F(10)), {"straight": 10, "curve": 5 * math.pi}, 10 + 5 * math.pi),
    (QuarterCircle(F(10)), {"right": 10, "curve": 5 * math.pi, "left": 10}, 20 + 5 * math.pi),
    (Spokes((F(3), F(4), F(5))), None, None),
    (StatedArea(F(100)), None, None),
    (StatedVolume(F(27)), None, None),
]


@pytest.mark.parametrize(("shape", "named", "around"), NAMED, ids=lambda value: type(value).__name__)
def test_sides_and_outline(shape, named, around):
    found = sides(shape)
    if named is None:
        assert found is None
    else:
        assert list(found) == list(named)
        assert dict(found) == pytest.approx(named, rel=1e-15)
    assert outline(shape) == (around if around is None else pytest.approx(around, rel=1e-15))


def test_straight_sides_stay_exact():
    lengths = sides(Widths(F(4), (F(0), F(3), F(6)))).values()
    assert list(lengths) == [8, 6, 10, 0]
    assert all(isinstance(length, F) for length in lengths)
    assert isinstance(outline(Rectangle(F(32), F(9, 2))), F)


def test_sides_cannot_be_changed():
    with pytest.raises(TypeError):
        sides(Circle(F(10)))["around"] = 0


def test_ellipse_of_the_meridian():
    """Four meridian quadrants of GRS 80 with its two axes in metres.

    H. Moritz, Geodetic Reference System 1980, Bulletin Geodesique 54:3 (1980): a 6,378,137, b 6,356,752.3141,
    quadrant 10,001,965.7293 (seen second-hand). The last digit of b moves the quadrant by less than 0.0001.
    """
    meridian = Ellipse(2 * F(6_378_137), 2 * F("6356752.3141"))
    assert outline(meridian) / 4 == pytest.approx(10_001_965.7293, abs=2e-4)


def arc_length_by_quadrature(length, width):
    """The integral of the speed round the ellipse; on a closed curve equal steps converge fast."""
    steps = 20_000
    turns = (2 * math.pi * step / steps for step in range(steps))
    speed = (math.hypot(length / 2 * math.sin(turn), width / 2 * math.cos(turn)) for turn in turns)
    return math.fsum(speed) * 2 * math.pi / steps


@pytest.mark.parametrize(("length", "width"), [(20, 10), (10, 20), (7, 7), (30, 1), (100, 1), (12.5, 12.25)])
def test_ellipse_perimeter_by_quadrature(length, width):
    expected = arc_length_by_quadrature(length, width)
    assert outline(Ellipse(F(length), F(width))) == pytest.approx(expected, rel=1e-12)


@given(st.fractions(1, 200, max_denominator=48), st.fractions(F(1, 1000), 1, max_denominator=1000))
def test_ellipse_lies_between_its_diamond_and_its_box(length, share):
    """An oval's edge is no shorter than the diamond on its axes and no longer than the box round it."""
    width = length * share
    around = outline(Ellipse(length, width))
    assert 2 * math.hypot(length, width) < around < 2 * float(length + width)


def test_flat_ellipse_is_twice_its_length():
    """Squeezed flat, an oval is walked there and back."""
    assert outline(Ellipse(F(50), F(1, 10**9))) == pytest.approx(100, rel=1e-12)
