"""The style sheets: files for what all papers share, and a few rules that a document brings itself."""

from __future__ import annotations

import re
from functools import cache
from importlib import resources

from scopegen.papers.document import Document

DRAFT_ADDRESS = "scopegen:draft"

# page size: (name in CSS, where the text column begins beside the lead-ins)
PAGES = {"letter": ("letter", "17.4rem"), "A4": ("A4", "16.8rem")}


@cache
def sheet(name: str) -> str:
    """A style sheet of this package: `look`, `paper` or `screen`."""
    return (resources.files(__package__) / "css" / f"{name}.css").read_text("utf-8")


def document_rules(document: Document) -> str:
    """The rules for one document: its page, and the foot with its running head and page number."""
    size, axis = PAGES[document.page_size]
    head, number = ("54%", "26%") if document.draft else ("74%", "26%")
    rules = [
        f"@page {{ size: {size} }}",
        f":root {{ --axis: {axis} }}",
        foot("left", quoted(document.running_head), head),
        foot("right", page_number(document.page_of), number),
    ]
    if document.draft:
        rules.append(foot("center", quoted(document.draft), "20%"))
    return "\n".join(rules)


def foot(side: str, content: str, width: str) -> str:
    """The rule for one part of the foot: CSS content and the share of the foot's width."""
    return f"@page {{ @bottom-{side} {{ content: {content}; width: {width}; text-align: {side} }} }}"


def page_number(wording: str) -> str:
    """The CSS content for a wording with the blanks {page} and {pages}."""
    counters = {"{page}": "counter(page)", "{pages}": "counter(pages)"}
    parts = re.split(r"(\{pages?\})", wording)
    return " ".join(counters.get(part) or quoted(part) for part in parts if part) or '""'


def quoted(text: str) -> str:
    """A CSS string of any text: all but letters, digits and spaces are written as their code."""
    # the space after a code belongs to it (CSS Syntax Module Level 3, 4.3.7)
    return '"' + "".join(c if c.isalnum() or c == " " else f"\\{ord(c):x} " for c in text) + '"'
