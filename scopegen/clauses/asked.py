"""What a job asks wording for: each decided part, beds with the same decision and work together."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from scopegen.answers import Answer
from scopegen.chart import Chart
from scopegen.clauses.outcomes import YOURS
from scopegen.job import DECISIONS, SITE_DECISIONS, Job, Part
from scopegen.load import Path_
from scopegen.measure import Measured, Share

# The order in which the work is told: as the crew does it.
TOLD = ("substrate", "edging", "bed_prep", "material", "debris", "extra", *SITE_DECISIONS)


@dataclass(frozen=True)
class Asked:
    """One part of a decision with the beds that share it."""

    decision: str
    part: Part
    path: Path_
    shares: tuple[Share, ...]
    bed: int | None = None

    @property
    def beds(self) -> tuple[int, ...]:
        """The beds that it is said of; none for the site and for work beside the beds."""
        own = () if self.bed is None else (self.bed,)
        return tuple(dict.fromkeys(share.bed for share in self.shares)) or own


def clauses_named(chart: Chart) -> Iterator[str]:
    """Every clause that a job of this chart can ask for by its name."""
    yield from (entry.clause for entry in (*chart.work.values(), *chart.materials.values()))
    yield from (f"{decision}.general" for decision in (*DECISIONS, "extra"))
    yield YOURS


def asked_of(job: Job, answers: tuple[Answer, ...], measured: Measured) -> list[Asked]:
    """Every decided part; beds with the same decision and work together, in the order they are told."""
    groups: dict[tuple[object, ...], Asked] = {}
    for share in measured.shares:
        if share.how:
            key = (share.decision, share.part.visit or job.beds[share.bed].visit, *_sameness(share))
            had = groups.get(key)
            groups[key] = (
                replace(had, shares=(*had.shares, share))
                if had
                else Asked(share.decision, share.part, share.path, (share,))
            )
    asked = list(groups.values())
    for answer in answers:
        if answer.decision not in DECISIONS:
            asked += [
                Asked(answer.decision, part, answer.path_of(i), (), answer.bed)
                for i, part in enumerate(answer.parts)
                if part.how
            ]
    asked += [Asked("extra", part, ("extras", i), ()) for i, part in enumerate(job.extras) if part.how]
    return sorted(asked, key=lambda each: TOLD.index(each.decision))


def _sameness(share: Share) -> tuple[object, ...]:
    """What must agree for beds to be named together. Offers have a price each, so each stands alone."""
    part = share.part
    said = tuple(
        (key, getattr(part, key))
        for key in sorted(type(part).model_fields)
        if key not in ("on", "area", "along") and key in part.model_fields_set
    )
    return (said, share.path) if part.how in ("add-on", "no-charge", "customer") else (said,)
