"""Laws of measuring that hold for every bed."""

import dataclasses
import math
from fractions import Fraction as F

import pytest
import shapely
from hypothesis import assume, given
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
    Strip,
    Trapezoid,
    TriangleByHeight,
    TriangleBySides,
    Widths,
    area,
    faults,
    outline,
)

feet = st.fractions(F(1, 12), 200, max_denominator=48)
rules = st.sampled_from(["trapezoid", "simpson", "average"])
COMPASS = ((1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1))


@st.composite
def triangles(draw):
    """Two sides and a third one between their difference and their sum."""
    a, b = draw(feet), draw(feet)
    share = draw(st.fractions(F(1, 50), F(49, 50), max_denominator=100))
    return TriangleBySides(a, b, abs(a - b) + share * (a + b - abs(a - b)))


@st.composite
def compass_polygons(draw):
    """Eight corners seen from a center in eight directions: never crossing itself, seldom convex."""
    reach = draw(st.tuples(*[feet] * 8))
    return Polygon(tuple((x * r, y * r) for (x, y), r in zip(COMPASS, reach, strict=True)))


@st.composite
def widths(draw):
    return Widths(draw(feet), tuple(draw(st.lists(feet, min_size=3, max_size=3))), draw(rules))


shapes = st.one_of(
    st.builds(Rectangle, feet, feet),
    st.builds(Strip, feet, feet),
    triangles(),
    st.builds(TriangleByHeight, feet, feet),
    st.builds(lambda t: Quadrilateral(t.a, t.b, t.a, t.b, t.c), triangles()),
    st.builds(Trapezoid, feet, feet, feet),
    st.builds(Circle, feet),
    st.builds(HalfCircle, feet),
    st.builds(QuarterCircle, feet),
    st.builds(lambda inner, more: Ring(inner + more, inner), feet, feet),
    st.builds(Ellipse, feet, feet),
    compass_polygons(),
    widths(),
    st.builds(Spokes, st.lists(feet, min_size=3, max_size=16).map(tuple)),
)


def times(k, value):
    if isinstance(value, tuple):
        return tuple(times(k, part) for part in value)
    return value if isinstance(value, str) else k * value


def scaled(k, shape):
    return dataclasses.replace(
        shape, **{field.name: times(k, getattr(shape, field.name)) for field in dataclasses.fields(shape)}
    )


@given(shapes, st.fractions(F(1, 10), 10, max_denominator=24))
def test_drawing_to_another_scale(shape, k):
    """With every length k times as long, the outline is k times as long and the area k times k as large."""
    larger = scaled(k, shape)
    assert float(area(larger)) == pytest.approx(float(k * k) * float(area(shape)), rel=1e-12)
    if outline(shape) is None:
        assert outline(larger) is None
    else:
        assert float(outline(larger)) == pytest.approx(float(k) * float(outline(shape)), rel=1e-12)


@given(shapes)
def test_sound_shapes_have_no_faults_and_some_area(shape):
    """A bed that can be pegged out is never refused."""
    assert faults(shape) == ()
    assert area(shape) > 0


@given(feet, feet, st.fractions(F(1, 20), F(19, 20), max_denominator=40))
def test_a_rectangle_split_in_two(length, width, share):
    """Splitting a rectangle in two does not change its area."""
    parts = Rectangle(length * share, width), Rectangle(length * (1 - share), width)
    assert area(parts[0]) + area(parts[1]) == area(Rectangle(length, width))


@given(compass_polygons(), st.integers(0, 7), st.booleans())
def test_walking_round_from_another_corner(bed, start, backwards):
    """Where the walk round a bed starts, and which way it goes, changes neither area nor outline."""
    walked = bed.corners[start:] + bed.corners[:start]
    other = Polygon(walked[::-1] if backwards else walked)
    assert area(other) == area(bed)
    assert isinstance(area(other), F)
    assert float(outline(other)) == pytest.approx(float(outline(bed)), rel=1e-12)


@given(compass_polygons())
def test_polygon_is_what_shapely_makes_of_it(bed):
    """Area and outline of a polygon are those that a geometry library finds."""
    drawn = shapely.Polygon([(float(x), float(y)) for x, y in bed.corners])
    assert float(area(bed)) == pytest.approx(drawn.area, rel=1e-9)
    assert float(outline(bed)) == pytest.approx(drawn.length, rel=1e-9)


@given(feet, feet, st.fractions(-50, 250, max_denominator=24))
def test_triangle_by_sides_agrees_with_base_and_height(base, height, foot):
    """A triangle taped by its three sides has the area of its base and height, wherever the height stands."""
    left, right = math.hypot(foot, height), math.hypot(base - foot, height)
    a, b, c = sorted((left, right, float(base)))
    assume(a + b - c > 1e-6 * c)  # a needle's taped sides say little about its height
    taped = TriangleBySides(base, F(right), F(left))
    assume(not faults(taped))
    assert float(area(taped)) == pytest.approx(float(area(TriangleByHeight(base, height))), rel=1e-6)


