"""The most that may be due before the work starts, to the cent."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

from scopegen.findings import Level
from tests.law.pages import STATES
from tests.rules.laid_over import checked


def most(state: str, price: str) -> Decimal | None:
    deposit = STATES[state].deposit
    assert deposit is not None
    return deposit.most(Decimal(price))


@pytest.mark.parametrize(
    ("price", "ceiling"),
    [
        # California Business and Professions Code 7159.5(a)(3): 1,000 dollars or 10 percent, the less of both
        ("500.00", "50.00"), ("4800.00", "480.00"), ("9999.90", "999.99"), ("9999.99", "999.99"),
        ("10000.00", "1000.00"), ("10000.01", "1000.00"), ("12500.00", "1000.00"),
    ],
)  # fmt: skip
def test_california(price: str, ceiling: str) -> None:
    """The less of both, rounded down."""
    assert most("CA", price) == Decimal(ceiling)


@pytest.mark.parametrize("state", ["MD", "ME", "MA"])
@pytest.mark.parametrize(
    ("price", "ceiling"),
    [
        # Maryland Business Regulation 8-617(b); 10 M.R.S. 1487(5); Massachusetts G.L. c. 142A, s. 2(a)(6)
        ("500.00", "166.66"), ("1000.00", "333.33"), ("3000.00", "1000.00"), ("5000.00", "1666.66"),
        ("0.02", "0.00"), ("0.03", "0.01"),
    ],
)  # fmt: skip
def test_one_third(state: str, price: str, ceiling: str) -> None:
    """A third, rounded down."""
    assert most(state, price) == Decimal(ceiling)


def test_pennsylvania_has_a_ceiling_only_above_its_price() -> None:
    """73 P.S. 517.9(10), seen at second hand: contracts of more than 5,000 dollars."""
    assert most("PA", "4999.99") is None
    assert most("PA", "5000.00") is None
    assert most("PA", "5000.01") == Decimal("1666.67")


@pytest.mark.parametrize("state", ["CA", "MD", "ME", "MA"])
def test_ceiling_is_the_last_cent_that_is_allowed(state: str) -> None:
    """It is never above the exact share, and never a whole cent below it."""
    deposit = STATES[state].deposit
    assert deposit is not None
    for cents in (*range(1, 2000), 123_456_789, 99_999_999_999):
        price = Decimal(cents) / 100
        ceiling, exact = deposit.most(price), Fraction(cents, 100) * deposit.share
        exact = exact if deposit.amount is None else min(exact, Fraction(deposit.amount))
        assert ceiling is not None
        assert Fraction(ceiling) <= exact < Fraction(ceiling) + Fraction(1, 100)


# The sound job costs 345.04; with a least price of 7,500.00 it is above California's 1,000 dollars.
MAIL = "company: {email: office@plumb.example, license: registration 00-7711}"


Found = list[tuple[str, str, str]]  # rule, amount, line


def found(folder: Path, state: str, payments: str, minimum: str = "100.00") -> Found:
    job = f"{{customer: {{state: {state}}}, done_by: 10 days after start, payments: {payments}}}"
    fragment = f"{{job: {job}, {MAIL}, chart: {{job: {{minimum: {minimum}}}}}}}"
    faults = [f for f in checked(folder, fragment).findings if f.rule in ("deposit-ceiling", "deposit-ask")]
    assert {f.level for f in faults} <= {Level.STOPS, Level.NOTES}
    return [(f.rule, f.message.split(" is due")[0], f.place.text.strip()) for f in faults]


def first(amount: str) -> str:
    return f"[{{when: when you sign, amount: {amount}}}, {{when: on completion, amount: rest}}]"


def thrice(when: str) -> str:
    second = f"{{when: {when}, amount: 100.00}}"
    return f"[{{when: when you sign, amount: 100.00}}, {second}, {{when: on completion, amount: rest}}]"


@pytest.mark.parametrize(
    ("state", "minimum", "under", "at", "over"),
    [
        ("CA", "100.00", "34.49", "34.50", "34.51"),  # a tenth of 345.04
        ("CA", "12500.00", "999.99", "1000.00", "1000.01"),  # not more than 1,000 dollars
        ("MD", "100.00", "115.00", "115.01", "115.02"),  # a third of 345.04
    ],
)
def test_deposit_at_the_ceiling_passes_and_a_cent_more_stops(
    tmp_path: Path, state: str, minimum: str, under: str, at: str, over: str
) -> None:
    """Just under, at, just over, in a whole job."""
    for number, amount in enumerate((under, at)):
        (tmp_path / str(number)).mkdir()
        assert found(tmp_path / str(number), state, first(amount), minimum) == []
    (tmp_path / "over").mkdir()
    ((rule, amount, _),) = found(tmp_path / "over", state, first(over), minimum)
    assert (rule, amount.replace(",", "")) == ("deposit-ceiling", over)


@pytest.mark.parametrize(
    ("state", "minimum", "payments", "rules"),
    [
        ("ME", "3000.00", first("1500.00"), ["deposit-ask"]),  # with tax and hauling more than 3,000 dollars
        ("ME", "100.00", first("300.00"), []),  # not above 3,000 dollars
        ("MA", "2900.00", first("1500.00"), ["deposit-ask"]),
        ("PA", "6000.00", first("3000.00"), ["deposit-ask"]),
        ("PA", "3000.00", first("3000.00"), []),  # not above 5,000 dollars
        ("NY", "6000.00", first("3000.00"), []),  # has no ceiling
        ("VA", "6000.00", first("3000.00"), []),
        # the whole price at once, and a second payment before the work, count as well
        ("MD", "100.00", "{rest: when you sign}", ["deposit-ceiling"]),
        ("MD", "100.00", "{rest: on completion}", []),
        ("MD", "100.00", thrice("one week before we start"), ["deposit-ceiling"]),
        ("MD", "100.00", thrice("when the beds are clear"), []),
    ],
)
def test_what_decides_and_what_only_asks(
    tmp_path: Path, state: str, minimum: str, payments: str, rules: list[str]
) -> None:
    """The ceiling of a law that reaches the job stops; one that may not, or is not sure, asks."""
    assert [rule for rule, _, _ in found(tmp_path, state, payments, minimum)] == rules


def test_finding_points_at_the_deposit(tmp_path: Path) -> None:
    """In the short way of writing too."""
    ((_, _, line),) = found(tmp_path, "MD", "{deposit: 50 %, rest: on completion}")
    assert "50 %" in line
