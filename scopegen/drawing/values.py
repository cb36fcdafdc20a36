"""What a drawing is: lines, areas and words on a sheet, in points, with the scale they were drawn to.

x runs to the right and y down, from the upper left corner. A point is 1/72 in.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Point = tuple[float, float]
Line = tuple[Point, ...]

StrokeKind = Literal[
    "worked",  # edge that is cut, set or repaired for certain
    "partly",  # worked on in part; where was not measured
    "offered",  # worked on only where an add-on is chosen
    "others",  # the customer or others work on it
    "open",  # not decided yet
    "mixed",  # more than one of these; where was not measured
    "left",  # left as it is
    "bed",  # a bed's outline on a plan, whatever happens there
    "leader",  # from words to what they belong to
    "against",  # lies against a wall, a walk or the like
    "solid",  # hatching of what an edge lies against
    "taped",  # a line that was measured inside a bed
    "span",  # a line with marks at its ends, for a measure that is told beside the bed
    "joint",  # where two shapes of one bed meet
    "hatch",
    "gap",  # round what is left out
    "bar",
]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through points; `closed` joins its last point to its first."""

    kind: StrokeKind
    points: Line
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Words:
    """A few words at a point: turned by degrees clockwise about it, set to its left, right or middle.

    `inside` says that they belong to the inside of a bed. `clear` keeps lines away from behind them.
    """

    text: str
    at: Point
    turn: float = 0.0
    anchor: Literal["start", "middle", "end"] = "middle"
    inside: bool = False
    clear: bool = False


@dataclass(frozen=True, slots=True)
class Scale:
    """Points on paper for a foot on the ground, and how a person says it: `1 in = 8 ft`, `1:100`."""

    per_foot: float
    said: str
    bar: float  # ft that the scale bar stands for
    bar_said: str


@dataclass(frozen=True, slots=True)
class Drawing:
    """A bed, or several, drawn to scale. `regions` are the closed outer lines, `gaps` those of what is left
    out inside; both for whoever measures the drawing. `told` is the drawing in words."""

    width: float
    height: float
    scale: Scale | None
    strokes: tuple[Stroke, ...]
    words: tuple[Words, ...]
    regions: tuple[Line, ...]
    gaps: tuple[Line, ...]
    parts: tuple[tuple[str, tuple[Line, ...]], ...] = ()  # each named part with the pieces it is drawn as
    told: str = ""
    key: tuple[tuple[str, str], ...] = ()  # numbers that stand for names without room: (number, name)
