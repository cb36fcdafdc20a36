"""Amounts that have to be told bed by bed, and depths that work takes out."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.job import DECISIONS
from scopegen.measure import BedMeasure, Share
from scopegen.rules.pieces import fault_at, pieces, work_of
from scopegen.rules.rule import Fault, Rule

FAMILY = "measures"
OF_ONE_BED = ("area", "along", "on")  # keys that measure or name a piece of one bed


def _every_bed_measured(case: Case) -> Iterator[Fault]:
    for decision in DECISIONS:
        for index, part in enumerate(getattr(case.job.every_bed, decision) or ()):
            for key in OF_ONE_BED:
                if part.said(key):
                    yield Fault(
                        f"'{key}' measures a part of one bed, and cannot hold for every bed",
                        "say this decision in the bed itself",
                        case.place(("every_bed", decision, index, key), key=True),
                        None,
                        decision,
                    )


def _found_depth_unsaid(case: Case) -> Iterator[Fault]:
    if case.measured is None:
        return
    for piece in pieces(case, *DECISIONS):
        work = work_of(case, piece)
        if piece.bed is None or work is None or work.spoil is None or not piece.ours:
            continue
        if work.spoil.width is not None or work.spoil.depth is not None:
            continue  # the chart says how much comes out
        bed = case.measured.beds[piece.bed]
        share = next((share for share in bed.of(piece.decision) if share.path == piece.path), None)
        if share is not None and not _depths_known(bed, share):
            yield fault_at(
                case, piece,
                f"'{piece.part.work}' takes out what lies there, but how deep that is was not said",
                "add 'ground_depth: …' under found, for each part that it takes off",
                "work",
            )  # fmt: skip


def _depths_known(bed: BedMeasure, share: Share) -> bool:
    """Every piece of ground that may lie under the share has a depth, or nothing lies on it."""
    named = [ground for ground in bed.grounds if share.name and ground.name == share.name]
    alike = [
        ground for ground in bed.grounds if not share.whole and not share.name and ground.area == share.area
    ]
    under = named or alike or bed.grounds
    return bool(under) and all(
        ground.found.ground_depth is not None or ground.found.ground == "bare soil" for ground in under
    )


EVERY_BED = Rule(
    "every-bed-measured", FAMILY, Level.STOPS,
    "What is said for every bed names no length, no area and no part.",
    "Twenty feet of edge are twenty feet of one bed. Said for all, each bed would be charged for them.",
    "job: {every_bed: {bed_prep: {decided: included, work: hand-weed}}}",
    "job: {every_bed: {bed_prep: {decided: included, work: hand-weed, area: rest}}}",
    _every_bed_measured,
)  # fmt: skip
FOUND_DEPTH = Rule(
    "found-depth-unsaid", FAMILY, Level.STOPS,
    "Work that takes out what was found knows how deep that lies.",
    "Old mulch that is stripped is hauled and dumped by its volume. Without its depth that volume, the trips"
    " and the dump fee would be nothing.",
    "job: {beds: [{found: {edge: soft, weeds: light, ground: old mulch, ground_depth: 2 in},"
    " substrate: {decided: included, work: strip-old-mulch}}]}",
    "job: {beds: [{found: {edge: soft, weeds: light, ground: old mulch},"
    " substrate: {decided: included, work: strip-old-mulch}}]}",
    _found_depth_unsaid,
)  # fmt: skip

RULES = (EVERY_BED, FOUND_DEPTH)
