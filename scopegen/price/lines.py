"""Lines of one group of work and material: the base, or one add-on, each at its own minimum."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from scopegen.chart import Chart, Delivery, Material, UnitPrice, Work
from scopegen.hauling import Haulage, by_dump, haul, haul_share
from scopegen.job import Job, Part
from scopegen.measure import Spread
from scopegen.price.lots import Lot, lot_id, lot_of, material_lines, names, on_hand_first
from scopegen.price.material import bulk
from scopegen.price.taking import Takers, place_of
from scopegen.price.values import ZERO, Line, Step
from scopegen.quantities.rounding import cents, half_up, whole_up
from scopegen.spoil import SpoilOut, Task, merged

# How finely work is billed where the chart does not say: a foot, a square foot, a quarter of
# the rest; a tenth of metric units.
BILLED_IN = {
    "ft": Fraction(1),
    "ft2": Fraction(1),
    "yd3": Fraction(1, 4),
    "ton": Fraction(1, 4),
    "worker-hour": Fraction(1, 4),
    **dict.fromkeys(("m", "m2", "m3", "t"), Fraction(1, 10)),
    "job": Fraction(1),
}


@dataclass(frozen=True, slots=True)
class Group:
    """Work and material that are priced together. `lots` is yd3 of material; `taken` the spoil by the
    chart key of the work that takes it, and the visit."""

    tasks: tuple[Task, ...]
    lots: dict[Lot, Fraction]
    taken: dict[Haulage, dict[str, SpoilOut]]
    lot_beds: dict[Lot, tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class Base:
    """What the base buys and hauls, as far as the price of an add-on rests on it."""

    sold: dict[tuple[str, str], Fraction]  # by the ladder of volume prices, and by the visit
    materials: frozenset[tuple[str, str]]  # by material and visit
    hauls: frozenset[Haulage]


def base_lines(job: Job, chart: Chart, group: Group) -> tuple[Line, ...]:
    """Lines of everything that is included, work pooled over the job and material over its delivery."""
    materials = material_lines(job, chart, on_hand_first(job, chart, group.lots), group.lot_beds, {})
    works = [_work(job, tasks) for tasks in _by_work(group.tasks)]
    hauls = [_haul(job, chart, key, group, alone=True) for key in _haul_keys(chart, group)]
    deliveries = [_delivery(chart, line) for line in materials if line.sells_material]
    return tuple(line for line in (*materials, *works, *hauls, *deliveries) if line)


def own_lines(job: Job, chart: Chart, group: Group, base: Base) -> tuple[Line, ...]:
    """Lines of one add-on: its own quantity and minimum, delivery and hauling as its share of the base's
    where the base has them, else on its own."""
    materials = material_lines(job, chart, group.lots, group.lot_beds, base.sold)
    works = [_work(job, tasks) for tasks in _by_work(group.tasks)]
    hauls = [_haul(job, chart, key, group, alone=key not in base.hauls) for key in _haul_keys(chart, group)]
    deliveries = [
        _delivery(chart, line, shared=(line.key, line.visit) in base.materials)
        for line in materials
        if line.sells_material
    ]
    return tuple(line for line in (*materials, *works, *hauls, *deliveries) if line)


def _by_work(tasks: Sequence[Task]) -> list[list[Task]]:
    by_key: dict[str, list[Task]] = {}
    for task in tasks:
        if isinstance(task.work.price, UnitPrice) and task.quantity is not None:
            by_key.setdefault(task.key, []).append(task)
    return list(by_key.values())


def _work(job: Job, tasks: Sequence[Task]) -> Line:
    first, price = tasks[0], tasks[0].work.price
    assert isinstance(price, UnitPrice)
    exact = sum((task.quantity or Fraction(0) for task in tasks), Fraction(0))
    billed = half_up(exact, first.work.billed_in or BILLED_IN[price.per])
    amount = cents(billed * Fraction(price.amount))
    reason = "minimum" if amount < price.minimum else ""
    amount = max(amount, price.minimum)
    beds = names(job, (task.bed for task in tasks))
    steps = (Step(billed, price.amount),)
    taken = merged(tuple(out for task in tasks for out in task.takes)).values()
    return Line(
        id=f"work:{first.key}",
        decision=first.decision,
        beds=beds,
        description=first.work.name,
        quantity=billed,
        unit=price.per,
        steps=steps,
        amount=amount,
        tax=first.work.tax,
        reason=reason,
        measured=exact,
        key=first.key,
        dumped=tuple((out.stream, out.loose, out.weight) for out in taken),
        dug=tuple((out.stream, out.dug) for out in taken),
        path=first.path,
        limit=_limit(tasks, amount),
    )


def _limit(tasks: Sequence[Task], amount: Decimal) -> Decimal | None:
    """The most that work by the hour may come to; None where its hours are fixed. Work pooled with it
    counts as it was estimated."""
    limits = [hour_limit(task.work, task.part, task.quantity or Fraction(0)) for task in tasks]
    if all(limit is None for limit in limits):
        return None
    price = tasks[0].work.price
    assert isinstance(price, UnitPrice)
    fixed = sum(
        (
            cents((task.quantity or Fraction(0)) * Fraction(price.amount))
            for task, limit in zip(tasks, limits, strict=True)
            if limit is None
        ),
        ZERO,
    )
    return max(amount, fixed + sum((limit for limit in limits if limit is not None), ZERO))


def hour_limit(work: Work, part: Part, hours: Fraction) -> Decimal | None:
    """The most that one part's work by the hour may come to: what the part says, else the chart's share
    above the estimate; None where the hours are fixed."""
    price = work.price
    if not isinstance(price, UnitPrice) or price.per != "worker-hour":
        return None
    if part.not_over is not None:
        return part.not_over
    if work.not_over is None:
        return None
    return cents(hours * Fraction(price.amount) * (1 + work.not_over))


def _haul_keys(chart: Chart, group: Group) -> list[Haulage]:
    taking = {key for key, _ in group.taken}
    named = [(task.key, task.visit) for task in group.tasks if task.work.hauls and task.key not in taking]
    return [
        key
        for key in dict.fromkeys((*named, *group.taken))
        if key[0] in chart.work and chart.work[key[0]].hauls
    ]


def _haul(job: Job, chart: Chart, key: Haulage, group: Group, *, alone: bool) -> Line | None:
    work, out = chart.work[key[0]], group.taken.get(key, {})
    if not alone and not out:
        return None
    rate = Fraction(chart.worker_hour)
    alone_haul = haul(work, rate, out)
    amount = cents(alone_haul.fee if alone else haul_share(work, rate, out))
    loose = sum((load.loose for load in out.values()), Fraction(0))
    beds = names(
        job, (task.bed for task in group.tasks if (task.work.hauls or task.spoil) and task.visit == key[1])
    )
    reason = "minimum" if alone and alone_haul.at_minimum else "trips" if alone else "share"
    steps = (Step(Fraction(1), amount),)
    return Line(
        id=lot_id("hauling", *key),
        decision="debris",
        beds=beds,
        description=work.name,
        quantity=Fraction(1),
        unit="job",
        steps=steps,
        amount=amount,
        tax=work.tax,
        reason=reason,
        measured=loose,
        key=key[0],
        visit=key[1],
        trips=alone_haul.trips if alone else 0,
        taken=tuple((where, tuple(out.stream for out in outs)) for where, outs in by_dump(work, out).items()),
        dumped=tuple((load.stream, load.loose, load.weight) for load in out.values()),
        dug=tuple((load.stream, load.dug) for load in out.values()),
    )


def loads(delivery: Delivery, material: Material, sold: Fraction) -> Fraction:
    """How many truckloads a sold amount fills, by volume or by payload, not rounded. What rains on gets
    heavier: the payload is reckoned wet."""
    volume, weight = bulk(material, sold)
    return max(volume / delivery.load, weight * (1 + material.wet) / delivery.payload)


def _delivery(chart: Chart, line: Line, *, shared: bool = False) -> Line | None:
    """Whole truckloads; where the base's truck comes anyway, the share of a load."""
    delivery, material = chart.delivery, chart.materials[line.key]
    if delivery is None or delivery.fee == 0:
        return None
    filled = loads(delivery, material, line.quantity)
    whole = Fraction(1) if shared else Fraction(whole_up(filled))
    amount = cents(filled * Fraction(delivery.fee)) if shared else Decimal(int(whole)) * delivery.fee
    return Line(
        id=lot_id("delivery", line.key, line.visit),
        decision="material",
        beds=line.beds,
        description=material.name,
        quantity=whole,
        unit="job" if shared else "load",
        steps=(Step(whole, amount if shared else delivery.fee),),
        amount=amount,
        tax=delivery.tax,
        reason="share" if shared else "",
        measured=filled,
        key=line.key,
        visit=line.visit,
    )


def group_of(
    job: Job, tasks: Sequence[Task], spreads: Sequence[Spread], extra: dict[Lot, Fraction], takers: Takers
) -> Group:
    """A group from its work and spreads; `extra` is material in yd3 that comes on top."""
    lots: dict[Lot, Fraction] = dict(extra)
    beds: dict[Lot, list[int]] = {}
    for spread in spreads:
        lot = lot_of(job, spread)
        lots[lot] = lots.get(lot, Fraction(0)) + spread.volume
        if spread.volume:
            beds.setdefault(lot, []).append(spread.share.bed)
    by_taker: dict[Haulage, list[SpoilOut]] = {}
    for task in tasks:
        key = takers.get(place_of(task))
        if task.spoil and key:
            by_taker.setdefault((key, task.visit), []).append(task.spoil)
    taken = {key: merged(tuple(outs)) for key, outs in by_taker.items()}
    return Group(tuple(tasks), lots, taken, {lot: tuple(of) for lot, of in beds.items()})
