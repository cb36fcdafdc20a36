"""The customer: exemptions from tax, state law, age, and what does not go with their purpose."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.rules.decisions import all_decided
from scopegen.rules.pieces import job_fault
from scopegen.rules.rule import TRADE, Fault, Rule
from scopegen.understand import nearest

FAMILY = "the customer"


def _unknown_tax(case: Case) -> Iterator[Fault]:
    exempt = case.job.customer.tax_exempt if case.job.customer else None
    if exempt is None or case.chart is None or ("taxes",) in case.chart_broken:
        return
    known = tuple(case.chart.taxes)
    for index, kind in enumerate(exempt.kinds):
        if kind not in known and ("taxes", kind) not in case.chart_broken:
            yield job_fault(
                case,
                f"the price chart has no tax called '{kind}'",
                nearest(kind, known) or f"known there: {', '.join(known) or 'nothing yet'}",
                "customer", "tax_exempt", "kinds", index,
            )  # fmt: skip


def _idle(case: Case) -> Iterator[Fault]:
    exempt = case.job.customer.tax_exempt if case.job.customer else None
    if exempt is None or case.priced is None or case.chart is None or not all_decided(case):
        return
    if ("taxes",) in case.chart_broken or not set(exempt.kinds) <= set(case.chart.taxes):
        return
    offers = (*case.priced.add_ons, *case.priced.no_charge, *case.priced.if_not_done)
    lines = [*case.priced.lines, *(line for offer in offers for line in offer.parts)]
    reached = {kind for line in lines for kind in line.tax} & set(exempt.kinds or case.chart.taxes)
    if not reached:
        yield job_fault(
            case,
            "the customer is exempt from tax, but nothing here would be taxed",
            "nothing to mend; the certificate is printed all the same",
            "customer", "tax_exempt", key=True,
        )  # fmt: skip


def _state_law(case: Case) -> Iterator[Fault]:
    state = case.job.customer.state if case.job.customer else None
    if state and case.library is not None and state not in case.states:
        yield job_fault(
            case,
            f"the law of {state} is not among the legal pages of the clause library",
            "ask there before you sign: licenses, deposits, rights to cancel and what a contract must show"
            " differ from state to state",
            "customer", "state",
        )  # fmt: skip


def _older(case: Case) -> Iterator[Fault]:
    customer = case.job.customer
    asked = any(right.law.cancel and right.law.cancel.last_day.from_65 for right in case.rights)
    if customer and customer.is_65_or_older and case.job.purpose == "household" and not asked:
        yield job_fault(
            case,
            "some states give a buyer of 65 or older longer to cancel than the notice here does",
            "ask whether the customer's state does, and let the notice name the later day",
            "customer", "is_65_or_older",
        )  # fmt: skip


def _home_for_business(case: Case) -> Iterator[Fault]:
    if case.job.signed_at == "customer's home" and case.job.purpose == "business":
        yield job_fault(
            case,
            "the paper is signed at the customer's home, but the work is for a business",
            "check 'purpose': for a household a notice of the right to cancel is due",
            "purpose",
        )


def _household_order(case: Case) -> Iterator[Fault]:
    customer = case.job.customer
    if (
        customer
        and customer.po_number
        and case.job.purpose == "household"
        and ("purpose",) not in case.broken
    ):
        yield job_fault(
            case,
            "a household has a number of a purchase order",
            "write 'purpose: business' where a business buys, or take the number out",
            "customer", "po_number",
        )  # fmt: skip


EXEMPT_UNKNOWN = Rule(
    "exempt-unknown-tax", FAMILY, Level.STOPS,
    "A tax that the customer is exempt from is one of the price chart's.",
    "An exemption from a tax that is nowhere exempts from nothing, and the customer is charged.",
    "job: {customer: {tax_exempt: {certificate: no. 00-1234, kinds: [goods]}}}",
    "job: {customer: {tax_exempt: {certificate: no. 00-1234, kinds: [good]}}}",
    _unknown_tax,
)  # fmt: skip
EXEMPT_IDLE = Rule(
    "exempt-idle", FAMILY, Level.NOTES,
    "An exemption exempts from something.",
    "Where nothing is taxed the certificate changes no figure. Perhaps a tax is missing in the price chart.",
    "job: {customer: {tax_exempt: {certificate: no. 00-1234}}}",
    "job: {customer: {tax_exempt: {certificate: no. 00-1234, kinds: [services]}}}",
    _idle,
)  # fmt: skip
STATE_LAW = Rule(
    "state-law", FAMILY, Level.NOTES,
    "The customer's state has its page among the legal pages.",
    "States license this work, cap deposits, prescribe what a contract shows and give rights to cancel of"
    " their own. The pages that ship hold the federal rule and some states; the rest you have to ask for"
    " where you work.",
    "job: {customer: {state: NJ}}",
    "job: {customer: {state: VA}}",
    _state_law,
    "for example California Business and Professions Code 7159; Maryland Business Regulation 8-501 and 8-617;"
    " 73 P.S. 517.7",
)  # fmt: skip
OLDER = Rule(
    "older-buyer", FAMILY, Level.NOTES,
    "Buyers of 65 and older have the days to cancel that their state gives them.",
    "Some states give them longer, such as seven business days in place of five, or five in place of three. A"
    " paper that names fewer days than the law does gives no notice at all.",
    "job: {customer: {is_65_or_older: no}}",
    "job: {customer: {is_65_or_older: yes}}",
    _older,
    "Maryland Commercial Law 14-302.1 (seven business days in place of five); California, for contracts from"
    " January 1, 2021 (five in place of three; Business and Professions Code 7159, the section from memory)",
)  # fmt: skip
HOME_FOR_BUSINESS = Rule(
    "home-for-business", FAMILY, Level.WARNS,
    "What is signed at a customer's home is bought for a household.",
    "The federal right to cancel reaches what is bought for a household. 'purpose: business' leaves the"
    " notice out, and a wrong word there leaves a household without it.",
    "job: {signed_at: our office, purpose: business}",
    "job: {signed_at: customer's home, purpose: business}",
    _home_for_business, "16 CFR 429.0(a) and (b)",
)  # fmt: skip
HOUSEHOLD_ORDER = Rule(
    "household-order", FAMILY, Level.NOTES,
    "A household has no purchase order.",
    "A number of an order says that a business buys. Then tax, notice and who may sign are different.",
    "job: {purpose: business, customer: {po_number: A-17}}",
    "job: {customer: {po_number: A-17}}",
    _household_order, TRADE,
)  # fmt: skip

RULES = (EXEMPT_UNKNOWN, EXEMPT_IDLE, STATE_LAW, OLDER, HOME_FOR_BUSINESS, HOUSEHOLD_ORDER)
