"""The clause files themselves: complete, in the decided format, asking only for blanks that exist."""

from __future__ import annotations

from typing import Any

import pytest
from jinja2 import nodes

from scopegen.job import DECISIONS, SITE_DECISIONS, WAYS
from tests.clause_library.library import ENVIRONMENT, FOLDERS, Text, clauses, facts, texts

PRICED = {"included", "add-on", "no-charge", "excluded", "customer"}
UNPRICED = {"excluded", "customer", "elsewhere", "not-needed"}
WORK = """
bed_prep.hand-weeding bed_prep.heavy-weeding bed_prep.clear-leaves bed_prep.cut-back bed_prep.weed-preventer
bed_prep.weed-killer bed_prep.dig-out-plants bed_prep.suckers-and-seedlings bed_prep.divide-perennials
bed_prep.cut-roots bed_prep.lift-drip-line bed_prep.move-lights
edging.recut edging.new-edge edging.reset-hard-edging edging.metal-edging edging.stone-or-brick
edging.take-out-hard-edging
debris.haul-away debris.leave-on-site debris.your-bin debris.composted debris.taken-to-a-place
debris.stone-taken-away
substrate.rake-and-top-up substrate.strip-old-mulch substrate.pull-fabric substrate.lay-fabric
substrate.cut-sod substrate.loosen-soil substrate.work-in-compost substrate.fill-and-grade
substrate.take-out-stone substrate.paper-barrier substrate.pull-plastic substrate.pull-back-from-walls
material.mulch material.stone material.compost material.soil
extra.hourly extra.shrub-trim extra.hedge-trim extra.plant-yours extra.water-in extra.spout-ends
""".split()
# Every clause that a job of bed work can call for, and the ways that it must have wording for.
EXPECTED = {
    **dict.fromkeys(WORK, PRICED),
    **{f"{decision}.general": UNPRICED for decision in DECISIONS},
    "extra.general": set(WAYS),
    "material.yours": PRICED - {"excluded", "customer"},
    **{f"site.{decision}": UNPRICED | {"included"} for decision in SITE_DECISIONS},
}
SAYING = """
outcomes.we-do-it outcomes.leave-the-bed outcomes.come-back outcomes.asked-later outcomes.ask-for-a-price
outcomes.declined outcomes.no-charge outcomes.add-on outcomes.at-visit outcomes.choose-one
terms.who terms.what-you-buy-fixed terms.what-you-buy-by-measure terms.price terms.payment terms.late-payment
terms.changes terms.finds terms.if-found terms.schedule terms.access terms.plants terms.what-we-stand-behind
terms.weeds-and-wear terms.substitution terms.color terms.license terms.insurance terms.ending-by-you
terms.ending-by-us terms.leftover-fixed terms.leftover-by-measure terms.offer terms.photographs terms.disputes
terms.your-rights terms.own-material terms.on-hand terms.told-by-eye terms.work-by-the-hour terms.sites
terms.bill-to terms.purchase-order terms.tax-exempt terms.add-ons terms.choose-one terms.visits
terms.photographs-of-the-walk
cautions.digging cautions.trunks-and-siding cautions.total-depth cautions.stone-and-heat cautions.cutting-dust
cautions.lifting cautions.weed-killers cautions.pets cautions.cocoa-hulls cautions.fire
cautions.fabric-under-mulch cautions.plastic-under-mulch cautions.mulch-near-siding cautions.wildfire
cautions.cutting-roots cautions.sharp-objects cautions.stings-and-ivy
""".split()
TAKEN_FOR_GRANTED = """
edging.new-edge substrate.pull-fabric substrate.lay-fabric substrate.strip-old-mulch debris.haul-away
bed_prep.weed-preventer bed_prep.heavy-weeding bed_prep.cut-back extra.shrub-trim
bed_prep.weed-killer bed_prep.dig-out-plants bed_prep.suckers-and-seedlings bed_prep.lift-drip-line
bed_prep.move-lights edging.reset-hard-edging edging.take-out-hard-edging substrate.cut-sod
substrate.fill-and-grade substrate.take-out-stone substrate.pull-plastic substrate.pull-back-from-walls
extra.hedge-trim extra.plant-yours extra.spout-ends
""".split()
KEYS = {
    "clause", "decides", "title", "when", "order", "ways", "needs", "calls_for", "name_if_absent", "wording",
}  # fmt: skip
DECIDING = {name: clause for name, clause in clauses().items() if "decides" in clause}
CONDITIONAL = {name: clause for name, clause in clauses().items() if "when" in clause}
NAMED_IF_ABSENT = {name: clause for name, clause in clauses().items() if "name_if_absent" in clause}
ALLOWED = (
    nodes.Template, nodes.Output, nodes.TemplateData, nodes.Name, nodes.If, nodes.Compare, nodes.Operand,
    nodes.Const,
)  # fmt: skip
# A blank that may be nothing, and the word of `has` that says it is there.
GIVEN_WITH = {
    "license": "license", "insurance": "insurance", "applicator_license": "applicator-license",
    "late_charge": "late-charge", "deposit": "deposit", "po_number": "po-number", "visits": "visits",
    "certificate": "tax-exempt", "bill_to": "bill-to", "on_hand": "on-hand",
}  # fmt: skip


