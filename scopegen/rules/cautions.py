"""Cautions: work that the law, or what may lie in the ground, asks something of first."""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from scopegen.case import Case
from scopegen.chart import Work
from scopegen.findings import Level
from scopegen.job import MaterialPart
from scopegen.load import Path_
from scopegen.rules.pieces import (
    Piece,
    bed_fault,
    chart_fault,
    fault_at,
    material_of,
    materials_used,
    pieces,
    pieces_of,
    speak_of,
    work_of,
)
from scopegen.rules.rule import Fault, Rule

FAMILY = "cautions"
DIGGING = "digging"  # the caution that the price chart gives to work that cuts into the ground
LINES = "buried-lines"
PETS = "movables-and-pets"
COCOA, DUST, LIFTING = "cocoa-hulls", "cutting-dust", "lifting"  # cautions by their clauses


def _ours(case: Case) -> Iterator[tuple[Piece | None, Path_, str, Work]]:
    """All work that we do, come to do where the customer did not, or do if something is found."""
    for piece in pieces(case):
        work = work_of(case, piece)
        if work is not None and piece.ours:
            yield piece, (*piece.path, "work"), piece.part.work or "", work
    for index, found in enumerate(case.job.if_found):
        if case.chart and found.work in case.chart.work:
            yield None, ("if_found", index, "work"), found.work, case.chart.work[found.work]


def _fault(case: Case, piece: Piece | None, path: Path_, message: str, fix: str) -> Fault:
    bed, decision = (piece.bed, piece.decision) if piece else (None, None)
    return bed_fault(case, bed, message, fix, case.place(path), decision)


def _no_applicator_license(case: Case) -> Iterator[Fault]:
    if (
        case.company is None
        or case.company.applicator_license
        or ("applicator_license",) in case.company_broken
    ):
        return
    for piece, path, key, work in _ours(case):
        if work.licensed:
            message = f"'{key}' needs a licensed applicator, and company.yaml has no license number for one"
            fix = "add 'applicator_license: …' to company.yaml, or decide the work as elsewhere or excluded"
            yield _fault(case, piece, path, message, fix)


def _digging_unlocated(case: Case) -> Iterator[Fault]:
    for piece, path, key, work in _ours(case):
        digs = DIGGING in work.cautions or bool(work.spoil and work.spoil.width)
        if not digs or _called_for(case, piece, work):
            continue
        left = _lines_left(case, piece.bed if piece else None)
        if left:
            message = f"'{key}' digs, but locating buried lines is {left} here"
            fix = f"decide '{LINES}' as included, customer or elsewhere"
            yield _fault(case, piece, path, message, fix)


def _called_for(case: Case, piece: Piece | None, work: Work) -> bool:
    """The work's own clause calls for the buried lines, and the rule on clauses says so."""
    clause = case.in_force.clauses.get(case.in_force.standing_for(work.clause)) if case.in_force else None
    return piece is not None and piece.priced and clause is not None and LINES in clause.calls_for


def _lines_left(case: Case, bed: int | None) -> str:
    """Nobody locates the lines: in what words; the bed's own answer goes before the site's."""
    own = [] if bed is None else list(pieces_of(case, bed, LINES))
    for answer in own or pieces_of(case, None, LINES):
        if answer.how in ("excluded", "not-needed"):
            return "excluded" if answer.how == "excluded" else "not needed"
    return ""


def _cocoa_and_pets(case: Case) -> Iterator[Fault]:
    for piece in pieces(case, "material"):
        material = material_of(case, piece)
        if material is None or COCOA not in material.cautions or not piece.priced:
            continue
        own = list(pieces_of(case, piece.bed, PETS))
        told = own or list(pieces_of(case, None, PETS))
        said = [text for answer in told for text in (answer.part.note, answer.part.because)]
        if told and not speak_of(case, "pets", *said):
            use = cast(MaterialPart, piece.part).use
            yield fault_at(
                case, piece,
                f"'{use}' is of cocoa hulls, and whether a dog lives there was not said",
                f"say so in the note or the reason of '{PETS}', or take another mulch",
                "use",
            )  # fmt: skip


def _dust_unsaid(case: Case) -> Iterator[Fault]:
    for piece, path, key, work in _ours(case):
        if DUST in work.cautions and not speak_of(case, "dust", piece.part.note if piece else ""):
            message = f"'{key}' cuts stone, and how the dust is kept down was not said"
            fix = "say in a note that it is cut wet, or with a vacuum at the saw"
            yield _fault(case, piece, path, message, fix)


