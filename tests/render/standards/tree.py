"""The tree of a PDF's tags."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import pikepdf


@dataclass(frozen=True)
class Element:
    """An element with those above it, the nearest last."""

    kind: str
    entry: pikepdf.Dictionary
    above: tuple[Element, ...] = ()

    @property
    def key(self) -> tuple[int, int]:
        """The number of its object."""
        return self.entry.objgen


def kids_of(entry: pikepdf.Dictionary) -> list:
    """What hangs directly under an element."""
    kids = entry.get("/K", [])
    return list(kids) if isinstance(kids, pikepdf.Array) else [kids]


def elements(pdf: pikepdf.Pdf) -> list[Element]:
    """Every element in reading order."""
    return list(_below(pdf.Root.StructTreeRoot, ())) if "/StructTreeRoot" in pdf.Root else []


def _below(entry: pikepdf.Dictionary, above: tuple[Element, ...]) -> Iterator[Element]:
    for kid in kids_of(entry):
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            element = Element(str(kid.S), kid, above)
            yield element
            yield from _below(kid, (*above, element))


def of(pdf: pikepdf.Pdf, *kinds: str) -> list[Element]:
    """The elements of some kinds."""
    return [element for element in elements(pdf) if element.kind in kinds]


def parents(pdf: pikepdf.Pdf) -> dict[int, pikepdf.Object]:
    """The parent tree: what a page's or an annotation's number leads to."""
    return {int(key): value for key, value in pikepdf.NumberTree(pdf.Root.StructTreeRoot.ParentTree).items()}
