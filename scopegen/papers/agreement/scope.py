"""The scope table: a row a bed, a column a decision, a word in every cell."""

from __future__ import annotations

from collections.abc import Iterable

from scopegen.answers import Answer
from scopegen.job import DECISIONS, SITE_DECISIONS, MaterialPart, Part
from scopegen.measure import Share
from scopegen.papers.document import Cell, Column, Paragraph, Row, Section, Table
from scopegen.papers.frame import Frame, capital
from scopegen.quantities import show
from scopegen.words.phrases import by_phrase

COLUMNS = ("material", *(decision for decision in DECISIONS if decision != "material"))


def scope_sections(frame: Frame) -> list[Section]:
    """The table of the beds, and the one of the whole property."""
    return [_beds(frame), _site(frame)]


def word_of(frame: Frame, part: Part) -> str:
    """The word that stands in the table for one part's decision."""
    if part.how is None:
        return frame.say("decided.open")
    return (
        frame.say(f"decided.{part.how}", who=part.who or "…")
        if part.how == "elsewhere"
        else frame.say(f"decided.{part.how}")
    )


def _beds(frame: Frame) -> Section:
    say = frame.say
    columns = (
        Column(say("agreement.scope.bed")),
        *(Column(say(f"decision.{decision}")) for decision in COLUMNS),
    )
    rows = tuple(_row(frame, index) for index in range(len(frame.measured.beds)))
    table = Table(say("agreement.scope.caption"), columns, rows, "scope")
    return Section(
        "scope", say("agreement.scope.title"), (table, Paragraph(say("agreement.scope.note"), "small"))
    )


def _row(frame: Frame, index: int) -> Row:
    bed, job = frame.measured.beds[index], frame.job
    by = job.beds[index].measured_by or job.every_bed.measured_by
    size = show.area(bed.area, job.units) if bed.area is not None else ""
    size = show.volume(bed.stated, job.units) if bed.stated is not None else size
    if size and by:
        size = frame.say("agreement.scope.size", area=size, by=frame.say(f"measured_by.{by}"))
    cells = [Cell(bed.name, tuple(filter(None, (size,))))]
    for decision in COLUMNS:
        cells.append(_cell(frame, frame.case.answer_of(index, decision), bed.of(decision)))
    return Row(tuple(cells))


def _cell(frame: Frame, answer: Answer, shares: tuple[Share, ...]) -> Cell:
    if answer.open or answer.broken:
        decided = [word_of(frame, part) for part in answer.parts if part.how]
        return Cell(", ".join(dict.fromkeys([*decided, frame.say("decided.open")])), blank=True)
    words = list(dict.fromkeys(word_of(frame, part) for part in answer.parts))
    details = [_detail(frame, answer.decision, share, many=len(words) > 1) for share in shares]
    return Cell(", ".join(words), tuple(dict.fromkeys(filter(None, details))))


def _detail(frame: Frame, decision: str, share: Share, *, many: bool) -> str:
    part, chart = share.part, frame.chart
    what = chart.work[part.work].name if part.work in chart.work and part.how != "elsewhere" else ""
    if isinstance(part, MaterialPart) and part.use in chart.materials:
        depth = (
            frame.say("agreement.scope.depth", depth=show.depth(part.depth, frame.job.units))
            if part.depth
            else ""
        )
        depth = (
            frame.say("agreement.scope.up_to", depth=show.depth(part.top_up_to, frame.job.units))
            if part.top_up_to
            else depth
        )
        name = chart.materials[part.use].name
        yours = part.supplied_by == "customer"
        name = frame.say("agreement.scope.yours", material=name) if yours else name
        what = ", ".join(filter(None, (name, depth)))
    size = share.name or ("" if share.whole else frame.size(decision, share.area, share.length))
    by = by_phrase(part.by, frame.words) if part.by and part.how == "customer" else ""
    said = ", ".join(filter(None, (what, size, by)))
    return f"{word_of(frame, part)}: {said}" if many and said else capital(said)


def _site(frame: Frame) -> Section:
    say = frame.say
    columns = (
        Column(say("agreement.scope.site_decision")),
        Column(say("agreement.scope.site_word")),
        Column(say("agreement.scope.site_note"), width="wide"),
    )
    rows = tuple(_site_row(frame, answer) for answer in _site_answers(frame.case.answers))
    return Section(
        "scope-site",
        say("agreement.scope.site"),
        (Table(say("agreement.scope.site_caption"), columns, rows, "plain"),),
    )


def _site_answers(answers: Iterable[Answer]) -> list[Answer]:
    return [answer for answer in answers if answer.decision in SITE_DECISIONS]


def _site_row(frame: Frame, answer: Answer) -> Row:
    label = frame.say(f"decision.{answer.decision}")
    if answer.bed is not None:
        label = frame.say("beds.part", bed=label, part=frame.measured.beds[answer.bed].name)
    if answer.open or answer.broken:
        return Row((Cell(label), Cell(frame.say("decided.open"), blank=True), Cell("", blank=True)))
    words = ", ".join(dict.fromkeys(word_of(frame, part) for part in answer.parts))
    notes = []
    for part in answer.parts:
        by = by_phrase(part.by, frame.words) if part.by else ""
        way = frame.chart.access[part.way].name if part.way in frame.chart.access else ""
        notes += [way, part.spot or "", by, part.because or "", part.note or ""]
    first, *rest = [note[:1].upper() + note[1:] for note in notes if note] or [""]
    return Row((Cell(label), Cell(words), Cell(first, tuple(rest))))
