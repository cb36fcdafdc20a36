"""Facts of a job that a clause's condition may ask: data, never code."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from scopegen.answers import Answer
from scopegen.chart import Chart
from scopegen.clauses.conditions import Facts
from scopegen.company import Company
from scopegen.job import Bed, Job, MaterialPart, Part
from scopegen.measure import Measured
from scopegen.price import Priced
from scopegen.price.lines import hour_limit

IN_PLAY = ("included", "add-on", "no-charge")


def facts_of(
    job: Job,
    chart: Chart,
    company: Company | None,
    answers: tuple[Answer, ...],
    measured: Measured,
    priced: Priced,
) -> Facts:
    """Whatever a condition may ask of this job."""
    return Facts(_words(job, chart, company, answers, priced), _amounts(job, measured, priced))


def _amounts(job: Job, measured: Measured, priced: Priced) -> dict[str, Fraction]:
    """What is counted or measured, in dollars, ft, ft², yd³ and hours; none for what could not be."""
    areas = [bed.area for bed in measured.beds if bed.area is not None]
    edges = [bed.open_edge for bed in measured.beds if bed.open_edge is not None]
    return {
        "season": Fraction(job.season or 0),
        "total": Fraction(priced.total),
        "beds": Fraction(len(job.beds)),
        "area": sum(areas, Fraction(0)),
        "edge": sum(edges, Fraction(0)),
        "worker_hours": priced.worker_hours,
    }


def _words(
    job: Job, chart: Chart, company: Company | None, answers: tuple[Answer, ...], priced: Priced
) -> dict[str, frozenset[str]]:
    """Each condition's values in this job. Words are sets of one."""
    parts = [(answer.decision, part) for answer in answers for part in answer.parts]
    parts += [("extra", part) for part in job.extras]
    works = {part.work for _, part in parts if part.work and part.how in IN_PLAY}
    materials = {
        part.use
        for _, part in parts
        if isinstance(part, MaterialPart) and part.use in chart.materials and part.how in IN_PLAY
    }
    # what the customer does, and what may be found, can hurt as well
    warned = (
        works | {part.work for _, part in parts if part.how == "customer"} | {f.work for f in job.if_found}
    )
    cautions = [chart.work[key].cautions for key in warned if key in chart.work]
    cautions += [chart.materials[key].cautions for key in materials if key]
    state = job.customer and job.customer.state
    return {
        "works": frozenset(works),
        "kinds": frozenset(chart.materials[key].kind for key in materials if key),
        "cautions": frozenset(caution for each in cautions for caution in each),
        "decided": frozenset(f"{decision} {part.how}" for decision, part in parts),
        "purpose": frozenset([job.purpose]),
        "signed_at": frozenset([job.signed_at]) if job.signed_at else frozenset(),
        "basis": frozenset([job.price_basis]),
        "shapes": frozenset("eye" if _told(bed) else "measured" for bed in job.beds if bed.shape),
        "state": frozenset([state]) if state else frozenset(),
        "has": _has(job, chart, company, [part for _, part in parts], priced),
    }


def _has(
    job: Job, chart: Chart, company: Company | None, parts: Sequence[Part], priced: Priced
) -> frozenset[str]:
    """What the agreement has in it, by the words of `has`."""
    ways, customer = {part.how for part in parts}, job.customer
    held = {
        "add-ons": "add-on" in ways, "customer-work": "customer" in ways, "no-charge": "no-charge" in ways,
        "exclusions": "excluded" in ways,
        "if-found": bool(job.if_found), "tax": bool(priced.taxes), "delivery": bool(priced.loads),
        "deposit": len(priced.payments) > 1,
        "license": bool(company and company.license), "insurance": bool(company and company.insurance),
        "applicator-license": bool(company and company.applicator_license),
        "late-charge": bool(company and company.terms and company.terms.late_payment.charge),
        "choose-one": any(part.how == "add-on" and part.choose_one for part in parts),
        "hourly-limit": any(_limited(chart, part) for part in parts),
        "visits": bool(job.visits), "sites": bool(job.sites), "on-hand": bool(job.on_hand),
        "po-number": bool(customer and customer.po_number),
        "tax-exempt": bool(customer and customer.tax_exempt),
        "bill-to": bool(customer and customer.bill_to),
        "own-material": any(_own_material(part) for part in parts),
        "stated-volume": any(_told(bed) for bed in job.beds),
        "photographs": any(bed.photos for bed in job.beds),
    }  # fmt: skip
    return frozenset(key for key, here in held.items() if here)


def _told(bed: Bed) -> bool:
    """The bed was told by its volume, by eye, and not measured."""
    return bool(bed.shape and bed.shape.volume is not None)


def _own_material(part: Part) -> bool:
    return isinstance(part, MaterialPart) and part.supplied_by == "customer" and part.how in IN_PLAY


def _limited(chart: Chart, part: Part) -> bool:
    """Work by the hour that is charged as worked, up to a limit."""
    work = chart.work.get(part.work or "")
    if work is None or part.how not in ("included", "add-on"):
        return False
    return hour_limit(work, part, Fraction(0)) is not None
