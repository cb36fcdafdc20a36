"""Opens what a workspace writes papers with, for the proofs of the clause library; and its lock of wording
that was put on paper."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

from scopegen.case import Case
from scopegen.chart import Chart
from scopegen.clauses import read_library
from scopegen.company import Company
from scopegen.findings import Finding
from scopegen.library_folder import library_folder
from scopegen.load import Source, Unreadable, load
from scopegen.load.reading import leads_out, read_bytes, text_of
from scopegen.printed import Printed, digest, read_printed
from scopegen.proofs import Stock
from scopegen.understand import understand_chart, understand_company
from scopegen.workspace import Workspace, shown

_CHART = re.compile(r"prices-([0-9]{4})\.yaml")
MOST_LOCKED = 64_000_000  # bytes: half a dozen seasons of a large library in several languages are a tenth


def open_stock(space: Workspace | None, shipped: Path | None = None) -> Stock:
    """The whole library, every price chart and the lock of a workspace; the shipped library alone where there
    is no workspace. What cannot be read is among the findings of the library."""
    shipped = shipped or library_folder()
    own = space.clauses if space else None
    library = read_library(shipped, own, shown(own) if own else "")
    findings: list[Finding] = []
    charts = tuple(_charts(space, findings)) if space else ()
    laws = dict(_laws(shipped, findings))
    printed: tuple[Printed, ...] = ()
    if space:
        try:
            printed = printed_in(space)
        except Unreadable as error:
            findings.append(error.finding)
    library = replace(library, findings=(*library.findings, *findings))
    lock = shown(space.lock) if space else ""
    return Stock(library, charts, laws, printed, lock, _company(space))


def newest_season(stock: Stock, space: Workspace | None) -> int:
    """The season of the newest price chart; without one, that of the newest wording."""
    charts = seasons_of(space) if space else ()
    versions = (
        version.season
        for held in stock.library.held.values()
        for clause in held.files
        for version in clause.wording
    )
    return max(charts, default=0) or max(versions, default=0)


def _company(space: Workspace | None) -> Company | None:
    """Whose workspace it is, where that can be read; `check` says what is wrong with it."""
    try:
        if space is None:
            return None
        source = load(space.company, shown(space.company), inside=space.folder, kind="company")
        return understand_company(source).value
    except Unreadable:
        return None


def seasons_of(space: Workspace) -> tuple[int, ...]:
    """The seasons that a workspace has price charts for, the oldest first."""
    names = (_CHART.fullmatch(path.name) for path in space.folder.glob("prices-*.yaml"))
    return tuple(sorted(int(found[1]) for found in names if found))


def _charts(space: Workspace, findings: list[Finding]) -> Iterable[tuple[Source, Chart]]:
    for season in seasons_of(space):
        path = space.chart(season)
        try:
            source = load(path, shown(path), inside=space.folder, kind="chart")
        except Unreadable as error:
            findings.append(error.finding)
            continue
        understood = understand_chart(source)
        findings += understood.findings
        yield source, understood.value


def _laws(shipped: Path, findings: list[Finding]) -> Iterable[tuple[str, Source]]:
    for path in sorted((shipped / "law").glob("*.yaml")):
        try:
            yield path.name, load(path, f"clause_library/law/{path.name}", kind="law")
        except Unreadable as error:
            findings.append(error.finding)


def printed_in(space: Workspace) -> tuple[Printed, ...]:
    """The wording that a workspace has put on paper. Raises Unreadable."""
    path = space.lock
    if not path.exists() and not leads_out(path, space.folder):
        return ()
    name = shown(path)
    return read_printed(text_of(read_bytes(path, name, MOST_LOCKED, space.folder), name), name)


def printed_by(case: Case, job: str) -> tuple[Printed, ...]:
    """The wording that a case's agreement puts on paper; `job` is its file in the workspace."""
    assert case.chosen is not None and case.job.dated is not None
    return tuple(
        Printed(
            clause=used.clause,
            version=used.wording.version,
            whose=used.wording.whose,
            language=case.job.language,
            way=used.way,
            since=case.job.dated.isoformat(),
            job=job,
            sha256=digest(used.wording.text),
            text=" ".join(used.wording.text.split()),
        )
        for used in case.chosen.texts
    )
