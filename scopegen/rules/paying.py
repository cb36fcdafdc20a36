"""Payments that add up, and promises that no right to cancel allows."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.quantities.rounding import cents
from scopegen.rules.pieces import job_fault, looked_for, pieces
from scopegen.rules.rule import Fault, Rule

FAMILY = "payments and law"


def _last_is_rest(case: Case) -> Iterator[Fault]:
    payments = case.job.payments or ()
    for index, payment in enumerate(payments):
        last = index == len(payments) - 1
        if last and payment.amount is not None:
            yield job_fault(
                case,
                "the last payment is not the rest",
                "write 'amount: rest' for the last payment",
                "payments",
                index,
            )
        elif not last and payment.amount is None:
            yield job_fault(
                case,
                "a payment of the rest is followed by another",
                "let the rest be the last payment",
                "payments",
                index,
            )


def _over(case: Case) -> bool:
    """The payments before the last come to more than the total."""
    payments = case.job.payments or ()
    total = case.priced.total if case.priced else None
    shares = sum(
        (payment.amount for payment in payments if isinstance(payment.amount, Fraction)), Fraction(0)
    )
    amounts = sum((payment.amount for payment in payments if isinstance(payment.amount, Decimal)), Decimal(0))
    return shares > 1 or (
        total is not None and total > 0 and shares * Fraction(total) + Fraction(amounts) > total
    )


def _shares_exceed(case: Case) -> Iterator[Fault]:
    if _over(case):
        yield job_fault(
            case,
            "the payments before the last come to more than the total",
            "lower them",
            "payments",
            key=True,
        )


def _all_at_once(case: Case) -> Iterator[Fault]:
    """Nothing is left for the last payment, as far as it is printed."""
    paid = case.priced.payments if case.priced else ()
    if len(paid) < 2 or case.priced is None or case.priced.total <= 0 or _over(case):
        return
    if paid[-1].amount == 0:
        last = next(index for index in reversed(range(len(paid) - 1)) if paid[index].amount or index == 0)
        yield job_fault(
            case,
            "the whole price is due before the last payment",
            "take a deposit, and the rest on completion",
            "payments",
            last,
        )


def _nothing_due(case: Case) -> Iterator[Fault]:
    total = case.priced.total if case.priced else None
    for index, payment in enumerate(case.job.payments or ()):
        if payment.amount is None:
            continue
        comes_to = payment.amount
        if isinstance(payment.amount, Fraction) and payment.amount and total:
            comes_to = cents(Fraction(total) * payment.amount)
        if comes_to == 0:
            yield job_fault(
                case,
                "a payment of nothing is due",
                "take it out, or write what is paid; without a deposit write 'payments: {rest: on"
                " completion}'",
                "payments",
                index,
            )


def _denies_right(case: Case) -> Iterator[Fault]:
    """What a paper may not say beside a right to cancel: 16 CFR 429.1(d) and (f)."""
    if not case.rights:
        return
    said: list[tuple[tuple[str | int, ...], str | None]] = [
        (("payments", i, "when"), payment.when) for i, payment in enumerate(case.job.payments or ())
    ]
    said += [((*piece.path, "note"), piece.part.note) for piece in pieces(case)]
    for path, text in said:
        said_so = (text or "").lower()
        denied = next((words for words in looked_for(case, "no_right") if words in said_so), "")
        if denied:
            start = said_so.index(denied)
            yield job_fault(
                case,
                f"'{(text or '')[start : start + len(denied)]}' goes against the customer's right to cancel",
                "take these words out",
                *path,
            )


def _discount(case: Case) -> Iterator[Fault]:
    discount = case.job.discount
    if (
        discount
        and case.priced
        and isinstance(discount.amount, Decimal)
        and discount.amount > case.priced.subtotal
    ):
        yield job_fault(case, "the discount is larger than the price", "lower it", "discount", "amount")


RULES = (
    Rule(
        "last-payment", FAMILY, Level.STOPS, "The last payment is the rest, and no other is.",
        "Shares are rounded to the cent. Only a rest makes the payments come to the total.",
        "job: {payments: {deposit: 25 %, rest: on completion}}",
        "job: {payments: [{when: when you sign, amount: 25 %}, {when: on completion, amount: 75"
        " %}]}", _last_is_rest,
    ),
    Rule(
        "payments-exceed-total", FAMILY, Level.STOPS, "The payments before the last come to no more than the"
        " total.",
        "Nobody pays more than the price.",
        "job: {payments: {deposit: 100.00, rest: on"
        " completion}}", "job: {payments: {deposit: 90000.00, rest: on completion}}", _shares_exceed,
    ),
    Rule(
        "all-at-once", FAMILY, Level.WARNS, "Something is left to pay on completion.",
        "Several states limit the deposit of home improvement work to a third or a tenth of the price; ask"
        " locally.",
        "job: {payments: {deposit: 30 %, rest: on"
        " completion}}", "job: {payments: {deposit: 100 %, rest: on completion}}", _all_at_once,
        "California Business and Professions Code 7159.5(a)(3); Maryland Business Regulation 8-617(b)",
    ),
    Rule(
        "payment-of-nothing", FAMILY, Level.STOPS, "Every payment is of something.",
        "A deposit of nothing on page 1 looks like a slip, and is one.",
        "job: {payments: {rest: on"
        " completion}}", "job: {payments: {deposit: 0 %, rest: on completion}}", _nothing_due,
    ),
    Rule(
        "right-denied", FAMILY, Level.STOPS, "Nothing on the paper goes against a right to cancel.",
        "A deposit that is called non-refundable from the first day misstates the right, and may void the"
        " agreement.",
        "job: {signed_at: customer's home, payments: [{when: when you sign, amount: 25 %}, {when: on"
        " completion, amount: rest}]}",
        "job: {signed_at: customer's home, payments: [{when: 'when you sign, non-refundable', amount: 25 %},"
        " {when: on completion, amount: rest}]}",
        _denies_right, "16 CFR 429.1(d) and (f)",
    ),
    Rule(
        "discount-exceeds-price", FAMILY, Level.STOPS, "The discount is no larger than the price.",
        "The price of included work cannot be less than nothing.",
        "job: {discount: {amount: 10.00, because: a"
        " test}}", "job: {discount: {amount: 90000.00, because: a test}}", _discount,
    ),
)  # fmt: skip
