"""`scopegen clauses`: the clause library of a folder, read, proofread and compared."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
from click.core import ParameterSource

from scopegen.cli.arguments import AS_JSON, JOB, YEAR
from scopegen.cli.ending import Exit, stop
from scopegen.cli.folder import IN, no_such_clause
from scopegen.cli.jobs import Named, jobs_named, say_passed_over
from scopegen.cli.opening import opened, refuse
from scopegen.cli.spoken import Commands
from scopegen.cli.voice import is_quiet, news, print_drawn, print_json, result, trouble, visible

if TYPE_CHECKING:
    from scopegen.papers.document import Document
    from scopegen.proofs import Stock

OF_SEASON = click.option(
    "--season",
    type=YEAR,
    help="The season; of the newest price chart if you do not say.",
)
LANGUAGE = click.option("--language", default="en", show_default=True, help="The language of the wording.")
NAME = click.argument("name")


@click.group(cls=Commands, context_settings={"max_content_width": 100})
def clauses() -> None:
    """Read, check and compare the wording of agreements.

    The library that ships has a contractor's own folder `clauses/` laid over it.
    """


@clauses.command("list")
@IN
@OF_SEASON
@LANGUAGE
@AS_JSON
def list_(folder: Path, season: int | None, language: str, as_json: bool) -> None:
    """Print which clauses are in force for a season.

    Each with the season that its wording is from, whose it is, and when a paper takes it.
    """
    from scopegen.report.clauses import list_drawn, list_json, read_text

    stock, season = _stock(folder, season)
    if as_json:
        print_json(list_json(stock.library, season, _known(language), _own(folder)))
    else:
        print_drawn(list_drawn(stock.library, season, _known(language)))
        news(f"\n{read_text(stock.library, _own(folder))}")
    _say_if_unsound(stock)


@clauses.command()
@NAME
@IN
@OF_SEASON
@click.option("--language", help="The language of the wording; en if neither you nor --job say.")
@AS_JSON
@click.option("--job", type=click.Path(path_type=Path), help="A job: its wording, as its paper has it.")
def show(
    name: str, folder: Path, season: int | None, language: str | None, as_json: bool, job: Path | None
) -> None:
    """Print the wording of the clause NAME.

    Every text has the way to decide that it is for. With --job it is the wording of that job's season, day
    and language, and for what the job has decided so it says what its paper says. Other blanks are filled
    with the values of a part that is named, and where that has none with samples, which stand in brackets.
    """
    from scopegen.report.shown import meant, show_json, show_text

    if job and click.get_current_context().get_parameter_source("folder") is ParameterSource.COMMANDLINE:
        raise click.UsageError("--job lies in a folder of its own. Leave --in out, or --job.")
    case = opened(job, as_json) if job else None
    if job and case and case.chosen is None:
        refuse(case, f"The wording of {visible(job)} cannot be chosen yet:", as_json)
    stock, newest = _stock(folder if job is None else job.parent, None)
    if name not in stock.library.held:
        no_such_clause(name, stock.library)
    asked = meant(case, visible(job or ""), season, language and _known(language), newest)
    said = (stock.library, name, asked)
    print_json(show_json(*said)) if as_json else result(show_text(*said))
    _say_if_unsound(stock)


@clauses.command()
@IN
@AS_JSON
def check(folder: Path, as_json: bool) -> None:
    """Proofread the whole library.

    Blanks, ways, versions, languages, plain words, promises, and wording altered since it was put on paper.

    Exit code: 0 nothing stops, 1 something does.
    """
    from scopegen.findings import stops
    from scopegen.proofs import proofread
    from scopegen.report.clauses import check_text, tally_json

    stock, _ = _stock(folder, None)
    found, own = proofread(stock), _own(folder)
    if as_json:
        print_json({"findings": [finding.as_json() for finding in found], **tally_json(stock, own)})
    elif text := check_text(stock, found, own, only_stopping=is_quiet()):
        result(text)
    sys.exit(Exit.STOPPED if stops(found) else Exit.FINE)


@clauses.command()
@click.argument("old", type=YEAR)
@click.argument("new", type=YEAR)
@click.argument("names", nargs=-1, metavar="[NAME]...")
@IN
@LANGUAGE
@AS_JSON
@click.option(
    "--pdf", type=click.Path(path_type=Path, dir_okay=False), help="Write it as a paper to read from."
)
def compare(
    old: int, new: int, names: tuple[str, ...], folder: Path, language: str, as_json: bool, pdf: Path | None
) -> None:
    """Print what changes in the wording from OLD to NEW.

    OLD and NEW are seasons; words that go out and come in stand in brackets. With NAMEs, of those clauses
    alone.
    """
    from scopegen.comparing import changed_elsewhere, compared
    from scopegen.one_language import in_one_language
    from scopegen.papers.comparison import compose
    from scopegen.report.compared import compared_json, compared_text
    from scopegen.words import lexicon

    stock, _ = _stock(folder, new)
    for name in names:
        if name not in stock.library.held:
            no_such_clause(name, stock.library)
    changes = compared(stock.library, old, new, _known(language), names)
    if pdf:
        company = stock.company and in_one_language(stock.company, language, stock.company.language)[0].name
        _write_paper(pdf, compose(changes, old, new, lexicon(language), company or ""))
        return
    elsewhere = changed_elsewhere(stock.library, old, new, language, names)
    if as_json:
        print_json(compared_json(changes, elsewhere))
    else:
        result(compared_text(changes, old, new, language, elsewhere))


@clauses.command()
@NAME
@IN
@click.option("--season", type=YEAR, help="Only jobs of this season.")
@AS_JSON
def used(name: str, folder: Path, season: int | None, as_json: bool) -> None:
    """Print which jobs use the clause NAME.

    Each with the version, and how it was decided.
    """
    from scopegen.report.used import Use, used_text, uses_in

    stock, _ = _stock(folder, None)
    if name not in stock.library.held:
        no_such_clause(name, stock.library)
    uses: list[Use] = []
    unread: list[str] = []
    named = _named(folder)
    for job in named.jobs:
        case = _case(job)
        if case is None:
            unread.append(visible(job))
        elif season is None or case.job.season == season:
            uses += uses_in(case, job, name)
    if as_json:
        print_json({"clause": name, "uses": [use.as_json() for use in uses], "not_understood": unread})
    else:
        result(used_text(name, uses))
        if unread:
            trouble(f"Not understood, so not looked at: {', '.join(unread)}")
    say_passed_over(named, as_json)


@clauses.command()
@AS_JSON
def blanks(as_json: bool) -> None:
    """Print what a text may print, and what a condition may ask.

    Each with what it means and a sample, or the values that it can have.
    """
    from scopegen.clauses.conditions import catalogue
    from scopegen.report.clauses import catalogue_text

    print_json(catalogue()) if as_json else result(catalogue_text())


@clauses.command()
@JOB
@AS_JSON
def why(job: Path, as_json: bool) -> None:
    """Print which clauses JOB takes, and why.

    Also the work that the library knows and the job does not include.
    """
    from scopegen.report.used import why_json, why_text

    case = opened(job, as_json)
    if case.chosen is None:
        refuse(case, f"The wording of {visible(job)} cannot be chosen yet:", as_json)
    print_json(why_json(case)) if as_json else result(why_text(case))


def _stock(folder: Path, season: int | None) -> tuple[Stock, int]:
    """What a folder writes papers with, and the season that is meant."""
    from scopegen.stock import newest_season, open_stock
    from scopegen.workspace import workspace_of

    space = workspace_of(folder / "company.yaml")
    if space is None and not is_quiet():
        trouble(_no_workspace(folder))
    stock = open_stock(space)
    return stock, season or newest_season(stock, space)


def _no_workspace(folder: Path) -> str:
    """That nobody's own clauses are read, and where there would be some."""
    below = [visible(path.parent) for path in sorted(folder.glob("*/company.yaml"))]
    where = f"There is no company.yaml in {visible(folder.absolute())} or above it"
    advice = f"One is in {', '.join(below)}: name it with --in." if below else "Name its folder with --in."
    return f"{where}: what ships alone is read, without clauses of your own. {advice}"


