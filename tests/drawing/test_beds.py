"""Drawings of beds of every shape: true to scale, readable, and told in words."""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import contextmanager
from fractions import Fraction
from itertools import combinations
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from pyproj import Geod
from shapely import Polygon, box

from scopegen.drawing import Drawing, Drawn, draw_beds, draw_plans
from scopegen.drawing.scales import HIGHEST, WIDEST
from scopegen.drawing.sheet import box_of
from scopegen.words import lexicon
from tests.test_any_job import DRAWN, job_of
from tests.test_properties import FEW, opened

WORDS = lexicon("en")
REST = """outline: 400 ft
    found: {edge: soft, weeds: light, ground: old mulch, ground_depth: 1 in}
    material: {use: twice-ground-hardwood, depth: 2 in}
    bed_prep: {decided: included, work: hand-weed}
    edging: {decided: included, work: recut-edge}
    debris: {decided: included, work: haul-away}
    substrate: {decided: included, work: rake-and-top-up}"""
DRAWABLE = sorted(set(DRAWN) - {"area", "volume"})  # what was only stated has no shape
# These are worked out as other figures than the straight or swung line that is drawn through their ends.
OTHERWISE = ("spokes", "rule: simpson", "rule: average")


@contextmanager
def drawn(*beds: str, head: str = "") -> Iterator[tuple[Drawn, ...]]:
    """Beds drawn: each given as the YAML of its shape and what is said beside it."""
    with opened(head + job_of([f"{bed}\n    {REST}" for bed in beds])) as case:
        assert case.measured is not None
        yield draw_beds(case, WORDS)


def one(bed: str, head: str = "") -> Drawing:
    with drawn(bed, head=head) as (only,):
        assert only.drawing is not None
        return only.drawing


def ground(drawing: Drawing) -> Any:
    """What is drawn, less what is left out, as a region in points."""
    from shapely import union_all

    whole = union_all([Polygon(region) for region in drawing.regions])
    return whole.difference(union_all([Polygon(gap) for gap in drawing.gaps]))


@st.composite
def shaped(draw: DrawFn, names: list[str] = DRAWABLE) -> tuple[str, str]:
    name = draw(st.sampled_from(names))
    return name, f"shape: {DRAWN[name](draw)}"


@FEW
@given(st.lists(shaped(), min_size=1, max_size=4))
def test_area_at_the_printed_scale_is_the_measured_one(beds: list[tuple[str, str]]) -> None:
    """Whoever measures the paper gets the bed's area: a curve drawn in 96 steps is short of it by less than a
    thousandth."""
    with drawn(*(text for _, text in beds)) as results:
        for (_, text), each in zip(beds, results, strict=True):
            assert each.drawing is not None and each.bed.area is not None
            if not any(said in text for said in OTHERWISE):
                assert square_feet(each.drawing) == pytest.approx(float(each.bed.area), rel=0.001, abs=0.05)


def square_feet(drawing: Drawing) -> float:
    assert drawing.scale is not None
    return float(ground(drawing).area) / drawing.scale.per_foot**2


def test_equal_spokes_make_a_circle_and_equal_widths_a_rectangle() -> None:
    """Where the line through the ends is the figure that is worked out, the areas agree here too."""
    circle = one("shape: {spokes: [7 ft, 7 ft, 7 ft, 7 ft, 7 ft]}")
    assert square_feet(circle) == pytest.approx(math.pi * 49, rel=0.002)
    for rule in ("simpson", "average"):
        strip = one(f"shape: {{widths: {{every: 5 ft, across: [4 ft, 4 ft, 4 ft], rule: {rule}}}}}")
        assert square_feet(strip) == pytest.approx(40, rel=1e-6)