@given(triangles())
def test_the_order_of_a_triangles_sides(triangle):
    """It does not matter which side of a triangle is called a."""
    a, b, c = triangle.a, triangle.b, triangle.c
    assert area(TriangleBySides(c, a, b)) == area(TriangleBySides(b, a, c)) == area(triangle)


share_of_diagonal = st.fractions(F(1, 10), F(9, 10), max_denominator=20)


@given(
    st.fractions(5, 100, max_denominator=12), share_of_diagonal, share_of_diagonal, *[st.fractions(3, 60)] * 2
)
def test_two_tape_triangles_are_the_polygon(diagonal, near, far, below, above):
    """Four taped sides and a diagonal give the area of the same bed pegged out by corners."""
    pegs = ((F(0), F(0)), (near * diagonal, -below), (diagonal, F(0)), (far * diagonal, above))
    taped = [F(math.dist(here, there)) for here, there in zip(pegs, pegs[1:] + pegs[:1], strict=True)]
    bed = Quadrilateral(*taped, diagonal)
    assert float(area(bed)) == pytest.approx(float(area(Polygon(pegs))), rel=1e-9)
    assert float(outline(bed)) == pytest.approx(float(outline(Polygon(pegs))), rel=1e-12)


@given(feet, st.lists(feet, min_size=2, max_size=12))
def test_trapezoid_rule_is_the_polygon_on_the_baseline(every, across):
    """Widths by the trapezoid rule give, exactly, the bed whose far corners are the ends of the widths."""
    far = [(every * step, width) for step, width in enumerate(across)]
    pegged = Polygon(((F(0), F(0)), (far[-1][0], F(0)), *far[::-1]))
    bed = Widths(every, tuple(across))
    assert area(bed) == area(pegged)
    assert isinstance(area(bed), F)
    assert float(outline(bed)) == pytest.approx(float(outline(pegged)), rel=1e-12)


@given(feet, feet, st.integers(1, 6), rules)
def test_even_widths_are_a_rectangle(every, width, pairs, rule):
    """Where the bed is equally wide all along, every rule gives the rectangle."""
    bed = Widths(every, (width,) * (2 * pairs + 1), rule)
    assert area(bed) == area(Rectangle(every * 2 * pairs, width))


@given(feet, st.integers(1, 6), st.tuples(*[st.fractions(0, 9, max_denominator=12)] * 4))
def test_simpsons_rule_is_exact_on_a_parabola(every, pairs, coefficients):
    """Where the far edge is a parabola, or a cubic, Simpson's rule gives the area under it, exactly."""
    length = every * 2 * pairs
    across = tuple(
        sum(c * (every * step) ** power for power, c in enumerate(coefficients))
        for step in range(2 * pairs + 1)
    )
    under_it = sum(c * length ** (power + 1) / F(power + 1) for power, c in enumerate(coefficients))
    assert area(Widths(every, across, "simpson")) == under_it


@given(feet, st.integers(3, 24))
def test_even_spokes_are_a_circle(radius, count):
    """Spokes that are all of one length make a round bed, however many there are."""
    assert area(Spokes((radius,) * count)) == pytest.approx(area(Circle(2 * radius)), rel=1e-12)


@given(feet, feet)
def test_a_ring_is_a_circle_less_a_circle(inner, more):
    """A tree ring is the round bed less the clearing round the trunk."""
    outer = inner + more
    assert area(Ring(outer, inner)) == pytest.approx(area(Circle(outer)) - area(Circle(inner)), rel=1e-6)


@given(feet)
def test_halves_and_quarters_make_the_circle(diameter):
    """Two half circles, four quarters and an oval as wide as it is long are all the same round bed."""
    whole = pytest.approx(area(Circle(diameter)), rel=1e-12)
    assert 2 * area(HalfCircle(diameter)) == whole
    assert 4 * area(QuarterCircle(diameter / 2)) == whole
    assert area(Ellipse(diameter, diameter)) == whole
    assert outline(Ellipse(diameter, diameter)) == pytest.approx(outline(Circle(diameter)), rel=1e-12)


@given(feet, feet, feet)
def test_a_trapezoid_is_two_triangles(a, b, apart):
    """A trapezoid is the two triangles on its parallel sides, exactly."""
    assert area(Trapezoid(a, b, apart)) == area(TriangleByHeight(a, apart)) + area(TriangleByHeight(b, apart))
