"""`scopegen open`: what travels inside a paper, and whether it still leads to the same paper."""

from __future__ import annotations

import sys
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

import click

from scopegen.cli.ending import Exit, stop
from scopegen.cli.spoken import Spoken
from scopegen.cli.voice import news, result, visible

if TYPE_CHECKING:
    from scopegen.papers.document import Document
    from scopegen.reopen import Paper, Record


@click.command("open", cls=Spoken)
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--to",
    "folder",
    type=click.Path(path_type=Path, file_okay=False),
    help="The folder to put the files into; without it, one beside FILE with FILE's name.",
)
@click.option(
    "--workspace",
    type=click.Path(path_type=Path, file_okay=False),
    help="The folder of company.yaml; without it, FILE's own folder or one above it.",
)
@click.option("--replace", is_flag=True, help="Write over files of the same name that say something else.")
def open_(file: Path, folder: Path | None, workspace: Path | None, replace: bool) -> None:
    """Take out the job description and the record that travel inside the paper FILE, and say whether they
    still lead to the same paper.

    Exit code: 0 the same paper, 1 another one or none, 2 FILE is no paper, 3 a file cannot be written.
    """
    from scopegen.record import mark_of
    from scopegen.reopen import NotAPaper, read_paper

    try:
        paper = read_paper(file)
    except NotAPaper as error:
        stop(f"{visible(file)} cannot be taken apart: {error}.", Exit.NOT_UNDERSTOOD)
    folder = folder or _beside(file)
    _put(folder, {paper.job_name: paper.job, paper.record_name: paper.record_bytes}, replace)
    inside = f"{visible(paper.job_name)} and {visible(paper.record_name)}"
    news(f"Took {inside} out of {visible(file)}, into {visible(folder)}")
    called = PurePosixPath(paper.record.inputs.job.file).name
    if called != paper.job_name:
        news(
            f"Inside, {visible(paper.job_name)} is called {visible(called)}, which is no name for a job here."
        )
    dated, total = paper.record.paper.dated, paper.record.price.total
    news(f"Mark {mark_of(paper.record_bytes)}, dated {dated}, total {total}")
    sys.exit(_compare(paper, file, workspace))


def _beside(file: Path) -> Path:
    """A folder of the file's name without its ending; of its whole name, where nothing is left of it."""
    own = file.suffix and file.stem.strip(".")
    return file.with_name(file.stem if own else f"{file.name}-inside")


def _put(folder: Path, files: dict[str, bytes], replace: bool) -> None:
    """Writes the files; a different one of the same name is kept, unless it is to be replaced."""
    from scopegen.render.save import save

    try:
        for name, content in files.items():
            there = folder / name
            if there.exists() and not replace and not _says(there, content):
                stop(
                    f"{visible(there)} is there already and says something else. "
                    "Name another, or add --replace."
                )
        for name, content in files.items():
            save(folder / name, content)
    except OSError as error:
        stop(
            f"{visible(folder)} cannot be written into: {error.strerror or error}. "
            "Name another folder with --to."
        )


def _says(there: Path, content: bytes) -> bool:
    """Whether a file that is there says the same."""
    return there.is_file() and there.stat().st_size == len(content) and there.read_bytes() == content


def _compare(paper: Paper, file: Path, workspace: Path | None) -> Exit:
    from scopegen.load import Unreadable
    from scopegen.render import RenderingUnavailable, UndrawableText, to_pdf
    from scopegen.reopen import read_record
    from scopegen.workspace import workspace_of

    space = workspace_of((workspace or file.parent) / "job.yaml")
    if space is None:
        result(
            "Whether it still leads to the same paper cannot be told: there is no company.yaml in "
            f"{workspace or file.parent} or above it. Name its folder with --workspace."
        )
        return Exit.STOPPED
    job = space.folder / PurePosixPath(paper.record.inputs.job.file)
    try:
        again = _composed_again(paper, job)
    except Unreadable as error:
        result(f"It leads to no paper today:\n{error.finding.as_text()}")
        return Exit.STOPPED
    if again is None:
        result("It leads to no paper today: something stops it. `scopegen check` on the job says what.")
        return Exit.STOPPED
    document, record = again
    if record != paper.record_bytes:  # it travels inside, so the PDF is another one too
        _tell(paper.record, read_record(record))
        return Exit.STOPPED
    try:
        content = to_pdf(document)
    except (RenderingUnavailable, UndrawableText) as error:
        stop(str(error))
    if paper.content == content:
        news("It leads to the same paper, byte for byte.")
        return Exit.FINE
    if paper.content.startswith(content):
        return _tell_addition(content, paper.content)
    result(
        "What travels inside leads to the same paper, but the PDF was written anew by another program: its"
        " pages may show something else. Lay them beside a paper that you write today."
    )
    return Exit.STOPPED


def _tell_addition(before: bytes, after: bytes) -> Exit:
    from scopegen.additions import shows_otherwise

    try:
        otherwise = shows_otherwise(before, after)
    except ValueError:
        result(
            "What was added to the file's end since cannot be read, so it is not taken for the same paper."
        )
        return Exit.STOPPED
    if otherwise:
        result(
            "It begins with the same paper, but something was added to the file's end since that changes what"
            " its pages show. Compare it with the paper that you wrote, page by page."
        )
        return Exit.STOPPED
    news("It leads to the same paper. Something was added to the file since: filled in, or signed.")
    return Exit.FINE


def _tell(before: Record, now: Record) -> None:
    from scopegen.reopen import differences

    said = {
        "scopegen": "it was made by scopegen {}",
        "left_out": "the list of what is not in the price is not as it was",
        "clause": "the clause {} is not as it was",
        "law": "the page of the law {} is not as it was",
        "photo": "the photo {} is not as it was",
    }
    result("It leads to another paper:")
    for kind, name in differences(before, now):
        result(f"- {visible(said.get(kind, '{} is not as it was').format(name))}")
    was, has = before.price.total, now.price.total
    result(f"- the total was {was}, and is {has}" if was != has else f"- the total is {has}, as it was")
    if before.says == now.says:
        result("- by its record, all that its pages say is as it was, but for the mark")


def _composed_again(paper: Paper, job: Path) -> tuple[Document, bytes] | None:
    """The paper that the job inside leads to today, and its record; None where something stops it."""
    from scopegen.build import open_case
    from scopegen.check import check
    from scopegen.papers.frame import NotWorkedOut, frame_of
    from scopegen.record import recorded_agreement
    from scopegen.workspace import place_in_workspace

    made = paper.record.paper
    case = open_case(job, made.dated, content=paper.job)
    if check(case).stops and not made.draft:
        return None
    try:
        frame = frame_of(case, case.words, draft=made.draft, signed_on=made.signed_on)
        return recorded_agreement(frame, place_in_workspace(job))
    except NotWorkedOut:
        return None
