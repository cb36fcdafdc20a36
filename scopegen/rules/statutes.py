"""What the law of the property's state asks of the contract, the customer's age, and its open questions."""

from __future__ import annotations

import re
from collections.abc import Iterator

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.law import Law
from scopegen.load import Path_
from scopegen.rules.pieces import job_fault
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "payments and law"
# A state and a ZIP code, as an address ends: 'MD 21201'.
_IN_ADDRESS = re.compile(r"\b([A-Z]{2})\s+\d{5}(?:-\d{4})?\b")
_BOX = re.compile(r"^\W*(?:p\W*o\W*|post office )box\b", re.I)


def _state_place(case: Case, message: str, fix: str) -> Fault:
    return job_fault(case, message, fix, "customer", "state")


def _missing(case: Case, page: Law) -> Iterator[tuple[str, str]]:
    """What the contract must show on this page and the contractor did not say: what it is, and what to do."""
    company, asked = case.company, page.shows.asked if page.shows else ()
    state = page.state or ""
    if "license" in asked and company and not company.license and not _broken(case, "license", "licenses"):
        yield (
            "your license or registration number",
            f"add it in company.yaml: 'licenses: {{{state}: …}}', or 'license: …'",
        )
    if "email" in asked and company and not company.email and not _broken(case, "email"):
        yield "an e-mail address for canceling", "add it in company.yaml: 'email: …'"
    if "insurance" in asked and company and not company.insurance and not _broken(case, "insurance"):
        yield "your insurance", "add it in company.yaml: 'insurance: …'"
    if "street address" in asked and company and company.address and not _broken(case, "address"):
        if not any(_is_street(part) for line in company.address for part in line.split(",")):
            yield "your street address; a box is not enough", "add the street in company.yaml under 'address'"
    if "completion" in asked and case.job.done_by is None and ("done_by",) not in case.broken:
        yield (
            "when the work is to be done",
            "write 'done_by: 10 days after start' or a day",
        )


def _is_street(part: str) -> bool:
    """A house number and its street: no box, and more than a state with its ZIP code."""
    return bool(re.search(r"\d", part)) and not _BOX.match(part) and not _IN_ADDRESS.search(part)


def _broken(case: Case, *keys: str) -> bool:
    return any(path[:1] == (key,) for path in case.company_broken for key in keys)


def _particulars(case: Case, work: str) -> Iterator[Fault]:
    for page in case.pages:
        if page.shows is None or page.counts is None or page.counts.work != work:
            continue
        for what, fix in _missing(case, page):
            has = "has to show" if work == "yes" else "may have to show"
            message = f"a contract in {page.name} {has} {what} ({page.shows.citation})"
            yield _state_place(case, message, fix)


def _own_notices(case: Case) -> Iterator[Fault]:
    here = {term.clause for term in case.chosen.terms} if case.chosen else set()
    for page in case.pages:
        for notice in page.shows.notices if page.shows else ():
            if notice.clause not in here:
                folder, name = notice.clause.split(".", 1)
                what = f"{notice.what['en']} ({page.shows and page.shows.citation})"
                yield _state_place(
                    case,
                    f"a contract in {page.name} has to show {what}; no clause {notice.clause} says it",
                    f"get the wording there, and put it in your own clauses/{folder}/{name}.yaml",
                )


def _age_unsaid(case: Case) -> Iterator[Fault]:
    customer = case.job.customer
    if customer is None or customer.is_65_or_older is not None:
        return
    if case.broken & {("customer",), ("customer", "is_65_or_older")}:
        return
    for right in case.rights:
        cancel = right.law.cancel
        if cancel and cancel.last_day.from_65:
            days = cancel.last_day
            yield job_fault(
                case,
                f"in {right.law.name} a buyer of 65 or older has {days.from_65} business days to cancel and"
                f" any other {days.business_days}, and the job does not say which ({cancel.citation})",
                "ask, and write 'is_65_or_older: yes' or 'no' under 'customer'; 'yes' gives the longer time",
                "customer", "state",
            )  # fmt: skip


def _state_of_property(case: Case) -> Iterator[Fault]:
    customer = case.job.customer
    if customer is None or case.broken & {("customer",), ("customer", "state")}:
        return
    places: list[tuple[str | None, Path_]] = [(customer.property, ("customer", "property"))]
    places += [(site.property, ("sites", index, "property")) for index, site in enumerate(case.job.sites)]
    for address, path in places:
        found = _IN_ADDRESS.findall(address or "")
        if not found or found[-1] == customer.state:
            continue
        if customer.state is None and found[-1] in case.states:
            yield job_fault(
                case,
                f"by its address a property is in {found[-1]}, but the job does not say so, and the law there"
                " is not asked for",
                f"write 'state: {found[-1]}' under 'customer'",
                *path,
            )
        elif customer.state is not None:
            yield job_fault(
                case,
                f"by its address a property is in {found[-1]}, and by 'state' in {customer.state}",
                "write the state of the property; what lies in two states is two jobs",
                *path,
            )


