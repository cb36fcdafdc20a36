"""Opens a job description for a command, or ends it with what stands in the way."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from scopegen.cli.ending import Exit
from scopegen.cli.voice import print_json, trouble

if TYPE_CHECKING:
    from scopegen.case import Case
    from scopegen.check import Checked
    from scopegen.findings import Finding


def opened(job: Path, as_json: bool) -> Case:
    """The case of a job. Ends the command where the file cannot be understood."""
    from scopegen.build import open_case
    from scopegen.load import Unreadable

    try:
        return open_case(job)
    except Unreadable as error:
        not_understood(error.finding, as_json)


def not_understood(finding: Finding, as_json: bool) -> NoReturn:
    """Says why a file could not be understood, and ends."""
    if as_json:
        print_json(unreadable_json(finding))
    else:
        trouble(finding.as_text())
    sys.exit(Exit.NOT_UNDERSTOOD)


def unreadable_json(finding: Finding) -> dict[str, Any]:
    """What a check prints of a file that cannot be understood."""
    return {"findings": [finding.as_json()], "decided": [], "open": []}


def refuse(case: Case, why: str, as_json: bool) -> NoReturn:
    """Says what stops the case, and ends."""
    from scopegen.check import check as check_case
    from scopegen.report.checked import check_json

    checked = check_case(case)
    if as_json:
        print_json(check_json(checked))
    else:
        trouble(refusal(checked, why))
    sys.exit(Exit.STOPPED)


def refusal(checked: Checked, why: str) -> str:
    """Why something is refused, and each finding that stops it."""
    from scopegen.report.checked import stopping_text, tally

    return "\n\n".join(filter(None, (why, stopping_text(checked), tally(checked))))
