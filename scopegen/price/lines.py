"""Lines of one group of work and material: the base, or one add-on, each at its own minimum."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from scopegen.answers import bed_name
from scopegen.chart import Chart, Delivery, Material, UnitPrice
from scopegen.hauling import by_dump, haul, haul_share
from scopegen.job import Job
from scopegen.measure import Spread
from scopegen.price.material import bulk, cost, measured_amount, sold_amount
from scopegen.price.taking import Takers, place_of
from scopegen.price.values import Line, Step
from scopegen.quantities.rounding import cents, half_up, whole_up
from scopegen.spoil import SpoilOut, Task, merged

# How finely work is billed where the chart does not say: a foot, a square foot, a quarter of the rest.
BILLED_IN = {
    "ft": Fraction(1),
    "ft2": Fraction(1),
    "yd3": Fraction(1, 4),
    "ton": Fraction(1, 4),
    "worker-hour": Fraction(1, 4),
    "job": Fraction(1),
}


@dataclass(frozen=True, slots=True)
class Group:
    """Work and material that are priced together. `volumes` is yd3 by material; `taken` the spoil by the
    chart key of the work that takes it."""

    tasks: tuple[Task, ...]
    volumes: dict[str, Fraction]
    taken: dict[str, dict[str, SpoilOut]]
    material_beds: dict[str, tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class Base:
    """What the base buys and hauls, as far as the price of an add-on rests on it."""

    sold: dict[str, Fraction]
    hauls: frozenset[str]


def base_lines(job: Job, chart: Chart, group: Group) -> tuple[Line, ...]:
    """Lines of everything that is included, work pooled over the job and material over its delivery."""
    materials = [
        _material(job, chart, key, volume, group, Fraction(0))
        for key, volume in group.volumes.items()
        if volume > 0
    ]
    works = [_work(job, tasks) for tasks in _by_work(group.tasks)]
    hauls = [_haul(job, chart, key, group, alone=True) for key in _haul_keys(chart, group)]
    deliveries = [_delivery(chart, line) for line in materials if chart.delivery]
    return tuple(line for line in (*materials, *works, *hauls, *deliveries) if line)


def own_lines(job: Job, chart: Chart, group: Group, base: Base) -> tuple[Line, ...]:
    """Lines of one add-on: its own quantity and minimum, delivery and hauling as its share of the base's
    where the base has them, else on its own."""
    materials = [
        _material(job, chart, key, volume, group, base.sold.get(key, Fraction(0)))
        for key, volume in group.volumes.items()
        if volume > 0
    ]
    works = [_work(job, tasks) for tasks in _by_work(group.tasks)]
    hauls = [_haul(job, chart, key, group, alone=key not in base.hauls) for key in _haul_keys(chart, group)]
    deliveries = [
        _delivery(chart, line, shared=line.key in base.sold) for line in materials if chart.delivery
    ]
    return tuple(line for line in (*materials, *works, *hauls, *deliveries) if line)


def _by_work(tasks: Sequence[Task]) -> list[list[Task]]:
    by_key: dict[str, list[Task]] = {}
    for task in tasks:
        if isinstance(task.work.price, UnitPrice) and task.quantity is not None:
            by_key.setdefault(task.key, []).append(task)
    return list(by_key.values())


def names(job: Job, indexes: Iterable[int | None]) -> tuple[str, ...]:
    """Bed names without repeats, in the order of the job."""
    return tuple(bed_name(job, index) for index in sorted({index for index in indexes if index is not None}))


def _material(job: Job, chart: Chart, key: str, volume: Fraction, group: Group, after: Fraction) -> Line:
    material = chart.materials[key]
    sold = sold_amount(material, volume)
    amount, steps, reason = cost(material, sold, after)
    beds = names(job, group.material_beds.get(key, ()))
    return Line(
        id=f"material:{key}",
        decision="material",
        beds=beds,
        description=material.name,
        quantity=sold,
        unit=material.unit,
        steps=steps,
        amount=amount,
        tax=material.tax,
        reason=reason,
        measured=measured_amount(material, volume),
        key=key,
    )


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
        path=first.path,
    )


def _haul_keys(chart: Chart, group: Group) -> list[str]:
    named = [task.key for task in group.tasks if task.work.hauls]
    return [
        key for key in dict.fromkeys((*named, *group.taken)) if key in chart.work and chart.work[key].hauls
    ]


def _haul(job: Job, chart: Chart, key: str, group: Group, *, alone: bool) -> Line | None:
    work, out = chart.work[key], group.taken.get(key, {})
    if not alone and not out:
        return None
    rate = Fraction(chart.worker_hour)
    alone_haul = haul(work, rate, out)
    amount = cents(alone_haul.fee if alone else haul_share(work, rate, out))
    loose = sum((load.loose for load in out.values()), Fraction(0))
    beds = names(job, (task.bed for task in group.tasks if task.work.hauls or task.spoil))
    reason = "minimum" if alone and alone_haul.at_minimum else "trips" if alone else "share"
    steps = (Step(Fraction(1), amount),)
    return Line(
        id=f"hauling:{key}",
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
        key=key,
        trips=alone_haul.trips if alone else 0,
        taken=tuple((where, tuple(out.stream for out in outs)) for where, outs in by_dump(work, out).items()),
    )


def loads(delivery: Delivery, material: Material, sold: Fraction) -> Fraction:
    """How many truckloads a sold amount fills, by volume or by payload, not rounded."""
    volume, weight = bulk(material, sold)
    return max(volume / delivery.load, weight / delivery.payload)


def _delivery(chart: Chart, line: Line, *, shared: bool = False) -> Line | None:
    """Whole truckloads; where the base's truck comes anyway, the share of a load."""
    delivery, material = chart.delivery, chart.materials[line.key]
    if delivery is None or delivery.fee == 0:
        return None
    filled = loads(delivery, material, line.quantity)
    whole = Fraction(1) if shared else Fraction(whole_up(filled))
    amount = cents(filled * Fraction(delivery.fee)) if shared else Decimal(int(whole)) * delivery.fee
    return Line(
        id=f"delivery:{line.key}",
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
    )


def group_of(
    tasks: Sequence[Task], spreads: Sequence[Spread], extra: dict[str, Fraction], takers: Takers
) -> Group:
    """A group from its work and spreads; `extra` is material in yd3 that comes on top."""
    volumes: dict[str, Fraction] = dict(extra)
    beds: dict[str, list[int]] = {}
    for spread in spreads:
        volumes[spread.material] = volumes.get(spread.material, Fraction(0)) + spread.volume
        if spread.volume:
            beds.setdefault(spread.material, []).append(spread.share.bed)
    by_taker: dict[str, list[SpoilOut]] = {}
    for task in tasks:
        key = takers.get(place_of(task))
        if task.spoil and key:
            by_taker.setdefault(key, []).append(task.spoil)
    taken = {key: merged(tuple(outs)) for key, outs in by_taker.items()}
    return Group(tuple(tasks), volumes, taken, {key: tuple(of) for key, of in beds.items()})
