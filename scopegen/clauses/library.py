"""The clause library: the folder that ships, with a contractor's own folder laid over it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from os.path import isdir
from pathlib import Path

from scopegen.clauses.clause import Clause
from scopegen.clauses.fill import Unfillable, refuse_code
from scopegen.findings import Finding, Level, Place, printable
from scopegen.load import Source, Unreadable, load
from scopegen.quantities.units import shortened
from scopegen.understand import understand_whole

_TEXT_FIX = "write words, blanks like {{ beds }}, and {% if area %} … {% endif %}; nothing else"


@dataclass(frozen=True)
class Library:
    """Clauses by name, each with the file that it was read from, and what is wrong with the others."""

    clauses: dict[str, Clause] = field(default_factory=dict)
    sources: dict[str, Source] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
    broken: frozenset[str] = frozenset()  # clauses that are there, but not sound

    def folder(self, name: str) -> tuple[Clause, ...]:
        """The clauses of one folder, by their printing order, then by name."""
        inside = [clause for key, clause in self.clauses.items() if key.startswith(f"{name}.")]
        return tuple(sorted(inside, key=lambda clause: (clause.order, clause.clause)))


def read_library(shipped: Path, own: Path | None = None, own_name: str = "clauses") -> Library:
    """Every clause of the shipped folder; a file of the contractor's own replaces the clause of its name.

    A file that is not sound is left out, with a finding. `own_name` is the own folder as findings show it.
    """
    clauses: dict[str, Clause] = {}
    sources: dict[str, Source] = {}
    findings: list[Finding] = []
    broken: set[str] = set()
    for folder, shown in ((shipped, "clause_library"), *([(own, own_name)] if own and isdir(own) else [])):
        for path in _files(folder, shown, findings):
            name = f"{path.parent.name}.{path.stem}"
            source, clause, wrong = _read(path, printable(f"{shown}/{path.parent.name}/{path.name}"), name)
            findings += wrong
            if source is None or clause is None:
                broken.add(name)
            else:
                clauses[name], sources[name] = clause, source
    return Library(clauses, sources, tuple(findings), frozenset(broken))


def _files(folder: Path, shown: str, findings: list[Finding]) -> list[Path]:
    """The clause files of a folder, but for its laws; a folder that may not be looked into is found."""
    files: list[Path] = []
    places = [folder]
    for place in places:
        try:
            inside = sorted(place.iterdir())
        except OSError as error:
            name = printable(shown if place == folder else f"{shown}/{place.name}")
            message = f"the folder {name} cannot be read: {error.strerror or error}"
            fix = "check the folder and your right to read it"
            findings.append(Finding("unreadable-file", Level.STOPS, message, fix, Place(name, 1, 1)))
            continue
        if place == folder:
            places += [each for each in inside if each.name != "law" and isdir(each)]
        else:
            files += [each for each in inside if each.suffix == ".yaml"]
    return files


def _read(path: Path, shown: str, name: str) -> tuple[Source | None, Clause | None, tuple[Finding, ...]]:
    """One clause file, and what is wrong with it."""
    try:
        source = load(path, shown)
    except Unreadable as error:
        return None, None, (error.finding,)
    clause, findings = understand_whole(Clause, source)
    if clause is not None and clause.clause != name:
        message = f"the clause calls itself '{clause.clause}', but its file makes it '{name}'"
        fix = f"write 'clause: {name}', or rename the file"
        return source, None, (Finding("clause-name", Level.STOPS, message, fix, source.place(("clause",))),)
    code = tuple(_code_in(clause, source)) if clause else ()
    return source, None if code else clause, (*findings, *code)


def _code_in(clause: Clause, source: Source) -> Iterator[Finding]:
    """A finding for each text that holds more than blanks and simple conditions."""
    for index, version in enumerate(clause.wording):
        for language, said in version.texts.items():
            for way, text in said.items():
                try:
                    refuse_code(text)
                except Unfillable as error:
                    place = source.place(("wording", index, language, way))
                    message = f"the text for '{way}' cannot be used: {shortened(str(error), 100)}"
                    yield Finding("clause-text", Level.STOPS, message, _TEXT_FIX, place)
