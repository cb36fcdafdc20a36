"""A PDF as a reader with a ruler sees it: pieces of text with their place, size and font."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, cached_property
from io import BytesIO

import pypdf
from fontTools.ttLib import TTFont

from scopegen.render.faces import FACES, SANS

# how WeasyPrint 70.0 names a weight at the end of a font's name
WEIGHTS = {"Semi-Bold": 600, "Bold": 700}
FOOT = 73.0  # points: the bottom margin, in which only the foot stands


@dataclass(frozen=True)
class Piece:
    """One piece of text on one line. Points, from the page's lower left corner; `y` is the base line."""

    page: int
    text: str
    x: float
    y: float
    size: float
    font: str

    @property
    def family(self) -> str:
        return self.font.partition("+")[2].partition("-")[0]

    @property
    def weight(self) -> int:
        return WEIGHTS.get(self.font.partition("+")[2].partition("-")[2], 400)

    @property
    def right(self) -> float:
        """Where the piece ends, kerning left aside."""
        widths = advances(self.family, self.weight)
        return self.x + self.size * sum(widths[ord(c)] for c in self.text.rstrip())


@cache
def advances(family: str, weight: int) -> dict[int, float]:
    """The width of each character of a face; its size is 1."""
    face = next(f for f in FACES if (f.family, f.weight) == (family, weight))
    fonts = [TTFont(BytesIO(f.content())) for f in (FACES[0], face)]  # the sans fills the serif's gaps
    assert FACES[0].family == SANS
    return {
        code: font["hmtx"][glyph][0] / font["head"].unitsPerEm
        for font in fonts
        for code, glyph in font.getBestCmap().items()
    }


class Paper:
    """A finished PDF."""

    def __init__(self, content: bytes) -> None:
        self.content = content
        self.reader = pypdf.PdfReader(BytesIO(content))

    @cached_property
    def pieces(self) -> list[Piece]:
        """All text in the order in which it is drawn."""
        found: list[Piece] = []
        for number, page in enumerate(self.reader.pages, 1):

            def note(text, cm, tm, font, size, number=number):  # type: ignore[no-untyped-def]
                if text.strip():
                    x, y = cm[0] * tm[4] + cm[4], cm[3] * tm[5] + cm[5]
                    name = str(font["/BaseFont"]).removeprefix("/")
                    found.append(Piece(number, text.strip("\n"), x, y, size * abs(cm[0] * tm[0]), name))

            page.extract_text(visitor_text=note)
        assert found, "a paper without text"
        return found

    @cached_property
    def body(self) -> list[Piece]:
        """The text of the pages without their feet."""
        return [piece for piece in self.pieces if piece.y > FOOT]

    @cached_property
    def pages(self) -> list[list[Piece]]:
        """The body, page by page."""
        return [[p for p in self.body if p.page == n] for n in range(1, len(self.reader.pages) + 1)]

    def find(self, text: str, pieces: list[Piece] | None = None) -> list[Piece]:
        """The pieces that a text was drawn as, by its first occurrence. Fails where it is not there."""
        pieces = self.body if pieces is None else pieces
        wanted = squeezed(text)
        for start in range(len(pieces)):
            run = ""
            for end in range(start, len(pieces)):
                run += squeezed(pieces[end].text)
                if run == wanted:
                    return pieces[start : end + 1]
                if not wanted.startswith(run):
                    break
        raise AssertionError(f"not on the paper: {text}")


def squeezed(text: str) -> str:
    """A text without white space, since a line's end may stand for a blank."""
    return "".join(text.split())
