"""The HTML file: whole in itself, the same text, fit for a phone, a screen reader and a printer."""

import base64
import re
from html.parser import HTMLParser
from io import BytesIO

from fontTools.ttLib import TTFont

from scopegen.render.faces import FACES

from .conftest import SAMPLES
from .paper import squeezed
from .test_pdf_text import texts

DOCUMENT = SAMPLES["10 beds, A4, draft"]


class Read(HTMLParser):
    """The elements with their attributes, the style sheet, and the text of the body."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []
        self.style, self.text = "", ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag not in ("meta", "col", "img", "br", "link", "input"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag  # every element is closed, inside out

    def handle_data(self, data: str) -> None:
        if "style" in self.open:
            self.style += data
        elif "body" in self.open:
            self.text += data


def test_nothing_is_fetched_and_nothing_runs(page: str) -> None:
    read = Read(page)
    assert read.open == [] and len(read.elements) > 300
    for tag, attributes in read.elements:
        assert tag not in ("script", "link", "img", "iframe", "object", "embed", "form", "base")
        for name in attributes:
            assert name not in ("src", "href", "srcset", "style") and not name.startswith("on"), (tag, name)
    addresses = re.findall(r'url\(\s*"?([^")]{0,30})', read.style)
    assert len(addresses) == len(FACES)
    assert all(address.startswith("data:font/woff;base64,") for address in addresses)
    assert "@import" not in read.style and not re.search(r"(https?|file|ftp):", page)
    policy = [a["content"] for t, a in read.elements if a.get("http-equiv") == "Content-Security-Policy"]
    assert policy == ["default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:"]


def test_every_text_is_there_in_its_order(page: str) -> None:
    body, place, seen = squeezed(Read(page).text), 0, 0
    for text in texts(DOCUMENT):
        place = body.find(squeezed(text), place)
        assert place >= 0, text
        place += len(squeezed(text))
        seen += 1
    assert seen > 100
    assert body.startswith("DRAFT")


def test_its_fonts_hold_every_character(page: str) -> None:
    fonts = [
        TTFont(BytesIO(base64.b64decode(d))) for d in re.findall(r"data:font/woff;base64,([^\"]+)", page)
    ]
    held = [set(font.getBestCmap()) for font in fonts]
    needed = {ord(c) for text in texts(DOCUMENT) for c in text}
    assert len(needed) > 60
    for face, characters in zip(FACES, held, strict=True):
        assert needed - characters <= ({0x202F} if face.family == "ScopegenSerif" else set()), face
    assert len(page) < 400_000  # a phone on a poor line


def test_it_says_its_language_title_and_width(page: str) -> None:
    elements = Read(page).elements
    assert page.lstrip().lower().startswith("<!doctype html>")
    assert next(a for t, a in elements if t == "html") == {"lang": "en-US", "dir": "ltr"}
    assert f"<title>{DOCUMENT.title}</title>" in page
    assert any(a.get("name") == "viewport" for t, a in elements if t == "meta")


def test_cells_carry_the_label_that_a_phone_prints_beside_them(page: str) -> None:
    labels = {a["data-label"] for t, a in Read(page).elements if t == "td" and "data-label" in a}
    assert {"Material", "Bed prep", "Edging", "Debris", "Ground underneath", "Amount", "Initials"} <= labels


def test_headings_step_down_one_by_one(page: str) -> None:
    """Web Content Accessibility Guidelines 2.2, technique G141."""
    levels = [int(t[1]) for t, _ in Read(page).elements if re.fullmatch("h[1-6]", t)]
    assert levels[0] == 1 and levels.count(1) == 1 and len(levels) > 10
    assert all(after - before <= 1 for before, after in zip(levels, levels[1:], strict=False))
