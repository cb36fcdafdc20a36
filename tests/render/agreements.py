"""The agreements of the examples as they are written: with their record and job description inside."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from scopegen.build import open_case
from scopegen.papers.frame import frame_of
from scopegen.record import recorded_agreement
from scopegen.render import to_pdf
from scopegen.words import lexicon
from scopegen.workspace import place_in_workspace

EXAMPLES = Path(__file__).parents[2] / "example_scopes"
# each example, and whether it is a draft
AGREEMENTS = {
    "heron-bend": False,
    "quarry-lane": True,
    "cedar-row": False,
    "tern-court": False,
    "garza-lane": False,
}


@cache
def agreement(name: str) -> tuple[bytes, bytes]:
    """The PDF of an example's agreement, and its record."""
    path = EXAMPLES / f"{name}.yaml"
    case = open_case(path)
    frame = frame_of(case, lexicon(case.job.language), draft=AGREEMENTS[name])
    document, record = recorded_agreement(frame, place_in_workspace(path))
    return to_pdf(document), record
