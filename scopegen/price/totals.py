"""From lines to what is paid: the job's minimum, discount, tax once a kind, payments to the cent."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from scopegen.chart import Chart
from scopegen.job import Job
from scopegen.job.job import TaxExempt
from scopegen.price.values import ZERO, Line, PaymentLine, Step, TaxLine
from scopegen.quantities.rounding import cents, share_out


def job_minimum(chart: Chart, lines: Sequence[Line]) -> tuple[Line, ...]:
    """The line that brings a small job up to the least that a job costs; none where there is no job."""
    subtotal = sum((line.amount for line in lines), ZERO)
    missing = chart.job.minimum - subtotal
    if missing <= 0 or not lines:
        return ()
    return (
        Line(
            id="job-minimum",
            decision="job",
            beds=(),
            description="Up to the least that a job costs",
            quantity=Fraction(1),
            unit="job",
            steps=(Step(Fraction(1), missing),),
            amount=missing,
            reason="job minimum",
        ),
    )


def taxed(
    chart: Chart, lines: Sequence[Line], discount: Decimal, exemption: TaxExempt | None = None
) -> tuple[TaxLine, ...]:
    """Each tax once on all that it reaches, after its share of the discount, half up to the cent; none of
    those that the customer is exempt from."""
    sorts = list(dict.fromkeys(line.tax for line in lines))  # lines that the same taxes reach
    amounts = [sum((line.amount for line in lines if line.tax == sort), ZERO) for sort in sorts]
    shares = share_out(discount, [Fraction(amount) for amount in amounts])
    left = [amount - off for amount, off in zip(amounts, shares, strict=True)]
    taxes = []
    for kind, tax in chart.taxes.items():
        on = sum((amount for sort, amount in zip(sorts, left, strict=True) if kind in sort), ZERO)
        if on > 0 and not _exempt(exemption, kind):
            taxes.append(TaxLine(kind, tax.name, tax.rate, on, cents(Fraction(on) * tax.rate)))
    return tuple(taxes)


def _exempt(exemption: TaxExempt | None, kind: str) -> bool:
    """From all taxes where the exemption names none."""
    return exemption is not None and (not exemption.kinds or kind in exemption.kinds)


def payments(job: Job, total: Decimal) -> tuple[PaymentLine, ...]:
    """Each payment half up to the cent, never more than is left; the last takes the rest."""
    paid, found = ZERO, []
    for payment in job.payments or ():
        share = payment.amount if isinstance(payment.amount, Fraction) else None
        left = total - paid
        if payment.amount is None:
            amount = left
        else:
            amount = min(
                left, cents(Fraction(total) * share) if share is not None else Decimal(payment.amount)
            )
        found.append(PaymentLine(payment.when, amount, share, payment.visit or ""))
        paid += amount
    return tuple(found)
