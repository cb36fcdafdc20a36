"""Material in lots: colors that count together, what the customer has, what lies there, visits apart.

The sound job's bed takes 120 ft² × 2 in = 20 ft³ = 0.7407 yd³, sold in half yards: 1 yd³ at 100.00.
"""

from __future__ import annotations

from decimal import Decimal as D
from fractions import Fraction as F
from pathlib import Path

import pytest

from scopegen.check import check
from scopegen.price import Line, Priced
from tests.rules.laid_over import opened

LADDER = "price: 100.00, price_group: mulch, volume_price: [{over: 1 yd3, price: %s}]"


def priced(folder: Path, over: str) -> Priced:
    case = opened(folder, over)
    assert [f.message for f in check(case).findings if f.level.name == "STOPS"] == []
    assert case.priced is not None
    return case.priced


def lines(of: Priced, *kinds: str) -> dict[str, Line]:
    return {line.id: line for line in of.lines if line.id.split(":")[0] in kinds}


def two_colors(price: str, first: str = "20 ft") -> str:
    ladder = LADDER % price
    return (
        f"job: {{beds: [{{name: A, shape: {{rectangle: {{length: {first}, width: 6 ft}}}}}},"
        " {name: B, material: {use: pine-bark, depth: 2 in}}]}\n"
        f"chart: {{materials: {{hardwood: {{{ladder}}}, pine-bark: {{{ladder}}}}}}}"
    )


def test_colors_of_one_group_reach_the_volume_price_together(tmp_path: Path) -> None:
    """One yard of each is two of the group: over 1 yd³, so each costs 80.00. Alone each would cost 100.00."""
    found = lines(priced(tmp_path, two_colors("80.00")), "material")
    assert {key: (line.quantity, line.unit_price, line.amount) for key, line in found.items()} == {
        "material:hardwood": (1, D("80.00"), D("80.00")),
        "material:pine-bark": (1, D("80.00"), D("80.00")),
    }


def test_price_held_at_a_step_is_shared_to_the_cent(tmp_path: Path) -> None:
    """Half a yard and a yard at 60.00 would be 90.00, less than one yard at 100.00: the group costs 100.00,
    a third and two thirds of it."""
    found = lines(priced(tmp_path, two_colors("60.00", "10 ft")), "material")
    assert [(line.quantity, line.amount, line.reason) for line in found.values()] == [
        (F(1, 2), D("33.33"), "group"),
        (1, D("66.67"), "group"),
    ]


def test_colors_without_a_group_stay_apart(tmp_path: Path) -> None:
    """The same two without the group pay the first price."""
    over = two_colors("80.00").replace("price_group: mulch, ", "")
    found = lines(priced(tmp_path, over), "material")
    assert [line.amount for line in found.values()] == [D("100.00"), D("100.00")]


THEIRS = (
    "job: {beds: [{material: {use: hardwood, depth: 2 in, supplied_by: customer, by: start,"
    " spot: the drive}}]}\n"
    "chart: {materials: {hardwood: {spread_only: 48.00}}}"
)


def test_the_customers_own_mulch_costs_its_spreading(tmp_path: Path) -> None:
    """0.7407 yd³ is billed half up to half yards: 0.5 × 48.00. Nothing is bought, brought or taxed."""
    of = priced(tmp_path, THEIRS)
    assert check(opened(tmp_path, THEIRS)).findings == ()  # the day by which it lies there is printed
    (line,) = lines(of, "material", "spreading", "delivery").values()
    assert (line.id, line.quantity, line.amount, line.tax) == (
        "spreading:hardwood",
        F(1, 2),
        D("24.00"),
        (),
    )
    assert of.loads == 0


def test_what_lies_there_is_spread_first(tmp_path: Path) -> None:
    """A quarter yard lies there: 0.4907 yd³ more is bought, which is 0.5; 0.25 is billed as 0.5 spread."""
    over = (
        "job: {on_hand: {use: hardwood, amount: 0.25 yd3, spot: behind the shed}}\n"
        "chart: {materials: {hardwood: {spread_only: {price: 48.00, tax: services}}}}"
    )
    found = lines(priced(tmp_path, over), "material", "spreading")
    assert {key: (line.quantity, line.amount, line.tax) for key, line in found.items()} == {
        "material:hardwood": (F(1, 2), D("50.00"), ("goods",)),
        "spreading:hardwood": (F(1, 2), D("24.00"), ("services",)),
    }


def test_a_pile_larger_than_the_job_buys_nothing(tmp_path: Path) -> None:
    """Three yards lie there, and three quarters are needed."""
    over = (
        "job: {on_hand: {use: hardwood, amount: 3 yd3, spot: behind the shed}}\n"
        "chart: {materials: {hardwood: {spread_only: 48.00}}}"
    )
    assert list(lines(priced(tmp_path, over), "material", "spreading")) == ["spreading:hardwood"]


VISITS = (
    "job: {visits: [{name: spring, start: {from: 2027-04-12, to: 2027-04-16}},"
    " {name: fall, start: {from: 2027-10-04, to: 2027-10-08}}],"
    " beds: [{name: A, visit: spring}, {name: B, visit: fall}],"
    " payments: [{when: when you sign, amount: 50 %, visit: spring},"
    " {when: on completion, amount: rest, visit: fall}]}"
)


def test_each_visit_is_delivered_by_itself(tmp_path: Path) -> None:
    """Two visits are two orders of a yard each, two deliveries and two trips, and the crew sets up twice:
    ½ h for two, and a drive of 40 minutes more."""
    once = priced(tmp_path, "job: {beds: [{name: A}, {name: B}]}")
    twice = priced(tmp_path, VISITS)
    assert {key: line.quantity for key, line in lines(once, "material", "delivery").items()} == {
        "material:hardwood": F(3, 2),
        "delivery:hardwood": 1,
    }
    assert {key: line.quantity for key, line in lines(twice, "material", "delivery").items()} == {
        "material:hardwood@spring": 1,
        "material:hardwood@fall": 1,
        "delivery:hardwood@spring": 1,
        "delivery:hardwood@fall": 1,
    }
    assert len(lines(once, "hauling")) == 1 and len(lines(twice, "hauling")) == 2
    assert twice.worker_hours - once.worker_hours == 1 + F(2, 3)


@pytest.mark.parametrize(("amount", "left"), [("0.7407 yd3", True), ("0.75 yd3", False)])
def test_a_pile_just_large_enough(tmp_path: Path, amount: str, left: bool) -> None:
    """0.7407 is a hair less than 20/27 yd³."""
    over = (
        f"job: {{on_hand: {{use: hardwood, amount: {amount}, spot: behind the shed}}}}\n"
        "chart: {materials: {hardwood: {spread_only: 48.00}}}"
    )
    assert ("material:hardwood" in lines(priced(tmp_path, over), "material")) is left
