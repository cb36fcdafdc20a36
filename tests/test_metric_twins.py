"""Every example in meters, converted exactly, is the same job: no figure changes by as much as a cent.

1 ft = 0.3048 m exactly, so 1 in = 2.54 cm, 1 ft² = 0.09290304 m² and 1 yd³ = 0.764554857984 m³ (NIST
Handbook 44, Appendix C).
"""

from __future__ import annotations

import json
import re
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from scopegen.build import open_case
from scopegen.cli.commands import scopegen
from scopegen.load import load
from tests.jobs import EXAMPLES, laid

IN_METERS = {
    "ft": ("0.3048", "m"), "in": ("2.54", "cm"), "ft2": ("0.09290304", "m2"), "yd3": ("0.764554857984", "m3"),
}  # fmt: skip
JOBS = sorted(
    path.stem for path in EXAMPLES.glob("*.yaml") if "customer:" in path.read_text(encoding="utf-8")
)


def metric(said: Any) -> Any:
    """The same in meters, whatever stands around it."""
    if isinstance(said, dict):
        return {key: metric(value) for key, value in said.items()}
    if isinstance(said, list):
        return [metric(value) for value in said]
    feet = re.fullmatch(r"(\d+) ft (\d+(?:\.\d+)?) in", said or "")
    if feet:
        return f"{Decimal(feet[1]) * Decimal('30.48') + Decimal(feet[2]) * Decimal('2.54')} cm"
    found = re.fullmatch(r"(\d+(?:\.\d+)?) (ft2?|in|yd3)", said or "")
    if found:
        factor, unit = IN_METERS[found[2]]
        return f"{Decimal(found[1]) * Decimal(factor)} {unit}"
    return said


def priced(path: Path) -> dict[str, Any]:
    result = CliRunner().invoke(scopegen, ["price", str(path), "--json"])
    assert result.exit_code == 0, result.output
    data: dict[str, Any] = json.loads(result.stdout)
    return data


def test_conversion_reaches_what_people_write() -> None:
    """The converter is not blind."""
    assert metric({"a": ["4 ft 6 in", "2 in", "18 ft2", "2 yd3", "20 %", None]}) == {
        "a": ["137.16 cm", "5.08 cm", "1.67225472 m2", "1.529109715968 m3", "20 %", None]
    }
    assert len(JOBS) >= 3


@pytest.mark.parametrize("name", JOBS)
def test_metric_twin_costs_the_same(name: str, tmp_path: Path) -> None:
    """Beds, lines, add-ons, taxes, payments, hours, spoil, chances: all of it."""
    data = load(EXAMPLES / f"{name}.yaml", name).data
    text = json.dumps(metric(data), ensure_ascii=False)
    assert text != json.dumps(data, ensure_ascii=False)
    twin = laid(tmp_path, text)
    chart = f"prices-{data['season']}.yaml"
    (tmp_path / chart).write_text((EXAMPLES / chart).read_text(encoding="utf-8"), encoding="utf-8")
    stops = {finding.rule for finding in open_case(twin).reading}
    assert stops == set()
    assert priced(twin) == priced(EXAMPLES / f"{name}.yaml")
