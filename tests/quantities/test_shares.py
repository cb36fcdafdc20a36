"""A share of the price, or an amount of money: never guessed."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from scopegen.quantities.texts import share
from scopegen.quantities.units import NotAQuantity


@pytest.mark.parametrize("said", ["30", "0.3", "$30", "12.5"])
def test_a_bare_figure_may_be_either(said: str) -> None:
    """'0.3' may be meant as 30 %, and '30' as dollars: money has its cents, a share its sign."""
    with pytest.raises(NotAQuantity) as found:
        share(said)
    assert "may be a share or an amount of money" in str(found.value)
    assert "%" in found.value.fix


def test_what_is_said_in_full_is_taken() -> None:
    """A percentage is a share of the whole, an amount with its cents is money."""
    assert share("30 %") == Fraction(3, 10)
    assert share("$300.00") == Decimal("300.00")
    assert share("0.30") == Decimal("0.30")
