"""A contractor's folder for the commands that change its files, and saving several files as one."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from scopegen.cli.ending import Exit, stop
from scopegen.cli.opening import not_understood
from scopegen.cli.voice import trouble, visible

if TYPE_CHECKING:
    from scopegen.clauses import Library
    from scopegen.findings import Finding
    from scopegen.load import Source
    from scopegen.workspace import Workspace


IN = click.option(
    "--in",
    "folder",
    type=click.Path(path_type=Path, exists=True, file_okay=False),
    default=Path(),
    help="The folder with company.yaml, or one below it; the current one if you do not say.",
)


def workspace_at(folder: Path) -> Workspace:
    """The workspace of a folder. Ends the command where there is none."""
    from scopegen.workspace import workspace_of

    space = workspace_of(folder / "company.yaml")
    if space is None:
        stop(
            f"There is no company.yaml in {visible(folder.absolute())} or above it. Name its folder with"
            " --in.",
            Exit.NOT_UNDERSTOOD,
        )
    return space


def read_file(path: Path) -> tuple[Source, str]:
    """A price chart of the workspace with its text as it stands there. Ends the command where it cannot be
    read."""
    from scopegen.load import Unreadable, load
    from scopegen.workspace import shown

    try:
        source = load(path, shown(path), kind="chart")
    except Unreadable as error:
        not_understood(error.finding, as_json=False)
    return source, source.raw.decode("utf-8")


def read_wording(space: Workspace) -> Library:
    """The clauses that ship, with the contractor's own over them."""
    from scopegen.clauses import read_library
    from scopegen.library_folder import library_folder
    from scopegen.workspace import shown

    return read_library(library_folder(), space.clauses, shown(space.clauses))


def no_such_clause(name: str, library: Library) -> NoReturn:
    """Ends the command: no clause has this name, or its file is not sound."""
    from scopegen.understand import nearest_clause

    if name in library.broken:
        refuse_broken_clause(name, library)
    near = nearest_clause(name, library.held)
    meant = f"; {near}" if near else "."
    stop(
        f"There is no clause '{visible(name)}'{meant} `scopegen clauses list` names all of them.",
        Exit.NOT_UNDERSTOOD,
    )


def refuse_broken_clause(name: str, library: Library) -> None:
    """Ends the command where one of a clause's files is not sound."""
    ending = f"/{name.replace('.', '/', 1)}.yaml"
    refuse_broken(tuple(each for each in library.findings if f"/{each.place.file}".endswith(ending)))


def refuse_broken(findings: tuple[Finding, ...]) -> None:
    """Ends the command where a file is not sound, with each of its findings that stops."""
    from scopegen.findings import stops

    if stops(findings):
        for finding in findings:
            trouble(finding.as_text())
        stop("Mend this first. Nothing was written.", Exit.NOT_UNDERSTOOD)


def save_all(files: Mapping[Path, str]) -> None:
    """Saves each file in one step. Where one cannot be written, those before it are put back as they were,
    and the command ends."""
    from scopegen.render.save import save

    before: dict[Path, bytes | None] = {}
    for path, text in files.items():
        try:
            was = path.read_bytes() if path.exists() else None
            save(path, text.encode("utf-8"))
            before[path] = was
        except OSError as error:
            with suppress(OSError):
                for written, was in before.items():
                    written.unlink() if was is None else save(written, was)
            stop(f"{visible(path)} cannot be written: {error.strerror or error}. Nothing was changed.")
