"""What a new edge adds to a bed that was measured to its old edge: the strip of turf that comes off."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import cast

from scopegen.chart import Chart
from scopegen.job import MaterialPart
from scopegen.measure.values import Share, Spread
from scopegen.quantities.units import FT3_PER_YD3

Say = Callable[..., None]
_SURE = ("included", "no-charge")


def grown_by(chart: Chart, shares: tuple[Share, ...]) -> Fraction:
    """The area in ft2 by which a new edge that is cut for certain makes the bed larger."""
    return sum((length * width for length, width in strips_of(chart, shares)), Fraction(0))


def strips_of(chart: Chart, shares: tuple[Share, ...]) -> tuple[tuple[Fraction, Fraction], ...]:
    """The strips of turf that come off for certain: how long and how wide each is, in ft."""
    sure = (share for share, _ in _strips(chart, shares) if share.how in _SURE)
    return tuple((share.length or Fraction(0), _width(chart, share)) for share in sure)


def strip_spreads(chart: Chart, shares: tuple[Share, ...], say: Say) -> tuple[Spread, ...]:
    """The bed's material on the strip, where nothing lies; for a new edge that is an add-on, what it
    takes if it is chosen."""
    laid = [
        share
        for share in shares
        if share.decision == "material"
        and cast(MaterialPart, share.part).use in chart.materials
        and share.how in (*_SURE, "add-on")
    ]
    strips = list(_strips(chart, shares))
    if not strips or not laid:
        return ()
    if len(laid) > 1 or not laid[0].whole:
        say(
            "name-the-parts",
            "a new edge makes the bed larger, but which of its materials lies there cannot be told",
            "measure the bed to the new edge, and write 'shape_to: new edge'",
            strips[0][0].path,
            "edging",
        )
        return ()
    if laid[0].how == "add-on" and any(edge.how == "add-on" for edge, _ in strips):
        say(
            "choice-on-choice",
            "how much material this takes rests on whether this edge is chosen, and both are add-ons",
            "measure the bed to the new edge, and write 'shape_to: new edge'",
            strips[0][0].path,
            "edging",
        )
    return tuple(_spreads(chart, laid[0], strips))


def _strips(chart: Chart, shares: tuple[Share, ...]) -> Iterator[tuple[Share, Fraction]]:
    for share in shares:
        work = chart.work.get(share.part.work or "")
        if share.decision != "edging" or work is None or work.spoil is None or share.length is None:
            continue
        if work.spoil.plus_strip and share.how in (*_SURE, "add-on"):
            yield share, share.length * work.spoil.plus_strip.width


def _width(chart: Chart, share: Share) -> Fraction:
    spoil = chart.work[share.part.work or ""].spoil
    return spoil.plus_strip.width if spoil and spoil.plus_strip else Fraction(0)


def _spreads(chart: Chart, laid: Share, strips: list[tuple[Share, Fraction]]) -> Iterator[Spread]:
    part = cast(MaterialPart, laid.part)
    use, depth = cast(str, part.use), part.depth or part.top_up_to
    if depth is None:
        return
    for edge, area in strips:
        volume = area * depth * (1 + chart.materials[use].settles) / FT3_PER_YD3
        if edge.how in _SURE:
            yield Spread(laid, use, area, depth, Fraction(0), volume)
        elif laid.how in _SURE:
            yield Spread(laid, use, Fraction(0), depth, Fraction(0), Fraction(0), (edge.path, volume))
