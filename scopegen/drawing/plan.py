"""The beds whose places are known, on one plan."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from scopegen import shapes
from scopegen.case import Case
from scopegen.drawing.beds import Drawn
from scopegen.drawing.laid import pieces
from scopegen.drawing.picture import add_scale_bar, write_inside
from scopegen.drawing.scales import scales_for
from scopegen.drawing.sheet import TALL, Sheet, wide
from scopegen.drawing.values import Drawing, Line, Words
from scopegen.words import Lexicon

LEAST = 2  # beds that make a plan


@dataclass(frozen=True, slots=True)
class Plan:
    """Beds by the same corner of the property, or by the map. `key` has the names that found no room in their
    beds: (number, name)."""

    drawing: Drawing
    on_map: bool
    beds: tuple[str, ...]
    key: tuple[tuple[str, str], ...]


def draw_plans(case: Case, words: Lexicon, drawn: tuple[Drawn, ...]) -> tuple[Plan, ...]:
    """A plan of the beds placed from one corner, and one of those from a map, each where there are two."""
    job, by_corner, by_map = case.job, [], []
    first: shapes.MapRing | None = None
    for each in drawn:
        bed = job.beds[each.bed.index]
        if each.laid is None or bed.shape is None:
            continue
        shape = bed.shape.value()
        if isinstance(shape, shapes.MapRing):
            first = first or shape
            by_map.append((each, _moved(each.laid.net, shapes.ring_offset(first, shape), 0)))
        elif bed.at is not None:
            by_corner.append((each, _moved(each.laid.net, bed.at, float(bed.turned))))
    plans = ((by_corner, False), (by_map, True))
    metric = job.units == "metric"
    return tuple(_plan(words, placed, on_map, metric) for placed, on_map in plans if len(placed) >= LEAST)


def _moved(region: Any, at: Any, turned: float) -> Any:
    from shapely import affinity

    return affinity.translate(affinity.rotate(region, turned, origin=(0, 0)), *(float(value) for value in at))


def _plan(words: Lexicon, placed: list[tuple[Drawn, Any]], on_map: bool, metric: bool) -> Plan:
    from shapely import union_all

    west, south, east, north = union_all([region for _, region in placed]).bounds
    (scale,) = scales_for([(east - west, north - south)], metric)
    sheet, key, regions, gaps = Sheet(scale), [], list[Line](), list[Line]()
    for number, (each, region) in enumerate(placed, 1):
        for piece in pieces(region):
            regions.append(sheet.line(piece.exterior.coords[:-1]))
            sheet.stroke("left", regions[-1], closed=True)
            for ring in piece.interiors:
                gaps.append(sheet.line(ring.coords[:-1]))
                sheet.stroke("gap", gaps[-1], closed=True)
        if not write_inside(sheet, region, (each.bed.name, str(number))):
            _write_near(sheet, region, str(number))
        if sheet.words and sheet.words[-1].text == str(number):
            key.append((str(number), each.bed.name))
    names = tuple(each.bed.name for each, _ in placed)
    add_scale_bar(sheet, words.say("drawing.plan.north") if on_map else "")
    told = words.say("drawing.plan.map" if on_map else "drawing.plan.corner", beds=words.list(names))
    return Plan(sheet.drawing(tuple(regions), tuple(gaps), (), told), on_map, names, tuple(key))


def _write_near(sheet: Sheet, region: Any, text: str) -> None:
    """A number beside a bed that has no room for it: to its right, left, over or under it."""
    west, south, east, north = region.bounds
    (left, bottom), (right, top) = sheet.point((west, south)), sheet.point((east, north))
    x, y, off = (left + right) / 2, (top + bottom) / 2, 3.0
    sheet.write(
        Words(text, (right + off, y + TALL / 2), anchor="start", clear=True),
        Words(text, (left - off, y + TALL / 2), anchor="end", clear=True),
        Words(text, (x, top - off), clear=True),
        Words(text, (x, bottom + off + TALL), clear=True),
        Words(text, (right + off + wide(text), top - off), anchor="start", clear=True),
    )
