"""Workspaces for tests: the example's company and price chart beside a job that is changed by text."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from scopegen.build import open_case
from scopegen.papers.agreement import compose
from scopegen.papers.document import Block, Document, Section, text_of, walk
from scopegen.papers.frame import frame_of
from scopegen.words import lexicon

EXAMPLES = Path(__file__).parents[1] / "example_scopes"


def example(name: str = "heron-bend") -> str:
    """An example's text."""
    return (EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8")


def changed(text: str, *pairs: tuple[str, str]) -> str:
    """The text with each piece replaced; every piece must be there."""
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new)
    return text


def laid(folder: Path, text: str, *, chart: str | None = None, company: str | None = None) -> Path:
    """A workspace with this job; returns the job's path."""
    for name, given in (("prices-2027.yaml", chart), ("company.yaml", company)):
        said = given if given is not None else (EXAMPLES / name).read_text(encoding="utf-8")
        (folder / name).write_text(said, encoding="utf-8")
    path = folder / "job.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def agreement(path: Path, *, draft: bool = False, signed_on: date | None = None) -> Document:
    """The composed agreement of a job."""
    case = open_case(path)
    return compose(frame_of(case, lexicon(case.job.language), draft=draft, signed_on=signed_on))


def section(document: Document, key: str) -> tuple[Block, ...]:
    """All blocks of a section, those of its subsections too."""
    return tuple(
        block for found, block in walk(document) if found.key.split("-")[0] == key or found.key == key
    )


def words_of(blocks: tuple[Block, ...]) -> str:
    """The text of blocks, joined."""
    return " ".join(piece for block in blocks for piece in text_of(block))


def keys(document: Document) -> list[str]:
    """The keys of the sections, in order."""
    return [each.key for each in document.sections if isinstance(each, Section)]
