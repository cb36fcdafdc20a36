"""What stands at a paper's place already: an older paper of the same job may go, and nothing else."""

from __future__ import annotations

import os
import unicodedata
from pathlib import Path

from scopegen.cli.targets import NoTarget
from scopegen.cli.voice import visible
from scopegen.workspace import Workspace, place_in_workspace, workspace_of

AGREEMENT = "agreement"  # the kind of document that an agreement is, and a draft of one
_START = 1000  # bytes that tell whether the rest is worth reading

# A file's number, size and time of change, by which a later change shows; None where there is none.
Stamp = tuple[int, int, int] | None


def stamp_of(path: Path) -> Stamp:
    """That of the file that is meant, behind links."""
    try:
        told = os.stat(path)
    except (OSError, ValueError):
        return None
    return told.st_ino, told.st_size, told.st_mtime_ns


def refuse_what_is_there(path: Path, how: str, kind: str, job: Path | None = None) -> Stamp:
    """A paper takes the place of an older one of its kind and job that is as it was written, and of nothing
    else; nor is it put where the wording that was put on paper is kept. `how` another file is named.

    The stamp of what stands there and may go. Raises NoTarget.
    """
    meant = Path(os.path.realpath(path))
    space = Workspace(meant.parent)
    if meant == space.lock and space.company.exists():
        raise NoTarget(f"{visible(path)} is where the wording on papers is kept. Name another file {how}.")
    stamp = stamp_of(meant)
    try:
        content = _content_of(meant)
    except OSError as error:
        raise NoTarget(
            f"{visible(path)} cannot be looked at: {error.strerror or error}. Name another file {how}."
        ) from None
    if content is None or content:
        _refuse_another(path, content, how, kind, job)
    return stamp


def refuse_what_came(path: Path, stood: Stamp, how: str, kind: str, job: Path | None = None) -> None:
    """The same once more before the paper is put there, where something changed since. Raises NoTarget."""
    if stamp_of(path) != stood:
        refuse_what_is_there(path, how, kind, job)


def _content_of(path: Path) -> bytes | None:
    """What a file holds; nothing of what is no file, since saving says why that is no place for a paper; None
    where it cannot be a paper."""
    if not path.is_file():
        return b""
    from scopegen.reopen import MOST_BYTES
    from scopegen.standing import may_be_a_paper

    with path.open("rb") as file:
        start = file.read(_START)
        size = os.fstat(file.fileno()).st_size  # as much room is taken as it needs, and not as it may
        if start and not may_be_a_paper(start) or size > MOST_BYTES:
            return None
        return start + file.read(max(size - len(start), 0))


def _refuse_another(path: Path, content: bytes | None, how: str, kind: str, job: Path | None) -> None:
    from scopegen.standing import standing

    there, shown = standing(content) if content else None, visible(path)
    if there is None:
        raise NoTarget(
            f"{shown} is there already, and is no paper of scopegen. Name another file {how}, or delete it"
            " first."
        )
    what = f"the {visible(there.kind)} of {visible(there.job)}" if there.job else f"a {visible(there.kind)}"
    if not there.as_written:
        raise NoTarget(
            f"{shown}, {what}, was filled in or signed since it was written, or"
            f" saved by another program, and is kept. Name another file {how}, or move this one away first."
        )
    if there.kind != kind or (job is not None and not _is_of(there.job, job)):
        raise NoTarget(f"{shown} is there already: {what}. Name another file {how}, or delete it first.")


def _is_of(named: str, job: Path) -> bool:
    """Whether a job description is the one that a paper names, by its place or as the same file."""
    place = place_in_workspace(job).as_posix()
    if unicodedata.normalize("NFC", named) == unicodedata.normalize("NFC", place):
        return True
    space = workspace_of(job)
    try:
        return space is not None and os.path.samefile(space.folder / named, job)
    except (OSError, ValueError):
        return False
