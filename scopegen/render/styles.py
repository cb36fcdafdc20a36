"""The style sheets: files for what all papers share, and a few rules that a document brings itself."""

from __future__ import annotations

import re
from functools import cache
from importlib import resources

from scopegen.papers.document import Document

DRAFT_ADDRESS = "scopegen:draft"
NO_BREAK_SPACE = "\u00a0"

# page size: (name in CSS, where the text column begins beside the lead-ins)
PAGES = {"letter": ("letter", "17.4rem"), "A4": ("A4", "16.8rem")}


@cache
def sheet(name: str) -> str:
    """A style sheet of this package: `look`, `paper` or `screen`."""
    return (resources.files(__package__) / "css" / f"{name}.css").read_text("utf-8")


def document_rules(document: Document) -> str:
    """The rules for one document: its page, and the foot with its running head and page number."""
    size, axis = PAGES[document.page_size]
    number = page_number(document.page_of)
    if document.draft:
        # the word a second time, small and black: a copier may lose the large light one
        number = f"{quoted(document.draft)} {quoted(3 * NO_BREAK_SPACE)} {number}; font-weight: 700"
    return (
        f"@page {{ size: {size} }}\n"
        f":root {{ --axis: {axis} }}\n"
        f"@page {{ @bottom-left {{ content: {quoted(document.running_head)} }} }}\n"
        f"@page {{ @bottom-right {{ content: {number} }} }}"
    )


def page_number(wording: str) -> str:
    """The CSS content for a wording with the blanks {page} and {pages}."""
    counters = {"{page}": "counter(page)", "{pages}": "counter(pages)"}
    parts = re.split(r"(\{pages?\})", wording)
    return " ".join(counters.get(part) or quoted(part) for part in parts if part) or '""'


def quoted(text: str) -> str:
    """A CSS string of any text: all but letters, digits and spaces are written as their code."""
    # the space after a code belongs to it (CSS Syntax Module Level 3, 4.3.7)
    return '"' + "".join(c if c.isalnum() or c == " " else f"\\{ord(c):x} " for c in text) + '"'
