"""Measures each bed: area less what is left out, outline less what lies against something."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction

from scopegen import shapes
from scopegen.answers import Answer, bed_name
from scopegen.chart import Chart
from scopegen.job import Bed, Job
from scopegen.load import Path_
from scopegen.measure.parts import grounds_of, shares_of
from scopegen.measure.spread import spreads_of
from scopegen.measure.stated import by_volume, stated_grounds, stated_spreads
from scopegen.measure.strip import grown_by, strip_spreads
from scopegen.measure.values import BedMeasure, Measured, Trouble
from scopegen.quantities.show import run
from scopegen.quantities.units import FT3_PER_YD3, NotAQuantity, quantity

Say = Callable[..., None]


def measure(job: Job, chart: Chart | None, answers: tuple[Answer, ...]) -> Measured:
    """Every bed of the job. What cannot be measured is left empty, with its trouble beside it."""
    own: dict[int | None, list[Answer]] = {}
    for answer in answers:
        if answer.decision in _DECISIONS:
            own.setdefault(answer.bed, []).append(answer)
    return Measured(tuple(_bed(job, chart, own.get(i, []), i) for i in range(len(job.beds))))


def exact(value: Fraction | float) -> Fraction:
    """A curved shape's figure as an exact one, to a billionth: from here on nothing drifts."""
    return value if isinstance(value, Fraction) else Fraction(f"{value:.9f}")


def _bed(job: Job, chart: Chart | None, own: Sequence[Answer], index: int) -> BedMeasure:
    bed, path = job.beds[index], ("beds", index)
    troubles: list[Trouble] = []

    def say(rule: str, message: str, fix: str, at: Path_, decision: str | None = None) -> None:
        troubles.append(Trouble(rule, message, fix, at, index, decision))

    gross = _gross(bed, path, say)
    left_out = _left_out(bed, path, gross, say)
    area = None if gross is None or left_out is None else gross - left_out
    outline = _outline(bed) if gross is not None else bed.outline
    against = _against(bed, path, outline, say)
    open_edge = None if outline is None else max(outline - against, Fraction(0))
    method = shapes.method(bed.shape.value()) if bed.shape else ""
    measured = BedMeasure(
        index, bed_name(job, index), gross, left_out or Fraction(0), area, outline, against, open_edge, method
    )
    stated = _stated_volume(bed)
    if area is None and stated is None:
        return replace(measured, troubles=tuple(troubles))
    if stated is not None:
        shares = by_volume(own, bed, path, open_edge, say)
        grounds = stated_grounds(bed, path, say)
        spreads = stated_spreads(chart, shares, stated, say) if chart else ()
        return replace(
            measured, shares=shares, grounds=grounds, spreads=spreads, stated=stated, troubles=tuple(troubles)
        )
    assert area is not None
    shares = tuple(share for answer in own for share in shares_of(answer, bed, area, open_edge, say))
    grounds = grounds_of(bed, area, path, say)
    spreads = spreads_of(chart, shares, grounds, say) if chart else ()
    if chart and (bed.shape_to or job.every_bed.shape_to) == "old edge":
        grown = grown_by(chart, shares)
        strip = strip_spreads(chart, shares, say)
        measured, spreads = replace(measured, grown=grown), (*spreads, *strip)
    return replace(measured, shares=shares, grounds=grounds, spreads=spreads, troubles=tuple(troubles))


def _stated_volume(bed: Bed) -> Fraction | None:
    shape = bed.shape.value() if bed.shape else None
    return shape.volume / FT3_PER_YD3 if isinstance(shape, shapes.StatedVolume) else None


def _plain(sentence: str) -> str:
    """A sentence as advice is given: no capital, no full stop."""
    return sentence[:1].lower() + sentence[1:].rstrip(".")


_DECISIONS = ("material", "bed_prep", "edging", "debris", "substrate")


def _gross(bed: Bed, path: Path_, say: Say) -> Fraction | None:
    if bed.shape is None:
        return None
    shape = bed.shape.value()
    faults = shapes.faults(shape)
    for fault in faults:
        say("impossible-shape", f"this shape cannot be: {fault.message}", _plain(fault.fix), (*path, "shape"))
    area = None if faults else shapes.area(shape)
    return None if area is None else exact(area)


def _left_out(bed: Bed, path: Path_, gross: Fraction | None, say: Say) -> Fraction | None:
    total = Fraction(0)
    for i, hole in enumerate(bed.leave_out):
        faults = shapes.faults(hole.value())
        for fault in faults:
            say(
                "impossible-shape",
                f"this shape cannot be: {fault.message}",
                _plain(fault.fix),
                (*path, "leave_out", i),
            )
        area = None if faults else shapes.area(hole.value())
        if area is None:
            return None
        total += exact(area)
    if gross is not None and total >= gross:
        say(
            "leaves-nothing",
            "what is left out is as large as the bed",
            "check the shape and the shapes under leave_out",
            (*path, "leave_out"),
        )
        return None
    return total


def _outline(bed: Bed) -> Fraction | None:
    if bed.outline is not None:
        return bed.outline
    outline = shapes.outline(bed.shape.value())
    return None if outline is None else exact(outline)


def _against(bed: Bed, path: Path_, outline: Fraction | None, say: Say) -> Fraction:
    if bed.shape is None or shapes.faults(bed.shape.value()):
        return Fraction(0)  # the shape itself is found already
    sides = shapes.sides(bed.shape.value()) or {}
    total, taken = Fraction(0), set[str]()
    for what, entries in bed.against.items():
        for i, entry in enumerate(entries):
            at = (*path, "against", what, i)
            if entry in taken:
                say("side-twice", f"the side '{entry}' lies against two things", "name it once", at)
            elif entry in sides:
                taken.add(entry)
                total += exact(sides[entry])
            else:
                total += _length_against(entry, tuple(sides), at, say)
    if outline is not None and total > outline:
        say(
            "against-exceeds-outline",
            f"{run(total)} lie against something, but the outline is only {run(outline)}",
            "check 'against' and the shape",
            (*path, "against"),
        )
    return total


def _length_against(entry: str, sides: tuple[str, ...], at: Path_, say: Say) -> Fraction:
    try:
        return quantity(entry, "length")
    except NotAQuantity:
        named = (
            f"name one of its sides ({', '.join(sides)}), or write a length like 12 ft"
            if sides
            else "write a length like 12 ft: this shape's sides have no names"
        )
        say("unknown-side", f"'{entry}' is neither a side of this bed nor a length", named, at)
        return Fraction(0)
