"""Figures that nobody can mean: each slip is found where it stands, and no limit stops an honest job."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from scopegen.findings import Level
from scopegen.quantities.units import FT_PER_M, LB_PER_KG
from scopegen.rules.figures import NARROWEST_BED, SMALLEST_BED, _read
from scopegen.rules.limits import LIMITS
from tests.rules.laid_over import checked

TRUCK = "chart: {work: {haul-away: {truck: {%s}}}}"
HAUL = (
    "chart: {work: {haul-away: {price: {trip: 40.00, drive: %s, riders: %s, loading: %s, minimum: 60.00}}}}"
)
BED = "job: {beds: [{%s}]}"
# The chart's key, and a figure on each side that is a slip.
SLIPS = [
    (TRUCK % "volume: 0.0000000001 yd3, payload: 3000 lb", "0.0000000001 yd3", "less than any truck holds"),
    (TRUCK % "volume: 50000 yd3, payload: 3000 lb", "50000 yd3", "more than any truck holds"),
    (TRUCK % "volume: 5 yd3, payload: 0.001 lb", "0.001 lb", "less than any truck carries"),
    (HAUL % ("40 min", "1", "0.0000001 yd3/h"), "0.0000001 yd3/h", "less than anybody loads by hand"),
    (HAUL % ("40 min", "99999999", "1.5 yd3/h"), "99999999", "more than ride in any truck"),
    (HAUL % ("9000 h", "1", "1.5 yd3/h"), "9000 h", "more than any drive to a dump takes"),
    ("chart: {delivery: {load: 0.0001 yd3}}", "0.0001 yd3", "less than any truck holds"),
    ("chart: {delivery: {payload: 0.5 lb}}", "0.5 lb", "less than any truck carries"),
    ("chart: {barrow: {volume: 0.0001 ft3}}", "0.0001 ft3", "less than any wheelbarrow holds"),
    ("chart: {materials: {hardwood: {sold_in: 1000000 yd3}}}", "1000000 yd3",
     "more than any material is sold in"),
    ("chart: {materials: {river-stone: {sold_in: 500000 ton}}}", "500000 ton",
     "more than any material is sold in"),
    ("chart: {materials: {hardwood: {weight: 999999999999 lb/yd3}}}", "999999999999 lb/yd3",
     "more than any material weighs"),
    ("chart: {materials: {hardwood: {lays: 0.000001 yd3/h}}}", "0.000001 yd3/h",
     "less than anybody spreads by hand"),
    ("chart: {streams: {sod: {in_ground_weight: 999999999999 lb/yd3}}}", "999999999999 lb/yd3",
     "more than any spoil weighs"),
    ("chart: {work: {recut-edge: {does: 0.001 ft/h}}}", "0.001 ft/h", "less than anybody does"),
    ("chart: {work: {hand-weed: {does: 99999999 ft2/h}}}", "99999999 ft2/h", "more than anybody does"),
    ("chart: {work: {hand-weed: {billed_in: 1000000}}}", "1000000", "more than any work is billed in"),
    ("chart: {work: {hand-weed: {spoil: {depth: 100000 ft, stream: green}}}}", "100000 ft",
     "more than any bed is dug"),
    ("chart: {crew: 999999999999999}", "999999999999999", "more than any small crew has"),
    ("chart: {productive_hours: '0.0000001'}", "0.0000001", "less than any working day has"),
    ("chart: {productive_hours: 25}", "25", "more than any working day has"),
    ("chart: {job: {set_up: 1000 h}}", "1000 h", "more than any setting up takes"),
    ("chart: {access: {stairs: {name: stairs, factor: 999999999999}}}", "999999999999",
     "more than any way in makes of an hour"),
    ("chart: {taxes: {goods: {rate: 0.0000001 %}}}", "0.0000001 %", "less than any tax takes"),
    (BED % "found: {edge: soft, weeds: light, ground: old mulch, ground_depth: 1000 ft}", "1000 ft",
     "more than lies on any bed"),
    (BED % "material: {use: hardwood, depth: 0.0001 in}", "0.0001 in", "less than any layer has"),
    ("job: {every_bed: {material: {use: hardwood, depth: 0.0001 in}}, beds: [{material: (left out)}]}",
     "0.0001 in", "less than any layer has"),
]  # fmt: skip


@pytest.mark.parametrize(("over", "said", "what"), SLIPS, ids=[f"{each[1]} {each[2]}" for each in SLIPS])
def test_a_slip_stops_where_it_stands(over: str, said: str, what: str, tmp_path: Path) -> None:
    """One finding that stops, at the figure as it was written; nothing else stops for what follows of it."""
    stopping = [f for f in checked(tmp_path, over).findings if f.level is Level.STOPS]
    assert [(f.rule, f.message) for f in stopping] == [("impossible-figure", f"'{said}' is {what}")]
    assert stopping[0].place.text[stopping[0].place.column - 1 :].strip("'\"").startswith(said)
    assert stopping[0].fix.startswith("check the number and its unit; ")


# What small crews have and do, in both kinds of units (common practice, no source).
HONEST = [
    TRUCK % "volume: 0.4 yd3, payload: 300 lb",
    TRUCK % "volume: 40 m3, payload: 20 t",
    HAUL % ("3 h", "6", "0.1 yd3/h"),
    HAUL % ("0 min", "0.5", "60 yd3/h"),
    "chart: {crew: 1, productive_hours: 1.5, delivery: {load: 2 ft3, payload: 50 lb}}",
    "chart: {crew: 24, productive_hours: 12, delivery: {load: 100 yd3, payload: 50000 lb}}",
    "chart: {materials: {hardwood: {sold_in: 1 l, weight: 150 lb/yd3, lays: 0.1 yd3/h}}}",
    "chart: {materials: {hardwood: {sold_in: 75 yd3, weight: 1200 kg/m3, lays: 25 m3/h}}}",
    "chart: {materials: {river-stone: {sold_in: 1 lb}}}",
    "chart: {materials: {river-stone: {sold_in: 40 t, weight: 3500 lb/yd3}}}",
    "chart: {work: {recut-edge: {does: 5 ft/h}, hand-weed: {does: 10 ft2/h}}}",
    "chart: {work: {recut-edge: {does: 900 ft/h}, weed-preventer: {does: 40000 ft2/h}}}",
    "chart: {access: {easy: {name: easy, factor: 0.5}, stairs: {name: stairs, factor: 5}}}",
    "chart: {taxes: {goods: {rate: 0.125 %}, services: {rate: 0 %}}}",
    "chart: {job: {set_up: 0 min, clean_up: 8 h}}",
    BED % "material: {use: hardwood, depth: 1/8 in}",
    BED % "material: {use: hardwood, depth: 2 mm}",
    BED % "found: {edge: soft, weeds: light, ground: old mulch, ground_depth: 4 ft}",
]


@pytest.mark.parametrize("over", HONEST)
def test_no_honest_figure_is_stopped(over: str, tmp_path: Path) -> None:
    """Handcarts and trailers, one worker and two dozen, bags and loads."""
    assert [f for f in checked(tmp_path, over).findings if f.level is Level.STOPS] == []


def test_limits_hold_what_is_published() -> None:
    """23 CFR 658.17(b): a vehicle on the Interstate weighs at the most 80,000 lb, so its payload is less.
    Iron, 7.87 g/cm3 (from memory): nothing that is spread or dug is heavier. Vermiculite from 64 kg/m3 on
    (The Vermiculite Association, from memory) is the lightest."""
    ends = {(limit.path, end): _read(end)[0] for limit in LIMITS for end in (limit.least, limit.most) if end}
    assert len(ends) > 40
    assert ends["work.*.truck.payload", "200000 lb"] > 80_000
    per_yd3 = LB_PER_KG / (FT_PER_M**3 / 27)  # lb/yd3 for a kg/m3
    assert 7870 * per_yd3 < ends["materials.*.weight", "14000 lb/yd3"]
    assert ends["materials.*.weight", "5 lb/yd3"] < 64 * per_yd3


def test_every_limit_can_be_read_and_says_why() -> None:
    """The least lies below the most, in one unit."""
    assert len(LIMITS) > 30
    for limit in LIMITS:
        assert limit.why and limit.file in ("job", "chart") and (limit.least or limit.most), limit
        if limit.least and limit.most:
            (least, unit), (most, other) = _read(limit.least), _read(limit.most)
            assert least < most and unit == other, limit


def rules_of(folder: Path, over: str) -> dict[str, Level]:
    return {finding.rule: finding.level for finding in checked(folder, over).findings}


@pytest.mark.parametrize(
    ("shape", "rule"),
    [
        ("{rectangle: {length: 100000 ft, width: 100 ft}}", "large-bed"),
        ("{rectangle: {length: 100000 ft, width: 100 ft 1 in}}", "bed-too-large"),
        ("{rectangle: {length: 100000 ft, width: 100000 ft}}", "bed-too-large"),
        ("{circle: {diameter: 4000 ft}}", "bed-too-large"),
        ("{polygon: [[0 ft, 0 ft], [9000 ft, 0 ft], [9000 ft, 9000 ft]]}", "bed-too-large"),
        ("{map: [[0, 0], [0.1, 0], [0.1, 0.1]]}", "bed-too-large"),
        ("{area: 0.000000001 ft2}", "bed-too-small"),
        ("{rectangle: {length: 20 ft, width: 0.00001 in}}", "bed-too-small"),
        ("{spokes: [1 in, 1 in, 1 in, 1 in]}", "bed-too-small"),
        ("{circle: {diameter: 1 ft}}", ""),
    ],
)
def test_one_limit_of_size_for_all_shapes(shape: str, rule: str, tmp_path: Path) -> None:
    """A stated area is limited to ten million square feet, and so is what measures make; below a twentieth
    of a square meter an area prints as 0. A pot a foot across is a bed."""
    found = rules_of(tmp_path, f"job: {{beds: [{{shape: {shape}, against: (left out)}}]}}")
    sizes = {"large-bed", "bed-too-large", "bed-too-small"}
    assert sizes & found.keys() == ({rule} if rule else set())
    assert all(found[each] is Level.STOPS for each in sizes & found.keys() - {"large-bed"})


@pytest.mark.parametrize(("outline", "long"), [("480 ft 6 in", False), ("480 ft 7 in", True)])
def test_an_outline_is_that_of_a_bed(outline: str, long: bool, tmp_path: Path) -> None:
    """60 ft² in a strip of 3 inches are 240 ft long: twice that and both ends make 480 ft 6 in."""
    assert 2 * (60 / NARROWEST_BED + NARROWEST_BED) == Fraction(961, 2)
    over = f"job: {{beds: [{{shape: {{area: 60 ft2}}, outline: {outline}, against: (left out)}}]}}"
    found = rules_of(tmp_path, over)
    assert ("outline-too-long" in found) is long
    assert not long or found["outline-too-long"] is Level.WARNS


def test_the_smallest_bed_prints_as_something() -> None:
    """A twentieth of a square meter rounds to 0.1 m²."""
    assert SMALLEST_BED / FT_PER_M**2 == Fraction(1, 20)
