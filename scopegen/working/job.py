"""A whole job worked out: beds, lines, add-ons, totals, payments."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction

from scopegen.case import Case
from scopegen.chart import HaulPrice, Work
from scopegen.price import Line, Offer, Priced
from scopegen.quantities import show
from scopegen.quantities.rounding import cents
from scopegen.quantities.units import LB_PER_TON, UNIT_SIZE
from scopegen.words import Lexicon
from scopegen.working.beds import bed_sheet
from scopegen.working.material import material_steps
from scopegen.working.values import Figures, Sheet, capital, plain

REASONS = ("minimum", "group", "share", "job minimum", "trips")  # why no single price tells the amount


def worked_out(case: Case, words: Lexicon, *, hours: bool = True) -> tuple[Sheet, ...]:
    """Every quantity and sum, from the beds to the payments, and the crew's hours. For a priced case."""
    assert case.measured is not None and case.priced is not None
    figures, priced = Figures(case.job.units == "metric"), case.priced
    beds = tuple(bed_sheet(case, words, figures, bed) for bed in case.measured.beds)
    lines = tuple(_line(case, words, figures, line) for line in priced.lines)
    kinds = ((priced.no_charge, "no_charge"), (priced.add_ons, "add_on"), (priced.if_not_done, "if_not_done"))
    offers = tuple(_offer(case, words, figures, offer, kind) for each, kind in kinds for offer in each)
    labor = (_labor(case, words, priced),) if hours else ()
    return (*beds, *lines, _totals(case, words, priced), *offers, *labor)


def _labor(case: Case, words: Lexicon, priced: Priced) -> Sheet:
    assert case.chart is not None
    exact = priced.worker_hours / (case.chart.crew * case.chart.productive_hours)
    step = words.say(
        "working.hours", hours=plain(priced.worker_hours, 4), crew=case.chart.crew,
        day=plain(case.chart.productive_hours, 3), days=plain(exact, 4), whole=priced.days,
    )  # fmt: skip
    return Sheet(words.say("working.labor"), (step,))


def _line(case: Case, words: Lexicon, f: Figures, line: Line) -> Sheet:
    name = capital(line.description)
    kind = line.id.split(":")[0]
    title = words.say(f"working.line.{kind}", name=name)
    title = f"{title}, {line.visit}" if line.visit else title
    return Sheet(title, tuple(_steps(case, words, f, line)))


def _steps(case: Case, words: Lexicon, f: Figures, line: Line) -> Iterator[str]:
    if line.id.startswith("hauling:"):
        yield from _haul(case, words, f, line)
    elif line.id.startswith("delivery:") and line.reason == "share" and line.measured is not None:
        fee = words.money(case.chart.delivery.fee) if case.chart and case.chart.delivery else ""
        yield words.say(
            "working.share_of_load", share=plain(line.measured, 4), fee=fee, amount=words.money(line.amount)
        )
    elif line.measured is not None and line.unit != "job":
        if line.volume is not None:
            yield from material_steps(case, words, f, line)
        elif line.decided == "included":
            yield from _gathered(case, f, line)
        yield from _converted(words, f, line)
        if line.measured != line.quantity:
            measured, sold = (_amount(words, each, line.unit) for each in (line.measured, line.quantity))
            yield words.say("working.rounded", measured=measured, sold=sold)
    if line.reason == "minimum" and line.unit != "job":
        (step,) = line.steps
        exact = f"{_amount(words, step.quantity, line.unit)} × {words.money(step.unit_price)}"
        sum_ = f"{exact} = {_cents(words, step.quantity * Fraction(step.unit_price))}"
        yield words.say("working.at_least", sum=sum_, amount=words.money(line.amount))
    elif line.id.startswith("delivery:") and line.reason == "share":
        return
    elif line.reason in REASONS or line.unit == "job":
        shared = line.reason == "share" and line.dumped  # its sums stand above
        reason = "trips" if shared else line.reason.replace(" ", "_") or "as_priced"
        yield f"{words.say(f'working.reason.{reason}')}: {words.money(line.amount)}"
    else:
        yield from _priced(words, line)


def _amount(words: Lexicon, quantity: Fraction, unit: str) -> str:
    if unit == "load":
        return words.counted("loads", quantity, places=4)
    return f"{plain(quantity, 4)} {words.say(f'unit.{unit}')}"


def _converted(words: Lexicon, f: Figures, line: Line) -> Iterator[str]:
    """The step from the job's measures to those of the price, where the two are not the same."""
    told = {"ft": f.length, "m": f.length, "ft2": f.area, "m2": f.area, "yd3": f.volume, "m3": f.volume}
    if line.unit not in told or line.measured is None or f.metric == line.unit.startswith("m"):
        return
    wasted = line.sells_material and line.measured != line.volume  # the step of its waste says it then
    if not wasted:
        size = told[line.unit](line.measured * UNIT_SIZE[line.unit])
        yield words.say("working.converted", one=size, other=_amount(words, line.measured, line.unit))


def _priced(words: Lexicon, line: Line) -> Iterator[str]:
    for step in line.steps:
        amount = f"{_amount(words, step.quantity, line.unit)} × {words.money(step.unit_price)}"
        yield f"{amount} = {_cents(words, step.quantity * Fraction(step.unit_price))}"
    if len(line.steps) > 1:
        yield f"{words.say('working.together')}: {words.money(line.amount)}"


