"""Terms and cautions print where their conditions hold and nowhere else; every condition is tried."""

from __future__ import annotations

from typing import Any

import pytest

from tests.clause_library.library import clauses, facts
from tests.clause_library.test_reached import EYE, HOURS, SAID, assert_whole
from tests.clause_library.worked_out import worked_out

CONDITIONAL = {name: clause["when"] for name, clause in clauses().items() if "when" in clause}
YOURS = {"decided": "included", "use": "hardwood", "depth": "2 in", "supplied_by": "customer", "by": "start"}
SPREAD = {"materials": {"hardwood": {"spread_only": "45.00"}}}
PILE = {"use": "hardwood", "amount": "1 yd3", "spot": "the shed"}
ADD_ON = {"decided": "add-on", "work": "pull-fabric"}
VISITS = [
    {"name": name, "start": {"within": span}} for name, span in (("spring", "2 weeks"), ("fall", "30 weeks"))
]
# A job for each word of `has`, laid over one that lacks it.
HAS: dict[str, dict[str, Any]] = {
    "add-ons": {"job": {"beds": [{"substrate": ADD_ON}]}},
    "customer-work": {"job": {"beds": [{"edging": {"decided": "customer", **SAID["customer"]}}]}},
    "no-charge": {"job": {"beds": [{"bed_prep": {"decided": "no-charge", "work": "hand-weed"}}]}},
    "if-found": {"job": {"if_found": [{"what": "roots", "work": "cut-roots", "not_over": "90.00"}]}},
    "deposit": {},
    "tax": {},
    "delivery": {},
    "exclusions": {},
    "late-charge": {},
    "license": {"company": {"license": "registration 00-0001"}},
    "insurance": {"company": {"insurance": "general liability"}},
    "applicator-license": {"company": {"applicator_license": "PA-5550"}},
    "choose-one": {"job": {"beds": [{"substrate": {**ADD_ON, "choose_one": "ground"}}]}},
    "photographs": {"job": {"beds": [{"photos": ["front.jpg"]}]}},
    "hourly-limit": {"job": {"extras": [
        {"work": "shrub-trim", "decided": "included", **HOURS, "not_over": "300.00"},
    ]}},
    "visits": {"job": {"visits": VISITS}},
    "sites": {"job": {"sites": [{"name": "Left", "property": "1 Ruler Road", "bill_to": "Pat Sample",
                                 "beds": ["Front bed"], "hauling": "100 %"}]}},
    "po-number": {"job": {"customer": {"po_number": "PO-1"}}},
    "tax-exempt": {"job": {"customer": {"tax_exempt": {"certificate": "EX-1"}}}},
    "bill-to": {"job": {"customer": {"bill_to": ["Accounts", "PO Box 00"]}}},
    "on-hand": {"job": {"on_hand": PILE}, "chart": SPREAD},
    "own-material": {"job": {"beds": [{"material": YOURS}]}, "chart": SPREAD},
    "stated-volume": {"job": {"beds": [{"shape": EYE, "outline": "20 ft", "against": "(left out)",
                                        "material": {"use": "hardwood"}}]}},
}  # fmt: skip
LACKS: dict[str, dict[str, Any]] = {
    "deposit": {"job": {"payments": {"rest": "on completion"}}},
    "tax": {"job": {"beds": [{"material": {"decided": "excluded"}}]}},
    "delivery": {"job": {"beds": [{"material": {"decided": "excluded"}}]}},
    "exclusions": {"job": {"site": {
        decision: {"decided": "included"}
        for decision in ("irrigation-and-lighting", "drains-and-slope", "movables-and-pets", "care-after")
    }}},
    "late-charge": {"company": {"terms": {"late_payment": {"after": "10 days", "charge": "(left out)"}}}},
}  # fmt: skip


def test_each_word_of_has_is_tried() -> None:
    assert HAS.keys() == set(facts()["conditions"]["has"]["of"])


@pytest.mark.parametrize("word", HAS)
def test_each_word_of_has_holds_where_it_is_so_and_nowhere_else(word: str) -> None:
    assert word in worked_out(HAS[word])[1]["has"]
    assert word not in worked_out(LACKS.get(word, {}))[1]["has"]


def job_where(key: str, value: str) -> dict[str, Any]:
    """A job in which a condition has a value."""
    match key:
        case "has":
            return HAS[value]
        case "cautions":
            return {"chart": {"work": {"hand-weed": {"cautions": [value]}}}}
        case "basis":
            return {"job": {"price_basis": value, "tolerance": "10 %"}}
        case "state":
            return {"job": {"customer": {"state": value}}}
    return {}  # mulch is spread in the sound job


@pytest.mark.parametrize("name", [name for name in clauses() if name.startswith(("terms.", "cautions."))])
def test_every_term_and_caution_is_printed_where_it_should_be(name: str) -> None:
    over: dict[str, Any] = {}
    for key, values in CONDITIONAL.get(name, {}).items():
        over |= job_where(key, values[0])
    chosen, held = worked_out(over)
    (term,) = [term for term in (*chosen.terms, *chosen.cautions) if term.clause == name]
    assert_whole(term.text)
    assert all(held[key] & set(values) for key, values in CONDITIONAL.get(name, {}).items())


@pytest.mark.parametrize("name", [name for name in CONDITIONAL if CONDITIONAL[name] != {"kinds": ["mulch"]}])
def test_no_term_or_caution_is_printed_where_its_condition_does_not_hold(name: str) -> None:
    over: dict[str, Any] = {}
    if CONDITIONAL[name] == {"basis": ["fixed"]}:
        over = job_where("basis", "by measure")
    if CONDITIONAL[name] == {"cautions": ["digging"]}:
        over = {"chart": {"work": {"recut-edge": {"cautions": []}}}}
    for word in CONDITIONAL[name].get("has", []):
        over |= LACKS.get(word, {})
    chosen, _ = worked_out(over)
    assert name not in {term.clause for term in (*chosen.terms, *chosen.cautions)}


@pytest.mark.parametrize(
    "job",
    [
        {"beds": [{"bed_prep": {"decided": "customer", "work": "hand-weed", **SAID["customer"]}}]},
        {
            "beds": [{"bed_prep": {"decided": "excluded"}}],
            "if_found": [{"what": "weeds", "work": "hand-weed", "call_first": True}],
        },
    ],
)
def test_work_that_the_customer_does_or_that_may_be_found_is_warned_of_too(job: dict[str, Any]) -> None:
    over = {"job": job, **job_where("cautions", "cutting-roots")}
    assert "cautions.cutting-roots" in {term.clause for term in worked_out(over)[0].cautions}
    left = {"job": {"beds": [{"bed_prep": {"decided": "excluded", "work": "hand-weed"}}]}}
    assert "cutting-roots" not in worked_out({**over, **left})[1]["cautions"]


def test_shapes_and_state_are_known() -> None:
    """`eye` is a bed told by its volume; a job may have both sorts."""
    told = HAS["stated-volume"]["job"]["beds"][0]
    held = worked_out({"job": {"beds": [{}, {"name": "Told", **told}]}})[1]
    assert held["shapes"] == {"eye", "measured"}
    assert held["state"] == frozenset()
    assert worked_out({"job": {"customer": {"state": "MA"}}})[1]["state"] == {"MA"}
