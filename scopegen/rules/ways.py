"""What each way of deciding needs, so that it says something."""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.job import SITE_DECISIONS, MaterialPart
from scopegen.rules.pieces import Piece, fault_at, pieces, supplied
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "what each way needs"


def choices(case: Case, decision: str) -> str:
    """The chart's kinds of work for a decision, as a list to choose from."""
    works = case.chart.work.items() if case.chart else ()
    return ", ".join(key for key, work in works if work.decides == decision) or "none is there yet"


def _needs_work(case: Case) -> Iterator[Fault]:
    for piece in pieces(case):
        if piece.priced and piece.decision != "material" and piece.of_bed and piece.part.work is None:
            yield fault_at(
                case, piece,
                f"{piece.spoken} is decided '{piece.how}', but no work is named",
                f"add 'work: …' with one of the chart's: {choices(case, piece.decision)}",
            )  # fmt: skip


def _materials(case: Case) -> Iterator[tuple[Piece, MaterialPart]]:
    for piece in pieces(case, "material"):
        if piece.priced:
            yield piece, cast(MaterialPart, piece.part)


def _needs_material(case: Case) -> Iterator[Fault]:
    known = ", ".join(case.chart.materials) if case.chart else ""
    for piece, part in _materials(case):
        if part.use is None:
            yield fault_at(
                case, piece,
                f"material is decided '{piece.how}', but which material is not said",
                f"add 'use: …' with one of the chart's: {known}",
            )  # fmt: skip


def _needs_depth(case: Case) -> Iterator[Fault]:
    for piece, part in _materials(case):
        told = case.measured.beds[piece.bed] if case.measured and piece.bed is not None else None
        by_volume = told is not None and told.stated is not None
        if part.use is not None and part.depth is None and part.top_up_to is None and not by_volume:
            fix = "add 'depth: 2 in' for what is added, or 'top_up_to: 3 in' for the depth wanted in the end"
            yield fault_at(case, piece, f"how deep '{part.use}' is spread is not said", fix)


def _two_depths(case: Case) -> Iterator[Fault]:
    for piece, part in _materials(case):
        if part.depth is not None and part.top_up_to is not None:
            yield fault_at(
                case,
                piece,
                "both a depth to add and a depth to top up to are said",
                "keep 'depth' for what is added, or 'top_up_to' for the depth wanted in the end",
                "top_up_to",
            )


def _customer(case: Case) -> Iterator[Piece]:
    return (piece for piece in pieces(case) if piece.how == "customer")


def _needs_day(case: Case) -> Iterator[Fault]:
    for piece in _customer(case):
        if piece.part.by is None:
            yield fault_at(
                case, piece,
                f"the customer does {piece.spoken}, but by which day is not said",
                "add 'by: 2 days before start', 'by: start', or a day like 'by: 2027-04-10'",
            )  # fmt: skip


def _needs_if_not_done(case: Case) -> Iterator[Fault]:
    for piece in _customer(case):
        if piece.part.if_not_done is None:
            yield fault_at(
                case,
                piece,
                f"the customer does {piece.spoken}, but what happens if it is not done is not said",
                "add 'if_not_done: we do it', 'if_not_done: leave the bed' or 'if_not_done: come back'",
            )


def _needs_work_if_not_done(case: Case) -> Iterator[Fault]:
    for piece in _customer(case):
        ours = piece.part.if_not_done == "we do it"
        if ours and piece.of_bed and piece.decision != "material" and piece.part.work is None:
            yield fault_at(
                case, piece,
                f"we do {piece.spoken} if the customer does not, but at which price is not known: no work is"
                " named",
                f"add 'work: …' with one of the chart's: {choices(case, piece.decision)}",
                "if_not_done",
            )  # fmt: skip


def _we_do_it_unpriced(case: Case) -> Iterator[Fault]:
    for piece in _customer(case):
        priceless = piece.decision in ("material", *SITE_DECISIONS)
        if piece.part.if_not_done == "we do it" and priceless:
            yield fault_at(
                case, piece,
                f"'we do it' promises {piece.spoken} at a price, but the chart has no price for that",
                "write 'if_not_done: leave the bed' or 'if_not_done: come back'",
                "if_not_done",
            )  # fmt: skip


