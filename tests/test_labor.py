"""Worker-hours and days, from the chart's rates."""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path

import pytest

from scopegen.price import Priced
from tests.rules.laid_over import opened

# Nothing but what a test adds: no set-up, no drive, no material.
JOB = """
chart: {{job: {{minimum: 100.00, set_up: {set_up}, come_back: 90.00}}, crew: {crew}, productive_hours: {day}}}
job:
  beds:
    - shape: {{area: 400 ft2}}
      outline: 90 ft
      against: (left out)
      material: {material}
      bed_prep: {bed_prep}
      edging: {edging}
      debris: {{decided: elsewhere, who: the owner}}
      substrate: {{decided: not-needed, because: it is clean}}
  site: {{access: {access}}}
{extras}
"""
NOTHING = {
    "set_up": "0 h", "crew": "2", "day": "6", "access": "{decided: included}", "extras": "",
    "material": "{decided: not-needed, because: deep enough}",
    "bed_prep": "{decided: excluded}", "edging": "{decided: excluded}",
}  # fmt: skip


def priced(folder: Path, **said: str) -> Priced:
    case = opened(folder, JOB.format(**{**NOTHING, **said}))
    assert case.priced is not None
    return case.priced


WEED = "{decided: included, work: hand-weed}"


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ({"bed_prep": WEED}, 2),  # 400 ft² at 200 ft² an hour
        ({"edging": "{decided: included, work: recut-edge}"}, 1),  # 90 ft at 90 ft an hour
        ({"edging": "{decided: included, work: new-edge}"}, 5),  # 90 ft at 18 ft an hour
        # 400 ft² at 3 in are 100 ÷ 27 yd³, at 1 yd³ an hour
        ({"material": "{use: hardwood, depth: 3 in}"}, F(100, 27)),
        ({"bed_prep": "{decided: no-charge, work: hand-weed}"}, 2),  # free for the customer, not for the crew
        ({"bed_prep": "{decided: add-on, work: hand-weed}"}, 0),  # not chosen yet
        ({"bed_prep": WEED, "access": "{decided: included, way: stairs}"}, F(28, 10)),  # × 1.4
        ({"bed_prep": WEED, "access": "{decided: included, way: easy}"}, 2),
        ({"bed_prep": WEED, "set_up": "30 min"}, 3),  # and half an hour for each of two
        ({"extras": "  extras: [{work: shrub-trim, worker_hours: 3 h, decided: included}]"}, 3),
    ],
)
def test_hours_worked_by_hand(tmp_path: Path, said: dict[str, str], hours: F) -> None:
    """Quantity by rate, by the factor of the way in; what is done for certain and nothing else."""
    assert priced(tmp_path, **said).worker_hours == hours


def test_six_yards_at_a_yard_and_a_half_an_hour(tmp_path: Path) -> None:
    """4 worker-hours, 2 hours of the clock for two (by definition): with a day of 2 hours, one day."""
    chart = (
        "chart: {materials: {hardwood: {lays: 1.5 yd3/h}}, productive_hours: 2, crew: 2, job: {set_up: 0 h}}"
    )
    bed = (
        "{shape: {area: 648 ft2}, against: (left out), outline: 9 ft, material: {use: hardwood, depth: 3 in},"
        " bed_prep: {decided: excluded}, edging: {decided: excluded}, substrate: {decided: excluded},"
        " debris: {decided: elsewhere, who: the owner}}"
    )
    case = opened(tmp_path, f"{chart}\njob: {{beds: [{bed}]}}")
    assert case.priced is not None
    assert (case.priced.worker_hours, case.priced.days) == (4, 1)


@pytest.mark.parametrize(
    ("crew", "day", "days"), [("2", "1", 1), ("2", "0.99", 2), ("1", "1", 2), ("3", "0.5", 2)]
)
def test_days_are_whole_days_of_the_crew(tmp_path: Path, crew: str, day: str, days: int) -> None:
    """2 worker-hours: a day of exactly that is one day, a minute less makes two."""
    assert priced(tmp_path, bed_prep=WEED, crew=crew, day=day).days == days


def test_no_work_takes_no_set_up(tmp_path: Path) -> None:
    """Where nothing is done for certain there are no hours and no days."""
    nothing = priced(tmp_path, bed_prep="{decided: add-on, work: hand-weed}", set_up="30 min")
    assert (nothing.worker_hours, nothing.days) == (0, 0)
