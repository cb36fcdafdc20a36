"""Hauling worked out: what comes out of the ground, its weight, trips, drive, loading and dump fees."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from scopegen.case import Case
from scopegen.chart import HaulPrice, Work
from scopegen.price import Line
from scopegen.quantities.rounding import whole_up
from scopegen.quantities.show import percent
from scopegen.quantities.units import LB_PER_TON, UNIT_SIZE
from scopegen.spoil import Dug
from scopegen.words import Lexicon
from scopegen.working.sums import Figure, Term, count, equals, together
from scopegen.working.values import Figures, capital, money, priced

MINUTES = 60  # of an hour


@dataclass(frozen=True, slots=True)
class Cost:
    """One part of what a haul costs: its name, how it is worked out, and its exact dollars."""

    label: str
    sum: Term
    dollars: Fraction


@dataclass(frozen=True, slots=True)
class Haulage:
    """A hauling line with what it is worked out from. `known` is the ft2 or ft that work was measured at."""

    case: Case
    words: Lexicon
    f: Figures
    line: Line
    work: Work
    price: HaulPrice
    known: Mapping[str, Fraction]

    def stream(self, key: str) -> str:
        """What a stream is called."""
        assert self.case.chart is not None
        found = self.case.chart.streams.get(key)
        return capital(found.name if found else key)

    @property
    def loads(self) -> list[tuple[str, Fraction, Fraction]]:
        """Stream, yd3 loose and lb of what there is any of."""
        return [load for load in self.line.dumped if load[1]]


def haul_steps(
    case: Case, words: Lexicon, f: Figures, line: Line, known: Mapping[str, Fraction]
) -> Iterator[str]:
    """Every step of a hauling line, from the ground to its amount; nothing where it takes nothing."""
    assert case.chart is not None
    work = case.chart.work[line.key]
    if not isinstance(work.price, HaulPrice) or work.truck is None or not line.dumped:
        return
    h = Haulage(case, words, f, line, work, work.price, known)
    for stream, dug in line.dug:
        yield from _out_of_the_ground(h, stream, dug)
    yield from _weights(h)
    loose = f.volume(sum((each for _, each, _ in h.loads), Fraction(0)))
    if len(h.loads) > 1:
        yield f"{words.say('working.loose')}: {equals(together(_volumes(h)), loose)}"
    yield from _trips(h) if line.trips else _shares(h)
    costs = list(_costs(h, loose))
    for cost in costs:
        yield f"{cost.label}: {equals(cost.sum, money(words, cost.dollars))}"
    total = together(money(words, cost.dollars).term() for cost in costs)
    in_all = equals(total, money(words, sum((cost.dollars for cost in costs), Fraction(0))))
    if line.reason == "minimum":
        in_all = words.say("working.at_least", sum=in_all, amount=words.money(line.amount))
    yield f"{words.say('working.reason.trips')}: {in_all}"


def _volumes(h: Haulage) -> list[Term]:
    return [h.f.volume(loose).term() for _, loose, _ in h.loads]


def _out_of_the_ground(h: Haulage, stream: str, dug: tuple[Dug, ...]) -> Iterator[str]:
    """Each kind of work's cross-section or depth, then all of a stream together, and its swell."""
    assert h.case.chart is not None
    kinds: dict[str, list[Dug]] = {}
    for each in dug:
        if each.in_ground:
            kinds.setdefault(each.work, []).append(each)
    name, sizes = h.stream(stream), []
    for key, pieces in kinds.items():
        size = h.f.volume(sum((each.in_ground for each in pieces), Fraction(0)))
        title = f"{name}, {h.case.chart.work[key].name}"
        yield f"{title}: {equals(_taken_out(h.f, pieces, h.known.get(key)), size)}"
        sizes.append(size)
    total = h.f.volume(sum((each.in_ground for each in dug), Fraction(0)))
    if len(sizes) > 1:
        left = together(size.term() for size in sizes)
        yield f"{h.words.say('working.stream_together', stream=name)}: {equals(left, total)}"
    known = h.case.chart.streams.get(stream)
    if known and known.swell and sizes:
        swollen = total.term() * count(1 + known.swell).term()
        loose = next(loose for key, loose, _ in h.line.dumped if key == stream)
        title = h.words.say("working.swell", stream=name, share=percent(known.swell))
        yield f"{title}: {equals(swollen, h.f.volume(loose))}"


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


def _weights(h: Haulage) -> Iterator[str]:
    """The weight of each stream, where the truck or a dump goes by weight."""
    assert h.case.chart is not None
    by_truck = {stream for streams, heavy in _dumps(h) if heavy for stream in streams}
    for stream, loose, pounds in h.loads:
        fee, known = h.work.dump.get(stream), h.case.chart.streams.get(stream)
        if not known or not pounds or stream not in by_truck and (fee is None or fee.per in ("yd3", "m3")):
            continue
        in_ground = known.in_ground_weight is not None
        density = known.in_ground_weight if in_ground else known.loose_weight
        size = loose / (1 + known.swell) if in_ground else loose
        left = h.f.volume(size).term() * h.f.density(density or Fraction(0)).term()
        title = h.words.say("working.weight", stream=h.stream(stream))
        yield f"{title}: {equals(left, h.f.weight(pounds))}"


