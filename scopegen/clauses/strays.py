"""Files among the clauses that are not read, or that no decision leads to: each is found where it lies."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from dataclasses import dataclass
from os.path import isdir, lexists
from pathlib import Path

from scopegen.findings import Finding, Level, Place, printable
from scopegen.job import DECISIONS
from scopegen.load import Unreadable
from scopegen.load.reading import read_bytes
from scopegen.understand import nearest

# Clauses of these folders are asked for by name; those of the others by their conditions.
BY_NAME = frozenset({*DECISIONS, "extra"})
FOLDERS = (*DECISIONS, "extra", "site", "terms", "cautions", "outcomes")
LAW = "law"  # pages of the law: they come with the program
_YAML = (".yaml", ".yml")
_SAVED_AS_TEXT = re.compile(r"(.+)\.ya?ml\.txt", re.IGNORECASE)  # what an editor that adds .txt makes of it
# Hidden files, notes, and what editors and version control leave behind.
_LEFT_ALONE = re.compile(r"\..*|#.*#|README.*|.*(?:~|\.(?:md|txt|bak|orig|rej|swp|tmp))", re.IGNORECASE)
_NAMED = re.compile(rb"""^(?:\xef\xbb\xbf)?["']?clause["']?[ \t]*:[ \t]*["']?([\w-]+)\.([\w-]+)""", re.M)


def is_hidden(path: Path) -> bool:
    """Hidden files and folders hold no clauses."""
    return path.name.startswith(".")


@dataclass(frozen=True, slots=True)
class Around:
    """A folder of clauses, its name in findings, and the folder that no link leads out of."""

    folder: Path
    shown: str
    inside: Path | None

    def at_the_top(self, entries: list[Path]) -> Iterator[Finding]:
        """What lies beside the folders of the decisions."""
        for path in entries:
            if not isdir(path) and self._is_like_a_clause(path):
                why = "it lies in no folder, and a clause lies in that of its decision"
                yield self._not_read(path, why, self._place_for(path, None))

    def in_a_folder(self, place: Path, entries: list[Path]) -> Iterator[Finding]:
        """What is in the folder of a decision, and below it, beside the clauses."""
        for path in entries:
            if is_hidden(path):
                continue
            if isdir(path):
                yield from self._below(path)
            elif place.name == LAW and self._is_like_a_clause(path):
                out = f"move it out of {self.shown}"
                yield self._not_read(path, "pages of the law come with the program", out)
            elif path.suffix == ".yaml":
                yield from self._of_no_decision(path)
            elif self._is_like_a_clause(path):
                why = "the name of a clause's file ends in .yaml"
                yield self._not_read(path, why, self._place_for(path, place))

    def _below(self, folder: Path) -> Iterator[Finding]:
        """One finding for all clauses in a folder that lies too deep."""
        deep = []
        for inside, folders, names in os.walk(folder):
            folders[:] = sorted(name for name in folders if not name.startswith("."))
            deep += [path for name in sorted(names) if self._is_like_a_clause(path := Path(inside, name))]
        if deep:
            others = len(deep) - 1
            more = f", and so do{'es' if others == 1 else ''} {others} more there" if others else ""
            why = f"it lies too deep, below the folder of a decision{more}"
            yield self._not_read(deep[0], why, self._place_for(deep[0], folder.parent))

    def _of_no_decision(self, path: Path) -> Iterator[Finding]:
        folder = path.parent.name
        if folder in FOLDERS:
            return
        near = nearest(folder, FOLDERS)
        target = near.split("'")[1] if near else ""
        named = f"{target}/{path.name}', and write 'clause: {target}.{path.stem}'"
        fix = (
            f"{near} Move it to '{self.shown}/{named}" if near else f"move it to one of: {', '.join(FOLDERS)}"
        )
        message = f"the folder '{folder}' is that of no decision, so no decision leads to this clause"
        name = self._name(path)
        yield Finding("clause-folder", Level.WARNS, message, printable(fix), Place(name, 1, 1))

    def _not_read(self, path: Path, why: str, fix: str) -> Finding:
        name, message = self._name(path), f"no clause is read from this file: {why}"
        return Finding("clause-not-read", Level.WARNS, message, printable(fix), Place(name, 1, 1))

    def _place_for(self, path: Path, place: Path | None) -> str:
        """What to do: where the file belongs, by what it calls itself, else by where it lies."""
        named = _NAMED.search(self._read(path))
        away = f"move it out of {self.shown}, or delete it"
        saved = _SAVED_AS_TEXT.fullmatch(path.name)
        stem = saved[1] if saved else path.stem
        if named:
            where = f"{named[1].decode()}/{named[2].decode()}.yaml"
        elif place is not None:
            where = f"{place.name}/{stem}.yaml"
        else:
            return f"move it into the folder of its decision, such as {self.shown}/edging/{stem}.yaml"
        target = self.folder / where
        if lexists(target) and not (target.exists() and path.exists() and target.samefile(path)):
            return f"{self.shown}/{where} is there already: {away}"
        return f"move it to {self.shown}/{where}, or out of {self.shown}"

    def _is_like_a_clause(self, path: Path) -> bool:
        """By its ending; where that says nothing, by a line that names a clause."""
        if is_hidden(path):
            return False
        if path.suffix.lower() in _YAML or _SAVED_AS_TEXT.fullmatch(path.name):
            return True
        return not _LEFT_ALONE.fullmatch(path.name) and _NAMED.search(self._read(path)) is not None

    def _read(self, path: Path) -> bytes:
        try:
            return read_bytes(path, path.name, inside=self.inside)
        except Unreadable:
            return b""

    def _name(self, path: Path) -> str:
        return printable(f"{self.shown}/{path.relative_to(self.folder).as_posix()}")
