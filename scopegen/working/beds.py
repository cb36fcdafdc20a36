"""A bed worked out: its area by the named method, its open edge, what is spread on it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopegen import shapes
from scopegen.case import Case
from scopegen.measure import BedMeasure, Spread
from scopegen.quantities.show import percent
from scopegen.words import Lexicon
from scopegen.working.values import Figures, Sheet, capital, plain


def bed_sheet(case: Case, words: Lexicon, figures: Figures, bed: BedMeasure) -> Sheet:
    """One bed."""
    shape = case.job.beds[bed.index].shape
    steps = list(_area(words, figures, shape.value(), bed)) if shape else []
    steps += _edge(words, figures, bed)
    for ground in bed.grounds:
        if ground.found.planted and bed.spreads and bed.stated is None:
            free = 1 - ground.found.planted
            sum_ = f"{figures.area(ground.area)} × {percent(free)} = {figures.area(ground.area * free)}"
            steps.append(f"{words.say('working.planted')}: {sum_}")
    for spread in bed.spreads:
        if spread.volume:
            steps += _spread(case, words, figures, spread, bed)
    return Sheet(bed.name, tuple(steps))


def _area(words: Lexicon, f: Figures, shape: shapes.Shape, bed: BedMeasure) -> Iterator[str]:
    method = words.say(f"working.method.{shapes.method(shape)}")
    if bed.stated is not None:
        yield f"{method}: {f.volume(bed.stated)}"
        return
    if bed.gross is None:
        return
    formula = _formula(f, shape)
    yield f"{method}: {formula} = {f.area(bed.gross)}" if formula else f"{method}: {f.area(bed.gross)}"
    if bed.left_out and bed.area is not None:
        left = words.say("working.left_out")
        yield f"{left}: {f.area(bed.gross)} − {f.area(bed.left_out)} = {f.area(bed.area)}"
    if bed.grown:
        yield words.say("working.grown", area=f.area(bed.grown))


def _formula(f: Figures, shape: shapes.Shape) -> str:
    """The left side of the area's sum; nothing where the area was stated, or comes from a map."""
    w = dict(shapes.working(shape))
    long = f.length
    match shape:
        case shapes.Rectangle(a, b) | shapes.Strip(a, b):
            return f"{long(a)} × {long(b)}"
        case shapes.TriangleBySides(a, b, c):
            return _heron(f, a, b, c)
        case shapes.TriangleByHeight(a, b):
            return f"{long(a)} × {long(b)} ÷ 2"
        case shapes.Quadrilateral():
            return f"{f.area(w['first triangle'])} + {f.area(w['second triangle'])}"
        case shapes.Trapezoid(a, b, apart):
            return f"({long(a)} + {long(b)}) ÷ 2 × {long(apart)}"
        case shapes.Circle(d):
            return f"π × ({long(d)})² ÷ 4"
        case shapes.HalfCircle(d):
            return f"π × ({long(d)})² ÷ 8"
        case shapes.QuarterCircle(r):
            return f"π × ({long(r)})² ÷ 4"
        case shapes.Ring(outer, inner):
            return f"π × (({long(outer)})² − ({long(inner)})²) ÷ 4"
        case shapes.Ellipse(a, b):
            return f"π × {long(a)} × {long(b)} ÷ 4"
        case shapes.Polygon():
            return f"{f.area(w['twice the area'])} ÷ 2"
        case shapes.Widths():
            return _widths(f, shape, w)
        case shapes.Spokes():
            return f"π × ({long(w['average radius'])})²"
        case shapes.Composed(parts) if not shape.positioned:
            return " + ".join(f.area(shapes.area(part.shape) or 0) for part in parts)
    return ""


def _heron(f: Figures, a: Fraction, b: Fraction, c: Fraction) -> str:
    half = (a + b + c) / 2
    return f"√({' × '.join(f.length(part) for part in (half, half - a, half - b, half - c))})"


def _widths(f: Figures, shape: shapes.Widths, w: dict[str, Fraction | float]) -> str:
    every = f.length(shape.every)
    match shape.rule:
        case "trapezoid":
            return f"{every} × ({f.length(w['half the first and last'])} + {f.length(w['those between'])})"
        case "simpson":
            keys = ("first and last", "four times every second", "twice the others")
            return f"{every} ÷ 3 × ({' + '.join(f.length(w[key]) for key in keys)})"
        case "average":
            return f"{f.length(w['average width'])} × {f.length(w['length'])}"


def _edge(words: Lexicon, f: Figures, bed: BedMeasure) -> Iterator[str]:
    if bed.outline is None or bed.open_edge is None:
        return
    sum_ = f"{f.length(bed.outline)} − {f.length(bed.against)} = {f.length(bed.open_edge)}"
    yield f"{words.say('working.open_edge')}: {sum_}"


def _spread(case: Case, words: Lexicon, f: Figures, spread: Spread, bed: BedMeasure) -> Iterator[str]:
    assert case.chart is not None
    material = case.chart.materials[spread.material]
    if bed.stated is not None:
        yield f"{capital(material.name)}: {f.volume(spread.volume)}"
        return
    wanted = spread.depth + spread.there
    if spread.there:
        topped = words.say("working.topped_up")
        yield f"{topped}: {f.depth(wanted)} − {f.depth(spread.there)} = {f.depth(spread.depth)}"
    settles = f" × {plain(1 + material.settles, 4)}" if material.settles else ""
    volume = f"{f.area(spread.area)} × {f.depth(spread.depth)} ÷ {f.area_by_depth}{settles}"
    yield f"{capital(material.name)}: {volume} = {f.volume(spread.volume)}"
