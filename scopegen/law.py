"""Which legal rules reach a job, and their last day in business days. The rules themselves are data.

No legal advice: the paper and the commands say so, and that local law decides.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Literal

from scopegen.findings import Finding
from scopegen.job import Job
from scopegen.load import Unreadable, load
from scopegen.price import Priced
from scopegen.quantities.fields import Day, Entry, Money, Whole, Words, YesNo
from scopegen.understand import understand_whole

SUNDAY = 6


class Reaches(Entry):
    """Whom a rule reaches: the customer's purpose, and by the place of signing the least price."""

    purpose: tuple[Literal["household", "business"], ...]
    signed_at: dict[str, Money]


class LastDay(Entry):
    """How the last day is counted."""

    business_days: Whole
    not_counted: tuple[Literal["sunday", "saturday", "holiday"], ...]
    holidays: Literal["US"]
    holidays_on: tuple[Literal["day itself", "day observed"], ...]


class Form(Entry):
    """The prescribed form in one language."""

    date_of_transaction: Words
    paragraphs: tuple[Words, ...]
    declaration: Words
    date: Words
    signature: Words


class Law(Entry):
    """One legal rule with its prescribed wording, its citation, and the day it was last looked at."""

    law: Words
    jurisdiction: Words
    title: dict[str, Words]
    citation: Words
    address: Words
    looked_at: Day
    reaches: Reaches
    last_day: LastDay
    refund_within: Words
    least_type: Words
    bold: YesNo
    copies: Whole
    statement: dict[str, Words]
    form: dict[str, Form]
    also: dict[str, tuple[Words, ...]] = {}

    def reaches_job(self, job: Job, priced: Priced) -> bool:
        """Whether it reaches this sale: what the customer can come to owe, all add-ons counted, is at
        least the least price for the place of signing."""
        least = self.reaches.signed_at.get(job.signed_at or "")
        owed = priced.total + sum((offer.price for offer in priced.add_ons), Decimal(0))
        return job.purpose in self.reaches.purpose and least is not None and owed >= least

    def last_day_for(self, signed: date) -> date:
        """The last day to cancel what was signed on a day; counting starts on the day after."""
        day, left = signed, self.last_day.business_days
        while left:
            day += timedelta(days=1)
            left -= self._counts(day)
        return day

    def _counts(self, day: date) -> bool:
        not_counted = self.last_day.not_counted
        if (
            day.weekday() == SUNDAY
            and "sunday" in not_counted
            or day.weekday() == SUNDAY - 1
            and "saturday" in not_counted
        ):
            return False
        return "holiday" not in not_counted or day not in _holidays(day.year, self.last_day.holidays_on)


@cache
def _holidays(year: int, on: tuple[str, ...]) -> frozenset[date]:
    """Federal holidays (5 USC 6103) that touch a year. The neighbouring years are needed too: the
    holiday of 1 January may be observed on 31 December."""
    import holidays

    years = (year - 1, year, year + 1)
    statutory = set(holidays.country_holidays("US", years=years, observed=False))
    both = set(holidays.country_holidays("US", years=years, observed=True))
    days = set[date]()
    if "day itself" in on:
        days |= statutory
    if "day observed" in on:
        days |= both - statutory
    return frozenset(days)


@dataclass(frozen=True, slots=True)
class Right:
    """A right of the customer that a rule gives in this sale, in the paper's language."""

    law: Law
    title: str
    statement: str
    form: Form
    also: tuple[str, ...]

    def last_day(self, signed: date) -> date:
        """The last day to use it, for a paper signed on a day."""
        return self.law.last_day_for(signed)


def rights_of(laws: tuple[Law, ...], job: Job, priced: Priced) -> tuple[Right, ...]:
    """The rights that reach this job, in the job's language; a law without that language is left out
    and found by a rule."""
    language = job.language
    return tuple(
        Right(
            law, law.title[language], law.statement[language], law.form[language], law.also.get(language, ())
        )
        for law in laws
        if language in law.statement and language in law.form and law.reaches_job(job, priced)
    )


def read_laws(folder: Path) -> tuple[tuple[Law, ...], tuple[Finding, ...]]:
    """Every rule in the library's law folder, and what is wrong with those that are not sound."""
    laws: list[Law] = []
    findings: list[Finding] = []
    for path in sorted((folder / "law").glob("*.yaml")):
        try:
            source = load(path, f"clause_library/law/{path.name}")
        except Unreadable as error:
            findings.append(error.finding)
            continue
        law, wrong = understand_whole(Law, source)
        findings += wrong
        laws += [law] if law else []
    return tuple(laws), tuple(findings)


__all__ = ["Form", "Law", "Right", "read_laws", "rights_of"]
