"""Conditions with limits, and conditions in words."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from scopegen.clauses import Clause
from scopegen.clauses.conditions import Facts, condition_in_words, holds, unreadable_conditions


def when(**conditions: Any) -> Any:
    """The conditions of a clause, as its file would be read."""
    data = {"clause": "terms.a", "title": {"en": "A"}, "wording": [{"season": "2027", "en": {"says": "A."}}]}
    return Clause.model_validate({**data, "when": conditions}).when


@pytest.mark.parametrize(
    ("limits", "amount", "met"),
    [
        ({"at_least": "500 ft2"}, "499.99", False),
        ({"at_least": "500 ft2"}, "500", True),
        ({"over": "500 ft2"}, "500", False),
        ({"over": "500 ft2"}, "500.01", True),
        ({"at_most": "500 ft2"}, "500", True),
        ({"at_most": "500 ft2"}, "500.01", False),
        ({"under": "500 ft2"}, "500", False),
        ({"under": "500 ft2"}, "499.99", True),
        ({"at_least": "100 ft2", "under": "200 ft2"}, "150", True),
        ({"at_least": "100 ft2", "under": "200 ft2"}, "200", False),
        # 500 ft² are exactly 46.45152 m² (1 ft = 0.3048 m, NIST Handbook 44, Appendix C)
        ({"at_least": "46.45153 m2"}, "500", False),
        ({"at_least": "46.45152 m2"}, "500", True),
    ],
)
def test_limits_of_an_area(limits: dict[str, str], amount: str, met: bool) -> None:
    assert holds(when(area=limits), Facts(amounts={"area": Fraction(amount)})) is met


@pytest.mark.parametrize(("total", "met"), [("4999.99", False), ("5000.00", False), ("5000.01", True)])
def test_money_is_exact(total: str, met: bool) -> None:
    assert holds(when(total={"over": "$5000"}), Facts(amounts={"total": Fraction(total)})) is met


def test_what_could_not_be_measured_meets_no_limit() -> None:
    assert not holds(when(area={"at_most": "500 ft2"}), Facts())


def test_every_condition_must_hold() -> None:
    facts = Facts({"kinds": frozenset({"mulch"})}, {"season": Fraction(2028)})
    assert holds(when(kinds="mulch", season={"at_least": "2028"}), facts)
    assert not holds(when(kinds="stone", season={"at_least": "2028"}), facts)
    assert not holds(when(kinds="mulch", season={"at_least": "2029"}), facts)


@pytest.mark.parametrize(
    ("said", "path", "message", "fix"),
    [
        ({"kind": "mulch"}, ("kind",), "'kind' is no condition", "did you mean 'kinds'?"),
        ({"kinds": "mulsh"}, ("kinds", 0), "'kinds' is never 'mulsh'", "did you mean 'mulch'?"),
        ({"area": {"over": "500"}}, ("area", "over"), "'500' has no unit", None),
        (
            {"area": "large"},
            ("area",),
            "'area' is asked for in the wrong way",
            "write limits, like {at_least: …}",
        ),
        (
            {"kinds": {"over": "3"}},
            ("kinds",),
            "'kinds' is asked for in the wrong way",
            "write one value or a list",
        ),
    ],
)
def test_conditions_that_nothing_can_meet_are_found(
    said: dict[str, Any], path: tuple[str | int, ...], message: str, fix: str | None
) -> None:
    """A slip would keep the clause off every paper."""
    ((found_path, found_message, found_fix),) = unreadable_conditions(when(**said))
    assert (found_path, found_message) == (path, message)
    assert fix is None or found_fix == fix


def test_conditions_in_words() -> None:
    """What the office reads; a clause without a condition is always taken."""
    assert condition_in_words({}) == "always"
    said = when(kinds=["mulch", "compost"], total={"at_least": "500", "under": "5000"})
    assert condition_in_words(said) == (
        "material of this kind is spread: mulch or compost and the total is at least 500 and less than 5000"
    )
