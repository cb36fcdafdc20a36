"""Checks and prices as text for a terminal, plain when piped."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from scopegen.check import Checked
from scopegen.findings import Level
from scopegen.papers.agreement.price import describe
from scopegen.papers.frame import Frame
from scopegen.price import Line, Offer, PaymentLine
from scopegen.quantities import show
from scopegen.report.office import count_of, office

WIDTH_WHEN_PIPED = 110


def console(*, stderr: bool = False) -> Console:
    """Where text goes: as wide as the terminal, or as wide as a page where it is piped. NO_COLOR holds."""
    # a bed's name is no mark-up, whatever brackets it has
    plain = Console(stderr=stderr, highlight=False, markup=False, emoji=False)
    if not plain.is_terminal:
        plain.width = WIDTH_WHEN_PIPED
    return plain


def check_text(checked: Checked) -> str:
    """Every finding, the tally of decisions, and where more is to be read about a finding."""
    blocks = [finding.as_text() for finding in checked.findings]
    more = []
    if checked.findings:
        such = checked.findings[0].rule
        more = [f"`scopegen explain RULE` tells more; RULE is the word in brackets, such as {such}."]
    return "\n\n".join([*blocks, tally(checked), *more])


def tally(checked: Checked) -> str:
    """One line on decisions, one on findings, and what follows."""
    decided, undecided = len(checked.decided), len(checked.open)
    unclear = f", {checked.unclear} not understood" if checked.unclear else ""
    total = decided + undecided + checked.unclear
    lines = [f"{count_of(total, 'decision')}: {decided} decided, {undecided} open{unclear}."]
    for decision in checked.open:
        lines.append(f"  open: {decision.bed or 'the property'}, {decision.decision.replace('_', ' ')}")
    stopping = sum(finding.level is Level.STOPS for finding in checked.findings)
    others = len(checked.findings) - stopping
    if stopping:
        lines.append(
            f"The agreement cannot be written yet: {count_of(stopping, 'finding')} "
            f"stop{'s' if stopping == 1 else ''} it" + (f", {others} more to look at." if others else ".")
        )
    else:
        lines.append(
            "Nothing stops the agreement"
            + (f"; {count_of(others, 'finding')} to look at." if others else ".")
        )
    return "\n".join(lines)


def price_text(frame: Frame) -> RenderableType:
    """The price as the office reads it."""
    priced = frame.priced
    parts: list[RenderableType] = [Text(frame.job.job or "", style="bold"), _beds(frame), Text("")]
    parts += [
        _money_table(
            "Included",
            ((_label(frame, line), _amount(line), _each(line), line.amount) for line in priced.lines),
        )
    ]
    parts += _totals(frame)
    for title, offers in (
        ("No charge this time", priced.no_charge),
        ("Add-ons, each complete with its tax", priced.add_ons),
        ("If the customer's own work is not done, we do it for", priced.if_not_done),
    ):
        if offers:
            parts += [Text(""), _money_table(title, (_offer_row(offer) for offer in offers))]
    parts += [Text(""), *office(frame)]
    return Group(*parts)


def _table(title: str, *columns: str) -> Table:
    table = Table(
        title=title, title_justify="left", title_style="bold", box=None, pad_edge=False, show_edge=False
    )
    for index, column in enumerate(columns):
        table.add_column(column, justify="left" if index == 0 else "right", overflow="fold")
    return table


def _beds(frame: Frame) -> Table:
    table = _table("", "Bed", "area ft²", "outline ft", "open edge ft", "volume yd³")
    for bed in frame.measured.beds:
        laid = sum(
            (spread.volume for spread in bed.spreads if spread.share.how in ("included", "no-charge")),
            Fraction(0),
        )
        table.add_row(
            bed.name,
            *(
                show.grouped(value, places) if value is not None else "not known"
                for value, places in ((bed.area, 1), (bed.outline, 1), (bed.open_edge, 1), (laid, 2))
            ),
        )
    return table


def _money_table(title: str, rows: Iterable[tuple[str, str, str, Decimal]]) -> Table:
    table = _table(title, "", "quantity", "each", "amount")
    for label, quantity, each, amount in rows:
        table.add_row(Text(label), quantity, each, f"{amount:,.2f}")
    return table


def _label(frame: Frame, line: Line) -> str:
    return ", ".join(filter(None, (describe(frame, line), line.visit)))


def _amount(line: Line) -> str:
    return "" if line.unit == "job" else f"{show.grouped(line.quantity, 2)} {show.unit_sign(line.unit)}"


def _each(line: Line) -> str:
    if line.reason == "minimum":
        return "minimum"
    if line.reason == "at step":
        return f"at the {show.grouped(line.steps[0].quantity, 2)} {show.unit_sign(line.unit)} price"
    return f"{line.unit_price:,.2f}" if line.unit_price is not None and line.unit != "job" else ""


def _offer_row(offer: Offer) -> tuple[str, str, str, Decimal]:
    beds = f", {', '.join(offer.beds)}" if offer.beds else ""
    free = offer.decided == "no-charge"
    return (
        f"{offer.description}{beds}",
        "",
        "regular price" if free else "",
        offer.before_tax if free else offer.price,
    )


def _payment(payment: PaymentLine) -> str:
    return ", ".join(filter(None, ("Payment", payment.when, payment.visit)))


def _totals(frame: Frame) -> list[RenderableType]:
    priced = frame.priced
    table = _table("", "", "", "", "")
    table.show_header = False
    rows = [("Subtotal", priced.subtotal)]
    if priced.discount:
        rows.append(("Discount", -priced.discount))
    rows += [(f"{tax.name}, {show.percent(tax.rate)} on {tax.on:,.2f}", tax.amount) for tax in priced.taxes]
    for label, amount in [
        *rows,
        ("Total", priced.total),
        *([("At most, without a change order", priced.at_most)] if priced.at_most else []),
        *((f"{site.name}, billed to {site.bill_to}", site.total) for site in priced.sites),
        *((_payment(payment), payment.amount) for payment in priced.payments),
    ]:
        table.add_row(Text(label, style="bold" if label == "Total" else ""), "", "", f"{amount:,.2f}")
    return [Text(""), table]
