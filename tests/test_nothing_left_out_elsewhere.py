"""Nothing left out, on the other examples: each decision of each bed and of the property, opened or left
empty, is the one new finding, at its line, and none on another decision is lost."""

from __future__ import annotations

from pathlib import Path

import pytest

from scopegen.job import DECISIONS, SITE_DECISIONS
from tests.test_nothing_left_out import EXAMPLES, RULE, Block, bed_lines, block, findings, top, without_place

JOBS = ("cedar-row", "tern-court", "garza-lane")


def lines_of(name: str) -> list[str]:
    return (EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8").split("\n")


def beds_of(name: str) -> list[str]:
    return [line.removeprefix("  - name: ") for line in lines_of(name) if line.startswith("  - name: ")]


def assert_one_open(
    name: str, folder: Path, lines: list[str], expected: tuple[str, str | None, str, int]
) -> None:
    had, has = findings(folder, "\n".join(lines_of(name))), findings(folder, "\n".join(lines))
    _, bed, decision, _ = expected
    assert {f for f in without_place(had) if f[2:] != (bed, decision)} <= without_place(has)
    new = {
        (f.rule, f.bed, f.decision, f.place.line)
        for f in has
        if (f.rule, f.message, f.bed, f.decision) not in without_place(had)
    }
    assert new == {expected}


BEDS = [(name, bed) for name in JOBS for bed in beds_of(name)]


def test_every_bed_is_tried() -> None:
    """Four beds of stone, twelve of the commercial site, four of the house whose paper is in Spanish."""
    assert len(BEDS) == 20


@pytest.mark.parametrize(("name", "bed"), BEDS)
@pytest.mark.parametrize("decision", DECISIONS)
def test_bed_decision_opened(tmp_path: Path, name: str, bed: str, decision: str) -> None:
    """Set to `open` on the bed, whether the bed said it or `every_bed` did."""
    lines = lines_of(name)
    begin, end = bed_lines(lines, bed)
    found = block(decision, lines, begin, end, 4) or Block(end, end)
    while lines[found.first - 1] == "" and found.first == found.last:
        found = Block(found.first - 1, found.first - 1)
    lines[found.first : found.last] = [f"    {decision}: open"]
    assert_one_open(name, tmp_path, lines, (RULE[decision], bed, decision, found.first + 1))


@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("decision", SITE_DECISIONS)
def test_site_decision_emptied(tmp_path: Path, name: str, decision: str) -> None:
    """Left without a value."""
    lines = lines_of(name)
    found = block(decision, lines, *top(lines, "site"), 2)
    assert found is not None
    lines[found.first : found.last] = [f"  {decision}:"]
    assert_one_open(name, tmp_path, lines, ("open-site", None, decision, found.first + 1))
