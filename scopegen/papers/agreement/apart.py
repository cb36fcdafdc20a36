"""What is told apart: the visits of a job, and what each of several properties pays."""

from __future__ import annotations

from scopegen.papers.document import Cell, Column, Paragraph, Row, Section, Table
from scopegen.papers.frame import Frame, capital
from scopegen.quantities import show
from scopegen.words.phrases import begin_phrase


def billed_apart(frame: Frame) -> list[Section]:
    """What each of several properties pays; none where there is one."""
    say, priced = frame.say, frame.priced
    if not priced.sites:
        return []
    rows = [
        Row(
            (
                Cell(site.name, (site.property, frame.words.list(site.beds))),
                Cell(site.bill_to),
                Cell(frame.money(site.before_tax - site.discount)),
                Cell(frame.money(site.tax)),
                Cell(frame.money(site.total)),
            )
        )
        for site in priced.sites
    ]
    columns = (
        Column(say("agreement.sites.site"), width="wide"),
        Column(say("agreement.sites.bill_to")),
        *(Column(say(f"agreement.sites.{key}"), figures=True) for key in ("before_tax", "tax", "total")),
    )
    split = frame.words.list(
        say("agreement.sites.hauls", site=site.name, share=show.percent(site.hauling))
        for site in frame.job.sites
    )
    note = Paragraph(say("agreement.sites.note", split=split), "small")
    title = say("agreement.sites.title")
    return [Section("sites", title, (Table(title, columns, tuple(rows), "price"), note))]


def visits_section(frame: Frame) -> list[Section]:
    """A row a visit; none where the job is done in one."""
    say, job = frame.say, frame.job
    if not job.visits:
        return []
    rows = [
        Row(
            (
                Cell(visit.name),
                Cell(begin_phrase(visit.start, frame.words)),
                Cell(frame.words.list(_done_at(frame, visit.name)) or say("agreement.visits.nothing")),
            )
        )
        for visit in job.visits
    ]
    columns = (
        Column(say("agreement.visits.visit")),
        Column(say("agreement.visits.start")),
        Column(say("agreement.visits.done"), width="wide"),
    )
    table = Table(say("agreement.visits.title"), columns, tuple(rows))
    note = Paragraph(say("agreement.visits.note"), "small")
    return [Section("visits", say("agreement.visits.title"), (table, note))]


def _done_at(frame: Frame, visit: str) -> list[str]:
    """The kinds of work and material of a visit, each once."""
    done = []
    for share in frame.measured.shares:
        of = share.part.visit or frame.job.beds[share.bed].visit
        work = frame.chart.work.get(share.part.work or "")
        material = frame.chart.materials.get(getattr(share.part, "use", None) or "")
        if of == visit and share.how in ("included", "no-charge", "add-on") and (work or material):
            done.append(capital((work or material).name))  # type: ignore[union-attr]
    for part in frame.job.extras:
        if part.visit == visit and part.work in frame.chart.work:
            done.append(capital(frame.chart.work[part.work].name))
    return list(dict.fromkeys(done))
