"""Hauling worked out: what comes out of the ground, its weight, trips, drive, loading and dump fees."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from scopegen.case import Case
from scopegen.chart import HaulPrice, Work
from scopegen.price import Line
from scopegen.quantities.rounding import whole_up
from scopegen.quantities.units import LB_PER_TON, UNIT_SIZE
from scopegen.words import Lexicon
from scopegen.working.spoil import Digging, out_of_the_ground, volumes, weights
from scopegen.working.sums import Figure, Term, count, equals, together
from scopegen.working.values import Figures, money, priced

MINUTES = 60  # of an hour
MINUTE = "min"  # its sign in every language that papers are written in


@dataclass(frozen=True, slots=True)
class Cost:
    """One part of what a haul costs: its name, how it is worked out, and its exact dollars."""

    label: str
    sum: Term
    dollars: Fraction


@dataclass(frozen=True, slots=True)
class Haulage(Digging):
    """A hauling line with the truck and the prices that it goes by."""

    work: Work
    price: HaulPrice


def haul_steps(
    case: Case, words: Lexicon, f: Figures, line: Line, known: Mapping[str, Fraction]
) -> Iterator[str]:
    """Every step of a hauling line, from the ground to its amount; nothing where it takes nothing."""
    assert case.chart is not None
    work = case.chart.work[line.key]
    if not isinstance(work.price, HaulPrice) or work.truck is None or not line.dumped:
        return
    h = Haulage(case, words, f, line, known, work, work.price)
    for stream, dug in line.dug:
        yield from out_of_the_ground(h, stream, dug)
    yield from weights(h, _by_weight(h))
    loose = f.volume(sum((each for _, each, _ in h.loads), Fraction(0)))
    if len(h.loads) > 1:
        yield f"{words.say('working.loose')}: {equals(together(volumes(h)), loose)}"
    yield from _trips(h) if line.trips else _shares(h)
    costs = list(_costs(h, loose))
    for cost in costs:
        yield f"{cost.label}: {equals(cost.sum, money(words, cost.dollars))}"
    total = together(money(words, cost.dollars).term() for cost in costs)
    in_all = equals(total, money(words, sum((cost.dollars for cost in costs), Fraction(0))))
    if line.reason == "minimum":
        in_all = words.say("working.at_least", sum=in_all, amount=words.money(line.amount))
    yield f"{words.say('working.reason.trips')}: {in_all}"


def _by_weight(h: Haulage) -> list[str]:
    """The streams whose weight counts: they fill the truck by it first, or a dump takes its fee by it."""
    heavy = {stream for streams, heavy in _dumps(h) if heavy for stream in streams}
    paid = {stream for stream, fee in h.work.dump.items() if fee.per in ("ton", "t")}
    return [stream for stream, *_ in h.loads if stream in heavy | paid]


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
    drive = times * count(price.drive * MINUTES, 3, MINUTE).term() / MINUTES
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
        yield Cost(say("working.dump", stream=h.called(stream)), size, amount * Fraction(fee.fee))


def _dumped(h: Haulage, per: str, loose: Fraction, pounds: Fraction, amount: Fraction) -> Term:
    """What a dump weighs or measures, in the job's own units where the fee is in those too."""
    if per in (("m3", "t") if h.f.metric else ("yd3", "ton")):
        if per in ("yd3", "m3"):
            return h.f.volume(loose).term()
        return h.f.weight(pounds).term() / (1000 if h.f.metric else LB_PER_TON)
    return count(amount, 4, h.words.say(f"unit.{per}")).term()
