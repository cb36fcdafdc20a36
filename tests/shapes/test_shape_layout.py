"""Shapes laid out and united, against shapely's areas."""

import math
from fractions import Fraction as F

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from scopegen.shapes import (
    Circle,
    Ellipse,
    HalfCircle,
    MapRing,
    Placed,
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
    area,
    corners,
    drawn_sides,
    sides,
    united_area,
)

STRAIGHT = [
    Rectangle(F(32), F(9, 2)),
    Strip(F(40), F(2)),
    TriangleBySides(F(13), F(14), F(15)),
    TriangleBySides(F(7), F(3), F(5)),
    TriangleByHeight(F(10), F(20)),
    Quadrilateral(F(3), F(4), F(12), F(13), F(5)),
    Trapezoid(F(90), F(60), F(80)),
    Trapezoid(F(6), F(9), F(8)),
    Polygon(((F(0), F(0)), (F(10), F(0)), (F(10), F(3)), (F(4), F(3)), (F(4), F(10)), (F(0), F(10)))),
    Widths(F(5), (F(0), F(10, 3), F(4), F(23, 6), F(2), F(0))),
    Widths(F(5), (F(2), F(4), F(3))),
]
ROUND = [Circle(F(10)), HalfCircle(F(10)), QuarterCircle(F(10)), Ellipse(F(20), F(10))]
FOUND_BY_A_RULE = [
    Spokes(tuple(F(n) for n in (10, 15, 10, 12, 15, 13))),
    Widths(F(10), tuple(F(n) for n in (0, 15, 10, 15, 25, 20, 0)), "simpson"),
]


def united(parts):
    """The area of (shape, (x, y), turned) each, what overlaps counted once."""
    return united_area([Placed(*part) for part in parts])


def of(shape):
    return type(shape).__name__


@pytest.mark.parametrize("shape", STRAIGHT, ids=of)
def test_straight_layout_has_the_area_of_the_shape(shape):
    laid = shapely.Polygon(corners(shape))
    assert laid.is_valid
    assert laid.area == pytest.approx(float(area(shape)), rel=1e-12)


@pytest.mark.parametrize("shape", ROUND, ids=of)
def test_round_layout_falls_short_by_its_chords_only(shape):
    """96 chords enclose less than their circle by (2 pi / 96)^2 / 6, by the series of the sine: 0.0714 %."""
    short = 1 - shapely.Polygon(corners(shape)).area / area(shape)
    assert short == pytest.approx((2 * math.pi / 96) ** 2 / 6, rel=1e-3)


@pytest.mark.parametrize("shape", STRAIGHT[:-2] + [STRAIGHT[-1], *ROUND], ids=of)
def test_layout_is_walked_counterclockwise(shape):
    assert shapely.LinearRing(corners(shape)).is_ccw


@pytest.mark.parametrize("shape", [*STRAIGHT, *ROUND], ids=of)
def test_each_drawn_side_is_as_long_as_it_was_measured(shape):
    drawn = {name: shapely.LineString(line).length for name, line in drawn_sides(shape) if name}
    measured = {name: float(length) for name, length in sides(shape).items()}
    assert drawn.keys() == measured.keys()
    assert drawn == pytest.approx(measured, rel=2e-4)  # 96 chords are 0.018 % shorter than the curve


@pytest.mark.parametrize("shape", [*STRAIGHT, *ROUND, *FOUND_BY_A_RULE], ids=of)
def test_drawn_sides_join_up_all_round(shape):
    lines = [line for _, line in drawn_sides(shape)]
    assert all(line[-1] == following[0] for line, following in zip(lines, lines[1:] + lines[:1], strict=True))


def test_layouts_by_hand():
    """Points worked out by hand from 3-4-5 triangles."""
    assert corners(Rectangle(F(32), F(9, 2))) == ((0, 0), (32, 0), (32, 4.5), (0, 4.5))
    assert corners(TriangleBySides(F(4), F(3), F(5))) == ((0, 0), (4, 0), (4, 3))
    assert corners(TriangleByHeight(F(10), F(20))) == ((0, 0), (10, 0), (5, 20))
    assert corners(Trapezoid(F(6), F(10), F(3))) == ((0, 0), (6, 0), (8, 3), (-2, 3))
    assert corners(Quadrilateral(F(5), F(5), F(5), F(5), F(8))) == ((0, 0), (4, -3), (8, 0), (4, 3))
    assert corners(Widths(F(5), (F(0), F(4), F(2)))) == ((0, 0), (10, 0), (10, 2), (5, 4))
    assert corners(Spokes((F(3), F(4), F(5), F(6)))) == ((3, 0), (0, 4), (-5, 0), (0, -6))
    assert len(corners(Circle(F(10)))) == 96
    half = corners(HalfCircle(F(10)))
    assert (len(half), half[0], half[1], half[25]) == (49, (-5, 0), (5, 0), (0, 5))
    assert corners(QuarterCircle(F(10)))[:2] == ((0, 0), (10, 0))
    assert corners(QuarterCircle(F(10)))[-1] == (0, 10)


