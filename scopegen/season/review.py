"""The prices of a season that are still to be looked at: listed, confirmed, changed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from scopegen.amend import Edit, Put, Remove, amended
from scopegen.chart.prices import PriceAt, prices_in
from scopegen.load import Data, Source
from scopegen.quantities.texts import money
from scopegen.quantities.units import NotAQuantity, shortened
from scopegen.season.refused import Refused
from scopegen.understand import nearest


@dataclass(frozen=True, slots=True)
class ToLookAt:
    """One name of the list and its line; the price now and in the season before, as they are written
    there; None where that chart has no such price."""

    name: str
    line: int
    now: str | None
    before: str | None


def to_look_at(source: Source, earlier: Data = None) -> tuple[ToLookAt, ...]:
    """Every name of the chart's list, in its order."""
    now, before = _by_name(source.data), _by_name(earlier)

    def said(prices: Mapping[str, PriceAt], name: str) -> str | None:
        return prices[name].said if name in prices else None

    return tuple(
        ToLookAt(name, source.place(("to_review", index)).line, said(now, name), said(before, name))
        for index, name in enumerate(_listed(source.data))
    )


def names_meant(source: Source, words: Iterable[str]) -> tuple[str, ...]:
    """The names of the list that are meant: a name, or all below a part of one, such as
    `materials.pine-bark`. Raises Refused for what is not on the list."""
    listed, meant = _listed(source.data), []
    for word in words:
        found = [name for name in listed if name == word or name.startswith(f"{word}.")]
        if not found:
            why = "is confirmed already" if word in _by_name(source.data) else "is not on the list"
            near = nearest(word, listed)
            raise Refused(
                f"'{shortened(word, 80)}' {why}{f'; {near}' if near and 'not' in why else '.'}"
                " Nothing was written."
            )
        meant += found
    return tuple(dict.fromkeys(meant))


def confirmed(
    source: Source, text: str, names: Sequence[str], amounts: Mapping[str, str] | None = None
) -> str:
    """The chart `text`, which `source` has read, with these names taken off the list; with `amounts`
    those prices changed first, and taken off too.

    Raises Refused for an amount that is none, or for a price that the chart has not.
    """
    prices, amounts = _by_name(source.data), amounts or {}
    edits: list[Edit] = []
    for name, said in amounts.items():
        price = prices.get(name)
        if price is None:
            near = nearest(name, prices)
            raise Refused(
                f"The chart has no price called '{shortened(name, 80)}'{f'; {near}' if near else '.'}"
                " Nothing was written."
            )
        edits.append(Put(price.path, price.written(_amount(price, said))))
    edits += _taken_off(source.data, {*names, *amounts})
    return amended(text, edits, source.name) if edits else text


def _taken_off(data: Data, gone: set[str]) -> Iterable[Edit]:
    listed = _listed(data)
    if listed and gone.issuperset(listed):
        return [Remove(("to_review",))]
    return [Remove(("to_review", index)) for index, name in enumerate(listed) if name in gone]


def _amount(price: PriceAt, said: str) -> Decimal:
    """An amount that is typed; a dump fee may say its unit, if it is the one that it has."""
    amount, slash, unit = said.partition("/")
    if slash and unit.strip() != price.said.partition("/")[2].strip():
        raise Refused(
            f"{price.name} is {price.said}, and '{shortened(said)}' has another unit; change the unit in the"
            " chart itself. Nothing was written."
        )
    try:
        return money(amount.strip())
    except NotAQuantity as error:
        raise Refused(f"{price.name}: {error}; {error.fix}. Nothing was written.") from None


def _by_name(data: Data) -> dict[str, PriceAt]:
    return {price.name: price for price in prices_in(data)}


def _listed(data: Data) -> list[str]:
    listed = data.get("to_review") if isinstance(data, dict) else None
    return [str(name) for name in listed] if isinstance(listed, list) else []
