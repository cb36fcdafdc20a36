"""Opposites: no two texts that one paper can have say opposite things, or give one work to two parties."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from itertools import product

from scopegen.clauses.conditions import sampled
from scopegen.clauses.in_force import OWN
from scopegen.findings import Level, Place
from scopegen.plain_words import plain_words
from scopegen.proofs.proof import Proof, Stock
from scopegen.proofs.statements import WE, YOU, Statement, both_do, statements
from scopegen.proofs.together import Standing, standing_texts, together
from scopegen.rules.rule import Fault

Saying = tuple[Standing, Statement]
_FIX = "mend one of the two, or let one name the other in 'forbids'"
_COMPOST = (
    "clauses: {terms/your-compost.yaml: '{clause: terms.your-compost, title: {en: Your compost, es: Su"
    " composta}, wording: [{season: 2027, en: {says: %s}, es: {says: Su composta queda donde está.}}]}'}"
)


def _opposites(stock: Stock) -> Iterator[Fault]:
    """For each two clauses the first that is found; the sentences tell more than a phrase."""
    texts, seen = list(standing_texts(stock)), set()
    for one, other, message in (*_denials(texts), *_phrases(texts)):
        pair = one.language, frozenset((one.ruling.clause, other.ruling.clause))
        if pair not in seen:
            seen.add(pair)
            yield Fault(message, _FIX, _place(stock, one, other))


def _denials(texts: list[Standing]) -> Iterator[tuple[Standing, Standing, str]]:
    for (one, said), (other, unsaid) in _facing(texts, _by_denial):
        message = f"'{one.ruling.clause}' says \"{said.said}\" and '{other.ruling.clause}' \"{unsaid.said}\""
        yield one, other, message


def _two_parties(stock: Stock) -> Iterator[Fault]:
    for ours, yours in _facing(standing_texts(stock), _by_party):
        (one, said), (other, again) = ours, yours
        names = f"'{one.ruling.clause}' says \"{said.said}\" and '{other.ruling.clause}' \"{again.said}\""
        yield Fault(f"one work is promised by both: {names}", _FIX, _place(stock, one, other))


def _by_denial(said: Statement, language: str) -> tuple[object, bool]:
    return (said.who, said.carries), said.denied


def _by_party(said: Statement, language: str) -> tuple[object, bool] | None:
    if said.denied or said.who not in (WE, YOU) or both_do(said, language):
        return None
    return said.carries, said.who == YOU


def _facing(texts: Iterable[Standing], side_of: object) -> Iterator[tuple[Saying, Saying]]:
    """Two statements of the same words on two sides, in texts that can be together: for each two clauses the
    first such."""
    index: dict[object, tuple[dict[object, list[Saying]], dict[object, list[Saying]]]] = {}
    for text in texts:
        for said in statements(text.wording.text, text.language):
            if (sided := side_of(said, text.language)) is not None:  # type: ignore[operator]
                key, side = sided
                sides = index.setdefault((text.language, key), (defaultdict(list), defaultdict(list)))
                sides[side][text.ruling.decides].append((text, said))
    seen = set()
    for one_side, other_side in index.values():
        for (decides, ones), (decided, others) in product(one_side.items(), other_side.items()):
            if decides and decides == decided:
                continue  # one of them is chosen, and there may be many
            for one, other in product(ones, others):
                names = one[0].language, one[0].ruling.clause, other[0].ruling.clause
                if names not in seen and _same(one[1], other[1]) and together(one[0], other[0]):
                    seen.add(names)
                    yield one, other


def _same(one: Statement, other: Statement) -> bool:
    """Of the same thing; two that each speak of their own beds may be of different ones."""
    return not (one.of_beds and other.of_beds) and one.tells_as(other)


def _phrases(texts: list[Standing]) -> Iterator[tuple[Standing, Standing, str]]:
    """Pairs of phrases that cannot both hold of one decision, as they are listed."""
    looked_at = [text for text in texts if text.way in ("included", "says")]
    filled = [(text, sampled(text.wording.text, text.language)) for text in looked_at]
    for language, said in plain_words().items():
        for pair in said.get("opposites", ()):
            sides = [
                [
                    text for text, words in filled
                    if text.language == language and text.ruling.decides in (None, pair["of"])
                    and re.search(pair[side], words, re.IGNORECASE)
                ]
                for side in ("one", "other")
            ]  # fmt: skip
            for one, other in product(*sides):
                if together(one, other):
                    both = f"'{one.ruling.clause}' and '{other.ruling.clause}'"
                    yield one, other, f"{both} say opposite things of {pair['of'].replace('-', ' ')}"


def _place(stock: Stock, one: Standing, other: Standing) -> Place:
    """Where the contractor's own words stand, if one of the two is theirs."""
    return (one if one.wording.whose == OWN and other.wording.whose != OWN else other).place(stock)


PROOFS = (
    Proof(
        "opposite-wording", Level.STOPS,
        "No two clauses that can be on one paper say opposite things.",
        "Where a paper says two things, the customer takes the better one, and courts read it against who"
        " wrote it. What is found is a plain sentence that one text has and another denies, and a list of"
        " phrases. It does not find every contradiction: read the paper.",
        _COMPOST % "We do not carry stones to your compost.",
        _COMPOST % "We do not carry green debris to your compost.",
        _opposites,
    ),
    Proof(
        "work-of-two", Level.WARNS,
        "No two clauses that can be on one paper give one work to two parties.",
        "Each side then waits for the other, and both have it in writing. What is found is a plain sentence"
        " that one text has with 'we' and another with 'you'.",
        _COMPOST % "You turn your compost.",
        _COMPOST % "You carry the green debris to your compost.",
        _two_parties,
    ),
)  # fmt: skip
