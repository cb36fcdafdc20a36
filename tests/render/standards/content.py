"""What is drawn on the pages: all of it marked as text, as a figure, or as no part of the text."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import pikepdf

FOOT = 73.0  # points: the bottom margin, in which only the foot stands
SHOWS = {"Tj", "TJ", "'", '"'}
PAINTS = {"S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "sh", "Do", "BI"}


@dataclass(frozen=True)
class Shown:
    """A piece of text or of drawing as it is put on a page: `marks` are the tags around it, the outer first,
    each with what is said of it; `y` is its base line in points."""

    operator: str
    marks: tuple[tuple[str, dict], ...]
    y: float
    font: pikepdf.Dictionary | None
    codes: bytes

    @property
    def is_artifact(self) -> bool:
        return any(tag == "/Artifact" for tag, _ in self.marks)

    @property
    def is_tagged(self) -> bool:
        return any("/MCID" in said for _, said in self.marks)


class _Walk:
    """Goes through what a page draws, and through the forms that it draws with (ISO 32000-1, 8.10)."""

    def __init__(self) -> None:
        self.marks: list[tuple[str, dict]] = []
        self.matrix = pikepdf.Matrix()
        self.line = pikepdf.Matrix()
        self.font: pikepdf.Dictionary | None = None
        self.kept: list[tuple] = []

    def through(self, drawn: pikepdf.Object, resources: pikepdf.Dictionary) -> Iterator[Shown]:
        depth = len(self.marks)
        for step in pikepdf.parse_content_stream(drawn):
            operator, operands = str(step.operator), step.operands
            self._follow(operator, operands, resources)
            if operator in SHOWS | PAINTS:
                where = (self.line @ self.matrix).f
                yield Shown(operator, tuple(self.marks), where, self.font, _codes(operands))
            form = resources.get("/XObject", {}).get(str(operands[0])) if operator == "Do" else None
            if form is not None and form.get("/Subtype") == "/Form":
                yield from self._form(form, resources)
        assert len(self.marks) == depth, "marked content that is not ended"

    def _form(self, form: pikepdf.Object, resources: pikepdf.Dictionary) -> Iterator[Shown]:
        before = self.matrix
        self.matrix = pikepdf.Matrix(*map(float, form.get("/Matrix", (1, 0, 0, 1, 0, 0)))) @ self.matrix
        yield from self.through(form, form.get("/Resources", resources))
        self.matrix = before

    def _follow(self, operator: str, operands: list, resources: pikepdf.Dictionary) -> None:
        match operator:
            case "BMC":
                self.marks.append((str(operands[0]), {}))
            case "BDC":
                said = operands[1] if isinstance(operands[1], pikepdf.Dictionary) else {}
                self.marks.append((str(operands[0]), dict(said.items())))
            case "EMC":
                self.marks.pop()
            case "q":
                self.kept.append((self.matrix, self.font))
            case "Q":
                self.matrix, self.font = self.kept.pop()
            case "cm":
                self.matrix = pikepdf.Matrix(*map(float, operands)) @ self.matrix
            case "BT":
                self.line = pikepdf.Matrix()
            case "Tm":
                self.line = pikepdf.Matrix(*map(float, operands))
            case "Td" | "TD":
                self.line = pikepdf.Matrix(1, 0, 0, 1, *map(float, operands)) @ self.line
            case "Tf":
                self.font = resources.Font.get(str(operands[0]))


def _codes(operands: list) -> bytes:
    """The codes of a text as it is shown, without the spaces between."""
    pieces = operands[0] if operands and isinstance(operands[0], pikepdf.Array) else operands
    return b"".join(bytes(piece) for piece in pieces if isinstance(piece, pikepdf.String))


def shown(page: pikepdf.Page) -> list[Shown]:
    """All that a page draws, in order."""
    return list(_Walk().through(page.obj, page.Resources))


def all_marked(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.1: whatever is drawn is tagged, or is marked as no part of the text; never both."""
    wrong = []
    for number, page in enumerate(pdf.pages, 1):
        for piece in shown(page):
            if piece.is_artifact == piece.is_tagged:
                wrong.append(
                    f"page {number}: {piece.operator} is both"
                    if piece.is_artifact
                    else f"page {number}: bare"
                )
    return wrong


def foot(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.8; ISO 32000-1, table 330: a running foot is an artifact of the page, and says so."""
    wrong = []
    for number, page in enumerate(pdf.pages, 1):
        feet = [piece for piece in shown(page) if piece.operator in SHOWS and piece.y < FOOT]
        wrong += [] if feet else [f"page {number} has no foot"]
        for piece in feet:
            said = dict(piece.marks).get("/Artifact", {})
            if (said.get("/Type"), said.get("/Subtype")) != ("/Pagination", "/Footer"):
                wrong.append(f"page {number}: its foot is read as text")
    return wrong


CHECKS = (all_marked, foot)
