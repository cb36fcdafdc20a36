"""The way through: load, measure, price, choose clauses, check; then compose and render."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from importlib.resources.abc import Traversable
from os.path import lexists
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from scopegen.answers import every_answer
from scopegen.case import Case
from scopegen.chart import Chart
from scopegen.clauses import Library, choose, clauses_named, read_library
from scopegen.company import Company
from scopegen.findings import Finding, Level, Place
from scopegen.job import Job
from scopegen.kept import Kept
from scopegen.law import Law, pages_for, read_laws, rights_of, unworded_in
from scopegen.library_folder import library_folder
from scopegen.load import Kind, Source, Unreadable, load, unreadable
from scopegen.measure import measure
from scopegen.one_language import Missing, chart_with_words, in_one_language, job_with_words
from scopegen.photos import Photograph, Unusable, read_photograph
from scopegen.price import price
from scopegen.render.undrawable import undrawable
from scopegen.understand import Understood, understand_chart, understand_company, understand_job
from scopegen.words import SHIPPED, languages, lexicon
from scopegen.workspace import Workspace, place_in_workspace, shown, workspace_of

if TYPE_CHECKING:
    from scopegen.papers.document import Document

M = TypeVar("M")
NEWEST = 9999  # a season that no chart is later than
Wording = tuple[Library, tuple[tuple[Law, ...], tuple[Finding, ...]]]


def open_case(
    path: Path,
    dated: date | None = None,
    library: Path | None = None,
    content: bytes | None = None,
    kept: Kept | None = None,
    words: Traversable = SHIPPED,
) -> Case:
    """A job description worked out as far as it can be. `dated` goes before the job's own date, `library`
    before the clause library that ships, `words` before the folder of words that ships, and `content` before
    what now stands in the file. What other jobs share with it is taken from `kept`, and left there.

    Raises Unreadable where the job description itself cannot be understood.
    """
    space = workspace_of(path)
    source = load(path, shown(path), content, inside=space.folder if space else None)
    _refuse_name_that_is_no_text(path)
    refuse_other_files(source)
    job = understand_job(source)
    if dated is not None:
        job = replace(
            job, value=job.value.model_copy(update={"dated": dated}), broken=job.broken - {("dated",)}
        )
    answers = every_answer(job.value, job.broken)
    case = Case(source, job.value, job.broken, answers, reading=job.findings)
    case = replace(case, photos=_photos(job.value, path, space.folder if space else path.parent))
    if space is None:
        missing = Finding(
            "no-workspace",
            Level.STOPS,
            "there is no company.yaml beside this job or in a folder above it",
            "put the job in a folder with company.yaml and the season's price chart",
            source.at(1, 1),
        )
        return _drawn(_with_words(replace(case, reading=(*case.reading, missing)), words))
    kept = kept or Kept()
    case = _with_words(_with_company(case, space, kept), words)
    return _drawn(_priced(case, space, library or library_folder(), kept))


def _drawn(case: Case) -> Case:
    """The case with a finding for each character that no paper can be drawn with."""

    return replace(case, reading=(*case.reading, *undrawable(case, lambda: _draft(case))))


def _draft(case: Case) -> Document | None:
    """All that the final paper holds, where as much is worked out."""
    from scopegen.papers.agreement import compose  # rarely asked for, and slow to load
    from scopegen.papers.frame import NotWorkedOut, frame_of

    try:
        return compose(frame_of(case, case.words, draft=True)) if case.words else None
    except NotWorkedOut:
        return None


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
    kept: Kept, path: Path, space: Workspace, understand: Callable[[Source], Understood[M]]
) -> tuple[Source, Understood[M]]:
    """A file that jobs share, and what was understood of it. Raises Unreadable."""
    name = shown(path)

    def read() -> tuple[Source, Understood[M]]:
        kind: Kind = "company" if path == space.company else "chart"
        source = load(path, name, inside=space.folder, kind=kind)
        return source, understand(source)

    return kept.once((path, name), [path], read)


def _with_company(case: Case, space: Workspace, kept: Kept) -> Case:
    try:
        source, company = _read(kept, space.company, space, understand_company)
    except Unreadable as error:
        return replace(case, reading=(*case.reading, error.finding))
    reading = (*case.reading, *company.findings)
    job = case.job
    if "language" not in job.model_fields_set and ("language",) not in case.broken:
        job = job.model_copy(update={"language": company.value.language})
    return replace(
        case, job=job, company_source=source, company=company.value, company_broken=company.broken,
        reading=reading,
    )  # fmt: skip


def _with_words(case: Case, folder: Traversable) -> Case:
    """The case with the words of its language, and a finding for each language that has none."""
    known, findings = languages(folder), []
    said = [(case.job.language, case.job_source)] if "language" in case.job.model_fields_set else []
    said += [(case.company.language, case.company_source)] if case.company and case.company_source else []
    for language, source in said:
        if language not in known:
            message, fix = f"papers cannot be written in '{language}'", f"write one of: {', '.join(known)}"
            place = source.place(("language",))
            findings.append(Finding("unknown-language", Level.STOPS, message, fix, place))
    words = lexicon(case.job.language, folder) if case.job.language in known else None
    return replace(case, words=words, reading=(*case.reading, *findings))


def _priced(case: Case, space: Workspace, library: Path, kept: Kept) -> Case:
    chart, chart_source, findings = _chart(case, space, kept)
    case = replace(case, reading=(*case.reading, *findings))
    job = case.job
    measured = measure(job, chart.value if chart else None, case.answers)
    case = replace(case, measured=measured)
    if chart is None:
        return replace(case, company=_licensed(case, case.company))
    case = replace(case, chart_source=chart_source, chart=chart.value, chart_broken=chart.broken)
    wording = _wording(library, space.clauses, chart.value, kept)
    told, missing = _in_one_language(case)
    worked_out = _worked_out(told, wording)
    if missing:
        from scopegen.render.printed import printed_texts

        marked = _draft(_worked_out(_in_one_language(case, marked=True)[0], wording))
        texts = "\n".join(printed_texts(marked)) if marked else ""
        findings = tuple(
            each.as_finding(source, case.job.language) for source, each in missing if each.mark in texts
        )
        worked_out = replace(worked_out, reading=(*worked_out.reading, *findings))
    return worked_out


def _in_one_language(case: Case, *, marked: bool = False) -> tuple[Case, tuple[tuple[Source, Missing], ...]]:
    """The case with chart and company in the job's language, and what is missing with its file."""
    assert case.chart is not None and case.chart_source is not None
    house = case.company.language if case.company else case.job.language
    language = case.job.language if case.words else house
    chart, lacking = in_one_language(case.chart, language, house, marked=marked)
    missing = [(case.chart_source, each) for each in lacking]
    company = case.company
    if company is not None and case.company_source is not None:
        company, lacking = in_one_language(company, language, house, marked=marked)
        missing += [(case.company_source, each) for each in lacking]
    if case.words:
        chart = chart_with_words(chart, case.words)
    return replace(case, chart=chart, company=_licensed(case, company)), tuple(missing)


