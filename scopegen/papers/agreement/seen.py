"""What the walk saw, bed by bed: what the price rests on."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.job import FoundPart
from scopegen.measure import Ground
from scopegen.papers.document import Cell, Column, Paragraph, Row, Section, Table
from scopegen.papers.frame import Frame
from scopegen.quantities import show

FACTS = ("edge", "weeds", "leaves", "trash", "roots", "slope")


def seen_section(frame: Frame) -> list[Section]:
    """A row a bed, or a row a part of a bed that was found otherwise; none where nothing was noted."""
    if not any(bed.grounds for bed in frame.measured.beds):
        return []
    say = frame.say
    rows = []
    for bed in frame.measured.beds:
        for ground in bed.grounds or (None,):
            name = bed.name if ground is None else _name(frame, bed.name, ground, alone=len(bed.grounds) == 1)
            facts = list(_facts(frame, ground.found)) if ground else []
            rows.append(Row((Cell(name), Cell(", ".join(facts) or say("agreement.seen.nothing")))))
    columns = (Column(say("agreement.seen.bed")), Column(say("agreement.seen.found"), width="main"))
    table = Table(say("agreement.seen.caption"), columns, tuple(rows))
    intro = Paragraph(say("agreement.seen.intro", day=frame.words.day(frame.job.walked)))
    shown = any(bed.photos for bed in frame.job.beds)
    photos = [Paragraph(say("agreement.seen.photos"), "small")] if shown else []
    return [Section("seen", say("agreement.seen.title"), (intro, table, *photos))]


def seen_at(frame: Frame, bed: int) -> str:
    """What the walk saw on a bed, in a few words; nothing where nothing was noted."""
    grounds = frame.measured.beds[bed].grounds
    return "; ".join(filter(None, (", ".join(_facts(frame, ground.found)) for ground in grounds)))


def _name(frame: Frame, bed: str, ground: Ground, *, alone: bool) -> str:
    part = ground.name or ("" if alone else show.area(ground.area, frame.job.units))
    return frame.say("beds.part", bed=bed, part=part) if part else bed


def _facts(frame: Frame, found: FoundPart) -> Iterator[str]:
    say, units = frame.say, frame.job.units
    for fact in FACTS[:4]:
        yield from _fact(frame, found, fact)
    if found.ground:
        ground = say(f"found.word.{found.ground}")
        depth = show.depth(found.ground_depth, units) if found.ground_depth else ""
        yield say("found.ground_depth", ground=ground, depth=depth) if depth else ground
    if found.planted:
        yield say("found.planted", share=show.percent(found.planted))
    for fact in FACTS[4:]:
        yield from _fact(frame, found, fact)
    if found.note:
        yield found.note


def _fact(frame: Frame, found: FoundPart, fact: str) -> Iterator[str]:
    value = getattr(found, fact)
    if value is not None:
        word = "missing" if fact == "edge" and value == "none" else value
        yield frame.say(f"found.{fact}", value=frame.say(f"found.word.{word}"))
