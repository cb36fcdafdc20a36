"""Draws a document: as one HTML file for a screen, or as a PDF for paper and archive.

WeasyPrint and Jinja2 are imported only when something is drawn, since importing them takes a second.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from .refusals import RenderingUnavailable, UndrawableText

if TYPE_CHECKING:
    from scopegen.papers.document import Document

__all__ = ["RenderingUnavailable", "UndrawableText", "to_html", "to_pdf"]


def to_html(document: Document) -> str:
    """The document as one HTML file that holds its fonts and fetches nothing.

    Raises UndrawableText for a character that the fonts lack, RenderingUnavailable where a font is missing.
    """
    from .web import web_page

    return web_page(document)


def to_pdf(document: Document) -> bytes:
    """The document as a tagged PDF (PDF/UA-1); the same document gives the same bytes.

    Raises UndrawableText for a character that the fonts lack, RenderingUnavailable where a font, one of
    Pango's libraries or room for temporary files is missing.
    """
    from .pdf import pdf_file

    try:
        return pdf_file(document)
    except OSError as error:
        from tempfile import gettempdir

        why = f"the PDF cannot be drawn: {error.strerror or error}"
        raise RenderingUnavailable(f"{why}. Drawing needs some megabytes in {gettempdir()}.") from error