def _licensed(case: Case, company: Company | None) -> Company | None:
    """The company with its license for the property's state."""
    return company and company.working_in(case.job.customer.state if case.job.customer else None)


def _worked_out(case: Case, wording: Wording) -> Case:
    """The case priced and worded, in its one language."""
    assert case.chart is not None and case.measured is not None
    if case.chart_broken & {("worker_hour",), ("crew",), ("productive_hours",)}:
        return case
    job = job_with_words(case.job, case.words) if case.words else case.job
    priced = price(job, case.chart, case.measured, case.answers)
    return _worded(replace(case, priced=priced), wording)


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
        source, chart = _read(kept, path, space, understand_chart)
    except Unreadable as error:
        return None, None, (error.finding,)
    return chart, source, chart.findings


def _worded(case: Case, wording: Wording) -> Case:
    job, chart, words = case.job, case.chart, case.words
    if words is None:
        return case
    assert chart is not None and case.measured is not None and case.priced is not None
    library, (laws, law_findings) = wording
    states = frozenset(law.state for law in laws if law.state)
    reading = (*case.reading, *library.findings, *law_findings)
    in_force = library.in_force(job.season or NEWEST, job.dated or date.max)
    case = replace(case, library=library, in_force=in_force, states=states, reading=reading)
    if job.dated is None or job.season is None:
        return case
    words = words.in_currency(chart.currency or "USD")
    chosen = choose(in_force, job, chart, case.company, case.answers, case.measured, case.priced, words)
    found = rights_of(laws, job, case.priced)
    pages = pages_for(laws, job, case.priced)
    unworded = (*found.unworded, *unworded_in(pages, job.language))
    return replace(
        case, chosen=chosen, rights=found.rights, given=found.given, unworded_laws=unworded, pages=pages
    )


def _wording(folder: Path, own: Path, chart: Chart, kept: Kept) -> Wording:
    """The clauses that the chart's jobs can ask for, a contractor's own over those that ship, and the legal
    rules."""
    name, asked = shown(own), frozenset(clauses_named(chart))
    files = [own, *sorted({*own.rglob("*"), *own.glob("*/*.yaml"), *folder.glob("*/*.yaml")})]
    return kept.once(
        ("wording", folder, name, asked),
        files,
        lambda: (read_library(folder, own, name, asked), read_laws(folder)),
    )
