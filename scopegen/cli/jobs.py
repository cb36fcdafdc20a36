"""Which job descriptions are meant, where files and folders are named."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from scopegen.cli.voice import visible
from scopegen.findings import Place
from scopegen.load import unreadable
from scopegen.load.reading import MOST_BYTES
from scopegen.workspace import shown

ENDINGS = (".yaml", ".yml")
NO_JOB = re.compile(r"company|prices-.*")  # stems of the other files of a contractor's folder
APART = ("clauses",)  # folders that hold no jobs
_KEY = re.compile(rb"""^(?:\xef\xbb\xbf)?["']?([A-Za-z_][\w -]*)["']?[ \t]*:(?:\s|$)""", re.M)
_KEYS_OF_A_JOB = {b"job", b"beds", b"customer"}


@dataclass(frozen=True, slots=True)
class Named:
    """The job descriptions that were named, each once; `several` where more than one was asked for, by
    several names or a folder; `passed_over` are the YAML files of a folder that hold something else."""

    jobs: tuple[Path, ...]
    several: bool
    passed_over: tuple[Path, ...] = ()


def jobs_named(paths: Iterable[Path]) -> Named:
    """The jobs of files and folders. Raises Unreadable where a folder holds none."""
    paths = tuple(paths)
    jobs: dict[str, Path] = {}
    others: list[Path] = []
    for path in paths:
        if not path.is_dir():
            jobs.setdefault(os.path.realpath(path), path)
            continue
        found = list(_yaml_files(path))
        meant = [file for file in found if _is_job(file)]
        if not meant:
            raise unreadable(
                "unreadable-file",
                f"{shown(path)} is a folder without a job description, in it or below",
                "name a file, or a folder with one: a YAML file with a key 'job', 'beds' or 'customer'",
                Place(shown(path), 1, 1),
            )
        others += [file for file in found if file not in meant]
        for file in meant:
            jobs.setdefault(os.path.realpath(file), file)
    several = len(paths) > 1 or any(path.is_dir() for path in paths)
    return Named(tuple(jobs.values()), several, tuple(others))


def _yaml_files(folder: Path) -> Iterable[Path]:
    """The YAML files of a folder and of those below it that may be jobs, in the order of their names."""
    for inside, folders, names in os.walk(folder):
        folders[:] = sorted(name for name in folders if name not in APART and not name.startswith("."))
        for name in sorted(names):
            file = Path(inside, name)
            hidden = name.startswith(".")
            if file.suffix.lower() in ENDINGS and not hidden and not NO_JOB.fullmatch(file.stem):
                yield file


def _is_job(file: Path) -> bool:
    """Whether a file has a key of a job. One that cannot be read, or whose keys cannot be told, may be a
    job with a slip, and is taken for one."""
    try:
        if not file.is_file():
            return not file.exists()
        with file.open("rb") as opened:
            keys = {key.strip() for key in _KEY.findall(opened.read(MOST_BYTES))}
    except OSError:
        return True
    return not keys or bool(keys & _KEYS_OF_A_JOB)


def passed_over_text(named: Named) -> str:
    """One line on the files that were passed over; empty where there are none."""
    if not named.passed_over:
        return ""
    files = ", ".join(visible(path) for path in named.passed_over)
    return f"Passed over, since no key there is 'job', 'beds' or 'customer': {files}"
