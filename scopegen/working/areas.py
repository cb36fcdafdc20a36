"""The area of a shape worked out by its named method, from what was measured."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from scopegen import shapes
from scopegen.measure.beds import exact
from scopegen.quantities.rounding import half_up
from scopegen.quantities.units import FT_PER_M
from scopegen.words import Lexicon
from scopegen.working.sums import MOST, PI, Figure, Term, count, equals, together
from scopegen.working.values import Figures

Point = tuple[Fraction, Fraction]


def area_steps(words: Lexicon, f: Figures, shape: shapes.Shape, label: str = "") -> Iterator[str]:
    """The steps of an area, the last one its sum; nothing where a shape has no area."""
    found = shapes.area(shape)
    if found is None:
        return
    area = exact(found)
    method = words.say(f"working.method.{shapes.method(shape)}")
    title = f"{label}, {method[:1].lower()}{method[1:]}" if label else method
    if isinstance(shape, shapes.Quadrilateral):
        area = sum(_triangles(shape), Fraction(0))
        yield from _quadrilateral(words, f, shape, title)
    elif isinstance(shape, shapes.Polygon):
        yield from _corners(words, f, shape, title)
    elif isinstance(shape, shapes.Composed):
        yield from _parts(words, f, shape, area, title)
    else:
        yield from _before(words, f, shape)
        left = _formula(f, shape)
        yield f"{title}: {equals(left, f.area(area)) if left else f.area(area)}"


def _formula(f: Figures, shape: shapes.Shape) -> Term | None:
    """The left side of the area's sum; nothing where the area was stated, or comes from a map."""

    def long(feet: Fraction) -> Term:
        return f.length(feet).term()

    match shape:
        case shapes.Rectangle(a, b) | shapes.Strip(a, b):
            return long(a) * long(b)
        case shapes.TriangleBySides(a, b, c):
            return _heron(f, a, b, c)
        case shapes.TriangleByHeight(a, b):
            return long(a) * long(b) / 2
        case shapes.Trapezoid(a, b, apart):
            return (long(a) + long(b)).inside() / 2 * long(apart)
        case shapes.Circle(d):
            return PI * long(d).squared() / 4
        case shapes.HalfCircle(d):
            return PI * long(d).squared() / 8
        case shapes.QuarterCircle(r):
            return PI * long(r).squared() / 4
        case shapes.Ring(outer, inner):
            return PI * (long(outer).squared() - long(inner).squared()).inside() / 4
        case shapes.Ellipse(a, b):
            return PI * long(a) * long(b) / 4
        case shapes.Widths():
            return _widths(f, shape)
        case shapes.Spokes(lengths):
            return PI * long(sum(lengths, Fraction(0)) / len(lengths)).squared()
    return None


def _before(words: Lexicon, f: Figures, shape: shapes.Shape) -> Iterator[str]:
    match shape:
        case shapes.TriangleBySides(a, b, c):
            yield f"{words.say('working.half_outline')}: {_half(f, a, b, c)}"
        case shapes.Spokes(lengths):
            left = _sum(f, lengths) / len(lengths)
            average = f.length(sum(lengths, Fraction(0)) / len(lengths))
            yield f"{words.say('working.average_radius')}: {equals(left, average)}"


def _sum(f: Figures, lengths: tuple[Fraction, ...]) -> Term:
    return together(f.length(length).term() for length in lengths).inside()


def _half(f: Figures, *sides: Fraction) -> str:
    return equals(_sum(f, sides) / 2, f.length(sum(sides, Fraction(0)) / 2))


def _heron(f: Figures, a: Fraction, b: Fraction, c: Fraction) -> Term:
    half = (a + b + c) / 2
    first, *others = (f.length(part).term() for part in (half, half - a, half - b, half - c))
    for other in others:
        first *= other
    return first.root()


def _triangles(shape: shapes.Quadrilateral) -> tuple[Fraction, Fraction]:
    first = shapes.TriangleBySides(shape.a, shape.b, shape.diagonal)
    second = shapes.TriangleBySides(shape.c, shape.d, shape.diagonal)
    one, other = shapes.area(first), shapes.area(second)
    assert one is not None and other is not None
    return exact(one), exact(other)


