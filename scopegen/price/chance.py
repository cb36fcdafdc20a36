"""How much material a job may come to take, and the chance that what is ordered runs short. Office only.

Each way of measuring has a part by chance and a part that is common to all beds measured so: one pacer errs
the same way everywhere. The variances add up: sum of (volume x random)² over the beds, the square of the
sum of (volume x common) for each way, and the depth's on top, which one crew lays alike everywhere.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import sqrt
from statistics import NormalDist

from scopegen.chart import Chart
from scopegen.chart.tolerances import depth_tolerance, tolerance
from scopegen.job import Job
from scopegen.measure import Measured
from scopegen.price.lots import Lot, lot_of
from scopegen.price.material import to_order
from scopegen.price.values import Line, Supply

WITHIN = NormalDist().inv_cdf(0.975)  # standard deviations either way: 19 times in 20


def supplies(job: Job, chart: Chart, measured: Measured, lines: Sequence[Line]) -> tuple[Supply, ...]:
    """Every material that the base buys."""
    found = []
    for line in lines:
        if not line.sells_material or not line.measured:
            continue
        share = _deviation(job, chart, measured, Lot(line.key, line.visit))
        ordered = to_order(chart.materials[line.key], line)
        out = float(line.measured) * share
        short = 1 - NormalDist(float(line.measured), out).cdf(float(ordered)) if out else 0.0
        spread = Fraction(WITHIN * out)
        low, high = max(line.measured - spread, Fraction(0)), line.measured + spread
        found.append(
            Supply(line.key, line.visit, line.unit, line.measured, ordered, low, high, round(short, 4))
        )
    return tuple(found)


def _deviation(job: Job, chart: Chart, measured: Measured, lot: Lot) -> float:
    """The standard deviation of a lot's volume, as a share of it."""
    by_bed: dict[int, Fraction] = {}
    for spread in measured.spreads:
        if spread.share.how == "included" and lot_of(job, spread) == lot:
            by_bed[spread.share.bed] = by_bed.get(spread.share.bed, Fraction(0)) + spread.volume
    whole = sum(by_bed.values(), Fraction(0))
    if not whole:
        return 0.0
    chance, common, laid = Fraction(0), dict[str, Fraction](), Fraction(0)
    for index, volume in by_bed.items():
        way = job.beds[index].measured_by or job.every_bed.measured_by or "eye"
        told = measured.beds[index].stated is not None
        known = tolerance(chart, "eye" if told else way)
        chance += (volume * known.random) ** 2
        common[way] = common.get(way, Fraction(0)) + volume * known.common
        laid += Fraction(0) if told else volume
    variance = chance + sum(((part**2) for part in common.values()), Fraction(0))
    variance += (laid * depth_tolerance(chart)) ** 2
    return sqrt(variance) / float(whole)
