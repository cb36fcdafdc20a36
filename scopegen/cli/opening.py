"""Opens a job description for a command, or ends it with what stands in the way."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import NoReturn

import click

from scopegen.case import Case
from scopegen.cli.ending import Exit, print_json
from scopegen.findings import Level, printable
from scopegen.load import Unreadable


def opened(job: Path, as_json: bool, dated: date | None = None) -> Case:
    from scopegen.build import open_case

    try:
        return open_case(job, dated)
    except Unreadable as error:
        if as_json:
            print_json({"findings": [error.finding.as_json()], "decided": [], "open": []})
        else:
            click.echo(error.finding.as_text(), err=True)
        sys.exit(Exit.NOT_UNDERSTOOD)


def refuse(case: Case, why: str, as_json: bool) -> NoReturn:
    """Says what stops the case, and ends."""
    from scopegen.check import check as check_case
    from scopegen.report.as_json import check_json
    from scopegen.report.as_text import tally

    checked = check_case(case)
    if as_json:
        print_json(check_json(checked))
    else:
        stopping = [finding.as_text() for finding in checked.findings if finding.level is Level.STOPS]
        click.echo("\n\n".join([printable(why), *stopping, tally(checked)]), err=True)
    sys.exit(Exit.STOPPED)
