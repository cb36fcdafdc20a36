"""`scopegen check`: what is open or wrong in one job, or in many."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from scopegen.cli.arguments import AS_JSON, JOBS
from scopegen.cli.ending import Exit
from scopegen.cli.jobs import Named, jobs_named, say_passed_over
from scopegen.cli.opening import not_understood, unreadable_json
from scopegen.cli.spoken import Spoken
from scopegen.cli.voice import is_quiet, news, print_json, result, visible

if TYPE_CHECKING:
    from scopegen.check import Checked
    from scopegen.findings import Finding
    from scopegen.kept import Kept


@click.command(cls=Spoken)
@JOBS
@AS_JSON
def check(jobs: tuple[Path, ...], as_json: bool) -> None:
    """Print every finding about each JOB, and which decisions are open.

    JOB may be a folder: all job descriptions in it and below, clauses and what `scopegen open` took out of
    papers aside. JSON of one file is one object; of several names, or of a folder, it is a list with an
    object a job.

    Exit code: 0 nothing stops the agreement, 1 something does, 2 the file could not be understood; of
    several jobs the highest.
    """
    from scopegen.kept import Kept
    from scopegen.load import Unreadable

    try:
        named = jobs_named(jobs)
    except Unreadable as error:
        not_understood(error.finding, as_json)
    kept = Kept()
    if named.several:
        _check_all(named, as_json, kept)
    looked = _look(named.jobs[0], kept)
    if looked.checked is None:
        not_understood(looked.unreadable, as_json)
    elif as_json:
        print_json(looked.as_json())
    elif text := _said_of(looked, hint=True):
        result(text)
    sys.exit(looked.code)


@dataclass(frozen=True, slots=True)
class Looked:
    """A job that was checked, or the finding that it cannot be understood."""

    job: Path
    checked: Checked | None
    unreadable: Finding | None = None

    @property
    def code(self) -> Exit:
        if self.checked is None:
            return Exit.NOT_UNDERSTOOD
        return Exit.STOPPED if self.checked.stops else Exit.FINE

    def as_json(self) -> dict[str, Any]:
        from scopegen.report.checked import check_json

        return check_json(self.checked) if self.checked else unreadable_json(self.unreadable)


def _look(job: Path, kept: Kept) -> Looked:
    from scopegen.build import open_case
    from scopegen.check import check as check_case
    from scopegen.load import Unreadable

    try:
        return Looked(job, check_case(open_case(job, kept=kept)))
    except Unreadable as error:
        return Looked(job, None, error.finding)


def _said_of(looked: Looked, *, hint: bool = False) -> str:
    from scopegen.report.checked import check_text, stopping_text

    if looked.checked is None:
        return looked.unreadable.as_text()
    return stopping_text(looked.checked) if is_quiet() else check_text(looked.checked, hint=hint)


def _check_all(named: Named, as_json: bool, kept: Kept) -> None:
    """A heading a job, and totals at the end."""
    from scopegen.workspace import near_name, shown

    seen = []
    for job in named.jobs:
        looked = _look(job, kept)
        seen.append(looked)
        text = "" if as_json else _said_of(looked)
        if text:
            name = visible(shown(job))
            result(f"{name}\n{'-' * len(name)}\n{text}\n")
    if as_json:
        print_json([{"job": near_name(looked.job), **looked.as_json()} for looked in seen])
    else:
        news(totals(seen))
    say_passed_over(named, as_json)
    sys.exit(max(looked.code for looked in seen))


def totals(seen: Sequence[Looked]) -> str:
    """One line on all of them."""
    from scopegen.report.checked import count_of

    codes = [looked.code for looked in seen]
    parts = [
        f"{count} {said}"
        for code, said in (
            (Exit.FINE, "can be written"),
            (Exit.STOPPED, "cannot yet"),
            (Exit.NOT_UNDERSTOOD, "not understood"),
        )
        if (count := codes.count(code))
    ]
    undecided = sum(len(looked.checked.open) for looked in seen if looked.checked)
    return f"{count_of(len(seen), 'job')}: {', '.join(parts)}; {count_of(undecided, 'decision')} open in all."
