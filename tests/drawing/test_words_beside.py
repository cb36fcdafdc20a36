"""Words on a drawing of any shape: off the outline, beside what they measure, in what they name."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from shapely import LineString, Point, Polygon, union_all

from scopegen.drawing import Drawing, Drawn
from scopegen.drawing.sheet import box_of
from scopegen.quantities import show
from tests.drawing.test_beds import drawn, one, shaped
from tests.test_properties import FEW

OUTLINE = {"worked", "partly", "offered", "others", "open", "mixed", "left", "against"}
# The shapes that have sides with names of their own, and some of these to lie against something.
SIDED = {"rectangle": ("front", "left"), "strip": ("front", "right"), "polygon": ("1", "2", "3")}
NAMES = st.sampled_from(["shade", "sunny end", "the part under the old maple"])


@st.composite
def sided(draw: DrawFn) -> str:
    """A bed of any shape; where its sides have names, some of them lie against a wall."""
    name, text = draw(shaped())
    sides = [side for side in SIDED.get(name, ()) if draw(st.booleans())]
    return f"{text}\n    against: {{wall: [{', '.join(map(repr, sides))}]}}" if sides else text


def strokes(drawing: Drawing, *kinds: str) -> list[Any]:
    return [
        LineString((*stroke.points, *(stroke.points[:1] if stroke.closed else ())))
        for stroke in drawing.strokes
        if stroke.kind in kinds
    ]


@FEW
@given(st.lists(sided(), min_size=1, max_size=4))
@example(["shape: {widths: {every: 2 ft, across: [0 ft, 0 ft, 2 ft]}}"])
@example(["shape: {widths: {every: 2 ft, across: [0 ft, 0 ft, 1 ft, 0 ft, 2 ft]}}"])
def test_words_keep_off_the_outline(beds: list[str]) -> None:
    """No word covers a piece of an edge: what is drawn thick is thick all along."""
    with drawn(*beds) as results:
        for each in results:
            assert each.drawing is not None
            outline = union_all(strokes(each.drawing, *OUTLINE))
            assert outline.length > 0
            for words in each.drawing.words:
                assert not outline.intersects(Polygon(box_of(words))), words.text


def feet_on_sheet(each: Drawn) -> Any:
    """How a point in ft comes to lie on the sheet: as the bed's own corners did."""
    assert each.drawing is not None and each.drawing.scale is not None and each.laid is not None
    k = each.drawing.scale.per_foot
    west, _, _, north = each.laid.whole.bounds
    left = min(x for region in each.drawing.regions for x, _ in region)
    top = min(y for region in each.drawing.regions for _, y in region)
    return lambda point: (left + (point[0] - west) * k, top + (north - point[1]) * k)


def stands_there(each: Drawn, text: str, own: Any) -> bool:
    """Whether these words stand nearer to a side than to all others, or a line leads from it to them."""
    assert each.drawing is not None
    edge = union_all([Polygon(region).exterior for region in each.drawing.regions])
    others = edge.difference(own.buffer(0.75, cap_style="flat"))
    leads = strokes(each.drawing, "leader", "taped")
    for words in each.drawing.words:
        box = Polygon(box_of(words))
        if text in words.text.split(", "):
            if others.is_empty or box.distance(own) < box.distance(others) + 0.01:
                return True
            ends = [[Point(line.coords[0]), Point(line.coords[-1])] for line in leads]
            if any(own.distance(a) < 1 and box.distance(b) < 6 for a, b in ends):
                return True
    return False


@FEW
@given(sided())
@example(
    "shape: {polygon: [[0 ft, 0 ft], [40 ft, 0 ft], [40 ft, 9 ft], [22 ft, 9 ft], [22 ft, 6 ft],"
    " [20 ft, 6 ft], [20 ft, 9 ft], [0 ft, 9 ft]]}"
)
def test_a_length_stands_beside_the_side_that_it_measures(bed: str) -> None:
    """No reader takes a length for that of another side."""
    with drawn(bed) as (each,):
        assert each.laid is not None
        on_sheet = feet_on_sheet(each)
        for measure in each.laid.taped:
            own = LineString([on_sheet(point) for point in measure.line])
            if measure.where == "side" and own.length > 1 and len(each.laid.taped) < 40:
                assert stands_there(each, show.tape(measure.length), own), measure


