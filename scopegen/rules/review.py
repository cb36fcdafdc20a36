"""Prices of a new season that nobody has looked at yet: none goes into an agreement."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import chain

from scopegen.case import Case
from scopegen.chart import Chart
from scopegen.chart.prices import PriceAt, prices_in
from scopegen.findings import Level
from scopegen.price import Line, Priced
from scopegen.price.lots import Ladder, Lot, ladder_of
from scopegen.quantities.fields import Amount
from scopegen.quantities.texts import amount
from scopegen.quantities.units import NotAQuantity
from scopegen.rules.pieces import chart_fault, pieces
from scopegen.rules.rule import TRADE, Fault, Rule
from scopegen.understand import nearest

FAMILY = "price chart"


def _unconfirmed(case: Case) -> Iterator[Fault]:
    for index, name, price in _listed(case):
        if price is not None and case.chart and _is_used(case, case.chart, price):
            yield chart_fault(
                case,
                f"{name} is {price.said}, and nobody has confirmed it for season {case.chart.season}",
                f"look at it, then say 'scopegen season review {case.chart.season} --confirm {name}',"
                " or take this line off the list",
                "to_review",
                index,
            )


def _unknown(case: Case) -> Iterator[Fault]:
    for index, name, price in _listed(case):
        if price is None:
            known = [each.name for each in _prices(case)]
            fix = " ".join(filter(None, (nearest(name, known), "take this line off the list")))
            message = f"the chart has no price called '{name}' that could be looked at"
            yield chart_fault(case, message, fix.replace("? take", "? Else take"), "to_review", index)


def _prices(case: Case) -> tuple[PriceAt, ...]:
    return prices_in(case.chart_source.data) if case.chart_source else ()


def _listed(case: Case) -> Iterator[tuple[int, str, PriceAt | None]]:
    """Each name of the list by its number, with its price; None where the chart has no such price."""
    if case.chart is None or not case.chart.to_review:
        return
    by_name = {price.name: price for price in _prices(case)}
    for index, name in enumerate(case.chart.to_review):
        yield index, name, by_name.get(name)


def _is_used(case: Case, chart: Chart, price: PriceAt) -> bool:
    """Whether another amount could change what this job's paper says."""
    lines = tuple(_lines(case.priced)) if case.priced else ()
    if price.kind == "materials":
        return _is_bought(chart, case.priced, lines, price)
    if price.path[0] == "delivery":
        return any(line.sells_material for line in lines)
    if price.path[0] == "work":
        return _is_done(case, chart, lines, price)
    if price.name == "job.come_back":
        return any(piece.part.if_not_done == "come back" for piece in pieces(case))
    return True  # what an hour costs stands in every agreement, and the least that a job costs bounds each


def _lines(priced: Priced) -> Iterator[Line]:
    """Every line of the base and of what stands beside it."""
    offers = (*priced.no_charge, *priced.add_ons, *priced.if_not_done)
    return chain(priced.lines, *(offer.parts for offer in offers))


def _is_bought(chart: Chart, priced: Priced | None, lines: tuple[Line, ...], price: PriceAt) -> bool:
    material = chart.materials.get(price.entry)
    ours = [line for line in lines if line.key == price.entry and line.decision == "material"]
    if material is None or priced is None:
        return False  # what is not sound there is found already
    if "spread_only" in price.path:
        return any(line.id.startswith("spreading:") for line in ours)
    bought = [line for line in ours if line.sells_material]
    if "volume_price" not in price.path:
        return bool(bought)
    over = _over(price)
    reached = (_reached(chart, priced, ladder_of(chart, Lot(line.key, line.visit))) for line in bought)
    return over is not None and any(amount > over.of(material.unit) for amount in reached)


def _over(price: PriceAt) -> Amount | None:
    """The amount from which a volume price holds, as its name has it."""
    try:
        return amount(price.name.rpartition(".over-")[2].replace("-", " "))
    except NotAQuantity:
        return None


def _reached(chart: Chart, priced: Priced, ladder: Ladder) -> Fraction:
    """How much counts together: what is included, with the largest of the offers on top of it."""

    def of(lines: tuple[Line, ...]) -> Fraction:
        return sum(
            (
                line.quantity
                for line in lines
                if line.sells_material and ladder_of(chart, Lot(line.key, line.visit)) == ladder
            ),
            Fraction(0),
        )

    offers = (*priced.no_charge, *priced.add_ons, *priced.if_not_done)
    return of(priced.lines) + max((of(offer.parts) for offer in offers), default=Fraction(0))


def _is_done(case: Case, chart: Chart, lines: tuple[Line, ...], price: PriceAt) -> bool:
    work = chart.work.get(price.entry)
    if work is None:
        return False
    if "dump" in price.path:
        hauls = [line for line in lines if line.id.startswith("hauling:") and line.key == price.entry]
        return any(price.path[3] == stream for line in hauls for stream, _, _ in line.dumped)
    named = [piece.part.work for piece in pieces(case) if piece.ours]
    if not work.hauls:  # what is left out is printed with its price, to be asked for later
        named += [piece.part.work for piece in pieces(case) if piece.how == "excluded"]
    return price.entry in (*named, *(found.work for found in case.job.if_found))


PRICE_TO_REVIEW = Rule(
    "price-to-review", FAMILY, Level.STOPS,
    "Every price that the job uses has been looked at in its season.",
    "A chart that was copied from last season's has last season's prices until somebody looks at each. Fuel,"
    " dump fees and suppliers' prices have moved since, and a price that was signed cannot be taken back.",
    "chart: {to_review: [materials.pine-bark.price]}",
    "chart: {to_review: [materials.pine-bark.price, materials.hardwood.price]}",
    _unconfirmed, TRADE,
)  # fmt: skip
REVIEW_UNKNOWN = Rule(
    "review-unknown", FAMILY, Level.STOPS,
    "Every name under 'to_review' is that of a price in the chart.",
    "A name that is mistyped, or whose price got another name, marks nothing: the price that was meant would"
    " go into agreements unseen.",
    "chart: {to_review: [materials.pine-bark.price]}",
    "chart: {to_review: [materials.pine-barke.price]}",
    _unknown,
)  # fmt: skip

RULES = (PRICE_TO_REVIEW, REVIEW_UNKNOWN)