def _ask_locally(case: Case) -> Iterator[Fault]:
    for page in case.pages:
        for question in page.not_known.get("en", ()):
            yield _state_place(
                case,
                f"not known for sure in {page.name}: {question}",
                "ask the state's office or a lawyer there before you sign",
            )


PARTICULARS = Rule(
    "contract-shows", FAMILY, Level.STOPS,
    "The contract shows what the law of the property's state asks for.",
    "Without a number, a day or an address that the law asks for, a contract may be void, and whoever sold"
    " it may be fined.",
    "{job: {customer: {state: CT}, done_by: 10 days after start}, company: {licenses: {CT: registration"
    " 00-7711}}}",
    "{job: {customer: {state: CT}}}",
    lambda case: _particulars(case, "yes"),
    "Maryland Business Regulation 8-501(c); Connecticut General Statutes 20-429(a); New York General Business"
    " Law 771(1); N.J.S.A. 56:8-151",
)  # fmt: skip
PARTICULARS_PERHAPS = Rule(
    "contract-may-show", FAMILY, Level.WARNS,
    "The contract shows what a law asks for that may reach the job.",
    "The law is known, and whether it reaches bed work is not. Showing what it asks for costs a line.",
    "{job: {customer: {state: ME}, done_by: 10 days after start}, chart: {job: {minimum: 4000.00}}}",
    "{job: {customer: {state: ME}}, chart: {job: {minimum: 4000.00}}}",
    lambda case: _particulars(case, "perhaps"),
    "73 P.S. 517.7; 10 M.R.S. 1487; Massachusetts General Laws chapter 142A, section 2(a); 815 ILCS 513/15",
)  # fmt: skip
OWN_NOTICES = Rule(
    "state-notice", FAMILY, Level.WARNS,
    "Wording that has to come from the state stands in a clause of one's own.",
    "Some notices are set by an office and change, or depend on who you are. They are not shipped. A clause"
    " of yours with 'when: {state: [...]}' prints them where they are due.",
    "job: {customer: {state: NJ}}",
    "{job: {customer: {state: CT}, done_by: 10 days after start}, company: {license: registration 00-7711}}",
    _own_notices,
    "Maryland Business Regulation 8-501(c)(1)(viii) and (ix); Connecticut General Statutes 20-429(a);"
    " New York General Business Law 771(1)(b)",
)  # fmt: skip
AGE_UNSAID = Rule(
    "age-unsaid", FAMILY, Level.STOPS,
    "Where an older buyer has longer to cancel, the job says whether the customer is 65 or older.",
    "A notice that names fewer days than the law gives is no notice. Where nothing is said, the longer time"
    " is reckoned with, but somebody has to ask.",
    "{job: {signed_at: remotely, customer: {state: CA, is_65_or_older: no}, payments: {rest: on completion}},"
    " company: {email: office@plumb.example}}",
    "{job: {signed_at: remotely, customer: {state: CA}, payments: {rest: on completion}}, company: {email:"
    " office@plumb.example}}",
    _age_unsaid,
    "Maryland Commercial Law 14-302.1; California AB 2471 of 2020",
)  # fmt: skip
STATE_OF_PROPERTY = Rule(
    "state-of-property", FAMILY, Level.WARNS,
    "The job names the state that its property's address names.",
    "The property decides which state's law reaches the sale. Without 'state' under 'customer' only the"
    " federal rule is asked for.",
    "job: {customer: {property: '1 Ruler Road, Sampleton, ST 00034'}}",
    "job: {customer: {property: '1 Ruler Road, Sampleton, MD 00034'}}",
    _state_of_property,
    TRADE,
)  # fmt: skip
ASK_LOCALLY = Rule(
    "ask-locally", FAMILY, Level.NOTES,
    "What the page of the property's state does not know for sure has been asked there.",
    "A page of the law here holds what was read in the law or on an official page. What was not is named,"
    " decides nothing, and is yours to ask.",
    "job: {purpose: business, customer: {state: NJ}}",
    "{job: {customer: {state: NJ}, done_by: 10 days after start}, company: {license: registration 00-7711,"
    " insurance: general liability}, chart: {job: {minimum: 600.00}}}",
    _ask_locally,
    "the pages of clause_library/law, each with its citations",
)  # fmt: skip

RULES = (
    PARTICULARS, PARTICULARS_PERHAPS, OWN_NOTICES, AGE_UNSAID, STATE_OF_PROPERTY,
    ASK_LOCALLY,
)  # fmt: skip
