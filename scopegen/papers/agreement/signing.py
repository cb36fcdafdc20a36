"""Signatures, the cancellation statement beside them, and the notices where the law asks for them."""

from __future__ import annotations

from datetime import timedelta

from scopegen.law import Given, Right, latest
from scopegen.papers.agreement.versions import versions_line
from scopegen.papers.document import (
    BY_HAND,
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

MOST_LAST_DAYS = 31
FOR_OTHERS = ("manager", "association")  # whose name is an office's, and says not who signs
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
    given = frame.case.given
    aloud = bool(given) and given.acknowledged is None  # where it is, the customer signs for it apart
    told = (Blank(say("agreement.sign.told"), size="short", kind="initials"),) if aloud else ()
    customer = frame.job.customer
    role = say("agreement.sign.customer_as", role=say(f"signs_as.{customer.signs_as}"))
    buyers = [(role, customer.name)]
    buyers += [
        (say("agreement.sign.customer_at", site=site.name), site.bill_to)
        for site in frame.job.sites
        if site.bill_to != customer.name
    ]
    by_somebody = (Blank(say("agreement.sign.who"), kind="name"),) if customer.signs_as in FOR_OTHERS else ()
    signers = (
        *(Signer(role, name, (*lines, *by_somebody, *told)) for role, name in buyers),
        Signer(say("agreement.sign.contractor"), f"{frame.company.signs}, {frame.company.name}", lines),
    )
    marked = (Paragraph(say("agreement.sign.mark", mark=mark), "small"),) if mark else ()
    blocks = (
        Paragraph(say("agreement.sign.intro")),
        *marked,
        versions_line(frame),
        Signatures(signers, given.statement if given else ""),
    )
    sections = [Section("sign", say("agreement.sign.title"), blocks, role="signing")]
    if given and given.acknowledged:
        sections.append(_acknowledged(frame, given))
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


def _acknowledged(frame: Frame, given: Given) -> Section:
    """What the customer signs besides: that they were told aloud, in the law's own words."""
    words = given.acknowledged
    assert words is not None
    text = words.text.format(buyer=frame.job.customer.name)
    signed = frame.words.day(frame.signed_on) if frame.signed_on else ""
    blanks = (
        Blank(words.older, size="short", kind="initials"),
        Blank(words.signature, kind="signature"),
        Blank(words.date, signed, "short", "date"),
    )
    blocks = (Paragraph(text, "statement"), Blanks(blanks))
    return Section("acknowledged", frame.say("agreement.law.acknowledged"), blocks, role="signing")


def state_sections(frame: Frame) -> list[Section]:
    """What the law of the property's state has the paper say, as it stands in the statute."""
    language = frame.words.language
    sections = []
    for page in frame.case.pages:
        for name, said in page.says.items():
            if language not in said.text:
                continue  # found by a rule, and only a draft is written
            cited = frame.say(
                "agreement.law.cited", citation=said.citation, day=frame.words.day(page.looked_at)
            )
            note = " ".join(filter(None, (f"{cited}.", _translated(frame, language in page.translated))))
            blocks = (Paragraph(said.text[language], "statement"), Paragraph(note, "small"))
            sections.append(Section(f"law-{page.law}-{name}", said.title[language], blocks))
    return sections


def _translated(frame: Frame, here: bool) -> str:
    return frame.say("agreement.law.translated") if here else ""


def notices(frame: Frame) -> list[Section]:
    """The notice of cancellation in duplicate, each on a page of its own that can be torn off."""
    given = frame.case.given
    if frame.draft or given is None:
        return []
    return [_notice(frame, given, copy) for copy in range(1, given.copies + 1)]


def _notice(frame: Frame, given: Given, copy: int) -> Section:
    say, form, company, rights = frame.say, given.form, frame.company, frame.case.rights
    signed = frame.words.day(frame.signed_on) if frame.signed_on else ""
    last = frame.words.day(latest(rights, frame.signed_on)) if frame.signed_on else BY_HAND
    filled = {"seller": company.name, "seller_address": ", ".join(company.address), "last_day": last}
    paragraphs = [
        Paragraph(text, "statement", day=say("agreement.law.last_days") if BY_HAND in text else "")
        for text in (paragraph.format(**filled) for paragraph in form.paragraphs)
    ]
    follows = say("agreement.law.no_advice" if len(rights) == 1 else "agreement.law.no_advice_many")
    cited = "; ".join(
        say("agreement.law.cited", citation=right.citation, day=frame.words.day(right.law.looked_at))
        for right in rights
    )
    marked = (f"{say('agreement.law.copy', number=copy)}.", _translated(frame, given.is_translated))
    copied = " ".join(marked) if given.is_translated else say("agreement.law.copy", number=copy)
    return Section(
        f"notice-{given.law}-{copy}",
        given.title,
        (
            Paragraph(copied, "small"),
            Blanks((Blank(form.date_of_transaction, signed, "short", "date"),)),
            *paragraphs,
            Paragraph(form.declaration, "statement"),
            Blanks((Blank(form.date, size="short", kind="date"), Blank(form.signature, kind="signature"))),
            Paragraph(f"{follows} {cited}.", "small"),
        ),
        role="notice",
    )
