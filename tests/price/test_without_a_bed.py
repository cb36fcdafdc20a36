"""What is saved if a bed is left out: the same as a job description that really lacks it."""

from __future__ import annotations

import json
from decimal import Decimal as D
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from scopegen.cli.commands import scopegen
from scopegen.load import load
from tests.jobs import EXAMPLES, laid
from tests.price.test_lots import priced


def told(*words: str) -> dict[str, Any]:
    result = CliRunner().invoke(scopegen, ["price", *words, "--json"])
    assert result.exit_code == 0, result.output
    data: dict[str, Any] = json.loads(result.stdout)
    return data


@pytest.mark.parametrize("name", ["heron-bend", "cedar-row", "tern-court", "garza-lane"])
def test_total_is_that_of_a_job_without_the_bed(name: str, tmp_path: Path) -> None:
    """Bed by bed, taken out of the file."""
    path = EXAMPLES / f"{name}.yaml"
    found = told(str(path), "--by", "bed")
    data = load(path, name).data
    assert isinstance(data, dict)
    assert [each["bed"] for each in found["without"]] == [bed["name"] for bed in data["beds"]]
    for index, each in enumerate(found["without"]):
        less = {**data, "beds": [*data["beds"][:index], *data["beds"][index + 1 :]]}
        twin = laid(tmp_path, json.dumps(less, ensure_ascii=False))
        assert each["total"] == told(str(twin))["total"]
        assert D(each["total"]) + D(each["saved"]) == D(found["total"])


def test_only_bed_leaves_nothing(tmp_path: Path) -> None:
    """There is no job without it."""
    priced(tmp_path, "job: {paper: letter}")
    (only,) = told(str(tmp_path / "job.yaml"), "--by", "bed")["without"]
    assert only["nothing_left"] is True and only["total"] == "0.00"


def test_savings_are_less_than_the_total_where_minimums_are_shared(tmp_path: Path) -> None:
    """Two beds share one delivery and one trip: leaving out either saves neither."""
    priced(tmp_path, "job: {beds: [{name: A}, {name: B}]}")
    found = told(str(tmp_path / "job.yaml"), "--by", "bed")
    assert sum(D(each["saved"]) for each in found["without"]) < D(found["total"])
    shown = CliRunner().invoke(scopegen, ["price", str(tmp_path / "job.yaml"), "--by", "bed"]).stdout
    assert "The savings do not add up to the total" in " ".join(shown.split())
