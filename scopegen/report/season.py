"""A new season as text and as JSON: what was raised, and what is still to be looked at."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from scopegen.season import Raised, ToLookAt

NOT_THERE = "not in the chart"


def raised_table(raised: Sequence[Raised]) -> RenderableType:
    """A row a price that was raised: before, after, and by how much in fact."""
    table = _table("price", "before", "now", "by")
    for each in raised:
        share = f"{(each.after / each.before - 1) * 100:+.1f} %" if each.before else ""
        table.add_row(Text(each.price.name), f"{each.before:,.2f}", f"{each.after:,.2f}", share)
    return table


def review_table(listed: Sequence[ToLookAt], season: int, earlier: int | None) -> RenderableType:
    """A row a price that is to be looked at, with that of the season before."""
    before = str(earlier) if earlier else "before"
    table = _table("price", before, str(season), "line")
    for each in listed:
        table.add_row(
            Text(each.name), Text(each.before or "none"), Text(each.now or NOT_THERE), str(each.line)
        )
    return table


def review_json(listed: Sequence[ToLookAt], season: int, earlier: int | None) -> dict[str, Any]:
    """`season`, `earlier` and `to_review`: a list of {name, before, now, line}; null where there is none."""
    return {
        "season": season,
        "earlier": earlier,
        "to_review": [
            {"name": each.name, "before": each.before, "now": each.now, "line": each.line} for each in listed
        ],
    }


def _table(*labels: str) -> Table:
    table = Table(box=None, pad_edge=False)
    for number, label in enumerate(labels):
        table.add_column(label, justify="right" if number else "left", overflow="fold")
    return table
