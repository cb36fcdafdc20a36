"""How far out a way of measuring may be. The shipped figures are common practice, no source, except by eye;
a price chart says its own under `tolerances`."""

from __future__ import annotations

from fractions import Fraction

from scopegen.chart.chart import Chart, Tolerance


def _percent(random: str, common: str) -> Tolerance:
    return Tolerance(random=Fraction(random) / 100, common=Fraction(common) / 100)


# Shares of a bed's area, one standard deviation: by chance, and the same way for every bed of a job.
SHIPPED: dict[str, Tolerance] = {
    "tape": _percent("1", "0.5"),
    "wheel": _percent("2", "1"),
    "map": _percent("2", "2"),
    "pacing": _percent("4", "5"),
    # 14 % together. CalRecycle, Calculations (closed and illegal disposal sites): the volume of a pile told
    # by eye "could be within 10-15 percent".
    "eye": _percent("10", "10"),
}
DEPTH = Fraction(8, 100)  # of the depth laid over a whole job: a quarter inch in three


def tolerance(chart: Chart, way: str) -> Tolerance:
    """The tolerance of a way of measuring: the chart's own, else the shipped one."""
    own: Tolerance | None = getattr(chart.tolerances, way)
    return own or SHIPPED[way]


def depth_tolerance(chart: Chart) -> Fraction:
    """How far the depth laid may be out, as a share."""
    return DEPTH if chart.tolerances.depth is None else chart.tolerances.depth
