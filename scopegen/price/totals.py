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
    kinds = list(dict.fromkeys(line.tax for line in lines))
    by_kind = [sum((line.amount for line in lines if line.tax == kind), ZERO) for kind in kinds]
    shares = share_out(discount, [Fraction(amount) for amount in by_kind])
    taxes = []
    for kind, amount, off in zip(kinds, by_kind, shares, strict=True):
        tax = chart.taxes.get(kind or "")
        if tax is not None and amount - off > 0 and not _exempt(exemption, kind or ""):
            taxes.append(
                TaxLine(
                    kind or "", tax.name, tax.rate, amount - off, cents(Fraction(amount - off) * tax.rate)
                )
            )
    return tuple(sorted(taxes, key=lambda tax: list(chart.taxes).index(tax.kind)))


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
