"""For every season and language, every decision of every bed has exactly one wording."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from scopegen.build import open_case
from scopegen.check import check
from scopegen.words import languages
from tests.jobs import EXAMPLES, laid

# Seasons with nothing of their own in the library, with the oldest wording, and years later.
SEASONS = (2027, 2028, 2031)
JOBS = ("heron-bend", "cedar-row", "tern-court")


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("season", SEASONS)
@pytest.mark.parametrize("job", JOBS)
def test_every_share_of_every_decision_is_said_once(
    tmp_path: Path, job: str, season: int, language: str
) -> None:
    """Each part of each decision of each bed, each site decision and each extra: once, in one version."""
    text = (EXAMPLES / f"{job}.yaml").read_text(encoding="utf-8")
    for key in ("season", "walked", "dated"):
        text = text.replace(f"{key}: 2027", f"{key}: {season}")
    text = text.replace("language: en", f"language: {language}")
    path = laid(tmp_path, text)
    chart = (tmp_path / "prices-2027.yaml").read_text(encoding="utf-8")
    (tmp_path / f"prices-{season}.yaml").write_text(chart.replace("season: 2027", f"season: {season}"))
    case = open_case(path)
    assert case.chosen and case.measured and not case.chosen.troubles
    assert not [
        finding for finding in check(case).findings if finding.rule in ("no-wording", "unknown-clause")
    ]
    said = Counter(
        (each.decision, bed, str(each.path)) for each in case.chosen.said for bed in each.beds or (None,)
    )
    assert said and set(said.values()) == {1}
    asked = {(share.decision, share.bed) for share in case.measured.shares if share.how}
    asked |= {(answer.decision, answer.bed) for answer in case.answers if answer.bed is None}
    told = {(decision, bed) for decision, bed, _ in said}
    assert {pair for pair in asked if pair[1] is not None} <= told
    by_site = {decision for decision, bed in asked if bed is None}
    assert by_site <= {each.decision for each in case.chosen.said}
    assert {used.wording.version for used in case.chosen.texts} == {"2027"}
