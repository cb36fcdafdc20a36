"""The words of a document, as they are read from top to bottom."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.papers.document.blocks import (
    Blank,
    Blanks,
    Block,
    Choices,
    Compared,
    Facts,
    Figures,
    Glance,
    Items,
    Paragraph,
    Photos,
    Signatures,
    Steps,
    Table,
)
from scopegen.papers.document.whole import Document, Section


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
    """All text of a block, piece by piece, in reading order; nothing empty."""
    return filter(None, _places(block))


def _places(block: Block) -> Iterator[str]:
    """Every place of a block that may hold text, the empty ones too."""
    match block:
        case Paragraph():
            yield from (block.lead_in, block.text)
        case Items():
            for entry in block.entries:
                yield from _places(entry)
        case Facts():
            for fact in block.entries:
                yield from (fact.label, *fact.lines)
        case Glance():
            for entry in block.entries:
                yield from entry
        case Table():
            yield from _of_table(block)
        case Choices():
            for choice in block.entries:
                yield from (choice.title, choice.text, choice.price)
        case Blanks():
            yield from _of_blanks(block.entries)
        case Signatures():
            yield block.statement
            for signer in block.signers:
                yield from (signer.role, signer.name, *_of_blanks(signer.lines))
        case Figures():
            for figure in (figure for row in block.rows for figure in row):
                yield from (figure.title, *figure.lines, figure.drawing.told)
                yield from (words.text for words in figure.drawing.words)
        case Photos():
            for photo in block.entries:
                yield from (photo.title, photo.line, photo.told)
        case Steps():
            yield from (block.title, *block.lines)
        case Compared():
            yield from (block.lead_in, *block.told)


def _of_table(table: Table) -> Iterator[str]:
    yield from (table.caption, *(column.label for column in table.columns))
    for row in table.rows:
        for cell in row.cells:
            yield from (cell.text, *cell.notes)


def _of_blanks(blanks: tuple[Blank, ...]) -> Iterator[str]:
    for blank in blanks:
        yield from (blank.label, blank.filled)
