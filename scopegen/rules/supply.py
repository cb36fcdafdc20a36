"""Material that is bought, that the customer has, or that lies there; colors together; estimates."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import cast

from scopegen.case import Case
from scopegen.chart import UnitPrice
from scopegen.findings import Level
from scopegen.job import MaterialPart
from scopegen.quantities.rounding import cents
from scopegen.rules.pieces import (
    Piece,
    bed_fault,
    fault_at,
    job_fault,
    material_of,
    materials_used,
    pieces,
    work_of,
)
from scopegen.rules.rule import TRADE, Fault, Rule
from scopegen.understand import nearest

FAMILY = "supply and estimates"


def _spread(case: Case) -> Iterator[tuple[Piece, MaterialPart]]:
    for piece in pieces(case, "material"):
        if piece.priced and material_of(case, piece) is not None:
            yield piece, cast(MaterialPart, piece.part)


def _no_spread_price(case: Case) -> Iterator[Fault]:
    for piece, part in _spread(case):
        material = material_of(case, piece)
        if part.supplied_by == "customer" and material is not None and material.spread_only is None:
            message = f"the customer has '{part.use}', but the chart has no price for spreading it alone"
            yield fault_at(case, piece, message, f"add 'spread_only: …' to '{part.use}' in the chart", "use")
    for index, pile in enumerate(case.job.on_hand):
        material = case.chart.materials.get(pile.use) if case.chart else None
        if material is not None and material.spread_only is None:
            message = f"'{pile.use}' lies there already, but the chart has no price for spreading it alone"
            fix = f"add 'spread_only: …' to '{pile.use}' in the chart"
            yield job_fault(case, message, fix, "on_hand", index, "use")


def _own_material_unsaid(case: Case) -> Iterator[Fault]:
    for piece, part in _spread(case):
        if part.supplied_by != "customer":
            continue
        if part.by is None:
            message = "the customer has the material, but by which day it lies there is not said"
            yield fault_at(case, piece, message, "add 'by: 1 day before start', or a day")
        if part.spot is None:
            message = "the customer has the material, but where it lies is not said"
            yield fault_at(case, piece, message, "add 'spot: …', such as 'spot: the driveway'")


def _unpriced(case: Case) -> Iterator[Fault]:
    for piece, part in _spread(case):
        material = material_of(case, piece)
        if part.supplied_by == "us" and material is not None and material.price is None:
            message = f"we supply '{part.use}', but the chart has only a price for spreading it"
            yield fault_at(case, piece, message, "add its 'price', or write 'supplied_by: customer'", "use")


def _unknown_pile(case: Case) -> Iterator[Fault]:
    for index, pile in enumerate(case.job.on_hand):
        known = case.chart.materials if case.chart else {}
        hidden = {("materials",), ("materials", pile.use)} & case.chart_broken
        if case.chart and pile.use not in known and not hidden:
            fix = nearest(pile.use, known) or f"known there: {', '.join(known)}"
            yield job_fault(
                case, f"the price chart has no material called '{pile.use}'", fix, "on_hand", index, "use"
            )


def _group_differs(case: Case) -> Iterator[Fault]:
    groups: dict[str, tuple[str, object]] = {}
    for key, material in materials_used(case).items():
        if material.price_group is None:
            continue
        ladder = (
            material.unit, material.price, material.volume_price, material.applies_to,
            material.larger_may_cost_less,
        )  # fmt: skip
        first, had = groups.setdefault(material.price_group, (key, ladder))
        if ladder != had:
            message = (
                f"'{key}' and '{first}' count together as '{material.price_group}', but their prices differ"
            )
            fix = "give both one unit, price and volume price, or take one of them out of the group"
            place = case.chart_place(("materials", key, "price_group"))
            yield Fault(message, fix, place)


def _not_over_way(case: Case) -> Iterator[Fault]:
    for piece in pieces(case):
        work = work_of(case, piece)
        if piece.part.not_over is None or work is None:
            continue
        price = work.price
        if not isinstance(price, UnitPrice) or price.per != "worker-hour":
            message = f"'not_over' limits work by the hour, and '{piece.part.work}' is not priced by it"
            yield fault_at(case, piece, message, "take it out: its price is fixed", "not_over")
        elif piece.part.worker_hours and piece.part.not_over < cents(
            piece.part.worker_hours * Fraction(price.amount)
        ):
            estimate = cents(piece.part.worker_hours * Fraction(price.amount))
            message = f"the limit of {piece.part.not_over:,.2f} is below the estimate of {estimate:,.2f}"
            yield fault_at(case, piece, message, "raise the limit, or estimate fewer hours", "not_over")


def _tolerance(case: Case) -> Iterator[Fault]:
    job = case.job
    said = "tolerance" in job.model_fields_set
    if {("price_basis",), ("tolerance",)} & case.broken:
        return
    if job.price_basis == "by measure" and not said:
        message = "material is charged as delivered, but how far that may pass the estimate is not said"
        yield job_fault(case, message, "add 'tolerance: 10 %'", "price_basis", key=True)
    elif job.price_basis == "fixed" and said:
        message = "the price is fixed, so the tolerance changes nothing"
        yield job_fault(
            case, message, "take 'tolerance' out, or write 'price_basis: by measure'", "tolerance"
        )


def _volume_fixed(case: Case) -> Iterator[Fault]:
    for bed in case.measured.beds if case.measured else ():
        if bed.stated is None:
            continue
        by = case.job.beds[bed.index].measured_by or case.job.every_bed.measured_by
        if by not in ("eye", None):
            message = f"a volume that was told is told by eye, not by {by}"
            place = case.place(("beds", bed.index, "shape"), key=True)
            yield bed_fault(case, bed.index, message, "write 'measured_by: eye' for this bed", place)


def _shape_to(case: Case) -> Iterator[Fault]:
    for piece in pieces(case, "edging"):
        work, bed = work_of(case, piece), case.job.beds[piece.bed or 0]
        strip = work.spoil.plus_strip if work and work.spoil else None
        said = bed.shape_to or case.job.every_bed.shape_to
        hidden = {("every_bed",), ("every_bed", "shape_to"), ("beds", piece.bed, "shape_to")} & case.broken
        if strip and piece.priced and not said and not hidden and bed.shape is not None:
            yield fault_at(
                case, piece,
                "a new edge takes a strip of turf off, but whether the bed was measured to the old or the new"
                " edge is not said",
                "add 'shape_to: new edge', or 'shape_to: old edge': then the bed grows by the strip",
            )  # fmt: skip


THEIRS = "{use: hardwood, depth: 2 in, supplied_by: customer, by: start, spot: the drive}"
NO_SPREAD_PRICE = Rule(
    "no-spread-price", FAMILY, Level.STOPS,
    "Material that is not bought has a price for spreading it.",
    "Without it the customer's own mulch would be spread for nothing.",
    f"job: {{beds: [{{material: {THEIRS}}}]}}\nchart: {{materials: {{hardwood: {{spread_only: 40.00}}}}}}",
    f"job: {{beds: [{{material: {THEIRS}}}]}}",
    _no_spread_price, TRADE,
)  # fmt: skip
OWN_MATERIAL_UNSAID = Rule(
    "own-material-unsaid", FAMILY, Level.STOPS,
    "Where the customer has the material, it is said by which day and where it lies.",
    "A crew that stands before an empty driveway is paid by nobody.",
    f"job: {{beds: [{{material: {THEIRS}}}]}}\nchart: {{materials: {{hardwood: {{spread_only: 40.00}}}}}}",
    "job: {beds: [{material: {use: hardwood, depth: 2 in, supplied_by: customer}}]}\n"
    "chart: {materials: {hardwood: {spread_only: 40.00}}}",
    _own_material_unsaid, TRADE,
)  # fmt: skip
UNPRICED = Rule(
    "unpriced-material", FAMILY, Level.STOPS,
    "Material that we supply has a price.",
    "A chart entry that is there for spreading alone prices nothing that is bought.",
    "chart: {materials: {hardwood: {spread_only: 40.00}}}",
    "chart: {materials: {hardwood: {price: (left out), spread_only: 40.00}}}",
    _unpriced,
)  # fmt: skip
UNKNOWN_PILE = Rule(
    "unknown-pile", FAMILY, Level.STOPS,
    "What lies there already is a material of the price chart.",
    "A pile that the chart does not know is not taken off the order.",
    "job: {on_hand: {use: hardwood, amount: 0.25 yd3, spot: the shed}}\n"
    "chart: {materials: {hardwood: {spread_only: 40.00}}}",
    "job: {on_hand: {use: hardwod, amount: 0.25 yd3, spot: the shed}}",
    _unknown_pile,
)  # fmt: skip
_TWO = "job: {beds: [{name: A}, {name: B, material: {use: pine-bark, depth: 2 in}}]}\n"
GROUP_DIFFERS = Rule(
    "price-group-differs", FAMILY, Level.STOPS,
    "Materials that count together have one price and one ladder of volume prices.",
    "Two prices cannot climb one ladder: what the group costs would depend on which color is named first.",
    _TWO + "chart: {materials: {hardwood: {price_group: g}, pine-bark: {price: 100.00, price_group: g}}}",
    _TWO + "chart: {materials: {hardwood: {price_group: g}, pine-bark: {price_group: g}}}",
    _group_differs,
)  # fmt: skip
_TRIM = "job: {extras: [{work: shrub-trim, worker_hours: 2 h, decided: included, not_over: %s}]}"
NOT_OVER = Rule(
    "not-over", FAMILY, Level.STOPS,
    "A limit stands on work by the hour, and is not below its estimate.",
    "A limit on a fixed price changes nothing, and one below the estimate makes two prices of one.",
    _TRIM % "150.00",
    _TRIM % "100.00",
    _not_over_way, TRADE,
)  # fmt: skip
TOLERANCE = Rule(
    "tolerance-unsaid", FAMILY, Level.STOPS,
    "Where material is charged as delivered, it is said how far that may pass the estimate; and only there.",
    "An estimate without a limit is no price. A tolerance beside a fixed price promises what nobody meant.",
    "job: {price_basis: by measure, tolerance: 10 %}",
    "job: {price_basis: by measure}",
    _tolerance, TRADE,
)  # fmt: skip
VOLUME_BY_EYE = Rule(
    "volume-told-by", FAMILY, Level.STOPS,
    "A bed that is told by its volume is told by eye.",
    "Whoever taped the bed has its area: then the depth can be promised.",
    "job: {beds: [{shape: {volume: 3 yd3}, measured_by: eye, against: (left out), outline: 40 ft,"
    " material: {use: hardwood}, bed_prep: {decided: excluded}, substrate: {decided: excluded}}]}",
    "job: {beds: [{shape: {volume: 3 yd3}, measured_by: tape, against: (left out), outline: 40 ft,"
    " material: {use: hardwood}, bed_prep: {decided: excluded}, substrate: {decided: excluded}}]}",
    _volume_fixed,
)  # fmt: skip
_STRIP = (
    "\nchart: {work: {new-edge: {spoil: {depth: 4 in, width: 6 in, profile: wedge, stream: sod,"
    " plus_strip: {width: 10 in, depth: 2 in}}}}}"
)
SHAPE_TO = Rule(
    "shape-to-unsaid", FAMILY, Level.STOPS,
    "Where a new edge takes a strip of turf off, it is said to which edge the bed was measured.",
    "Ten inches along a hundred feet are half a yard of mulch at two inches. Nobody ordered it.",
    "job: {beds: [{shape_to: new edge, edging: {decided: included, work: new-edge}}]}" + _STRIP,
    "job: {beds: [{edging: {decided: included, work: new-edge}}]}" + _STRIP,
    _shape_to, TRADE,
)  # fmt: skip

RULES = (
    NO_SPREAD_PRICE, OWN_MATERIAL_UNSAID, UNPRICED, UNKNOWN_PILE, GROUP_DIFFERS, NOT_OVER, TOLERANCE,
    VOLUME_BY_EYE, SHAPE_TO,
)  # fmt: skip
