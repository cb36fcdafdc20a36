"""What a job costs the contractor, against its price. Only the office reads these."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.rules.pieces import job_fault
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "costs"


def _below_what_pays(case: Case) -> Iterator[Fault]:
    priced = case.priced
    if priced is None or priced.pays is None or priced.pays.lacks or case.broken or case.chart_broken:
        return
    undecided = any(answer.open or answer.broken for answer in case.answers)
    if case.measured is None or case.measured.troubles or undecided or not priced.lines:
        return  # what is open or not measured has no price yet
    asked = priced.subtotal - priced.discount
    pays = priced.pays
    if asked >= pays.wanted:
        return
    below = "costs" if asked < pays.lowest else "costs and the profit that is wanted"
    figure = pays.lowest if asked < pays.lowest else pays.wanted
    yield job_fault(
        case,
        f"the price before tax is {asked:,.2f}, and the {below} come to {figure:,.2f}",
        "look at the hours and what is given away, or at the prices in the chart",
        "job",
    )


COSTS = (
    "chart: {materials: {hardwood: {cost: 30.00}}, wage: {hour: %s, burden: 25 %%}, overhead: 10.00,"
    " profit: 20 %%}"
)
BELOW_WHAT_PAYS = Rule(
    "below-what-pays", FAMILY, Level.WARNS,
    "The price holds what the job costs, and the profit that is wanted.",
    "Material, truck, trips, dump fees, wages with what comes on top of them and overhead are paid whatever"
    " the agreement says. A discount or a gift too many is seen only at the end of the season.",
    COSTS % "20.00",
    COSTS % "90.00",
    _below_what_pays, TRADE,
)  # fmt: skip

RULES = (BELOW_WHAT_PAYS,)
