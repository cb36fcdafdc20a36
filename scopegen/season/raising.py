"""Prices raised by a share: all of them, or those of one group; each rounded once, half up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from scopegen.chart.prices import KINDS, PriceAt
from scopegen.quantities.rounding import CENT, half_up
from scopegen.quantities.show import percent as shown_percent
from scopegen.quantities.texts import percent
from scopegen.quantities.units import shortened
from scopegen.season.refused import Refused
from scopegen.understand import nearest

# A step is used from twenty times itself on, so that rounding moves no price by more than 2.5 %: half a
# step against twenty. Below that a price is rounded to the cent. 0.05 so serves prices from a dollar on.
LEAST_STEPS = 20


@dataclass(frozen=True, slots=True)
class Raise:
    """A share that is put on top (0.04 for 4 %), and what it is for; nothing means every price."""

    share: Fraction
    group: str = ""

    @property
    def spoken(self) -> str:
        """As the chart's comment has it: `mulch by 6 %`."""
        return f"{self.group or 'every price'} by {shown_percent(self.share)}"


@dataclass(frozen=True, slots=True)
class Raised:
    """One price before and after, as amounts."""

    price: PriceAt
    before: Decimal
    after: Decimal


def read_raise(text: str) -> Raise:
    """`4 %`, or `mulch=6 %`. Raises NotAQuantity."""
    group, _, share = text.rpartition("=")
    return Raise(percent(share.strip()), group.strip())


def raised(prices: Sequence[PriceAt], raises: Sequence[Raise], step: Decimal | None) -> tuple[Raised, ...]:
    """Every price that a raise is for. `step` is what it is rounded to, half up; without it the cent.

    Raises Refused where a raise is for nothing in the chart, or two are for one price alike.
    """
    _refuse_unknown(prices, raises)
    found = ((price, _raise_of(price, raises)) for price in prices)
    return tuple(
        Raised(price, price.amount, new_price(price.amount, each.share, step))
        for price, each in found
        if each
    )


def new_price(before: Decimal, share: Fraction, step: Decimal | None) -> Decimal:
    """A price raised and rounded once, half up: to the step from twenty steps on, else to the cent. Never
    lower than it was: that is no raise."""
    exact = Fraction(before) * (1 + share)
    chosen = Fraction(step) if step is not None and exact >= LEAST_STEPS * Fraction(step) else CENT
    cents = half_up(exact, chosen) / CENT
    return max(before, Decimal(int(cents)).scaleb(-2))


def _raise_of(price: PriceAt, raises: Sequence[Raise]) -> Raise | None:
    """The raise that speaks most closely of a price."""
    meant = [(_closeness(price, each.group), each) for each in raises]
    near = sorted(((rank, each) for rank, each in meant if rank is not None), key=lambda each: each[0])
    if len(near) > 1 and near[0][0] == near[1][0]:
        both = " and as ".join(f"'{each.spoken}'" for _, each in near[:2])
        raise Refused(f"{price.name} is to be raised as {both}. Keep one of the two. Nothing was written.")
    return near[0][1] if near else None


def _closeness(price: PriceAt, group: str) -> int | None:
    """How closely a raise speaks of a price, the least first; None where it is not for it."""
    if not group:
        return 5
    if group in KINDS:
        return 4 if price.kind == group else None
    if group == price.name:
        return 0
    if group == price.entry or price.name.startswith(f"{group}."):
        return 1
    return 2 + price.groups.index(group) if group in price.groups else None


def _refuse_unknown(prices: Sequence[PriceAt], raises: Sequence[Raise]) -> None:
    for each in raises:
        if not any(_closeness(price, each.group) is not None for price in prices):
            known = (*KINDS, *(name for price in prices for name in (*price.groups, price.entry, price.name)))
            words = nearest(each.group, [name for name in dict.fromkeys(known) if name])
            named = ", ".join(dict.fromkeys((*KINDS, *(g for price in prices for g in price.groups))))
            raise Refused(
                f"Nothing in the chart is called '{shortened(each.group)}'."
                f" {words.capitalize() + ' ' if words else ''}Groups here: {named}; or name a material, a"
                " kind of work or one price. Nothing was written."
            )
