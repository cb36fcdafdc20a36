"""What was decided: for each bed and decision the parts that hold for it, and where they were said."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from scopegen.job import DECISIONS, SITE_DECISIONS, Bed, Job, Part
from scopegen.load import Path_


@dataclass(frozen=True, slots=True)
class Answer:
    """One decision of one bed, or of the site (bed None). `parts` is empty where nothing was said.

    `inherited` parts were said in `every_bed`.
    `broken`: something was said, but it could not be understood.
    """

    bed: int | None
    decision: str
    parts: tuple[Part, ...]
    path: Path_
    inherited: bool = False
    broken: bool = False

    @property
    def open(self) -> bool:
        """Nobody decided, wholly or in part."""
        return not self.broken and (not self.parts or any(part.open for part in self.parts))

    def path_of(self, index: int) -> Path_:
        """Where one part was said."""
        return (*self.path, index)


def bed_answers(job: Job, broken: frozenset[Path_], index: int) -> Iterator[Answer]:
    """The material and the four decisions of one bed; what the bed says goes before `every_bed`."""
    bed = job.beds[index]
    for decision in DECISIONS:
        path: Path_ = ("beds", index, decision)
        inherited_path: Path_ = ("every_bed", decision)
        if path in broken:
            yield Answer(index, decision, (), path, broken=True)
        elif decision in bed.model_fields_set:
            yield Answer(index, decision, getattr(bed, decision) or (), path)
        elif inherited_path in broken:
            yield Answer(index, decision, (), inherited_path, inherited=True, broken=True)
        elif decision in job.every_bed.model_fields_set:
            yield Answer(
                index, decision, getattr(job.every_bed, decision) or (), inherited_path, inherited=True
            )
        else:
            yield Answer(index, decision, (), path)


def site_answers(job: Job, broken: frozenset[Path_]) -> Iterator[Answer]:
    """The site decisions of the job, then those that a bed answers otherwise."""
    for decision in SITE_DECISIONS:
        path: Path_ = ("site", decision)
        yield Answer(None, decision, job.site.answer(decision) or (), path, broken=path in broken)
    for index, bed in enumerate(job.beds):
        for decision in SITE_DECISIONS:
            if decision.replace("-", "_") in bed.site.model_fields_set:
                yield Answer(
                    index, decision, bed.site.answer(decision) or (), ("beds", index, "site", decision)
                )


def every_answer(job: Job, broken: frozenset[Path_]) -> tuple[Answer, ...]:
    """Every decision that the job raises, bed by bed, then the site's."""
    beds = (answer for index in range(len(job.beds)) for answer in bed_answers(job, broken, index))
    return (*beds, *site_answers(job, broken))


def bed_name(job: Job, index: int) -> str:
    """A bed's name, or its number where it has none."""
    bed: Bed = job.beds[index]
    return bed.name or f"Bed {index + 1}"
