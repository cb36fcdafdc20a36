"""The manual of the findings as text for a terminal, 80 columns wide, and as plain data."""

from __future__ import annotations

import textwrap
from typing import Any

from scopegen.manual import MEANS, PAGES, Page, Piece
from scopegen.proofs.proof import FAMILY

WIDTH = 80
ID, LEVEL = 28, 6  # columns of the list


def page_text(page: Page) -> str:
    """One rule: what it asks, what its level means, why, its examples, its source."""
    rule = page.rule
    parts = [
        f"{rule.id}: {rule.level}",
        _wrapped(rule.asks),
        _wrapped(f"Level: {rule.level}, which means: {page.means}."),
        _wrapped(f"Why: {rule.why}"),
    ]
    if page.passes:
        parts += [
            "This passes:",
            *map(_piece_text, page.passes),
            "This fails:",
            *map(_piece_text, page.fails),
        ]
    if rule.source:
        parts.append(_wrapped(f"Source: {rule.source}"))
    return "\n\n".join(parts)


def list_text() -> str:
    """Every rule by its family: id, level, what it asks."""
    lines = []
    for family, pages in _families().items():
        lines += [family.capitalize(), *(_row(page) for page in pages), ""]
    lines += [f"{level:<{LEVEL}} {meaning}" for level, meaning in MEANS.items()]
    lines += [
        "",
        _wrapped(
            f"{FAMILY.capitalize()}: `scopegen clauses check` says it, and alone it holds up no agreement."
        ),
    ]
    return "\n".join([*lines, "", "`scopegen explain RULE` tells more about one, with examples."])


def page_json(page: Page) -> dict[str, Any]:
    """One rule; `passes` and `fails` as lists of {file, yaml}, empty where no lines can show it."""
    rule = page.rule
    return {
        "rule": rule.id,
        "family": rule.family,
        "level": str(rule.level),
        "means": page.means,
        "asks": rule.asks,
        "why": rule.why,
        "passes": [_piece_json(piece) for piece in page.passes],
        "fails": [_piece_json(piece) for piece in page.fails],
        "source": rule.source or None,
    }


def list_json() -> dict[str, Any]:
    """Every rule, in the order of the families."""
    return {"rules": [page_json(page) for page in PAGES]}


def _families() -> dict[str, list[Page]]:
    families: dict[str, list[Page]] = {}
    for page in PAGES:
        families.setdefault(page.rule.family, []).append(page)
    return families


def _row(page: Page) -> str:
    head = f"  {page.id:<{ID}}{page.rule.level:<{LEVEL}} "
    return _wrapped(page.rule.asks, head)


def _piece_text(piece: Piece) -> str:
    return f"  in {piece.file}:\n\n{textwrap.indent(piece.yaml.rstrip(), '    ')}"


def _piece_json(piece: Piece) -> dict[str, str]:
    return {"file": piece.file, "yaml": piece.yaml}


def _wrapped(text: str, head: str = "") -> str:
    return textwrap.fill(
        text,
        WIDTH,
        initial_indent=head,
        subsequent_indent=" " * len(head),
        break_long_words=False,
        break_on_hyphens=False,
    )
