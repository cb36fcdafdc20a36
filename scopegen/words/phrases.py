"""Phrases of days, spans and hours, in the paper's language."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

from scopegen.job import Job
from scopegen.job.decisions import By
from scopegen.job.job import Start
from scopegen.words import Lexicon


def counted(words: Lexicon, key: str, count: Fraction | int) -> str:
    """A count with its noun: `1 day`, `21 days`."""
    return words.counted(key, count)


def last_offer_day(job: Job) -> date | None:
    """The last day on which the offer stands: its date and so many days, the last one counted in."""
    if job.dated is None or job.offer_stands is None:
        return None
    return job.dated + timedelta(days=int(job.offer_stands))


def by_phrase(by: By, words: Lexicon) -> str:
    """The day by which the customer's work is done."""
    if by.day is not None:
        return words.say("by.day", day=words.day(by.day))
    days = by.days_before_start or 0
    return words.counted("by.days", days) if days else words.say("by.start")


def done_phrase(job: Job, words: Lexicon) -> str:
    """By when the work is to be done; nothing where the job does not say."""
    done = job.done_by
    if done is None:
        return ""
    if done.day is not None:
        return words.say("done_by.day", day=words.day(done.day))
    span = counted(words, "start.within_day", done.days_after_start or 0)
    return words.say("done_by.each" if job.visits else "done_by.span", span=span)


def start_phrase(job: Job, words: Lexicon) -> str:
    """When the work starts, to follow 'We start'."""
    return begin_phrase(job.start, words) if job.start is not None else ""


def begin_phrase(start: Start, words: Lexicon) -> str:
    """A start, of the job or of one visit: `within 3 weeks after you sign`."""
    if start.within is not None:
        span = counted(words, f"start.within_{start.within.unit}", start.within.count)
        return words.say("start.within", span=span)
    if start.from_ is None or start.to is None:
        return ""
    if start.from_ == start.to:
        return words.say("start.on", first=words.day(start.from_))
    same_year = start.from_.year == start.to.year
    first = words.day_of_year(start.from_) if same_year else words.day(start.from_)
    return words.say("start.between", first=first, last=words.day(start.to))
