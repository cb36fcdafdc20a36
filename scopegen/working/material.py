"""The material of one line worked out: its volume from the beds, what lies there, its weight, its waste; and
how many truckloads it makes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from scopegen.case import Case
from scopegen.load import Path_
from scopegen.price import Line
from scopegen.price.lots import Lot, lot_of
from scopegen.price.material import bulk, by_volume
from scopegen.quantities.show import percent
from scopegen.quantities.units import FT3_PER_YD3, LB_PER_KG, LB_PER_TON
from scopegen.spoil import SURE
from scopegen.words import Lexicon
from scopegen.working.sums import count, equals, together
from scopegen.working.values import Figures, capital


def material_steps(case: Case, words: Lexicon, f: Figures, line: Line) -> Iterator[str]:
    """From the beds' volumes to what is measured in the unit of sale."""
    assert case.chart is not None and line.volume is not None
    if line.decided == "included":
        yield from _volumes(case, words, f, line)
    if not by_volume(case.chart.materials[line.key]):
        yield from _weight(case, words, f, line)
    yield from _waste(case, words, line)


def load_steps(case: Case, words: Lexicon, f: Figures, line: Line, lines: Sequence[Line]) -> Iterator[str]:
    """How many truckloads a delivery makes, by what fills the truck first: its volume or its wet weight."""
    assert case.chart is not None and case.chart.delivery is not None and line.measured is not None
    material, delivery = case.chart.materials[line.key], case.chart.delivery
    sold = [each.quantity for each in lines if each.sells_material and (each.key, each.visit) == _lot(line)]
    if len(sold) != 1:
        return
    volume, pounds = bulk(material, sold[0])
    size, density = f.volume(volume).term(), f.density(material.weight).term()
    weight = size * density if by_volume(material) else f.weight(pounds).term()
    if volume / delivery.load >= pounds * (1 + material.wet) / delivery.payload:
        cubic = size if by_volume(material) else weight / density
        left = cubic / f.volume(delivery.load).term()
    else:
        wet = weight * count(1 + material.wet).term() if material.wet else weight
        left = wet / f.weight(delivery.payload).term()
    yield f"{words.say('working.truckloads')}: {equals(left, count(line.measured))}"


def more_steps(case: Case, words: Lexicon, f: Figures, path: Path_) -> Iterator[str]:
    """What the bed's material takes more where an add-on clears the ground, or cuts a new edge outside it."""
    assert case.chart is not None and case.measured is not None
    own = path[:1] == ("beds",) and isinstance(path[1], int)
    for bed in [case.measured.beds[int(path[1])]] if own else case.measured.beds:
        for spread in bed.spreads:
            if spread.share.how not in SURE or spread.if_cleared is None or spread.if_cleared[0] != path:
                continue
            material, volume = case.chart.materials[spread.material], spread.if_cleared[1]
            settled = volume * FT3_PER_YD3 / (1 + material.settles)
            if spread.area:
                left = f.area(spread.area).term() * f.depth(settled / spread.area).term()
            else:
                cut = next(share.length or Fraction(0) for share in bed.shares if share.path == path)
                strip = f.length(cut).term() * f.depth(settled / spread.depth / cut).term()
                yield (
                    words.say("working.grown")
                    + ": "
                    + equals(strip / f.length_by_width, f.area(settled / spread.depth))
                )
                left = f.area(settled / spread.depth).term() * f.depth(spread.depth).term()
            left /= f.area_by_depth
            if material.settles:
                left *= count(1 + material.settles).term()
            yield f"{capital(material.name)}: {equals(left, f.volume(volume))}"


def _lot(line: Line) -> tuple[str, str]:
    return line.key, line.visit


def _volumes(case: Case, words: Lexicon, f: Figures, line: Line) -> Iterator[str]:
    """The beds' volumes together, less the pile that lies there, or with it where it is spread."""
    assert case.measured is not None and line.volume is not None
    lot = Lot(line.key, line.visit, theirs=line.id.startswith("spreading:"))
    volumes = [
        spread.volume
        for spread in case.measured.spreads
        if spread.share.how == "included" and spread.volume and lot_of(case.job, spread) == lot
    ]
    total = sum(volumes, Fraction(0))
    if len(volumes) > 1:
        yield equals(together(f.volume(each).term() for each in volumes), f.volume(total))
    if total > line.volume:
        taken = f.volume(total).term() - f.volume(total - line.volume).term()
        yield f"{words.say('working.less_pile')}: {equals(taken, f.volume(line.volume))}"
    elif volumes and total < line.volume:
        added = f.volume(total).term() + f.volume(line.volume - total).term()
        yield f"{words.say('working.with_pile')}: {equals(added, f.volume(line.volume))}"


def _weight(case: Case, words: Lexicon, f: Figures, line: Line) -> Iterator[str]:
    """From volume to tons or tonnes, dry, where the job is told in the same measures as the price."""
    assert case.chart is not None and line.volume is not None
    material = case.chart.materials[line.key]
    if f.metric != (line.unit == "t"):
        return
    pounds = line.volume * material.weight
    net, per = (pounds / LB_PER_KG / 1000, 1000) if f.metric else (pounds / LB_PER_TON, LB_PER_TON)
    left = f.volume(line.volume).term() * f.density(material.weight).term() / per
    yield equals(left, count(net, 4, words.say(f"unit.{line.unit}")))


def _waste(case: Case, words: Lexicon, line: Line) -> Iterator[str]:
    """What is ordered on top; nothing of it where material is only spread."""
    assert case.chart is not None
    material = case.chart.materials[line.key]
    if not material.waste or line.measured is None or not line.sells_material:
        return
    unit, net = words.say(f"unit.{line.unit}"), line.measured / (1 + material.waste)
    left = count(net, 4, unit).term() * count(1 + material.waste).term()
    title = words.say("working.with_waste", share=percent(material.waste))
    yield f"{title}: {equals(left, count(line.measured, 4, unit))}"
