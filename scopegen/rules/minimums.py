"""Where a price is the least that a line or a job costs, and not its quantity times its price."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.price.values import ZERO, Line
from scopegen.quantities.rounding import cents
from scopegen.rules.pieces import job_fault, pieces
from scopegen.rules.rule import Fault, Rule

FAMILY = "price chart"
_FIX = "nothing to mend; say so to a customer who works it out"


def _minimum(case: Case) -> Iterator[Fault]:
    if case.priced is None or case.broken or case.chart_broken:
        return
    if case.measured is None or case.measured.troubles:
        return  # what could not be measured may lift it over its minimum
    for line in case.priced.lines:
        if line.reason == "job minimum":
            comes_to = case.priced.subtotal - line.amount
            message = (
                f"what is included comes to {comes_to:,.2f}, and {line.amount:,.2f} are added up to the least"
                " that a job costs"
            )
            yield job_fault(case, message, _FIX, "job")
        elif line.reason == "minimum":
            yield job_fault(case, _told(line), _FIX, *_place(case, line))


def _told(line: Line) -> str:
    least = f"'{line.key}' is charged at its minimum, {line.amount:,.2f}"
    if line.id.startswith("hauling:"):
        return f"{least}: its trips come to less"
    comes_to = sum((cents(step.quantity * Fraction(step.unit_price)) for step in line.steps), ZERO)
    return f"{least}: by its quantity it comes to {comes_to:,.2f}"


def _place(case: Case, line: Line) -> tuple[str | int, ...]:
    """Where the work is first said."""
    paths = (
        (*piece.path, "work")
        for piece in pieces(case)
        if piece.part.work == line.key and piece.how == line.decided
    )
    return next(paths, ("job",))


MINIMUM = Rule(
    "minimum-applies", FAMILY, Level.NOTES,
    "Work is charged by its quantity, and not at a minimum.",
    "A customer who multiplies the feet by the price finds another figure. It is right, and better told than"
    " asked about.",
    "chart: {work: {recut-edge: {price: {per: ft, amount: 1.50, minimum: 48.00}}}}",
    "chart: {work: {recut-edge: {price: {per: ft, amount: 1.50, minimum: 50.00}}}}",
    _minimum,
)  # fmt: skip

RULES = (MINIMUM,)
