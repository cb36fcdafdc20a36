"""The main job against published values: coverage, volumes, weights, loads, hours, through the whole way."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from scopegen.build import open_case
from scopegen.case import Case
from scopegen.papers.agreement import compose
from scopegen.papers.document import text_of, walk
from scopegen.papers.frame import frame_of
from scopegen.report.as_json import price_json
from scopegen.words import lexicon
from tests.rules.laid_over import opened

# A bed with nothing but its material, and its debris and edge left to others.
BED = (
    "bed_prep: {decided: excluded}, edging: {decided: excluded},"
    " debris: {decided: elsewhere, who: the owner},"
    " substrate: {decided: not-needed, because: no fabric is wanted}"
)


def case_of(folder: Path, shape: str, material: str, more: str = "", chart: str = "") -> Case:
    """One bed with one material, and nothing else."""
    bed = f"{{shape: {shape}, against: (left out), outline: 60 ft, material: {material}, {BED}{more}}}"
    return opened(folder, f"job: {{beds: [{bed}]}}\n{chart}")


def laid(folder: Path, shape: str, material: str, more: str = "", chart: str = "") -> dict[str, Any]:
    """The priced JSON of one bed with one material."""
    return priced(case_of(folder, shape, material, more, chart))


def priced(case: Case) -> dict[str, Any]:
    assert case.reading == ()
    return price_json(frame_of(case, lexicon("en")))


@pytest.mark.parametrize(
    ("area", "depth", "yards"),
    [
        # by definition: 27 ft³ × 12 in = 324 ft² in
        ("324 ft2", "1 in", "1"),
        ("162 ft2", "2 in", "1"),
        ("81 ft2", "4 in", "1"),
        ("54 ft2", "6 in", "1"),
        ("27 ft2", "12 in", "1"),
        ("648 ft2", "1/2 in", "1"),
        ("216 ft2", "1 1/2 in", "1"),
        ("129.6 ft2", "2.5 in", "1"),
        # UF/IFAS Extension Miami-Dade, FYN workbook 'Maximize Mulch': a yard covers 108 square feet at 3 in
        ("108 ft2", "3 in", "1"),
        # the same workbook: 1.5 yards at 3 in cover 162 ft², 2.5 yards 270 ft²
        ("162 ft2", "3 in", "1.5"),
        ("270 ft2", "3 in", "2.5"),
        # UF/IFAS Extension Polk County, 'Mulch', 11/7/2016: 5 ft × 20 ft at 3 in is 0.926 yd³ (25 ÷ 27)
        ("100 ft2", "3 in", "0.9259"),
        # by definition: 125 ÷ 27
        ("500 ft2", "3 in", "4.6296"),
    ],
)
def test_volume_of_a_bed(tmp_path: Path, area: str, depth: str, yards: str) -> None:
    """Area and depth make the published volume, to four decimals."""
    data = laid(tmp_path, f"{{area: {area}}}", f"{{use: hardwood, depth: {depth}}}")
    assert data["beds"][0]["volume_yd3"] == yards
    assert data["materials"][0]["measured"] == yards


@pytest.mark.parametrize(
    ("shape", "area"),
    [
        # Purdue Turf Tips, 'How Big is Your Lawn?', 18 April 2014: trapezoid of 90 and 60 ft, 80 ft apart
        ("{trapezoid: {sides: [90 ft, 60 ft], apart: 80 ft}}", 6000.0),
        # Clemson HGIC 1220, Example 1 and 2
        ("{rectangle: {length: 50 ft, width: 25 ft}}", 1250.0),
        ("{circle: {radius: 30 ft}}", 2827.4334),
        # City of Santa Ana, agreement with the Municipal Water District of Orange County, Exhibit A,
        # 23 July 2025: offsets of 15, 10, 15, 25 and 20 ft at 10 ft make 850 ft²
        ("{widths: {every: 10 ft, across: [0 ft, 15 ft, 10 ft, 15 ft, 25 ft, 20 ft, 0 ft]}}", 850.0),
        # plane geometry: 3-4-5 is 6, 13-14-15 is 84 (Heron of Alexandria)
        ("{triangle: {sides: [3 ft, 4 ft, 5 ft]}}", 6.0),
        ("{triangle: {sides: [13 ft, 14 ft, 15 ft]}}", 84.0),
        # University of Missouri IPM, 1 March 2010, gives an oval as length × height × 0.8 = 160;
        # the ellipse itself is π ÷ 4 of it
        ("{ellipse: {length: 20 ft, width: 10 ft}}", 157.0796),
        # Purdue Turf Tips: a quarter-circle mulch bed of radius 8 ft, 'about 50' with 3.14 for π
        ("{quarter_circle: {radius: 8 ft}}", 50.2655),
        # half of Clemson HGIC 1220's circle
        ("{half_circle: {radius: 30 ft}}", 1413.7167),
        # Santa Ana, Exhibit A: sixteen radii of 12.25 ft on the average make 471 ft² (with π 471.4352)
        (
            "{spokes: [10 ft, 15 ft, 10 ft, 12 ft, 15 ft, 13 ft, 10 ft, 15 ft, 17 ft, 9 ft, 8 ft, 15 ft,"
            " 16 ft, 10 ft, 12 ft, 9 ft]}",
            471.4352,
        ),
        # the same offsets as above by Simpson's rule (computed): the method must be named, since it differs
        (
            "{widths: {every: 10 ft, across: [0 ft, 15 ft, 10 ft, 15 ft, 25 ft, 20 ft, 0 ft],"
            " rule: simpson}}",
            900.0,
        ),
        # an average of seven widths over 60 ft (computed)
        (
            "{widths: {every: 10 ft, across: [0 ft, 15 ft, 10 ft, 15 ft, 25 ft, 20 ft, 0 ft],"
            " rule: average}}",
            728.5714,
        ),
        # Purdue's two rectangles of mulch, 10 × 5 and 25 × 5, as one bed of two parts
        (
            "{parts: [{rectangle: {length: 10 ft, width: 5 ft}}, {rectangle: {length: 25 ft, width: 5 ft}}]}",
            175.0,
        ),
    ],
)
def test_area_of_a_bed(tmp_path: Path, shape: str, area: float) -> None:
    """The schema's shapes have the published areas."""
    data = laid(tmp_path, shape, "{use: hardwood, depth: 2 in}")
    assert float(data["beds"][0]["area_ft2"]) == pytest.approx(area, abs=1e-4)


