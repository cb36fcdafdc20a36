"""What is saved if a bed is left out: the job priced again without it, everything else as it is."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from scopegen.answers import bed_name, every_answer
from scopegen.chart import Chart
from scopegen.job import Job
from scopegen.load import Path_
from scopegen.measure import measure
from scopegen.price.job import price
from scopegen.price.values import Priced


@dataclass(frozen=True, slots=True)
class Without:
    """A bed, the total of the job without it, and what that saves; below zero where the rest costs more.
    `nothing_left`: no included work remains, so there is no job to price."""

    bed: str
    total: Decimal
    saved: Decimal
    nothing_left: bool


def each_bed_left_out(
    job: Job, chart: Chart, broken: frozenset[Path_], priced: Priced
) -> tuple[Without, ...]:
    """One entry a bed, in the order of the job."""
    return tuple(_left_out(job, chart, broken, priced, index) for index in range(len(job.beds)))


def _left_out(job: Job, chart: Chart, broken: frozenset[Path_], priced: Priced, index: int) -> Without:
    name = bed_name(job, index)
    sites = tuple(
        site.model_copy(update={"beds": tuple(bed for bed in site.beds if bed != name)}) for site in job.sites
    )
    rest = job.model_copy(update={"beds": (*job.beds[:index], *job.beds[index + 1 :]), "sites": sites})
    shifted = frozenset(_shifted(path, index) for path in broken if path[:2] != ("beds", index))
    answers = every_answer(rest, shifted)
    found = price(rest, chart, measure(rest, chart, answers), answers)
    return Without(name, found.total, priced.total - found.total, not found.lines)


def _shifted(path: Path_, index: int) -> Path_:
    """A path of a later bed, which moves up by one."""
    if len(path) > 1 and path[0] == "beds" and isinstance(path[1], int) and path[1] > index:
        return ("beds", path[1] - 1, *path[2:])
    return path
