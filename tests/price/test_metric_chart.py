"""A chart in meters, cubic meters, tonnes and Canadian dollars, worked by hand."""

from __future__ import annotations

from decimal import Decimal as D
from fractions import Fraction as F
from pathlib import Path

import pint
import pytest

from scopegen.case import Case
from scopegen.check import check
from scopegen.papers.document import walk
from scopegen.quantities.units import UNIT_SIZE
from tests.jobs import agreement, words_of
from tests.price.test_lots import lines
from tests.rules.laid_over import opened

METRIC = """\
job:
  units: metric
  paper: A4
  beds:
    - shape: {rectangle: {length: 6 m, width: 2 m}}
      material: {use: hardwood, depth: 50 mm}
chart:
  currency: CAD
  delivery: {load: 5 m3, payload: 4 t}
  materials:
    hardwood: {unit: m3, price: 130.00, sold_in: 0.1 m3, weight: 380 kg/m3, lays: 0.8 m3/h}
    river-stone: {unit: t, price: 210.00, sold_in: 0.2 t, weight: 1540 kg/m3}
  work:
    hand-weed: {price: {per: m2, amount: 2.10}, does: 20 m2/h, spoil: {depth: 3 mm, stream: green}}
    recut-edge: {price: {per: m, amount: 4.80}, does: 28 m/h}
    rake-and-top-up: {price: {per: m2, amount: 1.10}, does: 75 m2/h}
    haul-away:
      price: {trip: 40.00, drive: 40 min, riders: 1, loading: 1.2 m3/h, minimum: 60.00}
      dump: {sod: 30.00/m3, green: 45.00/t}
      truck: {volume: 4 m3, payload: 1.5 t}
"""


def case_of(folder: Path, text: str = METRIC) -> Case:
    case = opened(folder, text)
    assert [f.message for f in check(case).findings if f.level.name == "STOPS"] == []
    return case


def test_meters_are_billed_in_meters(tmp_path: Path) -> None:
    """0.6 m³ at 130.00 is 78.00; 12 m² at 2.10 is 25.20, at 1.10 13.20; 10 m of edge at 4.80 is 48.00."""
    priced = case_of(tmp_path).priced
    assert priced is not None
    found = {
        line.id: (line.quantity, line.unit, line.amount) for line in priced.lines if line.decision != "debris"
    }
    assert found == {
        "material:hardwood": (F(3, 5), "m3", D("78.00")),
        "work:hand-weed": (12, "m2", D("25.20")),
        "work:recut-edge": (10, "m", D("48.00")),
        "work:rake-and-top-up": (12, "m2", D("13.20")),
        "delivery:hardwood": (1, "load", D("70.00")),
    }


def test_stone_is_sold_by_the_tonne(tmp_path: Path) -> None:
    """0.6 m³ at 1,540 kg is 0.924 t, sold in fifths: 1 t at 210.00."""
    text = METRIC.replace("use: hardwood", "use: river-stone").replace(
        "depth: 50 mm}", "depth: 50 mm}\n      substrate: {decided: not-needed, because: no fabric is wanted}"
    )
    priced = case_of(tmp_path, text).priced
    assert priced is not None
    (line,) = lines(priced, "material").values()
    assert (line.measured, line.quantity, line.unit, line.amount) == (F(924, 1000), 1, "t", D("210.00"))


def test_dump_fees_by_the_cubic_meter_and_the_tonne(tmp_path: Path) -> None:
    """Green waste: 12 m² × 3 mm = 0.036 m³ at 250 lb/yd³ = 148.32 kg/m³, 5.34 kg at 45.00/t: 0.24. Sod: 10 m
    × 4 × 2 ÷ 2 in² = 0.025806 m³ × 1.25 = 0.032258 loose at 30.00: 0.97. Trip 40.00, drive 40 min at 60.00:
    40.00; loading 0.068258 ÷ 1.2 h at 60.00: 3.41. Together 84.62."""
    priced = case_of(tmp_path).priced
    assert priced is not None
    (line,) = lines(priced, "hauling").values()
    assert line.amount == D("84.62")


def test_paper_is_in_meters_and_canadian_dollars(tmp_path: Path) -> None:
    """No foot, inch, yard or US dollar on it."""
    case_of(tmp_path)
    document = agreement(tmp_path / "job.yaml")
    said = words_of(tuple(block for _, block in walk(document)))
    assert "CA$78.00" in said and "0.6 m³" in said and "10 m" in said and "50 mm" in said
    for foreign in (" ft", "yd³", " in deep", " lb", "US$"):
        assert foreign not in said, foreign


REGISTRY = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("unit", "spelled", "base"),
    [
        ("m", "meter", "foot"),
        ("m2", "meter**2", "foot**2"),
        ("m3", "meter**3", "yard**3"),
        ("t", "metric_ton", "short_ton"),
    ],
)
def test_sizes_of_units_against_pint(unit: str, spelled: str, base: str) -> None:
    """Pint's registry, which has NIST's factors."""
    assert float(UNIT_SIZE[unit]) == pytest.approx(REGISTRY(spelled).to(base).magnitude, rel=1e-12)
