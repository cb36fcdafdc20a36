"""An invented agreement with every kind of block, in any number of beds."""

from __future__ import annotations

from datetime import date
from typing import Literal

from scopegen.papers.document import (
    Document,
    Masthead,
)

from .front import bed_name, front
from .legal import STATEMENT, notice, signing, terms
from .money import add_ons, price
from .work import before, left_out, work

__all__ = ["STATEMENT", "add_ons", "agreement", "bed_name", "notice", "price", "signing", "terms"]


def agreement(
    beds: int = 10,
    page_size: Literal["letter", "A4"] = "letter",
    draft: str = "",
    title: str = "Bed work at 18 Heron Bend",
) -> Document:
    """The sample. A draft leaves a place to write in wherever the word of a cell is not decided."""
    return Document(
        kind="agreement",
        title=title,
        subtitle="Agreement 2027-014 between Alder & Finch Bed Works and Rosalind Quayle",
        language="en-US",
        page_size=page_size,
        masthead=Masthead(
            "Alder & Finch Bed Works",
            (
                "402 Mill Lane, Tarnbrook, CT 06999",
                "(203) 555-0148 · office@alderfinch.example.org",
                "HIC.0000000",
            ),
        ),
        running_head="Alder & Finch Bed Works · Agreement 2027-014 · 18 Heron Bend",
        page_of="Page {page} of {pages}",
        dated=date(2027, 3, 1),
        sections=(
            front(beds, bool(draft)),
            work(bool(draft)),
            left_out(),
            before(),
            add_ons(),
            price(),
            terms(),
            signing(),
            notice(1),
            notice(2),
        ),
        draft=draft,
    )