def _come_back_fee(case: Case) -> Iterator[Fault]:
    if case.chart is None or case.chart.job is None or case.chart.job.come_back is not None:
        return
    for piece in _customer(case):
        if piece.part.if_not_done in ("come back", "leave the bed"):
            yield fault_at(
                case, piece,
                f"'{piece.part.if_not_done}' costs the fee for coming back, but the price chart has none",
                "add 'come_back: …' under 'job' in the price chart, like come_back: 95.00",
                "if_not_done",
            )  # fmt: skip


def _needs_who(case: Case) -> Iterator[Fault]:
    for piece in pieces(case):
        if piece.how == "elsewhere" and piece.part.who is None:
            yield fault_at(
                case, piece,
                f"somebody else covers {piece.spoken}, but who is not said",
                "add 'who: …', such as 'who: the lawn service'",
            )  # fmt: skip


def _needs_because(case: Case) -> Iterator[Fault]:
    for piece in pieces(case):
        if piece.how == "not-needed" and piece.part.because is None:
            yield fault_at(
                case, piece,
                f"{piece.spoken} is not needed, but why is not said",
                "add 'because: …' with what was seen on the walk",
            )  # fmt: skip


def _declined_way(case: Case) -> Iterator[Fault]:
    for piece in pieces(case):
        if piece.part.declined and piece.how not in ("excluded", "add-on"):
            yield fault_at(
                case,
                piece,
                f"{piece.spoken} is marked as declined by the customer, but decided '{piece.how}'",
                "keep 'declined: yes' for 'excluded' or 'add-on', and take it out here",
                "declined",
            )


# Keys that only one way of deciding has words for.
_BELONGS = {"by": "customer", "if_not_done": "customer", "who": "elsewhere", "because": "not-needed"}


def _key_not_used(case: Case) -> Iterator[Fault]:
    for piece in pieces(case):
        for key, way in _BELONGS.items():
            if getattr(piece.part, key) is None or piece.how == way or key == "by" and supplied(piece):
                continue
            yield fault_at(
                case, piece,
                f"'{key}' is not printed: {piece.spoken} is decided '{piece.how}', and '{key}' belongs"
                f" to '{way}'",
                "take it out, or say it in a 'note'",
                key,
            )  # fmt: skip


