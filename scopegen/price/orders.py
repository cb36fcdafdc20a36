"""An order in parts: dear and heavy material comes in loads, so that the last one can be what is missing."""

from __future__ import annotations

from fractions import Fraction

from scopegen.chart import Chart, Material
from scopegen.price.material import bulk
from scopegen.quantities.rounding import up


def parts_of_order(chart: Chart, material: Material, ordered: Fraction) -> tuple[Fraction, ...]:
    """The parts of an order in the unit of sale, the last one as far as it is known today. Each is rounded
    up to what the supplier sells; no part is less than a truckload, so small orders come at once."""
    step = (material.bought_in or material.sold_in).of(material.unit)
    least = _load(chart, material)
    parts, left = list[Fraction](), ordered
    for share in material.order_in_parts:
        part = left if share is None else min(left, max(up(ordered * share, step), up(least, step)))
        if 0 < left - part < least:
            part = left
        if part:
            parts.append(part)
        left -= part
    return tuple(parts) or (ordered,)


def next_part(
    chart: Chart, material: Material, placed: Fraction, laid: Fraction, left: Fraction, pile: Fraction
) -> Fraction:
    """What to order next, in the unit of sale: the rate found so far (placed on `laid` ft2) over the area
    that is `left` (ft2), less the pile on site; nothing, or no less than a truckload."""
    if laid <= 0:
        raise ValueError("no rate is known before something was laid")
    missing = placed / laid * left - pile
    if missing <= 0:
        return Fraction(0)
    step = (material.bought_in or material.sold_in).of(material.unit)
    return up(max(missing, _load(chart, material)), step)


def _load(chart: Chart, material: Material) -> Fraction:
    """A truckload in the unit of sale, by volume or by wet weight; nothing where no truck is known."""
    if chart.delivery is None:
        return Fraction(0)
    volume, weight = bulk(material, Fraction(1))
    return min(chart.delivery.load / volume, chart.delivery.payload / (weight * (1 + material.wet)))
