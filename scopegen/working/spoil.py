"""Spoil worked out: each cross-section and depth, what it comes to together, and its swell."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from scopegen.case import Case
from scopegen.price import Line
from scopegen.quantities.show import percent
from scopegen.quantities.units import LB_PER_KG, LB_PER_TON
from scopegen.spoil import Dug
from scopegen.words import Lexicon
from scopegen.working.sums import Figure, Term, count, equals, together
from scopegen.working.values import Figures, capital


@dataclass(frozen=True, slots=True)
class Digging:
    """A line for spoil with what it comes from. `known` is the ft2 or ft that work was measured at."""

    case: Case
    words: Lexicon
    f: Figures
    line: Line
    known: Mapping[str, Fraction]

    def called(self, key: str) -> str:
        """What a stream is called."""
        assert self.case.chart is not None
        found = self.case.chart.streams.get(key)
        return found.name if found else key

    def stream(self, key: str) -> str:
        """What it is called at the start of a line."""
        return capital(self.called(key))

    @property
    def loads(self) -> list[tuple[str, Fraction, Fraction]]:
        """Stream, yd3 loose and lb of what there is any of."""
        return [load for load in self.line.dumped if load[1]]


def left_steps(d: Digging) -> Iterator[str]:
    """Spoil that is not driven away by trips, but priced by its volume or its weight."""
    for stream, dug in d.line.dug:
        yield from out_of_the_ground(d, stream, dug)
    if d.line.unit in ("ton", "t"):
        yield from weights(d, [stream for stream, *_ in d.loads])
        if d.loads and d.f.metric == (d.line.unit == "t"):
            net = sum((pounds for *_, pounds in d.loads), Fraction(0))
            net, per = (net / LB_PER_KG / 1000, 1000) if d.f.metric else (net / LB_PER_TON, LB_PER_TON)
            left = together(d.f.weight(pounds).term() for *_, pounds in d.loads).inside() / per
            yield equals(left, count(net, 4, d.words.say(f"unit.{d.line.unit}")))
    elif len(d.loads) > 1:
        loose = d.f.volume(sum((each for _, each, _ in d.loads), Fraction(0)))
        yield f"{d.words.say('working.loose')}: {equals(together(volumes(d)), loose)}"


def weights(d: Digging, streams: list[str]) -> Iterator[str]:
    """What these streams weigh, by their volume in the ground or loose, as the chart has it."""
    assert d.case.chart is not None
    for stream, loose, pounds in d.loads:
        known = d.case.chart.streams.get(stream)
        if stream not in streams or not known or not pounds:
            continue
        in_ground = known.in_ground_weight is not None
        density = known.in_ground_weight if in_ground else known.loose_weight
        size = loose / (1 + known.swell) if in_ground else loose
        left = d.f.volume(size).term() * d.f.density(density or Fraction(0)).term()
        title = d.words.say("working.weight", stream=d.stream(stream))
        yield f"{title}: {equals(left, d.f.weight(pounds))}"


def volumes(d: Digging) -> list[Term]:
    return [d.f.volume(loose).term() for _, loose, _ in d.loads]


def out_of_the_ground(d: Digging, stream: str, dug: tuple[Dug, ...]) -> Iterator[str]:
    """Each kind of work's cross-section or depth, then all of a stream together, and its swell."""
    assert d.case.chart is not None
    kinds: dict[str, list[Dug]] = {}
    for each in dug:
        if each.in_ground:
            kinds.setdefault(each.work, []).append(each)
    name, sizes = d.stream(stream), []
    for key, pieces in kinds.items():
        size = d.f.volume(sum((each.in_ground for each in pieces), Fraction(0)))
        title = f"{name}, {d.case.chart.work[key].name}"
        yield f"{title}: {equals(_taken_out(d.f, pieces, d.known.get(key)), size)}"
        sizes.append(size)
    total = d.f.volume(sum((each.in_ground for each in dug), Fraction(0)))
    if len(sizes) > 1:
        left = together(size.term() for size in sizes)
        yield f"{d.words.say('working.stream_together', stream=name)}: {equals(left, total)}"
    known = d.case.chart.streams.get(stream)
    if known and known.swell and sizes:
        swollen = total.term() * count(1 + known.swell).term()
        loose = next(loose for key, loose, _ in d.line.dumped if key == stream)
        title = d.words.say("working.swell", stream=name, share=percent(known.swell))
        yield f"{title}: {equals(swollen, d.f.volume(loose))}"


def _taken_out(f: Figures, pieces: list[Dug], known: Fraction | None) -> Term:
    """Length × cross-section, or area × depth, as a volume in the ground."""
    spoil = pieces[0].spoil
    if spoil.width is not None:
        along = _in_all([f.length(each.length or 0) for each in pieces], f.length(known or 0))
        section = f.depth(spoil.depth or 0).term() * f.depth(spoil.width).term()
        section = section / 2 if spoil.profile == "wedge" else section
        if spoil.plus_strip:
            strip = f.depth(spoil.plus_strip.width).term() * f.depth(spoil.plus_strip.depth).term()
            section = (section + strip).inside()
        return along * section / f.length_by_section
    if spoil.depth is not None:
        over = _in_all([f.area(each.area) for each in pieces], f.area(known or 0))
        return over * f.depth(spoil.depth).term() / f.area_by_depth
    found = [
        f.area(area).term() * f.depth(depth).term()
        for each in pieces
        for area, depth in each.found
        if area and depth
    ]
    return (together(found).inside() if len(found) > 1 else found[0]) / f.area_by_depth


def _in_all(sizes: list[Figure], known: Figure) -> Term:
    """The sum that the work was measured at, where it stands above; else its addends."""
    if len(sizes) == 1:
        return sizes[0].term()
    if sum((size.value for size in sizes), Fraction(0)) == known.value:
        return known.term()
    return together(size.term() for size in sizes).inside()
