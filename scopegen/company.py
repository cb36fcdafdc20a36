"""The contractor's own particulars, as they stand on every paper."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from scopegen.quantities.fields import Days, Entry, OneOrMany, Percent, State, Words
from scopegen.quantities.in_languages import Name, Text


class LatePayment(Entry):
    """When a payment is late, and what that costs a month."""

    after: Days
    charge: Percent | None = None


class Terms(Entry):
    """What the terms of the agreement fill in."""

    late_payment: LatePayment
    stands_for: Days
    tell_within: Days
    start_notice: Days


class Company(Entry):
    """Who sells: the name on the paper, where and how to reach them, licenses, insurance, terms; and the
    house's language, of every text that does not say its own."""

    language: Words = "en"
    name: Name
    address: Annotated[tuple[Name, ...], OneOrMany, Field(min_length=1)]
    phone: Words
    email: Words | None = None
    license: Text | None = None
    licenses: dict[State, Text] = {}
    applicator_license: Name | None = None
    insurance: Text | None = None
    signs: Name
    terms: Terms

    def working_in(self, state: str | None) -> Company:
        """The same company with the license that it has for a state, where it has one for it."""
        own = (self.licenses or {}).get(state or "")
        return self.model_copy(update={"license": own}) if own else self
