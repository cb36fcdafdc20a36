"""The beds whose places are known, on one plan."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from scopegen import shapes
from scopegen.case import Case
from scopegen.drawing.beds import Drawn
from scopegen.drawing.laid import pieces
from scopegen.drawing.names import write_inside, write_near
from scopegen.drawing.picture import add_scale_bar
from scopegen.drawing.room import Room
from scopegen.drawing.scales import scales_for
from scopegen.drawing.sheet import Sheet
from scopegen.drawing.values import Drawing, Line
from scopegen.quantities import show
from scopegen.words import Lexicon

LEAST = 2  # beds that make a plan


@dataclass(frozen=True, slots=True)
class Plan:
    """Beds by the same corner of the property, or by the map."""

    drawing: Drawing
    on_map: bool
    beds: tuple[str, ...]


# A bed, where its shape's own layout starts in ft, its turn, and whether that is its start or its center.
Placed = tuple[Drawn, tuple[Fraction | float, Fraction | float], float, str]
CENTERED = (shapes.Circle, shapes.Ring, shapes.Ellipse, shapes.HalfCircle, shapes.Spokes)
# What a step to the right and one up the page is called, and what one back is; on a map by its directions.
WAYS = {
    False: (("right", "left"), ("up", "down")),
    True: (("east", "west"), ("north_of", "south")),
}


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
            by_map.append((each, shapes.ring_offset(first, shape), 0.0, "start"))
        elif bed.at is not None:
            origin = "center" if isinstance(shape, CENTERED) else "start"
            by_corner.append((each, bed.at, float(bed.turned), origin))
    plans: tuple[tuple[list[Placed], bool], ...] = ((by_corner, False), (by_map, True))
    return tuple(_plan(words, laid, on_map, job.units) for laid, on_map in plans if len(laid) >= LEAST)


def _moved(region: Any, at: Any, turned: float) -> Any:
    from shapely import affinity

    return affinity.translate(affinity.rotate(region, turned, origin=(0, 0)), *(float(value) for value in at))


def _plan(words: Lexicon, laid: list[Placed], on_map: bool, units: str) -> Plan:
    from shapely import union_all

    placed = [(each, _moved(each.laid.net, at, turned)) for each, at, turned, _ in laid if each.laid]
    west, south, east, north = union_all([region for _, region in placed]).bounds
    (scale,) = scales_for([(east - west, north - south)], units == "metric")
    sheet, regions, gaps, unnamed = Sheet(scale), list[Line](), list[Line](), []
    for each, region in placed:
        for piece in pieces(region):
            regions.append(sheet.line(piece.exterior.coords[:-1]))
            sheet.stroke("bed", regions[-1], closed=True)
            for ring in piece.interiors:
                gaps.append(sheet.line(ring.coords[:-1]))
                sheet.stroke("gap", gaps[-1], closed=True)
        if not write_inside(sheet, region, ((each.bed.name,),)):
            number = sheet.number(each.bed.name)
            if not write_inside(sheet, region, ((number,),)):
                unnamed.append((region, number))
    room = Room(sheet, union_all([region for _, region in placed]))
    for region, number in unnamed:
        write_near(room, region, number)
    names = tuple(each.bed.name for each, _, _, _ in laid)
    add_scale_bar(sheet, words.say("drawing.plan.north") if on_map else "")
    told = _told(words, laid, on_map, units)
    return Plan(sheet.drawing(tuple(regions), tuple(gaps), (), told), on_map, names)


def _told(words: Lexicon, laid: list[Placed], on_map: bool, units: str) -> str:
    """The plan in words: every bed's size, and how far it lies from the first along each axis of the page."""
    say, first = words.say, laid[0]
    names = words.list(each.bed.name for each, _, _, _ in laid)
    sentences = [say("drawing.plan.map" if on_map else "drawing.plan.corner", beds=names)]
    for each, at, _, origin in laid:
        assert each.bed.area is not None
        bed = {"bed": each.bed.name, "area": show.area(each.bed.area, units)}
        if each is first[0]:
            sentences.append(say("drawing.plan.first", **bed))
            continue
        steps = [here - there for here, there in zip(at, first[1], strict=True)]
        ways = [
            say(f"drawing.plan.{more if step > 0 else less}", length=length)
            for step, (more, less) in zip(steps, WAYS[on_map], strict=True)
            if (length := _far(step, units, on_map))
        ]
        there = f"{'from' if ways else 'at'}_{first[3]}"
        way = say(
            f"drawing.plan.{there}", bed=first[0].bed.name, **({"way": words.list(ways)} if ways else {})
        )
        sentences.append(say(f"drawing.plan.{origin}", way=way, **bed))
    return " ".join(sentences)


def _far(step: Fraction | float, units: str, on_map: bool) -> str:
    """How far, as it was measured; empty where that is nothing. A map is told to the tenth."""
    far = abs(Fraction(step))
    said = show.run(far, units) if on_map else show.tape(far, units)
    return "" if said in (show.run(Fraction(0), units), show.tape(Fraction(0), units)) else said
