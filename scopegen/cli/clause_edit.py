"""`scopegen clauses edit`: a new version of a clause for a season."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from scopegen.cli.arguments import YEAR
from scopegen.cli.ending import Exit, stop
from scopegen.cli.folder import (
    IN,
    no_such_clause,
    read_wording,
    refuse_broken_clause,
    save_all,
    workspace_at,
)
from scopegen.cli.spoken import Spoken
from scopegen.cli.voice import news, result, visible

if TYPE_CHECKING:
    from scopegen.clauses import Clause, Library
    from scopegen.load import Source
    from scopegen.workspace import Workspace


@dataclass(frozen=True, slots=True)
class NewWording:
    """A clause file that is to be written: its text, where the new version stands, and whether the file is
    a new one that goes before the shipped clause."""

    path: Path
    text: str
    place: str
    is_new: bool


@click.command("edit", cls=Spoken)
@click.argument("name")
@click.option(
    "--season",
    "year",
    required=True,
    type=YEAR,
    help="The season that the new wording begins with.",
)
@IN
def edit(name: str, year: int, folder: Path) -> None:
    """Copy the wording of the clause NAME into a new version, for you to edit.

    NAME is a folder and a file of the library, such as edging.new-edge. The copy goes into your own file
    under clauses/, which is made where there is none. Jobs of earlier seasons keep their wording.

    Exit code: 0 it is there, 1 refused, 2 a name or a file was not understood, 3 the file cannot be written.
    """
    from scopegen.amend import CannotAmend
    from scopegen.season import Refused

    space = workspace_at(folder)
    try:
        wording = new_wording(space, read_wording(space), name, year)
    except (Refused, CannotAmend) as error:
        stop(visible(error), Exit.STOPPED)
    save_all({wording.path: wording.text})
    result(wording.place)
    news(f"The wording for season {year} begins there. It says what it said before, until you edit it.")
    if wording.is_new:
        news(f"The new file goes before the shipped clause from season {year} on; earlier seasons keep that.")


def new_wording(space: Workspace, library: Library, name: str, year: int) -> NewWording:
    """The file of a clause with a new version in it. Ends the command for a name or a file that is not
    understood; raises Refused or CannotAmend where the version cannot be made."""
    from scopegen.season import new_version, own_file
    from scopegen.workspace import shown

    source, clause, is_new = _copied_from(library, name)
    target = space.clauses / own_file(name)
    made = new_version(source, source.raw.decode("utf-8"), clause, year, alone=is_new)
    return NewWording(target, made.text, f"{shown(target)}:{made.line}", is_new)


def _copied_from(library: Library, name: str) -> tuple[Source, Clause, bool]:
    """The file that the contractor's own one is made from, and whether that is a new one: their own, else
    the shipped one."""
    held = library.held.get(name)
    if name in library.broken:
        refuse_broken_clause(name, library)
    if held is None:
        no_such_clause(name, library)
    if held.own:
        return library.own[name], held.own, False
    assert held.shipped is not None  # a clause is held for one file or for both
    return library.shipped[name], held.shipped, True