def test_left_out_areas_are_taken_off(tmp_path: Path) -> None:
    """Purdue Turf Tips, 18 April 2014: 6,000 less house, drive, porch and beds is 3,779 ft²."""
    out = "".join(f"{{area: {area} ft2}}, " for area in (1250, 600, 96, 50, 125, 50, 50))
    shape = "{trapezoid: {sides: [90 ft, 60 ft], apart: 80 ft}}"
    data = laid(tmp_path, shape, "{use: hardwood, depth: 1 in}", f", leave_out: [{out}]")
    assert data["beds"][0]["area_ft2"] == "3779"


def test_top_up_is_worked_part_by_part(tmp_path: Path) -> None:
    """600 ft² wanted 3 in deep, half of it 1 in and half 4 in deep: 300 × 2 ÷ 324 = 1.85 yd³. On the average
    of 2.5 in it would be 0.93 (worked by hand)."""
    found = (
        "[{area: 300 ft2, ground: old mulch, ground_depth: 1 in},"
        " {area: rest, ground: old mulch, ground_depth: 4 in}]"
    )
    data = laid(tmp_path, "{area: 600 ft2}", "{use: hardwood, top_up_to: 3 in}", f", found: {found}")
    assert data["beds"][0]["volume_yd3"] == "1.8519"


