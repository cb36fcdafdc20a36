"""From what the tape said to areas, edges and parts of beds."""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scopegen.answers import every_answer
from scopegen.load import parse
from scopegen.measure import BedMeasure, measure
from scopegen.understand import understand_chart, understand_job

PENCIL = Path(__file__).parents[1] / "pencil"
CHART = understand_chart(
    parse((PENCIL / "prices-2027.yaml").read_text(encoding="utf-8"), "prices-2027.yaml")
).value
HEAD = (PENCIL / "feet.yaml").read_text(encoding="utf-8").partition("every_bed:")[0]
SQUARE = "shape: {rectangle: {length: 20 ft, width: 10 ft}}"  # 200 ft², 60 ft round it
MULCH = "material: {use: bark, depth: 3 in}"


def measured(*lines: str) -> BedMeasure:
    """The one bed of a job with these lines."""
    bed = "\n    ".join(("- name: Bed", *(f"  {line}" for line in lines)))
    end = "\npayments: {deposit: 30 %, rest: on completion}\n"
    understood = understand_job(parse(f"{HEAD}beds:\n    {bed}{end}", "job.yaml"))
    assert understood.findings == ()
    job = understood.value
    (found,) = measure(job, CHART, every_answer(job, understood.broken)).beds
    return found


def test_bed_is_its_shape_less_what_is_left_out() -> None:
    """200 ft² less a pond of 6 ft × 5 ft and a trunk of 3 ft²; the outline stays that of the bed."""
    bed = measured(SQUARE, "leave_out: [{rectangle: {length: 6 ft, width: 5 ft}}, {area: 3 ft2}]")
    assert (bed.gross, bed.left_out, bed.area, bed.outline) == (200, 33, 167, 60)


@pytest.mark.parametrize(
    ("against", "open_edge"),
    [
        ("{wall: back}", 40),
        ("{wall: [back, left]}", 30),
        ("{wall: back, walk: left}", 30),
        ("{walk: 7 ft 6 in}", F("52.5")),
        ("{walk: back, fence: 4 ft}", 36),
        ("{wall: [front, back, left, right]}", 0),
    ],
)
def test_edge_is_open_where_nothing_lies_against_it(against: str, open_edge: F) -> None:
    """The outline less the sides or lengths that lie against something."""
    bed = measured(SQUARE, f"against: {against}")
    assert bed.open_edge == open_edge
    assert bed.troubles == ()


def test_outline_that_was_measured_goes_before_the_one_worked_out() -> None:
    """A wheel rolled round the bed says more than its two sides."""
    assert measured(SQUARE, "outline: 64 ft").open_edge == 64


def test_bed_known_by_its_area_alone_has_no_edge() -> None:
    """An area says nothing about what lies round it."""
    bed = measured("shape: {area: 200 ft2}")
    assert (bed.area, bed.outline, bed.open_edge) == (200, None, None)


def troubles(bed: BedMeasure) -> list[tuple[str, str]]:
    return [(trouble.rule, trouble.message) for trouble in bed.troubles]


