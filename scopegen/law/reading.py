"""Reads the pages of the law."""

from __future__ import annotations

from pathlib import Path

from scopegen.findings import Finding
from scopegen.law.page import Law
from scopegen.load import Unreadable, load
from scopegen.understand import understand_whole


def read_laws(folder: Path) -> tuple[tuple[Law, ...], tuple[Finding, ...]]:
    """Every page in the library's law folder, and what is wrong with those that are not sound."""
    laws: list[Law] = []
    findings: list[Finding] = []
    for path in sorted((folder / "law").glob("*.yaml")):
        try:
            source = load(path, f"clause_library/law/{path.name}", kind="law")
        except Unreadable as error:
            findings.append(error.finding)
            continue
        law, wrong = understand_whole(Law, source)
        findings += wrong
        laws += [law] if law else []
    return tuple(laws), tuple(findings)
