"""Material on the ground: depth part by part, never below zero, never on the average."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import cast

from scopegen.chart import Chart
from scopegen.job import MaterialPart
from scopegen.measure.values import Ground, Share, Spread
from scopegen.quantities.units import FT3_PER_YD3

Say = Callable[..., None]
_SURE = ("included", "no-charge")


def spreads_of(
    chart: Chart, shares: tuple[Share, ...], grounds: tuple[Ground, ...], say: Say
) -> tuple[Spread, ...]:
    """What is spread on a bed, piece by piece of the ground that was found."""
    found: list[Spread] = []
    for share in shares:
        part = cast(MaterialPart, share.part)
        if (
            share.decision != "material"
            or part.use not in chart.materials
            or not (part.depth or part.top_up_to)
        ):
            continue
        pieces = _pieces(share, grounds, say)
        found += [
            spread
            for ground, area in pieces
            for spread in _spread(chart, share, part, ground, area, shares, say)
        ]
    return tuple(found)


def _pieces(share: Share, grounds: tuple[Ground, ...], say: Say) -> list[tuple[Ground | None, Fraction]]:
    """The ground under a share of material, in pieces that were found alike."""
    if not grounds:
        return [(None, share.area)]
    if share.whole:
        return [(ground, ground.area) for ground in grounds]
    if share.name and any(ground.name == share.name for ground in grounds):
        return [(ground, ground.area) for ground in grounds if ground.name == share.name]
    if (
        len({(ground.found.ground_depth, ground.found.planted, ground.found.ground) for ground in grounds})
        == 1
    ):
        return [(grounds[0], share.area)]
    say(
        "name-the-parts",
        "the material's part and what was found cannot be laid over each other",
        "name the bed's parts under 'parts', and write 'on: NAME' in found, material and substrate",
        share.path,
        "material",
    )
    return []


def _spread(
    chart: Chart,
    share: Share,
    part: MaterialPart,
    ground: Ground | None,
    area: Fraction,
    shares: tuple[Share, ...],
    say: Say,
) -> Iterator[Spread]:
    use = cast(str, part.use)
    bare = area * (1 - ((ground.found.planted if ground else None) or 0))
    loose = bare * (1 + chart.materials[use].settles) / FT3_PER_YD3  # cubic yards a foot of depth
    if part.depth is not None:
        yield Spread(share, use, bare, part.depth, Fraction(0), loose * part.depth)
        return
    wanted = cast(Fraction, part.top_up_to)
    clearing = _clearing(chart, share, ground, shares, say)
    there = _there(ground) if clearing is None or clearing.how not in _SURE else Fraction(0)
    if there is None:
        _depth_unknown(share, ground, say)
        return
    added = max(wanted - there, Fraction(0))
    more = loose * (wanted - added)
    cleared = (clearing.path, more) if clearing and clearing.how == "add-on" and more else None
    if cleared and share.how == "add-on":
        say(
            "choice-on-choice",
            "how much material this add-on takes rests on whether another add-on clears the ground",
            "write 'depth: …' for what is added either way, or include one of the two",
            share.path,
            "material",
        )
    yield Spread(share, use, bare, added, there, loose * added, cleared)


def _depth_unknown(share: Share, ground: Ground | None, say: Say) -> None:
    say(
        "depth-unknown",
        "how deep the old material lies was not said, so the top-up cannot be worked out",
        "add 'ground_depth: …' under found, or write 'depth' for what is added",
        ground.path if ground else share.path,
        "material",
    )


def _there(ground: Ground | None) -> Fraction | None:
    """The depth that lies there and counts: of old mulch and stone what was found, of others nothing."""
    if ground is None or ground.found.ground in (None, "old mulch", "stone"):
        return ground.found.ground_depth if ground else None
    return ground.found.ground_depth or Fraction(0)


def _clearing(
    chart: Chart, share: Share, ground: Ground | None, shares: tuple[Share, ...], say: Say
) -> Share | None:
    """The share of the ground underneath that takes off what lies on this piece, if one does."""
    for other in shares:
        work = chart.work.get(other.part.work or "")
        if (
            other.decision != "substrate"
            or work is None
            or not work.clears
            or other.how not in (*_SURE, "add-on")
        ):
            continue
        if other.whole or ground and other.name and other.name == ground.name:
            return other
        if not other.name and ground and other.area == ground.area and not ground.name:
            return other
        if not other.name and not share.whole or not other.name and ground and ground.name:
            say(
                "name-the-parts",
                "which part is cleared, and how deep it lay there, cannot be told",
                "name the bed's parts under 'parts', and write 'on: NAME' in found, material and substrate",
                other.path,
                "substrate",
            )
    return None
