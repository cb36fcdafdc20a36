"""Raised prices: the arithmetic by hand, which raise is for which price, and laws of rounding."""

from __future__ import annotations

from decimal import Decimal as D
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scopegen.chart.prices import prices_in
from scopegen.quantities.units import NotAQuantity
from scopegen.season.raising import Raise, new_price, raised, read_raise
from scopegen.season.refused import Refused
from tests.season.charts import source

PRICES = prices_in(source().data)


@pytest.mark.parametrize(
    ("before", "percent", "step", "after"),
    [
        ("112.00", 4, "0.05", "116.50"),  # 116.48
        ("280.00", 4, "0.05", "291.20"),
        ("62.00", 4, "0.50", "64.50"),  # 64.48
        ("62.50", 10, "0.50", "69.00"),  # 68.75: a half goes up
        ("0.24", 4, "0.05", "0.25"),  # 0.2496: below 1.00 to the cent
        ("0.08", 4, "0.05", "0.08"),  # 0.0832
        ("0.98", 4, "0.05", "1.00"),  # 1.0192: what comes to 1.00 or more takes the step
        ("0.50", 5, None, "0.53"),  # 0.525
        ("1.45", 4, "5", "1.51"),  # 1.508: a step of 5.00 serves prices from 100.00 on
        ("98.00", 4, "5", "100.00"),  # 101.92
        ("1.02", 0.5, "0.05", "1.05"),  # 1.0251
        ("1.02", 0.1, "0.05", "1.02"),  # 1.02102 would become 1.00: a raise lowers nothing
        ("0.00", 4, "0.05", "0.00"),
    ],
)
def test_by_hand(before: str, percent: float, step: str | None, after: str) -> None:
    """Exact first, then rounded once, half up. The arithmetic is in the comments."""
    share = F(str(percent)) / 100
    assert new_price(D(before), share, D(step) if step else None) == D(after)


@given(
    st.integers(0, 10_000_000), st.fractions(0, 1), st.sampled_from([None, "0.01", "0.05", "0.25", "1", "5"])
)
def test_a_raise_lowers_nothing_and_is_near_what_was_said(cents: int, share: F, step: str | None) -> None:
    """No price falls; none is further from the exact one than half a cent or 2.5 %, but where it was kept
    from falling; all are whole cents."""
    before = D(cents).scaleb(-2)
    after = new_price(before, share, D(step) if step else None)
    exact = F(before) * (1 + share)
    assert after >= before and after == after.quantize(D("0.01"))
    assert after == before or abs(F(after) - exact) <= max(F(1, 200), exact / 40)


def test_a_larger_price_stays_the_larger() -> None:
    """Rounding turns no order of two prices round, below the step's reach or across it."""
    rows = [new_price(D(cents).scaleb(-2), F(4, 100), D("0.05")) for cents in range(3000)]
    falls = [(a, b) for a, b in zip(rows, rows[1:], strict=False) if b < a]
    assert all(a - b <= D("0.03") for a, b in falls)  # at most half a step, where prices are a cent apart


def amounts(*raises: str) -> dict[str, D]:
    found = raised(PRICES, [read_raise(each) for each in raises], None)
    return {each.price.name: each.after for each in found}


def test_the_closest_raise_counts() -> None:
    """One price, then a material or kind of work, a price group, a kind of material, a kind of entry, all."""
    material = "materials.twice-ground-hardwood"
    every = [
        "10 %",
        "materials=20 %",
        "mulch=30 %",
        "hardwood=40 %",
        f"{material}=50 %",
        f"{material}.price=60 %",
    ]
    expected = ["123.20", "134.40", "145.60", "156.80", "168.00", "179.20"]  # 112.00 and so much on top
    for count in range(1, 7):
        assert amounts(*every[:count])[f"{material}.price"] == D(expected[count - 1])
        assert amounts(*reversed(every[:count])) == amounts(*every[:count])


@pytest.mark.parametrize(
    ("group", "some", "not_these"),
    [
        ("hours", "worker_hour, work.shrub-trim.price.amount", "work.hand-weed.price.amount, job.minimum"),
        (
            "work",
            "work.hand-weed.price.minimum, work.leave-on-site.price.amount",
            "work.haul-away.price.trip",
        ),
        ("hauling", "work.haul-away.dump.sod, delivery.fee, work.haul-away.price.minimum", "worker_hour"),
        ("materials", "materials.washed-river-stone.price", "delivery.fee"),
        ("job", "job.minimum, job.come_back", "worker_hour"),
        ("stone", "materials.washed-river-stone.price", "materials.dark-hardwood.price"),
        (
            "new-edge",
            "work.new-edge.price.amount, work.new-edge.price.minimum",
            "work.recut-edge.price.amount",
        ),
        ("work.haul-away.dump", "work.haul-away.dump.sod", "work.haul-away.price.trip"),
    ],
)
def test_groups(group: str, some: str, not_these: str) -> None:
    """What each word takes in, and what it leaves out."""
    found = amounts(f"{group}=10 %")
    assert set(some.split(", ")) <= set(found)
    assert not set(not_these.split(", ")) & set(found)


def test_every_price_is_in_one_kind() -> None:
    """So that raises by kind leave none out, and take none twice."""
    assert set(amounts("hours=1 %", "materials=1 %", "work=1 %", "hauling=1 %", "job=1 %")) == {
        price.name for price in PRICES
    }


@pytest.mark.parametrize(
    ("raises", "why"),
    [
        (
            ["mulhc=4 %"],
            "Nothing in the chart is called 'mulhc'. Did you mean 'mulch'? Groups here: hours,"
            " materials, work,"
            " hauling, job, hardwood, mulch, stone; or name a material, a kind of work or one price."
            " Nothing was"
            " written.",
        ),
        (
            ["mulch=4 %", "mulch=5 %"],
            "materials.twice-ground-hardwood.price is to be raised as 'mulch by 4 %' and as 'mulch"
            " by 5 %'. Keep"
            " one of the two. Nothing was written.",
        ),
        (
            ["4 %", "5 %"],
            "worker_hour is to be raised as 'every price by 4 %' and as 'every price by 5 %'. Keep"
            " one of the two."
            " Nothing was written.",
        ),
    ],
)
def test_refused(raises: list[str], why: str) -> None:
    """What is for nothing, and what says two things of one price."""
    with pytest.raises(Refused) as refused:
        amounts(*raises)
    assert str(refused.value) == why


def test_how_a_raise_is_typed() -> None:
    """A percentage, with a group before it or without."""
    assert read_raise("4 %") == Raise(F(4, 100))
    assert read_raise(" mulch = 6.5% ") == Raise(F(65, 1000), "mulch")
    for wrong in ("4", "mulch=", "-4 %", "mulch=4", "four %"):
        with pytest.raises(NotAQuantity):
            read_raise(wrong)