def named(names: dict[str, Any]) -> list[Any]:
    """The values of a mapping as test parameters that carry their names."""
    return [pytest.param(name, value, id=name) for name, value in names.items()]


def test_every_folder_is_there_and_holds_clauses() -> None:
    assert {name.partition(".")[0] for name in clauses()} == set(FOLDERS)


@pytest.mark.parametrize(("name", "clause"), named(clauses()))
def test_a_file_has_the_name_of_its_clause_and_no_strange_key(name: str, clause: dict[str, Any]) -> None:
    assert clause["clause"] == name
    assert clause.keys() <= KEYS
    assert clause["title"]["en"]
    assert all(version.keys() >= {"season", "en"} for version in clause["wording"])
    assert clause["wording"][0]["season"] == 2027


@pytest.mark.parametrize(("name", "ways"), named(EXPECTED))
def test_deciding_clauses_have_their_ways(name: str, ways: set[str]) -> None:
    assert set(clauses()[name]["ways"]) == ways


@pytest.mark.parametrize("name", SAYING)
def test_clauses_that_say_have_one_text(name: str) -> None:
    assert clauses()[name]["wording"][0]["en"].keys() == {"says"}


@pytest.mark.parametrize(("name", "clause"), named(DECIDING))
def test_a_deciding_clause_fits_its_folder(name: str, clause: dict[str, Any]) -> None:
    folder, _, file = name.partition(".")
    assert clause["decides"] == (file if folder == "site" else folder)
    assert clause["ways"] == list(clause["wording"][0]["en"])
    assert set(clause.get("calls_for", [])) <= {*DECISIONS, *SITE_DECISIONS}


def test_every_clause_without_a_decision_lies_in_its_folder() -> None:
    others = {name.partition(".")[0] for name in clauses().keys() - DECIDING.keys()}
    assert others == {"outcomes", "terms", "cautions"}


@pytest.mark.parametrize(("name", "clause"), named(clauses()))
def test_needs_are_the_blanks_of_the_texts(name: str, clause: dict[str, Any]) -> None:
    asked = set().union(*(text.blanks for text in texts() if text.clause == name))
    assert set(clause["needs"]) == asked
    assert len(clause["needs"]) == len(set(clause["needs"]))


@pytest.mark.parametrize("text", texts(), ids=str)
def test_a_text_asks_only_for_blanks_that_it_is_given(text: Text) -> None:
    given = {"outcomes": {"paper", "decision", "outcome"}, "terms": {"paper"}, "cautions": {"paper"}}
    allowed = given.get(text.folder, {"paper", "decision"})
    blanks = facts()["blanks"]
    assert text.blanks <= blanks.keys()
    assert {blanks[blank]["given"] for blank in text.blanks} <= allowed


def test_outcomes_ask_for_few_blanks() -> None:
    asked = set().union(*(text.blanks for text in texts() if text.folder == "outcomes"))
    assert asked <= {"price", "unit_price", "by", "fee", "visit", "choose"}


@pytest.mark.parametrize("text", [text for text in texts() if text.clause in DECIDING], ids=str)
def test_a_text_names_its_beds(text: Text) -> None:
    """Extra work belongs to no bed; every other decision does."""
    assert ("beds" in text.blanks) is (text.folder != "extra")


