"""What follows from a way of deciding, and where the customer's own material leads to another clause."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.chart import Chart
from scopegen.job import SITE_DECISIONS, MaterialPart, Part
from scopegen.job.decisions import PRICED_WAYS

IF_NOT_DONE = {
    "we do it": "outcomes.we-do-it",
    "leave the bed": "outcomes.leave-the-bed",
    "come back": "outcomes.come-back",
}
YOURS = "material.yours"  # the customer has the material, and we only spread it


def is_yours(part: Part) -> bool:
    """We spread what the customer has bought, whatever the chart's material says of buying it."""
    return isinstance(part, MaterialPart) and part.supplied_by == "customer" and part.how in PRICED_WAYS


def outcomes_of(decision: str, part: Part, chart: Chart, *, at_visit: bool) -> Iterator[str]:
    """The clauses of what follows from a way of deciding."""
    if at_visit and part.how in PRICED_WAYS and decision not in SITE_DECISIONS:
        yield "outcomes.at-visit"
    if part.how == "add-on" and part.choose_one:
        yield "outcomes.choose-one"
    if part.how == "customer" and part.if_not_done:
        yield IF_NOT_DONE[part.if_not_done]
    if part.how == "excluded" and decision not in SITE_DECISIONS:
        work = chart.work.get(part.work or "")
        yield "outcomes.asked-later" if work and not work.hauls else "outcomes.ask-for-a-price"
    if part.how == "no-charge":
        yield "outcomes.no-charge"
