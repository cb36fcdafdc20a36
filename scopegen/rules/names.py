"""Names that the price chart has to know, and quantities that its prices ask for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from scopegen.case import Case
from scopegen.chart import Work
from scopegen.findings import Level
from scopegen.job import MaterialPart, Part
from scopegen.job.decisions import PRICED_WAYS
from scopegen.measure import Share
from scopegen.rules.decisions import SPOKEN
from scopegen.rules.pieces import Piece, fault_at, job_fault, pieces, work_of
from scopegen.rules.rule import Fault, Rule
from scopegen.rules.ways import choices
from scopegen.understand import nearest

FAMILY = "names and quantities"


def _known_or(word: str, known: tuple[str, ...], where: str) -> str:
    near = nearest(word, known)
    return near or f"known there: {', '.join(known) or 'nothing yet'}; or add it to the chart's '{where}'"


def _unknown_work(case: Case) -> Iterator[Fault]:
    if case.chart is None:
        return
    known = tuple(case.chart.work)
    for piece in pieces(case):
        work = piece.part.work
        if work and piece.decision != "material" and not _in_chart(case, "work", work):
            fix = _known_or(work, known, "work")
            yield fault_at(case, piece, f"the price chart has no work called '{work}'", fix, "work")
    for index, found in enumerate(case.job.if_found):
        if not _in_chart(case, "work", found.work):
            fix = _known_or(found.work, known, "work")
            message = f"the price chart has no work called '{found.work}'"
            yield job_fault(case, message, fix, "if_found", index, "work")


def _in_chart(case: Case, section: str, name: str) -> bool:
    """The chart has an entry of that name, sound or not: what is broken was found while reading."""
    assert case.chart is not None
    hidden = {(section,), (section, name)} & case.chart_broken
    return bool(hidden) or name in getattr(case.chart, section)


def _wrong_decision(case: Case) -> Iterator[Fault]:
    for piece in pieces(case):
        if piece.part.work is None:
            continue
        work = work_of(case, piece)
        if piece.decision == "material":
            yield fault_at(
                case, piece,
                "material names no work",
                "write 'use: …' with a material of the chart, and name the work under its own decision",
                "work",
            )  # fmt: skip
        elif work is not None and work.decides != piece.decision:
            yield fault_at(
                case, piece,
                f"'{piece.part.work}' decides {SPOKEN[work.decides]}, not {piece.spoken}",
                _right_decision(case, piece, work),
                "work",
            )  # fmt: skip


def _right_decision(case: Case, piece: Piece, work: Work) -> str:
    there = "beside the beds, under 'extras'" if work.decides == "extra" else f"under '{work.decides}'"
    if not piece.of_bed and piece.decision != "extra":
        return f"take it out: a site decision names no work; say the work {there}"
    return f"say it {there}, or name work for this decision: {choices(case, piece.decision)}"


def _unknown_material(case: Case) -> Iterator[Fault]:
    if case.chart is None:
        return
    for piece in pieces(case, "material"):
        use = cast(MaterialPart, piece.part).use
        if use and not _in_chart(case, "materials", use):
            fix = _known_or(use, tuple(case.chart.materials), "materials")
            yield fault_at(case, piece, f"the price chart has no material called '{use}'", fix, "use")
    for index, pile in enumerate(case.job.on_hand):
        if not _in_chart(case, "materials", pile.use):
            fix = _known_or(pile.use, tuple(case.chart.materials), "materials")
            message = f"the price chart has no material called '{pile.use}'"
            yield job_fault(case, message, fix, "on_hand", index, "use")


def _unknown_access(case: Case) -> Iterator[Fault]:
    if case.chart is None or ("access",) in case.chart_broken:
        return
    for piece in pieces(case):
        way = piece.part.way
        if way is not None and piece.decision != "access":
            fix = "write it under 'access', among the site decisions"
            yield fault_at(
                case, piece, f"'way' says how the beds are reached, not {piece.spoken}", fix, "way"
            )
        elif way is not None and way not in case.chart.access:
            fix = _known_or(way, tuple(case.chart.access), "access")
            yield fault_at(case, piece, f"the price chart has no way in called '{way}'", fix, "way")


def _if_found_limit(case: Case) -> Iterator[Fault]:
    for index, found in enumerate(case.job.if_found):
        if found.not_over is None and not found.call_first:
            yield job_fault(
                case,
                f"if we find {found.what}, how much is done without asking is not said",
                "add 'not_over: 150.00' for the most that is done without asking, or 'call_first: yes'",
                "if_found", index,
            )  # fmt: skip


def _whom_to_call(case: Case) -> Iterator[Fault]:
    customer = case.job.customer
    if customer is None or customer.phone or ("customer", "phone") in case.broken:
        return
    for index, found in enumerate(case.job.if_found):
        if found.call_first:
            message = f"if we find {found.what}, we call first, but the customer's phone is not known"
            yield job_fault(case, message, "add 'phone: …' under 'customer'", "if_found", index)
            return


_AN_EDGE = ("how long the edge is was not said", "add 'outline: …' to the bed, the length all round it")
_NO_AREA = ("the bed is told by its volume and has no area", "measure the bed, or decide this work otherwise")
_HOURS = ("the hours were not said", "add 'worker_hours: …', such as 'worker_hours: 3 h'")
_LENGTH = ("no length was said", "add 'along: …', such as 'along: 20 ft'")
_AREA = ("no area was said", "add 'area: …', such as 'area: 120 ft2'")


def _by(work: Work) -> str:
    """What the work is reckoned by: '' where its price, hours and spoil need no quantity of a part."""
    per = getattr(work.price, "per", "")
    if per == "worker-hour":
        return "hour"
    along = per in ("ft", "m") or work.does and work.does[1] == "ft" or work.spoil and work.spoil.width
    over = per in ("ft2", "m2") or work.does and work.does[1] == "ft2" or work.spoil and not work.spoil.width
    return "foot" if along else "square foot" if over else ""


def _quantity_unknown(case: Case) -> Iterator[Fault]:
    shares = {(share.bed, share.path): share for share in (case.measured.shares if case.measured else ())}
    for piece in pieces(case):
        work = work_of(case, piece)
        if work is None or not piece.ours or work.hauls or piece.decision == "material":
            continue
        share = shares.get((piece.bed, piece.path)) if piece.bed is not None else None
        lack = _lack(_by(work), piece.part, share, extra=piece.decision == "extra")
        told = case.measured.beds[piece.bed] if case.measured and piece.bed is not None else None
        if told is not None and told.stated is not None and _by(work) == "square foot":
            lack = _NO_AREA
        if lack:
            what, fix = lack
            message = f"'{piece.part.work}' goes by the {_by(work)}, but {what}"
            yield fault_at(case, piece, message, fix)


def _lack(by: str, part: Part, share: Share | None, *, extra: bool) -> tuple[str, str] | None:
    if by == "hour":
        return None if part.worker_hours else _HOURS
    if extra:
        return (
            _LENGTH
            if by == "foot" and not part.along
            else _AREA
            if by == "square foot" and not part.area
            else None
        )
    return _AN_EDGE if by == "foot" and share is not None and share.length is None else None


def _hours_not_used(case: Case) -> Iterator[Fault]:
    for piece in pieces(case):
        work = work_of(case, piece)
        if piece.part.worker_hours and (work is None or _by(work) != "hour") and not _hidden(case, piece):
            yield fault_at(
                case, piece,
                f"the hours are not used: {piece.spoken} is not priced by the hour here",
                "take 'worker_hours' out, or name work that is priced by the hour",
                "worker_hours",
            )  # fmt: skip


def _hidden(case: Case, piece: Piece) -> bool:
    """The work is not known here, which other rules say."""
    work = piece.part.work
    return (
        case.chart is None
        or bool(work)
        and work not in case.chart.work
        or piece.how in PRICED_WAYS
        and not work
    )


UNKNOWN_WORK = Rule(
    "unknown-work", FAMILY, Level.STOPS,
    "Every kind of work that the job names is in the price chart.",
    "What the chart does not know has no price. Left standing, it would be promised and never charged.",
    "job: {beds: [{edging: {decided: included, work: new-edge}}]}",
    "job: {beds: [{edging: {decided: included, work: recut-egde}}]}",
    _unknown_work,
)  # fmt: skip
WRONG_DECISION = Rule(
    "wrong-decision", FAMILY, Level.STOPS,
    "Work stands under the decision that it decides.",
    "Hauling under edging would leave edging undone and unsaid while the paper shows a word in that cell.",
    "job: {beds: [{edging: {decided: add-on, work: recut-edge}}]}",
    "job: {beds: [{edging: {decided: add-on, work: hand-weed}}]}",
    _wrong_decision,
)  # fmt: skip
UNKNOWN_MATERIAL = Rule(
    "unknown-material", FAMILY, Level.STOPS,
    "Every material that the job names is in the price chart.",
    "What the chart does not know has no price, no weight and no place in the order.",
    "job: {beds: [{material: {use: pine-bark, depth: 2 in}}]}",
    "job: {beds: [{material: {use: pinebark, depth: 2 in}}]}",
    _unknown_material,
)  # fmt: skip
UNKNOWN_ACCESS = Rule(
    "unknown-access", FAMILY, Level.STOPS,
    "The way in is one that the price chart knows, and is said under access.",
    "A narrow gate or stairs slow every barrow. A way that the chart does not know slows nothing in the"
    " figures.",
    "job: {site: {access: {decided: included, way: stairs}}}",
    "job: {site: {access: {decided: included, way: stair}}}",
    _unknown_access,
)  # fmt: skip
IF_FOUND_LIMIT = Rule(
    "if-found-limit", FAMILY, Level.STOPS,
    "Work for what may be found says how much is done without asking, or that we call first.",
    "Roots and buried fabric turn up in the middle of the day. A limit agreed beforehand lets the crew go on,"
    " and keeps the bill from being a surprise.",
    "job: {if_found: [{what: thick roots, work: cut-roots, not_over: 150.00}]}",
    "job: {if_found: [{what: thick roots, work: cut-roots}]}",
    _if_found_limit,
)  # fmt: skip
WHOM_TO_CALL = Rule(
    "whom-to-call", FAMILY, Level.STOPS,
    "Where we call first, there is a number to call.",
    "A crew that stands over buried fabric with nobody to ask goes home, or goes on unpaid.",
    "job: {if_found: [{what: buried fabric, work: pull-fabric, call_first: yes}]}",
    "job: {customer: {phone: (left out)}, if_found: [{what: buried fabric, work: pull-fabric, call_first:"
    " yes}]}",
    _whom_to_call,
)  # fmt: skip
QUANTITY_UNKNOWN = Rule(
    "quantity-unknown", FAMILY, Level.STOPS,
    "Work that is priced by a quantity has that quantity.",
    "A bed that is known by its area alone says nothing about its edge, and work by the hour needs its hours."
    " Without them the price would be nothing.",
    "job: {beds: [{shape: {area: 120 ft2}, outline: 68 ft, against: (left out)}]}",
    "job: {beds: [{shape: {area: 120 ft2}, against: (left out)}]}",
    _quantity_unknown,
)  # fmt: skip
HOURS_NOT_USED = Rule(
    "hours-not-used", FAMILY, Level.WARNS,
    "Hours are said only for work that is priced by the hour.",
    "Hours beside work that is priced by the foot change nothing. Somebody may believe that they limit the"
    " price.",
    "job: {extras: [{work: shrub-trim, worker_hours: 2 h, decided: add-on}]}",
    "job: {beds: [{edging: {decided: included, work: recut-edge, worker_hours: 2 h}}]}",
    _hours_not_used,
)  # fmt: skip

RULES = (
    UNKNOWN_WORK, WRONG_DECISION, UNKNOWN_MATERIAL, UNKNOWN_ACCESS, IF_FOUND_LIMIT, WHOM_TO_CALL,
    QUANTITY_UNKNOWN, HOURS_NOT_USED,
)  # fmt: skip
