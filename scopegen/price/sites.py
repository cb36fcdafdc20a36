"""Several properties on one job: what each of them pays, so that the parts add up to the price."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from scopegen.job import Job
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
    rest = [Fraction(sum(column, ZERO)) for column in zip(*first, strict=True)] or [Fraction(0)] * len(
        job.sites
    )
    by_line = [(line, share_out(line.amount, weights if any(weights) else rest)) for line, weights in known]
    before = [sum((parts[i] for _, parts in by_line), ZERO) for i in range(len(job.sites))]
    off = share_out(discount, [Fraction(amount) for amount in before])
    tax = [ZERO] * len(job.sites)
    for each in taxes:
        on = [
            sum((parts[i] for line, parts in by_line if line.tax == each.kind), ZERO)
            for i in range(len(before))
        ]
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
    by_bed: dict[str, Fraction] = {}
    if line.id.startswith("work:"):
        for task in group.tasks:
            if task.key == line.key and task.bed is not None and task.quantity is not None:
                name = measured.beds[task.bed].name
                by_bed[name] = by_bed.get(name, Fraction(0)) + task.quantity
    elif line.key:
        theirs = line.id.startswith("spreading:")
        lots = {Lot(line.key, line.visit, theirs), Lot(line.key, line.visit)}
        for spread in measured.spreads:
            if spread.share.how == "included" and lot_of(job, spread) in lots:
                name = measured.beds[spread.share.bed].name
                by_bed[name] = by_bed.get(name, Fraction(0)) + spread.volume
    return tuple(
        sum((by_bed.get(name, Fraction(0)) for name in site.beds), Fraction(0)) for site in job.sites
    )
