"""One bed drawn to scale, with what was taped on it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Any

from scopegen.drawing.edges import Edge
from scopegen.drawing.laid import Laid, parted, pieces
from scopegen.drawing.sheet import AIR, SIZE, TALL, Sheet, anchor, box_of, upright, wide
from scopegen.drawing.taped import Taped
from scopegen.drawing.values import Drawing, Line, Point, Scale, Words
from scopegen.quantities import show
from scopegen.words import Lexicon

OFF = 4.0  # points between a side and what is written on it
SOLID = 6.0  # points that the hatching of what a bed lies against takes outside
HATCH = 5.0  # points between the lines over a named part
MARK = 3.0  # points, half of the mark at a span's end


@dataclass(frozen=True, slots=True)
class Named:
    """A named part of a bed, its share of the ground, and what is written in it, the longest first."""

    name: str
    share: Fraction
    labels: tuple[str, ...]


def picture(
    laid: Laid, edge: Edge, parts: Sequence[Named], units: str, words: Lexicon, told: str, scale: Scale
) -> Drawing:
    """The bed on a sheet. `told` is the drawing in words."""
    sheet = Sheet(scale)
    drawn = _parts(sheet, laid.net, parts)
    for gap in laid.gaps:
        sheet.stroke("gap", sheet.line(gap), closed=True)
    for joint in laid.joints:
        sheet.stroke("joint", sheet.line(joint))
    _outline(sheet, laid, edge)
    _dimensions(sheet, laid, edge, units, words.texts["drawing"]["every"])
    add_scale_bar(sheet, words.say("drawing.plan.north") if laid.on_map else "")
    regions = tuple(sheet.line(piece.exterior.coords[:-1]) for piece in pieces(laid.whole))
    return sheet.drawing(regions, tuple(sheet.line(gap) for gap in laid.gaps), drawn, told)


def _parts(sheet: Sheet, net: Any, parts: Sequence[Named]) -> tuple[tuple[str, tuple[Line, ...]], ...]:
    drawn = []
    for number, (part, region) in enumerate(zip(parts, parted(net, (p.share for p in parts)), strict=True)):
        outlines = tuple(sheet.line(piece.exterior.coords[:-1]) for piece in pieces(region))
        drawn.append((part.name, outlines))
        _hatch(sheet, region, number)
        for cut in outlines if len(parts) > 1 else ():
            sheet.stroke("joint", cut, closed=True)
        write_inside(sheet, region, part.labels)
    return tuple(drawn)


def _hatch(sheet: Sheet, region: Any, number: int) -> None:
    """Thin lines over a part, each part's leaning its own way."""
    from shapely import LineString, affinity

    angle = (45, -45, 0, 90)[number % 4]
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


def write_inside(sheet: Sheet, region: Any, labels: Sequence[str]) -> bool:
    """Writes the first label that has room inside a region, level or upright; False where none has."""
    from shapely import Polygon, maximum_inscribed_circle

    largest = max(pieces(region), key=lambda piece: piece.area)
    center = maximum_inscribed_circle(largest, tolerance=max(math.sqrt(largest.area) / 200, 1e-3)).coords[0]
    on_sheet = Polygon(sheet.line(largest.exterior.coords), [sheet.line(r.coords) for r in largest.interiors])
    x, y = sheet.point(center)
    for text in labels:
        level = Words(text, (x, y + TALL / 2), inside=True, clear=True)
        steep = Words(text, (x + TALL / 2, y), -90, inside=True, clear=True)
        fitting = [words for words in (level, steep) if on_sheet.contains(Polygon(box_of(words)))]
        if fitting and sheet.write(*fitting):
            return True
    return False


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
        out = _outward(sheet, laid, here, there)
        for step in range(max(1, round(length / 4))):
            at = (step + 0.5) * length / max(1, round(length / 4))
            x, y = x1 + along[0] * at, y1 + along[1] * at
            lean = (out[0] + along[0] * 0.6, out[1] + along[1] * 0.6)
            sheet.stroke("solid", ((x, y), (x + lean[0] * SOLID * 0.75, y + lean[1] * SOLID * 0.75)))


def _outward(sheet: Sheet, laid: Laid, here: Point, there: Point) -> Point:
    """The direction on the sheet that leads square off a side and out of the bed."""
    from shapely import Point as Spot

    (x1, y1), (x2, y2) = here, there
    length = math.dist(here, there)
    east, north = (y2 - y1) / length, -(x2 - x1) / length
    middle, step = ((x1 + x2) / 2, (y1 + y2) / 2), 0.5 / sheet.k
    inside = laid.whole.contains(Spot(middle[0] + east * step, middle[1] + north * step))
    return (-east, north) if inside else (east, -north)


def _dimensions(sheet: Sheet, laid: Laid, edge: Edge, units: str, every: str) -> None:
    on_sides = {each.line: each for each in laid.taped if each.where == "side"}
    for name, line in laid.sides:
        each, what = on_sides.pop(line, None), edge.against.get(name, "") if name else ""
        text = ", ".join(filter(None, (_length(each, units, every) if each else "", what)))
        if text:
            _write_beside(sheet, laid, line, text, SOLID if what else 0)
    for each in on_sides.values():  # of parts that were put together
        _write_beside(sheet, laid, each.line, _length(each, units, every), 0)
    for each in laid.taped:
        match each.where:
            case "inside":
                _inside(sheet, laid, each, show.tape(each.length, units))
            case "beside":
                _beside(sheet, laid, each, show.tape(each.length, units))
            case "across" | "spoke":
                _ray(sheet, each, show.tape(each.length, units))


