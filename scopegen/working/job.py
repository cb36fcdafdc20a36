"""A whole job worked out: beds, lines, add-ons, totals, payments."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from scopegen.case import Case
from scopegen.price import Line, Offer, Priced
from scopegen.price.values import ZERO, Step
from scopegen.quantities.rounding import cents
from scopegen.quantities.units import UNIT_SIZE
from scopegen.words import Lexicon
from scopegen.working.beds import bed_sheet
from scopegen.working.hauling import haul_steps
from scopegen.working.material import load_steps, material_steps, more_steps
from scopegen.working.spoil import Digging, left_steps
from scopegen.working.sums import Figure, count, equals, share, together
from scopegen.working.values import Figures, Sheet, capital, money

REASONS = ("minimum", "group", "share", "job minimum", "trips")  # why no single price tells the amount


def worked_out(case: Case, words: Lexicon, *, hours: bool = True) -> tuple[Sheet, ...]:
    """Every quantity and sum, from the beds to the payments, and the crew's hours. For a priced case."""
    assert case.measured is not None and case.priced is not None
    figures, priced = Figures(case.job.units == "metric"), case.priced
    beds = tuple(bed_sheet(case, words, figures, bed) for bed in case.measured.beds)
    lines = tuple(_line(case, words, figures, line, priced.lines) for line in priced.lines)
    kinds = ((priced.no_charge, "no_charge"), (priced.add_ons, "add_on"), (priced.if_not_done, "if_not_done"))
    offers = tuple(_offer(case, words, figures, offer, kind) for each, kind in kinds for offer in each)
    labor = (_labor(case, words, priced),) if hours else ()
    return (*beds, *lines, _totals(case, words, priced), *offers, *labor)


def _labor(case: Case, words: Lexicon, priced: Priced) -> Sheet:
    assert case.chart is not None
    exact = priced.worker_hours / (case.chart.crew * case.chart.productive_hours)
    day = (count(case.chart.crew).term() * count(case.chart.productive_hours, 3, "h").term()).inside()
    sum_ = equals(count(priced.worker_hours, 4, "h").term() / day, count(exact))
    step = words.say("working.hours", sum=sum_, whole=priced.days)
    return Sheet(words.say("working.labor"), (step,))


def _line(case: Case, words: Lexicon, f: Figures, line: Line, lines: Sequence[Line]) -> Sheet:
    """One of the lines that are priced together."""
    name = capital(line.description)
    kind = line.id.split(":")[0]
    title = words.say(f"working.line.{kind}", name=name)
    title = f"{title}, {line.visit}" if line.visit else title
    return Sheet(title, tuple(_steps(case, words, f, line, lines)))


def _steps(case: Case, words: Lexicon, f: Figures, line: Line, lines: Sequence[Line]) -> Iterator[str]:
    if line.id.startswith("hauling:") and line.dumped:
        yield from haul_steps(case, words, f, line, _known(lines))
        return
    if line.id.startswith("delivery:"):
        yield from load_steps(case, words, f, line, lines)
        if line.reason == "share" and line.measured is not None:
            yield _share_of_load(case, words, line)
            return
    if line.measured is not None and line.unit != "job":
        yield from _measured(case, words, f, line, lines)
    if line.reason == "minimum" and line.unit != "job":
        (step,) = line.steps
        sum_ = _product(words, step, line.unit)
        yield words.say("working.at_least", sum=sum_, amount=words.money(line.amount))
    elif line.reason in REASONS or line.unit == "job":
        reason = line.reason.replace(" ", "_") or "as_priced"
        yield f"{words.say(f'working.reason.{reason}')}: {words.money(line.amount)}"
    else:
        yield from _priced(words, line)


def _known(lines: Sequence[Line]) -> dict[str, Fraction]:
    """What each kind of work was measured at, in ft, ft2, yd3 or short tons."""
    works = (line for line in lines if line.id.startswith("work:"))
    return {line.key: (line.measured or Fraction(0)) * UNIT_SIZE[line.unit] for line in works}


def _share_of_load(case: Case, words: Lexicon, line: Line) -> str:
    """An add-on's part of a delivery that comes anyway."""
    assert case.chart is not None and case.chart.delivery is not None and line.measured is not None
    fee = case.chart.delivery.fee
    left = _amount(words, line.measured, "load").term() * money(words, fee).term()
    sum_ = equals(left, money(words, line.measured * Fraction(fee)))
    return f"{words.say('working.share_of_load')}: {sum_}"


def _measured(case: Case, words: Lexicon, f: Figures, line: Line, lines: Sequence[Line]) -> Iterator[str]:
    """From the beds to what is billed, in the unit of the price."""
    assert line.measured is not None
    if line.volume is not None:
        yield from material_steps(case, words, f, line)
    elif line.dug:
        yield from left_steps(Digging(case, words, f, line, _known(lines)))
    else:
        yield from _gathered(case, f, line)
    yield from _converted(words, f, line)
    if line.measured != line.quantity:
        measured, sold = (_amount(words, each, line.unit) for each in (line.measured, line.quantity))
        yield words.say("working.rounded", measured=measured, sold=sold)