@FEW
@given(st.lists(shaped(), min_size=1, max_size=4))
def test_words_and_lines_stay_on_the_sheet_and_clear_of_one_another(beds: list[tuple[str, str]]) -> None:
    """Nothing is cut off at the sheet's edge, and no two words cover each other."""
    with drawn(*(text for _, text in beds)) as results:
        for each in results:
            drawing = each.drawing
            assert drawing is not None and drawing.width <= WIDEST and drawing.height <= HIGHEST
            sheet = box(0, 0, drawing.width, drawing.height)
            boxes = [Polygon(box_of(words)) for words in drawing.words]
            assert all(sheet.contains(words) for words in boxes)
            for stroke in drawing.strokes:
                assert all(0 <= x <= drawing.width and 0 <= y <= drawing.height for x, y in stroke.points), (
                    stroke.kind
                )
            for one_box, other in combinations(boxes, 2):
                assert one_box.intersection(other).area < 1e-6


@FEW
@given(shaped(), st.integers(10, 90))
def test_names_of_parts_stand_inside_them_and_their_sizes_are_true(bed: tuple[str, str], share: int) -> None:
    """A part takes its share of the drawn ground, and its name, where it has room, stands in it."""
    with drawn(bed[1]) as (plain,):
        assert plain.bed.area is not None
        first = math.floor(plain.bed.area * share) / 100
    if first < 0.5 or plain.bed.area - Fraction(first) < Fraction(1, 2):
        return
    with drawn(f"{bed[1]}\n    parts: {{shade: {first:.2f} ft2, sun: rest}}") as (each,):
        drawing = each.drawing
        assert drawing is not None and [name for name, _ in drawing.parts] == ["shade", "sun"]
        regions = {name: [Polygon(piece) for piece in pieces] for name, pieces in drawing.parts}
        size = sum(piece.area for piece in regions["shade"]) - sum(
            piece.intersection(Polygon(gap)).area for piece in regions["shade"] for gap in drawing.gaps
        )
        assert size == pytest.approx(
            float(Fraction(first) / plain.bed.area) * ground(drawing).area, rel=1e-3, abs=0.5
        )
        for words in drawing.words:
            if words.inside and words.text.split(",")[0] in regions:
                name = words.text.split(",")[0]
                assert any(piece.contains(Polygon(box_of(words))) for piece in regions[name])


def test_inside_words_are_written_where_there_is_room() -> None:
    """The property above has something to look at: both names of a wide bed are written."""
    drawing = one("shape: {rectangle: {length: 40 ft, width: 20 ft}}\n    parts: {shade: 300 ft2, sun: rest}")
    assert [words.text for words in drawing.words if words.inside] == ["shade, 300 ft²", "sun, 500 ft²"]


@pytest.mark.parametrize(
    ("shape", "texts"),
    [
        ("{rectangle: {length: 32 ft, width: 4 ft 6 in}}", ["32 ft", "4 ft 6 in"]),
        ("{strip: {length: 40 ft, width: 2 ft 3 1/2 in}}", ["40 ft", "2 ft 3½ in"]),
        ("{triangle: {sides: [13 ft, 14 ft, 15 ft]}}", ["13 ft", "14 ft", "15 ft"]),
        ("{triangle: {base: 15 ft, height: 9 ft}}", ["15 ft", "9 ft"]),
        (
            "{quadrilateral: {sides: [10 ft, 12 ft, 11 ft, 9 ft], diagonal: 14 ft}}",
            ["10 ft", "12 ft", "11 ft", "9 ft", "14 ft"],
        ),
        ("{trapezoid: {sides: [12 ft, 8 ft], apart: 5 ft}}", ["12 ft", "8 ft", "5 ft"]),
        ("{circle: {radius: 4 ft}}", ["8 ft"]),
        ("{half_circle: {diameter: 22 ft}}", ["22 ft"]),
        ("{quarter_circle: {radius: 14 ft}}", ["14 ft"]),
        ("{ring: {outer: 12 ft, inner: 3 ft}}", ["12 ft", "3 ft"]),
        ("{ellipse: {length: 24 ft, width: 11 ft}}", ["24 ft", "11 ft"]),
        (
            "{polygon: [[0 ft, 0 ft], [24 ft, 0 ft], [24 ft, 6 ft], [0 ft, 6 ft]]}",
            ["24 ft", "6 ft", "24 ft", "6 ft"],
        ),
        (
            "{widths: {every: 5 ft, across: [0 ft, 3 ft 4 in, 4 ft, 2 ft]}}",
            ["15 ft, a width every 5 ft", "0 ft", "3 ft 4 in", "4 ft", "2 ft"],
        ),
        ("{spokes: [7 ft, 8 ft 6 in, 6 ft]}", ["7 ft", "8 ft 6 in", "6 ft"]),
        (
            "{parts: [{rectangle: {length: 30 ft, width: 8 ft}, at: [0 ft, 0 ft]},"
            " {rectangle: {length: 18 ft, width: 7 ft}, at: [8 ft, 8 ft], turned: 90 degrees}]}",
            ["30 ft", "8 ft", "18 ft", "7 ft"],
        ),
    ],
)
def test_every_measure_is_written_as_it_was_taken(shape: str, texts: list[str]) -> None:
    """What the tape read stands on the drawing, and the words read out the same."""
    drawing = one(f"shape: {shape}")
    written = [words.text for words in drawing.words if "(" not in words.text]
    assert sorted(written) == sorted(texts)
    assert all(text.split(",")[0] in drawing.told for text in texts if "every" not in text)


