"""The text of each example's agreement, as composed: a line a piece of text, headings marked by depth."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from scopegen.build import open_case
from scopegen.papers.agreement import compose
from scopegen.papers.document import Block, Cell, Document, Section, Table, text_of
from scopegen.papers.frame import frame_of
from scopegen.printed import Printed, as_lines, with_more
from scopegen.stock import printed_by
from scopegen.words import lexicon

HERE = Path(__file__).parent
EXAMPLES = HERE.parents[1] / "example_scopes"
# Each example, and whether it is a draft.
AGREEMENTS = {
    "heron-bend": False,
    "quarry-lane": True,
    "cedar-row": False,
    "tern-court": False,
    "garza-lane": False,
    "heron-bend-2028": False,
}


def document(name: str) -> Document:
    """The agreement of an example, a draft where decisions are open."""
    case = open_case(EXAMPLES / f"{name}.yaml")
    return compose(frame_of(case, lexicon(case.job.language), draft=AGREEMENTS[name]))


def lock() -> str:
    """The examples' `clauses.lock`: what their agreements put on paper, drafts aside."""
    printed: tuple[Printed, ...] = ()
    for name, draft in AGREEMENTS.items():
        if not draft:
            printed = with_more(printed, printed_by(open_case(EXAMPLES / f"{name}.yaml"), f"{name}.yaml"))
    return as_lines(printed)


def as_text(document: Document) -> str:
    """A document as lines of text."""
    head = [f"# {document.title}", document.subtitle, document.masthead.name, *document.masthead.lines]
    body = [line for section in document.sections for line in _section(section, 2)]
    return "\n".join([*head, *body, ""])


def _section(section: Section, depth: int) -> Iterator[str]:
    yield ""
    yield f"{'#' * depth} {section.number} {section.title}".replace("  ", " ").rstrip()
    for block in section.blocks:
        yield from _section(block, depth + 1) if isinstance(block, Section) else _block(block)


def _block(block: Block) -> Iterator[str]:
    if isinstance(block, Table):
        yield f"[{block.caption}]"
        yield " | ".join(column.label for column in block.columns)
        for row in block.rows:
            yield " | ".join(_cell(cell) for cell in row.cells)
    else:
        yield from text_of(block)


def _cell(cell: Cell) -> str:
    return " / ".join([cell.text, *cell.notes]) + (" [to write in]" if cell.blank else "")
