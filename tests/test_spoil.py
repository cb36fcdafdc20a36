"""What comes out of the ground: volume in it and loose, weight, barrows, and who takes it."""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path

import pytest

from scopegen.case import Case
from scopegen.spoil import SpoilOut, Task, merged, taker_of, tasks_of
from tests.rules.laid_over import opened

# A bed whose area and edge are round: 162 ft², 81 ft of edge.
BED = """
job:
  beds:
    - shape: {{area: 162 ft2}}
      outline: 81 ft
      against: (left out)
      {lines}
"""


def case_of(folder: Path, *lines: str, chart: str = "") -> Case:
    return opened(folder, BED.format(lines="\n      ".join(lines)) + chart)


def out_of(case: Case, key: str) -> SpoilOut:
    """The spoil of the one piece of work with that key in the chart."""
    (task,) = (task for task in tasks(case) if task.key == key)
    assert task.spoil is not None
    return task.spoil


def tasks(case: Case) -> tuple[Task, ...]:
    assert case.chart is not None and case.measured is not None
    return tasks_of(case.job, case.chart, case.measured)


EDGE = "edging: {decided: included, work: new-edge}"


def edge_chart(spoil: str) -> str:
    return f"\nchart: {{work: {{new-edge: {{spoil: {spoil}}}}}}}\n"


@pytest.mark.parametrize(
    ("spoil", "cubic_feet"),
    [
        # by plane geometry: a wedge is half of the box around it
        ("{depth: 4 in, width: 6 in, profile: wedge, stream: sod}", F(81 * 4 * 6, 2 * 144)),
        ("{depth: 4 in, width: 6 in, profile: box, stream: sod}", F(81 * 4 * 6, 144)),
        (
            "{depth: 4 in, width: 6 in, profile: wedge, plus_strip: {width: 12 in, depth: 2 in},"
            " stream: sod}",
            F(81 * (12 + 24), 144),
        ),
    ],
)
def test_spoil_of_an_edge_is_its_cross_section_by_its_length(
    tmp_path: Path, spoil: str, cubic_feet: F
) -> None:
    """81 ft of edge, in cubic yards of 27 ft³."""
    case = case_of(tmp_path, "found: {edge: missing}", EDGE, chart=edge_chart(spoil))
    assert out_of(case, "new-edge").in_ground == cubic_feet / 27


def test_swell_and_weight_of_what_is_dug(tmp_path: Path) -> None:
    """6.75 ft³ of wedge are 0.25 yd³ in the ground, a quarter more when loose; the weight goes with the
    ground: 0.25 × 2,700 lb (worked by hand)."""
    case = case_of(tmp_path, "found: {edge: missing}", EDGE)
    assert out_of(case, "new-edge") == SpoilOut("sod", F(1, 4), F(5, 16), F(675))


def test_weight_of_loose_stuff_goes_with_its_loose_volume(tmp_path: Path) -> None:
    """Fabric doubles when it is pulled: 162 ft² of ¼ in are 0.125 yd³, loose 0.25 yd³, at 300 lb 75 lb."""
    case = case_of(
        tmp_path,
        "found: {edge: soft, weeds: light, ground: fabric}",
        "substrate: {decided: included, work: pull-fabric}",
    )
    assert out_of(case, "pull-fabric") == SpoilOut("fabric", F(1, 8), F(1, 4), F(75))


def test_stripped_mulch_is_as_deep_as_it_was_found_part_by_part(tmp_path: Path) -> None:
    """54 ft² of 2 in and 108 ft² of 3 in: 9 + 27 = 36 ft³."""
    case = case_of(
        tmp_path,
        "parts: {wet: 54 ft2, dry: rest}",
        "found: [{on: wet, ground: old mulch, ground_depth: 2 in},"
        " {on: dry, ground: old mulch, ground_depth: 3 in}]",
        "substrate: {decided: included, work: strip-old-mulch}",
    )
    assert out_of(case, "strip-old-mulch").in_ground == F(36, 27)


def test_strip_of_one_part_takes_that_part_s_depth(tmp_path: Path) -> None:
    """Only the dry part is stripped: 108 ft² of 3 in are 27 ft³, one yard."""
    case = case_of(
        tmp_path,
        "parts: {wet: 54 ft2, dry: rest}",
        "found: [{on: wet, ground: old mulch, ground_depth: 2 in},"
        " {on: dry, ground: old mulch, ground_depth: 3 in}]",
        "substrate: [{decided: included, work: rake-and-top-up, on: wet},"
        " {decided: included, work: strip-old-mulch, on: dry}]",
    )
    assert out_of(case, "strip-old-mulch").in_ground == 1