PARTS = "parts: {north: 150 ft2, south: rest}"
TROUBLES = {
    "a side that the shape has not": (
        ("against: {wall: top}",), "unknown-side", "'top' is neither a side of this bed nor a length",
    ),
    "a side named twice": (
        ("against: {wall: back, walk: back}",), "side-twice", "the side 'back' lies against two things",
    ),
    "more against it than there is": (
        ("against: {wall: 61 ft}",), "against-exceeds-outline",
        "61 ft lie against something, but the outline is only 60 ft",
    ),
    "as much left out as there is": (
        ("leave_out: {area: 200 ft2}",), "leaves-nothing", "what is left out is as large as the bed",
    ),
    "parts larger than the bed": (
        ("parts: {north: 150 ft2, south: 51 ft2}",), "parts-exceed-bed",
        "the named parts cover more than the bed's 200 ft²",
    ),
    "a part that the bed has not": (
        (PARTS, "substrate: {decided: included, work: rake, on: east}"), "unknown-part",
        "the bed has no part named 'east'",
    ),
    "work for more than the bed": (
        ("substrate: [{decided: included, work: rake, area: 150 ft2},"
         " {decided: included, work: strip, area: 60 ft2}]",),
        "parts-exceed-bed", "the parts cover 210 ft², but the bed has only 200 ft²",
    ),
    "work for less than the bed": (
        ("substrate: {decided: included, work: rake, area: 150 ft2}",), "parts-miss-bed",
        "nobody decided substrate for 50 ft² of 200 ft²",
    ),
    "edge for less than the bed's": (
        ("edging: {decided: included, work: new-edge, along: 40 ft}",), "parts-miss-bed",
        "nobody decided edging for 20 ft of 60 ft",
    ),
    "two parts that take the rest": (
        ("substrate: [{decided: included, work: rake, area: rest},"
         " {decided: included, work: strip, area: rest}]",),
        "two-rests", "two parts take the rest",
    ),
    "an area for an edge": (
        ("edging: {decided: included, work: new-edge, area: 40 ft2}",), "wrong-part",
        "'area' does not measure a part of an edge",
    ),
    "a length for an area": (
        ("substrate: {decided: included, work: rake, along: 40 ft}",), "wrong-part",
        "'along' does not measure a part of a bed",
    ),
    "a top-up on ground of no known depth": (
        ("found: {ground: old mulch}", "material: {use: bark, top_up_to: 3 in}"), "depth-unknown",
        "how deep the old material lies was not said, so the top-up cannot be worked out",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", TROUBLES)
def test_what_cannot_be_measured_is_said(name: str) -> None:
    """One trouble with its whole message, and the bed's other figures stay."""
    lines, rule, message = TROUBLES[name]
    assert troubles(measured(SQUARE, *lines)) == [(rule, message)]


def test_slack_of_a_tenth() -> None:
    """People give areas of curved beds to a tenth: a tenth too much or too little is no fault, more is."""
    for area, fine in (("199.9", True), ("200.1", True), ("199.8", False), ("200.2", False)):
        bed = measured(SQUARE, f"substrate: {{decided: included, work: rake, area: {area} ft2}}")
        assert (bed.troubles == ()) is fine, area


def volumes(bed: BedMeasure) -> list[F]:
    return [spread.volume for spread in bed.spreads]


@pytest.mark.parametrize(
    ("found", "yards"),
    [
        # 200 ft² wanted 3 in deep are 200 × 3 ÷ 324 yd³
        ("{ground: bare soil}", F(600, 324)),
        ("{ground: old mulch, ground_depth: 1 in}", F(400, 324)),
        ("{ground: old mulch, ground_depth: 3 in}", F(0)),
        ("{ground: old mulch, ground_depth: 5 in}", F(0)),  # what lies too deep is not taken off by a top-up
        ("{ground: bare soil, planted: 25 %}", F(450, 324)),
        ("{ground: turf, ground_depth: 2 in}", F(200, 324)),
    ],
)
def test_top_up_adds_what_is_lacking(found: str, yards: F) -> None:
    """The depth that is wanted less the depth that lies there, never below zero."""
    bed = measured(SQUARE, f"found: {found}", "material: {use: bark, top_up_to: 3 in}")
    assert volumes(bed) == [yards]


def test_depth_is_laid_on_top_of_what_lies_there() -> None:
    """`depth` says what is added, whatever was found."""
    found = "found: {ground: old mulch, ground_depth: 2 in}"
    assert volumes(measured(SQUARE, found, MULCH)) == [F(600, 324)]


def test_stripped_part_has_nothing_there() -> None:
    """Where the old mulch is taken off for certain, the top-up starts from the ground; where the customer
    may choose that, the difference is kept apart."""
    found = "found: {ground: old mulch, ground_depth: 2 in}"
    wanted = "material: {use: bark, top_up_to: 3 in}"
    sure = measured(SQUARE, found, wanted, "substrate: {decided: included, work: strip}")
    assert volumes(sure) == [F(600, 324)]
    perhaps = measured(SQUARE, found, wanted, "substrate: {decided: add-on, work: strip}")
    assert volumes(perhaps) == [F(200, 324)]
    (spread,) = perhaps.spreads
    assert spread.if_cleared == (("beds", 0, "substrate", 0), F(400, 324))


@given(st.integers(1, 1999), st.integers(0, 8), st.integers(0, 8))
def test_two_parts_take_what_each_of_them_lacks(tenths: int, north: int, south: int) -> None:
    """The volume of a bed in two parts is that of its parts, wherever the line between them runs."""
    bed = measured(
        SQUARE,
        f"parts: {{north: {tenths / 10} ft2, south: rest}}",
        f"found: [{{on: north, ground: old mulch, ground_depth: {north} in}},"
        f" {{on: south, ground: old mulch, ground_depth: {south} in}}]",
        "material: {use: bark, top_up_to: 4 in}",
    )
    area = F(tenths, 10)
    assert bed.troubles == ()
    assert sum(volumes(bed)) == (area * max(4 - north, 0) + (200 - area) * max(4 - south, 0)) / 324


@given(st.lists(st.integers(1, 400), min_size=1, max_size=5))
def test_parts_of_an_edge_come_to_the_edge(halves: list[int]) -> None:
    """Whatever lengths are measured, the rest is what is left of the open edge."""
    total = sum(halves)
    length = F(total + 1, 2)
    parts = ", ".join(f"{{decided: included, work: new-edge, along: {half / 2} ft}}" for half in halves)
    rest = ", {decided: not-needed, along: rest, because: it is crisp}"
    bed = measured("shape: {area: 9 ft2}", f"outline: {float(length)} ft", f"edging: [{parts}{rest}]")
    shares = bed.of("edging")
    assert [share.length for share in shares] == [*(F(half, 2) for half in halves), F(1, 2)]
    assert sum(share.length or F(0) for share in shares) == bed.open_edge
