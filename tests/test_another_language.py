"""A language is data files and nothing else: one that no code knows gives a whole paper with no English."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from functools import cache
from html.parser import HTMLParser
from pathlib import Path, PurePath
from typing import Any

import pikepdf
import pytest

from scopegen.build import open_case
from scopegen.case import Case
from scopegen.check import check
from scopegen.findings import Level
from scopegen.papers.document import Document
from scopegen.papers.frame import frame_of
from scopegen.record import recorded_agreement
from scopegen.render import to_html, to_pdf
from scopegen.render.printed import printed_texts
from tests import another_language
from tests.another_language import LANGUAGE, turned

DRAFT = "quarry-lane"
EXAMPLES = ("heron-bend", "cedar-row", "tern-court", DRAFT)
# Latin letters that are no English: signs of units (CLDR has the same in many languages), the citation of a
# federal rule, numbers of an order and an exemption.
NO_WORDS = {"ft", "in", "yd", "lb", "ton", "m", "mm", "kg", "t", "h", "min", "CFR", "Part", "TC", "EX"}
APART = re.compile(r"\S+@\S+|\{\w+\}|[0-9a-f]{4} [0-9a-f]{4} [0-9a-f]{4}")  # an address, a blank, a mark


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """The words and the clause library with the other language in them."""
    folder = tmp_path_factory.mktemp("another")
    return another_language.words_folder(folder), another_language.library(folder)


def opened(folder: Path, example: str, made: tuple[Path, Path]) -> Case:
    words, library = made
    return open_case(another_language.workspace(folder, example), library=library, words=words)


@cache
def _document(folder: Path, example: str, made: tuple[Path, Path]) -> Document:
    case = opened(folder, example, made)
    draft = example == DRAFT
    stops = [f.as_text() for f in check(case).findings if f.level is Level.STOPS]
    assert draft or stops == []
    frame = frame_of(case, case.words, draft=draft)
    return recorded_agreement(frame, PurePath(f"{example}.yaml"))[0]


@pytest.fixture(scope="module", params=EXAMPLES)
def document(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory, made: tuple[Path, Path]
) -> Document:
    """The agreement of an example in the other language."""
    return _document(tmp_path_factory.mktemp("job"), request.param, made)


def english(text: str) -> list[str]:
    """The words in Latin letters that a text should not have."""
    return [word for word in re.findall(r"[A-Za-z]+", APART.sub("", text)) if word not in NO_WORDS]


def test_the_guard_sees_english() -> None:
    """A word that was not turned is found, one that was is not, and blanks stay blanks."""
    assert english("Front walk, 32 ft, office@alderfork.example") == ["Front", "walk"]
    assert english(turned("Front walk, all of it")) == []
    assert (
        turned("of {{ beds }}{% if area %}, {area}{% endif %}")
        == "οφ {{ beds }}{% if area %}, {area}{% endif %}"
    )


def test_composed_agreement_has_no_english(document: Document) -> None:
    """No text of the paper, of its fields' labels or of what travels in it."""
    texts = [*printed_texts(document), *(attached.description for attached in document.attachments)]
    assert len(texts) > 200
    assert [text for text in texts if english(text)] == []


def test_its_pdf_is_in_its_language(document: Document) -> None:
    """/Lang names the language (ISO 32000-1, 14.9.2), and neither the title, the bookmarks, the names of the
    fields nor the texts that stand for drawings and photographs are English."""
    with pikepdf.open(io.BytesIO(to_pdf(document))) as pdf:
        assert str(pdf.Root.Lang) == LANGUAGE
        texts = list(told_texts(pdf))
        assert len(texts) > 10
        assert [text for text in texts if english(text)] == []


def told_texts(pdf: pikepdf.Pdf) -> Iterator[str]:
    """Every text that a reader tells beside the pages themselves."""
    yield str(pdf.docinfo.Title)
    with pdf.open_outline() as outline:
        yield from titles(outline.root)
    for entry in pdf.objects:
        if isinstance(entry, pikepdf.Dictionary):
            for key in ("/TU", "/Alt", "/Desc", "/E", "/ActualText"):
                if key in entry and isinstance(entry[key], pikepdf.String):
                    yield str(entry[key])


def titles(items: Any) -> Iterator[str]:
    for item in items:
        yield item.title
        yield from titles(item.children)


class Texts(HTMLParser):
    """The texts of a page, and the attributes that are read aloud or shown."""

    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.inside = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keeps what an element shows by its attributes."""
        self.inside = tag
        self.texts += [
            value or "" for key, value in attrs if key in ("title", "alt", "aria-label", "data-label")
        ]

    def handle_data(self, data: str) -> None:
        """Keeps text that is no style sheet."""
        if self.inside != "style":
            self.texts.append(data)


def test_its_html_is_in_its_language(document: Document) -> None:
    """The page names the language, and neither its text nor what its parts are called is English."""
    page = to_html(document)
    assert f'<html lang="{LANGUAGE}"' in page
    parser = Texts()
    parser.feed(page)
    assert len(parser.texts) > 200
    assert [text for text in parser.texts if english(text)] == []


@pytest.mark.parametrize(
    ("clause", "path", "said"),
    [
        ("edging.recut", ("wording", 0, LANGUAGE, "included"), "has no wording for 'included' in 'qaa'"),
        ("terms.price", ("wording", 0, LANGUAGE, "says"), "has no wording for 'says' in 'qaa'"),
        ("outcomes.no-charge", ("wording", 0, LANGUAGE), "has no wording for 'says' in 'qaa'"),
        ("edging.recut", ("title", LANGUAGE), "has no title in 'qaa'"),
        ("substrate.cut-sod", ("name_if_absent", LANGUAGE), "has no name_if_absent in 'qaa'"),
    ],
)
def test_a_text_that_the_language_lacks_is_named(
    tmp_path: Path, made: tuple[Path, Path], clause: str, path: tuple[str | int, ...], said: str
) -> None:
    """One wording, title or short name of one clause is missing: the check stops, and says which."""
    words, whole = made
    library = another_language.library_without(whole, tmp_path, clause, *path)
    case = opened(tmp_path, "heron-bend", (words, library))
    found = [f for f in check(case).findings if f.level is Level.STOPS]
    assert {(f.rule, f.message.rpartition(": ")[2]) for f in found} == {
        ("no-wording", f"the clause '{clause}' {said}")
    }
