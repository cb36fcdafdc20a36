"""The names of a chart's prices, and how an amount is written in another's place."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

import pytest
from pydantic import BaseModel

from scopegen.chart import Chart
from scopegen.chart.prices import KINDS, prices_in
from scopegen.load import parse
from scopegen.understand import understand_chart
from tests.season.charts import source


def named(text: str) -> list[tuple[str, str, str]]:
    return [(price.name, price.said, price.kind) for price in prices_in(parse(text, "chart").data)]


def amounts_said(model: BaseModel, key: str = "") -> Iterator[tuple[str, Decimal]]:
    """Every amount of money that a chart says, with the key that it stands under."""
    for name in model.model_fields_set | ({"materials", "work"} if isinstance(model, Chart) else set()):
        value = getattr(model, name)
        inside = value.values() if isinstance(value, dict) else value if isinstance(value, tuple) else [value]
        for each in inside:
            if isinstance(each, BaseModel):
                yield from amounts_said(each, name)
            elif isinstance(each, Decimal):
                yield name, each


def test_every_amount_of_money_is_a_price_or_a_cost() -> None:
    """Nothing that a customer is charged goes unnamed: whatever the chart's model has as money is one of its
    prices, or stands under a key of what things cost the contractor."""
    chart = understand_chart(source()).value
    charged = sorted(amount for key, amount in amounts_said(chart) if key not in ("cost", "hour", "overhead"))
    assert len(charged) > 40
    assert sorted(price.amount for price in prices_in(source().data)) == charged


def test_names_are_the_way_to_a_price() -> None:
    """As the chart has its keys; a volume price by its amount, since entries of a list have no names."""
    text = (
        "worker_hour: $62.00\njob: {minimum: 280.00, set_up: 30 min, come_back: 95}\n"
        "delivery: {load: 6 yd3, fee: 75.00, cost: 55.00}\n"
        "materials:\n  bark:\n    kind: mulch\n    price: 112.00\n    cost: 34.00\n"
        "    volume_price: {over: 1 1/2 yd3, price: 99.00}\n    spread_only: {price: 49.00, tax: goods}\n"
        "  stone: {volume_price: [{over: 5 ton, price: 1.00}, {over: 9 ton, price: 2.00}],"
        " spread_only: 3.00}\n"
        "work:\n  trim: {price: {per: worker-hour, amount: 62.00}}\n"
        "  edge: {price: {per: ft, amount: 1.45, minimum: 50.00}}\n"
        "  haul: {price: {trip: 38.00, drive: 40 min, minimum: 60.00}, dump: {sod: 24.00/yd3, green:"
        " {fee: 12.00/t}}}\n"
    )
    assert named(text) == [
        ("worker_hour", "$62.00", "hours"),
        ("job.minimum", "280.00", "job"),
        ("job.come_back", "95", "job"),
        ("delivery.fee", "75.00", "hauling"),
        ("materials.bark.price", "112.00", "materials"),
        ("materials.bark.volume_price.over-1-1/2-yd3", "99.00", "materials"),
        ("materials.bark.spread_only", "49.00", "materials"),
        ("materials.stone.volume_price.over-5-ton", "1.00", "materials"),
        ("materials.stone.volume_price.over-9-ton", "2.00", "materials"),
        ("materials.stone.spread_only", "3.00", "materials"),
        ("work.trim.price.amount", "62.00", "hours"),
        ("work.edge.price.amount", "1.45", "work"),
        ("work.edge.price.minimum", "50.00", "work"),
        ("work.haul.price.trip", "38.00", "hauling"),
        ("work.haul.price.minimum", "60.00", "hauling"),
        ("work.haul.dump.sod", "24.00/yd3", "hauling"),
        ("work.haul.dump.green", "12.00/t", "hauling"),
    ]
    assert {kind for _, _, kind in named(text)} == set(KINDS)


@pytest.mark.parametrize(
    ("said", "amount", "written"),
    [
        ("62.00", "62.00", "64.50"),
        ("$62", "62.00", "$64.50"),
        ("24.00/yd3", "24.00", "64.50/yd3"),
        ("$24 / yd3", "24.00", "$64.50/ yd3"),
    ],
)
def test_another_amount_is_written_the_same_way(said: str, amount: str, written: str) -> None:
    """With its sign of money, and with the unit of a dump fee."""
    (price,) = prices_in({"work": {"haul": {"dump": {"sod": said}}}})
    assert price.amount == Decimal(amount)
    assert price.written(Decimal("64.50")) == written


@pytest.mark.parametrize("broken", [None, [], "x", {"materials": []}, {"work": {"edge": None}}, {"job": "x"}])
def test_what_is_not_sound_has_no_prices(broken: object) -> None:
    """Names are asked for in broken charts too."""
    assert prices_in(broken) == ()  # type: ignore[arg-type]
