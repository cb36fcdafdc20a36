"""What the price rests on: fixed, or by measure within a tolerance; and beds told by their volume."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.rules.pieces import bed_fault, job_fault
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "payments and law"


def _unsaid(case: Case) -> Iterator[Fault]:
    if case.job.price_basis != "by measure" or case.job.tolerance is not None:
        return
    if not {("tolerance",), ("price_basis",)} & case.broken:
        yield job_fault(
            case,
            "material is charged as it is delivered, but by how much that may pass the estimate is not said",
            "add 'tolerance: 10 %', or what you stand for",
            "price_basis",
        )


def _unused(case: Case) -> Iterator[Fault]:
    if (
        case.job.price_basis == "fixed"
        and case.job.tolerance is not None
        and ("price_basis",) not in case.broken
    ):
        yield job_fault(
            case,
            "the price is fixed, and a tolerance changes nothing about it",
            "take it out, or write 'price_basis: by measure'",
            "tolerance",
        )


def _told(case: Case) -> Iterator[int]:
    """The beds that were told by their volume."""
    for index, bed in enumerate(case.job.beds):
        if bed.shape is not None and bed.shape.volume is not None:
            yield index


def _fixed(case: Case) -> Iterator[Fault]:
    if case.job.price_basis != "fixed" or ("price_basis",) in case.broken:
        return
    for index in _told(case):
        yield bed_fault(
            case, index,
            "the bed was told by its volume, and the price is fixed",
            "measure it, or write 'price_basis: by measure' with a tolerance",
            case.place(("beds", index, "shape"), key=True),
        )  # fmt: skip


def _told_by(case: Case) -> Iterator[Fault]:
    hidden = {("every_bed",), ("every_bed", "measured_by")}
    for index in _told(case):
        own = case.job.beds[index].measured_by
        by = own or case.job.every_bed.measured_by
        path = ("beds", index, "measured_by")
        if by in (None, "eye") or path in case.broken or own is None and hidden & case.broken:
            continue
        yield bed_fault(
            case, index,
            f"the bed was told by its volume, but measured by {by}",
            "write 'measured_by: eye' in the bed, or its measures in place of the volume",
            case.place(path if own else ("beds", index, "shape"), key=not own),
        )  # fmt: skip


TOLD = (
    "shape: {volume: 3 yd3}, against: (left out), outline: 40 ft, material: {use: hardwood},"
    " found: {edge: soft, weeds: light}, bed_prep: {decided: excluded}, substrate: {decided: excluded}"
)
BY_MEASURE = "price_basis: by measure, tolerance: 10 %"
TOLERANCE_UNSAID = Rule(
    "tolerance-unsaid", FAMILY, Level.STOPS,
    "A price by measure says how far it may pass the estimate.",
    "Without a limit the customer signs for whatever the load tickets say, and no change order is ever due.",
    f"job: {{{BY_MEASURE}}}", "job: {price_basis: by measure}", _unsaid, TRADE,
)  # fmt: skip
TOLERANCE_UNUSED = Rule(
    "tolerance-unused", FAMILY, Level.WARNS,
    "A tolerance is said only where the price is by measure.",
    "A fixed price has none. Whoever wrote it may believe that the price can still move.",
    f"job: {{{BY_MEASURE}}}", "job: {tolerance: 10 %}", _unused,
)  # fmt: skip
VOLUME_FIXED = Rule(
    "volume-fixed", FAMILY, Level.WARNS,
    "A fixed price rests on measured beds.",
    "A volume that was told by eye can be a sixth off. Under a fixed price the difference is"
    " the contractor's.",
    f"job: {{{BY_MEASURE}, beds: [{{measured_by: eye, {TOLD}}}]}}",
    f"job: {{beds: [{{measured_by: eye, {TOLD}}}]}}",
    _fixed,
    "CalRecycle, Calculations for closed and illegal disposal sites: the volume of a pile told by eye 'could"
    " be within 10-15 percent'",
)  # fmt: skip
VOLUME_TOLD_BY = Rule(
    "volume-told-by", FAMILY, Level.STOPS,
    "A bed that was told by its volume was told by eye.",
    "The paper says how each bed was measured. No tape was laid on a bed that has no length.",
    f"job: {{{BY_MEASURE}, beds: [{{measured_by: eye, {TOLD}}}]}}",
    f"job: {{{BY_MEASURE}, beds: [{{{TOLD}}}]}}",
    _told_by,
)  # fmt: skip

RULES = (TOLERANCE_UNSAID, TOLERANCE_UNUSED, VOLUME_FIXED, VOLUME_TOLD_BY)
