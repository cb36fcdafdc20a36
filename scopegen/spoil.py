"""Work piece by piece: how much of it, how long it takes, what it takes out of the ground, who takes that.

In-ground volume comes from cross-sections and depths; loose volume is in-ground volume and its swell.
In-ground weights go with in-ground volumes, loose weights with loose ones.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction

from scopegen.chart import Chart, Spoil, UnitPrice, Work
from scopegen.chart.work import PROFILE_SHARE
from scopegen.job import Job, Part
from scopegen.load import Path_
from scopegen.measure import BedMeasure, Ground, Measured, Share
from scopegen.quantities.rounding import whole_up
from scopegen.quantities.units import FT3_PER_YD3, UNIT_SIZE

SURE = ("included", "no-charge")  # work that is done whatever the customer initials


@dataclass(frozen=True, slots=True)
class Dug:
    """What spoil comes from: a kind of work, how deep and wide it goes, and the ground (ft2) or edge (ft)
    that it covers; `found` is the ground with the depth found there (ft2, ft), where that is taken."""

    work: str
    spoil: Spoil
    area: Fraction
    length: Fraction | None
    found: tuple[tuple[Fraction, Fraction], ...] = ()

    @property
    def in_ground(self) -> Fraction:
        """In-ground volume in yd3."""
        spoil = self.spoil
        if spoil.width is not None:
            section = (spoil.depth or 0) * spoil.width * PROFILE_SHARE[spoil.profile or "box"]
            if spoil.plus_strip:
                section += spoil.plus_strip.width * spoil.plus_strip.depth
            return (self.length or Fraction(0)) * section / FT3_PER_YD3
        if spoil.depth is not None:
            return self.area * spoil.depth / FT3_PER_YD3
        return sum((area * depth for area, depth in self.found), Fraction(0)) / FT3_PER_YD3


@dataclass(frozen=True, slots=True)
class SpoilOut:
    """What a piece of work takes out, of one stream: yd3 in the ground, yd3 loose, lb; and what it was dug
    from."""

    stream: str
    in_ground: Fraction
    loose: Fraction
    weight: Fraction
    dug: tuple[Dug, ...] = field(default=(), compare=False)

    def barrows(self, chart: Chart) -> int:
        """Wheelbarrow loads, by volume or by weight, whichever is more."""
        if chart.barrow is None:
            return 0
        return max(whole_up(self.loose / chart.barrow.volume), whole_up(self.weight / chart.barrow.payload))


@dataclass(frozen=True, slots=True)
class Task:
    """One piece of work. `quantity` is in the unit that it is priced by, None where it is unknown or the
    work is priced by trips; `area` ft2 and `length` ft are what it covers."""

    bed: int | None
    decision: str
    key: str
    work: Work
    part: Part
    path: Path_
    inherited: bool
    area: Fraction
    length: Fraction | None
    quantity: Fraction | None
    spoil: SpoilOut | None = None
    share: Share | None = None
    visit: str = ""  # the visit that it is done at, where the job has several
    takes: tuple[SpoilOut, ...] = ()  # of debris work that is priced by what it takes

    @property
    def how(self) -> str | None:
        """How it is decided."""
        return self.part.how


@dataclass(frozen=True, slots=True)
class Taker:
    """Who takes a bed's spoil: our own work (its chart key), the customer, or somebody else."""

    how: str
    key: str = ""
    path: Path_ = ()
    bed: int | None = None


def tasks_of(job: Job, chart: Chart, measured: Measured) -> tuple[Task, ...]:
    """Every piece of work that names a kind of work in the chart, and the extras."""
    beds = (task for bed in measured.beds for task in _bed_tasks(chart, bed, job.beds[bed.index].visit or ""))
    return (*beds, *_extras(job, chart))


def merged(spoils: Iterator[SpoilOut] | tuple[SpoilOut, ...]) -> dict[str, SpoilOut]:
    """Spoil added up by stream."""
    total: dict[str, SpoilOut] = {}
    for out in spoils:
        had = total.get(out.stream, SpoilOut(out.stream, Fraction(0), Fraction(0), Fraction(0)))
        total[out.stream] = SpoilOut(
            out.stream,
            had.in_ground + out.in_ground,
            had.loose + out.loose,
            had.weight + out.weight,
            had.dug + out.dug,
        )
    return total


