"""A kind of work in the price chart: where a price, a labor rate, spoil, a clause and cautions meet."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Annotated, Any, Literal, Self, get_args

from pydantic import BeforeValidator, Discriminator, Tag, WithJsonSchema, model_validator

from scopegen.quantities import written
from scopegen.quantities.fields import (
    AboveZero,
    Entry,
    Hours,
    Length,
    Money,
    OneOrMany,
    Percent,
    Volume,
    VolumePerHour,
    Weight,
    Words,
    YesNo,
    complaint,
)  # fmt: skip
from scopegen.quantities.in_languages import Text
from scopegen.quantities.units import AREA, LENGTH, TIME, VOLUME, NotAQuantity, number, plain, shortened

DECIDES = ("bed_prep", "edging", "debris", "substrate", "extra")
PER = ("ft", "ft2", "yd3", "ton", "m", "m2", "m3", "t", "worker-hour", "job")
BY_VOLUME_OR_WEIGHT = ("yd3", "ton", "m3", "t")


class UnitPrice(Entry):
    """So much for one unit; at least the minimum over the whole job."""

    per: Literal["ft", "ft2", "yd3", "ton", "m", "m2", "m3", "t", "worker-hour", "job"]
    amount: Money
    minimum: Money = Decimal("0.00")


class HaulPrice(Entry):
    """What taking things away costs: each trip, the drive there and back, loading, at least the minimum.

    `drive` is there and back; `riders` ride along; `loading` is yd3 an hour by one worker.
    """

    trip: Money
    drive: Hours
    riders: AboveZero
    loading: VolumePerHour
    minimum: Money = Decimal("0.00")


class DumpFee(Entry):
    """What a dump takes for one unit of loose volume or of weight, and which dump it is: the only one where
    it has no name."""

    fee: Money
    per: Literal["yd3", "ton", "m3", "t"]
    where: Text | None = None


_FEE = written.text(
    rf"\$?\s*{written.NUMERAL}\s*/\s*{written.one_of(get_args(DumpFee.model_fields['per'].annotation))}",
    "so much for a unit: 24.00/yd3",
    "24.00/yd3",
    "45.00/ton",
)


class DumpFeeAt(Entry):
    """A dump fee with the name of its dump."""

    fee: Annotated[str, WithJsonSchema(_FEE)]
    where: Text | None = None


def _dump_fee(value: Any) -> Any:
    if isinstance(value, DumpFee):
        return value
    where = {}
    if isinstance(value, dict):
        if not value.keys() <= {"fee", "where"} or "fee" not in value:
            return value
        where = {"where": value["where"]} if "where" in value else {}
        value = value["fee"]
    text = plain(value) if isinstance(value, str) else ""
    fee, slash, unit = text.partition("/")
    unit = unit.strip()
    if not slash or unit not in BY_VOLUME_OR_WEIGHT:
        raise complaint(
            f"'{shortened(str(value))}' is not a dump fee", "write it like 24.00/yd3 or 45.00/ton"
        )
    return {"fee": fee.strip(), "per": unit, **where}


class Truck(Entry):
    """How much goes into the truck, loose, and how much weight."""

    volume: Volume
    payload: Weight


class Strip(Entry):
    """A strip of turf taken off along an edge."""

    width: Length
    depth: Length


Found = Literal["found"]


def _spoil_depth(value: Any) -> Any:
    return None if value == "found" else value


class Spoil(Entry):
    """What a kind of work takes out of the ground, by its cross-section or its depth, in the ground.

    Along an edge: depth × width × ½ for a wedge, × 1 for a box, plus the strip. On an area: its depth,
    or `depth: found`, the depth that the walk found there (None here).
    """

    depth: Annotated[Length | None, BeforeValidator(_spoil_depth, json_schema_input_type=Length | Found)]
    width: Length | None = None
    profile: Literal["wedge", "box"] | None = None
    plus_strip: Strip | None = None
    stream: Words


PROFILE_SHARE = {"wedge": Fraction(1, 2), "box": Fraction(1)}
_RATE_UNITS = {"ft": LENGTH, "ft2": AREA, "yd3": VOLUME}


_RATE = written.text(
    rf"{written.NUMERAL}\s+{written.one_of([*LENGTH, *AREA, *VOLUME])}\s*/\s*{written.one_of(TIME)}",
    "how much one worker does in an hour: 90 ft/h or 300 ft2/h",
    "90 ft/h",
    "300 ft2/h",
)


def _does(value: Any) -> Any:
    """A labor rate as (amount an hour, unit): `90 ft/h`, `300 ft2/h`, `1.2 yd3/h`."""
    if isinstance(value, tuple):
        return value
    if not isinstance(value, str):
        raise complaint("this is not a rate of work", "write it like 90 ft/h or 300 ft2/h")
    upper, slash, lower = plain(value).rpartition("/")
    words = upper.split(maxsplit=1)
    for base, units in _RATE_UNITS.items():
        if slash and lower.strip() in TIME and len(words) == 2 and words[1] in units:
            try:
                amount = number(words[0]) * units[words[1]] / TIME[lower.strip()]
            except NotAQuantity as error:
                raise complaint(str(error), error.fix) from None
            if amount > 0:
                return (amount, base)
    raise complaint(f"'{shortened(value)}' is not a rate of work", "write it like 90 ft/h or 300 ft2/h")


# The tags are words with a space, which no YAML path has: places are found past them.
Price = Annotated[
    Annotated[UnitPrice, Tag("unit price")] | Annotated[HaulPrice, Tag("haul price")],
    Discriminator(
        lambda value: (
            "haul price"
            if isinstance(value, HaulPrice) or isinstance(value, dict) and "trip" in value
            else "unit price"
        )
    ),
]


class Work(Entry):
    """One kind of work. `does` is (amount, unit) an hour by one worker; `takes` the streams of spoil that
    debris work takes; `clears` says that nothing lies on the ground afterwards; `not_over` how far work by
    the hour may pass its estimate."""

    decides: Literal["bed_prep", "edging", "debris", "substrate", "extra"]
    name: Text
    price: Price
    does: Annotated[
        tuple[Fraction, Literal["ft", "ft2", "yd3"]] | None,
        BeforeValidator(_does, json_schema_input_type=written.as_written(_RATE)),
    ] = None
    billed_in: AboveZero | None = None
    spoil: Spoil | None = None
    takes: tuple[Words, ...] | None = None
    clears: YesNo = False
    suits: dict[str, tuple[Words, ...]] = {}
    dump: dict[
        str,
        Annotated[
            DumpFee,
            BeforeValidator(_dump_fee, json_schema_input_type=written.as_written(_FEE) | DumpFeeAt),
        ],
    ] = {}
    truck: Truck | None = None
    licensed: YesNo = False
    tax: Annotated[tuple[Words, ...], OneOrMany] = ()
    clause: Words
    cautions: tuple[Words, ...] = ()
    not_over: Percent | None = None

    @property
    def hauls(self) -> bool:
        """It drives things away, priced by trips."""
        return isinstance(self.price, HaulPrice)

    @model_validator(mode="after")
    def _fits(self) -> Self:
        if self.hauls and (self.truck is None or not self.dump):
            raise complaint(
                f"'{self.name}' is priced by trips, but names no truck or no dump fees",
                "add truck: {volume: …, payload: …} and dump: {stream: fee}",
            )
        if self.hauls != (self.decides == "debris" and self.hauls):
            raise complaint(
                f"'{self.name}' is priced by trips, but decides {self.decides}",
                "price it by a unit, or let it decide debris",
            )
        if not self.hauls and (self.truck or self.dump):
            raise complaint(
                f"'{self.name}' has a truck or dump fees, but no price by trips",
                "write its price as {trip: …, drive: …, riders: …, loading: …}",
            )
        if self.spoil and self.spoil.profile and self.spoil.width is None:
            raise complaint(f"the spoil of '{self.name}' has a profile but no width", "add its width")
        return self
