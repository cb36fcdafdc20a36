"""Every clause is reached by some job, in every way that it has words for, and its text comes out whole."""

from __future__ import annotations

import re
from typing import Any

import pytest

from scopegen.clauses import Said
from scopegen.job import DECISIONS, SITE_DECISIONS, WAYS
from tests.clause_library.library import clauses
from tests.clause_library.worked_out import worked_out

DECIDING = {name: clause for name, clause in clauses().items() if "decides" in clause}
# What each way has to say beside the decision itself.
SAID = {
    "customer": {"by": "2 days before start", "if_not_done": "come back"},
    "elsewhere": {"who": "the lawn service"},
    "not-needed": {"because": "the ground is clean"},
}
BLOCKS = {
    "work": {"per": "job", "amount": "80.00"},
    "extra": {"per": "worker-hour", "amount": "60.00"},
}
TRENCH = {"depth": "5 in", "width": "6 in", "profile": "box", "stream": "sod"}
EYE = {"volume": "3 yd3"}
HOURS = {"worker_hours": "3 h"}


def material(kind: str) -> dict[str, Any]:
    """A chart entry with all that a text may print of it."""
    return {
        "tried": {
            "name": "tried material", "kind": kind, "unit": "ton" if kind == "stone" else "yd3",
            "price": "90.00", "sold_in": "0.5 ton" if kind == "stone" else "0.5 yd3", "weight": "1500 lb/yd3",
            "wet": "20 %", "waste": "5 %", "lays": "1 yd3/h", "spread_only": "40.00",
            "clause": f"material.{kind}",
        }
    }  # fmt: skip


def chart_for(name: str, decision: str) -> dict[str, Any]:
    """A price chart with the one entry that uses the clause; none where the clause is the decision's own."""
    kind = name.partition(".")[2]
    if decision in SITE_DECISIONS:
        return {}
    if decision == "material":
        return {"materials": material("mulch" if kind in ("yours", "general") else kind)}
    price = BLOCKS["extra"] if decision == "extra" else BLOCKS["work"]
    tried = {"decides": decision, "name": "try this work", "price": price, "clause": name}
    return {"work": {"tried": {**tried, "spoil": TRENCH} if decision == "edging" else tried}}


def part_for(name: str, decision: str, way: str, **more: Any) -> dict[str, Any]:
    """One decided part that leads to the clause."""
    kind = name.partition(".")[2]
    part = {"decided": way, **SAID.get(way, {}), **more}
    if decision in SITE_DECISIONS or kind == "general" and decision != "extra":
        return part
    if decision != "material":
        return {**part, "work": "tried"}
    yours = {"supplied_by": "customer", "by": "start", "spot": "the driveway"} if kind == "yours" else {}
    return {**part, "use": "tried", **yours}


def job_for(name: str, shape: dict[str, Any] | None = None, **more: Any) -> dict[str, Any]:
    """A job with a bed, or work beside the beds, for each way of the clause."""
    decision, ways = clauses()[name]["decides"], clauses()[name]["ways"]
    if decision == "extra":
        return {"extras": [part_for(name, decision, way, **HOURS, **more) for way in ways]}
    beds = []
    for way in ways:
        part = part_for(name, decision, way, **more)
        if decision == "material" and "use" in part and shape is None:
            part |= {"depth": "2 in"}
        own = {"site": {decision: part}} if decision in SITE_DECISIONS else {decision: part}
        beds.append({"name": f"{way} bed", **({"shape": shape, "outline": "20 ft"} if shape else {}), **own})
    if shape:
        others = {key: {"decided": "excluded"} for key in DECISIONS if key != decision}
        beds = [{**bed, **others, "against": "(left out)"} for bed in beds]
    return {"beds": beds}


def said_by(name: str, job: dict[str, Any], chart: dict[str, Any] | None = None) -> list[Said]:
    """What a job says by this clause, with no trouble anywhere."""
    decision = clauses()[name]["decides"]
    chosen, _ = worked_out({"job": job, "chart": chart or chart_for(name, decision)})
    assert not chosen.troubles
    return [said for said in chosen.said if said.clause == name]


