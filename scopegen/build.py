"""The way through: load, measure, price, choose clauses, check; then compose and render."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from os.path import lexists
from pathlib import Path
from typing import TypeVar

from scopegen.answers import every_answer
from scopegen.case import Case
from scopegen.chart import Chart
from scopegen.clauses import Library, choose, clauses_named, read_library
from scopegen.findings import Finding, Level, Place
from scopegen.job import Job
from scopegen.kept import Kept
from scopegen.law import Law, pages_for, read_laws, rights_of, unworded_in
from scopegen.library_folder import library_folder
from scopegen.load import Source, Unreadable, load, unreadable
from scopegen.measure import measure
from scopegen.papers.document import Document
from scopegen.photos import Photograph, Unusable, read_photograph
from scopegen.price import price
from scopegen.render.undrawable import undrawable
from scopegen.understand import Understood, understand_chart, understand_company, understand_job
from scopegen.words import languages, lexicon
from scopegen.workspace import Workspace, place_in_workspace, shown, workspace_of

M = TypeVar("M")
NEWEST = 9999  # a season that no chart is later than


def open_case(
    path: Path,
    dated: date | None = None,
    library: Path | None = None,
    content: bytes | None = None,
    kept: Kept | None = None,
) -> Case:
    """A job description worked out as far as it can be. `dated` goes before the job's own date, `library`
    before the clause library that ships, and `content` before what now stands in the file. What other jobs
    share with it is taken from `kept`, and left there.

    Raises Unreadable where the job description itself cannot be understood.
    """
    source = load(path, shown(path), content)
    _refuse_name_that_is_no_text(path)
    refuse_other_files(source)
    job = understand_job(source)
    if dated is not None:
        job = replace(
            job, value=job.value.model_copy(update={"dated": dated}), broken=job.broken - {("dated",)}
        )
    answers = every_answer(job.value, job.broken)
    case = Case(source, job.value, job.broken, answers, reading=job.findings)
    space = workspace_of(path)
    case = replace(case, photos=_photos(job.value, path, space.folder if space else path.parent))
    if space is None:
        missing = Finding(
            "no-workspace",
            Level.STOPS,
            "there is no company.yaml beside this job or in a folder above it",
            "put the job in a folder with company.yaml and the season's price chart",
            source.at(1, 1),
        )
        return _drawn(replace(case, reading=(*case.reading, missing)))
    kept = kept or Kept()
    return _drawn(_priced(_with_company(case, space, kept), space, library or library_folder(), kept))


def _drawn(case: Case) -> Case:
    """The case with a finding for each character that no paper can be drawn with."""

    def draft() -> Document | None:
        from scopegen.papers.agreement import compose  # rarely asked for, and slow to load
        from scopegen.papers.frame import NotWorkedOut, frame_of

        try:  # a draft holds all that the final paper does
            return compose(frame_of(case, lexicon(case.job.language), draft=True))
        except (NotWorkedOut, KeyError):
            return None

    return replace(case, reading=(*case.reading, *undrawable(case, draft)))


def _refuse_name_that_is_no_text(path: Path) -> None:
    """The job's name travels inside the paper, and a PDF holds names as text."""
    try:
        str(place_in_workspace(path)).encode("utf-8")
    except UnicodeEncodeError:
        name = shown(path)
        message, fix = f"the name of {name} is not UTF-8 text", "rename the file or its folder"
        raise unreadable("unreadable-file", message, fix, Place(name, 1, 1)) from None


def refuse_other_files(source: Source) -> None:
    """Raise Unreadable for a file of the workspace that is no job description."""
    keys = source.data.keys() if isinstance(source.data, dict) else set()
    fix = "name a job description, such as one of the files beside company.yaml"
    if len(keys & {"worker_hour", "materials", "work"}) > 1 and not keys & {"beds", "customer"}:
        raise unreadable("not-a-job", f"{source.name} is a price chart", fix, source.at(1, 1))
    if not keys & {"job", "beds", "customer"}:
        message = f"{source.name} is no job description: it has neither 'job' nor 'beds'"
        raise unreadable("not-a-job", message, fix, source.at(1, 1))


def _photos(job: Job, path: Path, folder: Path) -> dict[str, Photograph | Unusable]:
    """The photos that the job names and that lie beside it or below, inside the folder; a name that leads
    out of it is as good as none."""
    inside = folder.resolve()

    def there(name: str) -> bool:
        try:
            photo = (path.parent / name).resolve()
            return photo.is_relative_to(inside) and photo.is_file()
        except (OSError, ValueError):  # too long, or no name of a file at all
            return False

    names = dict.fromkeys(photo.file for bed in job.beds for photo in bed.photos)
    return {name: read_photograph((path.parent / name).resolve()) for name in names if there(name)}