def test_measured_side_is_as_long_as_the_scale_says() -> None:
    """32 ft at 1 in = 8 ft are 4 inches, 288 points; the bar of 5 ft is 45 points long."""
    drawing = one("shape: {rectangle: {length: 32 ft, width: 4 ft 6 in}}")
    assert drawing.scale.said == "1 in = 8 ft"
    (x1, y1), (x2, y2) = next(s for s in drawing.strokes if s.kind == "worked").points
    assert math.dist((x1, y1), (x2, y2)) == pytest.approx(32 / 8 * 72)
    (x1, y1), (x2, y2) = next(s for s in drawing.strokes if s.kind == "bar").points
    assert math.dist((x1, y1), (x2, y2)) == pytest.approx(5 / 8 * 72)
    assert "5 ft (1 in = 8 ft)" in " ".join(words.text.replace("   ", " ") for words in drawing.words)


def test_metric_job_has_a_metric_scale() -> None:
    """10 m at 1:100 are 10 cm on paper, 283.5 points (ISO 5455: 1:100 is one of the recommended scales)."""
    drawing = one("shape: {rectangle: {length: 10 m, width: 2.50 m}}", head="units: metric\n")
    assert drawing.scale.said == "1:100"
    (x1, _), (x2, _) = next(s for s in drawing.strokes if s.kind == "worked").points
    assert x2 - x1 == pytest.approx(0.10 / 0.0254 * 72, abs=0.01)
    assert {"10 m", "2.5 m"} <= {words.text for words in drawing.words}


def test_one_scale_for_beds_that_go_together() -> None:
    """Beds of like size share a scale; a tree ring beside a drive of 140 ft has one of its own."""
    with drawn(
        "shape: {strip: {length: 140 ft, width: 4 ft}}",
        "shape: {rectangle: {length: 60 ft, width: 12 ft}}",
        "shape: {ring: {outer: 6 ft, inner: 2 ft}}",
        "shape: {circle: {diameter: 5 ft}}",
    ) as results:
        scales = [each.drawing.scale.said for each in results if each.drawing]
    assert scales[0] == scales[1] and scales[2] == scales[3]
    assert scales[0] != scales[2]


def test_edges_are_told_apart() -> None:
    """Cut, cut in part, an add-on, left as it is, and against something: each its own line."""
    shape = "shape: {rectangle: {length: 20 ft, width: 6 ft}}\n    against: {walk: front}"
    ways = {
        "worked": "{decided: included, work: recut-edge}",
        "partly": "[{decided: included, work: recut-edge, along: 10 ft}, {decided: excluded, along: rest}]",
        "offered": "{decided: add-on, work: recut-edge}",
        "left": "{decided: excluded}",
    }
    for kind, way in ways.items():
        rest = REST.replace("{decided: included, work: recut-edge}", way).replace("outline: 400 ft\n    ", "")
        with opened(job_of([f"{shape}\n    {rest}"])) as case:
            (each,) = draw_beds(case, WORDS)
        assert each.drawing is not None
        kinds = [stroke.kind for stroke in each.drawing.strokes]
        assert kinds.count(kind) == 3 and kinds.count("against") == 1 and kinds.count("solid") > 10
        assert "20 ft, walk" in {words.text for words in each.drawing.words}


