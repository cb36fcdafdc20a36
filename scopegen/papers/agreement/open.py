"""A draft's list of what nobody decided yet, each with a line to write on."""

from __future__ import annotations

from scopegen.papers.document import Blank, Blanks, Paragraph, Section
from scopegen.papers.frame import Frame
from scopegen.rules.decisions import open_decisions


def still_open(frame: Frame) -> Section:
    """The open decisions as blanks to fill in by hand."""
    say = frame.say
    blanks = []
    for decision in open_decisions(frame.case):
        name = say(f"decision.{decision.decision}")
        label = (
            say("agreement.open.part", bed=decision.bed, decision=name)
            if decision.bed
            else say("agreement.open.site", decision=name)
        )
        blanks.append(Blank(label))
    return Section(
        "open", say("agreement.open.title"), (Paragraph(say("agreement.open.intro")), Blanks(tuple(blanks)))
    )
