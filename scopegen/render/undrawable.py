"""Findings for the characters that the papers' fonts cannot draw, before anything is drawn."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterator
from decimal import Decimal
from typing import TYPE_CHECKING

from scopegen.case import Case
from scopegen.findings import Finding, Level, Place
from scopegen.load import Path_, Source
from scopegen.quantities.in_languages import is_language

from .faces import is_drawable
from .refusals import RenderingUnavailable, excerpt

if TYPE_CHECKING:
    from scopegen.papers.document import Document

# what nearly every text is made of; for the rest the fonts are asked, which takes a moment to open them
_PLAIN = frozenset(map(chr, (*range(0x20, 0x7F), *range(0xA0, 0xAD), *range(0xAE, 0x17F)))) | {*"\n\t–’“”"}
_FIX = "write it another way: the papers have Latin, Greek and Cyrillic letters, and the signs of the trade"


def undrawable(case: Case, compose: Callable[[], Document | None]) -> tuple[Finding, ...]:
    """Of every text of the job description and of the company, and of whatever else the paper prints.

    The paper is composed only where something in it may not be drawn: one of 1,000 beds takes seconds. None
    are found where the fonts are missing, so that nothing can be told.
    """
    try:
        said: set[str] = set()
        own = [*_in_source(case, case.job_source, case.broken, said)]
        if case.company_source:
            own += _in_source(case, case.company_source, case.company_broken, said)
        paper = compose() if _may_lack(case, said) else None
        return (*own, *(_in_paper(case, paper, said) if paper else ()))
    except RenderingUnavailable:
        return ()


def _in_source(case: Case, source: Source, broken: frozenset[Path_], said: set[str]) -> Iterator[Finding]:
    """One finding for each text with such a character; what is broken is to be mended anyway."""
    for path, text, is_key in texts_of(source.data):
        character = "" if _of_another_paper(case, source, path) else _first(text)
        if character and not any(path[:end] in broken for end in range(1, len(path) + 1)):
            bed = path[1] if source is case.job_source and path[0] == "beds" and len(path) > 1 else None
            name = case.bed_name(bed) if isinstance(bed, int) and bed < len(case.job.beds) else None
            field = next((str(step) for step in reversed(path) if isinstance(step, str)), "")
            said.add(character)
            yield _finding(character, f"'{field}'", _place(source, path, character, is_key), name)


def _of_another_paper(case: Case, source: Source, path: Path_) -> bool:
    """Whether a text of the company stands there for papers in another language."""
    language = path[-1] if path and source is case.company_source else None
    return is_language(language) and language != case.job.language


def _may_lack(case: Case, said: set[str]) -> bool:
    """Whether a character that comes from outside, or its capital, cannot be drawn."""
    if case.chosen is None or case.words is None:
        return False  # then there is no paper
    sources = (case.job_source, case.company_source, case.chart_source)
    signs = {sign for source in sources if source for _, text, _ in texts_of(source.data) for sign in text}
    signs.update(_money(case), *_worded(case))
    return not all(is_drawable(each) for sign in signs - _PLAIN - said for each in (sign, *sign.upper()))


def _worded(case: Case) -> Iterator[str]:
    """What clauses and laws say in this paper."""
    assert case.chosen is not None
    for each in case.chosen.said:
        yield from (each.title, each.text, *each.follows)
    for term in (*case.chosen.terms, *case.chosen.cautions):
        yield from (term.title, term.text)
    for _, names in case.chosen.absent:
        yield from names
    yield from case.chosen.sentences.values()
    if case.given:
        yield from (case.given.title, case.given.statement)
        for part in filter(None, (case.given.form, case.given.acknowledged)):
            yield from (text for _, text, _ in texts_of(part.model_dump(mode="json")))
    for said in (said for page in case.pages for said in page.says.values()):
        yield from (said.title.get(case.job.language, ""), said.text.get(case.job.language, ""))


def _money(case: Case) -> str:
    """An amount of money, with the sign of its currency."""
    currency = (case.chart and case.chart.currency) or "USD"
    return case.words.in_currency(currency).money(Decimal(1)) if case.words else ""


def _in_paper(case: Case, paper: Document, said: set[str]) -> Iterator[Finding]:
    """What comes from the price chart, the clauses or the currency: once for each character."""
    from .printed import printed_texts

    for text in printed_texts(paper):
        for character in sorted({*text} - _PLAIN - said):
            if not is_drawable(character):
                said.add(character)
                yield _finding(character, f"“{excerpt(text, character)}”", _origin(case, character), None)


def _origin(case: Case, character: str) -> Place:
    """Where a printed character was written, as it is or as a small letter that begins a sentence."""
    sources = [case.job_source, case.company_source, case.chart_source]
    sources += case.library.sources if case.library else ()
    for source in filter(None, sources):
        for path, text, is_key in texts_of(source.data):
            for sign in text:
                if sign not in _PLAIN and character in (sign, *sign.upper()):
                    return _place(source, path, sign, is_key)
    return case.chart_place(("currency",)) if character in _money(case) else case.place(())


def texts_of(data: object, path: Path_ = ()) -> Iterator[tuple[Path_, str, bool]]:
    """Every text below a value, keys too, with its path."""
    if isinstance(data, str):
        yield path, data, False
    elif isinstance(data, dict):
        for key, value in data.items():
            yield (*path, key), str(key), True
            yield from texts_of(value, (*path, key))
    elif isinstance(data, list):
        for index, value in enumerate(data):
            yield from texts_of(value, (*path, index))


def _first(text: str) -> str | None:
    return next((sign for sign in text if sign not in _PLAIN and not is_drawable(sign)), None)


def _place(source: Source, path: Path_, character: str, is_key: bool) -> Place:
    """Where the character stands; where it was spelled by an escape, where its text begins."""
    start = source.place(path, key=is_key)
    first = start.column - 1
    for line in range(start.line, len(source.lines) + 1):
        at = source.lines[line - 1].find(character, first)
        if at >= 0:
            return source.at(line, at + 1)
        first = 0
    return start


def _finding(character: str, where: str, place: Place, bed: str | None) -> Finding:
    shown = "" if unicodedata.category(character)[0] in "CZM" else f"“{character}” "
    name = unicodedata.name(character, "a character without a name").lower()
    message = f"the papers' fonts cannot draw {shown}(U+{ord(character):04X}, {name}) in {where}"
    return Finding("undrawable-character", Level.STOPS, message, _FIX, place, bed)
