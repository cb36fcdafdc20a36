"""What is saved if a bed is left out, as text and as JSON."""

from __future__ import annotations

from typing import Any

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from scopegen.papers.frame import Frame
from scopegen.price.without import each_bed_left_out

WHY = (
    "Each line leaves out that one bed and keeps all else. The savings do not add up to the total: minimums,"
    " trips, deliveries, set-up and volume prices are shared by the beds. Add-ons are not in these figures."
)


def by_bed_text(frame: Frame) -> RenderableType:
    """A row a bed: the total without it, and the saving."""
    table = Table(title=frame.job.job, title_justify="left", title_style="bold", box=None, pad_edge=False)
    for number, label in enumerate(("Without", "total", "saves")):
        table.add_column(label, justify="right" if number else "left", overflow="fold")
    for left in each_bed_left_out(frame.job, frame.chart, frame.case.broken, frame.priced):
        total = "nothing is left" if left.nothing_left else f"{left.total:,.2f}"
        table.add_row(Text(left.bed), total, f"{left.saved:,.2f}")
    table.add_row(Text("no bed", style="bold"), f"{frame.priced.total:,.2f}", "")
    return Group(table, Text(""), Text(WHY))


def by_bed_json(frame: Frame) -> dict[str, Any]:
    """`total`, and `without`: a list of {bed, total, saved, nothing_left}."""
    return {
        "job": frame.job.job,
        "currency": frame.chart.currency,
        "total": f"{frame.priced.total:.2f}",
        "without": [
            {
                "bed": left.bed,
                "total": f"{left.total:.2f}",
                "saved": f"{left.saved:.2f}",
                "nothing_left": left.nothing_left,
            }
            for left in each_bed_left_out(frame.job, frame.chart, frame.case.broken, frame.priced)
        ],
    }