def test_what_is_left_out_is_drawn_where_it_lies() -> None:
    """With its place, a clearing is drawn there; without, where there is room for it; both to scale."""
    bed = "shape: {rectangle: {length: 40 ft, width: 8 ft}}"
    placed = one(f"{bed}\n    leave_out: [{{circle: {{diameter: 3 ft}}, at: [5 ft, 6 ft]}}]")
    (gap,) = (Polygon(line) for line in placed.gaps)
    left, top, _, bottom = Polygon(placed.regions[0]).bounds
    k = placed.scale.per_foot
    assert gap.centroid.x - left == pytest.approx(5 * k, abs=0.01)
    assert bottom - gap.centroid.y == pytest.approx(6 * k, abs=0.01)
    somewhere = one(
        f"{bed}\n    leave_out: [{{circle: {{diameter: 3 ft}}}},"
        " {rectangle: {length: 4 ft, width: 2 ft}}]"
    )
    first, second = (Polygon(line) for line in somewhere.gaps)
    assert Polygon(somewhere.regions[0]).contains(first) and not first.intersects(second)
    assert second.area == pytest.approx(8 * somewhere.scale.per_foot**2, rel=1e-6)


def test_long_words_make_the_drawing_smaller_and_never_to_another_scale() -> None:
    """What lies beside a bed may have a long name: it is shortened, and a page takes the drawing as it is."""
    long = "the neighbor's wall with the ivy that nobody may touch"
    bed = f'shape: {{rectangle: {{length: 32 ft, width: 3 ft}}}}\n    against: {{"{long}": [left, right]}}'
    drawing = one(bed)
    assert drawing.width <= WIDEST and long in drawing.told
    texts = {words.text for words in drawing.words}
    assert "3 ft, the neighbor's wall wit…" in texts
    west, _, east, _ = Polygon(drawing.regions[0]).bounds
    assert east - west == pytest.approx(32 * drawing.scale.per_foot, abs=0.01)


def test_bed_that_was_only_told_is_not_drawn() -> None:
    """An area or a volume without a shape gives no drawing."""
    with drawn("shape: {area: 60 ft2}") as (each,):
        assert each.drawing is None


def test_far_too_much_left_out_is_told_and_not_drawn() -> None:
    """What finds no room as it is drawn is counted."""
    with drawn(
        "shape: {rectangle: {length: 40 ft, width: 4 ft}}\n    leave_out: [{circle: {diameter: 6 ft}}]"
    ) as (each,):
        assert each.laid is not None and each.laid.loose == 1
        assert each.drawing is not None and each.drawing.gaps == ()


def test_plan_lays_map_beds_where_the_map_has_them() -> None:
    """The distance between two beds' first points on the plan is the geodesic one (PROJ's Geod, WGS 84)."""
    rings = [
        [(-30.0, 40.0), (-29.9998, 40.0), (-29.9998, 40.0001), (-30.0, 40.0001)],
        [(-29.9995, 40.0002), (-29.9993, 40.0002), (-29.9993, 40.0003), (-29.9995, 40.0003)],
    ]
    beds = [
        f"shape: {{map: [{', '.join(f'[{x:.5f}, {y:.5f}]' for x, y in ring)}]}}\n    measured_by: map"
        for ring in rings
    ]
    with opened(job_of([f"{bed}\n    {REST}" for bed in beds])) as case:
        (plan,) = draw_plans(case, WORDS, draw_beds(case, WORDS))
    drawing = plan.drawing
    _, _, metres = Geod(ellps="WGS84").inv(*rings[0][0], *rings[1][0])
    south_west = [min(region, key=lambda point: point[0] - point[1]) for region in drawing.regions]
    on_paper = math.dist(*south_west) / drawing.scale.per_foot * 0.3048
    assert on_paper == pytest.approx(metres, rel=1e-4)
    assert south_west[1][0] > south_west[0][0] and south_west[1][1] < south_west[0][1]  # east, and north
    assert plan.on_map and plan.beds == ("Bed 1", "Bed 2")
    assert "N" in {words.text for words in drawing.words}


