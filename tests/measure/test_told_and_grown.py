"""Beds told by their volume, beds that a new edge makes larger, and beds put together of parts."""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path

import pytest

from scopegen.check import check
from scopegen.measure import BedMeasure
from scopegen.price import Priced
from tests.rules.laid_over import checked, opened

NOT_NEEDED = "{decided: not-needed, because: it is fine}"
# A new edge takes a strip of 12 in of turf off.
STRIP = (
    "\nchart: {work: {new-edge: {spoil: {depth: 4 in, width: 6 in, profile: wedge, stream: sod,"
    " plus_strip: {width: 12 in, depth: 2 in}}}}}"
)


def bed(folder: Path, over: str) -> tuple[BedMeasure, Priced]:
    case = opened(folder, over)
    assert [f.message for f in check(case).findings if f.level.name == "STOPS"] == []
    assert case.measured is not None and case.priced is not None
    return case.measured.beds[0], case.priced


def edged(shape_to: str, edging: str, material: str = "{use: hardwood, depth: 2 in}") -> str:
    return f"job: {{beds: [{{shape_to: {shape_to}, edging: {edging}, material: {material}}}]}}{STRIP}"


def test_bed_measured_to_the_old_edge_grows_by_the_strip(tmp_path: Path) -> None:
    """32 ft of open edge × 1 ft × 2 in = 5⅓ ft³ more on the 20 ft³ of the bed itself."""
    found, _ = bed(tmp_path, edged("old edge", "{decided: included, work: new-edge}"))
    assert (found.area, found.grown) == (120, 32)
    assert sum(spread.volume for spread in found.spreads) == (20 + F(16, 3)) / 27


def test_bed_measured_to_the_new_edge_stays(tmp_path: Path) -> None:
    """The strip is in it already."""
    found, _ = bed(tmp_path, edged("new edge", "{decided: included, work: new-edge}"))
    assert (found.area, found.grown) == (120, 0)
    assert sum(spread.volume for spread in found.spreads) == F(20, 27)


def test_strip_takes_the_whole_depth_where_the_bed_is_topped_up(tmp_path: Path) -> None:
    """The bed lacks 2 in of its 3; the strip, where turf lay, all 3: 20 + 32 × ¼ = 28 ft³."""
    found, _ = bed(
        tmp_path,
        edged("old edge", "{decided: included, work: new-edge}", "{use: hardwood, top_up_to: 3 in}"),
    )
    assert sum(spread.volume for spread in found.spreads) == F(28, 27)


def test_new_edge_that_is_an_add_on_brings_the_mulch_for_its_strip(tmp_path: Path) -> None:
    """The base buys 20 ft³; if the edge is chosen, 5⅓ ft³ more come with it: half a yard at 100.00."""
    found, priced = bed(tmp_path, edged("old edge", "{decided: add-on, work: new-edge}"))
    assert found.grown == 0
    (line,) = [line for line in priced.lines if line.id == "material:hardwood"]
    assert line.measured == F(20, 27)
    (offer,) = priced.add_ons
    assert {part.id: part.quantity for part in offer.parts if part.id.startswith("material")} == {
        "material:hardwood": F(1, 2)
    }


def told(material: str = "{use: hardwood}", **otherwise: str) -> str:
    """The sound job with a bed of three yards by eye."""
    said = {
        "shape": "{volume: 3 yd3}", "measured_by": "eye", "against": "(left out)", "outline": "40 ft",
        "material": material, "found": "{edge: soft, weeds: light}", "bed_prep": "{decided: excluded}",
        "substrate": "{decided: excluded}", **otherwise,
    }  # fmt: skip
    return f"job: {{beds: [{{{', '.join(f'{key}: {value}' for key, value in said.items())}}}]}}"


def test_strip_under_two_choices_is_found(tmp_path: Path) -> None:
    """Edge and mulch are both add-ons: what both together take has no price, so it is not passed over."""
    material = "{decided: add-on, use: hardwood, depth: 2 in}"
    over = edged("old edge", "{decided: add-on, work: new-edge}", material)
    found = {finding.rule for finding in check(opened(tmp_path, over)).findings}
    assert "choice-on-choice" in found


def test_bed_told_by_its_volume_takes_what_was_told(tmp_path: Path) -> None:
    """Three yards, no area; its edge is cut along the outline that was stated."""
    found, priced = bed(tmp_path, told())
    assert (found.area, found.stated, found.open_edge) == (None, 3, 40)
    amounts = {line.id: line.measured for line in priced.lines}
    assert (amounts["material:hardwood"], amounts["work:recut-edge"]) == (3, 40)


def test_volume_told_by_eye_is_as_uncertain_as_it_is(tmp_path: Path) -> None:
    """Within 10 to 15 percent, one standard deviation (CalRecycle, Calculations, closed disposal sites)."""
    _, priced = bed(tmp_path, told())
    (supply,) = priced.supplies
    assert 0.10 <= float((supply.high - supply.needed) / supply.needed) / 1.96 <= 0.15


