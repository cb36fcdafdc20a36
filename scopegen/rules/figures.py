"""Figures that nobody can mean, in a price chart or a job, and beds of such a size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from functools import cache
from typing import Any

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.load import Path_, Source
from scopegen.quantities.show import area as show_area
from scopegen.quantities.show import run
from scopegen.quantities.texts import LARGEST, Amount, percent
from scopegen.quantities.units import (
    DIMENSIONS,
    FT_PER_M,
    IN_PER_FT,
    LB_PER_TON,
    number,
    quantity,
    rate,
    shortened,
)
from scopegen.rules.limits import LIMITS, Limit
from scopegen.rules.pieces import bed_fault
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "measures"
SMALLEST_BED = Fraction(5, 100) * FT_PER_M**2  # ft2; below it an area prints as 0 m²; a 1 ft pot covers more
NARROWEST_BED = Fraction(3, IN_PER_FT)  # ft; narrower strips are joints, and nobody mulches them


def impossible_figures(case: Case) -> Iterator[Fault]:
    """Every figure beyond its limit; what follows from one is no finding of its own."""
    files = {"job": (case.job_source, case.job), "chart": (case.chart_source, case.chart)}
    for limit in LIMITS:
        source, model = files[limit.file]
        if source is None or model is None:
            continue
        for path, value in _at(model, tuple(limit.path.split("."))):
            beyond = _beyond(limit, value)
            if beyond:
                said = shortened(str(_written(source, path) or ""))
                yield Fault(f"'{said}' is {beyond}", _taken(limit), source.place(path))


def _at(model: Any, steps: tuple[str, ...], path: Path_ = ()) -> Iterator[tuple[Path_, Any]]:
    """Every value at a path of a model; nothing where it was not said, or is not sound."""
    if model is None:
        return
    if not steps:
        yield path, model
    elif steps[0] == "*":
        entries: Any = model.items() if isinstance(model, Mapping) else enumerate(model)
        for key, inner in entries:
            yield from _at(inner, steps[1:], (*path, key))
    else:
        yield from _at(getattr(model, steps[0], None), steps[1:], (*path, steps[0]))


def _written(source: Source, path: Path_) -> Any:
    """What a person wrote at a path; a list of one may stand as that one."""
    here: Any = source.data
    for step in path:
        if isinstance(here, Mapping):
            here = here.get(step) if step in here else here if step == 0 else None
        elif isinstance(here, Sequence) and not isinstance(here, str) and isinstance(step, int):
            here = here[step]
    return here


def _beyond(limit: Limit, value: Any) -> str:
    """What is wrong with a value; nothing where it keeps to the limit, or is of another unit."""
    amount, unit = _plain(value)
    for said, word in ((limit.least, "less"), (limit.most, "more")):
        if said:
            end, end_unit = _read(said)
            outside = 0 < amount < end if word == "less" else amount > end
            if outside and unit in ("", end_unit):
                return f"{word} than {limit.what}"
    return ""


def _taken(limit: Limit) -> str:
    """What to do, with what the limit lets pass."""
    if limit.least and limit.most:
        taken = f"it lies between {limit.least} and {limit.most}"
    else:
        taken = f"no less than {limit.least}" if limit.least else f"no more than {limit.most}"
        taken = f"{taken} is taken"
    return f"check the number and its unit; {taken} ({limit.why})"


def _plain(value: Any) -> tuple[Fraction, str]:
    """A value as a number of its dimension's own unit, and that dimension where the value itself has one."""
    if isinstance(value, Amount):
        return (value.value * LB_PER_TON, "weight") if value.unit == "ton" else (value.value, "volume")
    if isinstance(value, tuple):  # a rate of work: so much an hour, and of what
        amount, unit = value
        return amount, f"{_dimension_of(unit)}/time"
    return Fraction(value), ""


@cache
def _read(said: str) -> tuple[Fraction, str]:
    """A limit, written as `5 lb/yd3`, as a number of its dimension's own unit, and that dimension."""
    _, _, unit = said.partition(" ")
    upper, _, lower = unit.partition("/")
    if not unit:
        return number(said), "number"
    if unit == "%":
        return percent(said), "percent"
    if not lower:
        return quantity(said, _dimension_of(unit)), _dimension_of(unit)
    dimension, per = _dimension_of(upper), _dimension_of(lower)
    return rate(said, dimension, per), f"{dimension}/{per}"


