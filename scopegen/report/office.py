"""What only the office reads under a price: hours, spoil, orders with their chance, the lowest price."""

from __future__ import annotations

from rich.console import RenderableType
from rich.text import Text

from scopegen.papers.frame import Frame
from scopegen.price import Supply
from scopegen.price.orders import parts_of_order
from scopegen.quantities import show
from scopegen.report.checked import count_of


def office(frame: Frame) -> list[RenderableType]:
    """Line by line: labor, spoil, what to order, what the price has to be."""
    priced, spoil = frame.priced, frame.priced.spoil
    days = count_of(priced.days, "day")
    hours = show.decimal(priced.worker_hours, 1)
    lines = [f"Labor: {hours} worker-hours, {days} for a crew of {frame.chart.crew}."]
    if spoil.in_ground:
        units = frame.job.units
        volumes = (
            f"{show.volume(spoil.in_ground, units)} in the ground, {show.volume(spoil.loose, units)} loose"
        )
        loads = f"{count_of(spoil.barrows, 'wheelbarrow load')}, {count_of(spoil.trips, 'trip')} of the truck"
        lines.append(f"Spoil: {volumes}, {show.weight(spoil.weight, units)}, {loads}.")
    lines += [line for supply in priced.supplies for line in _order(frame, supply)]
    if priced.loads:
        lines.append(f"Delivery: {count_of(priced.loads, 'load')}.")
    return [Text(line) for line in (*lines, *_pays(frame))]


def _order(frame: Frame, supply: Supply) -> list[str]:
    material = frame.chart.materials[supply.key]
    visit = f" for {supply.visit}" if supply.visit else ""
    order = show.measure(supply.ordered, supply.unit)
    low, high = show.grouped(supply.low, 2), show.measure(supply.high, supply.unit)
    lines = [
        f"To order{visit}: {order} {material.name}. It takes {low} to {high}, 19 times in 20;"
        f" the chance that the order runs short is {_chance(supply.short)}."
    ]
    parts = parts_of_order(frame.chart, material, supply.ordered)
    if len(parts) > 1:
        listed = ", then ".join(show.measure(part, supply.unit) for part in parts)
        lines.append(f"  In parts: {listed}. Work out the last one from what the first took.")
    return lines


def _chance(short: float) -> str:
    if short < 0.01:
        return "less than 1 %"
    return f"about {round(short * 100)} %"


def _pays(frame: Frame) -> list[str]:
    pays, money = frame.priced.pays, frame.money
    if pays is None:
        return []
    if pays.lacks:
        missing = ", ".join(pays.lacks)
        return [f"The lowest price that pays is not known: the price chart lacks {missing}."]
    parts = ", ".join(
        f"{name} {money(amount)}"
        for name, amount in (
            ("material", pays.material),
            ("delivery", pays.delivery),
            ("hauling", pays.hauling),
            ("labor", pays.labor),
            ("overhead", pays.overhead),
        )
        if amount
    )
    profit = show.percent(frame.chart.profit or 0)  # type: ignore[arg-type]
    return [
        f"Costs before tax: {parts}. The lowest price that pays is {money(pays.lowest)};"
        f" with {profit} profit it is {money(pays.wanted)}."
    ]