def _own(folder: Path) -> str | None:
    """The folder of a contractor's own clauses, as it is shown; None where there is no workspace."""
    from scopegen.workspace import shown, workspace_of

    space = workspace_of(folder / "company.yaml")
    return shown(space.clauses) if space else None


def _known(language: str) -> str:
    from scopegen.words import languages

    if language not in languages():
        raise click.UsageError(f"There is no wording in '{language}'. Name one of: {', '.join(languages())}.")
    return language


def _say_if_unsound(stock: Stock) -> None:
    from scopegen.findings import stops

    if stops(stock.library.findings):
        trouble("Some files are not sound and are left out; `scopegen clauses check` says which.")
    elif any(each.rule == "clause-not-read" for each in stock.library.findings):
        trouble("Some files in clauses/ are not read; `scopegen clauses check` says which.")


def _named(folder: Path) -> Named:
    from scopegen.load import Unreadable

    try:
        return jobs_named((folder,))
    except Unreadable as error:
        stop(error.finding.as_text(), Exit.NOT_UNDERSTOOD)


def _case(job: Path) -> Any:
    from scopegen.build import open_case
    from scopegen.load import Unreadable

    try:
        return open_case(job)
    except Unreadable:
        return None


def _write_paper(path: Path, document: Document) -> None:
    from scopegen.cli.taken import refuse_what_came, refuse_what_is_there
    from scopegen.cli.targets import NoTarget
    from scopegen.render import RenderingUnavailable, UndrawableText, to_pdf
    from scopegen.render.save import save

    try:
        stood = refuse_what_is_there(path, "with --pdf", document.kind)
        content = to_pdf(document)
        refuse_what_came(path, stood, "with --pdf", document.kind)
        save(path, content)
    except (NoTarget, RenderingUnavailable, UndrawableText) as error:
        stop(str(error))
    except OSError as error:
        stop(f"{visible(path)} cannot be written: {error.strerror or error}. Name another file with --pdf.")
    news(f"Wrote {visible(path)}")
