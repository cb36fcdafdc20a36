"""`scopegen write`: the papers."""

from __future__ import annotations

from datetime import date
from os.path import realpath
from pathlib import Path

import click

from scopegen.case import Case
from scopegen.cli.arguments import JOB, DayOf
from scopegen.cli.ending import Exit, stop
from scopegen.cli.opening import opened, refuse
from scopegen.findings import printable


@click.group()
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
    case = opened(job, False, dated)
    if check_case(case).stops and not draft:
        refuse(case, f"the agreement of {job} is not written:", False)
    _refuse_signing_before(case, signed_on)
    try:
        frame = frame_of(case, lexicon(case.job.language), draft=draft, signed_on=signed_on)
    except (NotWorkedOut, KeyError):
        refuse(case, f"not even a draft of {job} can be written yet:", False)
    _write(compose(frame), path, kind)
    if not draft:
        _say_duties(case)


def _target(job: Path, output: Path | None, kind: str | None, draft: bool) -> tuple[Path, str]:
    """Where the paper goes and what it is; ends where the file's name says otherwise, or has no folder."""
    named = {".pdf": "pdf", ".html": "html", ".htm": "html"}.get(output.suffix.lower()) if output else None
    if kind and named and kind != named:
        stop(f"--as {kind} does not go with the name {output}. Leave --as out, or name another file.")
    kind = kind or named or "pdf"
    path = output or job.with_name(f"{job.stem}-{'draft' if draft else 'agreement'}.{kind}")
    if not path.parent.is_dir():
        stop(f"There is no folder {path.parent}. Make it first, or name another file with -o.")
    _refuse_to_overwrite(path, job)
    return path, kind


def _refuse_to_overwrite(path: Path, job: Path) -> None:
    """Ends where the paper would take the place of a job, a price chart, the company or a clause."""
    meant = Path(realpath(path))  # a link is followed when the paper is saved
    if meant.suffix.lower() in (".yaml", ".yml") or meant == Path(realpath(job)):
        stop(f"{path} is a file that jobs are read from, and is not overwritten. Name another file with -o.")


def _write(document: object, path: Path, kind: str) -> None:
    from scopegen.render import RenderingUnavailable, UndrawableText, to_html, to_pdf
    from scopegen.render.save import save

    try:
        data = to_pdf(document) if kind == "pdf" else to_html(document).encode()  # type: ignore[arg-type]
        save(path, data)
    except (RenderingUnavailable, UndrawableText) as error:
        stop(str(error))
    except OSError as error:
        stop(f"{path} cannot be written: {error.strerror or error}. Name another file with -o.")
    click.echo(printable(f"Wrote {path}"))


def _say_duties(case: Case) -> None:
    """What a right to cancel asks of the contractor at the signing."""
    for right in case.rights:
        click.echo(f"The customer may cancel this sale ({right.law.citation}). When they sign:")
        for duty in right.also:
            click.echo(f"- {duty}")
        click.echo("This is no legal advice; local law may ask for more.")


def _refuse_signing_before(case: Case, signed_on: date | None) -> None:
    from scopegen.words.phrases import last_offer_day

    if signed_on is None or case.job.dated is None:
        return
    last = last_offer_day(case.job)
    if signed_on < case.job.dated:
        stop(f"--signed-on {signed_on} is before the paper's date, {case.job.dated}.", Exit.STOPPED)
    if last is not None and signed_on > last:
        stop(
            f"--signed-on {signed_on} is after the offer's last day, {last}. "
            "Date the paper anew with --dated.",
            Exit.STOPPED,
        )
