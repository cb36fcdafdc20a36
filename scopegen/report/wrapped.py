"""Paragraphs for a terminal, set in under what they belong to."""

from __future__ import annotations

import textwrap

WIDTH = 96


def wrapped(text: str, margin: int = 4) -> list[str]:
    """The lines of a paragraph, so many columns in; no word is broken."""
    margins = " " * margin
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=margins,
        subsequent_indent=margins,
        break_long_words=False,
        break_on_hyphens=False,
    )
