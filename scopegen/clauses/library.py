"""The clause library: the folder that ships, with a contractor's own folder laid over it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date
from itertools import islice
from os.path import isdir, lexists
from pathlib import Path

from scopegen.clauses.clause import Clause
from scopegen.clauses.conditions import unreadable_conditions
from scopegen.clauses.fill import OPENING, Unfillable, refuse_code
from scopegen.clauses.in_force import OWN, SHIPPED, Held, InForce
from scopegen.clauses.strays import BY_NAME, LAW, Around, is_hidden
from scopegen.findings import Finding, Level, Place, printable
from scopegen.load import Path_, Source, Unreadable, load
from scopegen.load.reading import leads_out, read_bytes
from scopegen.quantities.units import shortened
from scopegen.understand import understand_whole

_TEXT_FIX = "write words, blanks like {{ beds }}, and {% if area %} … {% endif %}; nothing else"
_LISTED = b"name_if_absent"  # what the paper may name as not included is asked for by nobody


@dataclass(frozen=True)
class Library:
    """Clauses by name, the files that they were read from, and what is wrong with the others.

    `shipped` and `own` are the sources by the clause's name.
    """

    held: dict[str, Held] = field(default_factory=dict)
    shipped: dict[str, Source] = field(default_factory=dict)
    own: dict[str, Source] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
    broken: frozenset[str] = frozenset()  # clauses that are there, but not sound

    def in_force(self, season: int, dated: date) -> InForce:
        """What a job of this season and date takes."""
        clauses, retired = {}, {}
        for name, held in self.held.items():
            if gone := held.retired(season):
                retired[name] = gone
            elif ruling := held.ruling(season, dated):
                clauses[name] = ruling
        return InForce(clauses, retired, self.broken)

    def source(self, name: str) -> Source | None:
        """The file in which a contractor mends a clause: their own, else the one that ships."""
        return self.own.get(name) or self.shipped.get(name)

    @property
    def sources(self) -> tuple[Source, ...]:
        """Every file, the contractor's own first."""
        return (*self.own.values(), *self.shipped.values())


def read_library(
    shipped: Path, own: Path | None = None, own_name: str = "clauses", wanted: frozenset[str] | None = None
) -> Library:
    """Every clause of the shipped folder, and a contractor's own over it.

    A file that is not sound is left out, with a finding. `own_name` is the own folder as findings show it.
    With `wanted`, of the clauses that are asked for by name only those are read that it has, and those
    that a paper may name as not included.
    """
    held: dict[str, Held] = {}
    sources: dict[str, dict[str, Source]] = {SHIPPED: {}, OWN: {}}
    findings: list[Finding] = []
    broken: set[str] = set()
    left = list(_clause_files(shipped, own, own_name, findings))
    meant = {file.clause for file in left if wanted is None or _is_wanted(file, wanted)}
    asked = [file for file in left if file.clause in meant]  # both files of a clause, or neither
    while asked:
        for file in asked:
            left.remove(file)
            source, clause, wrong = _read(file)
            findings += wrong
            if source is None or clause is None:
                broken.add(file.clause)
            else:
                sources[file.whose][file.clause] = source
                held[file.clause] = replace(held.get(file.clause, Held()), **{file.whose: clause})
        instead = {
            clause.no_longer.instead for each in held.values() for clause in each.files if clause.no_longer
        }
        asked = [file for file in left if file.clause in instead]
    return Library(held, sources[SHIPPED], sources[OWN], tuple(findings), frozenset(broken))


@dataclass(frozen=True, slots=True)
class _File:
    """A clause's file, as findings show it, whose it is, and the folder that no link leads out of."""

    path: Path
    shown: str
    whose: str
    inside: Path | None

    @property
    def clause(self) -> str:
        return f"{self.path.parent.name}.{self.path.stem}"


def _clause_files(shipped: Path, own: Path | None, own_name: str, findings: list[Finding]) -> Iterator[_File]:
    for folder, shown, whose in _folders(shipped, own, own_name, findings):
        inside = folder.parent if whose == OWN else None
        for path in _files(Around(folder, shown, inside), findings, laws=whose == SHIPPED):
            yield _File(path, printable(f"{shown}/{path.parent.name}/{path.name}"), whose, inside)


