"""A job worked out step by step, as text and as JSON."""

from __future__ import annotations

from typing import Any

from scopegen.papers.frame import Frame
from scopegen.working import worked_out


def working_text(frame: Frame) -> str:
    """A heading for each bed, line and offer, and its steps under it."""
    sheets = worked_out(frame.case, frame.words)
    return "\n\n".join("\n".join([sheet.title, *(f"  {step}" for step in sheet.steps)]) for sheet in sheets)


def working_json(frame: Frame) -> dict[str, Any]:
    """`working`: a list of {title, steps}."""
    sheets = worked_out(frame.case, frame.words)
    return {"job": frame.job.job, "working": [{"title": s.title, "steps": list(s.steps)} for s in sheets]}
