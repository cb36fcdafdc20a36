"""What only the office reads: the chance of running short, the lowest price that pays, orders in parts."""

from __future__ import annotations

from decimal import Decimal as D
from fractions import Fraction as F
from math import erf, sqrt
from pathlib import Path

import pytest

from scopegen.chart import Chart, Delivery, Material
from scopegen.price.orders import next_part, parts_of_order
from scopegen.quantities.texts import Amount
from tests.price.test_lots import priced

TOLERANCES = "tolerances: {tape: {random: 3 %, common: 4 %}, depth: 0 %}"
TWICE = "job: {beds: [{name: A}, {name: B}]}\n"


def test_chance_and_common_parts_add_up_as_they_should(tmp_path: Path) -> None:
    """Two beds of 20/27 yd³. By chance: 3 % of each, as the root of the sum of squares. Common: 4 % of both
    together. The normal distribution by the error function of the standard library."""
    over = TWICE + f"chart: {{{TOLERANCES}}}"
    (supply,) = priced(tmp_path, over).supplies
    each = 20 / 27
    deviation = sqrt(2 * (0.03 * each) ** 2 + (0.04 * 2 * each) ** 2)
    assert float(supply.needed) == pytest.approx(2 * each)
    assert float(supply.high - supply.needed) == pytest.approx(1.959964 * deviation, rel=1e-6)
    assert float(supply.needed - supply.low) == pytest.approx(1.959964 * deviation, rel=1e-6)
    z = (1.5 - 2 * each) / deviation
    assert supply.short == pytest.approx(0.5 * (1 - erf(z / sqrt(2))), abs=1e-4)


def test_more_beds_even_out_chance_but_not_the_common_part(tmp_path: Path) -> None:
    """With chance alone four beds are half as uncertain, as a share, as one; with a common error as much."""

    def share(beds: int, random: str, common: str) -> float:
        names = ", ".join(f"{{name: Bed {n}}}" for n in range(beds))
        tape = f"tape: {{random: {random}, common: {common}}}"
        over = f"job: {{beds: [{names}]}}\nchart: {{tolerances: {{{tape}, depth: 0 %}}}}"
        (supply,) = priced(tmp_path, over).supplies
        return float((supply.high - supply.needed) / supply.needed)

    assert share(4, "5 %", "0 %") == pytest.approx(share(1, "5 %", "0 %") / 2)
    assert share(4, "0 %", "5 %") == pytest.approx(share(1, "0 %", "5 %"))


def test_rougher_measuring_is_more_uncertain(tmp_path: Path) -> None:
    """The shipped tolerances grow from the tape to the eye."""
    spreads = []
    for way in ("tape", "wheel", "map", "pacing", "eye"):
        (supply,) = priced(tmp_path, f"job: {{every_bed: {{measured_by: {way}}}}}").supplies
        spreads.append(supply.high - supply.low)
    assert spreads == sorted(spreads) and len(set(spreads)) == 5


COSTS = (
    "chart: {materials: {hardwood: {cost: 30.00}}, wage: {hour: 20.00, burden: 25 %}, overhead: 10.00,"
    " profit: 20 %}"
)


def test_lowest_price_that_pays_by_hand(tmp_path: Path) -> None:
    """One yard at 30.00; one load at 70.00; a trip of 40.00 and dump 24 × 0.0412 + 12 × 0.0463 = 1.54.

    Worker-hours: spread 0.7407; weed 0.6; edge 32 ÷ 90 = 0.3556; rake 0.15; haul 0.6667 and 0.0874 ÷ 1.5 =
    0.0583; set-up 1: 3.5713. Labor at 25.00 is 89.28, overhead 35.71. Together 266.53; ÷ 0.8 = 333.16."""
    pays = priced(tmp_path, COSTS).pays
    assert pays is not None and pays.lacks == ()
    assert (pays.material, pays.delivery, pays.hauling) == (D("30.00"), D("70.00"), D("41.54"))
    assert (pays.labor, pays.overhead) == (D("89.28"), D("35.71"))
    assert (pays.lowest, pays.wanted) == (D("266.53"), D("333.16"))


def test_what_the_chart_lacks_is_named(tmp_path: Path) -> None:
    """No figure is made up."""
    pays = priced(tmp_path, "chart: {wage: {hour: 20.00}}").pays
    assert pays is not None
    assert pays.lacks == ("materials.hardwood.cost", "overhead", "profit")
    assert pays.lowest == 0


def test_profit_that_is_all_of_the_price_is_no_price(tmp_path: Path) -> None:
    """Nothing divided by nothing is not told as zero."""
    pays = priced(tmp_path, COSTS.replace("profit: 20 %", "profit: 100 %")).pays
    assert pays is not None and pays.lacks == ("profit",)


def stone(*parts: F | None) -> Material:
    return Material.model_construct(
        unit="ton",
        weight=F(2600),
        wet=F(0),
        sold_in=Amount(F(1, 4), "ton"),
        bought_in=Amount(F(1, 2), "ton"),
        order_in_parts=parts,
    )


TRUCK = Chart.model_construct(delivery=Delivery(load=F(6), payload=F(4000), fee=D(75)))


@pytest.mark.parametrize(
    ("ordered", "parts"),
    [
        (F(12), [F(6), F(3), F(3)]),
        (F(9), [F(9, 2), F(5, 2), F(2)]),  # a quarter is 2.25, sold in half tons
        (F(5), [F(5, 2), F(5, 2)]),  # a quarter is less than a truck's 2 tons, and so is what it would leave
        (F(3), [F(3)]),
    ],
)
def test_half_a_quarter_and_the_rest(ordered: F, parts: list[F]) -> None:
    """No part is under one load of 4,000 lb, and the parts are the order."""
    found = parts_of_order(TRUCK, stone(F(1, 2), F(1, 4), None), ordered)
    assert list(found) == parts
    assert sum(found) == ordered


def test_next_part_goes_by_the_rate_found() -> None:
    """4 tons covered 400 ft²; 350 ft² are left and half a ton lies there: 3.5 − 0.5 = 3 tons."""
    assert next_part(TRUCK, stone(), F(4), F(400), F(350), F(1, 2)) == 3
    assert next_part(TRUCK, stone(), F(4), F(400), F(60), F(1, 2)) == 2  # 0.1 ton, but a load is 2
    assert next_part(TRUCK, stone(), F(4), F(400), F(40), F(1, 2)) == 0
    with pytest.raises(ValueError, match="no rate"):
        next_part(TRUCK, stone(), F(0), F(0), F(40), F(0))


def test_wet_stone_fills_the_truck_sooner(tmp_path: Path) -> None:
    """2,600 lb a yard and 20 % more when wet (CalRecycle, Calculations): 9,000 lb are 3.75 tons dry weight.

    320 ft² at 3 in: 80 ft³ = 2.963 yd³ = 3.852 ton, sold as 4. Dry that is one load, wet it is two."""
    over = (
        "job: {beds: [{shape: {rectangle: {length: 40 ft, width: 8 ft}},"
        " material: {use: river-stone, depth: 3 in},"
        " substrate: {decided: not-needed, because: no fabric is wanted}}]}\n"
        "chart: {materials: {river-stone: {wet: %s}}}"
    )
    assert priced(tmp_path, over % "0 %").loads == 1
    assert priced(tmp_path, over % "20 %").loads == 2
