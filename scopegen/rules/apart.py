"""Choices that exclude each other, visits, several properties, and who the customer is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.quantities.show import percent
from scopegen.rules.pieces import Piece, fault_at, job_fault, pieces
from scopegen.rules.rule import TRADE, Fault, Rule
from scopegen.understand import nearest

FAMILY = "choices, visits and properties"


def _choose_one_way(case: Case) -> Iterator[Fault]:
    for piece in pieces(case):
        if piece.part.choose_one is not None and piece.how != "add-on":
            message = f"'choose_one' stands on what is decided '{piece.how}': nothing is left to choose"
            yield fault_at(case, piece, message, "keep it on add-ons alone", "choose_one")


def _choose_one_alone(case: Case) -> Iterator[Fault]:
    chosen = [piece for piece in pieces(case) if piece.part.choose_one and piece.how == "add-on"]
    places = {(piece.part.choose_one, piece.path) for piece in chosen}
    counts = Counter(group for group, _ in places)
    for piece in chosen:
        if counts[piece.part.choose_one] == 1:
            message = f"'{piece.part.choose_one}' has one choice, so nothing excludes it"
            yield fault_at(
                case, piece, message, "give another add-on the same name, or take it out", "choose_one"
            )


def _unknown_visit(case: Case) -> Iterator[Fault]:
    known = [visit.name for visit in case.job.visits]
    if ("visits",) in case.broken:
        return
    fix = f"write one of: {', '.join(known)}" if known else "name the job's visits under 'visits'"
    for piece in pieces(case):
        if piece.part.visit is not None and piece.part.visit not in known:
            message = f"the job has no visit called '{piece.part.visit}'"
            yield fault_at(case, piece, message, nearest(piece.part.visit, known) or fix, "visit")
    for key, entries in (("beds", case.job.beds), ("payments", case.job.payments or ())):
        for index, entry in enumerate(entries):
            if entry.visit is not None and entry.visit not in known:
                message = f"the job has no visit called '{entry.visit}'"
                yield job_fault(case, message, nearest(entry.visit, known) or fix, key, index, "visit")


def _visits(case: Case) -> Iterator[tuple[Piece, str | None]]:
    """All that is sold, with the visit that it or its bed names."""
    for piece in pieces(case):
        if piece.priced and (piece.of_bed or piece.decision == "extra"):
            bed = case.job.beds[piece.bed] if piece.bed is not None else None
            yield piece, piece.part.visit or (bed.visit if bed else None)


def _visit_unsaid(case: Case) -> Iterator[Fault]:
    if not case.job.visits or ("visits",) in case.broken:
        return
    names = ", ".join(visit.name for visit in case.job.visits)
    told: set[int | None] = set()
    for piece, visit in _visits(case):
        if visit is None and (piece.bed is None or piece.bed not in told):  # a bed is told of once
            message = f"the job has several visits, but at which one {piece.spoken} is done is not said"
            yield fault_at(case, piece, message, f"add 'visit: …' to the bed or the part: {names}")
            told.add(piece.bed)


def _visit_empty(case: Case) -> Iterator[Fault]:
    known = {visit.name for visit in case.job.visits}
    used = {visit for _, visit in _visits(case)}
    unclear = bool(used - known) or bool(case.broken)  # it is found already where a visit is not said
    seen: set[str] = set()
    for index, visit in enumerate(case.job.visits):
        if visit.name in seen:
            message = f"two visits are called '{visit.name}'"
            yield job_fault(case, message, "rename one of them", "visits", index, "name")
        elif visit.name not in used and not unclear:
            message = f"nothing is done at the visit '{visit.name}'"
            yield job_fault(case, message, "name it at some work, or take it out", "visits", index, "name")
        seen.add(visit.name)


def _site_beds(case: Case) -> Iterator[Fault]:
    if not case.job.sites or {("beds",), ("sites",)} & case.broken:
        return
    known = [bed.name for bed in case.job.beds if bed.name]
    named = Counter(name for site in case.job.sites for name in site.beds)
    for index, site in enumerate(case.job.sites):
        for name in site.beds:
            if name not in known:
                fix = nearest(name, known) or f"write one of: {', '.join(known)}"
                yield job_fault(case, f"the job has no bed called '{name}'", fix, "sites", index, "beds")
            elif named[name] > 1:
                message = f"the bed '{name}' is on two properties"
                yield job_fault(case, message, "name it at one of them", "sites", index, "beds")
                named[name] = 1
    for index, bed in enumerate(case.job.beds):
        if bed.name and bed.name not in named:
            message = f"'{bed.name}' is on none of the properties, so nobody is billed for it"
            yield job_fault(
                case, message, "name it under 'beds' of one of the 'sites'", "beds", index, "name"
            )


def _hauling_shares(case: Case) -> Iterator[Fault]:
    if case.job.sites and ("sites",) not in case.broken:
        total = sum((site.hauling for site in case.job.sites), Fraction(0))
        if total != 1:
            message = f"the properties' shares of the hauling come to {percent(total)}"
            yield job_fault(case, message, "let 'hauling' add up to 100 %", "sites", key=True)


def _exempt_unknown(case: Case) -> Iterator[Fault]:
    exempt = case.job.customer.tax_exempt if case.job.customer else None
    if exempt is None or case.chart is None or ("taxes",) in case.chart_broken:
        return
    known = tuple(case.chart.taxes)
    for index, kind in enumerate(exempt.kinds):
        if kind not in known:
            fix = nearest(kind, known) or f"known there: {', '.join(known) or 'nothing yet'}"
            message = f"the price chart has no tax called '{kind}'"
            yield job_fault(case, message, fix, "customer", "tax_exempt", "kinds", index)


def _state_law(case: Case) -> Iterator[Fault]:
    customer = case.job.customer
    if customer is None or customer.state is None or case.job.purpose == "business":
        return
    message = f"the law of {customer.state} is not in the clause library"
    fix = "ask there what a contract must show, how large a deposit may be and how long the buyer can cancel"
    yield job_fault(case, message, fix, "customer", "state")


def _older_buyer(case: Case) -> Iterator[Fault]:
    customer = case.job.customer
    if customer is not None and customer.is_65_or_older and case.job.purpose == "household":
        message = "some states give a buyer of 65 or older longer to cancel"
        yield job_fault(case, message, "ask for the days where you work", "customer", "is_65_or_older")


def _photo_missing(case: Case) -> Iterator[Fault]:
    for index, bed in enumerate(case.job.beds):
        for number, name in enumerate(bed.photos):
            if name not in case.photos:
                message = f"there is no file '{name}' in the folder"
                fix = "put it beside the job description or below it, or mend its name"
                yield job_fault(case, message, fix, "beds", index, "photos", number)


_PAIR = "decided: add-on, work: {}, choose_one: {}"


def _edges(first: str, second: str) -> str:
    one, two = _PAIR.format("recut-edge", first), _PAIR.format("new-edge", second)
    return f"job: {{beds: [{{edging: [{{{one}}}, {{{two}}}]}}]}}"


CHOOSE_ONE_WAY = Rule(
    "choose-one-way", FAMILY, Level.STOPS, "Only add-ons exclude each other.",
    "What is included is done. Nobody can choose another instead of it by ticking a box.",
    _edges("the edge", "the edge"),
    "job: {beds: [{edging: {decided: included, work: recut-edge, choose_one: the edge}}]}",
    _choose_one_way,
)  # fmt: skip
CHOOSE_ONE_ALONE = Rule(
    "choose-one-alone", FAMILY, Level.WARNS, "A choice has something to choose from.",
    "A name that is spelled in two ways makes two groups of one, and both may be ticked.",
    _edges("the edge", "the edge"), _edges("the edge", "edge"), _choose_one_alone,
)  # fmt: skip
_VISITS = (
    "visits: [{name: spring, start: {from: 2027-04-12, to: 2027-04-16}},"
    " {name: fall, start: {from: 2027-10-04, to: 2027-10-08}}]"
)
_BOTH = f"job: {{{_VISITS}, beds: [{{name: A, visit: spring}}, {{name: B, visit: %s}}]}}"
UNKNOWN_VISIT = Rule(
    "unknown-visit", FAMILY, Level.STOPS, "A visit that is named is one of the job's visits.",
    "Work on a visit that nobody planned is done at none.",
    _BOTH % "fall", _BOTH % "autumn", _unknown_visit,
)  # fmt: skip
VISIT_UNSAID = Rule(
    "visit-unsaid", FAMILY, Level.STOPS, "Where a job has visits, all that is sold names its visit.",
    "The customer waits for in spring what the crew has on its sheet for fall.",
    _BOTH % "fall", f"job: {{{_VISITS}, beds: [{{name: A, visit: spring}}, {{name: B}}]}}",
    _visit_unsaid, TRADE,
)  # fmt: skip
VISIT_EMPTY = Rule(
    "visit-empty", FAMILY, Level.STOPS, "Something is done at each visit, and each has a name of its own.",
    "An empty visit sets up a crew and brings nothing.",
    _BOTH % "fall", _BOTH % "spring", _visit_empty,
)  # fmt: skip


def _sites(beds: str, shares: tuple[int, int]) -> str:
    first = f"{{name: One, property: 1 Road, bill_to: Pat, beds: [A], hauling: {shares[0]} %}}"
    second = f"{{name: Two, property: 2 Road, bill_to: Lee, beds: [{beds}], hauling: {shares[1]} %}}"
    return f"job: {{sites: [{first}, {second}], beds: [{{name: A}}, {{name: B}}]}}"


SITE_BEDS = Rule(
    "site-beds", FAMILY, Level.STOPS, "Each bed is on one of the properties that are billed.",
    "A bed that nobody is billed for is done for nothing.",
    _sites("B", (60, 40)), _sites("A", (60, 40)), _site_beds,
)  # fmt: skip
HAULING_SHARES = Rule(
    "hauling-shares", FAMILY, Level.STOPS, "The properties' shares of the hauling make the whole.",
    "One truck serves them all. Who pays which part of it is agreed before it drives.",
    _sites("B", (60, 40)), _sites("B", (60, 50)), _hauling_shares,
)  # fmt: skip
EXEMPT = Rule(
    "exempt-unknown-tax", FAMILY, Level.STOPS, "An exemption names taxes of the price chart.",
    "An exemption from a tax that is nowhere charged exempts from nothing.",
    "job: {customer: {tax_exempt: {certificate: EX-1, kinds: [goods]}}}",
    "job: {customer: {tax_exempt: {certificate: EX-1, kinds: [good]}}}",
    _exempt_unknown,
)  # fmt: skip
STATE_LAW = Rule(
    "state-law", FAMILY, Level.NOTES, "The law of the customer's state was asked for.",
    "Many states ask for more than the federal rule: a license number on the paper, a lower deposit, longer"
    " to cancel. Only a licensed professional there can say.",
    "job: {customer: {phone: 555-0123}}", "job: {customer: {state: PA}}", _state_law,
    "16 CFR 429.2(b): state law that gives the buyer more stands beside the federal rule",
)  # fmt: skip
OLDER_BUYER = Rule(
    "older-buyer", FAMILY, Level.NOTES, "Older buyers are told the days that their state gives them.",
    "The days on the paper are the federal ones.",
    "job: {customer: {is_65_or_older: no}}", "job: {customer: {is_65_or_older: yes}}", _older_buyer,
    "Maryland Commercial Law 14-302.1: the seventh business day if the buyer is at least 65 years old",
)  # fmt: skip
PHOTO_MISSING = Rule(
    "photo-missing", FAMILY, Level.STOPS, "A photograph that is named is in the folder.",
    "The paper says that we keep it.",
    "job: {beds: [{photos: [job.yaml]}]}", "job: {beds: [{photos: [edge.jpg]}]}", _photo_missing,
)  # fmt: skip

RULES = (
    CHOOSE_ONE_WAY, CHOOSE_ONE_ALONE, UNKNOWN_VISIT, VISIT_UNSAID, VISIT_EMPTY, SITE_BEDS, HAULING_SHARES,
    EXEMPT, STATE_LAW, OLDER_BUYER, PHOTO_MISSING,
)  # fmt: skip
