"""Hauling: whole trips by volume and payload, dump by dump."""

from __future__ import annotations

from fractions import Fraction as F
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scopegen.chart import Work
from scopegen.hauling import haul, haul_share
from scopegen.spoil import SpoilOut

HOUR = F(60)


def hauling(**over: Any) -> Work:
    """A truck of 4 yd³ and 3,000 lb; 40.00 a trip, an hour's drive with one rider, 2 yd³ loaded an hour."""
    return Work.model_validate(
        {
            "decides": "debris",
            "name": "Haul",
            "price": {"trip": "40.00", "drive": "1 h", "riders": "1", "loading": "2 yd3/h"},
            "dump": {"sod": "20.00/yd3", "green": "10.00/yd3"},
            "truck": {"volume": "4 yd3", "payload": "3000 lb"},
            "clause": "debris.haul-away",
            **over,
        }
    )


def load(stream: str, loose: F, weight: F) -> dict[str, SpoilOut]:
    return {stream: SpoilOut(stream, loose, loose, weight)}


@pytest.mark.parametrize(
    ("yards", "pounds", "trips"),
    [
        ("4", "3000", 1),  # exactly full
        ("4.01", "1000", 2),  # a hair over its volume
        ("1", "3001", 2),  # a pound over its payload
        ("9", "3001", 3),  # by volume 3, by payload 2
        ("0.01", "1", 1),
        ("0", "0", 0),
    ],
)
def test_trips_by_volume_or_payload(yards: str, pounds: str, trips: int) -> None:
    """Whichever fills the truck first."""
    assert haul(hauling(), HOUR, load("green", F(yards), F(pounds))).trips == trips


def test_fee_worked_by_hand() -> None:
    """6 yd³ of green waste at 250 lb/yd³, EPA's figure for yard trimmings (Volume-to-Weight Conversion
    Factors, April 2016, seen on EPA's help page), weigh 1,500 lb: 2 trips by volume.
    2 × 40 + (2 × 1 h + 6 ÷ 2 h) × 60 + 6 × 10 = 440."""
    found = haul(hauling(), HOUR, load("green", F(6), F(6 * 250)))
    assert (found.trips, found.hours, found.fee, found.at_minimum) == (2, 5, 440, False)


def test_riders_and_drive_are_paid_for_each_trip() -> None:
    """Two riders for a drive of 90 minutes there and back, 2 trips: 6 hours; loading 6 ÷ 2 = 3 hours."""
    price = {"trip": "40.00", "drive": "90 min", "riders": "2", "loading": "2 yd3/h"}
    assert haul(hauling(price=price), HOUR, load("green", F(6), F(0))).hours == 9


def test_streams_of_one_dump_ride_together() -> None:
    """Half a truck of each makes one trip to one dump, and two trips to two."""
    both = {**load("sod", F(2), F(100)), **load("green", F(2), F(100))}
    assert haul(hauling(), HOUR, both).trips == 1
    apart = {"sod": "20.00/yd3", "green": {"fee": "10.00/yd3", "where": "the compost yard"}}
    assert haul(hauling(dump=apart), HOUR, both).trips == 2


def test_dump_takes_its_fee_by_volume_or_by_the_short_ton() -> None:
    """3,000 lb are 1.5 short tons of 2,000 lb (NIST Handbook 44, Appendix C): at 30.00 a ton, 45.00."""
    by_ton = hauling(dump={"sod": "30.00/ton"})
    # one trip 40 + (1 h + 2 ÷ 2 h) × 60 = 160
    assert haul(by_ton, HOUR, load("sod", F(2), F(3000))).fee == 160 + 45
    assert haul(hauling(), HOUR, load("sod", F(2), F(3000))).fee == 160 + 40


def test_least_that_hauling_costs() -> None:
    """A bucket of weeds costs the minimum, and says so; at the minimum itself it does not."""
    price = {"trip": "40.00", "drive": "0 h", "riders": "1", "loading": "60 yd3/h", "minimum": "70.00"}
    work = hauling(price=price)
    small = haul(work, HOUR, load("green", F(1), F(0)))  # 40 + 1 + 10 = 51
    assert (small.fee, small.at_minimum) == (70, True)
    exact = haul(work, HOUR, load("green", F(30, 11), F(0)))  # 40 + 30 = 70
    assert (exact.fee, exact.at_minimum) == (70, False)


def test_share_of_a_truck_that_goes_anyway() -> None:
    """Half a truck by payload is half a trip: (40 + 60) ÷ 2, loading 1 ÷ 2 × 60, dump 20."""
    assert haul_share(hauling(), HOUR, load("sod", F(1), F(1500))) == 50 + 30 + 20


amounts = st.fractions(0, 40, max_denominator=64)
weights = st.fractions(0, 40_000, max_denominator=8)


@given(amounts, weights, amounts, weights)
def test_more_spoil_never_costs_less_and_is_never_fewer_trips(a: F, b: F, more: F, heavier: F) -> None:
    """Whatever is added to a load, its haul is neither cheaper nor shorter."""
    less, all_of_it = load("sod", a, b), load("sod", a + more, b + heavier)
    assert haul(hauling(), HOUR, less).fee <= haul(hauling(), HOUR, all_of_it).fee
    assert haul(hauling(), HOUR, less).trips <= haul(hauling(), HOUR, all_of_it).trips
    assert haul_share(hauling(), HOUR, less) <= haul_share(hauling(), HOUR, all_of_it)


@given(amounts, weights)
def test_truck_is_never_overloaded_and_never_goes_in_vain(yards: F, pounds: F) -> None:
    """Every trip is needed, and together they carry all of it."""
    trips = haul(hauling(), HOUR, load("sod", yards, pounds)).trips
    assert yards <= 4 * trips and pounds <= 3000 * trips
    assert trips == 0 or yards > 4 * (trips - 1) or pounds > 3000 * (trips - 1)


@given(amounts, weights)
def test_share_never_costs_more_than_a_trip_of_its_own(yards: F, pounds: F) -> None:
    """Riding along is never dearer than a haul alone."""
    out = load("sod", yards, pounds)
    assert haul_share(hauling(), HOUR, out) <= haul(hauling(), HOUR, out).fee
