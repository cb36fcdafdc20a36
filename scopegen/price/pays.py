"""The lowest price that pays: what a job costs the contractor, and the price that leaves the profit. Office
only; it needs the chart's costs, wage, overhead and profit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction

from scopegen.chart import Chart, HaulPrice
from scopegen.hauling import Haulage, dump_fees, haul
from scopegen.price.material import to_order
from scopegen.price.values import ZERO, Line, Pays
from scopegen.quantities.rounding import cents
from scopegen.spoil import SpoilOut


def pays(
    chart: Chart,
    lines: Sequence[Line],
    taken: Mapping[Haulage, Mapping[str, SpoilOut]],
    worker_hours: Fraction,
) -> Pays:
    """The costs of all that is done for certain.

    Lowest = material + delivery x loads + trips and dump fees + worker-hours x (wage x (1 + burden) +
    overhead); wanted = lowest / (1 - profit). Worker-hours hold set-up, drive and loading.
    """
    bought = [line for line in lines if line.sells_material]
    lacks = [f"materials.{line.key}.cost" for line in bought if chart.materials[line.key].cost is None]
    lacks += [key for key in ("wage", "overhead", "profit") if getattr(chart, key) is None]
    if chart.profit == 1:
        lacks.append("profit")  # the whole price as profit leaves nothing to pay the costs with
    if lacks or chart.wage is None or chart.overhead is None or chart.profit is None:
        return Pays(lacks=tuple(dict.fromkeys(lacks)))
    material = sum((_cost(chart, line) for line in bought), ZERO)
    loads = sum((line.quantity for line in lines if line.id.startswith("delivery:")), Fraction(0))
    each = (chart.delivery.cost or chart.delivery.fee) if chart.delivery else ZERO
    delivery = cents(loads * Fraction(each))
    hauling = cents(sum((_trips(chart, key, out) for (key, _), out in taken.items()), Fraction(0)))
    labor = cents(worker_hours * Fraction(chart.wage.hour) * (1 + chart.wage.burden))
    overhead = cents(worker_hours * Fraction(chart.overhead))
    lowest = material + delivery + hauling + labor + overhead
    wanted = cents(Fraction(lowest) / (1 - chart.profit))
    return Pays(material, delivery, hauling, labor, overhead, lowest, wanted)


def _cost(chart: Chart, line: Line) -> Decimal:
    material = chart.materials[line.key]
    return cents(to_order(material, line) * Fraction(material.cost or ZERO))


def _trips(chart: Chart, key: str, out: Mapping[str, SpoilOut]) -> Fraction:
    work = chart.work[key]
    if not isinstance(work.price, HaulPrice):
        return Fraction(0)
    trips = haul(work, Fraction(chart.worker_hour), out).trips
    return trips * Fraction(work.price.trip) + dump_fees(work, out)
