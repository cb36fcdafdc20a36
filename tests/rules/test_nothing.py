"""Payments, prices, limits and offers that come to nothing, and prices that are too large."""

from __future__ import annotations

from pathlib import Path

import pytest

from scopegen.findings import Level
from tests.rules.laid_over import checked, opened

CHART = "chart: {%s}"
MINE = {
    "payment-of-nothing", "all-at-once", "nothing-to-pay", "limit-of-nothing", "add-on-of-nothing",
    "price-of-nothing", "adds-nothing", "price-too-large", "payments-exceed-total",
}  # fmt: skip


def found(folder: Path, over: str) -> list[tuple[str, Level, str]]:
    return [(f.rule, f.level, f.message) for f in checked(folder, over).findings if f.rule in MINE]


@pytest.mark.parametrize(
    ("payments", "rules"),
    [
        ("{deposit: 0.00001 %, rest: on completion}", ["payment-of-nothing"]),
        ("{deposit: 0.01, rest: on completion}", []),
        ("{deposit: 0.00, rest: on completion}", ["payment-of-nothing"]),
        ("{deposit: 99.99999999 %, rest: on completion}", ["all-at-once"]),
        ("{deposit: 100 %, rest: on completion}", ["all-at-once"]),
        ("{deposit: 101.00, rest: on completion}", []),
        ("{deposit: 1000000.00, rest: on completion}", ["payments-exceed-total"]),
        ("{rest: on completion}", []),
    ],
)
def test_a_payment_that_prints_as_nothing(payments: str, rules: list[str], tmp_path: Path) -> None:
    """What counts is the amount to the cent, as the paper has it."""
    over = f"job: {{payments: {payments}}}"
    assert [rule for rule, _, _ in found(tmp_path, over)] == rules
    amounts = [payment.amount for payment in opened(tmp_path, over).priced.payments]
    assert (0 in amounts) is (bool(rules))


def test_a_discount_of_everything(tmp_path: Path) -> None:
    """One finding, whatever the payments are: each of them is 0.00."""
    over = "job: {discount: {amount: 100 %, because: a friend of the house}}"
    said = "the discount takes off the whole price: nothing is to be paid"
    assert found(tmp_path, over) == [("nothing-to-pay", Level.WARNS, said)]
    assert opened(tmp_path, over).priced.total == 0


@pytest.mark.parametrize(
    ("over", "messages"),
    [
        (CHART % "worker_hour: 0",
         ["a worker's hour costs the customer nothing, so loading and driving are for nothing"]),
        (CHART % "materials: {hardwood: {price: 0}}", ["'hardwood' costs nothing"]),
        (CHART % "materials: {pine-bark: {price: 0}}", []),  # the job has none of it
        (CHART % "work: {hand-weed: {price: {per: ft2, amount: 0.00}}}", ["'hand-weed' costs nothing"]),
        (CHART % "work: {hand-weed: {price: {per: ft2, amount: 0.00, minimum: 5.00}}}", []),
    ],
)  # fmt: skip
def test_a_price_of_zero_is_looked_at(over: str, messages: list[str], tmp_path: Path) -> None:
    """Some charge nothing on purpose, so it warns."""
    assert found(tmp_path, over) == [("price-of-nothing", Level.WARNS, message) for message in messages]


@pytest.mark.parametrize(("limit", "stops"), [("0.00", True), ("0", True), ("0.01", False)])
def test_a_limit_of_zero(limit: str, stops: bool, tmp_path: Path) -> None:
    """Nothing can be done up to nothing."""
    over = f"job: {{if_found: [{{what: thick roots, work: cut-roots, not_over: {limit}}}]}}"
    assert bool(found(tmp_path, over)) is stops


def test_an_add_on_of_zero(tmp_path: Path) -> None:
    """Its work costs nothing by the chart: it stops, and the price itself is looked at too."""
    over = (
        "chart: {work: {hand-weed: {price: {per: ft2, amount: 0.00}, spoil: (left out)}}}\n"
        "job: {beds: [{bed_prep: {decided: add-on, work: hand-weed}}]}"
    )
    assert ("add-on-of-nothing", Level.STOPS, "Front bed: the add-on 'Weed by hand' comes to 0.00") in found(
        tmp_path, over
    )


def test_material_on_ground_that_is_all_planted(tmp_path: Path) -> None:
    """Plants take its place: none is left to spread on."""
    planted = "found: {edge: soft, weeds: light, ground: old mulch, ground_depth: 1 in, planted: 100 %}"
    over = f"job: {{beds: [{{{planted}}}]}}"
    said = "Front bed: no material is spread: all of the ground is planted"
    assert found(tmp_path, over) == [("adds-nothing", Level.WARNS, said)]
    assert not any(line.sells_material for line in opened(tmp_path, over).priced.lines)


@pytest.mark.parametrize(
    ("amount", "how", "what"),
    [
        ("833333.00", "included", ""),
        ("833334.00", "included", "the price comes to "),
        ("833334.00", "add-on", "the price with every add-on comes to "),
    ],
)
def test_the_price_is_limited_as_each_amount_is(amount: str, how: str, what: str, tmp_path: Path) -> None:
    """120 ft² at 833,334.00 are 100,000,080.00; at 833,333.00 they are 99,999,960.00, raking is 12.00."""
    over = (
        "chart: {job: {minimum: 0.00}, work: {hand-weed: {spoil: (left out), price: {per: ft2, amount:"
        " MUCH}}}}\n"
        "job: {beds: [{bed_prep: {decided: HOW, work: hand-weed}, material: {decided: not-needed, because: a"
        " test}, edging: {decided: excluded}, debris: {decided: elsewhere, who: the owner}, substrate:"
        " {decided: included, work: rake-and-top-up}}]}"
    )
    over = over.replace("MUCH", amount).replace("HOW", how)
    messages = [message for rule, _, message in found(tmp_path, over) if rule == "price-too-large"]
    assert [message.startswith(what) for message in messages] == ([True] if what else [])
