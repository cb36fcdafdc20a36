"""The one kind of value that every paper is composed as, before any HTML is made.

A document is numbered sections of paragraphs, tables, choices and places to sign. All text in it is
plain text: no mark-up, nothing to escape. Papers compose it, `render` draws it, tests read it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from scopegen.drawing import Drawing

ParagraphRole = Literal["plain", "lead", "small", "strong", "caution", "statement", "open"]


@dataclass(frozen=True, slots=True)
class Paragraph:
    """One paragraph. `statement` is prescribed legal wording (bold, at least 10 points);
    `open` names a decision that a draft leaves to be filled in by hand."""

    text: str
    role: ParagraphRole = "plain"
    lead_in: str = ""  # a few bold words before the text, such as the beds or the clause's title


@dataclass(frozen=True, slots=True)
class Items:
    """A list without numbers."""

    entries: tuple[Paragraph, ...]


@dataclass(frozen=True, slots=True)
class Fact:
    """A label and what stands beside it; each line of `lines` on a line of its own."""

    label: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Facts:
    """Labels and values, set in columns where there is room."""

    entries: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class Glance:
    """The few large figures of the first page: (label, figure, note) each."""

    entries: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class Column:
    """A table column. `figures` columns are right-aligned with figures of one width."""

    label: str
    figures: bool = False
    width: Literal["", "narrow", "wide"] = ""


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: its main words, then smaller lines under them. `blank` is a place to write in by hand."""

    text: str
    notes: tuple[str, ...] = ()
    blank: bool = False


RowRole = Literal["plain", "less", "subtotal", "total"]


@dataclass(frozen=True, slots=True)
class Row:
    """One table row; its first cell is the row's header where the table says so."""

    cells: tuple[Cell, ...]
    role: RowRole = "plain"


@dataclass(frozen=True, slots=True)
class Table:
    """A table. `role` tells the scope table (a word in every cell) from tables of quantities and prices."""

    caption: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    role: Literal["plain", "scope", "price"] = "plain"
    row_headers: bool = True
    show_caption: bool = False


@dataclass(frozen=True, slots=True)
class Choice:
    """Something the customer decides with a pen: a box to tick, a description, a price, initials.

    Without a price it is an acknowledgement: initials only, no box.
    """

    title: str
    text: str
    price: str = ""


@dataclass(frozen=True, slots=True)
class Choices:
    """Choices under one heading; `box`, `initials` and `price` are the labels over those places."""

    entries: tuple[Choice, ...]
    box: str
    initials: str
    price: str


@dataclass(frozen=True, slots=True)
class Blank:
    """A labelled line for a `kind` of entry by hand; `filled` where the value is known."""

    label: str
    filled: str = ""
    size: Literal["short", "long"] = "long"
    kind: Literal["text", "date", "initials", "signature"] = "text"


@dataclass(frozen=True, slots=True)
class Blanks:
    """Blanks one under the other."""

    entries: tuple[Blank, ...]


@dataclass(frozen=True, slots=True)
class Signer:
    """Who signs: the party's role, the printed name, and the labels of the lines (signature, date …)."""

    role: str
    name: str
    lines: tuple[Blank, ...]


