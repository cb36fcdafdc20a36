"""Where a clause is used, and why a job has the clauses that it has."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from scopegen.case import Case
from scopegen.workspace import shown


@dataclass(frozen=True, slots=True)
class Use:
    """One use of a clause by a job: in which version, how it was decided and for which beds, or on what
    condition."""

    job: str
    season: int | None
    version: str
    how: str
    beds: tuple[str, ...]
    why: str

    def as_json(self) -> dict[str, Any]:
        """Plain data."""
        return asdict(self)


def uses_in(case: Case, job: Path, name: str) -> Iterator[Use]:
    """Each use of a clause in one job."""
    if case.chosen is None:
        return
    head = (shown(job), case.job.season)
    for said in case.chosen.said:
        if name == said.clause:
            yield Use(*head, said.version, said.how, _beds(case, said.beds), said.why)
    for term in (*case.chosen.terms, *case.chosen.cautions):
        if name == term.clause:
            yield Use(*head, term.version, "says", (), term.why)
    if name.startswith("outcomes."):
        versions = {used.wording.version for used in case.chosen.texts if used.clause == name}
        for version in sorted(versions):
            yield Use(*head, version, "says", (), "a way to decide leads to it")


def used_text(name: str, uses: list[Use]) -> str:
    """A line a use, by job."""
    if not uses:
        return f"No job here uses {name}."
    lines = []
    for job in dict.fromkeys(use.job for use in uses):
        mine = [use for use in uses if use.job == job]
        lines.append(f"{job} (season {mine[0].season})")
        for use in mine:
            beds = f", {', '.join(use.beds)}" if use.beds else ""
            lines.append(f"  version {use.version}: {use.how}{beds} ({use.why})")
    jobs = len({use.job for use in uses})
    return "\n".join([*lines, "", f"{name} is used in {jobs} job{'s' * (jobs > 1)}."])


def _beds(case: Case, beds: tuple[int, ...]) -> tuple[str, ...]:
    return tuple(case.bed_name(index) or "" for index in beds)


def why_json(case: Case) -> dict[str, Any]:
    """Every clause of a job with its version and its reason, and the known work that the job lacks."""
    assert case.chosen is not None
    chosen = case.chosen
    return {
        "decided": [
            {
                "clause": said.clause,
                "version": said.version,
                "decision": said.decision,
                "how": said.how,
                "beds": list(_beds(case, said.beds)),
                "why": said.why,
            }
            for said in chosen.said
        ],
        "terms": [{"clause": t.clause, "version": t.version, "why": t.why} for t in chosen.terms],
        "cautions": [{"clause": t.clause, "version": t.version, "why": t.why} for t in chosen.cautions],
        "not_included": {decision: list(names) for decision, names in chosen.absent},
        "without_wording": [trouble.message for trouble in chosen.troubles],
    }


def why_text(case: Case) -> str:
    """The same as lines to read."""
    said, lines = why_json(case), ["Decided"]
    for each in said["decided"]:
        beds = f" for {', '.join(each['beds'])}" if each["beds"] else ""
        decision = each["decision"].replace("_", " ")
        by = f" ({each['why']})" if ": " in each["why"] else ""
        lines.append(f"  {each['clause']} ({each['version']}): {decision} {each['how']}{beds}{by}")
    for key, title in (("terms", "Terms"), ("cautions", "Cautions")):
        lines += [
            "",
            title,
            *(f"  {each['clause']} ({each['version']}): {each['why']}" for each in said[key]),
        ]
    assert case.words is not None  # a case with chosen clauses has words
    words = case.words
    lines += ["", "Known to the library, and in no way part of this job"]
    for decision, names in said["not_included"].items():
        lines.append(f"  {words.say(f'decision.{decision}')}: {', '.join(names)}")
    if said["without_wording"]:
        lines += ["", "Without wording", *(f"  {message}" for message in said["without_wording"])]
    return "\n".join(lines)