def _dumps(h: Haulage) -> list[tuple[tuple[str, ...], bool]]:
    """The streams that fill the truck together, and whether they do it by weight first."""
    assert h.work.truck is not None
    together_ = (
        [streams for _, streams in h.line.taken] if h.line.trips else [(s,) for s, *_ in h.line.dumped]
    )
    found = []
    for streams in together_:
        loose, pounds = _totals(h, streams)
        found.append((streams, pounds / h.work.truck.payload > loose / h.work.truck.volume))
    return found


def _totals(h: Haulage, streams: tuple[str, ...]) -> tuple[Fraction, Fraction]:
    loads = [load for load in h.loads if load[0] in streams]
    return sum((load[1] for load in loads), Fraction(0)), sum((load[2] for load in loads), Fraction(0))


def _filled(h: Haulage, streams: tuple[str, ...], heavy: bool) -> tuple[Term, Fraction]:
    """How much of the truck streams fill, by what fills it first."""
    assert h.work.truck is not None
    loads = [load for load in h.loads if load[0] in streams]
    sizes = [h.f.weight(pounds) if heavy else h.f.volume(loose) for _, loose, pounds in loads]
    truck = h.f.weight(h.work.truck.payload) if heavy else h.f.volume(h.work.truck.volume)
    terms = [size.term() for size in sizes if size.value]
    left = together(terms).inside() if len(terms) > 1 else terms[0]
    return left / truck.term(), sum((size.value for size in sizes), Fraction(0)) / truck.value


def _trips(h: Haulage) -> Iterator[str]:
    names = [where for where, _ in h.line.taken]
    for name, (streams, heavy) in zip(names, _dumps(h), strict=True):
        if not _totals(h, streams)[0]:
            continue
        left, filled = _filled(h, streams, heavy)
        title = h.words.say("working.trips_to", where=name) if name else h.words.say("working.trips")
        sum_ = h.words.say("working.rounded_up", sum=equals(left, count(filled)), whole=whole_up(filled))
        yield f"{title}: {sum_}"


def _shares(h: Haulage) -> Iterator[str]:
    filled = [_filled(h, streams, heavy) for streams, heavy in _dumps(h) if _totals(h, streams)[0]]
    for left, part in filled:
        yield f"{h.words.say('working.share_of_truck')}: {equals(left, count(part))}"
    if len(filled) > 1:
        parts = [count(part) for _, part in filled]
        total = count(sum((part.value for part in parts), Fraction(0)))
        left = together(part.term() for part in parts)
        yield f"{h.words.say('working.together')}: {equals(left, total)}"


def _times(h: Haulage) -> tuple[Term, Fraction]:
    """How many trips, or what share of one."""
    filled = [_filled(h, streams, heavy)[1] for streams, heavy in _dumps(h) if _totals(h, streams)[0]]
    if h.line.trips:
        trips = [count(whole_up(each)) for each in filled]
        left = together(each.term() for each in trips)
        return left.inside() if len(trips) > 1 else left, Fraction(h.line.trips)
    return count(sum(filled, Fraction(0))).term(), sum(filled, Fraction(0))


def _costs(h: Haulage, loose: Figure) -> Iterator[Cost]:
    assert h.case.chart is not None
    (times, exact), say = _times(h), h.words.say
    hour = h.case.chart.worker_hour
    rate = priced(h.words, hour)
    price = h.price
    yield Cost(say("working.trips"), times * priced(h.words, price.trip), exact * Fraction(price.trip))
    drive = times * count(price.drive * MINUTES, 3, "min").term() / MINUTES
    if price.riders != 1:
        drive *= count(price.riders).term()
    yield Cost(say("working.drive"), drive * rate, exact * price.drive * price.riders * Fraction(hour))
    cubic = sum((each for _, each, _ in h.loads), Fraction(0))
    loading = loose.term() / h.f.per_hour(price.loading).term() * rate
    yield Cost(say("working.loading"), loading, cubic / price.loading * Fraction(hour))
    for stream, volume, pounds in h.loads:
        fee = h.work.dump.get(stream)
        if fee is None:
            continue
        amount = (volume if fee.per in ("yd3", "m3") else pounds / LB_PER_TON) / UNIT_SIZE[fee.per]
        size = _dumped(h, fee.per, volume, pounds, amount) * priced(h.words, fee.fee)
        name = h.stream(stream)
        title = say("working.dump", stream=name[:1].lower() + name[1:])
        yield Cost(title, size, amount * Fraction(fee.fee))


def _dumped(h: Haulage, per: str, loose: Fraction, pounds: Fraction, amount: Fraction) -> Term:
    """What a dump weighs or measures, in the job's own units where the fee is in those too."""
    if h.f.metric == per.startswith(("m", "t")) and per != "ton" or not h.f.metric and per == "ton":
        if per in ("yd3", "m3"):
            return h.f.volume(loose).term()
        return h.f.weight(pounds).term() / (1000 if h.f.metric else LB_PER_TON)
    return count(amount, 4, h.words.say(f"unit.{per}")).term()
