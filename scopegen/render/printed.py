"""Every text of a document that reaches the paper, and whether all of it can be drawn."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.papers.document import Choices, Document, Section, text_of

from .faces import is_drawable
from .refusals import UndrawableText


def refuse_undrawable(document: Document) -> None:
    """Raise UndrawableText for the first character of a document that the fonts cannot draw.

    Signs that cannot be seen or that turn the reading direction are refused even where a font holds them.
    """
    for text in printed_texts(document):
        for character in text:
            if not is_drawable(character):
                raise UndrawableText(character, text)


def printed_texts(document: Document) -> Iterator[str]:
    """Every text of a document that reaches the paper."""
    yield from (document.masthead.name, *document.masthead.lines)
    yield from (document.title, document.subtitle, document.running_head, document.page_of, document.draft)
    for section in document.sections:
        yield from section_texts(section)


def section_texts(section: Section) -> Iterator[str]:
    """Every text of a section and of those inside it, in reading order."""
    yield from (section.number, section.title)
    for block in section.blocks:
        if isinstance(block, Section):
            yield from section_texts(block)
            continue
        if isinstance(block, Choices):
            yield from (block.box, block.price, block.initials)
        yield from text_of(block)
