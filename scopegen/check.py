"""Runs the rules over a case, all of them, and tallies the decisions."""

from __future__ import annotations

from dataclasses import dataclass

from scopegen.case import Case
from scopegen.findings import Finding, in_file_order, stops
from scopegen.rules import RULES
from scopegen.rules.decisions import Decision, decided_decisions, open_decisions


@dataclass(frozen=True, slots=True)
class Checked:
    """All findings in file order, and each decision of each bed and of the site, decided or open."""

    findings: tuple[Finding, ...]
    decided: tuple[Decision, ...]
    open: tuple[Decision, ...]
    unclear: int = 0  # decisions that were said, but could not be understood

    @property
    def stops(self) -> bool:
        """Whether the agreement cannot be written."""
        return stops(self.findings)


def check(case: Case) -> Checked:
    """Every finding about a case: what reading found, then what each rule finds."""
    found = [*case.reading, *(finding for rule in RULES for finding in rule.find(case))]
    ordered = in_file_order(_job_first(case, found))
    decided, undecided = decided_decisions(case), open_decisions(case)
    return Checked(ordered, decided, undecided, len(case.answers) - len(decided) - len(undecided))


def _job_first(case: Case, findings: list[Finding]) -> list[Finding]:
    return sorted(findings, key=lambda finding: finding.place.file != case.job_source.name)
