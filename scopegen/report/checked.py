"""Checks as plain data and as text. Nothing heavy is imported here: every `check` waits for it."""

from __future__ import annotations

from typing import Any

from scopegen.check import Checked
from scopegen.findings import Level
from scopegen.rules.decisions import Decision


def check_json(checked: Checked) -> dict[str, Any]:
    """`findings`, and `decided` and `open` as lists of {bed, decision, line, column}."""
    return {
        "findings": [finding.as_json() for finding in checked.findings],
        "decided": [_decision(decision) for decision in checked.decided],
        "open": [_decision(decision) for decision in checked.open],
    }


def _decision(decision: Decision) -> dict[str, Any]:
    return {
        "bed": decision.bed,
        "decision": decision.decision,
        "line": decision.place.line,
        "column": decision.place.column,
    }


def check_text(checked: Checked, *, hint: bool = True) -> str:
    """Every finding, the tally of decisions, and as a hint where more is to be read about a finding."""
    blocks = [finding.as_text() for finding in checked.findings]
    more = []
    if checked.findings and hint:
        such = checked.findings[0].rule
        more = [f"`scopegen explain RULE` tells more; RULE is the word in brackets, such as {such}."]
    return "\n\n".join([*blocks, tally(checked), *more])


def tally(checked: Checked) -> str:
    """One line on decisions, one on findings, and what follows."""
    decided, undecided = len(checked.decided), len(checked.open)
    unclear = f", {checked.unclear} not understood" if checked.unclear else ""
    total = decided + undecided + checked.unclear
    lines = [f"{count_of(total, 'decision')}: {decided} decided, {undecided} open{unclear}."]
    for decision in checked.open:
        lines.append(f"  open: {decision.bed or 'the property'}, {decision.decision.replace('_', ' ')}")
    stopping = sum(finding.level is Level.STOPS for finding in checked.findings)
    others = len(checked.findings) - stopping
    if stopping:
        lines.append(
            f"The agreement cannot be written yet: {count_of(stopping, 'finding')} "
            f"stop{'s' if stopping == 1 else ''} it" + (f", {others} more to look at." if others else ".")
        )
    else:
        lines.append(
            "Nothing stops the agreement"
            + (f"; {count_of(others, 'finding')} to look at." if others else ".")
        )
    return "\n".join(lines)


def stopping_text(checked: Checked) -> str:
    """The findings that stop, and no others."""
    return "\n\n".join(finding.as_text() for finding in checked.findings if finding.level is Level.STOPS)


def count_of(number: int, noun: str) -> str:
    """A count with its noun: `1 trip`, `3 trips`."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
