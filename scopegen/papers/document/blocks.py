"""What stands under a heading: paragraphs, tables, choices, places to sign, drawings, photographs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from scopegen.comparing import Run
    from scopegen.drawing import Drawing

ParagraphRole = Literal["plain", "lead", "small", "strong", "caution", "statement", "open"]


BY_HAND = "_" * 20  # a line in a sentence, to write on


@dataclass(frozen=True, slots=True)
class Paragraph:
    """One paragraph. `statement` is prescribed legal wording (bold, at least 10 points);
    `open` names a decision that a draft leaves to be filled in by hand."""

    text: str
    role: ParagraphRole = "plain"
    lead_in: str = ""  # a few bold words before the text, such as the beds or the clause's title
    day: str = ""  # what the day is that is filled in by hand, at the place of BY_HAND in the text


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
    width: Literal["", "narrow", "wide", "main"] = ""


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
    kind: Literal["text", "date", "initials", "signature", "name"] = "text"


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


@dataclass(frozen=True, slots=True)
class Compared:
    """Two wordings laid into each other. `out` and `came_in` are the words that tell, before a run, that it
    went out or came in, so that it can be heard as well as seen."""

    lead_in: str
    runs: tuple[Run, ...]
    out: str
    came_in: str

    @property
    def told(self) -> tuple[str, ...]:
        """Each run as it is read out."""
        words = {"same": "{}", "out": f"[{self.out} {{}}]", "in": f"[{self.came_in} {{}}]"}
        return tuple(words[run.change].format(run.text) for run in self.runs)


Block = (
    Paragraph
    | Items
    | Facts
    | Glance
    | Table
    | Choices
    | Blanks
    | Signatures
    | Figures
    | Photos
    | Steps
    | Compared
)
