"""The price chart's rates and spoil fit what a decision measures."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.case import Case
from scopegen.chart import UnitPrice, Work
from scopegen.findings import Level
from scopegen.rules.decisions import SPOKEN
from scopegen.rules.pieces import chart_fault
from scopegen.rules.rule import Fault, Rule

FAMILY = "price chart"
# By which units work on a decision can be timed: an edge by feet, a bed by square feet. Loose material
# is timed by the yard where it is priced by the yard.
RATES = {
    "bed_prep": ("ft2",), "substrate": ("ft2",), "edging": ("ft",), "debris": ("yd3",),
    "extra": ("ft", "ft2"),
}  # fmt: skip


def _rate_fits(case: Case) -> Iterator[Fault]:
    for key, work in case.chart.work.items() if case.chart else ():
        if work.does is None:
            continue
        unit = work.does[1]
        per = work.price.per if isinstance(work.price, UnitPrice) else ""
        if unit not in RATES[work.decides]:
            message = f"'{key}' decides {SPOKEN[work.decides]}, but its rate is in {unit} an hour"
            fix = f"write 'does' in one of: {', '.join(f'{each}/h' for each in RATES[work.decides])}"
            yield chart_fault(case, message, fix, "work", key, "does")
        elif unit == "yd3" and per not in ("yd3", "m3"):
            message = f"'{key}' is timed by the yard, but priced {f'per {per}' if per else 'by trips'}"
            fix = "price it per yd3, or take 'does' out"
            yield chart_fault(case, message, fix, "work", key, "does")


def _spoil_fits(case: Case) -> Iterator[Fault]:
    for key, work in case.chart.work.items() if case.chart else ():
        wrong = _misfit(work)
        if wrong:
            yield chart_fault(case, f"'{key}' {wrong[0]}", wrong[1], "work", key, "spoil", key=True)


def _misfit(work: Work) -> tuple[str, str] | None:
    if work.spoil is None or work.decides == "extra":
        return None
    along = work.spoil.width is not None
    if work.decides == "edging" and not along:
        return ("cuts an edge, but its spoil has no width", "add 'width: …' to its spoil, with its profile")
    if work.decides != "edging" and along:
        return (
            f"decides {SPOKEN[work.decides]}, but its spoil is that of a cut along an edge",
            "write its spoil by its depth alone, without a width",
        )
    return None


RULES = (
    Rule(
        "rate-does-not-fit", FAMILY, Level.STOPS, "Work is timed by a unit that its decision measures.",
        "An edge timed by the square foot would count the whole bed, and bed prep timed by the foot its edge:"
        " the crew's day would be planned on a figure that means nothing.",
        "chart: {work: {recut-edge: {does: 80 ft/h}}}",
        "chart: {work: {recut-edge: {does: 80 ft2/h}}}", _rate_fits,
    ),
    Rule(
        "spoil-does-not-fit", FAMILY, Level.STOPS, "Spoil of an edge has a width; spoil of a bed has none.",
        "Spoil without a width is the depth over the whole bed. For a recut edge that is truckloads of sod"
        " that never come out of the ground.",
        "chart: {work: {recut-edge: {spoil: {depth: 3 in, width: 2 in, profile: box, stream: sod}}}}",
        "chart: {work: {hand-weed: {spoil: {depth: 1/8 in, width: 2 in, profile: box, stream: green}}}}",
        _spoil_fits,
    ),
)  # fmt: skip
