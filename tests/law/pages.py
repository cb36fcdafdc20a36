"""The pages that ship, by state, and jobs laid in a state."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from scopegen.case import Case
from scopegen.law import Law, Rights, pages_for, read_laws, rights_of
from scopegen.library_folder import library_folder
from scopegen.price import Priced

LAWS, _ = read_laws(library_folder())
STATES: dict[str, Law] = {law.state: law for law in LAWS if law.state}


def sold(case: Case, state: str | None, price: str, **said: object) -> tuple[Rights, tuple[Law, ...]]:
    """The rights to cancel of a sale at this price in a state, and the pages that reach it. What else is said
    goes to the customer (`is_65_or_older`) or to the job."""
    assert case.priced is not None
    older = said.pop("is_65_or_older", None)
    customer = case.job.customer.model_copy(update={"state": state, "is_65_or_older": older})
    job = case.job.model_copy(update={"customer": customer, **said})
    priced: Priced = replace(case.priced, total=Decimal(price), add_ons=())
    return rights_of(LAWS, job, priced), pages_for(LAWS, job, priced)
