"""Where pages end: no heading at the foot, no lone row, no torn total, no page half empty."""

from dataclasses import replace
from functools import cache

import pytest

from scopegen.papers.document import Cell, Column, Document, Paragraph, Row, Section, Table
from scopegen.render import to_pdf

from .paper import FOOT, Paper
from .sample import add_ons, agreement, notice, price, signing, terms


def heading_pieces(paper: Paper, page: int) -> list[float]:
    """The base lines of a page's headings: all serif type but the first page's titles and figures."""
    return [p.y for p in paper.pages[page] if p.family == "ScopegenSerif"]


def test_no_heading_is_the_last_thing_on_a_page(sample: tuple[Document, Paper]) -> None:
    paper = sample[1]
    headings = 0
    for number, page in enumerate(paper.pages):
        lowest = min(piece.y for piece in page)
        for base in heading_pieces(paper, number):
            headings += 1
            assert base > lowest + 12
    assert headings > 8


def test_each_notice_has_a_page_of_its_own(sample: tuple[Document, Paper]) -> None:
    paper = sample[1]
    starts = [page for page in paper.pages if page[0].text == "Notice of Cancellation"]
    assert len(starts) == 2
    for page in starts:
        assert page[-1].text == "This form follows a federal rule. It is no legal advice."
    assert sum(p.text == "Notice of Cancellation" for p in paper.body) == 2


@pytest.mark.parametrize("page_size", ["letter", "A4"])
def test_a_notice_a_fifth_longer_still_fits_its_page(page_size: str) -> None:
    """Spanish needs about a fifth more room than English (common practice of translators, no source)."""
    form = notice(1)
    longer = tuple(
        replace(block, text=f"{block.text} {block.text[: len(block.text) // 5]}")
        if isinstance(block, Paragraph)
        else block
        for block in form.blocks
    )
    document = replace(agreement(page_size=page_size), sections=(replace(form, blocks=longer),))
    paper = Paper(to_pdf(document))
    assert [page[0].text for page in paper.pages] == ["Alder & Finch Bed Works", "Notice of Cancellation"]
    assert paper.pages[1][-1].y > FOOT


def test_no_page_is_half_empty_but_before_a_notice(sample: tuple[Document, Paper]) -> None:
    document, paper = sample
    height = float(paper.reader.pages[0].mediabox.height)
    middle = FOOT + (height - FOOT - 54) / 2
    pairs = [(a, b) for a, b in zip(paper.pages, paper.pages[1:], strict=False) if "Notice" not in b[0].text]
    for page, _ in [pair for pair in pairs if "Notice" not in pair[0][0].text]:
        assert min(piece.y for piece in page) < middle, page[0].text


ROWS = tuple(Row((Cell(f"Line {n}"), Cell(f"${n}.00"))) for n in range(1, 13))
CLOSING = (
    Row((Cell("Before tax"), Cell("$78.00")), "subtotal"),
    Row((Cell("In all"), Cell("$78.00")), "total"),
)
LONG = Table("Lines", (Column("What"), Column("Amount", True)), ROWS + CLOSING, "price", show_caption=True)
SHORT = Table("Few", (Column("What"), Column("Amount", True)), ROWS[:4], show_caption=True)


@cache
def pushed_down(lines: int) -> Paper:
    """Tables, choices, terms and signatures after a number of short paragraphs."""
    filler = Section("filler", "Filler", tuple(Paragraph("A line.", "small") for _ in range(lines)), "0")
    tables = Section(
        "tables", "Tables", (Section("in", "Inner", (LONG,), "1.1"), Paragraph("Few follow."), SHORT), "1"
    )
    return Paper(
        to_pdf(replace(agreement(), sections=(filler, tables, add_ons(), terms(), price(), signing())))
    )


@pytest.mark.parametrize("lines", range(0, 24, 3))
def test_wherever_a_page_ends(lines: int) -> None:
    """What stands above decides where a page ends; whatever that is, what belongs together stays together."""
    paper = pushed_down(lines)
    where = {text: paper.find(text)[0].page for text in (
        "1 Tables", "1.1 Inner", "Lines", "Line 1", "Line 2", "Line 11", "Line 12", "Before tax", "In all",
        "Few follow.", "Few", "4 Add-ons", "Spade edge at the Mailbox island", "6 Terms", "When we come",
        "5 The price", "River stone, spread", "Payments", "7 Signatures", "Agreement", "Rosalind Quayle",
    )}  # fmt: skip
    assert len({where[t] for t in ("1 Tables", "1.1 Inner", "Lines", "Line 1", "Line 2")}) == 1
    assert len({where[t] for t in ("Line 11", "Line 12", "Before tax", "In all")}) == 1
    assert len({where[t] for t in ("4 Add-ons", "Spade edge at the Mailbox island")}) == 1
    assert len({where[t] for t in ("6 Terms", "When we come")}) == 1
    assert len({where[t] for t in ("5 The price", "River stone, spread")}) == 1
    assert len({where[t] for t in ("7 Signatures", "Agreement", "Rosalind Quayle")}) == 1
    few = [
        p.page for p in paper.body[paper.body.index(paper.find("Few follow.")[0]) :][: 1 + 1 + 2 + 8]
    ]  # text, caption, header, four rows
    assert len(set(few)) == 1
    for clause in terms().blocks:
        caption = paper.body.index(paper.find(clause.lead_in)[-1])
        first, second = paper.body[caption + 1 : caption + 3]
        assert paper.body[caption].page == first.page == second.page
        assert paper.body[caption].x == first.x == second.x  # the same column
    assert all(piece.y > FOOT for piece in paper.body)


def test_a_text_longer_than_a_page_goes_on_overleaf() -> None:
    text = " ".join(f"Word{n}" for n in range(1500))
    document = replace(
        agreement(), sections=(Section("a", "Long", (Paragraph(text, lead_in="Beside it"),), "1"),)
    )
    paper = Paper(to_pdf(document))
    assert len(paper.pages) >= 3
    words = [word for piece in paper.body for word in piece.text.split() if word.startswith("Word")]
    assert words == text.split()


def test_long_words_stay_in_their_cells() -> None:
    word = "Donaudampfschifffahrtsgesellschaftskapitaensbeet"
    columns = tuple(Column(label) for label in ("Bed", "One", "Two", "Three", "Four", "Five"))
    table = Table(
        "Long", columns, tuple(Row(tuple(Cell(word, (word,)) for _ in range(6))) for _ in range(3)), "scope"
    )
    paper = Paper(to_pdf(replace(agreement(), sections=(Section("a", "A", (table,)),))))
    header = (
        paper.find("Bed")[0],
        *(paper.find(label)[0] for label in ("One", "Two", "Three", "Four", "Five")),
    )
    lefts = [piece.x for piece in header] + [612 - 54]
    cells = [p for p in paper.body if p.text.strip() and p.text.strip() in word]
    assert len(cells) >= 3 * 6 * 2 * 2
    for piece in cells:
        column = max(n for n in range(6) if lefts[n] <= piece.x + 0.5)
        assert piece.right <= lefts[column + 1]
