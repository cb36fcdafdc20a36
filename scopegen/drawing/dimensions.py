"""What was taped of a bed, written where it was taped, and what its sides lie against."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from scopegen.drawing.edges import Edge
from scopegen.drawing.laid import Laid
from scopegen.drawing.room import Room
from scopegen.drawing.sheet import AIR, SIZE, TALL, Sheet, anchor, upright, wide
from scopegen.drawing.taped import Taped
from scopegen.drawing.values import Line, Point, Words
from scopegen.quantities import show

OFF = 4.0  # points between a side and what is written on it
SOLID = 6.0  # points that the hatching of what a bed lies against takes outside
MARK = 3.0  # points, half of the mark at a span's end
SHARES = (0.5, 0.35, 0.65, 0.2, 0.8)  # of a side: where words beside it are tried
NEAR = 3  # lines of words off a side that its words may stand without a line that leads to them
FAR = 12  # lines of words off a side that they may stand with one
LEAST = 1.0  # points of a side that has words of its own beside others
MANY = 24  # sides of a bed that are written on wherever there is room


def dimensions(sheet: Sheet, laid: Laid, edge: Edge, units: str, every: str) -> None:
    """Writes every measure on a bed whose outline is on the sheet."""
    room = Room(sheet, laid.whole)
    on_sides = {each.line: each for each in laid.taped if each.where == "side"}
    for name, line in laid.sides:
        each, what = on_sides.pop(line, None), edge.against.get(name, "") if name else ""
        text = ", ".join(filter(None, (_length(each, units, every) if each else "", what)))
        if text:
            _write_beside(room, laid, line, text, SOLID if what else 0)
    for each in on_sides.values():  # of parts that were put together
        _write_beside(room, laid, each.line, _length(each, units, every), 0)
    for each in laid.taped:
        match each.where:
            case "inside":
                _inside(room, each, show.tape(each.length, units))
            case "beside":
                _beside(sheet, laid, each, show.tape(each.length, units))
            case "across" | "spoke":
                _ray(room, each, show.tape(each.length, units))


def _length(each: Taped, units: str, every: str) -> str:
    length = show.tape(each.length, units)
    return length if each.every is None else every.format(length=length, step=show.tape(each.every, units))


def outward(sheet: Sheet, laid: Laid, here: Point, there: Point) -> Point:
    """The direction on the sheet that leads square off a side and out of the bed."""
    from shapely import Point as Spot

    (x1, y1), (x2, y2) = here, there
    length = math.dist(here, there)
    east, north = (y2 - y1) / length, -(x2 - x1) / length
    middle, step = ((x1 + x2) / 2, (y1 + y2) / 2), 0.5 / sheet.k
    inside = laid.whole.contains(Spot(middle[0] + east * step, middle[1] + north * step))
    return (-east, north) if inside else (east, -north)


Try = tuple[Words, Point]  # words, and the point of the side that they stand beside


def _write_beside(room: Room, laid: Laid, line: Line, text: str, off: float) -> None:
    """Words along the outside of a side; level beside a side that is too short for them, or curved; in the
    bed where there is no room outside; else farther off, with a line that leads to them."""
    from shapely import LineString

    sheet, own = room.sheet, LineString(room.sheet.line(line))
    if own.length < LEAST:
        return
    others = room.others(own)
    for words, spot in _tries(room, laid, line, text, off, range(NEAR)):
        if room.exposed(spot) and room.outside(words) and room.nearest_to(words, own, others):
            if sheet.write(words):
                return
    for words, _ in _tries(room, laid, line, text, 0, range(2), (-1, 1)):
        if room.inside(words) and room.nearest_to(words, own, others) and sheet.write(words):
            return
    for words, spot in _tries(room, laid, line, text, off, range(1, FAR)):
        if room.exposed(spot) and room.lead(words, spot):
            return
    x, y = own.interpolate(0.5, normalized=True).coords[0]
    _led_right(room, (x, y), text)


def _tries(
    room: Room, laid: Laid, line: Line, text: str, off: float, steps: range, ways: tuple[int, ...] = (1,)
) -> Iterator[Try]:
    """Words beside a side, the nearest first, along it before level; `ways` -1 into the bed, 1 out of it."""
    sheet, length = room.sheet, sum(math.dist(*pair) for pair in pairwise(line)) * room.sheet.k
    for step in steps:
        for share in SHARES if len(laid.taped) <= MANY else SHARES[:1]:
            here, there, at = _on(line, share)
            (x, y), out = sheet.point(at), outward(sheet, laid, here, there)
            for way in ways:
                out = out[0] * way, out[1] * way
                away = OFF + off + step * (SIZE + AIR)
                if len(line) == 2 and wide(text) <= 2 * min(share, 1 - share) * length:
                    yield _along(sheet, line, (x, y), out, away, text), (x, y)
                side = anchor(out[0])
                lower = TALL * (0.5 + 0.5 * out[1]) if side == "middle" else TALL / 2
                level = (x + out[0] * away, y + out[1] * away + lower)
                yield Words(text, level, 0, side, clear=True), (x, y)


def _along(sheet: Sheet, line: Line, at: Point, out: Point, away: float, text: str) -> Words:
    (x1, y1), (x2, y2) = sheet.point(line[0]), sheet.point(line[1])
    turn = upright(math.degrees(math.atan2(y2 - y1, x2 - x1)))
    # words stand on their foot: over it where they are outside above, under it below
    foot = math.cos(math.radians(turn)) * out[1] - math.sin(math.radians(turn)) * out[0]
    drop = away + (TALL if foot > 0 else 0)
    return Words(text, (at[0] + out[0] * drop, at[1] + out[1] * drop), turn, clear=True)


def _on(line: Line, share: float) -> tuple[Point, Point, Point]:
    """The piece of a line that a point lies on at this share of its length, and the point."""
    steps = [pair for pair in pairwise(line) if pair[0] != pair[1]]
    left = sum(math.dist(*pair) for pair in steps) * share
    for here, there in steps:
        length = math.dist(here, there)
        if left <= length or (here, there) == steps[-1]:
            part = min(left / length, 1.0)
            return here, there, (here[0] + (there[0] - here[0]) * part, here[1] + (there[1] - here[1]) * part)
        left -= length
    return line[0], line[-1], line[0]


def _led_right(room: Room, spot: Point, text: str) -> None:
    """Words to the right of the bed, with a line that leads to them."""
    right = room.ground.bounds[2] + 3 * OFF
    for step in range(FAR):
        for y in {spot[1] + step * (SIZE + AIR), spot[1] - step * (SIZE + AIR)}:
            words = Words(text, (right + OFF / 2, y + TALL / 2), anchor="start")
            if room.off_the_strokes(words) and room.sheet.write(words):
                room.sheet.stroke("taped", (spot, (right, y)))
                return


def _inside(room: Room, each: Taped, text: str) -> None:
    """A line across the bed with its length on it, or led out to the right where it is too short."""
    sheet = room.sheet
    (x1, y1), (x2, y2) = sheet.line(each.line)
    sheet.stroke("taped", ((x1, y1), (x2, y2)))
    turn = upright(math.degrees(math.atan2(y2 - y1, x2 - x1)))
    lift = math.radians(turn)
    for share in SHARES:
        x, y = x1 + (x2 - x1) * share, y1 + (y2 - y1) * share
        on = Words(text, (x - TALL / 2 * math.sin(lift), y + TALL / 2 * math.cos(lift)), turn, clear=True)
        fits = wide(text) + 2 * AIR <= 2 * min(share, 1 - share) * math.dist((x1, y1), (x2, y2))
        if fits and room.off_the_strokes(on) and sheet.write(on):
            return
    _led_right(room, ((x1 + x2) / 2, (y1 + y2) / 2), text)


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


def _ray(room: Room, each: Taped, text: str) -> None:
    """A width or a spoke, with its length beyond its end, as far out as there is room."""
    sheet = room.sheet
    (x1, y1), (x2, y2) = sheet.line(each.line)
    length = math.dist((x1, y1), (x2, y2))
    if length:
        sheet.stroke("taped", ((x1, y1), (x2, y2)))
    out = ((x2 - x1) / length, (y2 - y1) / length) if length else (0.0, -1.0)
    lower = TALL * (0.5 + 0.5 * out[1])
    for step in range(2 * FAR):
        away = OFF + step * OFF
        end = x2 + out[0] * away, y2 + out[1] * away
        if each.where == "across":
            words = Words(text, (end[0] + TALL / 2, end[1]), -90, "start")
        else:
            words = Words(text, (end[0], end[1] + lower), 0, anchor(out[0]))
        if room.outside(words) and sheet.write(words):
            if step > 1:
                room.leader(((x2, y2), (end[0] - out[0] * AIR, end[1] - out[1] * AIR)))
            return
