"""What the lines of the drawings mean, as a drawing of its own."""

from __future__ import annotations

from collections.abc import Iterable

from scopegen.drawing.sheet import TALL, Sheet
from scopegen.drawing.values import Drawing, Scale, StrokeKind, Words

SAMPLE = 26.0  # points of each line
STEP = 13.0  # points from one entry to the next
COLUMN = 240.0
KINDS: tuple[StrokeKind, ...] = (
    *("worked", "partly", "offered", "others", "open", "mixed", "left"),
    *("against", "gap", "hatch"),
)


def legend(entries: Iterable[tuple[StrokeKind, str]], told: str) -> Drawing:
    """Lines with what they mean, in two columns."""
    sheet = Sheet(Scale(1.0, "", 0.0, ""))
    for number, (kind, text) in enumerate(entries):
        x, y = (number % 2) * COLUMN, (number // 2) * STEP
        if kind == "hatch":
            for step in range(6):
                sheet.stroke(kind, ((x + 4 * step, y + 3), (x + 4 * step + 6, y - 3)))
        else:
            sheet.stroke(kind, ((x, y), (x + SAMPLE, y)))
        if kind == "against":
            for step in range(6):
                sheet.stroke("solid", ((x + 4 * step + 1, y), (x + 4 * step + 4, y + 4)))
        sheet.write(Words(text, (x + SAMPLE + 6, y + TALL / 2), anchor="start"))
    return sheet.drawing((), (), (), told)
