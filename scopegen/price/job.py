"""The price of a whole job: the base, each offer beside it, discount, tax, payments."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from scopegen.answers import Answer
from scopegen.chart import Chart
from scopegen.hauling import haul
from scopegen.job import Job
from scopegen.labor import labor
from scopegen.load import Path_
from scopegen.measure import Measured, Spread
from scopegen.price.lines import Base, Group, base_lines, group_of, names, own_lines, sum_by_unit
from scopegen.price.totals import job_minimum, payments, taxed
from scopegen.price.values import ZERO, Line, Offer, Priced, SpoilTotal
from scopegen.quantities.rounding import cents
from scopegen.spoil import SURE, Task, merged, taker_of, tasks_of


def price(job: Job, chart: Chart, measured: Measured, answers: tuple[Answer, ...]) -> Priced:
    """Every line, offer and total. What names an unknown kind of work or material is left out; a rule
    reports it."""
    tasks, takers, untaken = _with_takers(chart, measured, tasks_of(job, chart, measured))
    base_group = _group(chart, measured, tasks, takers, ("included",))
    lines = base_lines(job, chart, base_group)
    lines = (*lines, *job_minimum(chart, lines))
    base = Base(
        {line.key: line.quantity for line in lines if line.id.startswith("material:")},
        frozenset(base_group.taken),
    )
    offers = {
        how: tuple(_offers(job, chart, measured, tasks, takers, base, how))
        for how in ("no-charge", "add-on", "customer")
    }
    subtotal = sum((line.amount for line in lines), ZERO)
    discount = _discount(job, subtotal)
    taxes = taxed(chart, lines, discount)
    total = subtotal - discount + sum((tax.amount for tax in taxes), ZERO)
    sure = _group(chart, measured, tasks, takers, SURE)
    spoil = _spoil(chart, tasks, sure)
    hours, days = labor(chart, answers, measured, tasks, sure.taken)
    return Priced(lines, offers["no-charge"], offers["add-on"], offers["customer"], subtotal, discount, taxes,
                  total,
                  payments(job, total), hours, days, spoil, _loads(lines), untaken)  # fmt: skip


def _with_takers(
    chart: Chart, measured: Measured, tasks: tuple[Task, ...]
) -> tuple[tuple[Task, ...], dict[Path_, str], tuple[Path_, ...]]:
    """The tasks with the quantity of debris work that is priced by volume or weight, our own takers of each
    task's spoil by bed and path, and the paths of work whose spoil nobody takes."""
    takers: dict[Path_, str] = {}
    untaken: list[Path_] = []
    for task in tasks:
        if task.spoil is None or task.spoil.in_ground == 0 or task.how not in (*SURE, "add-on"):
            continue
        taker = taker_of(chart, measured, task)
        if taker is None:
            untaken.append((task.bed if task.bed is not None else -1, *task.path))
        elif taker.key:
            takers[(task.bed if task.bed is not None else -1, *task.path)] = taker.key
    return tuple(_filled(task, tasks, takers) for task in tasks), takers, tuple(untaken)


def _filled(task: Task, tasks: tuple[Task, ...], takers: dict[Path_, str]) -> Task:
    if task.quantity is not None or task.work.hauls or task.decision != "debris":
        return task
    own = [
        t.spoil
        for t in tasks
        if t.spoil
        and t.bed == task.bed
        and t.how in SURE
        and takers.get((t.bed if t.bed is not None else -1, *t.path)) == task.key
    ]
    return replace(task, quantity=sum_by_unit(task.work, merged(tuple(own))))


def _group(
    chart: Chart, measured: Measured, tasks: Sequence[Task], takers: dict[Path_, str], ways: tuple[str, ...]
) -> Group:
    return group_of(
        chart,
        [t for t in tasks if t.how in ways],
        [s for s in measured.spreads if s.share.how in ways],
        {},
        takers,
    )