@dataclass(frozen=True, slots=True)
class Signatures:
    """Signature places side by side; never broken over two pages. `statement` is printed in
    immediate proximity above them (bold, at least 10 points) where a law asks for it."""

    signers: tuple[Signer, ...]
    statement: str = ""


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing under its title, with lines beside it; `told` in the drawing says it in words."""

    title: str
    drawing: Drawing
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Figures:
    """Figures in rows, those of one row side by side; a row is never broken over two pages."""

    rows: tuple[tuple[Figure, ...], ...]


@dataclass(frozen=True, slots=True)
class Photo:
    """A photograph in a JPEG file of `width` by `height` pixels, under its title, with a line beside it;
    `told` says in words what it shows."""

    title: str
    jpeg: bytes
    width: int
    height: int
    line: str
    told: str


@dataclass(frozen=True, slots=True)
class Photos:
    """Photographs, two side by side."""

    entries: tuple[Photo, ...]


@dataclass(frozen=True, slots=True)
class Steps:
    """A heading and the steps of a sum under it, one a line."""

    title: str
    lines: tuple[str, ...]


Block = Paragraph | Items | Facts | Glance | Table | Choices | Blanks | Signatures | Figures | Photos | Steps


@dataclass(frozen=True, slots=True)
class Section:
    """A heading with what stands under it. `number` is printed where it is not empty.

    `role`: `front` is the first page's head matter (its title is not printed), `notice` a form on a
    page of its own that can be torn off, `terms` close-set text, `exhibit` what starts on a page of its own.
    """

    key: str
    title: str
    blocks: tuple[Block | Section, ...]
    number: str = ""
    role: Literal["plain", "front", "notice", "terms", "signing", "exhibit"] = "plain"


@dataclass(frozen=True, slots=True)
class Masthead:
    """Who the paper comes from: the business name, and lines of address, phone, license."""

    name: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file that travels inside a PDF. `relationship` is what it is to the paper: ISO 32000-2, 7.11.3."""

    name: str
    content: bytes
    relationship: Literal["Source", "Data"]
    description: str
    media_type: str


@dataclass(frozen=True, slots=True)
class Document:
    """A whole paper, ready to be drawn.

    `page_of` is the page count's wording with the blanks {page} and {pages}; `draft` is the word that
    is printed over every page of a draft, or empty.
    """

    kind: str
    title: str
    subtitle: str
    language: str
    page_size: Literal["letter", "A4"]
    masthead: Masthead
    running_head: str
    page_of: str
    dated: date
    sections: tuple[Section, ...]
    draft: str = ""
    direction: Literal["ltr", "rtl"] = "ltr"
    attachments: tuple[Attachment, ...] = ()


def walk(document: Document) -> Iterator[tuple[Section, Block]]:
    """Every block with the section it stands in, in reading order."""

    def inside(section: Section) -> Iterator[tuple[Section, Block]]:
        for block in section.blocks:
            if isinstance(block, Section):
                yield from inside(block)
            else:
                yield section, block

    for section in document.sections:
        yield from inside(section)


def text_of(block: Block) -> Iterator[str]:
    """All text of a block, piece by piece, in reading order."""
    match block:
        case Paragraph():
            yield from (piece for piece in (block.lead_in, block.text) if piece)
        case Items():
            for entry in block.entries:
                yield from text_of(entry)
        case Facts():
            for fact in block.entries:
                yield fact.label
                yield from fact.lines
        case Glance():
            for entry in block.entries:
                yield from (piece for piece in entry if piece)
        case Table():
            yield block.caption
            yield from (column.label for column in block.columns)
            for row in block.rows:
                for cell in row.cells:
                    yield from (piece for piece in (cell.text, *cell.notes) if piece)
        case Choices():
            for choice in block.entries:
                yield from (piece for piece in (choice.title, choice.text, choice.price) if piece)
        case Blanks():
            for blank in block.entries:
                yield from (piece for piece in (blank.label, blank.filled) if piece)
        case Signatures():
            if block.statement:
                yield block.statement
            for signer in block.signers:
                yield from (piece for piece in (signer.role, signer.name) if piece)
                for line in signer.lines:
                    yield from (piece for piece in (line.label, line.filled) if piece)
        case Figures():
            for figure in (figure for row in block.rows for figure in row):
                yield from (figure.title, *figure.lines, figure.drawing.told)
                yield from (words.text for words in figure.drawing.words)
        case Photos():
            for photo in block.entries:
                yield from (photo.title, *filter(None, (photo.line, photo.told)))
        case Steps():
            yield from (block.title, *block.lines)
