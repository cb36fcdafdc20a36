"""Several properties on one job: what each of them pays, so that the parts add up to the price."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from fractions import Fraction

from scopegen.job import Billed, Job
from scopegen.measure import Measured
from scopegen.price.lines import Group
from scopegen.price.lots import Lot, lot_of
from scopegen.price.values import ZERO, Line, SiteShare, TaxLine
from scopegen.quantities.rounding import share_out


def site_shares(
    job: Job,
    measured: Measured,
    group: Group,
    lines: Sequence[Line],
    discount: Decimal,
    taxes: Sequence[TaxLine],
) -> tuple[SiteShare, ...]:
    """What each site pays of the base: work and material by how much of it is theirs, hauling by the stated
    shares, and what belongs to no bed by what the rest comes to."""
    if not job.sites:
        return ()
    known = [(line, _weights(job, measured, group, line)) for line in lines]
    first = [share_out(line.amount, weights) for line, weights in known if any(weights)]
    rest = [Fraction(sum(column, ZERO)) for column in zip(*first, strict=True)]
    rest = rest or [Fraction(0)] * len(job.sites)
    by_line = [(line, share_out(line.amount, weights if any(weights) else rest)) for line, weights in known]
    before = [sum((parts[i] for _, parts in by_line), ZERO) for i in range(len(job.sites))]
    off = share_out(discount, [Fraction(amount) for amount in before])
    tax = [ZERO] * len(job.sites)
    for each in taxes:
        taxed = [parts for line, parts in by_line if each.kind in line.tax]
        on = [sum((parts[i] for parts in taxed), ZERO) for i in range(len(before))]
        for i, part in enumerate(share_out(each.amount, [Fraction(amount) for amount in on])):
            tax[i] += part
    return tuple(
        SiteShare(site.name, site.property, site.bill_to, site.beds, before[i], off[i], tax[i])
        for i, site in enumerate(job.sites)
    )


def _weights(job: Job, measured: Measured, group: Group, line: Line) -> tuple[Fraction, ...]:
    """How much of a line is each site's; all zero where the line belongs to no bed."""
    if line.id.startswith("hauling:"):
        return tuple(site.hauling for site in job.sites)
    if line.id.startswith("work:"):
        by_bed = _by_bed(
            (task.bed, task.quantity or Fraction(0)) for task in group.tasks if task.key == line.key
        )
    elif line.id.startswith("spreading:"):
        by_bed = _spread_by_bed(job, measured, line)
    else:
        by_bed = _lot_by_bed(job, measured, Lot(line.key, line.visit))
    return tuple(
        sum((by_bed.get(index, Fraction(0)) for index in _beds_of(job, site)), Fraction(0))
        for site in job.sites
    )


def _beds_of(job: Job, site: Billed) -> list[int]:
    return [index for index, bed in enumerate(job.beds) if bed.name in site.beds]


def _by_bed(amounts: Iterable[tuple[int | None, Fraction]]) -> dict[int, Fraction]:
    total: dict[int, Fraction] = {}
    for bed, amount in amounts:
        if bed is not None:
            total[bed] = total.get(bed, Fraction(0)) + amount
    return total


def _lot_by_bed(job: Job, measured: Measured, lot: Lot) -> dict[int, Fraction]:
    """The volume of a lot on each bed."""
    return _by_bed(
        (spread.share.bed, spread.volume)
        for spread in measured.spreads
        if spread.share.how == "included" and lot_of(job, spread) == lot
    )


def _spread_by_bed(job: Job, measured: Measured, line: Line) -> dict[int, Fraction]:
    """What is only spread: the customer's own on its beds, and the pile that lies there where it saves
    buying, bed by bed in proportion."""
    theirs = _lot_by_bed(job, measured, Lot(line.key, line.visit, theirs=True))
    ours = _lot_by_bed(job, measured, Lot(line.key, line.visit))
    whole = sum(ours.values(), Fraction(0))
    pile = (line.volume or Fraction(0)) - sum(theirs.values(), Fraction(0))
    if whole == 0 or pile <= 0:
        return theirs
    return _by_bed([*theirs.items(), *((bed, part * pile / whole) for bed, part in ours.items())])