def assert_whole(text: str) -> None:
    """No blank left over, no hole where a blank was empty, no sentence without words."""
    assert not re.search(r"[{}]|  |\.\.| [.,;:)]|\( |None|\b0 (ft|yd|worker)", text), text
    assert text[0].isupper() and text.endswith((".", ".)")), text
    for piece in re.split(r"(?<=[.!?]) ", text):
        assert len(piece.split()) > 1 or piece == "You choose.", (piece, text)
    # a sentence that ends on the word before an empty blank
    assert not re.search(r"\b(over|than|takes|costs|come to|comes to|about|is:|spot:|work:)\.", text), text


@pytest.mark.parametrize(
    "text",
    [
        "We rake {{ beds }}.",
        "We rake the bed, over .",
        "We rake  the bed.",
        "We rake the bed. .",
        "We rake the bed over.",
        "We rake the bed, over 0 ft².",
        "Rake. We rake the bed.",
        "we rake the bed.",
        "We rake the bed. This costs.",
        "We rake the bed and",
    ],
)
def test_the_guard_sees_a_hole(text: str) -> None:
    with pytest.raises(AssertionError):
        assert_whole(text)


@pytest.mark.parametrize("name", DECIDING)
def test_every_way_of_every_clause_is_reached(name: str) -> None:
    said = said_by(name, job_for(name))
    assert {each.how for each in said} == set(clauses()[name]["ways"])
    for each in said:
        assert_whole(each.whole_text)


@pytest.mark.parametrize(
    "name",
    [
        name
        for name, clause in DECIDING.items()
        if clause["decides"] in DECISIONS and name != "material.stone"
    ],
)
def test_a_bed_told_by_its_volume_has_no_area_and_no_depth(name: str) -> None:
    said = said_by(name, job_for(name, EYE))
    assert {each.how for each in said} == set(clauses()[name]["ways"])
    for each in said:
        assert_whole(each.whole_text)
        assert "ft²" not in each.text and "We measure the depth" not in each.text
        told = clauses()[name]["decides"] == "material" and each.how in ("included", "add-on", "no-charge")
        assert ("told by eye: 3.00 yd³" in each.text) is told


@pytest.mark.parametrize("name", [name for name in DECIDING if name.startswith("extra.")])
def test_work_by_the_hour_with_and_without_a_limit(name: str) -> None:
    """3 hours at 60.00 are 180.00; a quarter above is 225.00. What is given away has no limit to name."""
    chart = chart_for(name, "extra")
    chart["work"]["tried"]["not_over"] = "25 %"
    for said in said_by(name, job_for(name), chart):
        assert_whole(said.whole_text)
        charged = said.how in ("included", "add-on")
        assert ("3 worker-hours, or $180.00 before any tax" in said.text) is charged
        assert ("stop at $225.00 before any tax" in said.text) is charged
    for said in said_by(name, job_for(name, not_over="200.00"), chart):
        assert ("stop at $200.00" in said.text) is (said.how in ("included", "add-on"))
    for said in said_by(name, job_for(name)):
        assert "stop at" not in said.text
        assert ("3 worker-hours" in said.text) is (said.how in ("included", "add-on", "no-charge"))


@pytest.mark.parametrize("name", [f"material.{kind}" for kind in ("mulch", "stone", "compost", "soil")])
def test_material_that_is_charged_as_delivered_says_so(name: str) -> None:
    by_measure = {"price_basis": "by measure", "tolerance": "10 %"}
    for basis, charged in (({}, False), ({"tolerance": "10 %"}, False), (by_measure, True)):
        for said in said_by(name, {**job_for(name), **basis}):
            assert_whole(said.whole_text)
            assert ("pay for what is delivered" in said.text) is (charged and said.how == "included")


def test_every_decision_has_a_clause_for_each_way() -> None:
    """A site decision has no price, so nothing of it can be added or given."""
    for decision in (*DECISIONS, "extra"):
        ways = [clause["ways"] for clause in DECIDING.values() if clause["decides"] == decision]
        assert {way for each in ways for way in each} == set(WAYS)
    for decision in SITE_DECISIONS:
        assert set(clauses()[f"site.{decision}"]["ways"]) == set(WAYS) - {"add-on", "no-charge"}