@pytest.mark.parametrize(
    ("over", "rule"),
    [
        ({"material": "{use: river-stone}"}, "stone-by-eye"),
        ({"bed_prep": "{decided: included, work: hand-weed}"}, "quantity-unknown"),
        ({"leave_out": "{circle: {diameter: 3 ft}}"}, "volume-only"),
        ({"parts": "{north: 30 ft2, south: rest}"}, "volume-only"),
        ({"bed_prep": "[{decided: excluded, area: 30 ft2}, {decided: excluded, area: rest}]"}, "volume-only"),
        ({"material": "{use: hardwood, top_up_to: 3 in}"}, "volume-only"),
        ({"material": "[{use: hardwood}, {use: pine-bark}]"}, "volume-only"),
    ],
)
def test_what_a_volume_cannot_tell_is_found(tmp_path: Path, over: dict[str, str], rule: str) -> None:
    """Stone by eye, weeding by the square foot, holes, parts, depths and two materials."""
    assert rule in {finding.rule for finding in check(opened(tmp_path, told(**over))).findings}


PARTS = "job: {beds: [{against: (left out), shape: {parts: [%s]}%s}]}"


def test_parts_without_places_add_up(tmp_path: Path) -> None:
    """10 × 4 and 6 × 3 are 58 ft²; their outline has to be said."""
    parts = "{rectangle: {length: 10 ft, width: 4 ft}}, {rectangle: {length: 6 ft, width: 3 ft}}"
    found, _ = bed(tmp_path, PARTS % (parts, ", outline: 40 ft"))
    assert (found.area, found.outline, found.method) == (58, 40, "sum of parts")


def test_parts_with_places_count_overlap_once_and_know_their_outline(tmp_path: Path) -> None:
    """An L of 10 × 4 and 4 × 10 that share a 4 × 4 corner: 64 ft², and 40 ft round it, by hand."""
    parts = (
        "{rectangle: {length: 10 ft, width: 4 ft}, at: [0 ft, 0 ft]},"
        " {rectangle: {length: 10 ft, width: 4 ft}, at: [4 ft, 0 ft], turned: 90 degrees}"
    )
    found, _ = bed(tmp_path, PARTS % (parts, ""))
    assert (found.area, found.outline, found.method) == (64, 40, "united parts")


@pytest.mark.parametrize(
    ("parts", "message"),
    [
        (
            "{rectangle: {length: 10 ft, width: 4 ft}, at: [0 ft, 0 ft]}, {circle: {diameter: 4 ft}}",
            "Front bed: this shape cannot be: part 2 has no place, but others have one",
        ),
        (
            "{circle: {diameter: 4 ft}, turned: 30 degrees}",
            "Front bed: this shape cannot be: part 1 is turned, but has no place",
        ),
        (
            "{area: 40 ft2, at: [0 ft, 0 ft]}",
            "Front bed: this shape cannot be: part 1 is only stated, and has no outline to be placed",
        ),
        (
            "{triangle: {sides: [1 ft, 2 ft, 5 ft]}}",
            "Front bed: this shape cannot be: in part 1, sides 1 ft, 2 ft and 5 ft cannot close: the longest"
            " must be shorter than the other two together",
        ),
        (
            "{volume: 3 yd3}",
            "Front bed: this shape cannot be: part 1 is only stated, and has no outline to be placed",
        ),
    ],
)
def test_parts_that_cannot_be_put_together(tmp_path: Path, parts: str, message: str) -> None:
    """Each is told by its number."""
    case = opened(tmp_path, PARTS % (parts, ", outline: 40 ft"))
    assert message in [finding.message for finding in check(case).findings]


@pytest.mark.parametrize(
    ("found", "rule"),
    [
        ("weeds: heavy", "heavy-weeds-not-needed"),
        ("edge: missing", "edge-not-needed"),
        ("ground: fabric", "barrier-unsaid"),
    ],
)
def test_what_was_found_on_a_bed_told_by_eye_counts(tmp_path: Path, found: str, rule: str) -> None:
    """A bed without an area is looked at like any other: what the walk saw there is held against what was
    decided."""
    told = (
        "job: {beds: [{shape: {volume: 3 yd3}, measured_by: eye, against: (left out), outline: 40 ft,"
        f" found: {{{found}}}, material: {{use: hardwood}}, bed_prep: {NOT_NEEDED}, edging: {NOT_NEEDED},"
        f" substrate: {NOT_NEEDED}, debris: {NOT_NEEDED}}}]}}"
    )
    assert rule in {finding.rule for finding in checked(tmp_path, told).findings}


def test_a_part_of_a_bed_told_by_eye_is_none(tmp_path: Path) -> None:
    """What was found on so many square feet of it cannot be placed."""
    told = "job: {beds: [{shape: {volume: 3 yd3}, measured_by: eye, found: {weeds: light, area: 20 ft2}}]}"
    assert "volume-only" in {finding.rule for finding in checked(tmp_path, told).findings}
