"""Areas against published worked examples.

'Computed' marks a figure worked out from the definition beside it, 'second-hand' one seen on a page that is
not the authority's own.
"""

import math
from fractions import Fraction as F

import pytest

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
    area,
    fits,
)

# The guide's hand sums use 3.14 for pi, 0.05 % low.
SCHOOL_PI = F(314, 100)


def exactly(shape, expected):
    """Equal, and a fraction: nothing was rounded on the way."""
    assert area(shape) == expected
    assert isinstance(area(shape), F)


def with_school_pi(shape):
    return float(area(shape)) * float(SCHOOL_PI) / math.pi


# Purdue University Turf Tips, "How Big is Your Lawn?", 18 April 2014.
PURDUE_LOT = Trapezoid(F(90), F(60), F(80))
PURDUE_LEFT_OUT = [
    (Rectangle(F(50), F(25)), 1250),
    (Rectangle(F(15), F(40)), 600),
    (Rectangle(F(8), F(12)), 96),
    (Rectangle(F(10), F(5)), 50),
    (Strip(F(25), F(5)), 125),
]


def test_purdue_lot_is_a_trapezoid_of_6000_ft2():
    exactly(PURDUE_LOT, 6000)


@pytest.mark.parametrize(("shape", "printed"), PURDUE_LEFT_OUT)
def test_purdue_house_drive_porch_and_straight_beds(shape, printed):
    exactly(shape, printed)


def test_purdue_quarter_circle_bed_is_50_ft2():
    bed = QuarterCircle(F(8))
    assert with_school_pi(bed) == pytest.approx(50.24, abs=1e-9)
    assert area(bed) == pytest.approx(50.265, abs=5e-4)  # computed with pi


def test_purdue_lot_less_all_that_is_left_out_is_3779_ft2():
    """The page rounds the quarter circle to 50; one more 50 ft2 stands in its sum."""
    left_out = sum(area(shape) for shape, _ in PURDUE_LEFT_OUT) + round(area(QuarterCircle(F(8)))) + 50
    assert left_out == 2221
    assert area(PURDUE_LOT) - left_out == 3779


def test_clemson_lawn_examples():
    """Clemson Cooperative Extension HGIC 1220, "Measuring the Area of a Home Lawn", examples 1 and 2."""
    exactly(Rectangle(F(50), F(25)), 1250)
    lawn = Circle(F(60))
    assert with_school_pi(lawn) == pytest.approx(2826, abs=1e-9)
    assert area(lawn) == pytest.approx(2827.43, abs=5e-3)  # computed with pi


def test_missouri_formulas():
    """University of Missouri IPM, "Calibration Guidelines for Home Lawns", 1 March 2010; figures computed."""
    exactly(Rectangle(F(31, 2), F(4)), 62)
    exactly(Trapezoid(F(7), F(4), F(3)), F(33, 2))
    exactly(TriangleByHeight(F(7), F(3)), F(21, 2))
    assert with_school_pi(Circle(F(14))) == pytest.approx(3.14 * 7**2, abs=1e-9)


def test_missouri_oval_rule_is_not_quite_2_percent_high():
    """The same guide's rule for an oval, length x height x 0.8, stands 1.86 % over the ellipse (computed)."""
    oval = area(Ellipse(F(20), F(10)))
    assert oval == pytest.approx(157.08, abs=5e-3)
    assert 160 / oval == pytest.approx(1.0186, abs=5e-5)


@pytest.mark.parametrize("strips", [8, 10, 16])
def test_missouri_offset_method_is_within_5_percent_of_an_oval(strips):
    """The same guide says so of widths at equal steps, square to the longest axis. An oval needs 8 strips."""
    step = F(60, strips)
    across = tuple(F(20 * math.sqrt(max(0, 1 - (2 * k / strips - 1) ** 2))) for k in range(strips + 1))
    oval = area(Ellipse(F(60), F(20)))
    assert 0.95 * oval < area(Widths(step, across)) < oval


def test_triangle_and_circle_of_the_sod_pages():
    """Seen second-hand on several pages on measuring for sod; plain geometry."""
    exactly(TriangleByHeight(F(10), F(20)), 100)
    assert with_school_pi(Circle(F(20))) == pytest.approx(314, abs=1e-9)


# City of Santa Ana, California, agreement with the Municipal Water District of Orange County, Exhibit A
# (23 July 2025), measurement guide.
SANTA_ANA_OFFSETS = tuple(F(width) for width in (0, 15, 10, 15, 25, 20, 0))
SANTA_ANA_RADII = tuple(F(radius) for radius in (10, 15, 10, 12, 15, 13, 10, 15, 17, 9, 8, 15, 16, 10, 12, 9))


def test_santa_ana_bed_by_offsets_is_850_ft2():
    exactly(Widths(F(10), SANTA_ANA_OFFSETS), 850)


def test_santa_ana_bed_by_simpsons_rule_would_be_900_ft2():
    """Computed from the same offsets: the rule makes a difference and is never chosen silently."""
    exactly(Widths(F(10), SANTA_ANA_OFFSETS, "simpson"), 900)


def test_santa_ana_round_bed_by_16_radii_is_471_ft2():
    assert with_school_pi(Spokes(SANTA_ANA_RADII)) == pytest.approx(3.14 * 12.25**2, abs=1e-9)
    assert round(area(Spokes(SANTA_ANA_RADII))) == 471