@pytest.mark.parametrize(
    ("pounds", "weight"),
    [
        # EPA, Volume-to-Weight Conversion Factors, April 2016 (seen on EPA's help page): 250 lb/yd³
        (250, 750),
        # CalRecycle, 'Calculations': loose yard waste 600 lb/yd³
        (600, 1800),
        # Oregon DEQ's factor for compacted yard debris, quoted second-hand: 640 lb/yd³
        (640, 1920),
    ],
)
def test_three_yards_of_yard_waste(tmp_path: Path, pounds: int, weight: int) -> None:
    """The published figures lie far apart: the chart says which is used."""
    chart = (
        f"\nchart: {{streams: {{green: {{loose_weight: {pounds} lb/yd3}}}},"
        " work: {hand-weed: {spoil: {depth: 6 in, stream: green}}}}\n"
    )
    case = case_of(tmp_path, "bed_prep: {decided: included, work: hand-weed}", chart=chart)
    found = out_of(case, "hand-weed")  # 162 ft² × 6 in ÷ 324
    assert (found.loose, found.weight) == (3, weight)


@pytest.mark.parametrize(
    ("loose", "pounds", "loads"),
    [
        # by definition: 27 ÷ 6 = 4.5 loads in a cubic yard, 5 of them pushed
        (F(1), 250, 5),
        (F(2, 9), 0, 1),
        (F(2, 9) + F(1, 1000), 0, 2),
        (F(1, 100), 300, 1),
        (F(1, 100), 301, 2),
        (F(0), 0, 0),
    ],
)
def test_barrows_by_volume_or_weight(tmp_path: Path, loose: F, pounds: int, loads: int) -> None:
    """A barrow holds 6 ft³ or 300 lb, whichever comes first."""
    chart = case_of(tmp_path).chart
    assert chart is not None
    assert SpoilOut("sod", loose, loose, F(pounds)).barrows(chart) == loads
    assert SpoilOut("sod", loose, loose, F(pounds)).barrows(chart.model_copy(update={"barrow": None})) == 0


def test_streams_are_added_up_and_kept_apart() -> None:
    """Like goes to like."""
    sod, green = SpoilOut("sod", F(1), F(2), F(3)), SpoilOut("green", F(5), F(5), F(5))
    assert merged((sod, green, sod)) == {"sod": SpoilOut("sod", F(2), F(4), F(6)), "green": green}


TAKERS = {
    "our own hauling": ("debris: {decided: included, work: haul-away}", ("included", "haul-away")),
    "hauling at no charge": ("debris: {decided: no-charge, work: haul-away}", ("no-charge", "haul-away")),
    "the customer": ("debris: {decided: customer, by: start, if_not_done: leave the bed}", ("customer", "")),
    "somebody else": ("debris: {decided: elsewhere, who: the owner}", ("elsewhere", "")),
    "hauling that may never be": ("debris: {decided: add-on, work: haul-away}", None),
    "nobody": ("debris: {decided: excluded}", None),
}


@pytest.mark.parametrize("name", TAKERS)
def test_who_takes_the_sod(tmp_path: Path, name: str) -> None:
    """Hauling that the customer may not choose takes nothing for certain."""
    line, expected = TAKERS[name]
    case = case_of(tmp_path, "found: {edge: missing}", EDGE, line)
    assert case.chart is not None and case.measured is not None and case.priced is not None
    (task,) = (task for task in tasks(case) if task.key == "new-edge")
    taker = taker_of(case.chart, case.measured, task)
    assert (taker and (taker.how, taker.key)) == expected
    assert any(path[-2:] == ("edging", 0) for path in case.priced.not_taken) is (expected is None)


def test_hauling_takes_only_what_it_says(tmp_path: Path) -> None:
    """A haul of green waste leaves the sod, which then nobody takes."""
    chart = "\nchart: {work: {haul-away: {takes: [green]}}}\n"
    case = case_of(tmp_path, "found: {edge: missing}", EDGE, chart=chart)
    assert case.priced is not None
    assert [path[-2:] for path in case.priced.not_taken] == [("edging", 0)]
    (line,) = (line for line in case.priced.lines if line.id.startswith("hauling:"))
    assert line.measured == out_of(case, "hand-weed").loose