def _length(each: Taped, units: str, every: str) -> str:
    length = show.tape(each.length, units)
    return length if each.every is None else every.format(length=length, step=show.tape(each.every, units))


def _write_beside(sheet: Sheet, laid: Laid, line: Line, text: str, off: float) -> None:
    """Words along the outside of a side; level beside a side that is too short for them, or curved."""
    here, there = _middle(line)
    out = _outward(sheet, laid, here, there)
    x, y = sheet.point(((here[0] + there[0]) / 2, (here[1] + there[1]) / 2))
    tries = []
    for more in (0.0, SIZE + AIR, 2 * (SIZE + AIR)):
        away = OFF + off + more
        if len(line) == 2 and wide(text) <= math.dist(*line) * sheet.k:
            (x1, y1), (x2, y2) = sheet.point(line[0]), sheet.point(line[1])
            turn = upright(math.degrees(math.atan2(y2 - y1, x2 - x1)))
            # words stand on their foot: over it where they are outside above, under it below
            foot = math.cos(math.radians(turn)) * out[1] - math.sin(math.radians(turn)) * out[0]
            drop = away + (TALL if foot > 0 else 0)
            tries.append(Words(text, (x + out[0] * drop, y + out[1] * drop), turn, clear=True))
        side = anchor(out[0])
        lower = TALL * (0.5 + 0.5 * out[1]) if side == "middle" else TALL / 2
        tries.append(Words(text, (x + out[0] * away, y + out[1] * away + lower), 0, side, clear=True))
    sheet.write(*tries)


def _middle(line: Line) -> tuple[Point, Point]:
    """The piece of a line that its middle lies on."""
    steps = [pair for pair in pairwise(line) if pair[0] != pair[1]]
    half, gone = sum(math.dist(*pair) for pair in steps) / 2, 0.0
    for pair in steps:
        gone += math.dist(*pair)
        if gone >= half:
            return pair
    return line[0], line[-1]


def _inside(sheet: Sheet, laid: Laid, each: Taped, text: str) -> None:
    """A line across the bed with its length on it, or led out to the right where it is too short."""
    (x1, y1), (x2, y2) = sheet.line(each.line)
    sheet.stroke("taped", ((x1, y1), (x2, y2)))
    x, y = (x1 + x2) / 2, (y1 + y2) / 2
    if wide(text) + 2 * AIR <= math.dist((x1, y1), (x2, y2)):
        turn = upright(math.degrees(math.atan2(y2 - y1, x2 - x1)))
        lift = math.radians(turn)
        on = Words(text, (x - TALL / 2 * math.sin(lift), y + TALL / 2 * math.cos(lift)), turn, clear=True)
        if sheet.write(on):
            return
    right = sheet.point((laid.whole.bounds[2], 0))[0] + 3 * OFF
    if sheet.write(Words(text, (right + OFF / 2, y + TALL / 2), anchor="start")):
        sheet.stroke("taped", ((x, y), (right, y)))


def _beside(sheet: Sheet, laid: Laid, each: Taped, text: str) -> None:
    """A length told outside the bed, on a line with marks at its ends."""
    (x1, y1), (x2, y2) = sheet.line(each.line)
    level = abs(y2 - y1) < abs(x2 - x1)
    if level:
        y = sheet.point((0, laid.whole.bounds[1]))[1] + 2.5 * OFF
        line, marks = ((x1, y), (x2, y)), [((x, y - MARK), (x, y + MARK)) for x in (x1, x2)]
        words = Words(text, ((x1 + x2) / 2, y + OFF + TALL))
    else:
        x = sheet.point((laid.whole.bounds[2], 0))[0] + 2.5 * OFF
        line, marks = ((x, y1), (x, y2)), [((x - MARK, y), (x + MARK, y)) for y in (y1, y2)]
        words = Words(text, (x + OFF, (y1 + y2) / 2 + TALL / 2), anchor="start")
    if sheet.write(words):
        for stroke in (line, *marks):
            sheet.stroke("span", stroke)


def _ray(sheet: Sheet, each: Taped, text: str) -> None:
    """A width or a spoke, with its length beyond its end."""
    (x1, y1), (x2, y2) = sheet.line(each.line)
    length = math.dist((x1, y1), (x2, y2))
    if length:
        sheet.stroke("taped", ((x1, y1), (x2, y2)))
    out = ((x2 - x1) / length, (y2 - y1) / length) if length else (0.0, -1.0)
    if each.where == "across":
        sheet.write(Words(text, (x2 + TALL / 2, y2 - OFF), -90, "start"))
        return
    side = anchor(out[0])
    lower = TALL * (0.5 + 0.5 * out[1])
    sheet.write(
        *(Words(text, (x2 + out[0] * away, y2 + out[1] * away + lower), 0, side) for away in (OFF, 3 * OFF))
    )


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
