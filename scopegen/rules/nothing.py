"""Prices, limits and offers that come to nothing, and totals that no job has."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.case import Case
from scopegen.chart import UnitPrice
from scopegen.findings import Level
from scopegen.price.values import ZERO
from scopegen.quantities.texts import MOST_MONEY
from scopegen.rules.figures import impossible_figures
from scopegen.rules.pieces import chart_fault, job_fault, materials_used, works_used
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "payments and law"
_GIVEN = "write the price; what is given away is decided 'no-charge', and keeps its price"


def _free(case: Case) -> Iterator[Fault]:
    if case.chart is None:
        return
    if case.chart.worker_hour == 0 and ("worker_hour",) not in case.chart_broken:
        message = "a worker's hour costs the customer nothing, so loading and driving are for nothing"
        yield chart_fault(case, message, "write what is charged for an hour", "worker_hour")
    for key, material in materials_used(case).items():
        if material.price == 0:
            yield chart_fault(case, f"'{key}' costs nothing", _GIVEN, "materials", key, "price")
    for key, work in works_used(case).items():
        if isinstance(work.price, UnitPrice) and work.price.amount == work.price.minimum == 0:
            yield chart_fault(case, f"'{key}' costs nothing", _GIVEN, "work", key, "price", "amount")


def _empty_offer(case: Case) -> Iterator[Fault]:
    for offer in case.priced.add_ons if case.priced else ():
        if offer.parts and offer.price == 0:
            beds = ", ".join(offer.beds)
            yield Fault(
                f"{beds}: the add-on '{offer.description}' comes to 0.00"
                if beds
                else f"the add-on '{offer.description}' comes to 0.00",
                "check its size and its price in the chart, or decide it 'included' or 'no-charge'",
                case.place(offer.path, key=True),
                offer.beds[0] if len(offer.beds) == 1 else None,
                offer.decision,
            )


def _empty_limit(case: Case) -> Iterator[Fault]:
    for index, found in enumerate(case.job.if_found):
        if found.not_over == 0:
            message = f"if we find {found.what}, work for up to 0.00 is done: that is none"
            fix = "write the most that is done without asking, or 'call_first: yes' without a limit"
            yield job_fault(case, message, fix, "if_found", index, "not_over")


def _too_much(case: Case) -> Iterator[Fault]:
    if case.priced is None or any(impossible_figures(case)):
        return  # such a figure is found already
    total = max(case.priced.total, case.priced.at_most or ZERO)
    with_all = total + sum((offer.price for offer in case.priced.add_ons), ZERO)
    for what, amount in (("the price", total), ("the price with every add-on", with_all)):
        if amount > MOST_MONEY:
            yield job_fault(
                case,
                f"{what} comes to {amount:,.2f}, and no job has more than {MOST_MONEY:,}",
                "look at the largest lines of `scopegen price`, and check the figures behind them",
                "job",
            )
            return


def _nothing_to_pay(case: Case) -> Iterator[Fault]:
    priced = case.priced
    if priced is None or not priced.lines or priced.total > 0 or case.broken or case.chart_broken:
        return
    if priced.discount > 0:
        message, path = (
            "the discount takes off the whole price: nothing is to be paid",
            ("discount", "amount"),
        )
    else:
        message, path = "what is included comes to 0.00: nothing is to be paid", ("beds",)
    fix = "check it; an agreement without a price may not bind anybody"
    yield job_fault(case, message, fix, *path, key=path == ("beds",))


FREE = Rule(
    "price-of-nothing", "price chart", Level.WARNS,
    "What the chart prices, it prices above nothing.",
    "A zero that was to be filled in later is sold as it stands.",
    "chart: {materials: {hardwood: {price: 100.00}}}", "chart: {materials: {hardwood: {price: 0.00}}}", _free,
)  # fmt: skip
EMPTY_OFFER = Rule(
    "add-on-of-nothing", FAMILY, Level.STOPS,
    "An add-on has a price.",
    "The customer initials it for 0.00, and the work is owed.",
    "job: {beds: [{edging: {decided: add-on, work: recut-edge}}]}",
    "job: {beds: [{edging: [{decided: add-on, work: recut-edge, along: 1/8 in}, {decided: excluded, along:"
    " rest}]}]}",
    _empty_offer,
)  # fmt: skip
EMPTY_LIMIT = Rule(
    "limit-of-nothing", FAMILY, Level.STOPS,
    "What is done without asking has a limit above nothing.",
    "Up to 0.00 nothing can be done, and the paper seems to say that it is.",
    "job: {if_found: [{what: thick roots, work: cut-roots, not_over: 150.00}]}",
    "job: {if_found: [{what: thick roots, work: cut-roots, not_over: 0.00}]}",
    _empty_limit,
)  # fmt: skip
TOO_MUCH = Rule(
    "price-too-large", FAMILY, Level.STOPS,
    "The price, with every add-on, is no more than 100,000,000.00.",
    "No single amount may be larger, and no sum of them. A unit that slipped, or a price for a ton where a"
    " yard was meant, shows here at the latest.",
    "chart: {work: {hand-weed: {price: {per: ft2, amount: 0.20}}}}",
    "chart: {work: {hand-weed: {price: {per: ft2, amount: 1000000.00}}}}",
    _too_much, TRADE,
)  # fmt: skip
NOTHING_TO_PAY = Rule(
    "nothing-to-pay", FAMILY, Level.WARNS,
    "Something is to be paid.",
    "An agreement needs a price on one side and work on the other; ask a lawyer what a gift needs. Every"
    " payment on the paper would be 0.00.",
    "job: {discount: {amount: 10 %, because: a test}}",
    "job: {discount: {amount: 100 %, because: a test}}",
    _nothing_to_pay,
)  # fmt: skip

RULES = (FREE, EMPTY_OFFER, EMPTY_LIMIT, TOO_MUCH, NOTHING_TO_PAY)
