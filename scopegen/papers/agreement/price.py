"""The price, line by line; the payments; what is done and charged if something is found."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from scopegen.chart import UnitPrice
from scopegen.clauses.blanks import price_phrase
from scopegen.papers.agreement.apart import billed_apart
from scopegen.papers.document import Block, Cell, Column, Paragraph, Row, Section, Table
from scopegen.papers.frame import Frame, capital
from scopegen.price import Line, Offer
from scopegen.quantities import show
from scopegen.words.phrases import counted


def price_section(frame: Frame) -> Section:
    """Every line, what is given free this once, discount, tax and total."""
    say, priced = frame.say, frame.priced
    rows = [row for line in priced.lines for row in line_rows(frame, line)]
    rows += [row for offer in priced.no_charge for row in _no_charge_rows(frame, offer)]
    rows += _sums(frame)
    columns = (
        Column(say("agreement.price_section.what"), width="wide"),
        Column(say("agreement.price_section.quantity"), figures=True),
        Column(say("agreement.price_section.each"), figures=True),
        Column(say("agreement.price_section.amount"), figures=True),
    )
    table = Table(say("agreement.price_section.caption"), columns, tuple(rows), "price")
    return Section(
        "price",
        say("agreement.price_section.title"),
        (table, Paragraph(say(f"agreement.price_section.{_rounding(frame)}"), "small"), *billed_apart(frame)),
    )


def _sums(frame: Frame) -> list[Row]:
    """Subtotal, discount, taxes or the exemption from them, total or estimate, and the most in all."""
    say, priced, rows = frame.say, frame.priced, list[Row]()
    if priced.discount or priced.taxes:
        rows.append(
            _sum_row(say("agreement.price_section.subtotal"), frame.money(priced.subtotal), "subtotal")
        )
    if priced.discount and frame.job.discount:
        rows.append(
            _sum_row(
                say("agreement.price_section.discount", because=frame.job.discount.because),
                f"−{frame.money(priced.discount)}",
                "less",
            )
        )
    for tax in priced.taxes:
        label = say(
            "agreement.price_section.tax", name=tax.name, rate=show.percent(tax.rate), on=frame.money(tax.on)
        )
        rows.append(_sum_row(label, frame.money(tax.amount), "plain"))
    exemption = frame.job.customer.tax_exempt
    if exemption:
        taxes = frame.words.list(frame.chart.taxes[key].name for key in exemption.kinds)
        key = "exempt_from" if taxes else "exempt"
        exempt = say(f"agreement.price_section.{key}", certificate=exemption.certificate, taxes=taxes)
        rows.append(_sum_row(exempt, frame.money(Decimal("0.00")), "plain"))
    total = say("agreement.price_section.estimate" if priced.at_most else "agreement.price_section.total")
    rows.append(_sum_row(total, frame.money(priced.total), "total"))
    if priced.at_most:
        rows.append(_sum_row(say("agreement.price_section.at_most"), frame.money(priced.at_most), "plain"))
    return rows


def _rounding(frame: Frame) -> str:
    """The sentence on rounding that fits the units in which work is priced."""
    metric = any(line.unit in ("m", "m2") for line in frame.priced.lines)
    return "rounding_metric" if metric else "rounding"


def line_rows(frame: Frame, line: Line) -> list[Row]:
    """A line's row, or a row a step where its price has steps."""
    label = describe(frame, line)
    if len(line.steps) == 1 or not label:
        each = _each(frame, line)
        quantity = "" if line.unit == "job" else _quantity(frame, line, line.quantity)
        return [
            Row(
                (
                    Cell(label, _beds_note(frame, line)),
                    Cell(quantity),
                    Cell(each),
                    Cell(frame.money(line.amount)),
                )
            )
        ]
    rows = []
    for number, step in enumerate(line.steps):
        amount = frame.money(_step_amount(line, number))
        at_step = line.reason == "at step" and number == 1
        each = (
            frame.say(
                "agreement.price_section.at_step", quantity=_quantity(frame, line, line.steps[0].quantity)
            )
            if at_step
            else frame.money(step.unit_price)
        )
        rows.append(
            Row(
                (
                    Cell(label if number == 0 else "", _beds_note(frame, line) if number == 0 else ()),
                    Cell(_quantity(frame, line, step.quantity)),
                    Cell(each),
                    Cell(amount),
                )
            )
        )
    return rows


def _step_amount(line: Line, number: int) -> Decimal:
    from scopegen.quantities.rounding import cents

    step = line.steps[number]
    return cents(step.quantity * Fraction(step.unit_price))


def _beds_note(frame: Frame, line: Line) -> tuple[str, ...]:
    """The beds of a line; of hauling, what goes to which dump."""
    if line.id.startswith("hauling:"):
        streams = frame.chart.streams
        visit = (line.visit,) if line.visit else ()
        return visit + tuple(
            frame.say(
                "agreement.price_section.to_dump",
                where=where,
                streams=frame.words.list(streams[key].name if key in streams else key for key in taken),
            )
            for where, taken in line.taken
        )
    limit: tuple[str, ...] = ()
    if line.limit is not None:
        limit = (frame.say("agreement.price_section.limit", amount=frame.money(line.limit)),)
    visit = (line.visit,) if line.visit else ()
    if not line.beds or line.id.startswith("delivery:"):
        return (*visit, *limit)
    names = {bed.name for bed in frame.measured.beds}
    every = len(names) > 2 and names == set(line.beds)
    return (frame.say("beds.all") if every else frame.words.list(line.beds), *visit, *limit)


