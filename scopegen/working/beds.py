"""A bed worked out: its area by the named method, its open edge, what is spread on it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from scopegen import shapes
from scopegen.case import Case
from scopegen.job import Bed
from scopegen.measure import BedMeasure, Spread
from scopegen.measure.beds import exact
from scopegen.measure.parts import named_parts
from scopegen.measure.strip import strips_of
from scopegen.words import Lexicon
from scopegen.working.areas import area_steps
from scopegen.working.outlines import edge_steps
from scopegen.working.sums import Figure, count, equals, share, together
from scopegen.working.values import Figures, Sheet, capital


def bed_sheet(case: Case, words: Lexicon, figures: Figures, bed: BedMeasure) -> Sheet:
    """One bed."""
    said = case.job.beds[bed.index]
    steps = list(_area(words, figures, said, bed))
    steps += _grown(case, words, figures, bed)
    steps += edge_steps(words, figures, said, bed)
    steps += dict.fromkeys(_rests(words, figures, said, bed))
    for ground in bed.grounds:
        if ground.found.planted and bed.spreads and bed.stated is None:
            free = 1 - ground.found.planted
            left = figures.area(ground.area).term() * share(free)
            steps.append(f"{words.say('working.planted')}: {equals(left, figures.area(ground.area * free))}")
    for spread in bed.spreads:
        if spread.volume:
            steps += _spread(case, words, figures, spread, bed)
    return Sheet(bed.name, tuple(steps))


def _area(words: Lexicon, f: Figures, said: Bed, bed: BedMeasure) -> Iterator[str]:
    if said.shape is None:
        return
    if bed.stated is not None:
        method = words.say(f"working.method.{shapes.method(said.shape.value())}")
        yield f"{method}: {f.volume(bed.stated)}"
        return
    if bed.gross is None:
        return
    yield from area_steps(words, f, said.shape.value())
    if bed.left_out and bed.area is not None:
        holes = [hole.value() for hole in said.leave_out]
        left = f.area(bed.gross).term()
        for number, hole in enumerate(holes, 1):
            name = (
                words.say("working.gap", number=number) if len(holes) > 1 else words.say("working.left_out")
            )
            yield from area_steps(words, f, hole, name)
            left -= f.area(exact(shapes.area(hole) or 0)).term()
        yield f"{words.say('working.less_left_out')}: {equals(left, f.area(bed.area))}"


def _grown(case: Case, words: Lexicon, f: Figures, bed: BedMeasure) -> Iterator[str]:
    """The strip of turf that comes off along a new edge."""
    assert case.chart is not None
    if not bed.grown:
        return
    strips = [
        f.length(length).term() * f.depth(width).term() / f.length_by_width
        for length, width in strips_of(case.chart, bed.shares)
    ]
    yield f"{words.say('working.grown')}: {equals(together(strips), f.area(bed.grown))}"


def _rests(words: Lexicon, f: Figures, said: Bed, bed: BedMeasure) -> Iterator[str]:
    """What is left for the part of a bed, or of a decision, that takes the rest."""
    if bed.area is None or bed.stated is not None:
        return
    named = named_parts(said, bed.area)
    known = [size for size in said.parts.values() if size is not None]
    for name, size in said.parts.items():
        if size is None and known:
            title = words.say("working.rest_called", name=capital(name))
            yield f"{title}: {_less(f.area, bed.area, known, named[name])}"
    measured = [ground.area for ground in bed.grounds if ground.found.area is not None]
    for ground in bed.grounds:
        if measured and ground.found.said("area") and ground.found.area is None and not ground.name:
            yield f"{words.say('working.rest')}: {_less(f.area, bed.area, measured, ground.area)}"
    for decision in dict.fromkeys(each.decision for each in bed.shares):
        yield from _rest_of(words, f, bed, decision)


def _rest_of(words: Lexicon, f: Figures, bed: BedMeasure, decision: str) -> Iterator[str]:
    """What is left of the bed, or of its open edge, for the part of one decision that takes the rest."""
    edging = decision == "edging"
    limited = [each for each in bed.of(decision) if not each.whole]
    rest = [each for each in limited if not each.name and not (each.part.along if edging else each.part.area)]
    sized = {each.name or each.path: each for each in limited if each not in rest}
    sizes = [(each.length or Fraction(0)) if edging else each.area for each in sized.values()]
    whole = bed.open_edge if edging else bed.area
    if len(rest) != 1 or not sizes or whole is None:
        return
    left = (rest[0].length or Fraction(0)) if edging else rest[0].area
    if whole - sum(sizes, Fraction(0)) == left:
        key = "working.rest_of_edge" if edging else "working.rest"
        yield f"{words.say(key)}: {_less(f.length if edging else f.area, whole, sizes, left)}"


def _less(show: Callable[[Fraction], Figure], whole: Fraction, taken: list[Fraction], left: Fraction) -> str:
    term = show(whole).term()
    for size in taken:
        term -= show(size).term()
    return equals(term, show(left)) if left >= 0 else str(show(Fraction(0)))


def _spread(case: Case, words: Lexicon, f: Figures, spread: Spread, bed: BedMeasure) -> Iterator[str]:
    assert case.chart is not None
    material = case.chart.materials[spread.material]
    if bed.stated is not None:
        yield f"{capital(material.name)}: {f.volume(spread.volume)}"
        return
    wanted = spread.depth + spread.there
    if spread.there:
        left = f.depth(wanted).term() - f.depth(spread.there).term()
        yield f"{words.say('working.topped_up')}: {equals(left, f.depth(spread.depth))}"
    volume = f.area(spread.area).term() * f.depth(spread.depth).term() / f.area_by_depth
    if material.settles:
        volume *= count(1 + material.settles).term()
    yield f"{capital(material.name)}: {equals(volume, f.volume(spread.volume))}"