def _offers(
    job: Job,
    chart: Chart,
    measured: Measured,
    tasks: Sequence[Task],
    takers: dict[Path_, str],
    base: Base,
    how: str,
) -> list[Offer]:
    """One offer for each part that was said: what `every_bed` says once is one choice for its beds."""
    said: dict[Path_, tuple[list[Task], list[Spread]]] = {}
    for task in tasks:
        if task.how == how and (how != "customer" or task.part.if_not_done == "we do it"):
            said.setdefault(task.path, ([], []))[0].append(task)
    for spread in measured.spreads:
        if spread.share.how == how and how != "customer":
            said.setdefault(spread.share.path, ([], []))[1].append(spread)
    offers = [
        _offer(job, chart, measured, path, mine, spreads, takers, base, how)
        for path, (mine, spreads) in said.items()
    ]
    return [replace(offer, id=f"{how}:{number}") for number, offer in enumerate(offers, 1)]


def _offer(
    job: Job,
    chart: Chart,
    measured: Measured,
    path: Path_,
    tasks: list[Task],
    spreads: list[Spread],
    takers: dict[Path_, str],
    base: Base,
    how: str,
) -> Offer:
    extra: dict[str, Fraction] = {}
    for spread in measured.spreads:
        if (
            spread.if_cleared
            and spread.if_cleared[0] == path
            and how == "add-on"
            and spread.share.how in SURE
        ):
            extra[spread.material] = extra.get(spread.material, Fraction(0)) + spread.if_cleared[1]
    group = group_of(
        chart,
        tasks,
        spreads,
        extra,
        _customer_takers(chart, measured, tasks) if how == "customer" else takers,
    )
    lines = tuple(replace(line, decided=how) for line in own_lines(job, chart, group, base))
    taxes = sum((tax.amount for tax in taxed(chart, lines, ZERO)), ZERO) if how != "no-charge" else ZERO
    beds = names(job, [*(task.bed for task in tasks), *(spread.share.bed for spread in spreads)])
    decision = tasks[0].decision if tasks else "material"
    name = tasks[0].work.name if tasks else chart.materials[spreads[0].material].name
    inherited = bool(path) and path[0] == "every_bed"
    return Offer(how, decision, how, beds, name, lines, taxes, path, inherited)


def _customer_takers(chart: Chart, measured: Measured, tasks: list[Task]) -> dict[Path_, str]:
    takers = {}
    for task in tasks:
        taker = taker_of(chart, measured, task) if task.spoil else None
        if taker and taker.key:
            takers[(task.bed if task.bed is not None else -1, *task.path)] = taker.key
    return takers


def _discount(job: Job, subtotal: Decimal) -> Decimal:
    if job.discount is None:
        return ZERO
    amount = job.discount.amount
    return min(subtotal, cents(Fraction(subtotal) * amount) if isinstance(amount, Fraction) else amount)


def _spoil(chart: Chart, tasks: Sequence[Task], sure: Group) -> SpoilTotal:
    outs = merged(tuple(task.spoil for task in tasks if task.how in SURE and task.spoil))
    kept = {key: out for key, out in outs.items() if out.in_ground}
    trips = sum(
        haul(chart.work[key], Fraction(chart.worker_hour), out).trips
        for key, out in sure.taken.items()
        if chart.work[key].hauls
    )

    def total(field: str) -> Fraction:
        return sum((getattr(out, field) for out in kept.values()), Fraction(0))

    streams = tuple(
        (key, out.in_ground, out.loose, out.weight, out.barrows(chart)) for key, out in kept.items()
    )
    return SpoilTotal(
        total("in_ground"),
        total("loose"),
        total("weight"),
        sum(out.barrows(chart) for out in kept.values()),
        trips,
        streams,
    )


def _loads(lines: Sequence[Line]) -> int:
    return sum(int(line.quantity) for line in lines if line.id.startswith("delivery:"))
