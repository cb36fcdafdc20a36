"""Who takes what work takes out, and so which price the hauling belongs to: the base, a gift, or an offer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from scopegen.chart import Chart, UnitPrice
from scopegen.hauling import Haulage
from scopegen.load import Path_
from scopegen.measure import Measured
from scopegen.quantities.units import LB_PER_TON, UNIT_SIZE
from scopegen.spoil import SURE, SpoilOut, Taker, Task, merged, taker_of

Takers = dict[Path_, str]  # the chart key of our own work that takes a task's spoil, by the task's place
# work with its spoil and who takes that, by bed; work beside the beds goes with the bed of its taker
_OfBeds = dict[int | None, list[tuple[Task, SpoilOut, Taker | None]]]


@dataclass(frozen=True)
class Taking:
    """Every piece of work with who takes its spoil. `tasks` have the quantity of debris work that is
    priced by volume or weight; `untaken` are the places of work whose spoil nobody takes."""

    tasks: tuple[Task, ...]
    takers: dict[Path_, Taker]
    untaken: tuple[Path_, ...]
    of_beds: _OfBeds

    def ours(self, *ways: str) -> Takers:
        """Our own work that takes spoil, as far as it is decided in one of these ways."""
        return {place: taker.key for place, taker in self.takers.items() if taker.key and taker.how in ways}

    def by_debris(self, tasks: Sequence[Task]) -> dict[Haulage, dict[str, SpoilOut]]:
        """What debris work among these tasks takes, by its chart key and visit, and by stream."""
        taken: dict[Haulage, list[SpoilOut]] = {}
        for task in tasks:
            if task.decision == "debris":
                taken.setdefault((task.key, task.visit), []).extend(_taken_by(task, self.of_beds))
        return {key: merged(tuple(outs)) for key, outs in taken.items() if outs}


def place_of(task: Task) -> Path_:
    """A task by its bed and path: what `every_bed` says is one path for many beds."""
    return (task.bed if task.bed is not None else -1, *task.path)


def taking_of(chart: Chart, measured: Measured, tasks: tuple[Task, ...]) -> Taking:
    """Who takes the spoil of each task, the customer's own work included where we come to do it."""
    takers: dict[Path_, Taker] = {}
    untaken: list[Path_] = []
    for task in tasks:
        if task.spoil is None or task.spoil.in_ground == 0:
            continue
        taker = taker_of(chart, measured, task)
        if taker is not None:
            takers[place_of(task)] = taker
        elif task.how in (*SURE, "add-on"):
            untaken.append(place_of(task))
    of_beds: _OfBeds = {}
    for task in tasks:
        if task.spoil is not None:
            taker = takers.get(place_of(task))
            of_beds.setdefault(taker.bed if taker else task.bed, []).append((task, task.spoil, taker))
    filled = tuple(_filled(task, of_beds) for task in tasks)
    return Taking(filled, takers, tuple(untaken), of_beds)


def _taken_by(task: Task, of_beds: _OfBeds) -> list[SpoilOut]:
    """The spoil that a piece of debris work takes.

    What is included takes that of included work, a gift that of all work done for certain, each where
    it is the taker. Debris work that is an add-on, or that we do because the customer did not, takes
    what none of our own work takes already.
    """
    ways = ("included",) if task.how == "included" else SURE
    outs = []
    for other, spoil, taker in of_beds.get(task.bed, ()):
        if other.how not in ways or not _takes(task, spoil):
            continue
        is_taker = taker is not None and taker.path == task.path
        is_free = taker is None or not taker.key
        if is_taker if task.how in SURE else is_free:
            outs.append(spoil)
    return outs


def _takes(task: Task, out: SpoilOut) -> bool:
    """Debris work takes the streams that it names; all where it names none."""
    return task.work.takes is None or out.stream in task.work.takes


def _filled(task: Task, of_beds: _OfBeds) -> Task:
    if task.quantity is not None or task.work.hauls or task.decision != "debris":
        return task
    outs = _taken_by(task, of_beds)
    per = task.work.price.per if isinstance(task.work.price, UnitPrice) else "yd3"
    if per in ("ton", "t"):
        amount = sum((out.weight for out in outs), Fraction(0)) / LB_PER_TON
    else:
        amount = sum((out.loose for out in outs), Fraction(0))
    return replace(task, quantity=amount / UNIT_SIZE[per], takes=tuple(outs))