@pytest.mark.parametrize("shape", [StatedArea(F(100)), StatedVolume(F(27))], ids=of)
def test_what_was_only_stated_has_no_layout(shape):
    assert corners(shape) is None
    assert drawn_sides(shape) is None
    with pytest.raises(ValueError, match=f"^{of(shape)} has no outline to be placed$"):
        united([(shape, (0, 0), 0)])


def test_overlap_counts_once():
    """Two 10 x 4 beds that cross square: 80 less the 4 x 4 they share, by hand."""
    cross = [(Rectangle(F(10), F(4)), (F(0), F(3)), 0), (Rectangle(F(10), F(4)), (F(7), F(0)), 90)]
    assert united(cross) == pytest.approx(64, rel=1e-12)


def test_tree_ring_leaves_its_clearing_open():
    ring = Ring(F(6), F(2))
    assert united([(ring, (0, 0), 0)]) == pytest.approx(8 * math.pi, rel=1e-12)
    assert united([(ring, (0, 0), 0), (Rectangle(F(1), F(1)), (F(-1, 2), F(-1, 2)), 0)]) == pytest.approx(
        8 * math.pi + 1, rel=1e-12
    )


def test_strip_with_a_half_circle_at_its_end():
    """The two meet along the strip's end and nothing is lost there."""
    parts = [(Strip(F(20), F(6)), (0, 0), 0), (HalfCircle(F(6)), (F(20), F(3)), -90)]
    assert united(parts) == pytest.approx(120 + 4.5 * math.pi, rel=1e-12)


def test_a_part_is_laid_and_turned_about_its_first_corner():
    """A 10 x 4 bed laid at (2, 3) and turned a quarter left covers x -2 to 2 and y 3 to 13, by hand."""
    turned = (Rectangle(F(10), F(4)), (F(2), F(3)), 90)
    assert united([turned, (Rectangle(F(4), F(10)), (F(-2), F(3)), 0)]) == pytest.approx(40, rel=1e-12)


def test_quarter_circle_between_two_strips():
    """Strips along both straight sides of a quarter circle share no ground with it."""
    parts = [
        (QuarterCircle(F(10)), (0, 0), 0),
        (Strip(F(10), F(2)), (0, F(-2)), 0),
        (Strip(F(10), F(2)), (0, 0), 90),
    ]
    assert united(parts) == pytest.approx(25 * math.pi + 40, rel=1e-12)


def test_bed_by_simpsons_rule_stays_on_its_baseline():
    """A strip along the baseline shares no ground with the bed: 900 ft2 and 120 ft2."""
    parts = [(FOUND_BY_A_RULE[-1], (0, 0), 0), (Strip(F(60), F(2)), (0, F(-2)), 0)]
    assert united(parts) == pytest.approx(1020, rel=1e-12)


def test_nothing_placed_is_nothing():
    assert united([]) == 0


def test_map_ring_can_be_placed():
    yard = MapRing(((-93.62, 41.6), (-93.6199, 41.6), (-93.6199, 41.6001), (-93.62, 41.6001)))
    assert united([(yard, (0, 0), 0)]) == pytest.approx(area(yard), rel=1e-7)


feet = st.fractions(-30, 30, max_denominator=12)
any_shape = st.sampled_from([*STRAIGHT, *ROUND, *FOUND_BY_A_RULE, Ring(F(6), F(2))])
placings = st.lists(
    st.tuples(any_shape, st.tuples(feet, feet), st.integers(-180, 180)), min_size=1, max_size=4
)


@given(any_shape, feet, feet, st.integers(-360, 360))
def test_a_part_alone_keeps_its_area_wherever_it_lies(shape, x, y, turned):
    """Moving a bed over the lawn or turning it does not change its area."""
    assert united([(shape, (x, y), turned)]) == pytest.approx(float(area(shape)), rel=1e-9)


@given(placings)
def test_order_and_repeats_of_parts_do_not_matter(placed):
    """The order in which parts are listed does not change the area, and a part listed twice counts once."""
    once = united(placed)
    assert united(placed[::-1]) == pytest.approx(once, rel=1e-9)
    assert united([*placed, placed[0]]) == pytest.approx(once, rel=1e-9)


@given(placings)
def test_united_parts_are_no_more_than_their_sum_and_no_less_than_the_largest(placed):
    """Parts put together make no more ground than one by one, and no less than the largest of them."""
    single = [float(area(shape)) for shape, _, _ in placed]
    assert max(single) * (1 - 1e-9) <= united(placed) <= sum(single) * (1 + 1e-9)


@given(placings)
def test_parts_that_lie_apart_add_up(placed):
    """Beds that do not touch add up to the square foot."""
    apart = [(shape, (F(500 * number), F(0)), turned) for number, (shape, _, turned) in enumerate(placed)]
    assert united(apart) == pytest.approx(sum(float(area(shape)) for shape, _, _ in placed), rel=1e-9)