def test_offsets_25_apart():
    """The first strip, 737.5, stands on mathhelpforum.com, "Surveying calculations"; the rest computed."""
    exactly(Widths(F(25), (F("19.4"), F("39.6"))), F("737.5"))
    exactly(Widths(F(25), (F("39.6"), F("54.8"))), 1180)
    exactly(Widths(F(25), (F("19.4"), F("39.6"), F("54.8"))), F("1917.5"))


@pytest.mark.parametrize(
    ("rule", "printed", "places"),
    [("average", 442.66, 1e-2), ("trapezoid", 460.75, 0), ("simpson", 461.167, 1e-3)],
)
def test_nine_offsets_by_all_three_rules(rule, printed, places):
    """Nine offsets 10 m apart, "Calculation of Areas from offsets to a Base line", sensecentral.com."""
    across = tuple(map(F, ("3.15", "4.3", "8.2", "5.6", "6.85", "7.6", "4.2", "5.6", "4.3")))
    assert float(area(Widths(F(10), across, rule))) == pytest.approx(printed, abs=places)


@pytest.mark.parametrize(("rule", "printed", "places"), [("trapezoid", 211.4, 0), ("simpson", 211.17, 5e-3)])
def test_thirteen_offsets_by_two_rules(rule, printed, places):
    """Thirteen offsets 3.5 m apart, handout "Area by Offsets from a Straight Line" (second-hand)."""
    across = tuple(map(F, "0.8 3.6 4.7 5.3 3.9 2.7 4.6 5.5 4.9 7.6 8.8 5.4 6.0".split()))
    assert float(area(Widths(F("3.5"), across, rule))) == pytest.approx(printed, abs=places)


def test_average_width_and_trapezoid_rule_differ_by_2_percent():
    """Nine offsets 10 m apart, an exercise on askfilo.com: 439.67 by Simpson's (second-hand).

    By the average 424.44 and by trapezoids 433 (computed): the method has to be named.
    """
    across = tuple(map(F, ("3.25", "5.60", "4.20", "6.65", "8.75", "6.20", "3.25", "4.20", "5.65")))
    average, trapezoids, simpson = (
        area(Widths(F(10), across, rule)) for rule in ("average", "trapezoid", "simpson")
    )
    assert float(simpson) == pytest.approx(439.67, abs=5e-3)
    assert float(average) == pytest.approx(424.44, abs=5e-3)
    assert trapezoids == 433
    assert trapezoids / average == pytest.approx(1.02, abs=5e-4)


def test_heron_is_exact_where_the_root_is():
    """3-4-5 and 13-14-15, triangles of whole sides and area; common knowledge."""
    exactly(TriangleBySides(F(3), F(4), F(5)), 6)
    exactly(TriangleBySides(F(15), F(13), F(14)), 84)
    exactly(TriangleBySides(F("1.5"), F(2), F("2.5")), F(3, 2))
    exactly(TriangleBySides(F(3, 7), F(4, 7), F(5, 7)), F(6, 49))
    assert area(TriangleBySides(F(2), F(2), F(2))) == pytest.approx(math.sqrt(3), rel=1e-15)


def test_heron_keeps_its_digits_on_a_needle():
    """A needle 100,000 ft long and 2 ft wide at its foot: half of 2 x its height (computed by Pythagoras)."""
    needle = TriangleBySides(F(100_000), F(100_000), F(2))
    assert area(needle) == pytest.approx(math.sqrt(100_000**2 - 1), rel=1e-15)


def test_quadrilateral_is_two_tape_triangles():
    """Rectangle and kite of 3-4-5 and 13-14-15 triangles, and a 3-4-5 on a 5-12-13 (computed)."""
    exactly(Quadrilateral(F(3), F(4), F(3), F(4), F(5)), 12)
    exactly(Quadrilateral(F(13), F(15), F(15), F(13), F(14)), 168)
    exactly(Quadrilateral(F(3), F(4), F(12), F(13), F(5)), 36)  # a 3-4-5 and a 5-12-13


def test_polygon_of_an_l_shaped_bed():
    """An L: 10 x 10 less a corner of 6 x 7 (computed by taking one rectangle from the other)."""
    exactly(Polygon(tuple((F(x), F(y)) for x, y in [(0, 0), (10, 0), (10, 3), (4, 3), (4, 10), (0, 10)])), 58)


def test_round_shapes():
    """Archimedes: a disk is the triangle of its radius and its circumference; common knowledge."""
    assert area(HalfCircle(F(8))) == pytest.approx(8 * math.pi, rel=1e-15)
    assert area(Ring(F(6), F(2))) == pytest.approx(8 * math.pi, rel=1e-15)


def test_stated_figures():
    exactly(StatedArea(F(250)), 250)
    assert area(StatedVolume(F(54))) is None


@pytest.mark.parametrize(
    ("hole", "bed", "answer"),
    [
        (Circle(F(3)), Rectangle(F(4), F(2)), True),
        (Rectangle(F(2), F(4)), Rectangle(F(4), F(2)), True),
        (Rectangle(F(2), F("4.001")), Rectangle(F(4), F(2)), False),
        (Circle(F("3.2")), Rectangle(F(4), F(2)), False),
        (StatedVolume(F(1)), Rectangle(F(4), F(2)), False),
        (Circle(F(3)), StatedVolume(F(100)), False),
    ],
)
def test_what_is_left_out_is_no_larger_than_the_bed(hole, bed, answer):
    assert fits(hole, bed) is answer
