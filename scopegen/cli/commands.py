"""The commands. Each reads its arguments, calls the pipeline, prints, and ends with an exit code."""

from __future__ import annotations

import json
import sys
from datetime import date
from enum import IntEnum
from pathlib import Path
from typing import NoReturn

import click

from scopegen import __version__
from scopegen.case import Case
from scopegen.findings import Level
from scopegen.load import Unreadable


class Exit(IntEnum):
    """What the exit code says."""

    FINE = 0
    STOPPED = 1
    NOT_UNDERSTOOD = 2
    CANNOT_WRITE = 3


class DayOf(click.ParamType[date]):
    """A day of the calendar, written year-month-day."""

    name = "DATE"

    def convert(self, value: str | date, param: click.Parameter | None, ctx: click.Context | None) -> date:
        if isinstance(value, date):
            return value
        from scopegen.quantities.fields import day
        from scopegen.quantities.units import NotAQuantity

        try:
            return day(value)
        except NotAQuantity as error:
            self.fail(f"{error}; {error.fix}", param, ctx)


JOB = click.argument("job", type=click.Path(path_type=Path))
AS_JSON = click.option("--json", "as_json", is_flag=True, help="Print JSON for another program.")


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

    case = _opened(job, as_json)
    checked = check_case(case)
    if as_json:
        _print_json(check_json(checked))
    else:
        from scopegen.report.as_text import check_text

        click.echo(check_text(checked))
    sys.exit(Exit.STOPPED if checked.stops else Exit.FINE)


@scopegen.command()
@JOB
@AS_JSON
def price(job: Path, as_json: bool) -> None:
    """Print what JOB measures and costs: beds, lines, add-ons, tax, total, payments, hours, spoil."""
    from scopegen.papers.frame import NotWorkedOut, frame_of
    from scopegen.words import lexicon

    case = _opened(job, as_json)
    try:
        frame = frame_of(case, lexicon("en"))
    except NotWorkedOut:
        _refuse(case, f"{job} cannot be priced yet:", as_json)
    if as_json:
        from scopegen.report.as_json import price_json

        _print_json(price_json(frame))
    else:
        from scopegen.report.as_text import console, price_text

        console().print(price_text(frame))
        _say_if_unfinished(case)


@scopegen.group()
def write() -> None:
    """Write a paper."""


@write.command()
@JOB
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The file to write; without it, JOB's name beside JOB.",
)
@click.option(
    "--as",
    "kind",
    type=click.Choice(["pdf", "html"]),
    help="A PDF, or one self-contained HTML file; without it, what the file's name says, else a PDF.",
)
@click.option(
    "--draft",
    is_flag=True,
    help="Write it with decisions open, marked as a draft, with lines to fill in by hand.",
)
@click.option("--dated", type=DayOf(), help="The paper's date, in place of the job's own.")
@click.option(
    "--signed-on", type=DayOf(), help="The day of signing, to fill in the dates of the cancellation notice."
)
def agreement(
    job: Path, output: Path | None, kind: str, draft: bool, dated: date | None, signed_on: date | None
) -> None:
    """Write the agreement of JOB. Refuses while anything stops it; `scopegen check JOB` says what."""
    from scopegen.check import check as check_case
    from scopegen.papers.agreement import compose
    from scopegen.papers.frame import NotWorkedOut, frame_of
    from scopegen.words import lexicon

    path, kind = _target(job, output, kind, draft)
    case = _opened(job, False, dated)
    if check_case(case).stops and not draft:
        _refuse(case, f"the agreement of {job} is not written:", False)
    _refuse_signing_before(case, signed_on)
    try:
        frame = frame_of(case, lexicon(case.job.language), draft=draft, signed_on=signed_on)
    except (NotWorkedOut, KeyError):
        _refuse(case, f"not even a draft of {job} can be written yet:", False)
    _write(compose(frame), path, kind)
    if not draft:
        _say_duties(case)


def _target(job: Path, output: Path | None, kind: str | None, draft: bool) -> tuple[Path, str]:
    """Where the paper goes and what it is; ends where the file's name says otherwise, or has no folder."""
    named = {".pdf": "pdf", ".html": "html", ".htm": "html"}.get(output.suffix.lower()) if output else None
    if kind and named and kind != named:
        _stop(f"--as {kind} does not go with the name {output}. Leave --as out, or name another file.")
    kind = kind or named or "pdf"
    path = output or job.with_name(f"{job.stem}-{'draft' if draft else 'agreement'}.{kind}")
    if not path.parent.is_dir():
        _stop(f"There is no folder {path.parent}. Make it first, or name another file with -o.")
    return path, kind


def _write(document: object, path: Path, kind: str) -> None:
    from scopegen.render import RenderingUnavailable, UndrawableText, to_html, to_pdf
    from scopegen.render.save import save

    try:
        data = to_pdf(document) if kind == "pdf" else to_html(document).encode()  # type: ignore[arg-type]
        save(path, data)
    except (RenderingUnavailable, UndrawableText) as error:
        _stop(str(error))
    except OSError as error:
        _stop(f"{path} cannot be written: {error.strerror or error}. Name another file with -o.")
    click.echo(f"Wrote {path}")


def _say_duties(case: Case) -> None:
    """What a right to cancel asks of the contractor at the signing."""
    for right in case.rights:
        click.echo(f"The customer may cancel this sale ({right.law.citation}). When they sign:")
        for duty in right.also:
            click.echo(f"- {duty}")
        click.echo("This is no legal advice; local law may ask for more.")


def _opened(job: Path, as_json: bool, dated: date | None = None) -> Case:
    from scopegen.build import open_case

    try:
        return open_case(job, dated)
    except Unreadable as error:
        if as_json:
            _print_json({"findings": [error.finding.as_json()], "decided": [], "open": []})
        else:
            click.echo(error.finding.as_text(), err=True)
        sys.exit(Exit.NOT_UNDERSTOOD)


def _refuse(case: Case, why: str, as_json: bool) -> NoReturn:
    """Says what stops the case, and ends."""
    from scopegen.check import check as check_case
    from scopegen.report.as_json import check_json
    from scopegen.report.as_text import tally

    checked = check_case(case)
    if as_json:
        _print_json(check_json(checked))
    else:
        stopping = [finding.as_text() for finding in checked.findings if finding.level is Level.STOPS]
        click.echo("\n\n".join([why, *stopping, tally(checked)]), err=True)
    sys.exit(Exit.STOPPED)


def _refuse_signing_before(case: Case, signed_on: date | None) -> None:
    from scopegen.words.phrases import last_offer_day

    if signed_on is None or case.job.dated is None:
        return
    last = last_offer_day(case.job)
    if signed_on < case.job.dated:
        _stop(f"--signed-on {signed_on} is before the paper's date, {case.job.dated}.", Exit.STOPPED)
    if last is not None and signed_on > last:
        _stop(
            f"--signed-on {signed_on} is after the offer's last day, {last}. "
            "Date the paper anew with --dated.",
            Exit.STOPPED,
        )


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


def _stop(message: str, code: Exit = Exit.CANNOT_WRITE) -> NoReturn:
    click.echo(message, err=True)
    sys.exit(code)


def _print_json(data: object) -> None:
    click.echo(json.dumps(data, indent=2, ensure_ascii=False))