@pytest.mark.parametrize("text", [text for text in texts() if text.way == "add-on"], ids=str)
def test_an_add_on_says_as_much_as_what_is_included(text: Text) -> None:
    included = next(other for other in texts() if (other.clause, other.way) == (text.clause, "included"))
    # an add-on's material is in its printed price, however the rest is charged
    assert text.blanks == included.blanks - {"tolerance"}


@pytest.mark.parametrize("text", texts(), ids=str)
def test_templates_hold_names_and_simple_conditions_only(text: Text) -> None:
    """Output of names, and `if` on a name or on a name and a word, with no `else`."""
    tree = ENVIRONMENT.parse(text.template)
    assert not [node for node in tree.find_all(nodes.Node) if not isinstance(node, ALLOWED)]
    for condition in tree.find_all(nodes.If):
        assert not condition.else_ and not condition.elif_
        assert isinstance(condition.test, nodes.Name) or [part.op for part in condition.test.ops] == ["eq"]


@pytest.mark.parametrize("text", texts(), ids=str)
def test_a_blank_that_may_be_nothing_leaves_no_hole(text: Text) -> None:
    when = clauses()[text.clause].get("when", {})
    empty = frozenset(
        name
        for name, blank in facts()["blanks"].items()
        if "or nothing" in str(blank) and GIVEN_WITH.get(name) not in when.get("has", [])
    )
    assert len(empty) > 3
    said = text.filled(empty)
    assert "None" not in said
    assert said.endswith(".")


@pytest.mark.parametrize("text", [text for text in texts() if text.folder == "edging"], ids=str)
def test_an_edge_whose_cut_the_price_chart_does_not_give_leaves_no_hole(text: Text) -> None:
    said = text.filled(frozenset({"cut_depth", "cut_width", "strip_width"}))
    assert "None" not in said
    assert "cut is about" not in said


@pytest.mark.parametrize("name", sorted(f"site.{decision}" for decision in SITE_DECISIONS))
def test_a_site_decision_is_never_listed_as_absent(name: str) -> None:
    """Every agreement answers it, so its own text says what is left out."""
    assert "name_if_absent" not in clauses()[name]


@pytest.mark.parametrize(("name", "clause"), named(CONDITIONAL))
def test_conditions_exist(name: str, clause: dict[str, Any]) -> None:
    for key, values in clause["when"].items():
        condition = facts()["conditions"][key]
        assert values and isinstance(values, list)
        if "of" in condition:
            assert set(values) <= set(condition["of"])
        if key == "cautions":
            assert values == [name.removeprefix("cautions.")]


def test_cautions_that_always_print() -> None:
    """People and pets are kept off every job; what mulch does is said wherever mulch is spread."""
    for name in ("pets", "sharp-objects", "stings-and-ivy"):
        assert "when" not in clauses()[f"cautions.{name}"]
    for name in ("trunks-and-siding", "total-depth", "fire"):
        assert clauses()[f"cautions.{name}"]["when"] == {"kinds": ["mulch"]}


@pytest.mark.parametrize("folder", ["terms", "cautions"])
def test_the_printing_order_is_said(folder: str) -> None:
    orders = {name: clause["order"] for name, clause in clauses().items() if name.startswith(f"{folder}.")}
    shared = [name for name, order in orders.items() if list(orders.values()).count(order) > 1]
    assert len(orders) > 10
    # two clauses share a place only where a condition prints one of them
    assert sorted(shared) == sorted(
        f"terms.{pair}-{basis}" for pair in ("what-you-buy", "leftover") for basis in ("fixed", "by-measure")
        if folder == "terms"
    )  # fmt: skip


@pytest.mark.parametrize("name", TAKEN_FOR_GRANTED)
def test_what_a_customer_may_take_for_granted_has_a_name(name: str) -> None:
    assert "name_if_absent" in clauses()[name]


@pytest.mark.parametrize(("name", "clause"), named(NAMED_IF_ABSENT))
def test_names_of_what_is_absent_fit_a_list(name: str, clause: dict[str, Any]) -> None:
    said = clause["name_if_absent"]["en"]
    assert said[0].islower() and not said.endswith(".")
    assert len(said.split()) <= 10
