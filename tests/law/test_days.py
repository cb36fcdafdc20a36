"""The last day to cancel in the states: business days, the buyer's age, and the later of two days."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from scopegen.case import Case
from scopegen.law import FEDERAL, latest
from tests.law.pages import STATES, sold

SOLD = "4000.00"
EVERY_DAY = [date(2025, 1, 1) + timedelta(days=number) for number in range(6 * 365 + 1)]


def last_day(case: Case, state: str | None, signed: date, older: bool | None) -> date:
    """The last day of all rights of a sale at the customer's home."""
    rights, _ = sold(case, state, SOLD, signed_at="customer's home", is_65_or_older=older)
    return latest(rights.rights, signed)


# Maryland Commercial Law 14-301(b): nine holidays, without Martin Luther King Jr. Day and Juneteenth;
# Saturday counts. Counted by hand from Friday, January 16, 2026, over Martin Luther King Jr. Day.
@pytest.mark.parametrize(
    ("days", "own", "federal"),
    [(5, date(2026, 1, 22), date(2026, 1, 23)), (7, date(2026, 1, 24), date(2026, 1, 26))],
)
def test_maryland_counts_by_its_own_list(days: int, own: date, federal: date) -> None:
    """The two lists differ by a day here, and the form has the later one."""
    page = STATES["MD"]
    assert page.cancel is not None
    signed, counting = date(2026, 1, 16), page.cancel.last_day
    assert counting.after(signed, days) == own
    assert FEDERAL.after(signed, days) == federal
    assert counting.last(signed, days) == federal


@pytest.mark.parametrize(
    ("signed", "days", "last"),
    [
        (date(2026, 6, 16), 5, date(2026, 6, 22)),  # Juneteenth, a Friday, counts
        (date(2026, 2, 13), 5, date(2026, 2, 20)),  # Washington's Birthday does not
        (date(2026, 11, 24), 7, date(2026, 12, 3)),  # Thanksgiving Day
        (date(2026, 3, 2), 5, date(2026, 3, 7)),  # to a Saturday
        (date(2026, 3, 2), 7, date(2026, 3, 10)),
    ],
)
def test_own_list_of_maryland(signed: date, days: int, last: date) -> None:
    """Counted by hand from 14-301(b)."""
    page = STATES["MD"]
    assert page.cancel is not None
    assert page.cancel.last_day.after(signed, days) == last


def test_own_list_of_maryland_is_the_statute_s() -> None:
    """Commercial Law 14-301(b), word for word but for an apostrophe."""
    page = STATES["MD"]
    assert page.cancel is not None
    assert page.cancel.last_day.of_them == (
        "New Year's Day", "Washington's Birthday", "Memorial Day", "Independence Day", "Labor Day",
        "Columbus Day", "Veterans Day", "Thanksgiving Day", "Christmas Day",
    )  # fmt: skip


# Maryland Commercial Law 14-302.1 (5 and 7 days); California AB 2471 of 2020 (3 and 5).
@pytest.mark.parametrize(
    ("state", "older", "days"),
    [
        ("MD", False, 5), ("MD", True, 7), ("MD", None, 7),
        ("CA", False, 3), ("CA", True, 5), ("CA", None, 5),
        ("CT", False, 3), ("CT", True, 3),
        ("NJ", True, 3), ("PA", True, 3), ("NY", True, 3), ("VA", True, 3), (None, True, 3),
    ],
)  # fmt: skip
def test_days_by_state_and_age(case: Case, state: str | None, older: bool | None, days: int) -> None:
    """The most days of all rights; an age that nobody told gives the longer time."""
    rights, _ = sold(case, state, SOLD, signed_at="customer's home", is_65_or_older=older)
    assert max(right.days for right in rights.rights) == days


@pytest.mark.parametrize("older", [True, False])
@pytest.mark.parametrize("state", ["MD", "CA", "CT"])
def test_day_on_the_form_is_never_before_either_law_s(case: Case, state: str, older: bool) -> None:
    """Over six years of signing days: never before the federal day, nor before the state's own."""
    page = STATES[state]
    assert page.cancel is not None
    days = page.cancel.last_day.days(older)
    for signed in EVERY_DAY:
        last = last_day(case, state, signed, older)
        assert last >= FEDERAL.after(signed, 3)
        assert last >= FEDERAL.after(signed, days)
        assert last >= page.cancel.last_day.after(signed, days)
        assert (last - signed).days <= 14


@pytest.mark.parametrize("state", ["CA", "CT"])
def test_saturday_is_passed_over_where_it_may_not_count(case: Case, state: str) -> None:
    """Signed on Thursday, March 5, 2026: Friday, Monday, Tuesday. The federal day would be the Monday."""
    assert FEDERAL.after(date(2026, 3, 5), 3) == date(2026, 3, 9)
    assert last_day(case, state, date(2026, 3, 5), False) == date(2026, 3, 10)


def test_without_a_known_state_the_federal_day_stands(case: Case) -> None:
    """A job that names no state, or one without a page, has the day that it always had."""
    for state in (None, "VA", "NJ"):
        assert all(
            last_day(case, state, signed, None) == FEDERAL.after(signed, 3) for signed in EVERY_DAY[::7]
        )