def _folders(
    shipped: Path, own: Path | None, own_name: str, findings: list[Finding]
) -> Iterator[tuple[Path, str, str]]:
    """The folders, each with its name in findings and whose it is; a file in the own one's place is found."""
    yield shipped, "clause_library", SHIPPED
    if own and isdir(own):
        yield own, own_name, OWN
    elif own and lexists(own):
        message = f"{own_name} is no folder, so none of your own clauses is read"
        fix = "give it another name, or put a folder in its place"
        findings.append(Finding("unreadable-file", Level.STOPS, message, fix, Place(own_name, 1, 1)))


def _is_wanted(file: _File, wanted: frozenset[str]) -> bool:
    if file.path.parent.name not in BY_NAME or file.clause in wanted:
        return True
    try:
        return _LISTED in read_bytes(file.path, file.shown, inside=file.inside)
    except Unreadable:
        return True  # reading it again finds why


def _files(around: Around, findings: list[Finding], *, laws: bool) -> list[Path]:
    """The clause files of a folder, but for its laws, which it may have or not; a folder that may not be
    looked into is found, and so is what is not read."""
    folder, shown = around.folder, around.shown
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
            folders = [each for each in inside if isdir(each) and not is_hidden(each)]
            loops = [each for each in folders if not leads_out(folder, each)]
            findings += [_loop(printable(f"{shown}/{each.name}")) for each in loops]
            findings += around.at_the_top(inside)
            places += [each for each in folders if each not in loops and not (laws and each.name == LAW)]
        else:
            findings += around.in_a_folder(place, inside)
            if place.name != LAW:
                files += [each for each in inside if each.suffix == ".yaml" and not is_hidden(each)]
    return files


def _loop(name: str) -> Finding:
    message = f"the folder {name} is a link back to a folder that it lies in, and is passed over"
    return Finding("folder-loop", Level.WARNS, message, "delete the link", Place(name, 1, 1))


def _read(file: _File) -> tuple[Source | None, Clause | None, tuple[Finding, ...]]:
    """One clause file, and what is wrong with it."""
    name = file.clause
    try:
        source = load(file.path, file.shown, inside=file.inside, kind="clause")
    except Unreadable as error:
        return None, None, (error.finding,)
    clause, findings = understand_whole(Clause, source)
    if clause is None:
        return source, None, findings
    if clause.clause != name:
        message = f"the clause calls itself '{clause.clause}', but its file makes it '{name}'"
        fix = f"write 'clause: {name}', or rename the file"
        return source, None, (Finding("clause-name", Level.STOPS, message, fix, source.place(("clause",))),)
    wrong = (*_code_in(clause, source), *_limits_in(clause, source))
    return source, None if wrong else clause, (*findings, *wrong)


def _code_in(clause: Clause, source: Source) -> Iterator[Finding]:
    """A finding for each text that holds more than blanks and simple conditions."""
    for index, version in enumerate(clause.wording):
        for language, said in version.texts.items():
            for way, text in said.items():
                try:
                    refuse_code(text)
                except Unfillable as error:
                    place = _opening(source, ("wording", index, language, way), error.opening)
                    message = f"the text for '{way}' cannot be used: {shortened(str(error), 100)}"
                    yield Finding("clause-text", Level.STOPS, message, _TEXT_FIX, place)


def _opening(source: Source, path: Path_, number: int | None) -> Place:
    """Where the so-manieth blank or condition of a text begins; where the text does, if that is not known."""
    start = source.place(path)
    at = (
        source.at(line, found.start() + 1)
        for line, text in enumerate(source.lines[start.line - 1 :], start.line)
        for found in OPENING.finditer(text, start.column - 1 if line == start.line else 0)
    )
    return start if number is None else next(islice(at, number, None), start)


def _limits_in(clause: Clause, source: Source) -> Iterator[Finding]:
    """A finding for each condition that nothing can meet: of an unknown fact, or with a limit that cannot
    be read."""
    for path, message, fix in unreadable_conditions(clause.when):
        place = source.place(("when", *path), key=len(path) == 1)
        yield Finding("clause-condition", Level.STOPS, message, fix, place)