def _read(
    kept: Kept, path: Path, understand: Callable[[Source], Understood[M]]
) -> tuple[Source, Understood[M]]:
    """A file that jobs share, and what was understood of it. Raises Unreadable."""
    name = shown(path)

    def read() -> tuple[Source, Understood[M]]:
        source = load(path, name)
        return source, understand(source)

    return kept.once((path, name), [path], read)


def _with_company(case: Case, space: Workspace, kept: Kept) -> Case:
    try:
        source, company = _read(kept, space.company, understand_company)
    except Unreadable as error:
        return replace(case, reading=(*case.reading, error.finding))
    reading = (*case.reading, *company.findings)
    ours = company.value.working_in(case.job.customer.state if case.job.customer else None)
    return replace(case, company_source=source, company=ours, company_broken=company.broken, reading=reading)


def _priced(case: Case, space: Workspace, library: Path, kept: Kept) -> Case:
    chart, chart_source, findings = _chart(case, space, kept)
    case = replace(case, reading=(*case.reading, *findings))
    job = case.job
    measured = measure(job, chart.value if chart else None, case.answers, case.broken)
    case = replace(case, measured=measured)
    if chart is None:
        return case
    case = replace(case, chart_source=chart_source, chart=chart.value, chart_broken=chart.broken)
    if chart.broken & {("worker_hour",), ("crew",), ("productive_hours",)}:
        return case
    priced = price(job, chart.value, measured, case.answers)
    return _worded(replace(case, priced=priced), space, library, job, chart.value, kept)


def _chart(
    case: Case, space: Workspace, kept: Kept
) -> tuple[Understood[Chart] | None, Source | None, tuple[Finding, ...]]:
    if case.job.season is None:
        return None, None, ()
    path = space.chart(case.job.season)
    if not lexists(path):  # a folder or a pipe of that name is found when it is read
        place = case.place(("season",))
        return (
            None,
            None,
            (
                Finding(
                    "no-chart",
                    Level.STOPS,
                    f"there is no price chart {shown(path)} for season {case.job.season}",
                    "write one, or name a season that has a chart",
                    place,
                ),
            ),
        )
    try:
        source, chart = _read(kept, path, understand_chart)
    except Unreadable as error:
        return None, None, (error.finding,)
    return chart, source, chart.findings


def _worded(case: Case, space: Workspace, folder: Path, job: Job, chart: Chart, kept: Kept) -> Case:
    if job.language not in languages():
        known = ", ".join(languages())
        finding = case.finding(
            "unknown-language",
            Level.STOPS,
            f"papers cannot be written in '{job.language}'",
            f"write one of: {known}",
            ("language",),
        )
        return replace(case, reading=(*case.reading, finding))
    assert case.measured is not None and case.priced is not None
    library, (laws, law_findings) = _wording(folder, space.clauses, chart, kept)
    states = frozenset(law.state for law in laws if law.state)
    reading = (*case.reading, *library.findings, *law_findings)
    in_force = library.in_force(job.season or NEWEST, job.dated or date.max)
    case = replace(case, library=library, in_force=in_force, states=states, reading=reading)
    if job.dated is None or job.season is None:
        return case
    words = lexicon(job.language).in_currency(chart.currency or "USD")
    chosen = choose(in_force, job, chart, case.company, case.answers, case.measured, case.priced, words)
    found = rights_of(laws, job, case.priced)
    pages = pages_for(laws, job, case.priced)
    unworded = (*found.unworded, *unworded_in(pages, job.language))
    return replace(
        case, chosen=chosen, rights=found.rights, given=found.given, unworded_laws=unworded, pages=pages
    )


def _wording(
    folder: Path, own: Path, chart: Chart, kept: Kept
) -> tuple[Library, tuple[tuple[Law, ...], tuple[Finding, ...]]]:
    """The clauses that the chart's jobs can ask for, a contractor's own over those that ship, and the legal
    rules."""
    name, asked = shown(own), frozenset(clauses_named(chart))
    files = sorted(path for each in (folder, own) for path in each.glob("*/*.yaml"))
    return kept.once(
        ("wording", folder, name, asked),
        files,
        lambda: (read_library(folder, own, name, asked), read_laws(folder)),
    )
