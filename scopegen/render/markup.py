"""A document as HTML: the templates and the few facts about a block that they ask for."""

from __future__ import annotations

import re
from base64 import b64encode
from functools import cache
from hashlib import sha256

from jinja2 import PackageLoader, StrictUndefined
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from scopegen.papers.document import BY_HAND, Block, Document, Photo, Row, Section, Table

from .fields import FieldNames
from .svg import svg

_FIGURE = re.compile(
    r"((?<![\w.])[\d,.]*[\d½¼¾⅛⅜⅝⅞] (?:ft²|ft|in|yd³|lb|tons?|m²|m³|mm|m|kg|t|h|%)(?![\w²³]))"
)
_LONG = re.compile(r"(\S{20,})")  # the longest words of the trade have some 15 letters
PIECE = 100  # letters: WeasyPrint's time for a breakable piece grows with its square, a word may have 10,000
SHORT_TABLE = 5  # rows: a table up to here is never broken over two pages


def markup(document: Document, *, styles: str = "", screen: bool = False) -> str:
    """The whole document as an HTML page.

    `styles` is the style sheet to put into it; `screen` adds what only a screen needs.
    """
    template = templates().get_template("document.html")
    address = embedded_photo if screen else photo_address
    names = None if screen else FieldNames()
    return template.render(document=document, styles=styles, screen=screen, address=address, names=names)


def photo_address(photo: Photo) -> str:
    """What the page of a PDF asks for; nothing but our own fetcher knows it."""
    return f"scopegen:photo-{sha256(photo.jpeg).hexdigest()[:16]}"


def embedded_photo(photo: Photo) -> str:
    """A photograph as a data: address."""
    return "data:image/jpeg;base64," + b64encode(photo.jpeg).decode("ascii")


@cache
def templates() -> ImmutableSandboxedEnvironment:
    """The templates, where every value is text and a missing one is an error."""
    environment = ImmutableSandboxedEnvironment(
        loader=PackageLoader("scopegen.render"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.globals["by_hand"] = BY_HAND
    environment.filters["kind"] = kind
    environment.filters["row_groups"] = row_groups
    environment.filters["svg"] = svg
    environment.filters["kept"] = kept_together
    environment.filters["long"] = broken_where_long
    return environment


def kept_together(text: str) -> Markup:
    """A text in which no line ends between a figure and its unit, but may end inside a long word."""
    pieces = _FIGURE.split(text)
    for place, piece in enumerate(pieces):
        kept = Markup('<span class="kept">{}</span>')
        pieces[place] = kept.format(piece) if place % 2 else broken_where_long(piece)
    return Markup("").join(pieces)


def broken_where_long(text: str) -> Markup:
    """A text in which a line may end inside a word too long for the narrowest column, and in no other."""
    pieces = _LONG.split(text)
    for place in range(1, len(pieces), 2):
        word, drawn = pieces[place], Markup("")
        for start in range(0, len(word), PIECE):
            style = "long goes-on" if start else "long"
            drawn += Markup('<span class="{}">{}</span>').format(style, word[start : start + PIECE])
        pieces[place] = drawn
    return Markup("").join(pieces)


def kind(block: Block | Section) -> str:
    """The name of the template part that draws a block."""
    return type(block).__name__.lower()


def row_groups(table: Table) -> tuple[tuple[Row, ...], ...]:
    """The rows of a table in the groups that stay on one page: the first two, each row, the last ones.

    So no row stands alone under the header or on a next page, and a total stands under something it
    sums. A short table is one group, but for the scope table, whose rows can be tall.
    """
    rows = table.rows
    if len(rows) < 3 or (len(rows) <= SHORT_TABLE and table.role != "scope"):
        return (rows,) if rows else ()
    closing = len(rows)
    while closing and rows[closing - 1].role != "plain":
        closing -= 1
    end = max(1, closing - 2)  # what sums the table, with the two rows before it
    start = min(2, end)
    return (rows[:start], *((row,) for row in rows[start:end]), rows[end:])
