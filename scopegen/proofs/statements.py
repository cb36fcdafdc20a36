"""What a sentence states, without grammar: who does it, whether it is denied, and which words carry it. A
sentence that is not plain enough for that states nothing."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache

from scopegen.clauses.conditions import catalogue
from scopegen.plain_words import plain_words

WE, YOU = "we", "you"
_SENTENCE = re.compile(r"(?<=[.!?;])\s+")
_WORD = re.compile(r"\{\{\s*\w+\s*\}\}|[^\W_]+(?:'[^\W_]+)?")
# What stands only where a blank is filled, the innermost first; the sentence stands without it too.
_MAYBE = re.compile(r"\{%-?\s*if\b(?:(?!\{%-?\s*if\b).)*?\{%-?\s*endif\s*-?%\}", re.DOTALL)
_LEAST = 2  # words that carry a statement, beside who; one alone, such as 'we rake', may be of anything
_SHORTEST = 3  # letters of a word that an ending is cut from


@dataclass(frozen=True, slots=True)
class Statement:
    """`who` is `we`, `you` or neither; `order` are the words that carry it, without their endings; `of_beds`
    tells that it is of those beds alone for which it was decided so; `said` is the sentence."""

    who: str
    denied: bool
    order: tuple[str, ...]
    of_beds: bool
    said: str

    @property
    def carries(self) -> frozenset[str]:
        """Its words in any order."""
        return frozenset(self.order)

    def tells_as(self, other: Statement) -> bool:
        """The same words in the same order, but that what stands first in one may stand last in the other:
        'in spring we sweep the walks' tells as 'we sweep the walks in spring'."""
        return any(self.order[i:] + self.order[:i] == other.order for i in range(len(self.order)))


@dataclass(frozen=True, slots=True)
class _Language:
    who: Mapping[str, re.Pattern[str]]
    apart: re.Pattern[str]
    split: re.Pattern[str]
    unsure: frozenset[str]
    leaning: re.Pattern[str]
    idle: re.Pattern[str]
    contracted: Mapping[str, str]
    denials: frozenset[str]
    idle_words: frozenset[str]
    both_do: frozenset[str]
    endings: tuple[tuple[str, ...], ...]


@cache
def _language(name: str) -> _Language | None:
    said = plain_words().get(name, {}).get("statements")
    if said is None:
        return None
    found = {key: re.compile(said[key]) for key in ("apart", "split", "leaning", "idle")}
    endings = tuple(tuple(sorted(each, key=lambda ending: -len(ending))) for each in said["endings"])
    return _Language(
        who={who: re.compile(said[who]) for who in (WE, YOU)},
        contracted=said["contracted"],
        unsure=frozenset(said["unsure"]),
        denials=frozenset(said["denials"]),
        idle_words=frozenset((*said["drops"], *said["denials"])),
        both_do=frozenset(_cut(word, endings) for word in said["both_do"]),
        endings=endings,
        **found,
    )


@lru_cache(maxsize=100_000)
def statements(text: str, language: str) -> tuple[Statement, ...]:
    """What the plain sentences of a clause's text state; nothing in a language without such lists."""
    known = _language(language)
    if known is None:
        return ()
    while "{%" in text and (without := _MAYBE.sub("", text)) != text:
        text = without
    return tuple(_all_stated(" ".join(text.split()), language, known))


def _all_stated(text: str, language: str, known: _Language) -> Iterator[Statement]:
    for sentence in _SENTENCE.split(text):
        lower = sentence.lower()
        bare = known.apart.sub("", lower) if "{{" in lower else lower
        of_beds, bare = bare != lower, known.idle.sub(" ", bare)
        if not known.unsure.isdisjoint(bare.split()):
            continue  # most sentences end here, before anything slower is asked
        bare = bare.replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")
        for short, long in known.contracted.items():
            if short in bare:
                bare = bare.replace(short, long)
        if not known.unsure.isdisjoint(_WORD.findall(bare)) or known.leaning.search(bare):
            continue
        for piece in known.split.split(bare):
            if stated := _stated(piece, language, known):
                yield Statement(*stated, of_beds, sentence)


def _stated(piece: str, language: str, known: _Language) -> tuple[str, bool, tuple[str, ...]] | None:
    """Who does it, whether it is denied, and the words that carry it."""
    words = _WORD.findall(piece)
    if "{{" in piece and not all(_of_the_paper(word) for word in words if word.startswith("{{")):
        return None  # of this bed or that one, so two such sentences may be of different beds
    idle = known.idle_words
    order = tuple([stem(word, language) for word in words if word not in idle])
    if len({*order}) < _LEAST:
        return None
    found = ((match.start(), who) for who, pattern in known.who.items() if (match := pattern.search(piece)))
    return min(found, default=(0, ""))[1], not known.denials.isdisjoint(words), order


def _of_the_paper(blank: str) -> bool:
    known = catalogue()["blanks"].get(blank.strip("{} "))
    return known is not None and known["given"] == "paper"


def both_do(statement: Statement, language: str) -> bool:
    """The statement is of what each party does for itself, such as signing, and not of work that one does."""
    known = _language(language)
    return known is not None and bool(statement.carries & known.both_do)


@lru_cache(maxsize=20_000)
def stem(word: str, language: str) -> str:
    """A word without its ending, so that 'replaces' and 'replace' are one."""
    known = _language(language)
    return _cut(word, known.endings) if known else word


def _cut(word: str, rounds: tuple[tuple[str, ...], ...]) -> str:
    for endings in rounds:
        for ending in endings:
            if word.endswith(ending) and len(word) - len(ending) >= _SHORTEST:
                word = word[: -len(ending)]
                break
    return word[:-1] if word[-2:-1] == word[-1:] else word
