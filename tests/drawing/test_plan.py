"""The plan: plain outlines, names in the beds, and the same in words for a reader who does not see it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from shapely import Polygon

from scopegen.case import Case
from scopegen.check import check
from scopegen.drawing import Plan, draw_beds, draw_plans
from scopegen.drawing.legend import KINDS
from scopegen.drawing.sheet import box_of
from scopegen.papers.agreement import compose
from scopegen.papers.document import Figures
from scopegen.papers.frame import frame_of
from scopegen.words import lexicon
from tests.drawing.test_beds import REST
from tests.test_any_job import job_of
from tests.test_properties import opened

SOUND = REST.replace("outline: 400 ft\n    ", "")
WALK = "shape: {rectangle: {length: 32 ft, width: 4 ft 6 in}}\n    at: [10 ft, 5 ft]"
CORNER = "shape: {triangle: {sides: [13 ft, 14 ft, 15 ft]}}\n    at: [50 ft, 2 ft 6 in]"
RING = "shape: {ring: {outer: 12 ft, inner: 3 ft}}\n    at: [10 ft, 40 ft]"
SMALL = "shape: {circle: {diameter: 2 ft}}\n    at: [60 ft, 40 ft]"


@contextmanager
def laid(*beds: str, head: str = "") -> Iterator[Case]:
    with opened(head + job_of([f"{bed}\n    {SOUND}" for bed in beds])) as case:
        yield case


def plan_of(*beds: str, head: str = "", language: str = "en") -> Plan:
    words = lexicon(language)
    with laid(*beds, head=head) as case:
        (plan,) = draw_plans(case, words, draw_beds(case, words))
    return plan


def test_outlines_on_a_plan_have_no_meaning_of_the_legend() -> None:
    """What happens to an edge is told on the bed's own drawing alone; the plan stands before the legend."""
    plan = plan_of(WALK, CORNER)
    assert {stroke.kind for stroke in plan.drawing.strokes} == {"bed", "bar"}
    assert not {"bed", "bar"} & set(KINDS)
    with laid(WALK, CORNER) as case:
        (exhibit,) = (
            each for each in compose(frame_of(case, lexicon("en"))).sections if each.key == "drawings"
        )
    (figures,) = (block for block in exhibit.blocks if isinstance(block, Figures))
    titles = [figure.title for row in figures.rows for figure in row]
    assert titles[:2] == ["Where the beds lie", "What the lines mean"]
    assert "What is done there is on the drawing of the bed." in figures.rows[0][0].lines[-1]


def test_names_stand_level_in_their_beds() -> None:
    """Names have room in a walk, a triangle and a ring round a clearing; a bed of 2 ft has a number."""
    plan = plan_of(WALK, CORNER, RING, SMALL)
    written = {words.text: words for words in plan.drawing.words}
    for number, region in enumerate(plan.drawing.regions[:3], 1):
        words = written[f"Bed {number}"]
        assert words.turn == 0 and Polygon(region).contains(Polygon(box_of(words)))
    (gap,) = (Polygon(gap) for gap in plan.drawing.gaps)
    assert not gap.intersects(Polygon(box_of(written["Bed 3"])))
    assert plan.drawing.key == (("1", "Bed 4"),) and "1" in written
    beds = [Polygon(region) for region in plan.drawing.regions]
    assert not any(
        bed.exterior.intersects(Polygon(box_of(words))) for bed in beds for words in written.values()
    )


def test_plan_told_in_words() -> None:
    """Every bed's size, and how far it starts from the first: 50 − 10 ft, 2 ft 6 in − 5 ft, 40 − 5 ft."""
    assert plan_of(WALK, CORNER, RING, WALK).drawing.told == (
        "The beds where they lie on the property, drawn to scale: Bed 1, Bed 2, Bed 3 and Bed 4. Bed 1 has"
        " 144 ft². Bed 2 has 84 ft² and starts 40 ft to the right and 2 ft 6 in down the page from where Bed"
        " 1 starts. Bed 3 has 106 ft². Its center lies 35 ft up the page from where Bed 1 starts. Bed 4 has"
        " 144 ft² and starts where Bed 1 starts."
    )
    round_first = plan_of(RING, WALK).drawing.told
    assert round_first.endswith(
        "Bed 1 has 106 ft². Bed 2 has 144 ft² and starts 35 ft down the page from the center of Bed 1."
    )
    assert "empieza 40 ft a la derecha y 2 ft 6 in hacia abajo en la página" in (
        plan_of(WALK, CORNER, language="es").drawing.told
    )


