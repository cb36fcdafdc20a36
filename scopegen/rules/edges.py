"""A bed with a new edge: whether it was measured to the old edge or to the new one."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.case import Case
from scopegen.chart import Work
from scopegen.findings import Level
from scopegen.quantities.show import depth
from scopegen.rules.decisions import sound, undecided
from scopegen.rules.pieces import (
    Piece,
    bed_fault,
    fault_at,
    job_fault,
    pieces,
    pieces_of,
    unknown_work,
    work_of,
)
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "measures"


def _cuts_a_strip(work: Work | None) -> bool:
    return work is not None and work.spoil is not None and work.spoil.plus_strip is not None


def _strips(case: Case) -> Iterator[tuple[Piece, Work]]:
    """Edging that takes a strip of turf off beside the cut, on a bed that has a shape with an area."""
    for piece in pieces(case, "edging"):
        work = work_of(case, piece)
        if piece.bed is None or work is None or not _cuts_a_strip(work):
            continue
        shape = case.job.beds[piece.bed].shape
        if shape is not None and shape.volume is None:
            yield piece, work


def _unsaid(case: Case) -> Iterator[Fault]:
    every = ("every_bed", "shape_to")
    if case.job.every_bed.shape_to or {("every_bed",), every} & case.broken:
        return
    for piece, work in _strips(case):
        bed = case.job.beds[piece.bed or 0]
        if bed.shape_to or ("beds", piece.bed, "shape_to") in case.broken or not piece.priced:
            continue
        assert work.spoil is not None and work.spoil.plus_strip is not None
        width = depth(work.spoil.plus_strip.width, case.job.units)
        yield fault_at(
            case, piece,
            f"'{piece.part.work}' takes a strip of {width} off beside the cut, and whether the bed was"
            " measured with it was not said",
            "add 'shape_to: new edge' where the strip is in the measures, or 'shape_to: old edge' where the"
            " bed grows by it",
            "work",
        )  # fmt: skip


def _idle(case: Case) -> Iterator[Fault]:
    for index, bed in enumerate(case.job.beds):
        if bed.shape_to and _no_strip(case, index):
            place = case.place(("beds", index, "shape_to"), key=True)
            yield bed_fault(case, index, *_IDLE, place, "edging")
    beds = range(len(case.job.beds))
    if case.job.every_bed.shape_to and beds and all(_no_strip(case, index) for index in beds):
        yield job_fault(case, *_IDLE, "every_bed", "shape_to", key=True)


_IDLE = (
    "'shape_to' is said, but no edging here takes a strip off",
    "take it out, or name edging work whose spoil in the price chart has a 'plus_strip'",
)


def _no_strip(case: Case, bed: int) -> bool:
    """The bed's edging is decided, its work is known, and none of it takes a strip off."""
    if case.chart is None or ("beds",) in case.broken:
        return False
    answer = case.answer_of(bed, "edging")
    if not sound(case, answer) or undecided(case, answer):
        return False
    own = pieces_of(case, bed, "edging")
    return not any(unknown_work(case, piece) or _cuts_a_strip(work_of(case, piece)) for piece in own)


STRIP = "chart: {work: {new-edge: {spoil: {plus_strip: {width: 10 in, depth: 2 in}}}}}"
NEW_EDGE = "edging: {decided: included, work: new-edge}"
SHAPE_TO_UNSAID = Rule(
    "shape-to-unsaid", FAMILY, Level.STOPS,
    "Where a new edge takes a strip of turf off, it is said to which edge the bed was measured.",
    "A strip of ten inches along a hundred feet is 83 square feet of bed. Measured to the old edge they would"
    " be covered and never charged; measured to the new one they would be charged twice.",
    f"{{job: {{beds: [{{shape_to: new edge, {NEW_EDGE}}}]}}, {STRIP}}}",
    f"{{job: {{beds: [{{{NEW_EDGE}}}]}}, {STRIP}}}",
    _unsaid, TRADE,
)  # fmt: skip
SHAPE_TO_IDLE = Rule(
    "shape-to-idle", FAMILY, Level.WARNS,
    "'shape_to' is said where an edge takes a strip off.",
    "It changes nothing where no strip comes off. Somebody may believe that the bed was made larger by it.",
    f"{{job: {{beds: [{{shape_to: old edge, {NEW_EDGE}}}]}}, {STRIP}}}",
    f"job: {{beds: [{{shape_to: old edge, {NEW_EDGE}}}]}}",
    _idle,
)  # fmt: skip

RULES = (SHAPE_TO_UNSAID, SHAPE_TO_IDLE)
