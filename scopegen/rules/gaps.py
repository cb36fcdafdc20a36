"""Where mulch should not lie: at trunks and siding, on plastic, under stone; and fine mulch too deep."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import cast

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.job import Bed, MaterialPart, NamedShape
from scopegen.quantities.show import depth as show_depth
from scopegen.quantities.units import IN_PER_FT
from scopegen.rules.contradictions import over_found
from scopegen.rules.depths import MOST_IN_ALL, mulch_depths, stays
from scopegen.rules.pieces import (
    Piece,
    bed_fault,
    fault_at,
    looked_for,
    material_of,
    pieces,
    pieces_of,
    speak_of,
    unknown_work,
    work_of,
)
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "depths and plants"
ORGANIC = ("mulch", "compost")
PULLED_BACK = "substrate.pull-back-from-walls"  # the clause of work that frees a wall
FINE_MOST = Fraction(2, IN_PER_FT)  # ft; the upper end of what is advised for finely shredded mulch
TRUNK_HOLE = Fraction(2 * 6, IN_PER_FT)  # ft across; six inches to each side of the thinnest trunk


def _organic(case: Case) -> Iterator[tuple[Piece, Bed]]:
    """Mulch or compost that is spread, with its bed."""
    for piece in pieces(case, "material"):
        material = material_of(case, piece)
        if piece.bed is not None and piece.priced and material is not None and material.kind in ORGANIC:
            yield piece, case.job.beds[piece.bed]


def _noted(case: Case, piece: Piece, bed: Bed, what: str, *also: str) -> bool:
    """A note on the material, on what was found, or on these decisions, speaks of it."""
    others = [*pieces_of(case, piece.bed, *also), *pieces_of(case, None, *also)] if also else []
    notes = [piece.part.note, *(found.note for found in bed.found), *(other.part.note for other in others)]
    return speak_of(case, what, *notes)


def _trunk_gap(case: Case) -> Iterator[Fault]:
    for piece, bed in _organic(case):
        roots, holes = {found.roots for found in bed.found}, list(_holes(bed))
        tree = "many" in roots or bool(holes) and "some" in roots
        if not tree or any(hole is None or hole >= TRUNK_HOLE for hole in holes):
            continue
        if bed.shape is not None and not _noted(case, piece, bed, "trunk", "plants"):
            what = "nothing is left out round a trunk"
            if holes:
                widest = show_depth(max(hole for hole in holes if hole is not None), case.job.units)
                what = f"only {widest} across are left out round a trunk"
            yield fault_at(
                case, piece,
                f"tree roots were found, and {what}",
                "leave out the trunk and 6 inches or more on each side, or say in a note how it stays free",
            )  # fmt: skip


def _holes(bed: Bed) -> Iterator[Fraction | None]:
    """How wide each round hole of the bed is, in ft; None for a hole of another shape."""
    rings: list[NamedShape] = []
    if bed.shape is not None:
        rings = [bed.shape, *(bed.shape.parts or ())]
    for shape in rings:
        if shape.ring:
            yield shape.ring.inner
    for hole in bed.leave_out:
        circle = hole.circle
        across = circle and (circle.diameter or circle.radius and 2 * circle.radius)
        yield Fraction(across) if across else None


def _siding_gap(case: Case) -> Iterator[Fault]:
    seen: set[int | None] = set()
    walls = set(looked_for(case, "wall"))  # what rots, burns or hides termites
    for piece, bed in _organic(case):
        near = [what for what in bed.against if walls & set(re.findall(r"\w+", what.lower()))]
        if not near or piece.bed in seen or _freed(case, piece) or _noted(case, piece, bed, "gap"):
            continue
        seen.add(piece.bed)
        material = material_of(case, piece)
        place = case.place(("beds", piece.bed or 0, "against", near[0]), key=True)
        yield bed_fault(
            case, piece.bed,
            f"{material.kind if material else 'mulch'} is laid against this: {', '.join(near)}",
            "say in a note on the material how wide a gap stays open: a foot is advised, and 18 inches where"
            " siding can burn; or take the strip out of the bed",
            place, "material",
        )  # fmt: skip


def _freed(case: Case, piece: Piece) -> bool:
    """Work on the bed pulls the ground back from the wall, or may do so: what it is cannot be told."""
    for other in pieces_of(case, piece.bed, "substrate"):
        work = work_of(case, other)
        if other.ours:
            if unknown_work(case, other) or work is not None and work.clause == PULLED_BACK:
                return True
    return False


def _fine_too_deep(case: Case) -> Iterator[Fault]:
    for bed, spread, there, material in mulch_depths(case):
        total = there + spread.depth
        if material.texture == "fine" and FINE_MOST < total <= MOST_IN_ALL:
            units = case.job.units
            on_top = f"{show_depth(spread.depth, units)} on top of {show_depth(there, units)} makes "
            yield bed_fault(
                case, bed,
                f"{on_top if there else ''}{show_depth(total, units)} of fine mulch",
                "lay less, or take a coarser mulch",
                case.place(spread.share.path, key=True), "material",
            )  # fmt: skip


def _over_plastic(case: Case) -> Iterator[Fault]:
    for piece, _ in _organic(case):
        use = cast(MaterialPart, piece.part).use
        grounds = case.measured.beds[piece.bed or 0].grounds if case.measured else ()
        if any(ground.found.ground == "plastic" for ground in grounds) and stays(case, piece.bed or 0):
            yield fault_at(
                case, piece,
                f"'{use}' is laid on plastic that stays",
                "offer to pull it, or tell the customer that it keeps water and air from the roots",
                "use",
            )  # fmt: skip


def _stone_over_mulch(case: Case) -> Iterator[Fault]:
    beneath: dict[int | None, list[tuple[Piece, object]]] = {}
    for piece, ground in over_found(case, "substrate"):
        beneath.setdefault(piece.bed, []).append((piece, ground))
    for piece, ground in over_found(case, "material"):
        material = material_of(case, piece)
        if material is None or material.kind != "stone" or not piece.priced:
            continue
        if ground.found.ground != "old mulch" or not _decided_under(case, piece):
            continue
        under = [other for other, same in beneath.get(piece.bed, ()) if same == ground]
        if not any(_takes_off(case, other) for other in under):
            yield fault_at(
                case, piece,
                "stone is laid on old mulch that nobody takes off",
                "include stripping it, or say who does: it rots, and the stone sinks into it",
                "use",
            )  # fmt: skip
            return


def _decided_under(case: Case, piece: Piece) -> bool:
    return any(pieces_of(case, piece.bed, "substrate"))


def _takes_off(case: Case, piece: Piece) -> bool:
    work = work_of(case, piece)
    clears = piece.ours and work is not None and work.clears
    return clears or unknown_work(case, piece) or piece.how in ("customer", "elsewhere")


ROOTY = "found: {edge: soft, weeds: light, ground: bare soil, roots: many}"
FREE = "against: (left out), substrate: {decided: not-needed, because: the soil is open}"
TRUNK_GAP = Rule(
    "trunk-gap", FAMILY, Level.WARNS,
    "Where tree roots are, mulch and compost keep six inches or more from the trunk.",
    "Mulch that touches the bark keeps it wet and rots it. Advice on the gap runs from 6 to 18 inches. A hole"
    " that is narrower than a foot cannot hold six inches on each side of any trunk.",
    f"job: {{beds: [{{shape: {{ring: {{outer: 10 ft, inner: 2 ft}}}}, {ROOTY}, {FREE}}}]}}",
    f"job: {{beds: [{{shape: {{ring: {{outer: 10 ft, inner: 6 in}}}}, {ROOTY}, {FREE}}}]}}",
    _trunk_gap,
    "New Jersey DEP as quoted by the Borough of Mountain Lakes: no closer than 6 inches from the trunk;"
    " UF/IFAS Extension Polk County: 12 to 18 inches",
)  # fmt: skip
SIDING_GAP = Rule(
    "siding-gap", FAMILY, Level.WARNS,
    "Where mulch or compost goes along siding or a building, a gap is spoken of.",
    "Damp and insects come in behind mulch that touches siding, and mulch burns. In Massachusetts new mulch"
    " within 18 inches of siding that can burn is forbidden, homes of six units or fewer apart.",
    "job: {beds: [{against: {house wall: back}, material: {use: hardwood, depth: 2 in, note: A gap of a foot"
    " stays open along the wall.}}]}",
    "job: {beds: [{against: {house wall: back}}]}",
    _siding_gap,
    "UF/IFAS Extension Polk County: organic mulches at least 1 foot away from buildings; 527 CMR 1.00 as told"
    " by the Massachusetts Department of Fire Services",
)  # fmt: skip
FINE = "chart: {materials: {hardwood: {texture: fine}}}"
FINE_TOO_DEEP = Rule(
    "fine-too-deep", FAMILY, Level.WARNS,
    "Finely shredded mulch lies no deeper than 2 inches in all.",
    "Fine mulch packs. Water runs off it and air does not come through, so less of it does the same.",
    f"{{job: {{beds: [{{material: {{use: hardwood, depth: 1 in}}}}]}}, {FINE}}}",
    f"{{job: {{beds: [{{material: {{use: hardwood, depth: 2 in}}}}]}}, {FINE}}}",
    _fine_too_deep,
    "International Society of Arboriculture, Proper Mulching Techniques (1 to 2 inches for finely shredded"
    " mulch, from memory); Cornell Cooperative Extension Oneida County: finely shredded mulches decompose"
    " faster",
)  # fmt: skip
OVER_PLASTIC = Rule(
    "mulch-over-plastic", FAMILY, Level.WARNS,
    "Mulch and compost are not laid on plastic that stays.",
    "Plastic keeps water and air from the soil. Roots under it suffer, and those of trees most.",
    "job: {beds: [{found: {edge: soft, weeds: light, ground: plastic}, substrate: {decided: customer, by:"
    " start, if_not_done: come back}}]}",
    "job: {beds: [{found: {edge: soft, weeds: light, ground: plastic}, substrate: {decided: excluded, note:"
    " The plastic stays.}}]}",
    _over_plastic,
    "Washington Township (Morris County, New Jersey), Shade Tree Committee: plastic sheets block the passage"
    " of air and water",
)  # fmt: skip
STONE = "material: {use: river-stone, depth: 2 in}"
STONE_OVER_MULCH = Rule(
    "stone-over-old-mulch", FAMILY, Level.WARNS,
    "Stone is laid on ground that the old mulch was taken off.",
    "Old mulch rots under stone. The stone sinks and mixes with it, and weeds root in what is left.",
    f"job: {{beds: [{{{STONE}, substrate: {{decided: included, work: strip-old-mulch, note: No fabric is"
    " wanted.}}]}",
    f"job: {{beds: [{{{STONE}, substrate: {{decided: not-needed, because: no fabric is wanted}}}}]}}",
    _stone_over_mulch, TRADE,
)  # fmt: skip

RULES = (TRUNK_GAP, SIDING_GAP, FINE_TOO_DEEP, OVER_PLASTIC, STONE_OVER_MULCH)