def _lifting_unsaid(case: Case) -> Iterator[Fault]:
    for key, material in materials_used(case).items():
        if material.kind == "stone" and LIFTING not in material.cautions:
            message = f"'{key}' is stone, and the price chart gives it no caution on lifting"
            fix = f"add 'cautions: [{LIFTING}]' to it"
            yield chart_fault(case, message, fix, "materials", key, key=True)


LICENSE = Rule(
    "no-applicator-license", FAMILY, Level.STOPS,
    "Weed killers and preventers are spread under a license.",
    "States ask for a license to apply them for pay, even for products that anyone can buy, and even for"
    " natural ones.",
    "company: {applicator_license: PA-5550}",
    "job: {beds: [{bed_prep: {decided: included, work: weed-preventer}}]}",
    _no_applicator_license,
    "Wisconsin DATCP, lawn care services; Clemson University Department of Pesticide Regulation",
)  # fmt: skip
DIGGING_UNLOCATED = Rule(
    "digging-unlocated", FAMILY, Level.STOPS,
    "Where we may come to dig, somebody has the buried lines located first.",
    "A spade through a gas or power line can kill. Every state has its own excavation damage prevention law,"
    " and several reach hand digging by a paid contractor; the local one-call center decides. This also"
    " reaches work that we do only if the customer has not, and work for what may be found.",
    "job: {beds: [{edging: {decided: customer, by: start, if_not_done: we do it, work: recut-edge}}]}",
    "job: {site: {buried-lines: {decided: not-needed, because: a test}},"
    " beds: [{edging: {decided: customer, by: start, if_not_done: we do it, work: recut-edge}}]}",
    _digging_unlocated,
    "49 CFR 196.103; National Conference of State Legislatures on state excavation damage prevention laws",
)  # fmt: skip

HULLS = "chart: {materials: {hardwood: {cautions: [cocoa-hulls]}}}"
COCOA_AND_PETS = Rule(
    "cocoa-and-pets", FAMILY, Level.WARNS,
    "Where cocoa hulls are spread, it was said whether a dog lives there.",
    "Cocoa hulls smell of chocolate, and a dog that eats enough of them falls ill as from chocolate.",
    "{job: {site: {movables-and-pets: {decided: not-needed, because: no dog comes there}}},"
    f" {HULLS}}}",
    f"{{job: {{site: {{movables-and-pets: {{decided: included}}}}}}, {HULLS}}}",
    _cocoa_and_pets,
    "ASPCA, on cocoa bean mulch: dogs that eat enough of it could develop signs similar to chocolate"
    " poisoning",
)  # fmt: skip
SAWN = (
    "chart: {work: {set-stone: {decides: edging, name: Set a stone edge, price: {per: ft, amount: 14.00},"
    " does: 6 ft/h, clause: edging.stone-or-brick, cautions: [digging, cutting-dust]}}}"
)
DUST_UNSAID = Rule(
    "dust-unsaid", FAMILY, Level.NOTES,
    "Where stone is cut, it is said how the dust is kept down.",
    "The dust of cut stone, brick and concrete scars the lungs. The federal rule has tools that cut wet, or"
    " with the dust drawn off, as the way to meet its limit.",
    "{job: {beds: [{edging: {decided: included, work: set-stone, note: We cut wet.}}]}, " + f"{SAWN}}}",
    "{job: {beds: [{edging: {decided: included, work: set-stone}}]}, " + f"{SAWN}}}",
    _dust_unsaid, "29 CFR 1926.1153, respirable crystalline silica",
)  # fmt: skip
LIFTING_UNSAID = Rule(
    "lifting-unsaid", FAMILY, Level.NOTES,
    "Stone carries the caution on lifting.",
    "The caution is printed where the price chart names it. A bag of stone is near the most that one person"
    " should lift, and above it with the arms stretched out.",
    "job: {beds: [{material: {use: river-stone, depth: 2 in}, substrate: {decided: not-needed, because: no"
    " fabric is wanted}, found: {edge: soft, weeds: light, ground: bare soil}}]}",
    "{job: {beds: [{material: {use: river-stone, depth: 2 in}, substrate: {decided: not-needed, because: no"
    " fabric is wanted}, found: {edge: soft, weeds: light, ground: bare soil}}]},"
    " chart: {materials: {river-stone: {cautions: (left out)}}}}",
    _lifting_unsaid,
    "NIOSH, Applications Manual for the Revised NIOSH Lifting Equation (1994): a load constant of 51 lb, from"
    " memory",
)  # fmt: skip

RULES = (LICENSE, DIGGING_UNLOCATED, COCOA_AND_PETS, DUST_UNSAID, LIFTING_UNSAID)
