"""Page 1: who, where, when, and the price, deposit and start at a glance."""

from __future__ import annotations

from scopegen.papers.document import Block, Fact, Facts, Glance, Paragraph, Section
from scopegen.papers.frame import Frame
from scopegen.rules.decisions import open_decisions
from scopegen.words.phrases import counted, done_phrase, last_offer_day, start_phrase


def front(frame: Frame) -> Section:
    """The head of the first page."""
    blocks: list[Block] = []
    if frame.draft:
        count = len(open_decisions(frame.case))
        note = frame.words.counted("agreement.draft_note", count) if count else ""
        blocks.append(Paragraph(note or frame.say("agreement.draft_note_none"), "strong"))
    blocks += [_facts(frame), _glance(frame)]
    return Section("front", "", tuple(blocks), role="front")


def _facts(frame: Frame) -> Facts:
    say, job, words = frame.say, frame.job, frame.words
    customer = job.customer
    contact = [say("agreement.phone", phone=customer.phone) if customer.phone else "", customer.email or ""]
    role = say("agreement.signs_as", role=words.say(f"signs_as.{customer.signs_as}"))
    last = last_offer_day(job)
    dates = [
        say("agreement.walked", day=words.day(job.walked)) if job.walked else "",
        say("agreement.dated", day=words.day(job.dated)),
        say("agreement.offer_until", day=words.day(last)) if last else "",
    ]
    entries = [
        Fact(say("agreement.customer"), tuple(filter(None, (customer.name, *contact, role)))),
        Fact(say("agreement.property"), tuple(filter(None, (customer.property,)))),
        Fact(say("agreement.dates"), tuple(filter(None, dates))),
    ]
    billing = _billing(frame)
    return Facts((*entries, Fact(say("agreement.bill_to"), billing)) if billing else tuple(entries))


def _billing(frame: Frame) -> tuple[str, ...]:
    """Whom the bill goes to, and what must stand on it; nothing where it goes to the customer as such."""
    say, customer = frame.say, frame.job.customer
    order = say("agreement.po_number", number=customer.po_number) if customer.po_number else ""
    exemption = customer.tax_exempt
    exempt = say("agreement.tax_exempt", certificate=exemption.certificate) if exemption else ""
    return tuple(filter(None, (*customer.bill_to, order, exempt)))


def _glance(frame: Frame) -> Glance:
    say, priced, job = frame.say, frame.priced, frame.job
    notes = [
        say("agreement.price_note_most", amount=frame.money(priced.at_most)) if priced.at_most else "",
        say("agreement.price_note_tax") if priced.taxes else "",
        say("agreement.price_note") if priced.add_ons else "",
    ]
    if frame.draft:
        notes.append(say("agreement.price_so_far"))
    label = say("agreement.price_estimate") if priced.at_most else say("agreement.price")
    price = (label, frame.money(priced.total), ", ".join(filter(None, notes)))
    if len(priced.payments) > 1:
        first = priced.payments[0]
        deposit = (say("agreement.deposit"), frame.money(first.amount), first.when)
    else:
        deposit = (say("agreement.deposit"), say("agreement.no_deposit"), "")
    days = counted(frame.words, "days", priced.days)
    crew = say("agreement.start_note", days=days) if priced.days else ""
    note = ", ".join(filter(None, (crew, done_phrase(job, frame.words))))
    start = (say("agreement.start"), start_phrase(job, frame.words), note)
    return Glance((price, deposit, start))
