"""A bed that was told by its volume alone: it has no area, and so no parts, holes or depths."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import cast

from scopegen.answers import Answer
from scopegen.chart import Chart
from scopegen.job import Bed, MaterialPart
from scopegen.load import Path_
from scopegen.measure.values import Ground, Share, Spread

Say = Callable[..., None]
_MEASURE = "measure the bed, or say what holds for all of it"


def by_volume(
    answers: Sequence[Answer], bed: Bed, path: Path_, open_edge: Fraction | None, say: Say
) -> tuple[Share, ...]:
    """The shares of a bed's decisions, each of the whole bed, whose area is not known (0 here)."""
    for key, said in (("leave_out", bed.leave_out), ("parts", bed.parts)):
        if said:
            message = f"a bed that is told by its volume has no area, so '{key}' cannot be worked out"
            say("volume-only", message, _MEASURE, (*path, key))
    shares = []
    for answer in answers:
        for index, part in enumerate(answer.parts):
            if part.said("area") or part.said("on"):
                say(
                    "volume-only",
                    "a bed that is told by its volume has no area to be parted",
                    _MEASURE,
                    answer.path_of(index),
                    answer.decision,
                )
                continue
            length = part.along if part.along is not None else open_edge
            shares.append(
                Share(
                    answer.bed or 0,
                    answer.decision,
                    part,
                    answer.path_of(index),
                    answer.inherited,
                    Fraction(0),
                    length,
                )
            )
    return tuple(shares)


def stated_grounds(bed: Bed, path: Path_, say: Say) -> tuple[Ground, ...]:
    """What was found on the bed, each entry for all of it; how large it is, is not known (0 here)."""
    for number, found in enumerate(bed.found):
        for key in ("area", "on"):
            if found.said(key):
                message = "a bed that is told by its volume has no area to be parted"
                say("volume-only", message, _MEASURE, (*path, "found", number, key))
    return tuple(
        Ground(found, Fraction(0), (*path, "found", number))
        for number, found in enumerate(bed.found)
        if found.whole
    )


def stated_spreads(chart: Chart, shares: tuple[Share, ...], stated: Fraction, say: Say) -> tuple[Spread, ...]:
    """The stated volume as what is spread: of one material, and to no depth."""
    laid = [s for s in shares if s.decision == "material" and cast(MaterialPart, s.part).use]
    for share in laid:
        for key in ("depth", "top_up_to"):
            if share.part.said(key):
                message = "a bed that is told by its volume takes what was told, to no certain depth"
                fix = f"take '{key}' out, or measure the bed"
                if share.inherited:
                    fix = f"give the bed a material of its own without '{key}', or measure it"
                say("volume-only", message, fix, share.path, "material")
    if len(laid) > 1:
        message = "two materials share a bed that is told by its volume"
        say("volume-only", message, "write two beds, each with its volume", laid[1].path, "material")
        return ()
    return tuple(
        Spread(
            share,
            cast(str, cast(MaterialPart, share.part).use),
            Fraction(0),
            Fraction(0),
            Fraction(0),
            stated,
        )
        for share in laid
        if cast(MaterialPart, share.part).use in chart.materials
    )
