"""Sizes, weights, margins and line lengths, measured on the finished paper."""

from dataclasses import replace

import pytest

from scopegen.papers.document import Document, Paragraph, Section, Signatures, walk
from scopegen.render import to_pdf

from .paper import FOOT, Paper
from .sample import STATEMENT, agreement

# plain prose to measure lines with, about 150 words
PROSE = (
    "We come on the day that stands on the first page. If we cannot, we call you the day before and agree "
    "on another. You need not be at home, but the gate has to be open and the water on. Rain stops the "
    "work when the ground gets so wet that walking on it would harm it. The days lost are added to the "
    "end, and you owe nothing for a day on which we did not work. Our people carry a card with the name of "
    "the firm. Nobody else works on your ground for us without your knowing. We take away what we dig out "
    "and leave the beds raked. What we find under the mulch that nobody could see we show you first, and "
    "we go on only when both of us have signed what it costs. "
)


def test_no_type_is_under_8_points(sample: tuple[Document, Paper]) -> None:
    """Connecticut's test of plain language, Conn. Gen. Stat. 42-152 (from memory)."""
    assert min(piece.size for piece in sample[1].pieces) >= 8


def test_half_an_inch_is_left_at_every_edge(sample: tuple[Document, Paper]) -> None:
    """36 points; Conn. Gen. Stat. 42-152 (from memory).

    Letters hang under their line by a quarter of the size.
    """
    box = sample[1].reader.pages[0].mediabox
    for piece in sample[1].pieces:
        assert piece.x >= 36 and piece.right <= float(box.width) - 36, piece
        assert piece.y - piece.size / 4 >= 36 and piece.y + piece.size <= float(box.height) - 36, piece


def test_page_sizes(sample: tuple[Document, Paper]) -> None:
    """US Letter is 8 1/2 by 11 inches; A4 is 210 by 297 mm (ISO 216)."""
    document, paper = sample
    width, height = {"letter": (8.5 * 72, 11 * 72), "A4": (210 / 25.4 * 72, 297 / 25.4 * 72)}[
        document.page_size
    ]
    for page in paper.reader.pages:
        assert float(page.mediabox.width) == pytest.approx(width, abs=0.01)
        assert float(page.mediabox.height) == pytest.approx(height, abs=0.01)


def test_prescribed_wording_is_bold_and_at_least_10_points(sample: tuple[Document, Paper]) -> None:
    """16 CFR 429.1(a) for the statement at the signature, 429.1(b) for the notice."""
    document, paper = sample
    wordings = [b.statement for _, b in walk(document) if isinstance(b, Signatures)]
    wordings += [
        b.text
        for section, b in walk(document)
        if section.role == "notice" and isinstance(b, Paragraph) and b.role == "statement"
    ]
    assert len(wordings) == 13
    for wording in wordings:
        for piece in paper.find(wording):
            assert piece.weight == 700 and piece.size >= 10


def test_captions_of_sections_are_bold_and_at_least_10_points(sample: tuple[Document, Paper]) -> None:
    """Conn. Gen. Stat. 42-152 (from memory). The semibold faces stand for bold here."""
    document, paper = sample
    for section in document.sections[1:]:
        for piece in paper.find(f"{section.number} {section.title}"):
            assert piece.weight >= 600 and piece.size >= 10
    terms = next(s for s in document.sections if s.role == "terms")
    for clause in terms.blocks:
        for piece in paper.find(clause.lead_in):
            assert piece.weight >= 600 and piece.size >= 10


@pytest.mark.parametrize("page_size", ["letter", "A4"])
@pytest.mark.parametrize("role", ["plain", "terms", "notice"])
def test_prose_has_lines_and_gaps_that_read_well(role: str, page_size: str) -> None:
    """At most 65 characters a line on average, 3/16 inch (13.5 points) between paragraphs; Conn. Gen. Stat.
    42-152 (from memory). The gap is measured between the letters' boxes, the size high."""
    paragraphs = tuple(Paragraph(PROSE, r) for r in ("plain", "statement", "plain", "plain"))
    document = replace(agreement(page_size=page_size), sections=(Section("a", "A", paragraphs, "1", role),))
    lines = [p for p in Paper(to_pdf(document)).body if p.page == 1 or role == "notice"]
    lines = lines[lines.index(next(p for p in lines if p.text.startswith("We come"))) :]
    assert len(lines) > 20
    assert 45 <= sum(len(line.text.strip()) for line in lines) / len(lines) <= 65
    gaps = [
        above.y - below.y - below.size
        for above, below in zip(lines, lines[1:], strict=False)
        if below.text.startswith("We come on the day") and above.x == below.x and above.y > below.y
    ]
    assert gaps and min(gaps) >= 13.5


def test_figures_of_a_column_end_on_one_line_and_have_one_width(paper) -> None:
    ten = paper("10 beds, Letter")
    price = next(page for page in ten.pages if any(p.text.strip() == "The price" for p in page))
    amounts = [p for p in price if p.text in ("$1,416.00", "$574.00", "$2,108.00", "$1,050.00", "$418.47")]
    assert len(amounts) == 5
    assert max(p.right for p in amounts) - min(p.right for p in amounts) < 0.5
    assert amounts[0].right == pytest.approx(612 - 54, abs=0.5)


def test_signatures_stand_on_the_page_of_the_statement(sample: tuple[Document, Paper]) -> None:
    document, paper = sample
    statement = paper.find(STATEMENT)
    page = statement[0].page
    place = paper.body.index(statement[-1])
    for text in ("Customer", "Rosalind Quayle", "Contractor", "Matthias Finch, for Alder & Finch Bed Works"):
        found = paper.find(text, paper.body[place:])[0]
        assert found.page == page and 0 < statement[-1].y - found.y < 60
    lines = [p for p in paper.body[place:] if p.page == page and p.text == "Signature"]
    assert len(lines) == 2 and lines[0].y == lines[1].y  # side by side


def test_the_foot_stays_in_the_bottom_margin(sample: tuple[Document, Paper]) -> None:
    assert all(piece.y > FOOT + 2 for piece in sample[1].body)
