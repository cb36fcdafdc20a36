"""What taking things away costs: whole trips by volume and payload, dump by dump, and loading."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from scopegen.chart import HaulPrice, Work
from scopegen.quantities.rounding import whole_up
from scopegen.quantities.units import LB_PER_TON, UNIT_SIZE
from scopegen.spoil import SpoilOut

Haulage = tuple[str, str]  # the chart key of the work that takes spoil, and the visit at which it does


@dataclass(frozen=True, slots=True)
class Haul:
    """A haul worked out: trips, yd3 loose, lb, the fee in dollars (at least the minimum), worker-hours."""

    trips: int
    loose: Fraction
    weight: Fraction
    fee: Fraction
    at_minimum: bool
    hours: Fraction


def haul(work: Work, worker_hour: Fraction, out: Mapping[str, SpoilOut]) -> Haul:
    """Hauling of these streams on trips of its own. Streams that go to one dump ride together."""
    price, truck = work.price, work.truck
    assert isinstance(price, HaulPrice) and truck is not None
    trips = 0
    for loads in by_dump(work, out).values():
        loose, weight = (
            sum((o.loose for o in loads), Fraction(0)),
            sum((o.weight for o in loads), Fraction(0)),
        )
        trips += max(whole_up(loose / truck.volume), whole_up(weight / truck.payload))
    loose, weight = (
        sum((o.loose for o in out.values()), Fraction(0)),
        sum((o.weight for o in out.values()), Fraction(0)),
    )
    hours = trips * price.drive * price.riders + loose / price.loading
    fee = trips * Fraction(price.trip) + hours * worker_hour + dump_fees(work, out)
    return Haul(trips, loose, weight, max(fee, Fraction(price.minimum)), fee < price.minimum, hours)


def haul_share(work: Work, worker_hour: Fraction, out: Mapping[str, SpoilOut]) -> Fraction:
    """What these streams cost when they ride along with a haul that is made anyway: by volume, or by
    payload where that fills the truck first; in dollars."""
    price, truck = work.price, work.truck
    assert isinstance(price, HaulPrice) and truck is not None
    trip = Fraction(price.trip) + price.drive * price.riders * worker_hour
    filled = sum((max(o.loose / truck.volume, o.weight / truck.payload) for o in out.values()), Fraction(0))
    loose = sum((o.loose for o in out.values()), Fraction(0))
    return filled * trip + loose / price.loading * worker_hour + dump_fees(work, out)


def by_dump(work: Work, out: Mapping[str, SpoilOut]) -> dict[str, list[SpoilOut]]:
    """The streams that go to each dump: they ride together."""
    dumps: dict[str, list[SpoilOut]] = {}
    for stream, load in out.items():
        where = (work.dump[stream].where if stream in work.dump else None) or ""
        dumps.setdefault(where, []).append(load)
    return dumps


def dump_fees(work: Work, out: Mapping[str, SpoilOut]) -> Fraction:
    """What the dumps take for these streams, in dollars, not rounded."""
    total = Fraction(0)
    for stream, load in out.items():
        if stream in work.dump:
            fee = work.dump[stream]
            amount = load.loose if fee.per in ("yd3", "m3") else load.weight / LB_PER_TON
            total += Fraction(fee.fee) * amount / UNIT_SIZE[fee.per]
    return total
