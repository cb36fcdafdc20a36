"""Lines of material: what is bought for a visit, in one lot or a lot a color, and what is only spread."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import cast

from scopegen.answers import bed_name
from scopegen.chart import Chart, Material
from scopegen.job import Job, MaterialPart
from scopegen.measure import Spread
from scopegen.price.material import cost, in_volume, measured_amount, sold_amount
from scopegen.price.values import Line, Step
from scopegen.quantities.rounding import cents, half_up, share_out


@dataclass(frozen=True, slots=True)
class Lot:
    """Material that is bought or spread together: its chart key, the visit, and whether the customer has
    it already."""

    material: str
    visit: str = ""
    theirs: bool = False


Ladder = tuple[str, str]  # the price group, or the material, and the visit: what counts together


def names(job: Job, indexes: Iterable[int | None]) -> tuple[str, ...]:
    """Bed names without repeats, in the order of the job."""
    return tuple(bed_name(job, index) for index in sorted({index for index in indexes if index is not None}))


def lot_of(job: Job, spread: Spread) -> Lot:
    """The lot that a spread is taken from."""
    part = cast(MaterialPart, spread.share.part)
    visit = part.visit or job.beds[spread.share.bed].visit or ""
    return Lot(spread.material, visit, part.supplied_by == "customer")


def ladder_of(chart: Chart, lot: Lot) -> Ladder:
    """What a lot counts together with for its volume price."""
    return chart.materials[lot.material].price_group or lot.material, lot.visit


def lot_id(kind: str, material: str, visit: str) -> str:
    """A line's name: `material:bark`, or `material:bark@spring` where the job has visits."""
    return f"{kind}:{material}@{visit}" if visit else f"{kind}:{material}"


def on_hand_first(job: Job, chart: Chart, lots: dict[Lot, Fraction]) -> dict[Lot, Fraction]:
    """The lots after what lies on the property already is spread first."""
    left = dict(lots)
    for pile in job.on_hand:
        material = chart.materials.get(pile.use)
        if material is None or material.spread_only is None:
            continue
        has = in_volume(material, pile.amount)
        for lot in [lot for lot in left if lot.material == pile.use and not lot.theirs]:
            used = min(has, left[lot])
            theirs = Lot(lot.material, lot.visit, theirs=True)
            left[lot] -= used
            left[theirs] = left.get(theirs, Fraction(0)) + used
            has -= used
    return left


def material_lines(
    job: Job,
    chart: Chart,
    lots: Mapping[Lot, Fraction],
    beds: Mapping[Lot, tuple[int, ...]],
    after: Mapping[Ladder, Fraction],
) -> list[Line]:
    """A line for each lot. What is bought costs what its ladder of volume prices says, on top of what was
    bought before (`after`); what the customer has costs its spreading."""
    groups: dict[Ladder, dict[Lot, Fraction]] = {}
    for lot, volume in lots.items():
        if volume > 0 and not lot.theirs:
            groups.setdefault(ladder_of(chart, lot), {})[lot] = volume
    bought = [
        _bought(job, chart.materials[lot.material], lot, volume, priced, beds)
        for ladder, group in groups.items()
        for (lot, volume), priced in zip(
            group.items(), _priced(chart, group, after.get(ladder, Fraction(0))), strict=True
        )
    ]
    spread = [
        _spread(job, chart.materials[lot.material], lot, volume, beds)
        for lot, volume in lots.items()
        if volume > 0 and lot.theirs and chart.materials[lot.material].spread_only
    ]
    return [*bought, *spread]


_Priced = tuple[Fraction, Decimal, tuple[Step, ...], str]


def _priced(chart: Chart, group: Mapping[Lot, Fraction], after: Fraction) -> list[_Priced]:
    """Each lot's sold amount with what it costs. Colors that count together share a price that no single
    unit tells by largest remainder."""
    sold = [sold_amount(chart.materials[lot.material], volume) for lot, volume in group.items()]
    first = chart.materials[next(iter(group)).material]
    amount, steps, reason = cost(first, sum(sold, Fraction(0)), after)
    if len(sold) == 1:
        return [(sold[0], amount, steps, reason)]
    if not reason:
        price = steps[0].unit_price
        return [(each, cents(each * Fraction(price)), (Step(each, price),), "") for each in sold]
    shared = share_out(amount, sold)
    return [
        (each, part, (Step(Fraction(1), part),), "group") for each, part in zip(sold, shared, strict=True)
    ]


def _bought(
    job: Job,
    material: Material,
    lot: Lot,
    volume: Fraction,
    priced: _Priced,
    beds: Mapping[Lot, tuple[int, ...]],
) -> Line:
    sold, amount, steps, reason = priced
    return Line(
        id=lot_id("material", lot.material, lot.visit),
        decision="material",
        beds=names(job, beds.get(lot, ())),
        description=material.name,
        quantity=sold,
        unit=material.unit,
        steps=steps,
        amount=amount,
        tax=material.tax,
        reason=reason,
        measured=measured_amount(material, volume),
        key=lot.material,
        visit=lot.visit,
        volume=volume,
    )


def _spread(
    job: Job, material: Material, lot: Lot, volume: Fraction, beds: Mapping[Lot, tuple[int, ...]]
) -> Line:
    """Spreading alone, billed like work: half up to the step that the material is sold in."""
    assert material.spread_only is not None
    exact = measured_amount(material, volume) / (1 + material.waste)
    billed = half_up(exact, material.sold_in.of(material.unit))
    of = beds.get(lot) or beds.get(Lot(lot.material, lot.visit), ())
    return Line(
        id=lot_id("spreading", lot.material, lot.visit),
        decision="material",
        beds=names(job, of),
        description=material.name,
        quantity=billed,
        unit=material.unit,
        steps=(Step(billed, material.spread_only.price),),
        amount=cents(billed * Fraction(material.spread_only.price)),
        tax=material.spread_only.tax,
        measured=exact,
        key=lot.material,
        visit=lot.visit,
        volume=volume,
    )
