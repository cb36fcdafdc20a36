"""A drawing in words, for a reader who does not see it: the shape, its sizes, its edges, its parts."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopegen import shapes
from scopegen.drawing.edges import Edge
from scopegen.drawing.laid import Laid
from scopegen.job import Bed
from scopegen.measure import BedMeasure
from scopegen.quantities import show
from scopegen.words import Lexicon

Parts = dict[str, Fraction]  # named parts with their areas in ft2
MANY = 12  # widths, spokes or sides that are read out one by one


def told(
    words: Lexicon, units: str, bed: Bed, measured: BedMeasure, laid: Laid, edge: Edge, parts: Parts
) -> str:
    """The drawing of one bed in whole sentences."""
    assert bed.shape is not None
    shape = bed.shape.value()
    sentences = [words.say("drawing.told.bed", bed=measured.name, shape=_shape(words, units, shape))]
    if measured.area is not None:
        sentences.append(words.say("drawing.told.area", area=show.area(measured.area, units)))
    sentences += _edges(words, units, bed, measured, edge, shapes.sides(shape) or {})
    if laid.gaps and measured.left_out:
        sentences.append(words.say("drawing.told.left_out", area=show.area(measured.left_out, units)))
    if parts:
        named = words.list(f"{name} ({show.area(size, units)})" for name, size in parts.items())
        sentences.append(words.say("drawing.told.parts", parts=named))
    return " ".join(filter(None, sentences))


def _shape(words: Lexicon, units: str, shape: shapes.Shape) -> str:
    say = words.say

    def each(lengths: tuple[Fraction | float, ...]) -> str:
        if len(lengths) > MANY:
            return words.counted("drawing.told.many", len(lengths), total=show.tape(sum(lengths), units))
        return words.list(show.tape(length, units) for length in lengths)

    key = f"drawing.shape.{shapes.method(shape).replace(' ', '_')}"
    match shape:
        case shapes.Composed(parts):
            inner = (_part(words, units, part) for part in parts)
            told = (say("drawing.shape.part", number=n, shape=each) for n, each in enumerate(inner, 1))
            return words.counted(key, len(parts), parts="; ".join(told))
        case shapes.Polygon() | shapes.MapRing():
            return say(key, lengths=each(tuple((shapes.sides(shape) or {}).values())))
        case shapes.Widths(every, across):
            return say("drawing.shape.widths", every=show.tape(every, units), lengths=each(across))
        case shapes.Spokes(lengths):
            return say(key, lengths=each(lengths))
        case shapes.TriangleBySides(a, b, c):
            return say(key, lengths=each((a, b, c)))
        case shapes.Quadrilateral(a, b, c, d, diagonal):
            return say(key, lengths=each((a, b, c, d)), diagonal=show.tape(diagonal, units))
        case _:
            sizes = {name: show.tape(value, units) for name, value in _sizes(shape)}
            return say(key, **sizes)


def _part(words: Lexicon, units: str, part: shapes.Placed) -> str:
    """A part with where it starts in the bed, along each axis of the page, and how far it is turned there."""
    told = [_shape(words, units, part.shape)]
    ways = [
        words.say(f"drawing.plan.{more if step > 0 else less}", length=show.tape(abs(step), units))
        for step, (more, less) in zip(part.at or (), (("right", "left"), ("up", "down")), strict=False)
        if step
    ]
    if ways:
        told.append(words.say("drawing.shape.starts", way=words.list(ways)))
    if part.turned:
        told.append(words.say("drawing.shape.turned", degrees=f"{float(part.turned):g}"))
    return ", ".join(told)


def _side(words: Lexicon, name: str, names: tuple[str, ...]) -> str:
    """Which side it is: of a rectangle as it lies on the page; by its number where the lengths of all sides
    are told in their order; nothing where a shape has but one side of that kind."""
    if set(names) == set(words.texts["drawing"]["side"]) - {"number"}:
        return words.say(f"drawing.side.{name}")
    if set(names) in ({"a", "b", "c"}, {"a", "b", "c", "d"}) or all(each.isdigit() for each in names):
        return words.say("drawing.side.number", number=names.index(name) + 1)
    return ""


def _sizes(shape: shapes.Shape) -> Iterator[tuple[str, Fraction]]:
    for name in shape.__dataclass_fields__:
        yield name, getattr(shape, name)


def _edges(
    words: Lexicon, units: str, bed: Bed, measured: BedMeasure, edge: Edge, lengths: shapes.Lengths
) -> Iterator[str]:
    for what, entries in bed.against.items():
        for entry in entries:
            if entry not in lengths:
                yield words.say("exhibits.somewhere", what=what, length=entry)
                continue
            length, side = show.tape(lengths[entry], units), _side(words, entry, tuple(lengths))
            key = "drawing.told.against_side" if side else "drawing.told.against"
            yield words.say(key, what=what, length=length, **({"side": side} if side else {}))
    if measured.open_edge:
        length, first = show.run(measured.open_edge, units), edge.states[0]
        if len(edge.states) == 1:
            yield words.say(f"drawing.told.{first}", length=length)
            return
        yield words.say("drawing.told.mixed", length=length)
        for state in edge.states:
            yield words.say(f"drawing.told.some.{state}")
