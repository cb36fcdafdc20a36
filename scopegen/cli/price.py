"""`scopegen price`: what a job measures and costs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from scopegen.cli.arguments import AS_JSON, JOB
from scopegen.cli.opening import opened, refuse
from scopegen.cli.spoken import Spoken
from scopegen.cli.voice import print_drawn, print_json, result, trouble, visible

if TYPE_CHECKING:
    from scopegen.case import Case
    from scopegen.papers.frame import Frame


@click.command(cls=Spoken)
@JOB
@AS_JSON
@click.option(
    "--by",
    type=click.Choice(["bed"]),
    help="Print what is saved if a bed is left out, bed by bed.",
)
@click.option("--working", is_flag=True, help="Print each quantity and sum worked out, step by step.")
def price(job: Path, as_json: bool, by: str | None, working: bool) -> None:
    """Print what JOB measures and costs: beds, lines, add-ons, tax, total, payments, hours, spoil."""
    from scopegen.papers.frame import NotWorkedOut, frame_of
    from scopegen.words import lexicon

    if by and working:
        raise click.UsageError("--by and --working do not go together; leave one of them out.")
    case = opened(job, as_json)
    try:
        frame = frame_of(case, lexicon("en"))
    except NotWorkedOut:
        refuse(case, f"{visible(job)} cannot be priced yet:", as_json)
    _say_if_unfinished(case)
    if as_json:
        _print_json(frame, by, working)
    else:
        _print_text(frame, by, working)


def _print_json(frame: Frame, by: str | None, working: bool) -> None:
    from scopegen.report.as_json import price_json
    from scopegen.report.by_bed import by_bed_json
    from scopegen.report.worked import working_json

    print_json(working_json(frame) if working else by_bed_json(frame) if by else price_json(frame))


def _print_text(frame: Frame, by: str | None, working: bool) -> None:
    if working:
        from scopegen.report.worked import working_text

        result(working_text(frame))
        return
    from scopegen.report.as_text import price_text
    from scopegen.report.by_bed import by_bed_text

    print_drawn(by_bed_text(frame) if by else price_text(frame))


def _say_if_unfinished(case: Case) -> None:
    from scopegen.check import check as check_case
    from scopegen.findings import Level

    checked = check_case(case)
    if checked.stops:
        count = sum(finding.level is Level.STOPS for finding in checked.findings)
        trouble(
            f"This price is not final: {count} finding{' stops' if count == 1 else 's stop'} the agreement. "
            "`scopegen check` names them."
        )
