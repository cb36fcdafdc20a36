"""Rules look at each bed once: twice the beds take about twice the calls. Calls are counted, no time is."""

from __future__ import annotations

import cProfile
from pathlib import Path
from pstats import Stats

import pytest

from scopegen.check import check
from tests.rules.laid_over import opened

FOUND = "edge: soft, weeds: light, leaves: heavy, ground: fabric"
BEDS = {
    "sound": "",
    "with old fabric": f"found: {{{FOUND}}}, substrate: {{decided: included, work: pull-fabric}}, ",
    "with a bad length": "shape: {rectangle: {length: twenty, width: 6 ft}}, ",
    "with a bad word": "found: {edge: sofft, weeds: light}, ",
}


def calls(folder: Path, beds: int, more: str) -> int:
    """How many functions are called while the rules look at a job of so many beds."""
    case = opened(folder, f"job: {{beds: [{', '.join(f'{{{more}name: Bed {n}}}' for n in range(beds))}]}}")
    assert len(case.job.beds) == beds
    profile = cProfile.Profile()
    profile.runcall(check, case)
    return int(Stats(profile).total_calls)  # type: ignore[attr-defined]


@pytest.mark.parametrize("more", BEDS.values(), ids=BEDS)
def test_twice_the_beds_take_twice_the_calls(more: str, tmp_path: Path) -> None:
    """Where each bed is held against every other one, it is four times."""
    few, many = calls(tmp_path, 40, more), calls(tmp_path, 80, more)
    assert 1.5 < many / few < 2.4