def _dimension_of(unit: str) -> str:
    return next(dimension for dimension, units in DIMENSIONS.items() if unit in units)


def _too_large(case: Case) -> Iterator[Fault]:
    for bed in case.measured.beds if case.measured else ():
        if bed.area is not None and bed.area > LARGEST["area"]:
            message = f"the bed measures {show_area(bed.area)}, more than any job has"
            place = case.place(("beds", bed.index, "shape"), key=True)
            yield bed_fault(case, bed.index, message, "check the measures and their units", place)


def _too_small(case: Case) -> Iterator[Fault]:
    for bed in case.measured.beds if case.measured else ():
        if bed.area is not None and bed.area < SMALLEST_BED:
            message = f"the bed measures {show_area(bed.area)}, too little to be one"
            fix = "check the measures and their units, and what is left out of it"
            yield bed_fault(case, bed.index, message, fix, case.place(("beds", bed.index, "shape"), key=True))


def _outline_too_long(case: Case) -> Iterator[Fault]:
    """No strip of the area and of the least width has a longer outline."""
    for bed in case.measured.beds if case.measured else ():
        if bed.gross is None or bed.outline is None or bed.gross < SMALLEST_BED:
            continue
        longest = 2 * (bed.gross / NARROWEST_BED + NARROWEST_BED)
        if bed.outline > longest:
            own = case.job.beds[bed.index].outline is not None
            message = (
                f"an outline of {run(bed.outline)} around {show_area(bed.gross)} leaves a bed narrower than"
                f" {int(NARROWEST_BED * IN_PER_FT)} in"
            )
            place = case.place(("beds", bed.index, "outline" if own else "shape"), key=not own)
            yield bed_fault(case, bed.index, message, "check the outline, the area and their units", place)


IMPOSSIBLE = Rule(
    "impossible-figure", FAMILY, Level.STOPS,
    "A figure is one that bed work can have.",
    "A truck that holds a thimble makes a thousand trips, and a crew of a million is done before lunch. Such"
    " a figure is a slip of the hand or of the unit, and the price that follows from it looks like any other."
    " The limits are far beyond what a small crew works with.",
    "chart: {work: {haul-away: {truck: {volume: 5 yd3, payload: 3000 lb}}}}",
    "chart: {work: {haul-away: {truck: {volume: 0.0000000001 yd3, payload: 3000 lb}}}}",
    impossible_figures, TRADE,
)  # fmt: skip
TOO_LARGE = Rule(
    "bed-too-large", FAMILY, Level.STOPS,
    "No bed is larger than ten million square feet, whatever its shape.",
    "That is 230 acres. Its price would be of another trade, or of none.",
    "job: {beds: [{shape: {rectangle: {length: 20 ft, width: 6 ft}}}]}",
    "job: {beds: [{shape: {rectangle: {length: 100000 ft, width: 101 ft}}}]}",
    _too_large, TRADE,
)  # fmt: skip
TOO_SMALL = Rule(
    "bed-too-small", FAMILY, Level.STOPS,
    "A bed has an area that can be printed.",
    "Below a twentieth of a square meter the paper says 0, and every price by area with it. A plant pot of a"
    " foot across covers more.",
    "job: {beds: [{shape: {circle: {diameter: 1 ft}}, against: (left out)}]}",
    "job: {beds: [{shape: {circle: {diameter: 1 in}}, against: (left out)}]}",
    _too_small, TRADE,
)  # fmt: skip
OUTLINE = Rule(
    "outline-too-long", FAMILY, Level.WARNS,
    "An outline is no longer than that of a strip of its area, three inches wide.",
    "Edging is priced by the outline. One that goes round the whole property was measured for something else,"
    " or in another unit.",
    "job: {beds: [{shape: {area: 60 ft2}, outline: 40 ft, against: (left out)}]}",
    "job: {beds: [{shape: {area: 60 ft2}, outline: 4000 ft, against: (left out)}]}",
    _outline_too_long, TRADE,
)  # fmt: skip

RULES = (IMPOSSIBLE, TOO_LARGE, TOO_SMALL, OUTLINE)
