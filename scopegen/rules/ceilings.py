"""Ceilings for the deposit, by the law of the property's state."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.law import Law
from scopegen.rules.pieces import job_fault
from scopegen.rules.rule import Fault, Rule

FAMILY = "payments and law"
# A payment that is due before the work starts, in the words of either language.
_EARLY = re.compile(
    r"\bsign|\bin advance|\bup front|\bbefore (?:(?:the|we) )?(?:start|work)"
    r"|\bfirm[ae]|\banticip|\badelantad|\bantes de (?:empezar|comenzar|que empecemos)",
    re.I,
)

_SPECIAL_ORDER = {
    "instead": ", or as much as special-order material costs",
    "besides": ", and what special-order material costs",
}


def _paid_first(case: Case) -> tuple[Decimal, int] | None:
    """What is paid before the work starts, as far as the words of the payments tell, and the last payment of
    it: the first of several, and every other that is due at the signing or before."""
    payments = case.priced.payments if case.priced else ()
    first = [
        index
        for index, payment in enumerate(payments)
        if index == 0 and len(payments) > 1 or _EARLY.search(payment.when)
    ]
    if not first:
        return None
    return sum((payments[index].amount for index in first), Decimal(0)), first[-1]


def _over(case: Case, *, sure: bool) -> Iterator[tuple[Law, Decimal, Decimal, int]]:
    """The pages whose ceiling the deposit passes, with the ceiling, lowest first."""
    paid = _paid_first(case)
    if paid is None or case.priced is None or ("payments",) in case.broken:
        return
    amount, index = paid
    over = []
    for page in case.pages:
        deposit, counts = page.deposit, page.counts
        most = deposit.most(case.priced.total) if deposit else None
        decided = bool(
            deposit and deposit.sure and counts and counts.work == "yes" and not deposit.special_order
        )
        if most is not None and amount > most and decided is sure:
            over.append((page, amount, most, index))
    yield from sorted(over, key=lambda each: each[2])


def _deposit_ceiling(case: Case) -> Iterator[Fault]:
    for page, amount, most, index in list(_over(case, sure=True))[:1]:
        assert page.deposit is not None
        message = (
            f"{amount:,.2f} is due before the work starts, and {page.name} allows {most:,.2f}"
            f" ({page.deposit.citation})"
        )
        yield _payment_fault(case, message, f"lower it to {most:.2f} or less", index)


def _payment_fault(case: Case, message: str, fix: str, index: int) -> Fault:
    if isinstance((case.job_source.data or {}).get("payments"), dict):
        data = case.job_source.data["payments"]
        return job_fault(case, message, fix, "payments", "deposit" if "deposit" in data else "rest")
    return job_fault(case, message, fix, "payments", index)


def _deposit_ask(case: Case) -> Iterator[Fault]:
    for page, amount, most, index in _over(case, sure=False):
        deposit = page.deposit
        assert deposit is not None
        special = _SPECIAL_ORDER.get(deposit.special_order or "", "")
        message = (
            f"{amount:,.2f} is due before the work starts; if its law reaches this job, {page.name} may allow"
            f" no more than {most:,.2f}{special} ({deposit.citation})"
        )
        yield _payment_fault(case, message, "ask locally, or lower it", index)


DEPOSIT_CEILING = Rule(
    "deposit-ceiling", FAMILY, Level.STOPS,
    "The deposit is no more than the law of the property's state allows.",
    "Where a state caps what a household pays before the work, more is unlawful to take. The lowest ceiling"
    " of the pages that reach the job counts, rounded down to the cent. What is due first of several payments"
    " is counted, and every payment whose words say that it is due at the signing or before the work.",
    "{job: {customer: {state: CA}, payments: {deposit: 10 %, rest: on completion}}, company: {email:"
    " office@plumb.example}}",
    "{job: {customer: {state: CA}, payments: {deposit: 25 %, rest: on completion}}, company: {email:"
    " office@plumb.example}}",
    _deposit_ceiling,
    "California Business and Professions Code 7159.5(a)(3); Maryland Business Regulation 8-617(b)",
)  # fmt: skip
DEPOSIT_ASK = Rule(
    "deposit-ask", FAMILY, Level.NOTES,
    "The deposit is no more than a ceiling that may reach the job.",
    "Some ceilings were seen at second hand only, or belong to a law that may not reach bed work, or rise"
    " with material that is ordered for this job alone. They decide nothing here, but ask.",
    "job: {customer: {state: ME}}",
    "{job: {customer: {state: ME}, payments: {deposit: 40 %, rest: on completion}}, chart: {job: {minimum:"
    " 4000.00}}}",
    _deposit_ask,
    "10 M.R.S. 1487(5); Massachusetts General Laws chapter 142A, section 2(a)(6); 73 P.S. 517.9(10), seen at"
    " second hand",
)  # fmt: skip

RULES = (DEPOSIT_CEILING, DEPOSIT_ASK)
