"""Wording: plain, and no promise where nothing is sold; what a clause calls for and forbids is there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from scopegen.clauses.conditions import sampled
from scopegen.findings import Level
from scopegen.job import DECISIONS, SITE_DECISIONS
from scopegen.plain_language import WORDS_IN_ONE_PARAGRAPH, WORDS_IN_ONE_SENTENCE, sentence_lengths
from scopegen.plain_words import plain_words, promised
from scopegen.proofs.proof import Proof, Stock, Text, files_of, texts_of
from scopegen.rules.rule import Fault
from scopegen.understand import nearest

_WORD = re.compile(r"\w+")
STATUTE = "Connecticut General Statutes 42-152(c)(2) and (4), counted by 42-158"
_RAKE = (
    "clauses: {substrate/rake-paths.yaml: '{clause: substrate.rake-paths, decides: substrate, title: {en:"
    " Paths"
    " raked, es: Caminos rastrillados}, ways: [included, excluded], needs: [], wording: [{season: 2027,"
    " en: {included:"
    ' "%s", excluded: "%s"}, es: {included: Rastrillamos los caminos., excluded: Los caminos quedan'
    " así.}}]}'}"
)
_PATHS, _LEFT = "We rake the paths.", "The paths stay as they are."


def filled(text: Text) -> str:
    """The text with the sample of each blank."""
    return sampled(text.words, text.language)


def _too_long(stock: Stock) -> Iterator[Fault]:
    for text in texts_of(stock.library):
        counted = sentence_lengths(filled(text))
        for what, count, most in (
            ("a sentence", max(counted, default=0), WORDS_IN_ONE_SENTENCE),
            ("the paragraph", sum(counted), WORDS_IN_ONE_PARAGRAPH),
        ):
            if count > most:
                message = f"the text for '{text.way}': {what} has {count} words, and {most} are the most"
                yield Fault(message, "say it in shorter sentences, or say less", text.place)


@cache
def _legalese(language: str) -> tuple[re.Pattern[str], dict[str, str], frozenset[str]]:
    """A pattern for the words and phrases, what is plainer for each, and the first word of each."""
    plain = {word.lower(): said for word, said in plain_words().get(language, {}).get("legalese", {}).items()}
    longest = sorted(plain, key=lambda word: (-len(word), word))
    found = "|".join(map(re.escape, longest)) or "(?!)"
    first = frozenset(_WORD.findall(word)[0] for word in plain)
    return re.compile(rf"(?<!\w)(?:{found})(?!\w)"), plain, first


def _hard_words(stock: Stock) -> Iterator[Fault]:
    for text in texts_of(stock.library):
        pattern, plain, first = _legalese(text.language)
        said = filled(text).lower()
        if first.isdisjoint(_WORD.findall(said)):
            continue  # the pattern takes twenty times as long
        for word in dict.fromkeys(pattern.findall(said)):
            message = f"the text for '{text.way}' says '{word}', which few readers take in at once"
            yield Fault(message, f"plainer: {plain[word]}", text.place)


def _promises(stock: Stock) -> Iterator[Fault]:
    for text in texts_of(stock.library):
        if text.way == "excluded" and (found := promised(filled(text), text.language)):
            message = f"the text for 'excluded' promises what it leaves out: '{found}'"
            yield Fault(
                message, "say what is left out and what that leads to, and nothing that we do", text.place
            )


def _unknown_companions(stock: Stock) -> Iterator[Fault]:
    """Names of clauses have a dot; what else is called for is a decision."""
    for clause, _, source in files_of(stock.library):
        for key in ("calls_for", "forbids"):
            for index, name in enumerate(getattr(clause, key)):
                if "." in name or key == "forbids":
                    what, known, there = "clause", tuple(stock.library.held), "name a clause that is there"
                else:
                    what, known = "decision", (*DECISIONS, *SITE_DECISIONS)
                    there = f"name one of: {', '.join(known)}; or a clause, such as terms.color"
                if name not in known:
                    missing = "which is not in the library" if what == "clause" else "which no job has"
                    message = f"'{key}' names the {what} '{name}', {missing}"
                    yield Fault(message, nearest(name, known) or there, source.place((key, index)))


def _torn_companions(stock: Stock) -> Iterator[Fault]:
    """What is called for is forbidden: by the same clause, or by what it calls for."""
    for clause, _, source in files_of(stock.library):
        for index, name in enumerate(clause.forbids):
            if name == clause.clause:
                message = f"'{name}' forbids itself"
            elif name in _calls_of(stock, clause.clause):
                message = f"'{clause.clause}' calls for '{name}' and forbids it"
            elif clause.clause in _calls_of(stock, name):
                message = f"'{clause.clause}' forbids '{name}', which calls for it"
            else:
                continue
            yield Fault(message, _TORN_FIX, source.place(("forbids", index)))


_TORN_FIX = "take it out of one of the two; no paper can have such a clause"


def _calls_of(stock: Stock, name: str) -> tuple[str, ...]:
    """What a clause calls for: as its own file says that stands whole, or as what ships does."""
    held = stock.library.held.get(name)
    return next((each.calls_for for each in held.files if each.stands_whole), ()) if held else ()


_LEFTOVER = (
    "clauses: {terms/our-piles.yaml: '{clause: terms.our-piles, title: {en: Piles, es: Montones}, %swording:"
    " [{season: 2027, en: {says: %s}, es: {says: Los montones quedan.}}]}'}"
)
PROOFS = (
    Proof(
        "wording-too-long", Level.WARNS,
        "No sentence has more than 50 words, no paragraph more than 150.",
        "Both are limits of a statute on plain consumer contracts, and a fair measure anywhere.",
        "",
        "",
        _too_long, STATUTE,
    ),
    Proof(
        "legalese", Level.WARNS,
        "The wording uses the words that people use.",
        "A customer who has to ask what a word means signs later, or not at all; and what was not"
        " understood is"
        " argued about. Several states ask for plain words in consumer contracts.",
        _RAKE % (_PATHS, _LEFT), _RAKE % ("The contractor shall rake the paths.", _LEFT), _hard_words,
        "Federal Plain Language Guidelines, rev. 1 May 2011; 73 P.S. 2205(b)",
    ),
    Proof(
        "promise-in-excluded", Level.STOPS,
        "A text on what is not in the price promises nothing.",
        "'We tidy the edge where needed' under 'not in this price' is what the customer will read out loud.",
        _RAKE % (_PATHS, "We do not rake the paths."), _RAKE % (_PATHS, "We will rake the paths where"
        " needed."),
        _promises,
    ),
    Proof(
        "companion-unknown", Level.STOPS,
        "What a clause calls for and what it forbids is in the library.",
        "A slip in such a name switches the guard off.",
        _LEFTOVER % ("forbids: [debris.haul-away], ", "Piles stay where they are."),
        _LEFTOVER % ("forbids: [debris.haulaway], ", "Piles stay where they are."),
        _unknown_companions,
    ),
    Proof(
        "companion-torn", Level.STOPS,
        "No clause calls for what it forbids, or for what forbids it.",
        "Such a clause stops every paper that it is on, one way or the other.",
        _LEFTOVER % ("calls_for: [terms.color], ", "Piles stay where they are."),
        _LEFTOVER % ("calls_for: [terms.color], forbids: [terms.color], ", "Piles stay where they are."),
        _torn_companions,
    ),
)  # fmt: skip
