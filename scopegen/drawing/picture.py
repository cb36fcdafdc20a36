"""One bed drawn to scale, with what was taped on it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Any

from scopegen.drawing.dimensions import MARK, OFF, SOLID, dimensions, outward
from scopegen.drawing.edges import Edge
from scopegen.drawing.laid import Laid, parted, pieces
from scopegen.drawing.names import Label, write_inside, write_near
from scopegen.drawing.room import Room
from scopegen.drawing.sheet import TALL, Sheet, box_of, wide
from scopegen.drawing.values import Drawing, Line, Scale, Words
from scopegen.words import Lexicon

HATCH = 5.0  # points between the lines over a named part


@dataclass(frozen=True, slots=True)
class Named:
    """A named part of a bed, its share of the ground, what is written in it, the fullest first (labels
    that say the same together), and what stands in the key where none of that has room."""

    name: str
    share: Fraction
    labels: tuple[tuple[Label, ...], ...]
    keyed: str


def picture(
    laid: Laid, edge: Edge, parts: Sequence[Named], units: str, words: Lexicon, told: str, scale: Scale
) -> Drawing:
    """The bed on a sheet. `told` is the drawing in words."""
    sheet = Sheet(scale)
    regions = parted(laid.net, (part.share for part in parts))
    drawn, unnamed = _parts(sheet, regions, parts)
    for gap in laid.gaps:
        sheet.stroke("gap", sheet.line(gap), closed=True)
    for joint in laid.joints:
        sheet.stroke("joint", sheet.line(joint))
    _outline(sheet, laid, edge)
    dimensions(sheet, laid, edge, units, words.texts["drawing"]["every"])
    for region, number in unnamed:
        write_near(Room(sheet, laid.whole), region, number)
    add_scale_bar(sheet, words.say("drawing.plan.north") if laid.on_map else "")
    outlines = tuple(sheet.line(piece.exterior.coords[:-1]) for piece in pieces(laid.whole))
    return sheet.drawing(outlines, tuple(sheet.line(gap) for gap in laid.gaps), drawn, told)


DrawnParts = tuple[tuple[str, tuple[Line, ...]], ...]


def _parts(
    sheet: Sheet, regions: Sequence[Any], parts: Sequence[Named]
) -> tuple[DrawnParts, list[tuple[Any, str]]]:
    """Every part hatched and named, and those that have no room for the number of their name either."""
    drawn, unnamed = [], []
    for number, (part, region) in enumerate(zip(parts, regions, strict=True)):
        outlines = tuple(sheet.line(piece.exterior.coords[:-1]) for piece in pieces(region))
        drawn.append((part.name, outlines))
        _hatch(sheet, region, number)
        for cut in outlines if len(parts) > 1 else ():
            sheet.stroke("joint", cut, closed=True)
    for part, region in zip(parts, regions, strict=True):
        if not any(write_inside(sheet, region, labels) for labels in part.labels):
            key = sheet.number(part.keyed)
            if not write_inside(sheet, region, ((key,),)):
                unnamed.append((region, key))
    return tuple(drawn), unnamed


def _hatch(sheet: Sheet, region: Any, number: int) -> None:
    """Thin lines over a part, each part's leaning its own way."""
    from shapely import LineString, affinity

    angle = (45, -45, 90, 0)[number % 4]
    step = HATCH * (1 + number // 4) / sheet.k
    flat = affinity.rotate(region, -angle, origin=(0, 0))
    west, south, east, north = flat.bounds
    for count in range(1, int((north - south) / step) + 1):
        y = south + count * step
        cut = flat.intersection(LineString([(west - 1, y), (east + 1, y)]))
        for line in getattr(cut, "geoms", (cut,)):
            if line.geom_type == "LineString" and not line.is_empty:
                back = affinity.rotate(line, angle, origin=(0, 0))
                sheet.stroke("hatch", sheet.line(back.coords))


def _outline(sheet: Sheet, laid: Laid, edge: Edge) -> None:
    for name, line in laid.sides:
        points = sheet.line(line)
        if name in edge.against and name:
            _solid(sheet, laid, line)
            sheet.stroke("against", points)
        else:
            sheet.stroke(edge.open, points)


def _solid(sheet: Sheet, laid: Laid, line: Line) -> None:
    """Short slanting lines outside a side, as a section shows what is solid."""
    for here, there in pairwise(line):
        length = math.dist(here, there) * sheet.k
        if not length:
            continue
        (x1, y1), (x2, y2) = sheet.point(here), sheet.point(there)
        along = ((x2 - x1) / length, (y2 - y1) / length)
        out = outward(sheet, laid, here, there)
        for step in range(max(1, round(length / 4))):
            at = (step + 0.5) * length / max(1, round(length / 4))
            x, y = x1 + along[0] * at, y1 + along[1] * at
            lean = (out[0] + along[0] * 0.6, out[1] + along[1] * 0.6)
            sheet.stroke("solid", ((x, y), (x + lean[0] * SOLID * 0.75, y + lean[1] * SOLID * 0.75)))


def add_scale_bar(sheet: Sheet, north: str) -> None:
    """A bar of a round length with the scale said beside it, and on a map where `north` is."""
    points = [point for stroke in sheet.strokes for point in stroke.points]
    points += [point for words in sheet.words for point in box_of(words)]
    left, bottom = min(x for x, _ in points), max(y for _, y in points)
    y, right = bottom + 3.5 * OFF, left + sheet.scale.bar * sheet.k
    sheet.stroke("bar", ((left, y), (right, y)))
    for x in (left, right):
        sheet.stroke("bar", ((x, y - MARK), (x, y + MARK)))
    said = f"{sheet.scale.bar_said}   ({sheet.scale.said})"
    sheet.write(Words(said, (right + 2 * OFF, y + TALL / 2), anchor="start"))
    if north:
        x = right + 2 * OFF + wide(said) + 4 * OFF
        sheet.stroke("bar", ((x, y + MARK), (x, y - 4 * MARK)))
        sheet.stroke("bar", ((x - 2, y - 2.5 * MARK), (x, y - 4 * MARK), (x + 2, y - 2.5 * MARK)))
        sheet.write(Words(north, (x + 2 * OFF, y + TALL / 2)))
