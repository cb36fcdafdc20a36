"""The commands. Each reads its arguments, calls the pipeline, prints, and ends with an exit code."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from scopegen import __version__
from scopegen.case import Case
from scopegen.cli.arguments import AS_JSON, JOB
from scopegen.cli.ending import Exit, print_json
from scopegen.cli.manual import explain, schema
from scopegen.cli.opening import opened, refuse
from scopegen.cli.reopen import open_
from scopegen.cli.start import start
from scopegen.cli.write import write
from scopegen.findings import Level


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, message="scopegen %(version)s")
def scopegen() -> None:
    """From the notes of a walk to a written agreement for landscape bed work.

    JOB is a job description: a YAML file in a folder with company.yaml and the season's price chart.
    """


@scopegen.command()
@JOB
@AS_JSON
def check(job: Path, as_json: bool) -> None:
    """Print every finding about JOB, and which decisions are open.

    Exit code: 0 nothing stops the agreement, 1 something does, 2 the file could not be understood.
    """
    from scopegen.check import check as check_case
    from scopegen.report.as_json import check_json

    case = opened(job, as_json)
    checked = check_case(case)
    if as_json:
        print_json(check_json(checked))
    else:
        from scopegen.report.as_text import check_text

        click.echo(check_text(checked))
    sys.exit(Exit.STOPPED if checked.stops else Exit.FINE)


@scopegen.command()
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
        refuse(case, f"{job} cannot be priced yet:", as_json)
    _say_if_unfinished(case)
    if as_json:
        from scopegen.report.as_json import price_json
        from scopegen.report.by_bed import by_bed_json
        from scopegen.report.worked import working_json

        print_json(working_json(frame) if working else by_bed_json(frame) if by else price_json(frame))
    else:
        from scopegen.report.as_text import console, price_text
        from scopegen.report.by_bed import by_bed_text
        from scopegen.report.worked import working_text

        if working:
            click.echo(working_text(frame))
        else:
            console().print(by_bed_text(frame) if by else price_text(frame))


def _say_if_unfinished(case: Case) -> None:
    from scopegen.check import check as check_case

    checked = check_case(case)
    if checked.stops:
        count = sum(finding.level is Level.STOPS for finding in checked.findings)
        click.echo(
            f"This price is not final: {count} finding{' stops' if count == 1 else 's stop'} the agreement. "
            "`scopegen check` names them.",
            err=True,
        )


for command in (write, open_, explain, schema, start):
    scopegen.add_command(command)
