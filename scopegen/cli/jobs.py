"""Which job descriptions are meant, where files and folders are named."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from scopegen.cli.voice import is_quiet, news, trouble, visible
from scopegen.findings import Place
from scopegen.load import unreadable
from scopegen.load.reading import MOST_BYTES, leads_out
from scopegen.workspace import place_in_workspace, shown, workspace_of

ENDINGS = (".yaml", ".yml")
NO_JOB = re.compile(r"company|prices-.*")  # stems of the other files of a contractor's folder
APART = ("clauses",)  # folders that hold no jobs
_KEY = re.compile(rb"""^(?:\xef\xbb\xbf)?["']?([A-Za-z_][\w -]*)["']?[ \t]*:(?:\s|$)""", re.M)
_KEYS_OF_A_JOB = {b"job", b"beds", b"customer"}


@dataclass(frozen=True, slots=True)
class Named:
    """The job descriptions that were named, each once; `several` where more than one was asked for, by
    several names or a folder; `passed_over` are the YAML files of a folder that hold something else, and
    `taken_out` the jobs below it that came out of a paper."""

    jobs: tuple[Path, ...]
    several: bool
    passed_over: tuple[Path, ...] = ()
    taken_out: tuple[Path, ...] = ()


def jobs_named(paths: Iterable[Path]) -> Named:
    """The jobs of files and folders. Raises Unreadable where a folder holds none.

    What `scopegen open` took out of a paper is no further job, unless it is named, or its own folder is.
    """
    paths = tuple(paths)
    jobs: dict[str, Path] = {}
    others: list[Path] = []
    copies: list[Path] = []
    for path in paths:
        if not path.is_dir():
            jobs.setdefault(os.path.realpath(path), path)
            continue
        found = list(_yaml_files(path))
        jobs_here = [file for file in found if _is_job(file)]
        out = [file for file in jobs_here if file.parent != path and _came_out_of_a_paper(file)]
        meant = [file for file in jobs_here if file not in out]
        if not meant:
            but = ", but for what `scopegen open` took out of papers" if out else ""
            raise unreadable(
                "unreadable-file",
                f"{shown(path)} is a folder without a job description, in it or below{but}",
                "name a file, or a folder with one: a YAML file with a key 'job', 'beds' or 'customer'",
                Place(shown(path), 1, 1),
            )
        others += [file for file in found if file not in jobs_here]
        copies += out
        for file in meant:
            jobs.setdefault(os.path.realpath(file), file)
    several = len(paths) > 1 or any(path.is_dir() for path in paths)
    copies = [file for file in copies if os.path.realpath(file) not in jobs]
    return Named(tuple(jobs.values()), several, tuple(others), tuple(copies))


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
        space = workspace_of(file)
        if space is not None and leads_out(file, space.folder):
            return True  # that it does is found when it is read; what lies there is not looked at
        if not file.is_file():
            return not file.exists()
        with file.open("rb") as opened:
            keys = {key.strip() for key in _KEY.findall(opened.read(MOST_BYTES))}
    except OSError:
        return True
    return not keys or bool(keys & _KEYS_OF_A_JOB)


def _came_out_of_a_paper(job: Path) -> bool:
    """Whether a record beside a job names it, and names another place for it than the one where it lies: that
    is how `scopegen open` leaves the two. A record beside the job that it was made from hides nothing."""
    from scopegen.record import name_beside
    from scopegen.reopen import MOST_CONTENT, NotAPaper, job_name_of, read_record

    beside = job.with_name(name_beside(job.name))
    try:
        if not beside.is_file() or beside.stat().st_size > MOST_CONTENT:
            return False
        record = read_record(beside.read_bytes())
    except (OSError, NotAPaper):
        return False
    there = place_in_workspace(job).as_posix()
    return job_name_of(record) == job.name and (not workspace_of(job) or record.inputs.job.file != there)


def passed_over_text(named: Named) -> str:
    """A line for each reason why files were passed over; empty where none were."""
    lines = (
        ("no key there is 'job', 'beds' or 'customer'", named.passed_over),
        ("`scopegen open` took it out of a paper", named.taken_out),
    )
    return "\n".join(
        f"Passed over, since {why}: {', '.join(visible(path) for path in files)}"
        for why, files in lines
        if files
    )


def say_passed_over(named: Named, as_json: bool) -> None:
    """Says which files were passed over; beside JSON on the error output."""
    text = passed_over_text(named)
    if text and not is_quiet():
        trouble(text) if as_json else news(text)