def test_stone_goes_by_weight(tmp_path: Path) -> None:
    """CalRecycle, 'Calculations': loose dry gravel weighs 2,600 lb a cubic yard, so 2 yd³ are 2.6 short tons;
    and a ton covers 124.6 ft² at 2 in."""
    data = laid(tmp_path, "{area: 324 ft2}", "{use: river-stone, depth: 2 in}")
    assert data["beds"][0]["volume_yd3"] == "2"
    assert data["materials"][0]["measured"] == "2.6"
    assert data["materials"][0]["unit"] == "ton"
    assert float(324 / Fraction(data["materials"][0]["measured"])) == pytest.approx(124.6, abs=0.05)


def test_a_ton_of_heavier_stone_covers_less(tmp_path: Path) -> None:
    """CalRecycle, 'Calculations': graded stone weighs 2,700 lb a cubic yard, so a ton covers 120 ft² at 2 in
    and 80 ft² at 3 in, exactly."""
    chart = "chart: {materials: {river-stone: {weight: 2700 lb/yd3}}}"
    for area, depth in ((120, 2), (80, 3)):
        stone = f"{{use: river-stone, depth: {depth} in}}"
        assert laid(tmp_path, f"{{area: {area} ft2}}", stone, chart=chart)["materials"][0]["measured"] == "1"


def test_wet_stone_weighs_a_fifth_more(tmp_path: Path) -> None:
    """CalRecycle, 'Calculations': gravel 2,600 lb a cubic yard, 'increase 20% if wet': 2 yd³ are 2.6 tons dry
    and 3.12 tons wet. The paper says both."""
    chart = "chart: {materials: {river-stone: {wet: 20 %, sold_in: 0.1 ton}}}"
    case = case_of(tmp_path, "{area: 324 ft2}", "{use: river-stone, depth: 2 in}", chart=chart)
    said = " ".join(
        piece for _, block in walk(compose(frame_of(case, lexicon("en")))) for piece in text_of(block)
    )
    assert "about 2.6 ton dry and 3.12 ton wet" in said


def test_a_bed_on_the_map_has_its_geodesic_area(tmp_path: Path) -> None:
    """A hundredth of a degree at the equator, by pyproj's geodesics of WGS 84 (Karney 2013). The equator's
    degree is 111.3195 km and the meridian's there 110.5743 km (NIMA TR8350.2, table 3.6: 6,378,137 m and
    1/298.257223563; computed)."""
    shape = "{map: [[-30.00, 0.00], [-29.9999, 0.00], [-29.9999, 0.0001], [-30.00, 0.0001]]}"
    data = laid(tmp_path, shape, "{use: hardwood, depth: 2 in}")
    square_meters = 11.13195 * 11.05743
    assert float(data["beds"][0]["area_ft2"]) * 0.09290304 == pytest.approx(square_meters, rel=1e-5)


def test_planted_ground_takes_no_material(tmp_path: Path) -> None:
    """A fifth of the bed under plants takes a fifth less: 324 × 0.8 at 1 in (by definition)."""
    found = "{ground: bare soil, planted: 20 %}"
    data = laid(tmp_path, "{area: 324 ft2}", "{use: hardwood, depth: 1 in}", f", found: {found}")
    assert data["beds"][0]["volume_yd3"] == "0.8"


EXAMPLE_EDGE = """
job:
  beds:
    - shape: {{area: 400 ft2}}
      outline: {feet} ft
      against: (left out)
      found: {{edge: {found}, weeds: none, ground: bare soil}}
      material: {{decided: not-needed, because: a test}}
      bed_prep: {{decided: excluded}}
      substrate: {{decided: excluded}}
      edging: {{decided: included, work: {work}}}
"""


def edge_job(folder: Path, feet: int, found: str, work: str) -> dict[str, Any]:
    """One edge with the example's own price chart: its figures are the trade's."""
    from tests.jobs import EXAMPLES

    opened(folder, EXAMPLE_EDGE.format(feet=feet, found=found, work=work))
    chart = (EXAMPLES / "prices-2027.yaml").read_text(encoding="utf-8")
    (folder / "prices-2027.yaml").write_text(chart, encoding="utf-8")
    return priced(open_case(folder / "job.yaml"))


