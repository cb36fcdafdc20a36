"""The agreement of each example says what it said before, word for word."""

from __future__ import annotations

import pytest

from tests.golden import AGREEMENTS, HERE, as_text, document


@pytest.mark.parametrize("name", AGREEMENTS)
def test_agreement_says_the_same(name: str) -> None:
    """A change of wording, figures or order shows here, and is read before it is taken."""
    assert as_text(document(name)) == (HERE / f"{name}.txt").read_text(encoding="utf-8")
