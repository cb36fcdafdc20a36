"""The values that blanks are filled with: hours, limits, tolerances, visits, piles, who is billed."""

from __future__ import annotations

from typing import Any

import pytest

from scopegen.clauses import Said
from tests.clause_library.worked_out import worked_out

BY_HOUR = {
    "decides": "bed_prep", "name": "dig by the hour", "price": {"per": "worker-hour", "amount": "60.00"},
    "not_over": "25 %", "clause": "extra.hourly",
}  # fmt: skip
HOURS = {"decided": "included", "work": "by-hour", "worker_hours": "2 h"}
EVERY = {"bed_prep": HOURS}
VISITS = [
    {"name": "spring", "start": {"from": "2027-04-12", "to": "2027-04-16"}},
    {"name": "fall", "start": {"from": "2027-10-11", "to": "2027-10-15"}},
]


def said(job: dict[str, Any], chart: dict[str, Any] | None = None, decision: str = "bed_prep") -> list[Said]:
    chosen, _ = worked_out({"job": job, "chart": chart or {}})
    assert not chosen.troubles
    return [each for each in chosen.said if each.decision == decision]


def terms(job: dict[str, Any], chart: dict[str, Any] | None = None) -> dict[str, str]:
    chosen, _ = worked_out({"job": job, "chart": chart or {}})
    return {term.clause: term.text for term in chosen.terms}


@pytest.mark.parametrize(
    ("not_over", "limit"),
    [
        ("(left out)", "$300.00"),  # 4 h at 60.00 are 240.00, and a quarter of that above it
        ("140.00", "$280.00"),  # each bed's own limit
        ("100.00", "$240.00"),  # a limit below the estimate is no lower than the estimate
    ],
)
def test_hours_of_two_beds_that_are_said_once_add_up(not_over: str, limit: str) -> None:
    hours = dict(HOURS) if not_over == "(left out)" else {**HOURS, "not_over": not_over}
    beds = [{"name": name, "bed_prep": hours} for name in ("Left", "Right")]
    (told,) = said({"beds": beds}, {"work": {"by-hour": BY_HOUR}})
    assert "Our estimate is 4 worker-hours, or $240.00 before any tax." in told.text
    assert f"We stop at {limit} before any tax" in told.text


def test_fixed_hours_have_no_estimate() -> None:
    fixed = {key: value for key, value in BY_HOUR.items() if key != "not_over"}
    (told,) = said({"beds": [{"bed_prep": HOURS}]}, {"work": {"by-hour": fixed}})
    assert "We spend 2 worker-hours on it." in told.text
    assert "estimate" not in told.text and "stop at" not in told.text


def test_most_and_tolerance_are_in_the_terms() -> None:
    """120 ft² by 2 in are 0.741 yd³, sold as 1 yd³ at 100.00. A tenth of it is 10.00, and 6 % on it 0.60."""
    fixed, measured = {}, {"price_basis": "by measure", "tolerance": "10 %"}
    before, after = terms(fixed)["terms.price"], terms(measured)
    total = float(before.split("$")[1].split(" ")[0].rstrip("."))
    assert "at the most" not in before
    assert f"comes to ${total + 10.60:.2f} at the most" in after["terms.price"]
    assert "pass the estimate by 10 % at the most" in after["terms.what-you-buy-by-measure"]


def test_beds_of_different_visits_are_told_apart() -> None:
    beds = [
        {"name": name, "visit": visit} for name, visit in (("A", "spring"), ("B", "fall"), ("C", "spring"))
    ]
    told = said({"visits": VISITS, "beds": beds})
    assert [each.beds for each in told] == [(0, 2), (1,)]
    assert [each.follows[0] for each in told] == [
        "We do this on this visit: spring.", "We do this on this visit: fall.",
    ]  # fmt: skip
    assert "more than one visit: spring and fall." in terms({"visits": VISITS})["terms.visits"]


def test_without_visits_nothing_is_said_of_one() -> None:
    assert all(not each.follows for each in said({}))


def test_one_of_a_group_names_the_group() -> None:
    part = {"decided": "add-on", "work": "pull-fabric", "choose_one": "old ground"}
    (told,) = said({"beds": [{"substrate": part}]}, decision="substrate")
    assert told.follows == ("Choose one at the most from this group: old ground.",)


@pytest.mark.parametrize(
    ("piles", "told"),
    [
        ([("hardwood", "2 yd3", "the shed")], "2 yd³ of Hardwood mulch (the shed)"),
        ([("river-stone", "3000 lb", "the drive")], "1.5 ton of River stone (the drive)"),
        (
            [("hardwood", "13.5 ft3", "the shed"), ("pine-bark", "1 yd3", "the drive")],
            "0.5 yd³ of Hardwood mulch (the shed) and 1 yd³ of Pine bark (the drive)",
        ),
    ],
)
def test_piles_are_listed_with_their_spots(piles: list[tuple[str, str, str]], told: str) -> None:
    on_hand = [{"use": use, "amount": amount, "spot": spot} for use, amount, spot in piles]
    text = terms({"on_hand": on_hand})["terms.on-hand"]
    assert f"is yours: {told}. We spread it first" in text


@pytest.mark.parametrize(
    ("use", "clause"), [("hardwood", "material.mulch"), ("river-stone", "material.stone")]
)
def test_material_of_the_customer_takes_its_own_clause_whatever_the_chart_says(use: str, clause: str) -> None:
    chart = {"materials": {use: {"spread_only": "45.00"}}}
    part = {"use": use, "depth": "2 in"}
    theirs = {**part, "supplied_by": "customer", "by": "start", "spot": "the drive"}
    assert [each.clause for each in said({"beds": [{"material": part}]}, chart, "material")] == [clause]
    for way in ("included", "add-on", "no-charge"):
        (told,) = said({"beds": [{"material": {**theirs, "decided": way}}]}, chart, "material")
        assert told.clause == "material.yours"
        assert "no later than the day we start. Put it at this spot: the drive." in told.text
        assert "amount of the material are up to you" in told.text
        assert "A second trip for it costs $90.00." in told.text
    (told,) = said({"beds": [{"material": {**theirs, "decided": "excluded"}}]}, chart, "material")
    assert told.clause == clause


def test_a_chart_without_a_price_for_coming_back_leaves_no_hole() -> None:
    theirs = {"use": "hardwood", "depth": "2 in", "supplied_by": "customer", "by": "start", "spot": "here"}
    chart = {"materials": {"hardwood": {"spread_only": "45.00"}}, "job": {"come_back": "(left out)"}}
    (told,) = said({"beds": [{"material": theirs}]}, chart, "material")
    assert told.text.endswith("we leave this work undone.")


def test_who_is_billed_and_how_the_order_is_named() -> None:
    customer = {
        "bill_to": ["Ruler Road Offices", "PO Box 00"], "po_number": "RR-7",
        "tax_exempt": {"certificate": "EX-0155"},
    }  # fmt: skip
    told = terms({"customer": customer})
    assert "each bill to Ruler Road Offices, PO Box 00." in told["terms.bill-to"]
    assert "purchase order is RR-7," in told["terms.purchase-order"]
    assert "under certificate EX-0155." in told["terms.tax-exempt"]
