"""The beds of a job drawn to scale: one scale for beds that go together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from scopegen import shapes
from scopegen.case import Case
from scopegen.drawing.edges import Edge, edge_of
from scopegen.drawing.laid import Laid, lay_out
from scopegen.drawing.picture import Named, picture
from scopegen.drawing.scales import HIGHEST, WIDEST, scales_for, smaller
from scopegen.drawing.told import told
from scopegen.drawing.values import Drawing, Scale
from scopegen.job import Bed
from scopegen.measure import BedMeasure
from scopegen.measure.parts import named_parts
from scopegen.quantities import show
from scopegen.words import Lexicon

SMALLEST = 1e-3  # points a foot: at that the words alone take the room


@dataclass(frozen=True, slots=True)
class Drawn:
    """A bed and its drawing; none where no outline is known. `laid` is its ground in ft."""

    bed: BedMeasure
    edge: Edge
    laid: Laid | None
    drawing: Drawing | None


def draw_beds(case: Case, words: Lexicon) -> tuple[Drawn, ...]:
    """Every bed of a measured job, in its order."""
    assert case.measured is not None
    job, metric = case.job, case.job.units == "metric"
    laid = [_laid(job.beds[bed.index], bed) for bed in case.measured.beds]
    sizes = [_size(each) for each in laid if each is not None]
    scales = iter(scales_for(sizes, metric))
    drawn = []
    for bed, ground in zip(case.measured.beds, laid, strict=True):
        described, edge = job.beds[bed.index], edge_of(job.beds[bed.index], bed)
        if ground is None:
            drawn.append(Drawn(bed, edge, None, None))
            continue
        parts = _parts(described, bed)
        in_words = told(words, job.units, described, bed, ground, edge, parts)
        named = [
            _named(name, size / sum(parts.values()), show.area(size, job.units))
            for name, size in parts.items()
        ]
        draw = partial(picture, ground, edge, named, job.units, words, in_words)
        drawn.append(Drawn(bed, edge, ground, _on_a_page(draw, next(scales), metric)))
    return tuple(drawn)


def _named(name: str, share: Fraction, area: str) -> Named:
    """A part with its name and size on one line, on two, or its name alone."""
    full = f"{name}, {area}"
    return Named(name, share, (((full,), (name, area)), ((name,),)), full)


def _on_a_page(draw: Callable[[Scale], Drawing], scale: Scale, metric: bool) -> Drawing:
    """The bed at this scale, or at the first smaller one at which a page takes it: made smaller
    on the page itself, it would be to no scale."""
    drawing = draw(scale)
    while (drawing.width > WIDEST or drawing.height > HIGHEST) and scale.per_foot > SMALLEST:
        scale = smaller(scale, metric)
        drawing = draw(scale)
    return drawing


def _laid(bed: Bed, measured: BedMeasure) -> Laid | None:
    if bed.shape is None or measured.area is None or shapes.faults(bed.shape.value()):
        return None
    return lay_out(bed)


def _size(laid: Laid) -> tuple[float, float]:
    west, south, east, north = laid.whole.bounds
    return east - west, north - south


def _parts(bed: Bed, measured: BedMeasure) -> dict[str, Fraction]:
    """The named parts of a bed with their areas in ft2, where they cover just it."""
    if not bed.parts or not measured.area:
        return {}
    sizes = named_parts(bed, measured.area)
    return sizes if all(size > 0 for size in sizes.values()) else {}
