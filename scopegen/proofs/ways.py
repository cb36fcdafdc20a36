"""Ways to decide and languages: whatever a clause says that it has wording for, it has."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.clauses import Clause, Version
from scopegen.findings import Level
from scopegen.load import Source
from scopegen.proofs.proof import Proof, Stock, files_of
from scopegen.rules.rule import Fault
from scopegen.words import languages

SAYS = "says"
_FENCE = (
    "clauses: {edging/fence-edge.yaml: '{clause: edging.fence-edge, decides: edging, title: {en: Fence"
    " edge%s},"
    " ways: [included%s], needs: [], wording: [{season: 2027, en: {included: We cut along the fence.%s},"
    " es: {included: Cortamos junto a la cerca.%s}}]}'}"
)


def _wanted(clause: Clause) -> tuple[str, ...]:
    return clause.ways if clause.decides else (SAYS,)


def _versions(stock: Stock) -> Iterator[tuple[Clause, Source, int, Version]]:
    """Every version of every clause that stands whole."""
    for clause, _, source in files_of(stock.library):
        if clause.stands_whole:
            for index, version in enumerate(clause.wording):
                yield clause, source, index, version


def _unworded(stock: Stock) -> Iterator[Fault]:
    for clause, source, index, version in _versions(stock):
        for language, said in version.texts.items():
            for way in _wanted(clause):
                if way not in said:
                    message = f"version {version.name} has no wording for '{way}' in '{language}'"
                    fix = "write it, or take the way off 'ways' where no job may decide so"
                    yield Fault(message, fix, source.place(("wording", index, language), key=True))


def _unlisted(stock: Stock) -> Iterator[Fault]:
    for clause, source, index, version in _versions(stock):
        for language, said in version.texts.items():
            for way in said:
                if way not in _wanted(clause):
                    message = f"there is wording for '{way}', which 'ways' does not list"
                    fix = f"add '{way}' to 'ways'" if clause.decides else f"write it as '{SAYS}'"
                    yield Fault(message, fix, source.place(("wording", index, language, way), key=True))


def _lacking(stock: Stock) -> Iterator[Fault]:
    """A language that a file or the program has, and a text lacks."""
    for _, source, index, version in _versions(stock):
        for language in languages():
            if language not in version.texts:
                message = f"version {version.name} has no wording in '{language}'"
                yield Fault(message, _LANGUAGE_FIX, source.place(("wording", index)))
    for clause, _, source in files_of(stock.library):
        for key in ("title", "name_if_absent"):
            said = getattr(clause, key)
            for language in languages():
                if said and language not in said and (clause.stands_whole or key in clause.model_fields_set):
                    message = f"'{key}' has no text in '{language}'"
                    yield Fault(message, _LANGUAGE_FIX, source.place((key,), key=True))


_LANGUAGE_FIX = "write it; until then a paper in that language that needs it cannot be written"

PROOFS = (
    Proof(
        "way-without-wording", Level.STOPS,
        "Every version has wording for each way to decide that the clause lists.",
        "The newest version stands alone: it does not take from an older one what it leaves out.",
        _FENCE % (", es: Borde de cerca", "", "", ""),
        _FENCE % (", es: Borde de cerca", ", excluded", "", " , excluded: El borde no está en este precio."),
        _unworded,
    ),
    Proof(
        "way-not-listed", Level.STOPS,
        "Every text is for a way to decide that the clause lists.",
        "A text for a way that is not listed is never printed, and looks as if it were.",
        _FENCE % (", es: Borde de cerca", "", "", ""),
        _FENCE % (", es: Borde de cerca", "", ", excluded: This edge is not part of this price.",
                  ", excluded: El borde no está en este precio."),
        _unlisted,
    ),
    Proof(
        "language-lacking", Level.NOTES,
        "Every clause has its wording in each language that papers can be written in.",
        "A paper never mixes two languages. What is missing stops the first customer who asks for theirs.",
        _FENCE % (", es: Borde de cerca", "", "", ""),
        _FENCE % ("", "", "", ""),
        _lacking,
    ),
)  # fmt: skip
