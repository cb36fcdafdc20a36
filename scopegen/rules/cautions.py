"""Cautions: work that the law, or what may lie in the ground, asks something of first."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.case import Case
from scopegen.chart import Work
from scopegen.findings import Level
from scopegen.load import Path_
from scopegen.rules.pieces import Piece, bed_fault, pieces, work_of
from scopegen.rules.rule import Fault, Rule

FAMILY = "cautions"
DIGGING = "digging"  # the caution that the price chart gives to work that cuts into the ground
LINES = "buried-lines"


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
    clause = case.library.clauses.get(work.clause) if case.library else None
    return piece is not None and piece.priced and clause is not None and LINES in clause.calls_for


def _lines_left(case: Case, bed: int | None) -> str:
    """Nobody locates the lines: in what words; the bed's own answer goes before the site's."""
    answers = list(pieces(case, LINES))
    own = [answer for answer in answers if bed is not None and answer.bed == bed]
    for answer in own or [answer for answer in answers if answer.bed is None]:
        if answer.how in ("excluded", "not-needed"):
            return "excluded" if answer.how == "excluded" else "not needed"
    return ""


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

RULES = (LICENSE, DIGGING_UNLOCATED)
