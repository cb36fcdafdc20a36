"""The material of one line worked out: its volume from the beds, what lies there, its weight, its waste."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopegen.case import Case
from scopegen.price import Line
from scopegen.price.lots import Lot, lot_of
from scopegen.price.material import by_volume
from scopegen.quantities.show import percent
from scopegen.quantities.units import FT3_PER_YD3, FT_PER_M, LB_PER_KG, LB_PER_TON
from scopegen.words import Lexicon
from scopegen.working.values import Figures, plain


def material_steps(case: Case, words: Lexicon, f: Figures, line: Line) -> Iterator[str]:
    """From the beds' volumes to what is measured in the unit of sale."""
    assert case.chart is not None and line.volume is not None
    if line.decided == "included":
        yield from _volumes(case, words, f, line)
    if not by_volume(case.chart.materials[line.key]):
        yield from _weight(case, words, f, line)
    yield from _waste(case, words, line)


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
        yield f"{' + '.join(f.volume(each) for each in volumes)} = {f.volume(total)}"
    if total > line.volume:
        taken = f"{f.volume(total)} − {f.volume(total - line.volume)} = {f.volume(line.volume)}"
        yield f"{words.say('working.less_pile')}: {taken}"
    elif volumes and total < line.volume:
        added = f"{f.volume(total)} + {f.volume(line.volume - total)} = {f.volume(line.volume)}"
        yield f"{words.say('working.with_pile')}: {added}"


def _weight(case: Case, words: Lexicon, f: Figures, line: Line) -> Iterator[str]:
    """From volume to tons or tonnes, dry, where the job is told in the same measures as the price."""
    assert case.chart is not None and line.volume is not None
    material = case.chart.materials[line.key]
    if f.metric != (line.unit == "t"):
        return
    pounds = line.volume * material.weight
    cubic_meter = FT_PER_M**3 / FT3_PER_YD3  # in yd3
    unit = words.say(f"unit.{line.unit}")
    if f.metric:
        per, net, key = material.weight * cubic_meter / LB_PER_KG, pounds / LB_PER_KG / 1000, "tonnes"
    else:
        per, net, key = material.weight, pounds / LB_PER_TON, "tons"
    amount = f"{plain(net, 4)} {unit}"
    yield words.say(f"working.{key}", volume=f.volume(line.volume), weight=plain(per, 3), amount=amount)


def _waste(case: Case, words: Lexicon, line: Line) -> Iterator[str]:
    """What is ordered on top; nothing of it where material is only spread."""
    assert case.chart is not None
    material = case.chart.materials[line.key]
    if not material.waste or line.measured is None or not line.sells_material:
        return
    unit, net = words.say(f"unit.{line.unit}"), line.measured / (1 + material.waste)
    yield words.say(
        "working.with_waste", share=percent(material.waste), amount=f"{plain(net, 4)} {unit}",
        times=plain(1 + material.waste, 4), sum=f"{plain(line.measured, 4)} {unit}",
    )  # fmt: skip