def test_lost_edge_takes_half_a_day_and_a_recut_an_hour_or_two(tmp_path: Path) -> None:
    """Common practice, no source: digging a lost edge out of turf takes half a day and six to eight barrows
    where a recut takes an hour or two. 90 ft, one worker, without driving, set-up and clean-up."""
    new, recut = edge_job(tmp_path, 90, "missing", "new-edge"), edge_job(tmp_path, 90, "soft", "recut-edge")
    around = Fraction(3 * 50, 60) + Fraction(2, 3)  # a crew of 3 for 50 minutes, and the drive of each trip
    hours = [Fraction(data["worker_hours"]) - around for data in (new, recut)]
    assert 4 <= hours[0] <= 7
    assert 1 <= hours[1] <= 2
    assert 6 <= new["spoil"]["barrows"] <= 8
    assert recut["spoil"]["barrows"] <= 2


def test_trade_s_usual_depths_raise_nothing(tmp_path: Path) -> None:
    """Common practice, no source: mulch goes on at about two inches, a spade edge is three to four inches
    deep. Neither is found fault with."""
    from scopegen.check import check

    assert check(opened(tmp_path, "job: {beds: [{material: {use: hardwood, depth: 2 in}}]}")).findings == ()
    text = (Path(__file__).parents[1] / "example_scopes" / "prices-2027.yaml").read_text(encoding="utf-8")
    assert text.count("spoil: {depth: 4 in,") == 2


def test_edge_and_clean_out_are_priced_apart_from_the_mulch(tmp_path: Path) -> None:
    """Common practice, no source: the mulch's price holds neither the edge nor the clean-out."""
    lines = {line["id"]: line["decision"] for line in priced(opened(tmp_path))["lines"]}
    assert lines["material:hardwood"] == "material"
    assert lines["work:recut-edge"] == "edging"
    assert lines["work:hand-weed"] == "bed_prep"
    assert lines["hauling:haul-away"] == "debris"


def test_mulch_forgives_and_stone_does_not() -> None:
    """Common practice, no source: stone is measured to the square foot, mulch forgives."""
    from scopegen.load import load
    from scopegen.understand import understand_chart

    path = Path(__file__).parents[1] / "example_scopes" / "prices-2027.yaml"
    materials = understand_chart(load(path)).value.materials.values()
    assert {material.kind for material in materials if material.forgives} == {"mulch"}
    assert [material.forgives for material in materials if material.kind == "stone"] == [0]


def test_full_barrow_of_stone_is_too_heavy(tmp_path: Path) -> None:
    """6 ft³ of gravel at CalRecycle's 2,600 lb/yd³ weigh 578 lb: loads go by weight, not by volume.
    6 ft³ in a cubic yard are 4.5 loads, 5 trips (by definition)."""
    from scopegen.load import load
    from scopegen.spoil import SpoilOut
    from scopegen.understand import understand_chart

    chart = understand_chart(load(Path(__file__).parent / "pencil" / "prices-2027.yaml")).value
    assert SpoilOut("green", Fraction(1), Fraction(1), Fraction(250)).barrows(chart) == 5
    assert SpoilOut("stone", Fraction(1), Fraction(1), Fraction(2600)).barrows(chart) == 9  # 2600 ÷ 300
    assert round(6 / 27 * 2600) == 578


def test_hours_are_quantity_by_rate(tmp_path: Path) -> None:
    """6 yd³ at 1.5 yd³ an hour are 4 worker-hours (by definition); here 324 ft² at 6 in are 6 yd³ at 1 yd³ an
    hour, and the crew of 2 sets up for half an hour."""
    data = laid(tmp_path, "{area: 324 ft2}", "{use: hardwood, depth: 6 in}")
    assert data["beds"][0]["volume_yd3"] == "6"
    assert data["worker_hours"] == "7"
    assert data["days"] == 1
