"""Signatures, the cancellation statement beside them, and the notices where the law asks for them."""

from __future__ import annotations

from datetime import date, timedelta

from scopegen.law import Right
from scopegen.papers.agreement.versions import versions_line
from scopegen.papers.document import (
    Blank,
    Blanks,
    Cell,
    Column,
    Paragraph,
    Row,
    Section,
    Signatures,
    Signer,
    Table,
)
from scopegen.papers.frame import Frame
from scopegen.words.phrases import last_offer_day

BY_HAND = "____________________"
MOST_LAST_DAYS = 31
ACROSS = 4  # how many pairs of days stand side by side


def signing_sections(frame: Frame, mark: str) -> list[Section]:
    """The places to sign; a draft has none."""
    if frame.draft:
        return []
    say, rights = frame.say, frame.case.rights
    signed = frame.words.day(frame.signed_on) if frame.signed_on else ""
    lines = (
        Blank(say("agreement.sign.signature"), kind="signature"),
        Blank(say("agreement.sign.date"), signed, "short", "date"),
    )
    told = (Blank(say("agreement.sign.told"), size="short", kind="initials"),) if rights else ()
    customer = frame.job.customer
    role = say("agreement.sign.customer_as", role=say(f"signs_as.{customer.signs_as}"))
    buyers = [(role, customer.name)]
    buyers += [
        (say("agreement.sign.customer_at", site=site.name), site.bill_to)
        for site in frame.job.sites
        if site.bill_to != customer.name
    ]
    signers = (
        *(Signer(role, name, (*lines, *told)) for role, name in buyers),
        Signer(say("agreement.sign.contractor"), f"{frame.company.signs}, {frame.company.name}", lines),
    )
    statement = " ".join(right.statement for right in rights)
    marked = (Paragraph(say("agreement.sign.mark", mark=mark), "small"),) if mark else ()
    blocks = (
        Paragraph(say("agreement.sign.intro")),
        *marked,
        versions_line(frame),
        Signatures(signers, statement),
    )
    sections = [Section("sign", say("agreement.sign.title"), blocks, role="signing")]
    if rights and frame.signed_on is None:
        sections.append(Section("last-days", say("agreement.law.last_days"), (_last_days(frame, rights),)))
    return sections


def _last_days(frame: Frame, rights: tuple[Right, ...]) -> Table:
    """The last day to cancel for each day on which the offer stands; the latest where rights differ."""
    say, first, last = frame.say, frame.job.dated, last_offer_day(frame.job)
    count = min(((last - first).days if last else 0) + 1, MOST_LAST_DAYS)
    days = [first + timedelta(days=i) for i in range(count)]
    deep = -(-len(days) // ACROSS)
    rows = []
    for row in range(deep):
        cells = []
        for column in range(ACROSS):
            place = row + column * deep
            cells += (
                [frame.words.short_day(days[place]), frame.words.short_day(latest(rights, days[place]))]
                if place < len(days)
                else ["", ""]
            )
        rows.append(Row(tuple(Cell(text) for text in cells)))
    columns = tuple(Column(say(f"agreement.law.{key}")) for _ in range(ACROSS) for key in ("signed", "until"))
    return Table(say("agreement.law.last_days"), columns, tuple(rows), row_headers=False)


def latest(rights: tuple[Right, ...], signed: date) -> date:
    """The latest of the last days: no paper says less than any right gives."""
    return max(right.last_day(signed) for right in rights)


def notices(frame: Frame) -> list[Section]:
    """The notice of cancellation in duplicate, each on a page of its own that can be torn off."""
    if frame.draft:
        return []
    return [
        _notice(frame, right, copy) for right in frame.case.rights for copy in range(1, right.law.copies + 1)
    ]


def _notice(frame: Frame, right: Right, copy: int) -> Section:
    say, form, company = frame.say, right.form, frame.company
    signed = frame.words.day(frame.signed_on) if frame.signed_on else ""
    last = frame.words.day(latest(frame.case.rights, frame.signed_on)) if frame.signed_on else BY_HAND
    filled = {"seller": company.name, "seller_address": ", ".join(company.address), "last_day": last}
    paragraphs = [Paragraph(text.format(**filled), "statement") for text in form.paragraphs]
    cited = say("agreement.law.cited", citation=right.law.citation, day=frame.words.day(right.law.looked_at))
    return Section(
        f"notice-{right.law.law}-{copy}",
        right.title,
        (
            Paragraph(say("agreement.law.copy", number=copy), "small"),
            Blanks((Blank(form.date_of_transaction, signed, "short", "date"),)),
            *paragraphs,
            Paragraph(form.declaration, "statement"),
            Blanks((Blank(form.date, size="short", kind="date"), Blank(form.signature, kind="signature"))),
            Paragraph(f"{say('agreement.law.no_advice')} {cited}.", "small"),
        ),
        role="notice",
    )
