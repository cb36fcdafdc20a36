"""A tagged PDF's tables as a screen reader meets them: rows of cells, each with its text."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pdfplumber

Rows = list[list[str]]


def tables(path: Path) -> list[Rows]:
    """Every table, in reading order; a table that goes on over a page's end stands as two."""
    with pdfplumber.open(path) as pdf:
        texts: dict[tuple[int, int], str] = {}
        for page in pdf.pages:
            for char in page.chars:
                if char.get("mcid") is not None:
                    key = (page.page_number, char["mcid"])
                    texts[key] = texts.get(key, "") + char["text"]
        found: list[Rows] = []
        for node in pdf.structure_tree:
            _gather(node, texts, node.get("page_number"), found)
    return found


def _gather(
    node: dict[str, Any], texts: dict[tuple[int, int], str], page: int | None, found: list[Rows]
) -> None:
    page = node.get("page_number", page)
    if node["type"] == "Table":
        rows = _inside(node, "TR")
        found.append([[_text(cell, texts, page) for cell in _cells(row)] for row in rows])
        return
    for child in node.get("children", []):
        _gather(child, texts, page, found)


def _inside(node: dict[str, Any], kind: str) -> list[dict[str, Any]]:
    if node["type"] == kind:
        return [node]
    return [inner for child in node.get("children", []) for inner in _inside(child, kind)]


def _cells(row: dict[str, Any]) -> list[dict[str, Any]]:
    return [cell for cell in row.get("children", []) if cell["type"] in ("TD", "TH")]


def _text(node: dict[str, Any], texts: dict[tuple[int, int], str], page: int | None) -> str:
    page = node.get("page_number", page)
    own = [texts.get((page or 0, mcid), "") for mcid in node.get("mcids", [])]
    return " ".join(filter(None, [*own, *(_text(child, texts, page) for child in node.get("children", []))]))
