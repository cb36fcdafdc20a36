"""Worker-hours and days, from the chart's rates and exact quantities."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from scopegen.answers import Answer
from scopegen.chart import Chart, UnitPrice
from scopegen.hauling import Haulage, haul
from scopegen.job import Job
from scopegen.measure import Measured
from scopegen.quantities.rounding import whole_up
from scopegen.quantities.units import UNIT_SIZE
from scopegen.spoil import SURE, SpoilOut, Task


def labor(
    job: Job,
    chart: Chart,
    answers: tuple[Answer, ...],
    measured: Measured,
    tasks: Sequence[Task],
    taken: Mapping[Haulage, Mapping[str, SpoilOut]],
) -> tuple[Fraction, int]:
    """Worker-hours of all that is done for certain, and days of the whole crew, rounded up.

    Hours are quantity ÷ rate × the access factor, loading and driving, and the crew's set-up and
    clean-up at each visit. A day is crew × productive hours.
    """
    hours, factors = Fraction(0), _access_factors(chart, answers)
    for task in tasks:
        if task.how in SURE:
            hours += _task_hours(task) * _of_bed(factors, task.bed)
    for spread in measured.spreads:
        if spread.share.how in SURE:
            lays = chart.materials[spread.material].lays
            hours += spread.volume / lays * _of_bed(factors, spread.share.bed)
    hours += sum(
        (
            haul(chart.work[key], Fraction(chart.worker_hour), out).hours
            for (key, _), out in taken.items()
            if chart.work[key].hauls
        ),
        Fraction(0),
    )
    if hours:
        hours += (chart.job.set_up + chart.job.clean_up) * chart.crew * max(len(job.visits), 1)
    return hours, whole_up(hours / (chart.crew * chart.productive_hours))


def _access_factors(chart: Chart, answers: Sequence[Answer]) -> dict[int | None, Fraction]:
    """By how much the way to each bed that has its own answer slows the work; the job's answer at None."""
    factors: dict[int | None, Fraction] = {}
    for answer in answers:
        for part in answer.parts if answer.decision == "access" else ():
            if part.way in chart.access:
                factors.setdefault(answer.bed, chart.access[part.way].factor)
    return factors


def _of_bed(factors: Mapping[int | None, Fraction], bed: int | None) -> Fraction:
    return factors.get(bed, factors.get(None, Fraction(1)))


def _task_hours(task: Task) -> Fraction:
    price = task.work.price
    if isinstance(price, UnitPrice) and price.per == "worker-hour":
        return task.quantity or Fraction(0)
    if task.work.does is None:
        return Fraction(0)
    rate, unit = task.work.does
    size = UNIT_SIZE[price.per] if isinstance(price, UnitPrice) else Fraction(1)
    volume = None if task.quantity is None else task.quantity * size
    amount = {"ft": task.length, "ft2": task.area, "yd3": volume}[unit]
    return (amount or Fraction(0)) / rate
