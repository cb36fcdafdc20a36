"""Every rule's own examples: the one that passes has nothing of it, the one that fails has it, and nothing
else stops but what is declared here."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scopegen import rules
from scopegen.findings import Level
from scopegen.rules import RULES, Rule
from tests.rules.laid_over import checked

# What else stops in a failing example, and why it cannot be otherwise.
ALSO: dict[str, set[str]] = {}
EACH = pytest.mark.parametrize("rule", RULES, ids=[rule.id for rule in RULES])


def test_rules_are_all_here() -> None:
    """Every family's rules are in the one tuple, each once, under a name of its own."""
    families = [getattr(rules, name) for name in dir(rules) if hasattr(getattr(rules, name), "RULES")]
    named = [rule.id for family in families for rule in family.RULES]
    assert len(named) > 50
    assert sorted(named) == sorted(rule.id for rule in RULES)
    assert len(set(named)) == len(named)


@EACH
def test_rule_tells_what_it_asks_and_why(rule: Rule) -> None:
    """A rule without its reason and its two examples is not done."""
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", rule.id)
    assert rule.asks.endswith(".") and rule.why.endswith(".")
    assert rule.passes and rule.fails and rule.passes != rule.fails


def test_sound_job_has_no_finding(tmp_path: Path) -> None:
    """What the examples are laid over is itself without fault."""
    assert checked(tmp_path).findings == ()


@EACH
def test_passing_example_passes(rule: Rule, tmp_path: Path) -> None:
    """The example that passes has no finding of the rule, and nothing that stops."""
    found = checked(tmp_path, rule.passes).findings
    assert [f for f in found if f.rule == rule.id or f.level is Level.STOPS] == []


@EACH
def test_failing_example_fails(rule: Rule, tmp_path: Path) -> None:
    """The example that fails has a finding of the rule, at its level, and no other that stops."""
    found = checked(tmp_path, rule.fails).findings
    assert rule.id in {f.rule for f in found}
    assert {f.level for f in found if f.rule == rule.id} == {rule.level}
    others = {f.rule for f in found if f.level is Level.STOPS} - {rule.id}
    assert others == ALSO.get(rule.id, set())
