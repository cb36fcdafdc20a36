"""The wording of two seasons on paper, to be read out: what went out and what came in, told in words."""

from __future__ import annotations

from datetime import date

from scopegen.comparing import ChangedClause
from scopegen.papers.document import Block, Compared, Document, Masthead, Paragraph, Section
from scopegen.words import Lexicon


def compose(
    changes: tuple[ChangedClause, ...], old: int, new: int, words: Lexicon, company: str = ""
) -> Document:
    """The paper: a section a clause. It is dated the first day of the newer season."""
    say = words.say
    title = say("comparison.title", old=old, new=new)
    intro: tuple[Block, ...] = (Paragraph(say("comparison.intro" if changes else "comparison.nothing")),)
    sections = [Section("about", say("comparison.about"), intro)]
    sections += [_section(change, words) for change in changes]
    return Document(
        kind="comparison",
        title=title,
        subtitle=say("comparison.subtitle"),
        language=words.language,
        page_size="letter",
        masthead=Masthead(company or say("comparison.library"), ()),
        running_head=title,
        page_of=words.texts["agreement"]["page_of"],
        dated=date(new, 1, 1),
        sections=tuple(sections),
    )


def _section(change: ChangedClause, words: Lexicon) -> Section:
    say = words.say
    blocks: list[Block] = [Paragraph(say(f"comparison.{change.kind}", clause=change.clause), "small")]
    if change.because:
        blocks.append(Paragraph(say("comparison.because", because=change.because)))
    if change.instead:
        blocks.append(Paragraph(say("comparison.instead", clause=change.instead)))
    if change.conditions:
        blocks.append(Paragraph(say("comparison.conditions")))
    for pair, key in ((change.titles, "title_was"), (change.absent_names, "name_was")):
        if pair:
            was, now = (each or say("comparison.none") for each in pair)
            blocks.append(Paragraph(say(f"comparison.{key}", old=was, new=now)))
    if change.unworded and not change.texts:
        blocks.append(Paragraph(say("comparison.unworded")))
    for text in change.texts:
        if text.without:
            blocks.append(Paragraph(say("comparison.without", version=text.without)))
        way = say(f"comparison.way.{text.way}")
        blocks.append(Compared(way, text.runs, out=say("comparison.out"), came_in=say("comparison.came_in")))
    return Section(f"clause-{change.clause}", change.title, tuple(blocks))