def _amount(words: Lexicon, quantity: Fraction, unit: str) -> Figure:
    if unit == "load":
        return Figure(quantity, 4, lambda value, places: words.counted("loads", value, places=places))
    return count(quantity, 4, words.say(f"unit.{unit}"))


def _product(words: Lexicon, step: Step, unit: str) -> str:
    left = _amount(words, step.quantity, unit).term() * money(words, step.unit_price).term()
    return equals(left, money(words, step.quantity * Fraction(step.unit_price)))


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
        yield _product(words, step, line.unit)
    if len(line.steps) > 1:
        yield f"{words.say('working.together')}: {words.money(line.amount)}"


def _gathered(case: Case, f: Figures, line: Line) -> Iterator[str]:
    """How much of a kind of included work all beds have together."""
    assert case.measured is not None
    along, over = line.unit in ("ft", "m"), line.unit in ("ft2", "m2")
    one_bed = line.decided != "included" and line.path[:1] != ("every_bed",)
    if one_bed or not along and not over:
        return
    show = f.length if along else f.area
    sizes = [
        (share.length or Fraction(0)) if along else share.area
        for share in case.measured.shares
        if share.part.work == line.key
        and share.how == line.decided
        and (line.decided == "included" or share.path == line.path)
    ]
    total = (line.measured or Fraction(0)) * UNIT_SIZE[line.unit]
    if len(sizes) > 1 and sum(sizes, Fraction(0)) == total:
        yield equals(together(show(size).term() for size in sizes), show(total))


def _totals(case: Case, words: Lexicon, priced: Priced) -> Sheet:
    say = words.say
    each = (money(words, line.amount).term() for line in priced.lines)
    steps = [equals(together(each), money(words, priced.subtotal))] if priced.lines else []
    before = priced.subtotal - priced.discount
    if priced.discount:
        steps += _discount(case, words, priced)
    for tax in priced.taxes:
        reached = sum((line.amount for line in priced.lines if tax.kind in line.tax), ZERO)
        if reached != tax.on:
            off = money(words, reached).term() - money(words, reached - tax.on).term()
            steps.append(f"{say('working.taxed', tax=tax.name)}: {equals(off, money(words, tax.on))}")
        left = money(words, tax.on).term() * share(tax.rate)
        steps.append(f"{tax.name}: {equals(left, money(words, Fraction(tax.on) * tax.rate))}")
    sums = [before, *(tax.amount for tax in priced.taxes)]
    total = equals(together(money(words, sum_).term() for sum_ in sums), money(words, priced.total))
    steps.append(f"{say('working.total')}: {total}")
    for payment in priced.payments:
        when = capital(", ".join(filter(None, (payment.when, payment.visit))))
        paid = words.money(payment.amount)
        if payment.share is not None and cents(Fraction(priced.total) * payment.share) == payment.amount:
            exact = money(words, Fraction(priced.total) * payment.share)
            paid = equals(money(words, priced.total).term() * share(payment.share), exact)
        steps.append(f"{when}: {paid}")
    return Sheet(say("working.totals"), tuple(steps))


def _discount(case: Case, words: Lexicon, priced: Priced) -> Iterator[str]:
    """The discount's share of the subtotal, where it is one; then what it leaves."""
    amount = case.job.discount.amount if case.job.discount else None
    whole = money(words, priced.subtotal).term()
    if isinstance(amount, Fraction) and cents(Fraction(priced.subtotal) * amount) == priced.discount:
        taken = equals(whole * share(amount), money(words, Fraction(priced.subtotal) * amount))
        yield f"{words.say('working.discount_share')}: {taken}"
    less = equals(
        whole - money(words, priced.discount).term(), money(words, priced.subtotal - priced.discount)
    )
    yield f"{words.say('working.discount')}: {less}"


def _offer(case: Case, words: Lexicon, f: Figures, offer: Offer, kind: str) -> Sheet:
    """An add-on, a gift or a fall-back: each of its lines, then their sum and tax."""
    name = capital(offer.description)
    beds = f" ({words.list(offer.beds)})" if offer.beds else ""
    steps = list(more_steps(case, words, f, offer.path)) if offer.decided == "add-on" else []
    for line in offer.parts:
        sheet = _line(case, words, f, line, offer.parts)
        steps += [sheet.title, *(f"  {step}" for step in sheet.steps)]
    amounts = [line.amount for line in offer.parts]
    tax = f" + {words.say('working.tax', amount=words.money(offer.tax))}" if offer.tax else ""
    if offer.tax or len(amounts) > 1:
        steps.append(f"{' + '.join(words.money(each) for each in amounts)}{tax} = {words.money(offer.price)}")
    return Sheet(words.say(f"working.offer.{kind}", name=f"{name}{beds}"), tuple(steps))
