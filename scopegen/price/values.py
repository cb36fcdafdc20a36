"""What pricing gives: lines whose printed figures multiply and add up to the printed totals."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from functools import cached_property

from scopegen.load import Path_
from scopegen.spoil import Dug

ZERO = Decimal("0.00")


@dataclass(frozen=True, slots=True)
class Step:
    """So much at one price for a unit."""

    quantity: Fraction
    unit_price: Decimal


@dataclass(frozen=True, slots=True)
class Line:
    """One priced thing. Where `steps` holds one step, quantity × unit price is the amount, to the cent;
    `reason` says why it is not: `minimum`, `at step` (a larger order never costs less), or `group` (its
    share of what a price group costs together)."""

    id: str
    decision: str
    beds: tuple[str, ...]
    description: str
    quantity: Fraction
    unit: str
    steps: tuple[Step, ...]
    amount: Decimal
    tax: tuple[str, ...] = ()
    reason: str = ""
    measured: Fraction | None = None
    key: str = ""  # the chart's key of the material or work
    trips: int = 0  # of hauling on its own
    taken: tuple[tuple[str, tuple[str, ...]], ...] = ()  # of hauling: each dump with the streams it gets
    dumped: tuple[tuple[str, Fraction, Fraction], ...] = ()  # of spoil: stream, yd3 loose, lb
    dug: tuple[tuple[str, tuple[Dug, ...]], ...] = ()  # and what it was dug from
    path: Path_ = ()
    decided: str = "included"
    visit: str = ""  # of material and hauling: the visit that it is for
    volume: Fraction | None = None  # of material: yd3 that this line buys or spreads, before any waste
    limit: Decimal | None = None  # of work by the hour: the most that it may come to

    @property
    def sells_material(self) -> bool:
        """It is material that is bought and brought; not the spreading of what lies there."""
        return self.id.startswith("material:")

    @property
    def unit_price(self) -> Decimal | None:
        """The price of one unit, where there is one."""
        return self.steps[0].unit_price if len(self.steps) == 1 and not self.reason else None


@dataclass(frozen=True, slots=True)
class Offer:
    """An add-on, a no-charge item, or what we do where the customer's own work was not done: one price
    for all of it, tax included, and what it consists of."""

    id: str
    decision: str
    decided: str
    beds: tuple[str, ...]
    description: str
    parts: tuple[Line, ...]
    tax: Decimal
    path: Path_
    inherited: bool

    @property
    def price(self) -> Decimal:
        """All parts and their tax."""
        return sum((line.amount for line in self.parts), ZERO) + self.tax

    @property
    def before_tax(self) -> Decimal:
        """All parts without tax."""
        return sum((line.amount for line in self.parts), ZERO)


@dataclass(frozen=True, slots=True)
class TaxLine:
    """One tax: what it is taken on, and how much it is."""

    kind: str
    name: str
    rate: Fraction
    on: Decimal
    amount: Decimal


@dataclass(frozen=True, slots=True)
class PaymentLine:
    """One payment."""

    when: str
    amount: Decimal
    share: Fraction | None = None
    visit: str = ""


@dataclass(frozen=True, slots=True)
class SpoilTotal:
    """All that comes out for certain: yd3 in the ground and loose, barrow loads, lb, trips of the truck."""

    in_ground: Fraction
    loose: Fraction
    weight: Fraction
    barrows: int
    trips: int
    by_stream: tuple[tuple[str, Fraction, Fraction, Fraction, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Supply:
    """One material of a visit, in its unit of sale: needed and ordered, the range that it comes to 19 times
    in 20, and the chance (0 to 1) that the order runs short."""

    key: str
    visit: str
    unit: str
    needed: Fraction
    ordered: Fraction
    low: Fraction
    high: Fraction
    short: float


@dataclass(frozen=True, slots=True)
class Pays:
    """What the job costs, before tax. `lacks` are the chart's keys without which it cannot be told; then
    every figure is zero."""

    material: Decimal = ZERO
    delivery: Decimal = ZERO
    hauling: Decimal = ZERO
    labor: Decimal = ZERO
    overhead: Decimal = ZERO
    lowest: Decimal = ZERO
    wanted: Decimal = ZERO
    lacks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SiteShare:
    """What one of several properties pays of the base: by largest remainder, so that the shares add up."""

    name: str
    property: str
    bill_to: str
    beds: tuple[str, ...]
    before_tax: Decimal
    discount: Decimal
    tax: Decimal

    @property
    def total(self) -> Decimal:
        """What it pays in all."""
        return self.before_tax - self.discount + self.tax


@dataclass(frozen=True)
class Priced:
    """A priced job."""

    lines: tuple[Line, ...]
    no_charge: tuple[Offer, ...]
    add_ons: tuple[Offer, ...]
    if_not_done: tuple[Offer, ...]
    subtotal: Decimal
    discount: Decimal
    taxes: tuple[TaxLine, ...]
    total: Decimal
    payments: tuple[PaymentLine, ...]
    worker_hours: Fraction
    days: int
    spoil: SpoilTotal
    loads: int = 0
    at_most: Decimal | None = None  # where something is charged as delivered or worked: the most in all
    not_taken: tuple[Path_, ...] = field(default=())
    supplies: tuple[Supply, ...] = ()
    pays: Pays | None = None
    sites: tuple[SiteShare, ...] = ()

    @property
    def tax(self) -> Decimal:
        """All taxes together."""
        return sum((tax.amount for tax in self.taxes), ZERO)

    def offer_at(self, path: Path_) -> Offer | None:
        """The add-on, no-charge item or fall-back that was said at a path."""
        return self._offers.get(path)

    @cached_property
    def _offers(self) -> dict[Path_, Offer]:
        """Every offer by its path; of several at one path the first counts."""
        offers = (*self.add_ons, *self.no_charge, *self.if_not_done)
        return {offer.path: offer for offer in reversed(offers)}
