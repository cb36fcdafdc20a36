"""Counts words, sentences and paragraphs by a statute's own rules.

The rules are Connecticut General Statutes 42-158 (how to count) and 42-152(c) (the limits),
https://cga.ct.gov/current/pub/chap_742.htm.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

# 42-152(c)(1) to (4); the averages must stay below theirs, one sentence or paragraph may reach its own.
WORDS_PER_SENTENCE = 22
WORDS_IN_ONE_SENTENCE = 50
WORDS_PER_PARAGRAPH = 75
WORDS_IN_ONE_PARAGRAPH = 150

# A full stop after one of these ends no sentence.
SHORTENED = frozenset({"Ave", "Dr", "Jr", "Mr", "Mrs", "Ms", "No", "Rd", "Sr", "St"})


def sentences(paragraph: str) -> Iterator[list[str]]:
    """The words of each sentence of a paragraph.

    A sentence ends with a period, a question or an exclamation mark; at the end of a line also with
    the semicolon of a list item or the colon of a list's introduction (42-158(b)(3)).
    """
    sentence: list[str] = []
    for line in paragraph.splitlines():
        pieces = line.split()
        for piece in pieces:
            word = bare(piece)
            if word:
                sentence.append(word)
            if sentence and _ends(piece, word, last=piece is pieces[-1]):
                yield sentence
                sentence = []
    if sentence:
        yield sentence


@lru_cache(maxsize=100_000)
def sentence_lengths(paragraph: str) -> tuple[int, ...]:
    """The words of each sentence of a paragraph, counted."""
    return tuple(len(sentence) for sentence in sentences(paragraph))


def _ends(piece: str, word: str, *, last: bool) -> bool:
    closing = piece.rstrip("'\"’”)]")
    if closing.endswith((".", "!", "?")):
        return word not in SHORTENED
    return last and closing.endswith((";", ":"))


def bare(piece: str) -> str:
    """A word without the punctuation around it; empty for punctuation alone, such as a dash."""
    inner = piece.strip(".,;:!?()[]{}'\"‘’“”–—¿¡")
    return "" if inner in {"", "-", "/", "|"} else inner
