"""A sound workspace with pieces of YAML laid over it, as a stock."""

from __future__ import annotations

import shutil
from functools import cache
from pathlib import Path

from ruamel.yaml import YAML

from scopegen.library_folder import library_folder
from scopegen.printed import Printed, as_lines, digest
from scopegen.proofs import Stock
from scopegen.stock import open_stock
from scopegen.workspace import Workspace
from tests.rules.laid_over import written

NOTICE = "us-federal-cooling-off.yaml"


def stock_of(folder: Path, fragment: str = "{}") -> Stock:
    """The stock of a workspace with the fragment laid over it."""
    for name, text in written(fragment).items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    over = YAML(typ="safe", pure=True).load(fragment) or {}
    lines = [on_paper(name, text) for name, text in over.get("printed", {}).items()]
    (folder / "clauses.lock").write_text(as_lines(lines), encoding="utf-8")
    altered = over.get("laws", {}).get("altered")
    return open_stock(Workspace(folder), _altered(folder, altered) if altered else None)


def on_paper(clause: str, text: str, whose: str = "own") -> Printed:
    """What the lock says of a term's English text of season 2027."""
    return Printed(clause, "2027", whose, "en", "says", "2027-03-19", "job.yaml", digest(text), text)


def _altered(folder: Path, word: str) -> Path:
    """The library that ships, its prescribed notice with a word changed."""
    library = folder / "library"
    shutil.copytree(library_folder(), library)
    notice = library / "law" / NOTICE
    text = notice.read_text(encoding="utf-8")
    assert word in text
    notice.write_text(text.replace(word, "noon"), encoding="utf-8")
    return library


@cache
def shipped() -> Stock:
    """The stock that ships, without a workspace."""
    return open_stock(None)
