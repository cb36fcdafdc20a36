"""Every price of a chart by a name: where it stands, and what it is a price of.

A name is the way to the price in the chart: `worker_hour`, `job.minimum`, `materials.pine-bark.price`,
`materials.pine-bark.volume_price.over-15-yd3`, `work.haul-away.dump.sod`. It is read from the file's own
data, so that a price is known by its name where another part of the chart is not sound. What things cost the
contractor (`cost`, `wage`, `overhead`) is no price.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from scopegen.load import Data, Path_
from scopegen.quantities.texts import money

KINDS = ("hours", "materials", "work", "hauling", "job")  # of entries that have prices


@dataclass(frozen=True, slots=True)
class PriceAt:
    """One price: its name, the path of its value in the file, and the value as it is written there. `kind`
    is one of KINDS; `entry` the material or kind of work that it belongs to; `groups` the price group of a
    material and what kind of material it is."""

    name: str
    path: Path_
    said: str
    kind: str
    entry: str = ""
    groups: tuple[str, ...] = ()

    @property
    def amount(self) -> Decimal:
        """The amount, without the unit of a dump fee. Raises NotAQuantity."""
        return money(self.said.partition("/")[0].strip())

    def written(self, amount: Decimal) -> str:
        """Another amount as the file has this one: with its sign of money, and the unit of a dump fee."""
        before, slash, unit = self.said.partition("/")
        sign = "$" if before.lstrip().startswith("$") else ""
        return f"{sign}{amount:.2f}{slash}{unit}"


def prices_in(data: Data) -> tuple[PriceAt, ...]:
    """Every price of a chart, in the order of the file."""
    return tuple(_prices(data)) if isinstance(data, dict) else ()


def _prices(chart: dict[str, Any]) -> Iterator[PriceAt]:
    for key, value in chart.items():
        if key == "worker_hour":
            yield from _one(value, (key,), "hours")
        elif key == "job":
            yield from _some(value, (key,), ("minimum", "come_back"), "job")
        elif key == "delivery":
            yield from _some(value, (key,), ("fee",), "hauling")
        elif key in ("materials", "work") and isinstance(value, dict):
            of = _of_material if key == "materials" else _of_work
            for name, entry in value.items():
                if isinstance(entry, dict):
                    yield from of(entry, (key, name))


def _of_material(entry: dict[str, Any], path: Path_) -> Iterator[PriceAt]:
    groups = tuple(str(entry[key]) for key in ("price_group", "kind") if isinstance(entry.get(key), str))
    more = (str(path[-1]), groups)
    for key, value in entry.items():
        if key == "price":
            yield from _one(value, (*path, key), "materials", *more)
        elif key == "volume_price":
            for step, at in _listed(value, (*path, key)):
                if isinstance(step.get("over"), str):
                    name = f"{'.'.join(map(str, path))}.{key}.over-{'-'.join(step['over'].split())}"
                    yield from _one(step.get("price"), (*at, "price"), "materials", *more, name=name)
        elif key == "spread_only":
            if isinstance(value, dict):
                name = ".".join(map(str, (*path, key)))
                yield from _one(value.get("price"), (*path, key, "price"), "materials", *more, name=name)
            else:
                yield from _one(value, (*path, key), "materials", *more)


def _of_work(entry: dict[str, Any], path: Path_) -> Iterator[PriceAt]:
    price, name = entry.get("price"), str(path[-1])
    price = price if isinstance(price, dict) else {}
    kind = "hauling" if "trip" in price else "hours" if price.get("per") == "worker-hour" else "work"
    for key, value in entry.items():
        if key == "price":
            yield from _some(value, (*path, key), ("trip", "amount", "minimum"), kind, name)
        elif key == "dump" and isinstance(value, dict):
            for stream, fee in value.items():
                at = (*path, key, stream)
                where = (*at, "fee") if isinstance(fee, dict) else at
                said = fee.get("fee") if isinstance(fee, dict) else fee
                yield from _one(said, where, "hauling", name, name=".".join(map(str, at)))


def _some(group: Data, path: Path_, keys: tuple[str, ...], kind: str, entry: str = "") -> Iterator[PriceAt]:
    for key, value in group.items() if isinstance(group, dict) else ():
        if key in keys:
            yield from _one(value, (*path, key), kind, entry)


def _one(
    said: Data, path: Path_, kind: str, entry: str = "", groups: tuple[str, ...] = (), name: str = ""
) -> Iterator[PriceAt]:
    if isinstance(said, str):
        yield PriceAt(name or ".".join(map(str, path)), path, said, kind, entry, groups)


def _listed(value: Data, path: Path_) -> Iterator[tuple[dict[str, Any], Path_]]:
    """The groups of a list, or the one that stands in its place, each with its path."""
    if isinstance(value, dict):
        yield value, path
    for index, each in enumerate(value if isinstance(value, list) else ()):
        if isinstance(each, dict):
            yield each, (*path, index)