RINGS = [
    [(-30.0, 40.0), (-29.9998, 40.0), (-29.9998, 40.0001), (-30.0, 40.0001)],
    [(-29.9995, 39.9998), (-29.9993, 39.9998), (-29.9993, 39.9999), (-29.9995, 39.9999)],
]


def on_map(ring: list[tuple[float, float]]) -> str:
    return f"shape: {{map: [{', '.join(f'[{x:.5f}, {y:.5f}]' for x, y in ring)}]}}\n    measured_by: map"


def test_map_told_in_words() -> None:
    """A degree at 40 degrees north is 85,394 m from west to east and 111,035 m from south to north (lengths
    of a degree on the ellipsoid of WGS 84): 0.0005 and 0.0002 of them are 140.1 ft and 72.9 ft."""
    told = plan_of(*map(on_map, RINGS)).drawing.told
    assert told.endswith("starts 140.1 ft to the east and 72.9 ft to the south from where Bed 1 starts.")


TOUCHING = "shape: {rectangle: {length: 32 ft, width: 4 ft 6 in}}\n    at: [10 ft, 9 ft 6 in]"


@pytest.mark.parametrize(
    ("beds", "shared"),
    [
        ([WALK, WALK], "144 ft²"),
        ([WALK, TOUCHING], ""),
        ([WALK, TOUCHING.replace("9 ft 6 in", "9 ft 5½ in")], ""),  # the tape slipped by half an inch
        ([WALK, TOUCHING.replace("9 ft 6 in", "9 ft")], "16 ft²"),
        ([WALK, CORNER, RING], ""),
        # 2 ft under to 2 ft 6 in over the center of a circle, 52.66 ft² by y√(36−y²) + 36 arcsin(y/6),
        # less its clearing of 7.07 ft²
        ([WALK, RING.replace("[10 ft, 40 ft]", "[20 ft, 7 ft]")], "45.6 ft²"),
        ([f"{WALK}\n    turned: 90 degrees", WALK], ""),
        ([on_map(RINGS[0]), on_map(RINGS[0])], "2,041.2 ft²"),
        ([on_map(RINGS[0]), on_map(RINGS[1])], ""),
        ([WALK, on_map(RINGS[0])], ""),
        ([WALK, WALK.split("\n")[0]], ""),  # no place is known
    ],
)
def test_beds_that_lie_over_each_other_are_found(beds: list[str], shared: str) -> None:
    """Both are priced in full, so it is said how much; less than a slip of the tape is not."""
    assert overlaps(*beds) == ([f"Bed 2: {shared} of it lies over the bed 'Bed 1'"] if shared else [])


def overlaps(*beds: str) -> list[str]:
    with laid(*beds) as case:
        found = [finding for finding in check(case).findings if finding.rule == "beds-overlap"]
    return [finding.message.split(", and")[0] for finding in found]


def test_bed_in_what_another_leaves_out_lies_over_nothing() -> None:
    """Whether it was said where the clearing lies, or only how large it is."""
    lawn = "shape: {rectangle: {length: 40 ft, width: 30 ft}}\n    at: [0 ft, 0 ft]"
    tree = "shape: {circle: {diameter: 8 ft}}\n    at: [20 ft, 15 ft]"
    hole = "\n    leave_out: [{circle: {diameter: 8 ft}"
    assert overlaps(lawn, tree) == ["Bed 2: 50.3 ft² of it lies over the bed 'Bed 1'"]
    assert overlaps(f"{lawn}{hole}, at: [20 ft, 15 ft]}}]", tree) == []
    assert overlaps(f"{lawn}{hole}}}]", tree) == []