def _each(frame: Frame, line: Line) -> str:
    if line.reason == "minimum" and line.unit != "job":
        return frame.say("agreement.price_section.minimum")
    if line.reason == "group":
        return frame.say("agreement.price_section.group")
    return frame.money(line.unit_price) if line.unit_price is not None and line.unit != "job" else ""


def _quantity(frame: Frame, line: Line, quantity: Fraction) -> str:
    if line.unit == "load":
        figure = counted(frame.words, "loads", quantity)
    else:
        figure = f"{show.grouped(quantity, 2)} {frame.say(f'unit.{line.unit}')}".strip()
    by_measure = frame.job.price_basis == "by measure" and line.sells_material
    about = line.limit is not None or by_measure
    return frame.say("agreement.price_section.about", quantity=figure) if about else figure


def describe(frame: Frame, line: Line) -> str:
    """What a line is, in words."""
    say = frame.say
    if line.id.startswith("delivery:"):
        return say("agreement.price_section.delivery", material=line.description)
    if line.id.startswith("spreading:"):
        return say("agreement.price_section.spreading", material=line.description)
    if line.id == "job-minimum":
        return say("agreement.price_section.job_minimum")
    if line.id.startswith("hauling:"):
        loose = show.volume(line.measured or Fraction(0), frame.job.units)
        if line.reason == "minimum":
            return say("agreement.price_section.hauling_minimum", work=line.description, loose=loose)
        if line.reason == "share":
            return say("agreement.price_section.hauling_share", work=line.description, loose=loose)
        return say(
            "agreement.price_section.hauling",
            work=line.description,
            trips=counted(frame.words, "agreement.price_section.trips", line.trips),
            loose=loose,
        )
    return capital(line.description)


def _no_charge_rows(frame: Frame, offer: Offer) -> list[Row]:
    """The regular price, and the same amount less. Work beside the beds has no beds to name."""
    say, amount = frame.say, frame.money(offer.before_tax)
    work = capital(offer.description)
    named = say("beds.part", bed=work, part=frame.words.list(offer.beds)) if offer.beds else work
    regular = Cell(say("agreement.price_section.no_charge", work=named))
    less = Cell(say("agreement.price_section.less", work=work))
    blank = Cell("")
    return [
        Row((regular, blank, blank, Cell(amount))),
        Row((less, blank, blank, Cell(f"−{amount}")), "less"),
    ]


def _sum_row(label: str, amount: str, role: str) -> Row:
    return Row((Cell(label), Cell(""), Cell(""), Cell(amount)), role)  # type: ignore[arg-type]


def payments_section(frame: Frame) -> Section:
    """When each payment is due, and how much it is."""
    say, words = frame.say, frame.words
    rows = []
    for payment in frame.priced.payments:
        share = show.percent(payment.share) if payment.share is not None else ""
        last = payment is frame.priced.payments[-1]
        when = payment.when or ""
        visit = payment.visit
        when = say("agreement.payments.of_visit", when=when, visit=visit) if visit else when
        rows.append(
            Row(
                (
                    Cell(when[:1].upper() + when[1:]),
                    Cell(share or (say("agreement.payments.rest") if last else "")),
                    Cell(words.money(payment.amount)),
                )
            )
        )
    columns = (
        Column(say("agreement.payments.when"), width="wide"),
        Column(say("agreement.payments.share"), figures=True),
        Column(say("agreement.payments.amount"), figures=True),
    )
    blocks: list[Block] = [
        Table(say("agreement.payments.caption"), columns, tuple(rows), "price"),
        Paragraph(say("agreement.payments.note"), "small"),
    ]
    return Section("payments", say("agreement.payments.title"), tuple(blocks))


def found_section(frame: Frame) -> list[Section]:
    """What we do, and at which price, if we find what nobody could see on the walk."""
    say = frame.say
    if not frame.job.if_found:
        return []
    rows = []
    for found in frame.job.if_found:
        work = frame.chart.work.get(found.work)
        if work is None:
            continue
        price = price_phrase(work.price, frame.words) if isinstance(work.price, UnitPrice) else ""
        limit = (
            say("agreement.found.call")
            if found.call_first or found.not_over is None
            else say("agreement.found.up_to", amount=frame.money(found.not_over))
        )
        rows.append(
            Row((Cell(found.what[:1].upper() + found.what[1:]), Cell(work.name), Cell(price), Cell(limit)))
        )
    columns = tuple(Column(say(f"agreement.found.{key}")) for key in ("what", "work", "price", "limit"))
    phone = frame.job.customer.phone
    call = say("agreement.found.whom", phone=phone) if phone else say("agreement.found.no_phone")
    return [
        Section(
            "found",
            say("agreement.found.title"),
            (Table(say("agreement.found.caption"), columns, tuple(rows)), Paragraph(call, "small")),
        )
    ]