def _quadrilateral(words: Lexicon, f: Figures, shape: shapes.Quadrilateral, title: str) -> Iterator[str]:
    """Its diagonal parts it into two triangles, each by Heron's formula."""
    areas = _triangles(shape)
    for number, sides, area in zip("12", ((shape.a, shape.b), (shape.c, shape.d)), areas, strict=True):
        three = (*sides, shape.diagonal)
        yield f"{words.say('working.half_triangle', number=number)}: {_half(f, *three)}"
        yield f"{words.say('working.triangle', number=number)}: {equals(_heron(f, *three), f.area(area))}"
    one, other = (f.area(area).term() for area in areas)
    yield f"{title}: {equals(one + other, f.area(sum(areas, Fraction(0))))}"


def _corners(words: Lexicon, f: Figures, shape: shapes.Polygon, title: str) -> Iterator[str]:
    """The corners as walked counterclockwise, their cross products, and half of their sum."""
    size, sign = (FT_PER_M, "m") if f.metric else (Fraction(1), "ft")
    points = [(x / size, y / size) for x, y in shape.corners]
    if sum(_crossed(points), Fraction(0)) < 0:
        points.reverse()
    while _crossed(points)[0] < 0:
        points = [*points[1:], points[0]]
    products = _crossed(points)
    twice = count(sum(products, Fraction(0)), 3, f"{sign}²")
    places = _places_of_products(products, twice)
    at = _places_of_corners(points, places)
    corners = ", ".join(f"({count(x, at)}, {count(y, at)})" for x, y in points)
    yield words.say("working.corners", unit=sign, corners=corners)
    listed = "".join(f" {'−' if each < 0 else '+'} {count(abs(each), places)}" for each in products)
    yield f"{words.say('working.crossed')}: {listed.removeprefix(' + ')} = {twice}"
    yield f"{title}: {equals(twice.term() / 2, count(twice.value / 2, 3, f'{sign}²'))}"


def _crossed(points: list[Point]) -> list[Fraction]:
    """Each corner's x by the next one's y, less the next one's x by its y."""
    return [x * next_y - next_x * y for (x, y), (next_x, next_y) in pairwise([*points, points[0]])]


def _rounded(value: Fraction, places: int) -> Fraction:
    size = half_up(abs(value), Fraction(1, 10**places))
    return -size if value < 0 else size


def _places_of_products(products: list[Fraction], twice: Figure) -> int:
    """With how many decimals cross products must be printed for their sum to be true."""
    for places in range(3, 3 + MOST):
        if _rounded(sum(_rounded(each, places) for each in products), 3) == twice.shown(twice.value):
            return places
    return 3 + MOST


def _places_of_corners(points: list[Point], wanted: int) -> int:
    """With how many decimals corners must be printed for their printed cross products to be true."""
    for places in range(3, 3 + 2 * MOST):
        printed = _crossed([(_rounded(x, places), _rounded(y, places)) for x, y in points])
        pairs = zip(_crossed(points), printed, strict=True)
        if all(_rounded(one, wanted) == _rounded(other, wanted) for one, other in pairs):
            return places
    return 3 + 2 * MOST


def _parts(words: Lexicon, f: Figures, shape: shapes.Composed, area: Fraction, title: str) -> Iterator[str]:
    """Each part by its own measures, then all of them, less what overlaps."""
    areas = []
    for number, part in enumerate(shape.parts, 1):
        yield from area_steps(words, f, part.shape, words.say("working.part", number=number))
        areas.append(exact(shapes.area(part.shape) or Fraction(0)))
    left, twice = together(f.area(each).term() for each in areas), sum(areas, Fraction(0)) - area
    if f.area(twice).shown(f.area(twice).value):
        yield words.say("working.overlap", area=f.area(twice))
        left -= f.area(twice).term()
    yield f"{title}: {equals(left, f.area(area))}"


def _widths(f: Figures, shape: shapes.Widths) -> Term:
    every, across = f.length(shape.every).term(), [f.length(width).term() for width in shape.across]
    match shape.rule:
        case "trapezoid":
            ends = (across[0] + across[-1]).inside() / 2
            return every * together([ends, *across[1:-1]]).inside()
        case "simpson":
            terms = [across[0], across[-1], count(4).term() * together(across[1:-1:2]).inside()]
            if across[2:-1:2]:
                terms.append(count(2).term() * together(across[2:-1:2]).inside())
            return every / 3 * together(terms).inside()
        case "average":
            return together(across).inside() / len(across) * every * (len(across) - 1)
