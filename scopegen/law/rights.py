"""The rights to cancel that a sale has, and the one notice that gives them all: the latest day, the most
days, and no fewer in any word."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from scopegen.job import Job
from scopegen.law.page import Acknowledged, Form, Law, Notice
from scopegen.price import Priced


@dataclass(frozen=True, slots=True)
class Right:
    """A right of the customer that a page gives in this sale: its business days for this buyer, and what it
    asks of the contractor at the signing, in the paper's language."""

    law: Law
    citation: str
    days: int
    also: tuple[str, ...]

    def last_day(self, signed: date) -> date:
        """The last day to use it, for a paper signed on a day."""
        assert self.law.cancel is not None
        return self.law.cancel.last_day.last(signed, self.days)


@dataclass(frozen=True, slots=True)
class Given:
    """The notice that a paper gives: statement and form in its language, in the days of the longest right."""

    law: str  # whose form it is
    title: str
    statement: str
    form: Form
    copies: int
    acknowledged: Acknowledged | None
    is_translated: bool


@dataclass(frozen=True, slots=True)
class Rights:
    """All rights to cancel of a sale with the notice for them. Where a language lacks wording there is
    neither, and `unworded` cites whose it lacks."""

    rights: tuple[Right, ...] = ()
    given: Given | None = None
    unworded: tuple[str, ...] = ()


def rights_of(laws: tuple[Law, ...], job: Job, priced: Priced) -> Rights:
    """The rights that reach this job."""
    older = job.customer.is_65_or_older if job.customer else None
    rights = tuple(
        Right(law, law.cancel.citation, law.cancel.last_day.days(older), law.also.get(job.language, ()))
        for law in laws
        if law.cancel and law.holds_for(job) and law.cancel.reaches_job(job, priced)
    )
    if not rights:
        return Rights()
    given = _given(laws, rights, job.language)
    if given is None:
        return Rights(unworded=tuple(right.citation for right in rights))
    return Rights(rights, given)


def pages_for(laws: tuple[Law, ...], job: Job, priced: Priced) -> tuple[Law, ...]:
    """The pages of the property's own state whose law reaches this sale."""
    return tuple(
        law
        for law in laws
        if law.state and law.counts and law.holds_for(job) and law.counts.reaches(job, priced)
    )


def unworded_in(pages: tuple[Law, ...], language: str) -> tuple[str, ...]:
    """What these pages have a paper say, and not in this language, by its citation."""
    said = (said for page in pages for said in page.says.values())
    return tuple(each.citation for each in said if not (language in each.text and language in each.title))


def _given(laws: tuple[Law, ...], rights: tuple[Right, ...], language: str) -> Given | None:
    """The notice for these rights: the form of the page that has one, with the longest right's days; the
    statement of the longest right that has its own, else the one that goes with the form."""
    source = form_of(laws, tuple(right.law for right in rights))
    if source is None or source.cancel is None or source.cancel.notice is None:
        return None
    notice, own = source.cancel.notice, source.cancel.last_day.business_days
    days = max(right.days for right in rights)
    form, statement = notice.form.get(language), source.cancel.statement.get(language)
    words = notice.days_in_words.get(language, {})
    if form is None or statement is None or not {str(own), str(days)} <= words.keys():
        return None
    longest = [right for right in rights if right.days == days]
    texts = [right.law.cancel.statement for right in longest if right.law.cancel]
    if any(text and language not in text for text in texts):
        return None  # a statement that is prescribed, but not in this language
    said = [text[language] for text in texts if text and text is not source.cancel.statement]
    signs = [right.law.cancel.acknowledged.get(language) for right in rights if right.law.cancel]
    return Given(
        source.law,
        notice.title[language],
        said[0] if said else _in_days(statement, notice, language, own, days),
        form.model_copy(
            update={
                "paragraphs": tuple(_in_days(text, notice, language, own, days) for text in form.paragraphs)
            }
        ),
        notice.copies,
        next(filter(None, signs), None),
        language in source.translated or any(language in right.law.translated for right in rights),
    )


def form_of(laws: tuple[Law, ...], here: tuple[Law, ...]) -> Law | None:
    """The page whose form is given for these: one of them that has one, else the one that they point at."""
    own = [law for law in here if law.cancel and law.cancel.notice]
    named = {law.cancel.notice_of for law in here if law.cancel}
    return next(iter([*own, *(law for law in laws if law.law in named)]), None)


def _in_days(text: str, notice: Notice, language: str, own: int, days: int) -> str:
    """A prescribed text with another number of business days, and nothing else changed."""
    words = notice.days_in_words[language]
    was, now = words[str(own)], words[str(days)]
    return text.replace(was.ordinal, now.ordinal).replace(was.count, now.count)


def latest(rights: tuple[Right, ...], signed: date) -> date:
    """The latest of the last days: no paper says less than any right gives."""
    return max(right.last_day(signed) for right in rights)
