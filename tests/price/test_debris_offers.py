"""Debris work as a gift, as an add-on, and where the customer did not do it: it costs what it takes away.

The sound job's bed, worked by hand: weeds 120 ft² × 1/8 in ÷ 12 = 1.25 ft³ = 0.0463 yd³ of green waste; an
edge of 32 ft × 4 × 2 ÷ 2 ÷ 144 = 0.8889 ft³ = 0.0329 yd³ of sod, 0.0412 loose. One trip: 40.00, 40 minutes
there and back and 0.0874 ÷ 1.5 h of loading at 60.00, dump 24 × 0.0412 + 12 × 0.0463: 85.04.
"""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from scopegen.check import check
from scopegen.price import Priced
from tests.rules.laid_over import opened

BY_CUSTOMER = "{decided: customer, by: start, if_not_done: come back}"
BY_HAND = Decimal("85.04")


def priced(folder: Path, *debris: str) -> Priced:
    """The sound job with a bed for each word on debris."""
    beds = ", ".join(f"{{name: Bed {number}, debris: {said}}}" for number, said in enumerate(debris, 1))
    case = opened(folder, f"job: {{beds: [{beds}]}}")
    assert not check(case).stops
    assert case.priced is not None
    return case.priced


def hauling(of: Priced) -> list[Decimal]:
    return [line.amount for line in of.lines if line.id.startswith("hauling:")]


def test_included_haul_is_charged(tmp_path: Path) -> None:
    """What the others are held against."""
    assert hauling(priced(tmp_path, "{decided: included, work: haul-away}")) == [BY_HAND]


def test_haul_given_away_is_not_charged(tmp_path: Path) -> None:
    """A haul at no charge stands at its regular price, and no line of the base charges for it; its hours and
    trips are counted all the same."""
    gift = priced(tmp_path, "{decided: no-charge, work: haul-away}")
    assert hauling(gift) == []
    assert [offer.before_tax for offer in gift.no_charge] == [BY_HAND]
    assert gift.spoil.trips == 1


@pytest.mark.parametrize("said", [f"[{BY_CUSTOMER}, {{decided: add-on, work: haul-away}}]"])
def test_haul_as_an_add_on_costs_what_it_hauls(tmp_path: Path, said: str) -> None:
    """The customer takes it, or adds the haul: at the price of the trip, not at the minimum of 60.00."""
    offered = priced(tmp_path, said)
    assert hauling(offered) == []
    assert [offer.price for offer in offered.add_ons] == [BY_HAND]


def test_haul_that_the_customer_did_not_do(tmp_path: Path) -> None:
    """What we charge for it then is the price of the whole trip too."""
    fall_back = priced(tmp_path, "{decided: customer, by: start, if_not_done: we do it, work: haul-away}")
    assert [offer.price for offer in fall_back.if_not_done] == [BY_HAND]


def test_haul_as_an_add_on_rides_with_the_base(tmp_path: Path) -> None:
    """Where the truck comes for another bed anyway, the add-on is its share: of the truck by volume or weight
    (0.0093 + 0.0296 of a trip of 40.00 and a drive of 40.00), loading 3.50, dump 1.54. Never nothing."""
    both = priced(
        tmp_path,
        "{decided: included, work: haul-away}",
        f"[{BY_CUSTOMER}, {{decided: add-on, work: haul-away}}]",
    )
    assert hauling(both) == [BY_HAND]
    assert [offer.price for offer in both.add_ons] == [Decimal("8.15")]


def test_gift_and_charge_stay_apart(tmp_path: Path) -> None:
    """One bed's haul is charged and another's given: each for its own bed."""
    both = priced(tmp_path, "{decided: included, work: haul-away}", "{decided: no-charge, work: haul-away}")
    assert hauling(both) == [BY_HAND]
    assert [offer.before_tax for offer in both.no_charge] == [Decimal("8.15")]
