"""Whose the material is: what the customer has and we spread, what lies there, what counts together."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import cast

from scopegen.case import Case
from scopegen.chart import Material
from scopegen.findings import Level
from scopegen.job import MaterialPart, OnHand
from scopegen.price.material import in_volume
from scopegen.quantities.show import volume as show_volume
from scopegen.rules.decisions import open_answers
from scopegen.rules.pieces import (
    Piece,
    chart_fault,
    fault_at,
    job_fault,
    material_of,
    materials_used,
    pieces,
    supplied,
)
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "material and whose it is"


def _piles(case: Case) -> Iterator[tuple[int, OnHand, Material]]:
    """What lies there, with its material, where the chart has a sound one."""
    for index, pile in enumerate(case.job.on_hand):
        material = case.chart.materials.get(pile.use) if case.chart else None
        if material is not None:
            yield index, pile, material


def _no_spread_price(case: Case) -> Iterator[Fault]:
    fix = "add 'spread_only: …' to it in the price chart, like spread_only: 48.00"
    for piece in pieces(case, "material"):
        material = material_of(case, piece)
        if material is not None and piece.priced and supplied(piece) and material.spread_only is None:
            use = cast(MaterialPart, piece.part).use
            message = f"the customer has '{use}', and the price chart has no price for spreading it alone"
            yield fault_at(case, piece, message, fix, "use")
    for index, pile, material in _piles(case):
        if material.spread_only is None:
            message = f"'{pile.use}' lies there, and the price chart has no price for spreading it alone"
            yield job_fault(case, message, fix, "on_hand", index, "use")


def _own(case: Case) -> Iterator[Piece]:
    return (piece for piece in pieces(case, "material") if piece.priced and supplied(piece))


def _own_day(case: Case) -> Iterator[Fault]:
    for piece in _own(case):
        if piece.part.by is None:
            yield fault_at(
                case, piece,
                "the customer brings the material, but by which day it lies there is not said",
                "add 'by: 2 days before start', 'by: start', or a day like 'by: 2027-04-10'",
                "supplied_by",
            )  # fmt: skip


def _own_spot(case: Case) -> Iterator[Fault]:
    for piece in _own(case):
        if piece.part.spot is None:
            yield fault_at(
                case, piece,
                "the customer brings the material, but where it lies is not said",
                "add 'spot: …', such as 'spot: the driveway'",
                "supplied_by",
            )  # fmt: skip


def _unpriced(case: Case) -> Iterator[Fault]:
    for piece in pieces(case, "material"):
        material, use = material_of(case, piece), cast(MaterialPart, piece.part).use
        if material is None or material.price is not None or not piece.priced or supplied(piece):
            continue
        if piece.how == "included" and _lies_there(case, str(use)):
            continue
        yield fault_at(
            case, piece,
            f"'{use}' is bought, and the price chart has a price only for spreading it",
            "add 'price: …' to it in the price chart, or write 'supplied_by: customer'",
            "use",
        )  # fmt: skip


def _lies_there(case: Case, use: str) -> bool:
    """What lies on the property is enough for all that is included: nothing is bought."""
    piles = any(pile.use == use for _, pile, _ in _piles(case))
    lines = case.priced.lines if case.priced else ()
    return piles and not any(line.sells_material and line.key == use for line in lines)


def _left_over(case: Case) -> Iterator[Fault]:
    if case.measured is None or case.measured.troubles or any(open_answers(case, "material")):
        return
    if any(answer.broken for answer in case.answers if answer.decision == "material"):
        return
    left: dict[str, Fraction] = {}
    for spread in case.measured.spreads:
        part = cast(MaterialPart, spread.share.part)
        if spread.share.how == "included" and part.supplied_by == "us":
            left[spread.material] = left.get(spread.material, Fraction(0)) + spread.volume
    for index, pile, material in _piles(case):
        has, takes = in_volume(material, pile.amount), left.get(pile.use, Fraction(0))
        left[pile.use] = max(takes - has, Fraction(0))
        if has > takes:
            units = case.job.units
            there, stays = show_volume(has, units), show_volume(has - takes, units)
            what = (
                f"takes only {show_volume(takes, units)}: {stays} stay there" if takes else "takes none of it"
            )
            yield job_fault(
                case,
                f"{there} of '{pile.use}' lie there, and the job {what}",
                "nothing to mend; say in a note what becomes of the rest",
                "on_hand", index, "amount",
            )  # fmt: skip


def _same_pile(case: Case) -> Iterator[Fault]:
    seen: set[tuple[str, str]] = set()
    for index, pile in enumerate(case.job.on_hand):
        named = pile.use, pile.spot.casefold()
        if named in seen:
            message = f"the pile of '{pile.use}' at this spot is named twice: {pile.spot}"
            yield job_fault(case, message, "name it once, with all of it", "on_hand", index)
        seen.add(named)


# What materials of one price group have to agree in, and how a sentence calls it.
_TOGETHER = {
    "unit": "unit", "price": "price", "volume_price": "volume prices", "applies_to": "'applies_to'",
    "larger_may_cost_less": "'larger_may_cost_less'",
}  # fmt: skip


def _group_differs(case: Case) -> Iterator[Fault]:
    first: dict[str, tuple[str, Material]] = {}
    for key, material in materials_used(case).items():
        group = material.price_group
        if group is None:
            continue
        other, like = first.setdefault(group, (key, material))
        apart = [said for name, said in _TOGETHER.items() if getattr(material, name) != getattr(like, name)]
        if apart:
            yield chart_fault(
                case,
                f"'{key}' is in the price group '{group}', but differs from '{other}' in: {', '.join(apart)}",
                "give both the same, or take one of them out of the group",
                "materials", key, "price_group",
            )  # fmt: skip


OWN = "material: {use: hardwood, depth: 2 in, supplied_by: customer"
SPREAD = "chart: {materials: {hardwood: {spread_only: 48.00}}}"
NO_SPREAD_PRICE = Rule(
    "no-spread-price", FAMILY, Level.STOPS,
    "Material that the customer has, or that lies there already, has a price for spreading alone.",
    "Spreading is most of the work. Without its price the customer's own mulch would be spread for nothing.",
    f"{{job: {{beds: [{{{OWN}, by: start, spot: the driveway}}}}]}}, {SPREAD}}}",
    f"job: {{beds: [{{{OWN}, by: start, spot: the driveway}}}}]}}",
    _no_spread_price,
)  # fmt: skip
OWN_DAY = Rule(
    "own-material-day", FAMILY, Level.STOPS,
    "Material that the customer brings lies there by a day.",
    "A crew that waits for the customer's mulch is paid by nobody. Without a day it was not late.",
    f"{{job: {{beds: [{{{OWN}, by: start, spot: the driveway}}}}]}}, {SPREAD}}}",
    f"{{job: {{beds: [{{{OWN}, spot: the driveway}}}}]}}, {SPREAD}}}",
    _own_day, TRADE,
)  # fmt: skip
OWN_SPOT = Rule(
    "own-material-spot", FAMILY, Level.STOPS,
    "Where the customer's own material lies is said.",
    "Forty barrows from the back fence are another price than forty from the driveway.",
    f"{{job: {{beds: [{{{OWN}, by: start, spot: the driveway}}}}]}}, {SPREAD}}}",
    f"{{job: {{beds: [{{{OWN}, by: start}}}}]}}, {SPREAD}}}",
    _own_spot, TRADE,
)  # fmt: skip
UNPRICED = Rule(
    "unpriced-material", FAMILY, Level.STOPS,
    "Material that is bought has a price in the price chart.",
    "An entry may have a price for spreading alone. Bought by that entry, the material would cost nothing.",
    "chart: {materials: {hardwood: {spread_only: 48.00}}}",
    "chart: {materials: {hardwood: {price: (left out), spread_only: 48.00}}}",
    _unpriced,
)  # fmt: skip
LEFT_OVER = Rule(
    "on-hand-left-over", FAMILY, Level.NOTES,
    "What lies on the property is used up by the job.",
    "What is left of the pile is the customer's, and it lies in the way until somebody says where it goes.",
    f"{{job: {{on_hand: [{{use: hardwood, amount: 0.5 yd3, spot: behind the shed}}]}}, {SPREAD}}}",
    f"{{job: {{on_hand: [{{use: hardwood, amount: 3 yd3, spot: behind the shed}}]}}, {SPREAD}}}",
    _left_over,
)  # fmt: skip
SAME_PILE = Rule(
    "same-pile", FAMILY, Level.STOPS,
    "Each pile that lies there is named once.",
    "Two yards that are named twice are four on the paper, and two too few in the beds.",
    "{job: {on_hand: [{use: hardwood, amount: 0.25 yd3, spot: behind the shed},"
    f" {{use: hardwood, amount: 0.25 yd3, spot: by the gate}}]}}, {SPREAD}}}",
    "{job: {on_hand: [{use: hardwood, amount: 0.25 yd3, spot: behind the shed},"
    f" {{use: hardwood, amount: 0.25 yd3, spot: Behind the shed}}]}}, {SPREAD}}}",
    _same_pile,
)  # fmt: skip
_TWO = "job: {beds: [{}, {name: Back bed, material: {use: pine-bark, depth: 2 in}}]}"
GROUP_DIFFERS = Rule(
    "price-group-differs", FAMILY, Level.STOPS,
    "Materials of one price group have the same unit, price and volume prices.",
    "They count together for the volume price. Two colors at two prices cannot: neither would be the price of"
    " the sum.",
    f"{{{_TWO}, chart: {{materials: {{hardwood: {{price_group: mulch}},"
    " pine-bark: {price_group: mulch, price: 100.00}}}}",
    f"{{{_TWO}, chart: {{materials: {{hardwood: {{price_group: mulch}},"
    " pine-bark: {price_group: mulch}}}}",
    _group_differs,
)  # fmt: skip

RULES = (NO_SPREAD_PRICE, OWN_DAY, OWN_SPOT, UNPRICED, LEFT_OVER, SAME_PILE, GROUP_DIFFERS)
