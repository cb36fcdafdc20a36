"""Which decisions of a job are open and which are decided: the tally and the rules read it here."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from scopegen.answers import Answer
from scopegen.case import Case
from scopegen.findings import Place
from scopegen.job import DECISIONS
from scopegen.load import Path_

# How a decision is called in a sentence.
SPOKEN = {
    "material": "material", "bed_prep": "bed prep", "edging": "edging", "debris": "debris",
    "substrate": "the ground underneath", "extra": "work beside the beds", "buried-lines": "buried lines",
    "access": "access and drop spot", "irrigation-and-lighting": "irrigation and lighting",
    "drains-and-slope": "drains and slope", "plants": "plants to keep",
    "movables-and-pets": "movables and pets", "clean-up": "final clean-up",
    "leftover": "leftover material", "care-after": "care afterwards",
}  # fmt: skip
MISSED = "parts-miss-bed"  # measuring found ground or edge that no part decides


@dataclass(frozen=True, slots=True)
class Decision:
    """One decision of a bed (by name), or of the site (bed None), and where it was said."""

    bed: str | None
    decision: str
    place: Place

    def as_json(self) -> dict[str, object]:
        """The decision as plain data."""
        return {
            "bed": self.bed,
            "decision": self.decision,
            "line": self.place.line,
            "column": self.place.column,
        }


def open_decisions(case: Case) -> tuple[Decision, ...]:
    """Every decision that nobody made, wholly or in part; one for each bed and decision."""
    return tuple(
        _tallied(case, answer) for answer in case.answers if sound(case, answer) and undecided(case, answer)
    )


def decided_decisions(case: Case) -> tuple[Decision, ...]:
    """Every decision that somebody made. What was said but cannot be understood is in neither list."""
    return tuple(
        _tallied(case, answer)
        for answer in case.answers
        if sound(case, answer) and not undecided(case, answer)
    )


def undecided(case: Case, answer: Answer) -> bool:
    """The decision is open, or its parts leave some of the bed undecided."""
    return answer.open or missed(case, answer)


def missed(case: Case, answer: Answer) -> bool:
    """The parts of the decision do not cover the bed."""
    known: set[tuple[int | None, str | None]] | None = case.once.get("missed")
    if known is None:
        troubles = case.measured.troubles if case.measured else ()
        known = {(trouble.bed, trouble.decision) for trouble in troubles if trouble.rule == MISSED}
        case.once["missed"] = known
    return (answer.bed, answer.decision) in known


def sound(case: Case, answer: Answer) -> bool:
    """Nothing around the answer is broken in a way that hides what was said."""
    hidden: set[Path_] = {("beds",), ("site",)} if answer.bed is None else {("beds",), ("beds", answer.bed)}
    if answer.decision in DECISIONS and not said(case, answer):
        hidden.add(("every_bed",))
    return not answer.broken and not hidden & case.broken


def said(case: Case, answer: Answer) -> bool:
    """The job description has the decision's key, whatever stands there."""
    return (*answer.path, "@key") in case.job_source.marks


def place_of(case: Case, answer: Answer) -> Place:
    """Where an open decision was left open: its open part, its key, or, where it is absent, the bed's
    name, the `site` key, or the first line."""
    if said(case, answer):
        for index, part in enumerate(answer.parts):
            if part.open:
                return case.place(answer.path_of(index), key=True)
        return case.place(answer.path, key=True)
    if answer.bed is not None:
        return case.place(("beds", answer.bed, "name"), key=True)
    if ("site", "@key") in case.job_source.marks:
        return case.place(("site",), key=True)
    return case.job_source.at(1, 1)


def all_decided(case: Case) -> bool:
    """Every decision was made and understood: what is missing now is missing for good."""
    hidden = {path[0] for path in case.broken} & {"beds", "every_bed", "site", "extras"}
    parts = any(answer.broken or undecided(case, answer) for answer in case.answers)
    return not hidden and not parts and not any(part.open for part in case.job.extras)


def open_answers(case: Case, *decisions: str) -> Iterator[Answer]:
    """The answers to these decisions that are sound and open in a part or as a whole."""
    for answer in case.answers:
        if answer.decision in decisions and sound(case, answer) and answer.open:
            yield answer


def _tallied(case: Case, answer: Answer) -> Decision:
    return Decision(case.bed_name(answer.bed), answer.decision, place_of(case, answer))
