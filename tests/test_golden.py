"""The agreement of each example says what it said before, word for word."""

from __future__ import annotations

import pytest

from tests.golden import AGREEMENTS, EXAMPLES, HERE, as_text, document, lock


@pytest.mark.parametrize("name", AGREEMENTS)
def test_agreement_says_the_same(name: str) -> None:
    """A change of wording, figures or order shows here, and is read before it is taken."""
    assert as_text(document(name)) == (HERE / f"{name}.txt").read_text(encoding="utf-8")


def test_what_the_examples_put_on_paper_is_on_record() -> None:
    """Wording of the examples that changes shows here too; a contractor would write a new version."""
    assert lock() == (EXAMPLES / "clauses.lock").read_text(encoding="utf-8")
