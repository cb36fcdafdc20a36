"""One job worked by hand to the cent: every figure that the priced JSON holds."""

from __future__ import annotations

import json
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from ruamel.yaml import YAML

from scopegen.cli.commands import scopegen

FOLDER = Path(__file__).parent / "pencil"
BY_HAND = YAML(typ="safe", pure=True).load((FOLDER / "by-hand.yaml").read_text())


def priced(path: Path) -> dict[str, Any]:
    result = CliRunner().invoke(scopegen, ["price", str(path), "--json"])
    assert result.exit_code == 0, result.output
    data: dict[str, Any] = json.loads(result.stdout)
    return data


def as_listed(found: list[dict[str, Any]], by_hand: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """What was found, with the keys that the sheet worked by hand has for it."""
    return [{key: entry[key] for key in hand} for entry, hand in zip(found, by_hand, strict=True)]


@pytest.mark.parametrize("name", ["feet", "metres"])
@pytest.mark.parametrize("key", sorted(BY_HAND))
def test_figure_is_the_one_worked_by_hand(name: str, key: str) -> None:
    """In feet and, converted exactly, in metres, the job has the figures of the sheet worked by hand."""
    found, by_hand = priced(FOLDER / f"{name}.yaml")[key], BY_HAND[key]
    if isinstance(by_hand, list) and by_hand:
        found = as_listed(found, by_hand)
    assert found == by_hand


def test_sheet_worked_by_hand_holds_every_figure() -> None:
    """No figure of the priced JSON is missing on the sheet but the job's own name, season and currency."""
    assert set(priced(FOLDER / "feet.yaml")) - set(BY_HAND) == {"job", "season", "currency"}


def test_same_job_in_metres_costs_the_same() -> None:
    """Measuring in metres changes no figure at all."""
    assert priced(FOLDER / "metres.yaml") == priced(FOLDER / "feet.yaml")


ADD_ON_LINES = (
    (
        "    material: {decided: add-on, use: bark, depth: 2 in}\n",
        "    material: {decided: not-needed, because: a test}\n",
    ),
    (
        "    substrate: {decided: add-on, work: rake}\n",
        "    substrate: {decided: not-needed, because: a test}\n",
    ),
)


@pytest.mark.parametrize("taken_out", [some for size in (1, 2) for some in combinations(range(2), size)])
def test_no_add_on_changes_the_base_or_another_add_on(tmp_path: Path, taken_out: tuple[int, ...]) -> None:
    """Whatever add-ons stand on the paper, the base and each other add-on keep their printed price, so
    that any choice of add-ons costs the base plus the sum of the printed prices."""
    whole = priced(FOLDER / "feet.yaml")
    text = (FOLDER / "feet.yaml").read_text()
    for number in taken_out:
        assert ADD_ON_LINES[number][0] in text
        text = text.replace(*ADD_ON_LINES[number])
    for name in ("company.yaml", "prices-2027.yaml"):
        (tmp_path / name).write_text((FOLDER / name).read_text())
    (tmp_path / "job.yaml").write_text(text)
    fewer = priced(tmp_path / "job.yaml")
    assert fewer["total"] == whole["total"]
    prices = {add_on["decision"]: add_on["amount"] for add_on in whole["add_ons"]}
    left = {add_on["decision"]: add_on["amount"] for add_on in fewer["add_ons"]}
    assert len(left) == 2 - len(taken_out)
    assert left.items() <= prices.items()
