"""Impossible shapes: the whole message for every fault, and agreement with shapely on what is impossible."""

import re
from fractions import Fraction as F
from itertools import combinations, pairwise

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from scopegen.shapes import (
    Circle,
    Ellipse,
    Fault,
    HalfCircle,
    MapRing,
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
    faults,
)


def nothing(subject, found, again=None):
    return Fault(
        "no-measure",
        f"{subject} is {found}: it must be more than nothing",
        f"Measure {again or subject} again.",
    )


def polygon(*corners):
    return Polygon(tuple((F(x), F(y)) for x, y in corners))


def widths(*across, every=5, rule="trapezoid"):
    return Widths(F(every), tuple(map(F, across)), rule)


LONGEST = "cannot close: the longest must be shorter than the other two together"
WALK = "Give the corners in the order in which you meet them walking round."
LEAVE_OUT = "Leave one of them out; the line back to corner 1 is drawn by itself."
ON_THE_MAP = "is not on the map: longitude runs from -180 to 180 and latitude from -90 to 90"
DEGREES = "Write degrees, longitude first, then latitude."
YARD = ((-93.62, 41.6), (-93.6199, 41.6), (-93.6199, 41.6001), (-93.62, 41.6001))

IMPOSSIBLE = [
    (Rectangle(F(0), F(4)), nothing("the length", "0 ft")),
    (Rectangle(F(-3), F(0)), nothing("the length", "-3 ft"), nothing("the width", "0 ft")),
    (Strip(F(10), F(0)), nothing("the width", "0 ft")),
    (TriangleByHeight(F(0), F(0)), nothing("the base", "0 ft"), nothing("the height", "0 ft")),
    (Trapezoid(F(9), F(6), F(0)), nothing("the distance apart", "0 ft")),
    (Circle(F(0)), nothing("the diameter", "0 ft")),
    (HalfCircle(F(-1, 3)), nothing("the diameter", "-0.333 ft")),
    (QuarterCircle(F(0)), nothing("the radius", "0 ft")),
    (Ellipse(F(0), F(2)), nothing("the length", "0 ft")),
    (StatedArea(F(0)), nothing("the area", "0 ft2")),
    (StatedVolume(F(0)), nothing("the volume", "0 ft3")),
    (TriangleBySides(F(0), F(4), F(5)), nothing("the side a", "0 ft")),
    (
        TriangleBySides(F(1), F(2), F(5)),
        Fault("cannot-close", f"sides 1 ft, 2 ft and 5 ft {LONGEST}", "Measure the three sides again."),
    ),
    (
        TriangleBySides(F(1), F(3), F(2)),
        Fault("cannot-close", f"sides 1 ft, 3 ft and 2 ft {LONGEST}", "Measure the three sides again."),
    ),
    (
        Quadrilateral(F(4), F("4.5"), F(2), F(3), F(9)),
        Fault(
            "cannot-close",
            f"sides a and b with the diagonal, 4 ft, 4.5 ft and 9 ft {LONGEST}",
            "Measure sides a and b and the diagonal, which runs from where a starts to where b ends, again.",
        ),
        Fault(
            "cannot-close",
            f"sides c and d with the diagonal, 2 ft, 3 ft and 9 ft {LONGEST}",
            "Measure sides c and d and the diagonal, which runs from where a starts to where b ends, again.",
        ),
    ),
    (
        Ring(F(6), F(6)),
        Fault(
            "inner-not-smaller",
            "the inner diameter, 6 ft, is not smaller than the outer one, 6 ft",
            "Measure both again, and see that they did not change places.",
        ),
    ),
    (Ring(F(6), F(0)), nothing("the inner diameter", "0 ft")),
    (
        polygon((0, 0), (4, 0)),
        Fault("too-few", "2 corners are not enough: at least 3 are needed", "Add the missing corners."),
    ),
    (
        polygon((0, 0)),
        Fault("too-few", "1 corner is not enough: at least 3 are needed", "Add the missing corners."),
    ),
    (
        polygon((0, 0), (4, 0), (4, 0), (4, 3), (0, 0)),
        Fault("repeated", "corners 2 and 3 are the same", LEAVE_OUT),
        Fault("repeated", "corners 5 and 1 are the same", LEAVE_OUT),
    ),
    (
        polygon((0, 0), (4, 4), (2, 2)),
        Fault("no-area", "all corners lie in one line: they enclose nothing", "Measure the corners again."),
    ),
    (
        polygon((1, 1), (2, 3), (3, 5)),
        Fault("no-area", "all corners lie in one line: they enclose nothing", "Measure the corners again."),
    ),
    (
        polygon((0, 0), (4, 4), (4, 0), (0, 4)),
        Fault("crosses-itself", "the outline crosses or touches itself: side 1 meets side 3", WALK),
    ),
    (
        # The repeated corner is reported, and the sides that cross keep their own numbers.
        polygon((0, 0), (0, 0), (4, 4), (4, 0), (0, 4)),
        Fault("repeated", "corners 1 and 2 are the same", LEAVE_OUT),
        Fault("crosses-itself", "the outline crosses or touches itself: side 2 meets side 4", WALK),
    ),
    (
        polygon((0, 0), (6, 0), (3, 0), (0, 4)),
        Fault("crosses-itself", "the outline crosses or touches itself: side 1 meets side 2", WALK),
    ),
    (
        polygon((0, 0), (8, 0), (8, 4), (4, 0), (0, 4)),
        Fault("crosses-itself", "the outline crosses or touches itself: side 1 meets side 3", WALK),
    ),
    (widths(0, 3, every=0), nothing("the distance from width to width", "0 ft", "it")),
    (
        widths(0, 3, -1),
        Fault("no-measure", "width 3 is -1 ft: it must not be less than nothing", "Measure width 3 again."),
    ),
    (
        widths(3),
        Fault(
            "too-few",
            "1 width is not enough: at least 2 are needed, one at each end",
            "Add the missing widths; write 0 ft where the bed runs to a point.",
        ),
    ),
    (
        widths(0, 0, 0),
        Fault("no-area", "all widths are 0 ft: they enclose nothing", "Measure the widths again."),
    ),
    (
        widths(0, 3, 4, 3, 2, 0, rule="simpson"),
        Fault(
            "odd-strips",
            "Simpson's rule needs an even number of strips, and 6 widths make 5",
            "Measure again at equal steps so that the number of widths is odd, or use the trapezoid rule.",
        ),
    ),
    (
        widths(3, 4, rule="simpson"),
        Fault(
            "odd-strips",
            "Simpson's rule needs an even number of strips, and 2 widths make 1",
            "Measure again at equal steps so that the number of widths is odd, or use the trapezoid rule.",
        ),
    ),
    (
        Spokes((F(3), F(0))),
        nothing("spoke 2", "0 ft", "it"),
        Fault(
            "too-few",
            "2 spokes are not enough: at least 3 are needed",
            "Measure from the center to the edge at equal angles all round.",
        ),
    ),
    (
        MapRing(((41.6, -93.62), *YARD[1:])),
        Fault("off-the-map", f"point 1, [41.6, -93.62], {ON_THE_MAP}", DEGREES),
    ),
    (
        MapRing((*YARD[:2], (float("nan"), 41.6))),
        Fault("off-the-map", f"point 3, [nan, 41.6], {ON_THE_MAP}", DEGREES),
    ),
    *(
        (MapRing((off, *YARD[1:])), Fault("off-the-map", f"point 1, {shown}, {ON_THE_MAP}", DEGREES))
        for off, shown in [
            ((180.5, 41.6), "[180.5, 41.6]"),
            ((-180.5, 41.6), "[-180.5, 41.6]"),
            ((-93.62, 90.5), "[-93.62, 90.5]"),
            ((-93.62, -90.5), "[-93.62, -90.5]"),
        ]
    ),
    *(
        (
            MapRing((YARD[0],) * times),
            Fault("too-few", "1 point is not enough: at least 3 are needed", "Add the missing points."),
        )
        for times in (1, 2)  # closed on itself, a single point is still one point
    ),
    (
        MapRing((YARD[0], YARD[1], YARD[0])),
        Fault("too-few", "2 points are not enough: at least 3 are needed", "Add the missing points."),
    ),
    (
        MapRing((YARD[0], YARD[1], YARD[1], *YARD[2:])),
        Fault(
            "repeated",
            "points 2 and 3 are the same",
            "Leave one of them out; the line back to point 1 is drawn by itself.",
        ),
    ),
    (
        MapRing(((-93.62, 41.6), (-93.61, 41.6), (-93.615, 41.6))),
        Fault("no-area", "all points lie in one line: they enclose nothing", "Measure the points again."),
    ),
    (
        MapRing((YARD[0], YARD[2], YARD[1], YARD[3])),
        Fault(
            "crosses-itself",
            "the outline crosses or touches itself: side 1 meets side 3",
            "Give the points in the order in which you meet them walking round.",
        ),
    ),
]


