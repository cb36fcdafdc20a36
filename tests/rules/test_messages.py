"""The whole message of every rule, as its failing example brings it: what is wrong, what to do, and where."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from scopegen.rules import RULES, Rule
from tests.rules.laid_over import checked

FILE = Path(__file__).with_name("messages.yaml")
EXPECTED: dict[str, list[dict[str, Any]]] = YAML(typ="safe", pure=True).load(FILE.read_text(encoding="utf-8"))


def told(rule: Rule, folder: Path) -> list[dict[str, Any]]:
    """The rule's findings in its failing example, with the line that each points at."""
    return [
        {
            "message": finding.message,
            "fix": finding.fix,
            "bed": finding.bed,
            "decision": finding.decision,
            "points_at": finding.place.text[finding.place.column - 1 :].strip(),
        }
        for finding in checked(folder, rule.fails).findings
        if finding.rule == rule.id
    ]


def test_every_rule_has_its_message_written_down() -> None:
    """No rule is without an expected message, and none is expected that is gone."""
    assert sorted(EXPECTED) == sorted(rule.id for rule in RULES)


@pytest.mark.parametrize("rule", RULES, ids=[rule.id for rule in RULES])
def test_whole_message(rule: Rule, tmp_path: Path) -> None:
    """Message, what to do, bed, decision and place are as written down."""
    assert told(rule, tmp_path) == EXPECTED[rule.id]


def write_down() -> None:
    """Writes the table anew; read the difference before it is committed."""
    table = {}
    for rule in RULES:
        with tempfile.TemporaryDirectory() as folder:
            table[rule.id] = told(rule, Path(folder))
    yaml = YAML(typ="safe", pure=True)
    yaml.default_flow_style, yaml.width, yaml.allow_unicode = False, 10_000, True
    yaml.sort_base_mapping_type_on_output = False
    with FILE.open("w", encoding="utf-8") as file:
        yaml.dump(table, file)


if __name__ == "__main__":
    write_down()
