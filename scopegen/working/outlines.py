"""The outline of a shape worked out by its formula, and what lies against something taken off it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from scopegen import shapes
from scopegen.job import Bed
from scopegen.measure import BedMeasure
from scopegen.measure.beds import exact
from scopegen.quantities.units import NotAQuantity, quantity
from scopegen.words import Lexicon
from scopegen.working.sums import MOST, PI, Term, count, equals, together
from scopegen.working.values import Figures


def edge_steps(words: Lexicon, f: Figures, bed: Bed, measured: BedMeasure) -> Iterator[str]:
    """The whole outline, and the open edge that is left of it."""
    if measured.outline is None or measured.open_edge is None:
        return
    outline = f.length(measured.outline)
    if bed.outline is not None:
        yield f"{words.say('working.outline_measured')}: {outline}"
    elif bed.shape is not None:
        yield from _outline(words, f, bed.shape.value(), measured.outline)
    left, against = outline.term(), [length for length in _against(bed, measured) if length]
    for length in against:
        left -= f.length(length).term()
    open_edge = f.length(measured.open_edge)
    if measured.against <= measured.outline:
        yield f"{words.say('working.open_edge')}: {equals(left, open_edge) if against else open_edge}"


def _against(bed: Bed, measured: BedMeasure) -> list[Fraction]:
    """The lengths that lie against something, one by one."""
    sides = (shapes.sides(bed.shape.value()) if bed.shape else None) or {}
    found = []
    for entry in (entry for entries in bed.against.values() for entry in entries):
        try:
            found.append(exact(sides[entry]) if entry in sides else quantity(entry, "length"))
        except NotAQuantity:
            continue  # a rule reports it
    return found if sum(found, Fraction(0)) == measured.against else [measured.against]


def _outline(words: Lexicon, f: Figures, shape: shapes.Shape, outline: Fraction) -> Iterator[str]:
    say, total = words.say, f.length(outline)
    if isinstance(shape, shapes.Ellipse):
        thin, formula = _ramanujan(f, shape)
        if total.shown(formula.worth(MOST)) == total.shown(total.value):
            yield f"{say('working.thin')}: {thin}"
            yield f"{say('working.ramanujan')}: {equals(formula, total)}"
        else:  # a thin oval, of which the formula is not true to the last digit
            yield f"{say('working.elliptic')}: {total}"
        return
    if isinstance(shape, shapes.Composed):
        yield f"{say('working.outline_parts')}: {total}"
        return
    if isinstance(shape, shapes.Widths):
        far = exact((shapes.sides(shape) or {})["far"])
        yield f"{say('working.far_edge')}: {equals(together(_slants(f, shape)), f.length(far))}"
    formula = _formula(f, shape)
    yield f"{say('working.outline')}: {equals(formula, total) if formula else total}"


def _formula(f: Figures, shape: shapes.Shape) -> Term | None:
    def long(feet: Fraction | float) -> Term:
        return f.length(feet).term()

    match shape:
        case shapes.Rectangle(a, b) | shapes.Strip(a, b):
            return count(2).term() * (long(a) + long(b)).inside()
        case shapes.Circle(d) | shapes.Ring(d):
            return PI * long(d)
        case shapes.HalfCircle(d):
            return long(d) + PI * long(d) / 2
        case shapes.QuarterCircle(r):
            return count(2).term() * long(r) + PI * long(r) / 2
        case shapes.Polygon(corners):
            return together(_leg(f, *pair) for pair in pairwise((*corners, corners[0])))
    named = [side for side in (shapes.sides(shape) or {}).values() if side]
    return together(long(exact(side)) for side in named) if named else None


def _leg(f: Figures, one: tuple[Fraction, Fraction], other: tuple[Fraction, Fraction]) -> Term:
    """From corner to corner: along an axis as it is, else by Pythagoras."""
    across, up = abs(other[0] - one[0]), abs(other[1] - one[1])
    if not across or not up:
        return f.length(across + up).term()
    return (f.length(across).term().squared() + f.length(up).term().squared()).root()


def _slants(f: Figures, shape: shapes.Widths) -> Iterator[Term]:
    for here, there in pairwise(shape.across):
        yield _leg(f, (Fraction(0), here), (shape.every, there))


def _ramanujan(f: Figures, shape: shapes.Ellipse) -> tuple[str, Term]:
    """How thin an ellipse is, 3h, and its outline by Ramanujan's second approximation: pi (a + b) (1 + 3h ÷
    (10 + √(4 − 3h))), h = ((a − b) ÷ (a + b))², of its half axes a and b (S. Ramanujan, "Modular equations
    and approximations to pi", Quarterly Journal of Mathematics 45, 1914)."""
    long, short = (f.length(side).term() for side in sorted((shape.length, shape.width), reverse=True))
    larger, smaller = sorted((shape.length, shape.width), reverse=True)
    three_h = count(3 * ((larger - smaller) / (larger + smaller)) ** 2, 5)
    thin = three_h.term()
    ratio = (long - short).inside() / (long + short).inside()
    one, four, ten = (count(number).term() for number in (1, 4, 10))
    about = (one + thin / (ten + (four - thin).root()).inside()).inside()
    return equals(count(3).term() * ratio.squared(), three_h), PI * (long + short).inside() / 2 * about