@pytest.mark.parametrize("case", IMPOSSIBLE, ids=lambda case: f"{type(case[0]).__name__}-{case[1].code}")
def test_impossible_shape(case):
    shape, *expected = case
    assert list(faults(shape)) == expected


@pytest.mark.parametrize(
    "shape",
    [
        Rectangle(F(1, 12), F(4)),
        TriangleBySides(F(1), F(2), F("2.999")),
        Quadrilateral(F(3), F(4), F(3), F(4), F(5)),
        Ring(F(6), F("5.99")),
        polygon((0, 0), (10, 0), (10, 3), (4, 3), (4, 10), (0, 10)),
        polygon((0, 0), (2, 0), (4, 0), (4, 3)),  # a corner in the middle of a straight side does no harm
        widths(0, 3),
        widths(0, 3, 0, 3, 0),
        widths(0, 3, 4, 3, 0, rule="simpson"),
        widths(0, 3, 4, 3, 2, 0, rule="average"),
        Spokes((F(3), F(4), F(5))),
        MapRing(YARD),
        MapRing((*YARD, YARD[0])),
        MapRing(((180, 41.6), (-179.9999, 41.6), (-179.9999, 41.6001))),
        MapRing(((-180, 41.6), (-179.9999, 41.6), (-179.9999, 41.6001))),
        MapRing(((0, 90), (0, 89.9999), (90, 89.9999))),
        MapRing(((0, -90), (0, -89.9999), (90, -89.9999))),
        # 270 ft long and 4 in wide: thin, but a bed
        MapRing(((-93.62, 41.6), (-93.619, 41.6), (-93.619, 41.600001), (-93.62, 41.600001))),
        StatedVolume(F(1, 100)),
    ],
    ids=lambda shape: type(shape).__name__,
)
def test_possible_shape(shape):
    assert faults(shape) == ()