COURT = (
    "shape: {parts: [{rectangle: {length: 30 ft, width: 8 ft}, at: [0 ft, 0 ft]},"
    " {rectangle: {length: 18 ft, width: 8 ft}, at: [8 ft, 0 ft], turned: 90 degrees}]}"
)


def test_length_of_a_part_stands_where_all_of_its_side_is_on_the_edge() -> None:
    """Of a leg of 18 ft on a bed 8 ft wide, 10 ft are free on one side and 18 ft on the other."""
    with drawn(COURT) as (each,):
        assert each.laid is not None and each.drawing is not None
        on_sheet = feet_on_sheet(each)
        free = LineString([on_sheet((8, 8)), on_sheet((8, 18))])
        whole = LineString([on_sheet((0, 0)), on_sheet((0, 18))])
        (box,) = (Polygon(box_of(words)) for words in each.drawing.words if words.text == "18 ft")
        assert box.distance(whole) < 8 < box.distance(free)


@FEW
@given(shaped(), st.integers(4, 96), NAMES)
def test_every_part_has_its_name_and_size_or_a_number_for_them(
    bed: tuple[str, str], share: int, name: str
) -> None:
    """Nothing is hatched without a name: it stands in the part, or a number there, or led to it, has it in
    the key with the part's size."""
    with drawn(bed[1]) as (plain,):
        assert plain.bed.area is not None
        first = math.floor(plain.bed.area * share) / 100
    if first < 0.5 or float(plain.bed.area) - first < 0.5:
        return
    with drawn(f"{bed[1]}\n    parts: {{{name}: {first:.2f} ft2, sun: rest}}") as (each,):
        drawing = each.drawing
        assert drawing is not None
        keyed = {text: number for number, text in drawing.key}
        for part, pieces in drawing.parts:
            ground = union_all([Polygon(piece).buffer(0.01) for piece in pieces])
            inside = {
                words.text
                for words in drawing.words
                if words.inside and ground.contains(Polygon(box_of(words)))
            }
            if any(text.split(",")[0] == part for text in inside):
                continue
            (number,) = (number for text, number in keyed.items() if text.startswith(f"{part}, "))
            led = [line for line in strokes(drawing, "leader") if ground.intersects(Point(line.coords[0]))]
            there = [Polygon(box_of(words)) for words in drawing.words if words.text == number]
            assert number in inside or any(
                box.distance(Point(line.coords[-1])) < 3 for box in there for line in led
            )


def test_names_are_tried_in_more_than_one_place() -> None:
    """A part that is narrow has its name and size on two lines; in a bed bent round a corner each part has
    both, off its middle; a strip of 4 ft has both level."""
    narrow = "shape: {rectangle: {length: 40 ft, width: 20 ft}}\n    parts: {shade end: 120 ft2, sun: rest}"
    assert inside(one(narrow)) == ["shade end", "120 ft²", "sun, 680 ft²"]
    patio = (
        "shape: {polygon: [[0 ft, 0 ft], [24 ft, 0 ft], [24 ft, 6 ft], [10 ft, 6 ft], [10 ft, 11 ft],"
        " [0 ft, 11 ft]]}\n    parts: {shade end: 80 ft2, sunny end: rest}"
    )
    assert inside(one(patio)) == ["shade end, 80 ft²", "sunny end, 114 ft²"]
    strip = one("shape: {strip: {length: 140 ft, width: 4 ft}}\n    parts: {sunny: 200 ft2, shady: rest}")
    assert inside(strip) == ["sunny, 200 ft²", "shady, 360 ft²"]
    assert [words.turn for words in strip.words if words.inside] == [0, 0]


def inside(drawing: Drawing) -> list[str]:
    return [words.text for words in drawing.words if words.inside]


@pytest.mark.parametrize("width", ["1 ft", "6 in"])
def test_number_beside_a_part_that_has_no_room_for_it(width: str) -> None:
    """A line leads from the part to its number."""
    drawing = one(
        f"shape: {{strip: {{length: 140 ft, width: {width}}}}}\n    parts: {{sunny: 20 ft2, shady: rest}}"
    )
    assert [number for number, _ in drawing.key] == ["1", "2"] and inside(drawing) == []
    assert len(strokes(drawing, "leader")) == 2
    assert {"1", "2"} <= {words.text for words in drawing.words}