def taker_of(chart: Chart, measured: Measured, task: Task) -> Taker | None:
    """Who takes what this work takes out; None where nobody does.

    A debris part that is an add-on takes nothing for certain. Work beside the beds goes with the first
    bed's hauling that takes it.
    """
    beds = [measured.beds[task.bed]] if task.bed is not None else list(measured.beds)
    stream = task.spoil.stream if task.spoil else ""
    for bed in beds:
        for share in bed.of("debris"):
            work = chart.work.get(share.part.work or "")
            if share.how in SURE and work and (work.takes is None or stream in work.takes):
                return Taker(str(share.how), share.part.work or "", share.path, bed.index)
            if share.how in ("customer", "elsewhere"):
                return Taker(share.how, path=share.path, bed=bed.index)
    return None


def _bed_tasks(chart: Chart, bed: BedMeasure, visit: str) -> Iterator[Task]:
    for share in bed.shares:
        work = chart.work.get(share.part.work or "")
        if work is None or share.how is None or share.decision == "material":
            continue
        key = share.part.work or ""
        spoil = _out(chart, _dug(key, work.spoil, share, bed.grounds)) if work.spoil else None
        area = None if bed.stated is not None else share.area
        quantity = _quantity(work, share.part, area, share.length)
        yield Task(
            share.bed,
            share.decision,
            share.part.work or "",
            work,
            share.part,
            share.path,
            share.inherited,
            share.area,
            share.length,
            quantity,
            spoil,
            share,
            share.part.visit or visit,
        )


def _extras(job: Job, chart: Chart) -> Iterator[Task]:
    for i, part in enumerate(job.extras):
        work = chart.work.get(part.work)
        if work is None or part.how is None:
            continue
        area, length = part.area or Fraction(0), part.along
        spoil = _out(chart, Dug(part.work, work.spoil, area, length)) if work.spoil else None
        yield Task(
            None,
            "extra",
            part.work,
            work,
            part,
            ("extras", i),
            False,
            area,
            length,
            _quantity(work, part, area, length),
            spoil,
            visit=part.visit or "",
        )


def _quantity(work: Work, part: Part, area: Fraction | None, length: Fraction | None) -> Fraction | None:
    if not isinstance(work.price, UnitPrice):
        return None
    per = work.price.per
    if per in ("ft", "m"):
        return None if length is None else length / UNIT_SIZE[per]
    if per in ("ft2", "m2"):
        return None if area is None else area / UNIT_SIZE[per]
    return {"worker-hour": part.worker_hours, "job": Fraction(1)}.get(per)


def _dug(key: str, spoil: Spoil, share: Share, grounds: tuple[Ground, ...]) -> Dug:
    found = [(ground.area, ground.found.ground_depth or Fraction(0)) for ground in _under(share, grounds)]
    return Dug(key, spoil, share.area, share.length, tuple(found))


def _under(share: Share, grounds: tuple[Ground, ...]) -> tuple[Ground, ...]:
    if share.whole:
        return grounds
    if share.name:
        return (
            tuple(ground for ground in grounds if ground.name in (share.name, ""))
            if any(g.name == share.name for g in grounds)
            else grounds
        )
    return tuple(ground for ground in grounds if ground.area == share.area) or grounds[:1]


def _out(chart: Chart, dug: Dug) -> SpoilOut:
    stream, in_ground = dug.spoil.stream, dug.in_ground
    known = chart.streams.get(stream)
    loose = in_ground * (1 + known.swell) if known else in_ground
    weight = Fraction(0)
    if known and known.in_ground_weight is not None:
        weight = in_ground * known.in_ground_weight
    elif known and known.loose_weight is not None:
        weight = loose * known.loose_weight
    return SpoilOut(stream, in_ground, loose, weight, (dug,))
