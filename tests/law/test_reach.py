"""Which sales the pages of the states reach: purpose, price to the cent, and place of signing."""

from __future__ import annotations

import pytest

from scopegen.case import Case
from tests.law.pages import LAWS, STATES, sold

# The thresholds where the law was seen: 73 P.S. 517.2; N.J.S.A. 56:8-151; Massachusetts General Laws chapter
# 142A, section 2(a); 815 ILCS 513; 10 M.R.S. 1487: each 'more than'. The others are taken to reach any price.
ABOVE = {"PA": "500", "NJ": "500", "MA": "1000", "IL": "1000", "ME": "3000"}


@pytest.mark.parametrize(("state", "price"), ABOVE.items())
def test_law_reaches_only_above_its_price(case: Case, state: str, price: str) -> None:
    """Just under, at, and just over."""
    assert [len(sold(case, state, f"{int(price) - 1}.99")[1]), len(sold(case, state, f"{price}.00")[1])] == [
        0,
        0,
    ]
    _, pages = sold(case, state, f"{price}.01")
    assert pages == (STATES[state],)


@pytest.mark.parametrize("state", sorted(set(STATES) - set(ABOVE)))
def test_law_without_a_sure_price_reaches_any(case: Case, state: str) -> None:
    """What was not seen leaves nobody out."""
    assert sold(case, state, "1.00")[1] == (STATES[state],)


@pytest.mark.parametrize("state", sorted(STATES))
def test_business_is_not_reached(case: Case, state: str) -> None:
    """Each of these laws is about a home."""
    rights, pages = sold(case, state, "9000.00", purpose="business", signed_at="customer's home")
    assert (rights.rights, pages) == ((), ())


@pytest.mark.parametrize("state", [None, "VA", "ST"])
def test_job_elsewhere_is_reached_by_the_federal_rule_alone(case: Case, state: str | None) -> None:
    """A state without a page, and none at all."""
    rights, pages = sold(case, state, "9000.00", signed_at="customer's home")
    assert [right.law.law for right in rights.rights] == ["us-federal-cooling-off"]
    assert pages == ()


# Maryland Commercial Law 14-301(d): 25 dollars or more, away from the seller's place of business. Connecticut
# General Statutes 20-429: the contract counts as a home solicitation sale, wherever it is signed.
@pytest.mark.parametrize(
    ("state", "place", "price", "cited"),
    [
        ("MD", "customer's home", "24.99", []),
        ("MD", "customer's home", "25.00", ["us-federal-cooling-off", "us-md"]),
        ("MD", "a fair", "129.99", ["us-md"]),
        ("MD", "a fair", "130.00", ["us-federal-cooling-off", "us-md"]),
        ("MD", "our office", "9000.00", []),
        ("CT", "our office", "9000.00", ["us-ct"]),
        ("CT", "customer's home", "9000.00", ["us-ct", "us-federal-cooling-off"]),
        ("CA", "our office", "9000.00", []),
        ("CA", "remotely", "24.99", ["us-ca"]),
        ("PA", "customer's home", "9000.00", ["us-federal-cooling-off"]),
    ],
)
def test_rights_by_place_and_price(case: Case, state: str, place: str, price: str, cited: list[str]) -> None:
    """The federal right and the state's, each by its own measure."""
    rights, _ = sold(case, state, price, signed_at=place)
    assert [right.law.law for right in rights.rights] == cited
    assert (rights.given is None) is (not cited)


def test_pages_are_whole_in_both_languages() -> None:
    """Every text of a page has English and Spanish, list by list of the same length, and every page of a
    state says what counts, where that stands and what is not known."""
    assert sorted(STATES) == ["CA", "CT", "IL", "MA", "MD", "ME", "NJ", "NY", "PA"]
    both = {"en", "es"}
    for law in LAWS:
        texts = [law.jurisdiction]
        texts += [law.counts.because] if law.counts else []
        texts += [notice.what for notice in law.shows.notices] if law.shows else []
        texts += [text for said in law.says.values() for text in (said.title, said.text)]
        assert all(set(text) == both for text in texts), law.law
        for lists in (law.also, law.not_known):
            assert set(lists) in (set(), both), law.law
            assert len({len(each) for each in lists.values()}) < 2, law.law
        if law.cancel:
            assert set(law.cancel.statement) in (set(), both)
            assert set(law.cancel.acknowledged) in (set(), both)
        if law.state:
            assert law.not_known and law.counts and law.looks_to and law.addresses


def test_wording_that_was_seen_at_second_hand_is_not_there() -> None:
    """New Jersey's notice has to be got from the state."""
    page = STATES["NJ"]
    assert page.says == {} and page.cancel is None
    assert any("not printed here; get it from the state" in each for each in page.not_known["en"])
