"""Facts of a job that a clause's condition may ask: data, never code."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from scopegen.answers import Answer
from scopegen.chart import Chart
from scopegen.company import Company
from scopegen.job import Job, MaterialPart
from scopegen.price import Priced

IN_PLAY = ("included", "add-on", "no-charge")


def conditions_of(
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
    named = [chart.work[key] for key in works if key in chart.work] + [
        chart.materials[key] for key in materials if key
    ]
    ways = {part.how for _, part in parts}
    has = {
        "add-ons": "add-on" in ways, "customer-work": "customer" in ways, "no-charge": "no-charge" in ways,
        "exclusions": "excluded" in ways,
        "if-found": bool(job.if_found), "tax": bool(priced.taxes), "delivery": bool(priced.loads),
        "deposit": len(priced.payments) > 1,
        "license": bool(company and company.license), "insurance": bool(company and company.insurance),
        "applicator-license": bool(company and company.applicator_license),
        "late-charge": bool(company and company.terms and company.terms.late_payment.charge),
    }  # fmt: skip
    return {
        "works": frozenset(works),
        "kinds": frozenset(chart.materials[key].kind for key in materials if key),
        "cautions": frozenset(caution for entry in named for caution in entry.cautions),
        "decided": frozenset(f"{decision} {part.how}" for decision, part in parts),
        "purpose": frozenset([job.purpose]),
        "signed_at": frozenset([job.signed_at]) if job.signed_at else frozenset(),
        "basis": frozenset([job.price_basis]),
        "has": frozenset(key for key, held in has.items() if held),
    }


def holds(when: Mapping[str, Sequence[str]], facts: Mapping[str, frozenset[str]]) -> bool:
    """Every condition holds: for each, any of its listed values is a fact of the job."""
    return all(facts.get(key, frozenset()) & set(asked) for key, asked in when.items())