NEEDS_WORK = Rule(
    "needs-work", FAMILY, Level.STOPS,
    "Work that is included, added or given away names a kind of work in the price chart.",
    "The kind of work carries the price, the hours, the spoil and the wording. Without it nothing is sold.",
    "job: {beds: [{edging: {decided: included, work: recut-edge}}]}",
    "job: {beds: [{edging: {decided: included}}]}",
    _needs_work,
)  # fmt: skip
NEEDS_MATERIAL = Rule(
    "needs-material", FAMILY, Level.STOPS,
    "Material that is included, added or given away is named.",
    "'Mulch' is not one price. The name decides the price, the weight, the look and the order.",
    "job: {beds: [{material: {decided: included, use: hardwood, depth: 2 in}}]}",
    "job: {beds: [{material: {decided: included, depth: 2 in}}]}",
    _needs_material,
)  # fmt: skip
NEEDS_DEPTH = Rule(
    "needs-depth", FAMILY, Level.STOPS,
    "Material that is spread has a depth.",
    "The depth is the quantity: an inch more on 324 square feet is another cubic yard.",
    "job: {beds: [{material: {use: hardwood, top_up_to: 3 in}}]}",
    "job: {beds: [{material: {use: hardwood}}]}",
    _needs_depth, "1 yd3 = 27 ft3 (NIST Handbook 44, Appendix C), which is 324 square feet an inch deep",
)  # fmt: skip
TWO_DEPTHS = Rule(
    "two-depths", FAMILY, Level.STOPS,
    "Material has one depth: what is added, or what it is topped up to.",
    "Two inches added and topped up to three inches are two different quantities wherever old mulch lies.",
    "job: {beds: [{material: {use: hardwood, depth: 2 in}}]}",
    "job: {beds: [{material: {use: hardwood, depth: 2 in, top_up_to: 3 in}}]}",
    _two_depths,
)  # fmt: skip
NEEDS_DAY = Rule(
    "needs-day", FAMILY, Level.STOPS,
    "What the customer does is done by a day.",
    "A crew that finds the bed not cleared loses the morning. Without a day nobody was late.",
    "job: {beds: [{bed_prep: {decided: customer, by: 2 days before start, if_not_done: come back}}]}",
    "job: {beds: [{bed_prep: {decided: customer, if_not_done: come back}}]}",
    _needs_day, TRADE,
)  # fmt: skip
NEEDS_IF_NOT_DONE = Rule(
    "needs-if-not-done", FAMILY, Level.STOPS,
    "What follows if the customer does not do it is said.",
    "The crew stands there on the day. It does the work at a price, leaves the bed, or comes back for a fee;"
    " agreed beforehand, none of these is a quarrel.",
    "job: {beds: [{bed_prep: {decided: customer, by: start, if_not_done: leave the bed}}]}",
    "job: {beds: [{bed_prep: {decided: customer, by: start}}]}",
    _needs_if_not_done, TRADE,
)  # fmt: skip
NEEDS_WORK_IF_NOT_DONE = Rule(
    "needs-work-if-not-done", FAMILY, Level.STOPS,
    "'We do it' names the kind of work, and so its price.",
    "The customer signs for that price in advance. A price that is not printed was not agreed.",
    "job: {beds: [{bed_prep: {decided: customer, by: start, if_not_done: we do it, work: hand-weed}}]}",
    "job: {beds: [{bed_prep: {decided: customer, by: start, if_not_done: we do it}}]}",
    _needs_work_if_not_done,
)  # fmt: skip
WE_DO_IT_UNPRICED = Rule(
    "we-do-it-unpriced", FAMILY, Level.STOPS,
    "'We do it' is said only where the price chart can price it.",
    "What the site asks of the customer, and the customer's own material, have no price in the chart."
    " Promising them at a price would print an empty one.",
    "job: {site: {movables-and-pets: {decided: customer, by: start, if_not_done: come back}}}",
    "job: {site: {movables-and-pets: {decided: customer, by: start, if_not_done: we do it}}}",
    _we_do_it_unpriced,
)  # fmt: skip
COME_BACK_FEE = Rule(
    "come-back-fee", FAMILY, Level.STOPS,
    "Where we come back another day, the price chart says what that costs.",
    "Coming back is a drive and a set-up for a crew. 'Leave the bed' offers it too.",
    "job: {beds: [{bed_prep: {decided: customer, by: start, if_not_done: come back}}]}",
    "{job: {beds: [{bed_prep: {decided: customer, by: start, if_not_done: come back}}]},"
    " chart: {job: {come_back: (left out)}}}",
    _come_back_fee,
)  # fmt: skip
NEEDS_WHO = Rule(
    "needs-who", FAMILY, Level.STOPS,
    "What somebody else covers names who that is.",
    "The paper prints the name, and the crew knows whom to leave it to.",
    "job: {beds: [{bed_prep: {decided: elsewhere, who: the lawn service}}]}",
    "job: {beds: [{bed_prep: {decided: elsewhere}}]}",
    _needs_who, TRADE,
)  # fmt: skip
NEEDS_BECAUSE = Rule(
    "needs-because", FAMILY, Level.STOPS,
    "What is not needed has a reason.",
    "The reason is printed. It shows that somebody looked, and what was there on that day.",
    "job: {beds: [{bed_prep: {decided: not-needed, because: no weeds were found}}]}",
    "job: {beds: [{bed_prep: {decided: not-needed}}]}",
    _needs_because, TRADE,
)  # fmt: skip
DECLINED_WAY = Rule(
    "declined-way", FAMILY, Level.STOPS,
    "Only what is excluded or offered as an add-on can have been declined.",
    "'Declined' asks for the customer's initials that this was offered. Work that is included was not"
    " declined.",
    "job: {beds: [{edging: {decided: excluded, declined: yes}}]}",
    "job: {beds: [{edging: {decided: included, work: recut-edge, declined: yes}}]}",
    _declined_way,
)  # fmt: skip
KEY_NOT_USED = Rule(
    "key-not-used", FAMILY, Level.WARNS,
    "Every key of a decision is printed somewhere.",
    "A reason beside 'included' stands in the file and on no paper: whoever wrote it believes that it was"
    " agreed.",
    "job: {beds: [{edging: {decided: included, work: recut-edge, note: The front edge first.}}]}",
    "job: {beds: [{edging: {decided: included, work: recut-edge, because: the front edge first}}]}",
    _key_not_used,
)  # fmt: skip

RULES = (
    NEEDS_WORK, NEEDS_MATERIAL, NEEDS_DEPTH, TWO_DEPTHS, NEEDS_DAY, NEEDS_IF_NOT_DONE, NEEDS_WORK_IF_NOT_DONE,
    WE_DO_IT_UNPRICED, COME_BACK_FEE, NEEDS_WHO, NEEDS_BECAUSE, DECLINED_WAY, KEY_NOT_USED,
)  # fmt: skip
