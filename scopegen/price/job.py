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
from scopegen.job.job import TaxExempt
from scopegen.labor import labor
from scopegen.load import Path_
from scopegen.measure import Measured, Spread
from scopegen.price.chance import supplies
from scopegen.price.lines import Base, Group, base_lines, group_of, own_lines
from scopegen.price.lots import Ladder, Lot, ladder_of, lot_of, names
from scopegen.price.pays import pays
from scopegen.price.sites import site_shares
from scopegen.price.taking import Taking, taking_of
from scopegen.price.totals import job_minimum, payments, taxed
from scopegen.price.values import ZERO, Line, Offer, Priced, SpoilTotal
from scopegen.quantities.rounding import cents
from scopegen.spoil import SURE, Task, merged, tasks_of


def price(job: Job, chart: Chart, measured: Measured, answers: tuple[Answer, ...]) -> Priced:
    """Every line, offer and total. What names an unknown kind of work or material is left out; a rule
    reports it."""
    taking = taking_of(chart, measured, tasks_of(job, chart, measured))
    base_group = _group(job, measured, taking, ("included",))
    lines = base_lines(job, chart, base_group)
    lines = (*lines, *job_minimum(chart, lines))
    bought = [line for line in lines if line.sells_material]
    materials = frozenset((line.key, line.visit) for line in bought)
    base = Base(_sold(chart, bought), materials, frozenset(base_group.taken))
    no_charge, add_ons, if_not_done = (
        tuple(_offers(job, chart, measured, taking, base, how)) for how in ("no-charge", "add-on", "customer")
    )
    subtotal = sum((line.amount for line in lines), ZERO)
    discount = _discount(job, subtotal)
    taxes = taxed(chart, lines, discount, _exemption(job))
    total = subtotal - discount + sum((tax.amount for tax in taxes), ZERO)
    sure = _group(job, measured, taking, SURE)
    given = [line for offer in no_charge for line in offer.parts]
    hours, days = labor(job, chart, answers, measured, taking.tasks, sure.taken)
    return Priced(
        lines=lines,
        no_charge=no_charge,
        add_ons=add_ons,
        if_not_done=if_not_done,
        subtotal=subtotal,
        discount=discount,
        taxes=taxes,
        total=total,
        payments=payments(job, total),
        worker_hours=hours,
        days=days,
        spoil=_spoil(chart, taking.tasks, sure),
        loads=_loads(lines),
        not_taken=taking.untaken,
        at_most=_at_most(job, chart, lines, total),
        supplies=supplies(job, chart, measured, lines),
        pays=pays(chart, [*lines, *given], sure.taken, hours),
        sites=site_shares(job, measured, base_group, lines, discount, taxes),
    )


def _exemption(job: Job) -> TaxExempt | None:
    return job.customer.tax_exempt if job.customer else None


def _sold(chart: Chart, bought: Sequence[Line]) -> dict[Ladder, Fraction]:
    """What the base buys, by what counts together for its volume price."""
    sold: dict[Ladder, Fraction] = {}
    for line in bought:
        ladder = ladder_of(chart, Lot(line.key, line.visit))
        sold[ladder] = sold.get(ladder, Fraction(0)) + line.quantity
    return sold


def _at_most(job: Job, chart: Chart, lines: Sequence[Line], total: Decimal) -> Decimal | None:
    """The most that the base may come to: material as delivered up to its tolerance, work by the hour up
    to its limit. None where everything is fixed."""
    by_measure = job.price_basis == "by measure" and job.tolerance is not None
    if not by_measure and all(line.limit is None for line in lines):
        return None

    def most(line: Line) -> Decimal:
        if by_measure and line.sells_material:
            return cents(Fraction(line.amount) * (1 + (job.tolerance or 0)))
        return line.amount if line.limit is None else line.limit

    highest = [replace(line, amount=most(line)) for line in lines if line.id != "job-minimum"]
    highest += job_minimum(chart, highest)
    subtotal = sum((line.amount for line in highest), ZERO)
    discount = _discount(job, subtotal)
    taxes = taxed(chart, highest, discount, _exemption(job))
    return max(total, subtotal - discount + sum((tax.amount for tax in taxes), ZERO))


def _group(job: Job, measured: Measured, taking: Taking, ways: tuple[str, ...]) -> Group:
    """All work and material decided in these ways, with the spoil that such work takes."""
    tasks = [task for task in taking.tasks if task.how in ways]
    spreads = [spread for spread in measured.spreads if spread.share.how in ways]
    return group_of(job, tasks, spreads, {}, taking.ours(*ways))


def _offers(job: Job, chart: Chart, measured: Measured, taking: Taking, base: Base, how: str) -> list[Offer]:
    """One offer for each part that was said: what `every_bed` says once is one choice for its beds."""
    said: dict[Path_, tuple[list[Task], list[Spread]]] = {}
    for task in taking.tasks:
        if task.how == how and (how != "customer" or task.part.if_not_done == "we do it"):
            said.setdefault(task.path, ([], []))[0].append(task)
    for spread in measured.spreads:
        if spread.share.how == how and how != "customer":
            said.setdefault(spread.share.path, ([], []))[1].append(spread)
    takers = taking.ours("included") if how == "no-charge" else taking.ours(*SURE)
    if_cleared = _if_cleared(job, measured) if how == "add-on" else {}
    offers = []
    for number, (path, (tasks, spreads)) in enumerate(said.items(), 1):
        # a gift's own hauling is left to a haul that is given too
        group = group_of(job, tasks, spreads, if_cleared.get(path, {}), takers)
        group = replace(group, taken={**group.taken, **taking.by_debris(tasks)})
        offers.append(_offer(job, chart, group, spreads, base, f"{how}:{number}", how, path))
    return offers


def _if_cleared(job: Job, measured: Measured) -> dict[Path_, dict[Lot, Fraction]]:
    """How much more of what is laid for certain fills cleared ground, in yd3, by the path of the clearing."""
    more: dict[Path_, dict[Lot, Fraction]] = {}
    for spread in measured.spreads:
        if spread.share.how in SURE and spread.if_cleared:
            cleared_by, volume = spread.if_cleared
            lots, lot = more.setdefault(cleared_by, {}), lot_of(job, spread)
            lots[lot] = lots.get(lot, Fraction(0)) + volume
    return more


def _offer(
    job: Job, chart: Chart, group: Group, spreads: list[Spread], base: Base, id: str, how: str, path: Path_
) -> Offer:
    lines = tuple(replace(line, decided=how) for line in own_lines(job, chart, group, base))
    taxes = () if how == "no-charge" else taxed(chart, lines, ZERO, _exemption(job))
    first = group.tasks[0] if group.tasks else None
    return Offer(
        id=id,
        decision=first.decision if first else "material",
        decided=how,
        beds=names(job, [*(task.bed for task in group.tasks), *(spread.share.bed for spread in spreads)]),
        description=first.work.name if first else chart.materials[spreads[0].material].name,
        parts=lines,
        tax=sum((tax.amount for tax in taxes), ZERO),
        path=path,
        inherited=path[:1] == ("every_bed",),
    )


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
        for (key, _), out in sure.taken.items()
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
