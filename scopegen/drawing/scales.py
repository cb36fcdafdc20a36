"""The scales that beds are drawn to: round ones, as few for a job as keep each bed readable."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from scopegen.drawing.values import Scale
from scopegen.quantities.units import FT_PER_M

POINTS_PER_INCH = 72
METERS_PER_INCH = 0.0254  # exactly: NIST Handbook 44, appendix C

# Feet to the inch: those of an engineer's and an architect's scale rule, then on in the same steps.
FEET_TO_THE_INCH = (
    *(1, 2, 4, 5, 8, 10, 16, 20, 30, 40, 50, 60, 80, 100, 200),
    *(400, 500, 1000, 2000, 5000, 10000),
)
# One to so many: 1:10, 1:20, 1:50 and their tenfolds as in ISO 5455; 1:25, 1:250 common practice, no source.
ONE_TO = (10, 20, 25, 50, 100, 200, 250, 500, 1000, 2000, 5000, 10000, 20000, 50000, 100000)
BARS_FT = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000)
BARS_M = (0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000)

# Points that a drawing may take, its words not counted: the largest beds of a job, and those beside them.
LARGEST, BESIDE = (400.0, 250.0), (190.0, 170.0)
# Points that it may take with its words: a page takes it without making it smaller.
WIDEST, HIGHEST = 480.0, 560.0
READABLE = 72.0  # points: a bed whose longer side comes out shorter is drawn to a scale of its own


def scales(metric: bool) -> tuple[Scale, ...]:
    """Every scale, from the largest drawing to the smallest."""
    if not metric:
        return tuple(
            _scale(POINTS_PER_INCH / feet, f"1 in = {feet:,} ft", False) for feet in FEET_TO_THE_INCH
        )
    per_meter = POINTS_PER_INCH / METERS_PER_INCH
    return tuple(_scale(per_meter / many / float(FT_PER_M), f"1:{many:,}", True) for many in ONE_TO)


def _scale(per_foot: float, said: str, metric: bool) -> Scale:
    foot_of = float(FT_PER_M) if metric else 1.0
    bars = BARS_M if metric else BARS_FT
    fitting = [bar for bar in bars if bar * foot_of * per_foot <= READABLE]
    bar = fitting[-1] if fitting else bars[0]
    return Scale(per_foot, said, bar * foot_of, f"{bar:g} {'m' if metric else 'ft'}")


def scales_for(extents: Sequence[tuple[float, float]], metric: bool) -> tuple[Scale, ...]:
    """A scale for each of the beds, given as width and height in ft: one for all that go together.

    The largest bed sets it; beds that would come out too small share the next one.
    """
    known, chosen = scales(metric), dict[int, Scale]()
    left = sorted(range(len(extents)), key=lambda index: max(extents[index]), reverse=True)
    while left:
        room = BESIDE if chosen else LARGEST
        scale = _fitting(known, max(extents[i][0] for i in left), max(extents[i][1] for i in left), room)
        together = [i for i in left if max(extents[i]) * scale.per_foot >= READABLE] or left[:1]
        chosen.update(dict.fromkeys(together, scale))
        left = [index for index in left if index not in together]
    return tuple(chosen[index] for index in range(len(extents)))


def smaller(scale: Scale, metric: bool) -> Scale:
    """The next scale that draws smaller; after the last, half of it."""
    known = scales(metric)
    place = known.index(scale) + 1 if scale in known else len(known)
    if place < len(known):
        return known[place]
    return replace(scale, per_foot=scale.per_foot / 2, said="")


def _fitting(known: tuple[Scale, ...], width: float, height: float, room: tuple[float, float]) -> Scale:
    for scale in known:
        if width * scale.per_foot <= room[0] and height * scale.per_foot <= room[1]:
            return scale
    return known[-1]
