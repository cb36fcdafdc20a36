"""The one kind of value that every paper is composed as, before any HTML is made.

A document is numbered sections of paragraphs, tables, choices and places to sign. All text in it is
plain text: no mark-up, nothing to escape. Papers compose it, `render` draws it, tests read it.
"""

from scopegen.papers.document.blocks import (
    BY_HAND,
    Blank,
    Blanks,
    Block,
    Cell,
    Choice,
    Choices,
    Column,
    Compared,
    Fact,
    Facts,
    Figure,
    Figures,
    Glance,
    Items,
    Paragraph,
    ParagraphRole,
    Photo,
    Photos,
    Row,
    RowRole,
    Signatures,
    Signer,
    Steps,
    Table,
)
from scopegen.papers.document.texts import text_of, walk
from scopegen.papers.document.whole import Attachment, Document, Masthead, Section

__all__ = [
    "BY_HAND",
    "Attachment",
    "Blank",
    "Blanks",
    "Block",
    "Cell",
    "Choice",
    "Choices",
    "Column",
    "Compared",
    "Document",
    "Fact",
    "Facts",
    "Figure",
    "Figures",
    "Glance",
    "Items",
    "Masthead",
    "Paragraph",
    "ParagraphRole",
    "Photo",
    "Photos",
    "Row",
    "RowRole",
    "Section",
    "Signatures",
    "Signer",
    "Steps",
    "Table",
    "text_of",
    "walk",
]
