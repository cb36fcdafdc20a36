"""The clause library for a terminal and for another program: what is in force, what is wrong."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from scopegen.clauses import Library, Ruling, Wording
from scopegen.clauses.conditions import catalogue, condition_in_words, samples
from scopegen.findings import Finding, Level
from scopegen.plain_language import sentence_lengths
from scopegen.proofs import Stock
from scopegen.proofs.proof import texts_of
from scopegen.proofs.wording import filled
from scopegen.report.checked import count_of
from scopegen.report.wrapped import wrapped

WHOSE = {"shipped": "ships", "own": "yours"}


def read_text(library: Library, own: str | None) -> str:
    """Which clauses were read: what ships, and those in the folder `own`; None without a workspace."""
    if own is None:
        return "Read: what ships alone."
    if not library.own:
        return f"Read: what ships; there are none of your own in {own}."
    return f"Read: what ships, and {count_of(len(library.own), 'file')} of your own in {own}."


def list_json(library: Library, season: int, language: str, own: str | None) -> dict[str, Any]:
    """Each clause in force, and each no longer used. `own` is the folder of a contractor's own ones."""
    in_force = library.in_force(season, date.max)
    return {
        "season": season,
        "own_clauses_in": own,
        "clauses": [entry_of(library, ruling, language) for _, ruling in sorted(in_force.clauses.items())],
        "no_longer_used": [
            {"clause": name, "since": gone.season, "because": gone.because, "instead": gone.instead}
            for name, gone in sorted(in_force.retired.items())
        ],
        "not_sound": sorted(in_force.broken),
    }


def entry_of(library: Library, ruling: Ruling, language: str) -> dict[str, Any]:
    """A clause of the list as plain data."""
    versions = _versions(ruling, language)
    return {
        "clause": ruling.clause,
        "title": ruling.title.get(language),
        "since": sorted({wording.version for wording in versions}),
        "whose": sorted({wording.whose for wording in versions}),
        "files": [
            source.name for each in (library.own, library.shipped) if (source := each.get(ruling.clause))
        ],
        "decides": ruling.decides,
        "ways": list(ruling.ways),
        "taken": _taken(ruling),
    }


def _versions(ruling: Ruling, language: str) -> tuple[Wording, ...]:
    return tuple(ruling.texts.get(language, {}).values())


def _taken(ruling: Ruling) -> str:
    """When a paper has the clause, in words."""
    folder = ruling.clause.partition(".")[0]
    if folder == "outcomes":
        return "where a way to decide leads to it"
    if folder in ("terms", "cautions"):
        return "always" if not ruling.when else f"where {condition_in_words(ruling.when)}"
    if folder == "site":
        return f"where '{ruling.decides}' is decided"
    if ruling.clause.endswith(".general"):
        return f"where {(ruling.decides or folder).replace('_', ' ')} is decided without work"
    return "where the price chart names it"


def list_drawn(library: Library, season: int, language: str) -> RenderableType:
    """A table a folder."""
    in_force = library.in_force(season, date.max)
    parts: list[RenderableType] = [Text(f"In force for season {season}", style="bold")]
    for folder in dict.fromkeys(name.partition(".")[0] for name in sorted(in_force.clauses)):
        table = Table(title=f"\n{folder}", title_justify="left", title_style="bold", box=None, pad_edge=False)
        for column in ("Clause", "Title", "Since", "Whose", "Taken"):
            table.add_column(column, overflow="fold")
        for ruling in in_force.folder(folder):
            entry = entry_of(library, ruling, language)
            whose = " and ".join(WHOSE[each] for each in entry["whose"]) or "no wording yet"
            table.add_row(
                ruling.clause, entry["title"] or "none", "; ".join(entry["since"]), whose, entry["taken"]
            )
        parts.append(table)
    if in_force.retired:
        parts.append(Text("\nNo longer used", style="bold"))
        for name, gone in sorted(in_force.retired.items()):
            instead = f"; instead: {gone.instead}" if gone.instead else ""
            parts.append(Text(f"{name}: from {gone.season} on, because {gone.because}{instead}"))
    return Group(*parts)


_GIVEN = {
    "decision": "In the texts of a decision",
    "outcome": "In the sentences that follow it (outcomes), with those above",
    "paper": "In every text",
}


_NUMBERS = {
    "": "a number",
    "money": "an amount of money, such as 5000",
    "area": "an area, such as 500 ft2",
    "length": "a length, such as 200 ft",
}


def catalogue_text() -> str:
    """Every blank by where it has a value, and every condition of `when`."""
    lines: list[str] = []
    for given, title in _GIVEN.items():
        lines += ["", title]
        for name, blank in catalogue()["blanks"].items():
            if blank["given"] == given:
                lines += _entry_lines(f"{{{{ {name} }}}}", blank["meaning"], f"such as {samples('en')[name]}")
    lines += ["", "What `when` may ask: any of some values, or for a number its limits"]
    for name, asked in catalogue()["conditions"].items():
        values = (
            _NUMBERS[asked.get("unit", "")] if asked["type"] == "number" else ", ".join(asked.get("of", ()))
        )
        lines += _entry_lines(name, asked["meaning"], values)
    return "\n".join(lines[1:])


def _entry_lines(name: str, meaning: str, more: str) -> list[str]:
    return [f"  {name}", *wrapped(meaning, 6), *wrapped(more, 6)]


def tally_json(stock: Stock, own: str | None) -> dict[str, Any]:
    """How much was looked at, and how long sentences and paragraphs are in each language, in words."""
    texts = list(texts_of(stock.library))
    by_language = {
        language: _averages(filled(text) for text in texts if text.language == language)
        for language in dict.fromkeys(text.language for text in texts)
    }
    counts = {"clauses": len(stock.library.held), "texts": len(texts), "averages": by_language}
    return {"own_clauses_in": own, **counts}


def _averages(paragraphs: Iterable[str]) -> dict[str, str]:
    counted = [sentence_lengths(paragraph) for paragraph in paragraphs]
    words = sum(map(sum, counted))
    return {
        "words_a_sentence": f"{words / (sum(map(len, counted)) or 1):.1f}",
        "words_a_paragraph": f"{words / (len(counted) or 1):.1f}",
    }


def check_text(stock: Stock, found: tuple[Finding, ...], own: str | None, *, only_stopping: bool) -> str:
    """Every finding, and what was looked at; `own` is the folder of a contractor's own clauses."""
    if only_stopping:
        return "\n\n".join(finding.as_text() for finding in found if finding.level is Level.STOPS)
    tally = tally_json(stock, own)
    lengths = "; ".join(
        f"{language}: {said['words_a_sentence']} words a sentence, {said['words_a_paragraph']} a paragraph"
        for language, said in tally["averages"].items()
    )
    looked = f"{count_of(tally['clauses'], 'clause')} with {count_of(tally['texts'], 'text')} ({lengths})."
    stopping = sum(finding.level is Level.STOPS for finding in found)
    verdict = f"{count_of(len(found), 'finding')}, {stopping} to mend." if found else "Nothing to mend."
    more = (
        [f"`scopegen explain RULE` tells more; RULE is the word in brackets, such as {found[0].rule}."]
        if found
        else []
    )
    return "\n\n".join(
        [
            *(finding.as_text() for finding in found),
            f"{read_text(stock.library, own)}\n{looked}\n{verdict}",
            *more,
        ]
    )
