"""A sheet that a drawing is made on: lines in points, and words that keep clear of one another."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Literal

from scopegen.drawing.values import Drawing, Line, Point, Scale, Stroke, StrokeKind, Words

SIZE = 8.1  # points: no type on paper is under 8
TALL = 0.72 * SIZE  # of its figures and capitals, with a little to spare
AIR = 1.5  # points kept free round words
ROUND = 3  # digits of a point that are written: a ten-thousandth of a millimeter's neighborhood

# Widths in ems, on the wide side of the sans that papers are set in.
_WIDE = {**dict.fromkeys("MWmw@%", 0.88), **dict.fromkeys("iljtfrI.,:;'’′″ ", 0.34), "\xa0": 0.34}


def wide(text: str) -> float:
    """How wide words come out, in points; rather too much than too little."""
    return SIZE * sum(_WIDE.get(sign, 0.68 if sign.isupper() else 0.56) for sign in text)


Box = tuple[Point, Point, Point, Point]


def box_of(words: Words) -> Box:
    """The four corners of the room that words take."""
    length = wide(words.text)
    left = {"start": 0.0, "middle": -length / 2, "end": -length}[words.anchor]
    turn = math.radians(words.turn)
    cos, sin = math.cos(turn), math.sin(turn)
    x, y = words.at
    corners = (
        (left - AIR, AIR),
        (left + length + AIR, AIR),
        (left + length + AIR, -TALL - AIR),
        (left - AIR, -TALL - AIR),
    )
    a, b, c, d = ((x + u * cos - v * sin, y + u * sin + v * cos) for u, v in corners)
    return a, b, c, d


class Sheet:
    """Strokes and words as they are put down. `k` is points a foot; y turns over, from up to down."""

    def __init__(self, scale: Scale) -> None:
        self.scale, self.k = scale, scale.per_foot
        self.strokes: list[Stroke] = []
        self.words: list[Words] = []
        self.key: list[tuple[str, str]] = []
        self._taken: list[Box] = []

    def point(self, feet: Point) -> Point:
        """A point on the ground, on the sheet."""
        return feet[0] * self.k, -feet[1] * self.k

    def line(self, feet: Iterable[Point]) -> Line:
        """A line on the ground, on the sheet."""
        return tuple(self.point((x, y)) for x, y, *_ in feet)

    def stroke(self, kind: StrokeKind, points: Line, closed: bool = False) -> None:
        """Puts a line down."""
        if len(points) > 1:
            self.strokes.append(Stroke(kind, points, closed))

    def write(self, *tries: Words) -> bool:
        """Puts the first of these words down that keeps clear of all others; nothing where none does."""
        return any(self.write_together((words,)) for words in tries)

    def write_together(self, lines: tuple[Words, ...]) -> bool:
        """Puts all of these words down, or where one of them would cover others, none."""
        boxes = [box_of(words) for words in lines]
        if any(self.taken(box) for box in boxes):
            return False
        self.words += lines
        self._taken += boxes
        return True

    def taken(self, box: Box) -> bool:
        """Whether there are words in this room."""
        return any(_overlap(box, taken) for taken in self._taken)

    def number(self, name: str) -> str:
        """The number that stands for a name that found no room."""
        self.key.append((str(len(self.key) + 1), name))
        return self.key[-1][0]

    def drawing(
        self,
        regions: tuple[Line, ...],
        gaps: tuple[Line, ...],
        parts: tuple[tuple[str, tuple[Line, ...]], ...],
        told: str,
        margin: float = 2.0,
    ) -> Drawing:
        """All of it, moved so that it starts in the upper left corner."""
        points = [point for stroke in self.strokes for point in stroke.points]
        points += [point for words in self.words for point in box_of(words)]
        left = min(x for x, _ in points) - margin
        top = min(y for _, y in points) - margin

        def at(point: Point) -> Point:
            return round(point[0] - left, ROUND), round(point[1] - top, ROUND)

        def all_at(line: Line) -> Line:
            return tuple(at(point) for point in line)

        return Drawing(
            round(max(x for x, _ in points) + margin - left, ROUND),
            round(max(y for _, y in points) + margin - top, ROUND),
            self.scale,
            tuple(Stroke(s.kind, all_at(s.points), s.closed) for s in self.strokes),
            tuple(
                Words(w.text, at(w.at), round(w.turn, ROUND), w.anchor, w.inside, w.clear) for w in self.words
            ),
            tuple(all_at(region) for region in regions),
            tuple(all_at(gap) for gap in gaps),
            tuple((name, tuple(all_at(piece) for piece in drawn)) for name, drawn in parts),
            told,
            tuple(self.key),
        )


def _overlap(one: Box, other: Box) -> bool:
    """Whether two boxes share ground: no line along one of their sides keeps them apart."""
    for box in (one, other):
        for here, there in ((box[0], box[1]), (box[1], box[2])):
            x, y = there[1] - here[1], here[0] - there[0]
            first = [x * a + y * b for a, b in one]
            second = [x * a + y * b for a, b in other]
            if max(first) <= min(second) or max(second) <= min(first):
                return False
    return True


def upright(degrees: float) -> float:
    """A turn at which words are read from below or from the right."""
    turned = (degrees + 90) % 180 - 90
    return -90.0 if math.isclose(turned, 90, abs_tol=1e-3) else turned


def anchor(dx: float) -> Literal["start", "middle", "end"]:
    """Words that stand off to the right start there, to the left they end there."""
    return "start" if dx > 0.35 else "end" if dx < -0.35 else "middle"
