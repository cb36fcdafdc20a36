"""The pages as plain values, in both languages."""

from __future__ import annotations

import pytest

from scopegen.law import jurisdictions
from tests.law.pages import LAWS, STATES


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_jurisdiction_is_listed_with_what_it_asks(language: str) -> None:
    """The one that holds everywhere first; each with sentences, citations and addresses."""
    listed = jurisdictions(LAWS, language)
    assert len(listed) == len(LAWS) and listed[0].state is None
    assert {each.state for each in listed[1:]} == set(STATES)
    for each in listed:
        page = next(law for law in LAWS if law.law == each.law)
        told = " ".join(each.asks)
        assert each.asks and each.addresses == page.addresses and each.looked_at == page.looked_at
        assert all(part in told for part in page.looks_to.split("; "))
        assert "{" not in told and "None" not in told
        assert len(each.not_known) == len(page.not_known.get(language, ()))


def test_what_maryland_asks() -> None:
    """Ceiling, days and what the contract shows, each with where it stands."""
    (maryland,) = (each for each in jurisdictions(LAWS) if each.state == "MD")
    told = "\n".join(maryland.asks)
    assert "no more than 1/3 of the price may be due (Maryland Business Regulation 8-617(b))." in told
    assert "within 5 business days, and within 7 if they are 65 or older" in told
    assert "your license or registration number and when the work is to be done" in told
    assert "what is signed at the customer's home, from $25.00 on" in told


def test_what_is_not_sure_is_said_to_be() -> None:
    """Pennsylvania's ceiling was seen at second hand."""
    (pennsylvania,) = (each for each in jurisdictions(LAWS) if each.state == "PA")
    (ceiling,) = (each for each in pennsylvania.asks if "517.9(10)" in each)
    assert ceiling.endswith("Ask before you rely on it.")
    assert "It is not sure that bed work counts." in pennsylvania.asks[0]
