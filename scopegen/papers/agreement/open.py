"""A draft's list of what nobody decided yet, each with a line to write on, and of what is to be put right."""

from __future__ import annotations

from pathlib import PurePath

from scopegen.check import check
from scopegen.findings import Finding, Level
from scopegen.papers.document import Blank, Blanks, Block, Items, Paragraph, Section
from scopegen.papers.frame import Frame


def still_open(frame: Frame) -> list[Section]:
    """The open decisions as blanks to fill in by hand, then whatever else stops the agreement; nothing where
    nothing does."""
    say, checked = frame.say, check(frame.case)
    blanks, said = [], set()
    for decision in checked.open:
        name = say(f"decision.{decision.decision}")
        label = (
            say("agreement.open.part", bed=decision.bed, decision=name)
            if decision.bed
            else say("agreement.open.site", decision=name)
        )
        blanks.append(Blank(label))
        said.add((decision.bed, decision.decision))
    blocks: list[Block | Section] = (
        [Paragraph(say("agreement.open.intro")), Blanks(tuple(blanks))] if blanks else []
    )
    others = [f for f in checked.findings if f.level is Level.STOPS and not f.rule.startswith("open-")]
    if others:
        wrong = Items(tuple(Paragraph(_told(frame, finding)) for finding in others))
        blocks.append(Section("open-wrong", say("agreement.open.wrong"), (wrong,)))
    return [Section("open", say("agreement.open.title"), tuple(blocks))] if blocks else []


def _told(frame: Frame, finding: Finding) -> str:
    """A finding as the paper's language tells it: what a check says is English."""
    file = PurePath(finding.place.file).name  # not where it lies: the paper is the same in every folder
    line = finding.place.line
    return frame.say("agreement.open.found", message=finding.message, file=file, line=line)
