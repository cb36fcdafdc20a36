"""The agreement: page 1 at a glance, the work in sentences, the price, the terms, the signatures."""

from __future__ import annotations

from scopegen.papers.agreement.apart import visits_section
from scopegen.papers.agreement.exhibits import exhibits
from scopegen.papers.agreement.front import front
from scopegen.papers.agreement.open import still_open
from scopegen.papers.agreement.price import found_section, payments_section, price_section
from scopegen.papers.agreement.scope import scope_sections
from scopegen.papers.agreement.seen import seen_section
from scopegen.papers.agreement.signing import notices, signing_sections, state_sections
from scopegen.papers.agreement.work import (
    add_on_sections,
    excluded_section,
    terms_sections,
    work_section,
    yours_section,
)
from scopegen.papers.document import Document, Section
from scopegen.papers.frame import Frame
from scopegen.quantities.units import shortened

LONGEST_IN_FOOT = 60  # characters of a name: two of the widest fill three of its six lines


def compose(frame: Frame, mark: str = "") -> Document:
    """The agreement of a job as a document, a draft where the frame says so. `mark` stands at the foot of
    each page, so that no page can be put in another's place."""
    say = frame.say
    numbered = [
        *(still_open(frame) if frame.draft else []),
        work_section(frame),
        excluded_section(frame),
        *yours_section(frame),
        *add_on_sections(frame),
        price_section(frame),
        payments_section(frame),
        *visits_section(frame),
        *seen_section(frame),
        *found_section(frame),
        *terms_sections(frame),
        *state_sections(frame),
        *signing_sections(frame, mark),
    ]
    sections = [front(frame), *scope_sections(frame), *_numbered(numbered), *exhibits(frame), *notices(frame)]
    customer = frame.job.customer.name
    return Document(
        kind="agreement",
        title=say("agreement.draft_title") if frame.draft else say("agreement.title"),
        subtitle=frame.job.job or "",  # a draft may lack even that
        language=frame.words.language,
        page_size=frame.job.paper,
        masthead=frame.masthead(),
        running_head=say(
            "agreement.running_marked" if mark else "agreement.running",
            company=shortened(frame.company.name, LONGEST_IN_FOOT),
            customer=shortened(customer, LONGEST_IN_FOOT),
            dated=frame.words.day(frame.job.dated),
            mark=mark,
        ),
        page_of=frame.words.texts["agreement"]["page_of"],
        dated=frame.job.dated,
        sections=tuple(sections),
        draft=say("agreement.draft") if frame.draft else "",
    )


def _numbered(sections: list[Section]) -> list[Section]:
    from dataclasses import replace

    return [replace(section, number=str(number)) for number, section in enumerate(sections, 1)]
