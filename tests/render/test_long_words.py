"""Words that no column holds: broken inside their own column, on paper and on a phone."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pymupdf
import pytest

from scopegen.papers.document import Document
from scopegen.render import to_html, to_pdf
from scopegen.render.styles import sheet
from tests.jobs import agreement

from .long_words import lengthened

WIDEST = "WM"  # the two widest letters
LEFT, RIGHT, FOOT = 54, 54, 18  # points: the side margins, and what must stay free below the foot


def words_of(page: Any) -> list[tuple[tuple[float, float, float, float], str]]:
    """The boxes of a page's words, but for those that a drawing turns: a box says little of them."""
    flags = pymupdf.TEXTFLAGS_WORDS
    turned = {
        (block["number"], number)
        for block in page.get_text("dict", flags=flags)["blocks"]
        for number, line in enumerate(block.get("lines", ()))
        if line["dir"] != (1.0, 0.0)
    }
    found = page.get_text("words", flags=flags)
    return [(tuple(word[:4]), word[4]) for word in found if tuple(word[5:7]) not in turned]


def overlap(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    """Whether two boxes share more than a point across and half of a line down: a line's own box is taller
    than its letters."""
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return across > 1 and down > 0.5 * min(one[3] - one[1], other[3] - other[1])


@pytest.mark.parametrize(
    ("job", "letters", "draft"),
    [
        ("heron-bend", 80, False),
        ("cedar-row", 80, False),
        ("tern-court", 80, False),
        ("quarry-lane", 80, True),
        ("heron-bend", 40, False),
    ],
)
def test_nothing_leaves_the_page_or_lies_over_anything(
    tmp_path: Path, job: str, letters: int, draft: bool
) -> None:
    """Every word of the paper inside its margins, and none over another one, the page's foot included."""
    document = agreement(lengthened(tmp_path / "jobs", job, WIDEST * (letters // 2)), draft=draft)
    assert letters_in_place(document) > 100


def test_names_longer_than_a_page_go_on_overleaf(tmp_path: Path) -> None:
    """Of who sells and who buys: nothing else of the paper is as narrow and as long."""
    document = agreement(lengthened(tmp_path / "jobs", "tern-court", WIDEST * 300))
    assert letters_in_place(replace(document, sections=document.sections[:1])) > 100


def letters_in_place(document: Document) -> int:
    """How many pieces of a long word the paper has, each in its place."""
    paper = pymupdf.open(stream=to_pdf(document))
    seen = 0
    for number, page in enumerate(paper, 1):
        words = words_of(page)
        for box, text in words:
            inside = box[0] > LEFT - 1 and box[2] < page.rect.width - RIGHT + 1
            assert inside and box[3] < page.rect.height - FOOT, (number, box, text)
            seen += WIDEST * 3 in text
        for place, one in enumerate(words):
            over = [other for other in words[place + 1 :] if overlap(one[0], other[0])]
            assert not over, (number, one, over)
    return seen


def test_a_name_is_whole_on_the_paper_and_cut_in_the_foot(tmp_path: Path) -> None:
    """What is broken over lines loses no letter."""
    word = "Quince" * 20
    path = lengthened(tmp_path / "jobs", "heron-bend", word)
    paper = pymupdf.open(stream=to_pdf(agreement(path)))
    text = "".join("".join(page.get_text() for page in paper).split())
    assert f"AlderForkGrounds{word}" in text and f"RosaEjemplo{word}" in text and f"Frontwalk{word}" in text
    cut = "".join(f"Alder Fork Grounds {word}"[:59].split())
    assert text.count(f"{cut}…for") >= len(paper)


def test_on_a_screen_each_long_word_may_be_broken(tmp_path: Path) -> None:
    """Else a phone of 390 pixels would scroll sideways (WCAG 2.2, 1.4.10). Words of the trade stay whole."""
    word = WIDEST * 40
    page = to_html(agreement(lengthened(tmp_path / "jobs", "heron-bend", word)))
    body = re.sub(r"(?s)<svg.*?</svg>", "", page.partition("<body>")[2])
    shown = re.sub(r"<[^>]*>", lambda tag: "" if word in tag[0] else tag[0], body)  # attributes are not drawn
    assert shown.count(word) > 100
    assert shown.count(word) == len(re.findall(rf'<span class="long">[^<\s]*{word}[^<\s]*</span>', shown))
    assert ".long { overflow-wrap: anywhere }" in page and ".long { overflow-wrap: anywhere }" in sheet(
        "look"
    )
    long = re.findall(r'<span class="long">([^<]*)</span>', shown)
    assert all(len(text) >= 20 for text in long)
