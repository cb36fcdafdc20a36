"""Depths that plants can live with: advice, not refusals."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import cast

from scopegen.case import Case
from scopegen.chart import Material
from scopegen.findings import Level
from scopegen.job import MaterialPart
from scopegen.measure import Spread
from scopegen.quantities.show import depth as show_depth
from scopegen.quantities.units import IN_PER_FT
from scopegen.rules.pieces import (
    SURE_WAYS,
    bed_fault,
    fault_at,
    material_of,
    pieces,
    pieces_of,
    unknown_work,
    work_of,
)
from scopegen.rules.rule import Fault, Rule

FAMILY = "depths and plants"
DEEPEST = Fraction(1)  # ft; a foot of material is a slip of the unit
MOST_IN_ALL = Fraction(4, IN_PER_FT)  # ft; the upper end of the published advice on mulch


def mulch_depths(case: Case) -> Iterator[tuple[int, Spread, Fraction, Material]]:
    """For each bed with mulch its number, the deepest spread, the depth in ft that lies there and counts,
    and the material."""
    for bed in case.measured.beds if case.measured and case.chart else ():
        found = []
        for spread in bed.spreads:
            material = case.chart.materials[spread.material] if case.chart else None
            if material is not None and material.kind == "mulch" and spread.depth:
                there = spread.there or _lies_there(case, bed.index)
                found.append((bed.index, spread, there, material))
        if found:
            yield max(found, key=lambda each: each[1].depth + each[2])


def _total_depth(case: Case) -> Iterator[Fault]:
    for bed, spread, there, _ in mulch_depths(case):
        total = there + spread.depth
        if total > MOST_IN_ALL:
            message = (
                f"{show_depth(spread.depth)} on top of {show_depth(there)} makes {show_depth(total)} of mulch"
                if there
                else f"{show_depth(total)} of mulch are laid"
            )
            fix = "add less, write 'top_up_to: …', or strip the old mulch"
            yield bed_fault(case, bed, message, fix, case.place(spread.share.path, key=True), "material")


def _lies_there(case: Case, bed: int) -> Fraction:
    """The most old mulch found under a material that is added, where nothing takes it off."""
    if case.measured is None or case.chart is None:
        return Fraction(0)
    measured = case.measured.beds[bed]
    if any(unknown_work(case, other) for other in pieces_of(case, bed, "substrate")):
        return Fraction(0)
    if any(
        share.how in SURE_WAYS and (work := case.chart.work.get(share.part.work or "")) and work.clears
        for share in measured.of("substrate")
    ):
        return Fraction(0)
    return max(
        (
            ground.found.ground_depth or Fraction(0)
            for ground in measured.grounds
            if ground.found.ground == "old mulch"
        ),
        default=Fraction(0),
    )


def _too_deep(case: Case) -> Iterator[Fault]:
    for bed in case.measured.beds if case.measured else ():
        for spread in bed.spreads:
            if spread.depth > DEEPEST:
                place = case.place(spread.share.path, key=True)
                message = f"{show_depth(spread.depth)} of material are laid, deeper than any bed"
                yield bed_fault(case, bed.index, message, "check the depth and its unit", place, "material")
                break


def _old_depth_unsaid(case: Case) -> Iterator[Fault]:
    for bed in case.measured.beds if case.measured else ():
        for ground in bed.grounds:
            if ground.found.ground == "old mulch" and ground.found.ground_depth is None and bed.spreads:
                place = case.place((*ground.path, "ground"))
                yield bed_fault(
                    case,
                    bed.index,
                    "old mulch was found, but not how deep it lies",
                    "add 'ground_depth: …'",
                    place,
                    "material",
                )


def _adds_nothing(case: Case) -> Iterator[Fault]:
    for piece in pieces(case, "material"):
        part = cast(MaterialPart, piece.part)
        if not piece.priced or case.measured is None or piece.bed is None:
            continue
        bed = case.measured.beds[piece.bed]
        spreads = [spread for spread in bed.spreads if spread.share.path == piece.path]
        if not spreads or any(spread.volume for spread in spreads):
            continue
        if any(spread.area for spread in spreads) and part.top_up_to is not None:
            message = f"topping up to {show_depth(part.top_up_to)} adds nothing: so much lies there already"
            fix, key = "decide material as 'not-needed', or top up to more", "top_up_to"
        else:
            message, key = "no material is spread: all of the ground is planted", "use"
            fix = "check 'planted' under found, or decide material as 'not-needed'"
        yield fault_at(case, piece, message, fix, key)


def _mulch_on_fabric(case: Case) -> Iterator[Fault]:
    for piece in pieces(case, "material"):
        material = material_of(case, piece)
        if material is None or material.kind != "mulch" or not piece.priced:
            continue
        if case.measured is None or piece.bed is None:
            continue
        grounds = case.measured.beds[piece.bed].grounds
        if any(ground.found.ground == "fabric" for ground in grounds) and stays(case, piece.bed):
            yield fault_at(
                case, piece,
                "mulch is laid on fabric that stays",
                "offer to pull it, or tell the customer that mulch dries out and slides on it",
                "use",
            )  # fmt: skip


def stays(case: Case, bed: int) -> bool:
    """The ground underneath is decided, and nobody clears it."""
    under = list(pieces_of(case, bed, "substrate"))
    if any(unknown_work(case, other) or other.how in ("customer", "elsewhere") for other in under):
        return False
    works = [work_of(case, other) for other in under if other.priced]
    return bool(under) and not any(work and work.clears for work in works)


RULES = (
    Rule(
        "too-deep", FAMILY, Level.STOPS, "No material is laid deeper than a foot.",
        "Yards written for inches sell a pit of mulch for a price that somebody may sign.",
        "job: {beds: [{material: {use: hardwood, depth: 12 in}}]}",
        "job: {beds: [{material: {use: hardwood, depth: 2 yd}}]}", _too_deep,
    ),
    Rule(
        "total-depth", FAMILY, Level.WARNS, "Old and new mulch together are no deeper than 4 inches.",
        "Roots need air. The depth that counts is the total, not what is added.",
        "job: {beds: [{material: {use: hardwood, depth: 2"
        " in}}]}", "job: {beds: [{material: {use: hardwood, depth: 5 in}}]}",
        _total_depth, "International Society of Arboriculture, treesaregood.org: two to four inches; UF/IFAS"
        " Extension Polk County: 2 to 3 inches after settling",
    ),
    Rule(
        "old-depth-unsaid", FAMILY, Level.WARNS, "Where old mulch lies, its depth was said.",
        "Without it nobody knows how deep the new and the old lie together.",
        "job: {beds: [{found: {edge: soft, weeds: light, ground: old mulch, ground_depth: 1 in}}]}",
        "job: {beds: [{found: {edge: soft, weeds: light, ground: old mulch}}]}",
        _old_depth_unsaid, "Cornell Cooperative Extension Oneida County, 2023: 'Before replacing mulch each"
        " season, check the depth.'",
    ),
    Rule(
        "adds-nothing", FAMILY, Level.WARNS, "What is spread adds something.",
        "A line of material with no material in it looks like a slip.",
        "job: {beds: [{material: {use: hardwood, top_up_to: 3"
        " in}}]}", "job: {beds: [{material: {use: hardwood, top_up_to: 1 in}}]}", _adds_nothing,
    ),
    Rule(
        "mulch-on-fabric", FAMILY, Level.WARNS, "Mulch is not laid on fabric that stays.",
        "Fabric under organic mulch keeps it from mixing with the soil; weeds root in it all the same.",
        "job: {beds: [{found: {edge: soft, weeds: light, ground: fabric}, substrate: {decided: included,"
        " work: pull-fabric}}]}",
        "job: {beds: [{found: {edge: soft, weeds: light, ground: fabric}, substrate: {decided: excluded,"
        " note: The fabric stays.}}]}",
        _mulch_on_fabric, "Colorado State University Extension 7.214 (12/20): fabric is not needed beneath"
        " other mulches and in many cases harms plant and soil health",
    ),
)  # fmt: skip
