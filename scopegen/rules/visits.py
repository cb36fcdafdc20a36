"""Work in several visits: each has its name, its start and its work, and all work has its visit."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.job.job import Start
from scopegen.rules.decisions import all_decided
from scopegen.rules.pieces import Piece, bed_fault, fault_at, job_fault, pieces, visit_of
from scopegen.rules.rule import TRADE, Fault, Rule
from scopegen.understand import nearest

FAMILY = "visits"


def _names(case: Case) -> tuple[str, ...]:
    return tuple(visit.name for visit in case.job.visits)


def _unknown(case: Case) -> Iterator[Fault]:
    if ("visits",) in case.broken:
        return
    known = _names(case)

    def told(visit: str) -> tuple[str, str]:
        listed = f"known there: {', '.join(known)}" if known else "add it under 'visits', with its start"
        return f"there is no visit called '{visit}'", nearest(visit, known) or listed

    for piece in pieces(case):
        if piece.part.visit and piece.part.visit not in known:
            yield fault_at(case, piece, *told(piece.part.visit), "visit")
    for index, bed in enumerate(case.job.beds):
        if bed.visit and bed.visit not in known:
            yield bed_fault(case, index, *told(bed.visit), case.place(("beds", index, "visit")))
    for index, payment in enumerate(case.job.payments or ()):
        if payment.visit and payment.visit not in known:
            yield job_fault(case, *told(payment.visit), "payments", index, "visit")


def _done(case: Case) -> Iterator[Piece]:
    """Work and material of ours that a visit is needed for."""
    return (piece for piece in pieces(case) if piece.ours and (piece.of_bed or piece.decision == "extra"))


def _unsaid(case: Case) -> Iterator[Fault]:
    if not case.job.visits:
        return
    by_bed: dict[object, list[Piece]] = {}
    for piece in _done(case):
        if not visit_of(case, piece) and ("beds", piece.bed, "visit") not in case.broken:
            by_bed.setdefault(piece.path if piece.bed is None else piece.bed, []).append(piece)
    for own in by_bed.values():
        first, alone = own[0], len(own) == 1
        what = ", ".join(dict.fromkeys(piece.spoken for piece in own))
        place = case.place(first.path if alone else ("beds", first.bed or 0, "name"), key=True)
        yield bed_fault(
            case, first.bed,
            f"the job has visits, and at which of them this is done was not said: {what}",
            f"add 'visit: …' to it{'' if first.bed is None else ' or to its bed'}, with one of:"
            f" {', '.join(_names(case))}",
            place, first.decision if alone else None,
        )  # fmt: skip


def _empty(case: Case) -> Iterator[Fault]:
    if not all_decided(case):
        return
    done = {visit_of(case, piece) for piece in _done(case)}
    if done - set(_names(case)):
        return  # work that names no visit, or one that is not there, may belong to it
    for index, visit in enumerate(case.job.visits):
        if visit.name not in done:
            yield job_fault(
                case,
                f"nothing is done at the visit '{visit.name}'",
                f"write 'visit: {visit.name}' where work is done at it, or take the visit out",
                "visits", index, "name",
            )  # fmt: skip


def _same(case: Case) -> Iterator[Fault]:
    seen: set[str] = set()
    for index, visit in enumerate(case.job.visits):
        if visit.name.casefold() in seen:
            message = f"two visits are called '{visit.name}'"
            yield job_fault(case, message, "give one of them another name", "visits", index, "name")
        seen.add(visit.name.casefold())


def _backwards(case: Case) -> Iterator[Fault]:
    visits = case.job.visits
    for index in range(1, len(visits)):
        if _before(visits[index].start, visits[index - 1].start):
            yield job_fault(
                case,
                f"the visit '{visits[index].name}' starts before '{visits[index - 1].name}', which is listed"
                " above it",
                "list the visits in the order of their starts, or mend the days",
                "visits", index, "start",
            )  # fmt: skip


def _before(one: Start, other: Start) -> bool:
    """One starts before the other; days and spans cannot be compared."""
    if one.from_ and other.from_:
        return one.from_ < other.from_
    return bool(one.within and other.within) and one.within.days < other.within.days  # type: ignore[union-attr]


def _payment(case: Case) -> Iterator[Fault]:
    if len(case.job.visits) < 2:
        return
    for index, payment in enumerate(case.job.payments or ()):
        if index and payment.visit is None:
            yield job_fault(
                case,
                f"there are several visits, and with which of them the payment '{payment.when}' is due is not"
                " said",
                f"add 'visit: …' with one of: {', '.join(_names(case))}",
                "payments", index,
            )  # fmt: skip


SPRING = "{name: spring, start: {from: 2027-04-12, to: 2027-04-16}}"
FALL = "{name: fall, start: {from: 2027-10-11, to: 2027-10-15}}"
BOTH = f"visits: [{SPRING}, {FALL}]"
PAID = (
    "payments: [{when: when you sign, amount: 25 %}, {when: on completion, amount: 25 %, visit: spring},"
    " {when: on completion, amount: rest, visit: fall}]"
)
BEDS = "beds: [{visit: spring}, {name: Back bed, visit: fall}]"
TWO_BEDS = f"job: {{{BOTH}, {PAID}, {BEDS}}}"
UNKNOWN_VISIT = Rule(
    "unknown-visit", FAMILY, Level.STOPS,
    "Every visit that is named is one of the job's.",
    "Work for a visit that is nowhere has no day, no delivery and no payment.",
    TWO_BEDS, f"job: {{{BOTH}, {PAID}, beds: [{{visit: sprng}}, {{name: Back bed, visit: fall}}]}}",
    _unknown,
)  # fmt: skip
VISIT_UNSAID = Rule(
    "visit-unsaid", FAMILY, Level.STOPS,
    "Where a job has visits, all work and material names one, or its bed does.",
    "Each visit has its own delivery, hauling and payment. What belongs to none is done on none.",
    TWO_BEDS,
    "job: {visits: [{name: spring, start: {from: 2027-04-12, to: 2027-04-16}}], beds: [{edging: {decided:"
    " included, work: recut-edge}}]}",
    _unsaid,
)  # fmt: skip
VISIT_EMPTY = Rule(
    "visit-empty", FAMILY, Level.STOPS,
    "Something is done at every visit.",
    "The paper promises each visit with its days. One without work is a drive for nothing, or work"
    " forgotten.",
    TWO_BEDS, f"job: {{{BOTH}, {PAID}, beds: [{{visit: spring}}]}}", _empty,
)  # fmt: skip
SAME_VISIT = Rule(
    "same-visit", FAMILY, Level.STOPS,
    "Each visit has a name of its own.",
    "Work and payments know a visit by its name only.",
    TWO_BEDS,
    "job: {visits: [{name: spring, start: {from: 2027-04-12, to: 2027-04-16}}, {name: Spring, start: {from:"
    f" 2027-10-11, to: 2027-10-15}}}}], {BEDS.replace('fall', 'Spring')}, {PAID.replace('fall', 'Spring')}}}",
    _same,
)  # fmt: skip
VISIT_BACKWARDS = Rule(
    "visit-backwards", FAMILY, Level.WARNS,
    "The visits stand in the order of their starts.",
    "The paper lists them as they stand. A fall that comes before its spring is most often a year mistyped.",
    TWO_BEDS, f"job: {{visits: [{FALL}, {SPRING}], {PAID}, {BEDS}}}", _backwards,
)  # fmt: skip
PAYMENT_VISIT = Rule(
    "payment-without-visit", FAMILY, Level.WARNS,
    "Where there are several visits, each payment after the first names one.",
    "'On completion' of two visits is spring to one reader and fall to the other.",
    TWO_BEDS, f"job: {{{BOTH}, {BEDS}}}", _payment, TRADE,
)  # fmt: skip

RULES = (UNKNOWN_VISIT, VISIT_UNSAID, VISIT_EMPTY, SAME_VISIT, VISIT_BACKWARDS, PAYMENT_VISIT)
