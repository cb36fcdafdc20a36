"""The pages of the law as plain values: each jurisdiction with what it asks, in sentences of a language."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from scopegen.law.page import Counts, Deposit, Law, Shows
from scopegen.law.rights import form_of
from scopegen.words import Lexicon, lexicon


@dataclass(frozen=True, slots=True)
class Jurisdiction:
    """One page: its name, the state's postal letters (none for the whole country), what it asks sentence by
    sentence with citations, what the contractor does besides, what is not known for sure, where to look, and
    the day on which it was last looked at."""

    law: str
    name: str
    state: str | None
    asks: tuple[str, ...]
    also: tuple[str, ...]
    not_known: tuple[str, ...]
    addresses: tuple[str, ...]
    looked_at: date


def jurisdictions(laws: tuple[Law, ...], language: str = "en") -> tuple[Jurisdiction, ...]:
    """Every page, the ones that hold everywhere first, then the states by name. KeyError for a language that
    there are no words for."""
    words = lexicon(language)
    listed = (
        Jurisdiction(
            law.law,
            law.jurisdiction.get(language, law.name),
            law.state,
            tuple(_asks(laws, law, words)),
            law.also.get(language, ()),
            law.not_known.get(language, ()),
            law.addresses,
            law.looked_at,
        )
        for law in laws
    )
    return tuple(sorted(listed, key=lambda each: (each.state is not None, each.name)))


def _asks(laws: tuple[Law, ...], law: Law, words: Lexicon) -> Iterator[str]:
    if law.counts:
        yield from _counts(law.counts, words)
    if law.deposit:
        yield _deposit(law.deposit, words)
    if law.shows:
        yield from _shows(law.shows, words)
    for name, said in law.says.items():
        yield words.say("law.says", title=said.title.get(words.language, name), citation=said.citation)
    yield from _cancel(laws, law, words)


def _money(amount: Decimal, words: Lexicon) -> str:
    return words.in_currency("USD").money(amount)


def _counts(counts: Counts, words: Lexicon) -> Iterator[str]:
    because = counts.because.get(words.language, "")
    yield words.say(f"law.counts.{counts.work}", because=because, citation=counts.citation)
    yield words.say(
        "law.for", whom=words.list(words.texts["law"]["purpose"][each] for each in counts.purpose)
    )
    if counts.price_over is not None:
        yield words.say("law.price_over", amount=_money(counts.price_over, words))


def _deposit(deposit: Deposit, words: Lexicon) -> str:
    share = f"{deposit.share.numerator}/{deposit.share.denominator}"
    told = [words.say("law.deposit.share", share=share, citation=deposit.citation)]
    if deposit.amount is not None:
        told.append(words.say("law.deposit.amount", amount=_money(deposit.amount, words)))
    if deposit.price_over is not None:
        told.append(words.say("law.price_over", amount=_money(deposit.price_over, words)))
    if deposit.special_order:
        told.append(words.say(f"law.deposit.{deposit.special_order}"))
    if not deposit.sure:
        told.append(words.say("law.not_sure"))
    return " ".join(told)


def _shows(shows: Shows, words: Lexicon) -> Iterator[str]:
    things = words.list(words.texts["law"]["thing"][thing] for thing in (*shows.printed, *shows.asked))
    yield words.say("law.shows", things=things, citation=shows.citation)
    for notice in shows.notices:
        yield words.say("law.notice", what=notice.what.get(words.language, ""), clause=notice.clause)


def _cancel(laws: tuple[Law, ...], law: Law, words: Lexicon) -> Iterator[str]:
    cancel = law.cancel
    if cancel is None:
        return
    days = cancel.last_day
    key = "law.cancel.older" if days.from_65 else "law.cancel.days"
    yield words.say(key, days=days.business_days, older=days.from_65, citation=cancel.citation)
    for place, least in cancel.reaches.signed_at.items():
        yield words.say(
            "law.cancel.place" if least else "law.cancel.any_price",
            place=words.texts["law"]["place"][place],
            amount=_money(least, words),
        )
    source = form_of(laws, (law,))
    if source is not None and source is not law:
        yield words.say("law.cancel.form", law=source.jurisdiction.get(words.language, source.name))