def test_plan_of_beds_placed_from_one_corner() -> None:
    """Beds with a place stand there, turned as said; one without is not on the plan."""
    shape = "shape: {rectangle: {length: 20 ft, width: 6 ft}}\n    "
    places = ("at: [0 ft, 0 ft]\n    ", "at: [40 ft, 10 ft]\n    turned: 90 degrees\n    ", "")
    with opened(job_of([shape + place + REST for place in places])) as case:
        (plan,) = draw_plans(case, WORDS, draw_beds(case, WORDS))
    assert plan.beds == ("Bed 1", "Bed 2") and not plan.on_map
    k = plan.drawing.scale.per_foot
    level, upright = (Polygon(region).bounds for region in plan.drawing.regions)
    assert (level[2] - level[0], level[3] - level[1]) == pytest.approx((20 * k, 6 * k), abs=0.01)
    assert (upright[2] - upright[0], upright[3] - upright[1]) == pytest.approx((6 * k, 20 * k), abs=0.01)
    assert upright[2] - level[0] == pytest.approx(40 * k, abs=0.01)
    assert level[3] - upright[3] == pytest.approx(10 * k, abs=0.01)


def test_told_in_words() -> None:
    """A reader who sees nothing hears the shape, its sizes, what it lies against and what happens there."""
    with drawn(
        "shape: {rectangle: {length: 32 ft, width: 4 ft 6 in}}\n    against: {walk: front, wall: 3 ft}\n"
        "    leave_out: {circle: {diameter: 2 ft}}\n    parts: {shade: 40 ft2, sun: rest}",
    ) as (each,):
        assert each.drawing is not None
        assert each.drawing.told == (
            "Bed 1, drawn to scale: a rectangle, 32 ft long and 4 ft 6 in wide. Its area is 140.9 ft²."
            " Against the walk: the lower side, 32 ft. Against the wall: 3 ft. Where that is was not"
            " measured. We work on all of its open edge, 365 ft. The drawing leaves 3.1 ft² inside it blank:"
            " nothing is done there. Its parts are shade (40 ft²) and sun (100.9 ft²)."
        )


def test_form_told_in_words() -> None:
    """Which side lies against what, where a part starts, and how far it is turned."""
    walks = one(
        "shape: {rectangle: {length: 46 ft, width: 12 ft}}\n    against: {walk: [left, right], wall: back}"
    )
    assert (
        "Against the walk: the left side, 12 ft. Against the walk: the right side, 12 ft. Against the wall:"
        " the upper side, 46 ft." in walks.told
    )
    west, north, east, _ = Polygon(walks.regions[0]).bounds
    texts = {words.text: words.at for words in walks.words}
    assert texts["46 ft"][1] > north and texts["wall"][1] < north  # as it lies on the page
    house = one("shape: {triangle: {sides: [13 ft, 14 ft, 15 ft]}}\n    against: {house: c}")
    assert "sides of 13 ft, 14 ft and 15 ft" in house.told
    assert "Against the house: side 3, 15 ft." in house.told
    court = one(
        "shape: {parts: [{rectangle: {length: 30 ft, width: 8 ft}, at: [0 ft, 0 ft]},"
        " {rectangle: {length: 18 ft, width: 8 ft}, at: [8 ft, 2 ft], turned: 90 degrees}]}"
    )
    assert (
        "part 1, a rectangle, 30 ft long and 8 ft wide; part 2, a rectangle, 18 ft long and 8 ft wide,"
        " starting 8 ft to the right and 2 ft up the page, turned 90 degrees to the left." in court.told
    )
