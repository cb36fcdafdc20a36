"""Names in what they name: in a part of a bed, or in a bed on a plan."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from scopegen.drawing.laid import pieces
from scopegen.drawing.room import Room
from scopegen.drawing.sheet import AIR, SIZE, TALL, Sheet, box_of, upright, wide
from scopegen.drawing.values import Point, Words

Label = tuple[str, ...]  # its lines

SCANS = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9)  # of the height: where a line through a piece is tried
ALONG = (0.5, 0.3, 0.7)  # of such a line: where the middle of a name is tried
FARTHEST = 30  # steps of a line of words that a number may lie from what it names


def write_inside(sheet: Sheet, region: Any, labels: tuple[Label, ...]) -> bool:
    """Writes the first label that has room inside a region in ft: all are tried level before any is tried
    along the longer side or upright. False where none has."""
    on_sheet = [_on_sheet(sheet, piece) for piece in pieces(region)]
    on_sheet.sort(key=lambda piece: piece.area, reverse=True)
    for level in (True, False):
        for label in labels:
            for piece in on_sheet:
                for turn in (0.0,) if level else _turns(piece):
                    if any(_fits(sheet, piece, label, turn, spot) for spot in _spots(piece, turn)):
                        return True
    return False


def write_near(room: Room, region: Any, text: str) -> bool:
    """Writes a number outside the bed with a line that leads to a region in ft; False where there is no
    room."""
    largest = _on_sheet(room.sheet, max(pieces(region), key=lambda piece: piece.area))
    middle = largest.representative_point()
    for step in range(1, FARTHEST):
        for eighth in range(8):
            turn, away = eighth * math.pi / 4, step * SIZE
            x, y = middle.x + away * math.cos(turn), middle.y - away * math.sin(turn)
            words = Words(text, (x, y + TALL / 2), clear=True)
            if room.outside(words) and room.sheet.write(words):
                short = 1 - (wide(text) / 2 + AIR + 1) / away
                end = middle.x + (x - middle.x) * short, middle.y + (y - middle.y) * short
                room.leader(((middle.x, middle.y), end))
                return True
    return False


def _on_sheet(sheet: Sheet, piece: Any) -> Any:
    from shapely import affinity

    return affinity.scale(piece, sheet.k, -sheet.k, origin=(0, 0))


def _turns(piece: Any) -> tuple[float, ...]:
    """Along the longer side, as far as that is not level, and upright."""
    a, b, c = piece.minimum_rotated_rectangle.exterior.coords[:3]
    here, there = (a, b) if math.dist(a, b) >= math.dist(b, c) else (b, c)
    along = upright(math.degrees(math.atan2(there[1] - here[1], there[0] - here[0])))
    west, north, east, south = piece.bounds
    tall = (-90.0,) if south - north > east - west else ()
    return (along, *tall) if 1 < abs(along) < 89 else tall


def _spots(piece: Any, turn: float) -> Iterator[Point]:
    """Where the middle of a name may lie: in the largest circle, then on lines through the piece."""
    from shapely import LineString, affinity, maximum_inscribed_circle

    tolerance = max(math.sqrt(piece.area) / 200, 1e-3)
    yield maximum_inscribed_circle(piece, tolerance=tolerance).coords[0]
    flat = affinity.rotate(piece, -turn, origin=(0, 0))
    west, low, east, high = flat.bounds
    for share in SCANS:
        y = low + share * (high - low)
        cut = flat.intersection(LineString([(west - 1, y), (east + 1, y)]))
        lines = [line for line in getattr(cut, "geoms", (cut,)) if line.geom_type == "LineString"]
        for line in sorted(lines, key=lambda line: line.length, reverse=True):
            for along in ALONG if line.length else ():
                spot = line.interpolate(along, normalized=True)
                yield affinity.rotate(spot, turn, origin=(0, 0)).coords[0]


def _fits(sheet: Sheet, piece: Any, label: Label, turn: float, spot: Point) -> bool:
    """Writes the lines of a label round a spot where they lie inside the piece and cover no words."""
    from shapely import Polygon

    lift, lines = math.radians(turn), []
    for number, text in enumerate(label):
        down = TALL / 2 + (number - (len(label) - 1) / 2) * (SIZE + AIR)
        at = spot[0] - down * math.sin(lift), spot[1] + down * math.cos(lift)
        lines.append(Words(text, at, turn, inside=True, clear=True))
    if not all(piece.contains(Polygon(box_of(words))) for words in lines):
        return False
    return sheet.write_together(tuple(lines))
