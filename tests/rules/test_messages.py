"""The whole message of every rule, as its failing example brings it: what is wrong, what to do, and where."""

from __future__ import annotations

from pathlib import Path

import pytest

from scopegen.rules import RULES, Rule
from tests.messages import Told, read_table, write_table
from tests.rules.laid_over import checked

FILE = Path(__file__).with_name("messages.yaml")
EXPECTED = read_table(FILE)


def told(rule: Rule, folder: Path) -> Told:
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


if __name__ == "__main__":
    write_table(FILE, RULES, told)
