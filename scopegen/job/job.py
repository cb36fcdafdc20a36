"""A job description: who, where, when, the beds, the site, what is paid."""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, ConfigDict, Field

from scopegen.job.bed import Bed, EveryBed
from scopegen.job.decisions import Part, Rest, Site
from scopegen.job.done import DoneBy
from scopegen.quantities import written
from scopegen.quantities.fields import (
    Day,
    Days,
    Entry,
    Few,
    Money,
    OneOrMany,
    Percent,
    Share,
    SoldAmount,
    State,
    Whole,
    Words,
    YesNo,
    complaint,
)
from scopegen.quantities.units import DAYS, number, plain, shortened

SIGNED_AT = ("customer's home", "our office", "remotely", "a fair")


class TaxExempt(Entry):
    """A customer that pays no tax, or not these kinds of it (keys of the chart's `taxes`)."""

    certificate: Words
    kinds: tuple[Words, ...] = ()


class Customer(Entry):
    """Who buys, and where the work is."""

    name: Words
    property: Words
    bill_to: Annotated[tuple[Words, ...], OneOrMany] = ()
    phone: Words | None = None
    email: Words | None = None
    signs_as: Literal["owner", "tenant", "manager", "association"] = "owner"
    po_number: Words | None = None
    tax_exempt: TaxExempt | None = None
    state: State | None = None
    is_65_or_older: YesNo | None = None


class Within(Entry):
    """A span counted from the signing."""

    count: int
    unit: Literal["day", "week"]

    @property
    def days(self) -> int:
        """The span in days."""
        return self.count * (7 if self.unit == "week" else 1)


def _within(value: Any) -> Any:
    if not isinstance(value, str):
        raise complaint(
            "this does not say when the work starts", "write it like 'within: 3 weeks of signing'"
        )
    words = plain(value).lower().removesuffix("of signing").split()
    if len(words) == 2 and words[1] in DAYS and re.fullmatch(r"[1-9][0-9]{0,2}", words[0]):
        return {"count": int(number(words[0])), "unit": words[1].rstrip("s")}
    raise complaint(
        f"'{shortened(value)}' does not say when the work starts",
        "write it like 'within: 3 weeks of signing'",
    )


_WITHIN = written.as_written(
    written.text(
        rf"[1-9][0-9]{{0,2}}\s+{written.one_of(DAYS)}(?:\s+[oO][fF]\s+{written.any_case('signing')})?",
        "a span counted from the signing: 3 weeks of signing",
        "3 weeks of signing",
    )
)


class Start(Entry):
    """When the work starts: within a span of the signing, or from a day to a day."""

    model_config = ConfigDict(
        json_schema_extra={
            "oneOf": [{"required": ["within"]}, {"required": ["from", "to"]}],
            "maxProperties": 2,
        }
    )

    within: Annotated[Within, BeforeValidator(_within, json_schema_input_type=_WITHIN)] | None = None
    from_: Day | None = Field(default=None, alias="from")
    to: Day | None = None


def _start(value: Any) -> Any:
    if isinstance(value, dict) and value.keys() <= {"within", "from", "to"}:
        if value.keys() == {"within"} or value.keys() == {"from", "to"}:
            return value
    elif isinstance(value, dict):
        return value
    raise complaint(
        "the start is a span or two days",
        "write {within: 3 weeks of signing} or {from: 2027-04-12, to: 2027-04-23}",
    )


def _rest(value: Any) -> Any:
    return None if isinstance(value, str) and value.strip() == "rest" else value


class Payment(Entry):
    """One payment: when it is due (`AT_SIGNING` and `ON_COMPLETION` are known), and how much: a percentage,
    an amount, or the rest (None)."""

    when: Words
    amount: Annotated[Share | None, BeforeValidator(_rest, json_schema_input_type=Share | Rest)]
    visit: Words | None = None


class DepositAndRest(Entry):
    """A deposit at the signing, and when the rest is due."""

    deposit: Share | None = None
    rest: Words


# known wherever they stand; on paper in the paper's own words
AT_SIGNING, ON_COMPLETION = "when you sign", "on completion"


def _payments(value: Any) -> Any:
    if isinstance(value, dict) and value.keys() <= {"deposit", "rest"} and "rest" in value:
        first = [{"when": AT_SIGNING, "amount": value["deposit"]}] if "deposit" in value else []
        return [*first, {"when": value["rest"], "amount": "rest"}]
    if isinstance(value, list) and value:
        return value
    raise complaint(
        "this does not say how the job is paid",
        "write {deposit: 25 %, rest: on completion}, or a list of {when: …, amount: …} "
        "that ends with 'amount: rest'",
    )


class Discount(Entry):
    """What comes off the price of the included work, and why."""

    amount: Share
    because: Words


class IfFound(Entry):
    """Work for what is not to be seen on a walk, with the most that is done without asking."""

    what: Words
    work: Words
    not_over: Money | None = None
    call_first: YesNo = False


class Extra(Part):
    """Work that belongs to no bed."""

    work: Words


class Visit(Entry):
    """One of several visits: its name, and when it starts."""

    name: Words
    start: Annotated[Start, BeforeValidator(_start)]


class Billed(Entry):
    """One of several properties that one job serves: its beds, who pays for them, and its share of the
    hauling."""

    name: Words
    property: Words
    bill_to: Words
    beds: Annotated[tuple[Words, ...], OneOrMany]
    hauling: Percent


class OnHand(Entry):
    """Material that lies on the property and is the customer's already: it is spread first."""

    use: Words
    amount: SoldAmount
    spot: Words


class Job(Entry):
    """One job. What it must say is asked by the rules; here only the shape of what it says."""

    job: Words
    season: Whole
    language: Words = "en"
    units: Literal["us", "metric"] = "us"
    paper: Literal["letter", "A4"] = "letter"
    purpose: Literal["household", "business"] = "household"
    customer: Customer
    walked: Day
    dated: Day
    signed_at: Literal["customer's home", "our office", "remotely", "a fair"]
    offer_stands: Days
    start: Annotated[Start, BeforeValidator(_start)]
    done_by: DoneBy | None = None
    price_basis: Literal["fixed", "by measure"] = "fixed"
    tolerance: Percent | None = None
    payments: Annotated[
        tuple[Payment, ...],
        BeforeValidator(_payments, json_schema_input_type=DepositAndRest | tuple[Payment, ...]),
    ]
    discount: Discount | None = None
    every_bed: EveryBed = EveryBed()
    beds: tuple[Bed, ...]
    site: Site = Site()
    if_found: Annotated[tuple[IfFound, ...], Few] = ()
    extras: Annotated[tuple[Extra, ...], Few] = ()
    visits: Annotated[tuple[Visit, ...], Few] = ()
    sites: Annotated[tuple[Billed, ...], Few] = ()
    on_hand: Annotated[tuple[OnHand, ...], OneOrMany, Few] = ()
