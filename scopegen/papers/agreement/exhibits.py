"""The exhibits: the beds drawn to scale, and how each quantity was worked out."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.drawing import Drawing, Drawn, Plan, draw_beds, draw_plans
from scopegen.drawing.legend import KINDS, legend
from scopegen.measure import BedMeasure
from scopegen.papers.agreement.seen import seen_at
from scopegen.papers.document import Figure, Figures, Paragraph, Photo, Photos, Section, Steps
from scopegen.papers.frame import Frame, capital
from scopegen.photos import Photograph
from scopegen.quantities import show
from scopegen.shapes import sides
from scopegen.working import worked_out

HALF_PAGE = 225.0  # points: the widest drawing that leaves room for another beside it


def exhibits(frame: Frame) -> list[Section]:
    """Every exhibit that the job has something for, lettered."""
    found = [*_drawings(frame), _working(frame), *_photographs(frame)]
    letters = frame.say("exhibits.letters").split(", ")
    return [
        Section(key, frame.say("exhibits.titled", letter=letter, title=title), blocks, role="exhibit")
        for letter, (key, title, blocks) in zip(letters, found, strict=False)
    ]


Exhibit = tuple[str, str, tuple[Paragraph | Figures | Photos | Section | Steps, ...]]


def _drawings(frame: Frame) -> Iterator[Exhibit]:
    say, drawn = frame.say, draw_beds(frame.case, frame.words)
    figures = [
        Figure(each.bed.name, each.drawing, tuple(_lines(frame, each))) for each in drawn if each.drawing
    ]
    if not figures:
        return
    plans = [_plan_figure(frame, plan) for plan in draw_plans(frame.case, frame.words, drawn)]
    used = {stroke.kind for figure in figures for stroke in figure.drawing.strokes}
    entries = [(kind, say(f"exhibits.line.{kind}")) for kind in KINDS if kind in used]
    key = Figure(say("exhibits.legend"), legend(entries, say("exhibits.legend_told")))
    blocks: list[Paragraph | Figures] = [Paragraph(say("exhibits.drawings_intro"))]
    # the plan before the legend, which tells what the lines of the single beds mean
    blocks.append(Figures((*((plan,) for plan in plans), (key,), *_rows(figures))))
    undrawn = [each.bed for each in drawn if not each.drawing]
    if undrawn:
        beds = frame.words.list(_undrawn(frame, bed) for bed in undrawn)
        blocks.append(Paragraph(say("exhibits.undrawn", beds=beds), "small"))
    yield "drawings", say("exhibits.drawings"), tuple(blocks)


def _rows(figures: list[Figure]) -> tuple[tuple[Figure, ...], ...]:
    """A narrow drawing shares its row with the next narrow one."""
    rows: list[tuple[Figure, ...]] = []
    waiting: int | None = None  # the row of a narrow drawing that has no other beside it yet
    for figure in figures:
        narrow = figure.drawing.width <= HALF_PAGE
        if narrow and waiting is not None:
            rows[waiting], waiting = (*rows[waiting], figure), None
            continue
        rows.append((figure,))
        waiting = len(rows) - 1 if narrow else waiting
    return tuple(rows)


def _plan_figure(frame: Frame, plan: Plan) -> Figure:
    title = frame.say("exhibits.plan_map" if plan.on_map else "exhibits.plan_corner")
    return Figure(title, plan.drawing, (*_key(frame, plan.drawing), frame.say("exhibits.plan_lines")))


def _key(frame: Frame, drawing: Drawing) -> tuple[str, ...]:
    """The names that numbers stand for in a drawing, on one line."""
    named = [frame.say("exhibits.key", number=number, name=name) for number, name in drawing.key]
    return ("; ".join(named),) if named else ()


def _lines(frame: Frame, drawn: Drawn) -> Iterator[str]:
    """What is told beside a drawing: area, outline and open edge, and what the drawing cannot show."""
    say, units, bed = frame.say, frame.job.units, drawn.bed
    described = frame.job.beds[bed.index]
    assert bed.area is not None and drawn.laid is not None
    way = described.measured_by or frame.job.every_bed.measured_by
    area = show.area(bed.area, units)
    told = [say("agreement.scope.size", area=area, by=say(f"measured_by.{way}")) if way else area]
    if bed.outline is not None:
        told.append(say("exhibits.outline", length=show.run(bed.outline, units)))
    if bed.open_edge is not None:
        told.append(say("exhibits.open_edge", length=show.run(bed.open_edge, units)))
    yield "; ".join(told)
    named = sides(described.shape.value()) or {} if described.shape else {}
    for what, entries in described.against.items():
        unplaced = [entry for entry in entries if entry not in named]
        if unplaced:
            yield say("exhibits.somewhere", what=what, length=frame.words.list(unplaced))
    if bed.grown:
        yield say("exhibits.grown", area=show.area(bed.grown, units))
    if drawn.drawing:
        yield from _key(frame, drawn.drawing)
    if described.parts:
        yield say("exhibits.parts")
    if drawn.laid.scattered:
        yield say("exhibits.scattered")
    if drawn.laid.loose or any(hole.at is None for hole in described.leave_out):
        yield say("exhibits.left_out", area=show.area(bed.left_out, units))


def _undrawn(frame: Frame, bed: BedMeasure) -> str:
    size = show.volume(bed.stated, frame.job.units) if bed.stated is not None else ""
    size = size or (show.area(bed.area, frame.job.units) if bed.area is not None else "")
    return f"{bed.name} ({size})" if size else bed.name


def _working(frame: Frame) -> Exhibit:
    """The sheets of the working, all but what only the crew's hours come from."""
    sheets = worked_out(frame.case, frame.words, hours=False)
    steps = tuple(Steps(sheet.title, sheet.steps) for sheet in sheets if sheet.steps)
    intro = Paragraph(frame.say("exhibits.working_intro"))
    inner = Section("steps", frame.say("exhibits.steps"), steps, role="terms")
    return "working", frame.say("exhibits.working"), (intro, inner)


def _photographs(frame: Frame) -> Iterator[Exhibit]:
    """Every photograph that can be shown, with its bed and what is to be seen on it."""
    say, photos = frame.say, []
    for index, bed in enumerate(frame.job.beds):
        for photo in bed.photos:
            taken = frame.case.photos.get(photo.file)
            if not isinstance(taken, Photograph):
                continue  # a draft of a job whose photo is missing
            shows = photo.shows or seen_at(frame, index)
            named = say("exhibits.photo_told", bed=bed.name, shows=shows.rstrip(".")) if shows else ""
            told = named or say("exhibits.photo_told_bare", bed=bed.name)
            line = capital(shows)
            photos.append(Photo(bed.name, taken.jpeg, taken.width, taken.height, line, told))
    if photos:
        intro = Paragraph(say("exhibits.photos_intro", day=frame.words.day(frame.job.walked)))
        yield "photographs", say("exhibits.photos"), (intro, Photos(tuple(photos)))
