"""A new version of a clause for a season: a copy of the wording before it, to be edited."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import PurePath

from scopegen.amend import Edit, Put, Remove, Repeat, amended
from scopegen.clauses import Clause, Version
from scopegen.load import Source, parse
from scopegen.season.refused import Refused


@dataclass(frozen=True, slots=True)
class NewVersion:
    """A clause file with the new version in it, and the line on which that begins."""

    text: str
    line: int


def own_file(clause: str) -> PurePath:
    """Where a contractor's own file of a clause lies below the folder `clauses/`."""
    folder, _, name = clause.partition(".")
    return PurePath(folder, f"{name}.yaml")


def new_version(source: Source, text: str, clause: Clause, season: int, *, alone: bool) -> NewVersion:
    """The file `text`, which `source` has read as `clause`, with the newest wording before the season a
    second time, as that of the season.

    `alone`: without the other versions, for a file of the contractor's own beside the shipped one, which
    rules from its first season on. Raises Refused where the season has a version already, or nothing comes
    before it.
    """
    index = _before(clause, season)
    doubled = amended(text, [Repeat(("wording", index))], source.name)
    new = ("wording", index + 1)
    edits: list[Edit] = [Put((*new, "season"), str(season))]
    if clause.wording[index].from_ is not None:
        edits.append(Remove((*new, "from")))
    if alone:
        others = (each for each in range(len(clause.wording) + 1) if each != index + 1)
        edits += [Remove(("wording", each)) for each in others]
    done = amended(doubled, edits, source.name)
    read = parse(done.removeprefix("\ufeff"), source.name)
    return NewVersion(done, read.place(("wording", 0 if alone else index + 1)).line)


def _before(clause: Clause, season: int) -> int:
    """The number of the newest version before a season's own."""
    if any(version.order == (season, date.min) for version in clause.wording):
        raise Refused(f"{clause.clause} has wording for season {season} already. Nothing was written.")
    earlier = [version for version in clause.wording if version.season < season]
    if not earlier:
        raise Refused(_nothing_before(clause, season))
    newest: Version = max(earlier, key=lambda version: version.order)
    return clause.wording.index(newest)


def _nothing_before(clause: Clause, season: int) -> str:
    if not clause.wording:
        return f"{clause.clause} is no longer used, as its file says, and has no wording to copy."
    first = min(version.season for version in clause.wording)
    return (
        f"{clause.clause} has no wording before season {season}: it begins with {first}. Name a season after"
        " that. Nothing was written."
    )