def _gathered(case: Case, f: Figures, line: Line) -> Iterator[str]:
    """How much of a kind of included work all beds have together."""
    assert case.measured is not None
    along, over = line.unit in ("ft", "m"), line.unit in ("ft2", "m2")
    sizes = [
        f.length(share.length or 0) if along else f.area(share.area)
        for share in case.measured.shares
        if share.part.work == line.key and share.how == "included"
    ]
    if len(sizes) > 1 and (along or over) and line.measured is not None:
        total = line.measured * UNIT_SIZE[line.unit]
        yield f"{' + '.join(sizes)} = {f.length(total) if along else f.area(total)}"


def _cents(words: Lexicon, value: Fraction) -> str:
    return words.money(cents(value))


def _haul(case: Case, words: Lexicon, f: Figures, line: Line) -> Iterator[str]:
    assert case.chart is not None and case.priced is not None
    work = case.chart.work[line.key]
    price = work.price
    if not isinstance(price, HaulPrice) or not (line.trips or line.dumped):
        return
    rate = Fraction(case.chart.worker_hour)
    loose = line.measured or Fraction(0)
    trips: Fraction | int = line.trips or _filled(work, line)
    if not line.trips:
        yield words.say("working.share_of_truck", share=plain(trips, 4))
    times = plain(trips, 4)
    yield f"{times} × {words.money(price.trip)} = {_cents(words, trips * Fraction(price.trip))}"
    drive = trips * price.drive * price.riders
    yield words.say(
        "working.drive", hours=plain(drive, 4), rate=words.money(case.chart.worker_hour),
        amount=_cents(words, drive * rate),
    )  # fmt: skip
    loading = loose / price.loading
    yield words.say(
        "working.loading", loose=f.volume(loose), hours=plain(loading, 4),
        rate=words.money(case.chart.worker_hour), amount=_cents(words, loading * rate),
    )  # fmt: skip
    for stream, loose, pounds in line.dumped:
        fee = work.dump.get(stream)
        known = case.chart.streams.get(stream)
        if fee is None:
            continue
        by_volume = fee.per in ("yd3", "m3")
        exact = (loose if by_volume else pounds / LB_PER_TON) / UNIT_SIZE[fee.per]
        yield words.say(
            "working.dump", stream=known.name if known else stream,
            amount=f"{plain(exact, 4)} {words.say(f'unit.{fee.per}')}", fee=words.money(fee.fee),
            sum=_cents(words, exact * Fraction(fee.fee)),
        )  # fmt: skip


def _filled(work: Work, line: Line) -> Fraction:
    """How much of the truck an add-on's spoil fills, by volume or by weight, whichever is more."""
    assert work.truck is not None
    truck = work.truck
    return sum(
        (max(loose / truck.volume, pounds / truck.payload) for _, loose, pounds in line.dumped), Fraction(0)
    )


def _totals(case: Case, words: Lexicon, priced: Priced) -> Sheet:
    say, money = words.say, words.money
    steps = [f"{' + '.join(money(line.amount) for line in priced.lines)} = {money(priced.subtotal)}"]
    if priced.discount:
        less = money(priced.subtotal - priced.discount)
        steps.append(
            f"{say('working.discount')}: {money(priced.subtotal)} − {money(priced.discount)} = {less}"
        )
    for tax in priced.taxes:
        steps.append(f"{tax.name}: {money(tax.on)} × {show.percent(tax.rate)} = {money(tax.amount)}")
    sum_ = money(priced.subtotal - priced.discount)
    taxes = "".join(f" + {money(tax.amount)}" for tax in priced.taxes)
    steps.append(f"{say('working.total')}: {sum_}{taxes} = {money(priced.total)}")
    for payment in priced.payments:
        when = capital(", ".join(filter(None, (payment.when, payment.visit))))
        if payment.share is None:
            steps.append(f"{when}: {money(payment.amount)}")
        else:
            share = f"{money(priced.total)} × {show.percent(payment.share)}"
            steps.append(f"{when}: {share} = {money(payment.amount)}")
    return Sheet(say("working.totals"), tuple(steps))


def _offer(case: Case, words: Lexicon, f: Figures, offer: Offer, kind: str) -> Sheet:
    """An add-on, a gift or a fall-back: each of its lines, then their sum and tax."""
    name = capital(offer.description)
    beds = f" ({words.list(offer.beds)})" if offer.beds else ""
    steps: list[str] = []
    for line in offer.parts:
        sheet = _line(case, words, f, line)
        steps += [sheet.title, *(f"  {step}" for step in sheet.steps)]
    amounts: Sequence[Decimal] = [line.amount for line in offer.parts]
    tax = f" + {words.say('working.tax', amount=words.money(offer.tax))}" if offer.tax else ""
    if offer.tax or len(amounts) > 1:
        steps.append(f"{' + '.join(words.money(each) for each in amounts)}{tax} = {words.money(offer.price)}")
    return Sheet(words.say(f"working.offer.{kind}", name=f"{name}{beds}"), tuple(steps))
