"""A page of the law: what one jurisdiction asks of a sale, as data with its citations.

No legal advice: the paper and the commands say so, and that local law decides. What a page is not sure of
is never decided by it, only asked.
"""

from __future__ import annotations

from decimal import ROUND_DOWN, Decimal, localcontext
from fractions import Fraction
from typing import Literal

from scopegen.job import Job
from scopegen.law.days import LastDay
from scopegen.price import Priced
from scopegen.quantities.fields import AboveZero, Day, Entry, Money, State, Whole, Words, YesNo

CENT = Decimal("0.01")
# What a contract may have to show. The first are on every paper; the others come from the contractor.
Printed = Literal[
    "contractor's name", "contractor's address", "contractor's phone", "customer's name", "property",
    "date", "description", "materials", "price", "payments", "start", "change orders", "whole agreement",
    "signatures",
]  # fmt: skip
Asked = Literal["license", "completion", "street address", "insurance", "email"]


def owed(priced: Priced) -> Decimal:
    """What the customer can come to owe: the total and every add-on."""
    return priced.total + sum((offer.price for offer in priced.add_ons), Decimal(0))


class Counts(Entry):
    """Whether bed work counts as what the law is about, for whom, and above which price. Where the law's own
    words leave it open, `work` is 'perhaps' and nothing here decides."""

    citation: Words
    work: Literal["yes", "perhaps"]
    because: dict[str, Words]
    purpose: tuple[Literal["household", "business"], ...] = ("household",)
    price_over: Money | None = None

    def reaches(self, job: Job, priced: Priced) -> bool:
        """Whether it reaches this sale, by its purpose and by what the customer can come to owe."""
        return job.purpose in self.purpose and (self.price_over is None or owed(priced) > self.price_over)


class Deposit(Entry):
    """The most that may be paid before the work starts: a share of the price, and no more than an amount
    where there is one. `special_order`: what special-order material costs may be due instead, where that is
    more, or besides."""

    citation: Words
    sure: YesNo
    share: AboveZero
    amount: Money | None = None
    price_over: Money | None = None
    special_order: Literal["instead", "besides"] | None = None

    def most(self, price: Decimal) -> Decimal | None:
        """The ceiling for a price, rounded down to the cent; None where the price is not above the one from
        which on there is a ceiling."""
        if self.price_over is not None and price <= self.price_over:
            return None
        exact = Fraction(price) * self.share
        with localcontext() as context:
            context.prec = 60  # more digits than any price has: the quotient is cut once, at the cent
            most = (Decimal(exact.numerator) / exact.denominator).quantize(CENT, ROUND_DOWN)
        return most if self.amount is None else min(most, self.amount)


class OwnNotice(Entry):
    """Wording that the contractor gets from the state: the clause of their own that holds it, and what it
    says."""

    clause: Words
    what: dict[str, Words]


class Said(Entry):
    """Wording that a statute prescribes, printed as it stands."""

    citation: Words
    title: dict[str, Words]
    text: dict[str, Words]


class Shows(Entry):
    """What the contract must show."""

    citation: Words
    printed: tuple[Printed, ...]
    asked: tuple[Asked, ...] = ()
    notices: tuple[OwnNotice, ...] = ()


class Reaches(Entry):
    """Whom a right to cancel reaches: the customer's purpose, and by the place of signing the least price."""

    purpose: tuple[Literal["household", "business"], ...]
    signed_at: dict[str, Money]


class Form(Entry):
    """The prescribed form in one language."""

    date_of_transaction: Words
    paragraphs: tuple[Words, ...]
    declaration: Words
    date: Words
    signature: Words


class DayWords(Entry):
    """How the statement and the form call a number of business days."""

    ordinal: Words
    count: Words


class Notice(Entry):
    """The notice that a right to cancel asks for. `days_in_words` are the words for the days of the form and
    for those of a longer right that is given on it."""

    title: dict[str, Words]
    refund_within: Words
    least_type: Words
    bold: YesNo
    copies: Whole
    form: dict[str, Form]
    days_in_words: dict[str, dict[str, DayWords]]


class Acknowledged(Entry):
    """What the customer signs besides: that they were told aloud."""

    text: Words
    older: Words
    date: Words
    signature: Words


class Cancel(Entry):
    """A right to cancel. `statement` is the wording beside the signature, where the law has its own;
    `notice` its form, or `notice_of` the page whose form is used."""

    citation: Words
    reaches: Reaches
    last_day: LastDay
    statement: dict[str, Words] = {}
    notice: Notice | None = None
    notice_of: Words | None = None
    acknowledged: dict[str, Acknowledged] = {}

    def reaches_job(self, job: Job, priced: Priced) -> bool:
        """Whether it reaches this sale: what the customer can come to owe, all add-ons counted, is at
        least the least price for the place of signing."""
        least = self.reaches.signed_at.get(job.signed_at or "")
        return job.purpose in self.reaches.purpose and least is not None and owed(priced) >= least


class Law(Entry):
    """One page: a jurisdiction's rules, where they stand, and the day on which they were last looked at.
    `state` is what a job's customer names; a page without it holds everywhere. `translated` are the languages
    whose prescribed wording is this project's own translation."""

    law: Words
    jurisdiction: dict[str, Words]
    state: State | None = None
    addresses: tuple[Words, ...]
    looked_at: Day
    translated: tuple[Words, ...] = ()
    counts: Counts | None = None
    deposit: Deposit | None = None
    shows: Shows | None = None
    says: dict[str, Said] = {}
    cancel: Cancel | None = None
    also: dict[str, tuple[Words, ...]] = {}
    not_known: dict[str, tuple[Words, ...]] = {}

    @property
    def name(self) -> str:
        """The jurisdiction as a finding calls it."""
        return self.jurisdiction.get("en", self.law)

    @property
    def looks_to(self) -> str:
        """Where what it asks stands, each place once."""
        parts = (self.counts, self.deposit, self.shows, self.cancel)
        return "; ".join(dict.fromkeys(part.citation for part in parts if part))

    def holds_for(self, job: Job) -> bool:
        """Whether the page is one for the place of this job."""
        return self.state is None or bool(job.customer) and job.customer.state == self.state