sides_of_up_to_12_ft = st.integers(1, 12).map(F)


@given(sides_of_up_to_12_ft, sides_of_up_to_12_ft, sides_of_up_to_12_ft)
def test_triangle_is_impossible_exactly_where_swung_tapes_do_not_cross(a, b, c):
    """A triangle is accepted exactly where tapes of its other two sides, swung from the first, cross."""
    from_left = shapely.Point(0, 0).buffer(float(c), quad_segs=256)
    from_right = shapely.Point(float(a), 0).buffer(float(b), quad_segs=256)
    pieces = (from_left & from_right, from_left - from_right, from_right - from_left)
    crossing = all(piece.area > 0.05 for piece in pieces)
    assert (faults(TriangleBySides(a, b, c)) == ()) is crossing


small_corners = st.lists(st.tuples(st.integers(0, 4), st.integers(0, 4)), min_size=3, max_size=7)


@given(small_corners)
def test_polygon_is_impossible_exactly_where_shapely_says_so(corners):
    """Pegs on a grid are accepted exactly where shapely finds their ring valid and no peg twice running."""
    repeated = any(here == there for here, there in pairwise([*corners, corners[0]]))
    ring = shapely.Polygon(corners)
    possible = not repeated and ring.is_valid and ring.area > 0
    assert (faults(polygon(*corners)) == ()) is possible


more_corners = st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9)), min_size=4, max_size=12, unique=True)


@given(more_corners)
def test_sides_that_meet_are_the_first_that_shapely_finds(corners):
    """Of all sides but neighbors, each held against each: the first two that have a point in common."""
    assume(shapely.MultiPoint(corners).convex_hull.area > 0)
    count = len(corners)
    lines = [shapely.LineString((corners[here], corners[(here + 1) % count])) for here in range(count)]
    meeting = [
        (here + 1, there + 1)
        for here, there in combinations(range(count), 2)
        if there - here not in (1, count - 1) and lines[here].intersects(lines[there])
    ]
    told = [re.findall(r"\d+", fault.message) for fault in faults(polygon(*corners))]
    pairs = [tuple(map(int, numbers)) for numbers in told if len(numbers) == 2]
    assert meeting == [] or pairs[0] <= meeting[0]
    assert all(pair in meeting or pair[1] - pair[0] in (1, count - 1) for pair in pairs)


def test_corner_on_a_side_is_found_however_its_decimals_run():
    """3/10 by 1/10 lies on the line from nothing to 3 by 1: floats, which have no tenths, deny it."""
    assert 0.3 * 1 != 0.1 * 3
    touching = polygon((0, 0), (3, 1), (3, 3), (F("0.3"), F("0.1")), (0, 3))
    (fault,) = faults(touching)
    assert fault.message == "the outline crosses or touches itself: side 1 meets side 3"
    assert faults(polygon((0, 0), (3, 1), (3, 3), (F("0.3"), F("0.1000001")), (0, 3))) == ()
