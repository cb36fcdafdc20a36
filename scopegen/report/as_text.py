"""Prices as text for a terminal."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from scopegen.papers.agreement.price import describe
from scopegen.papers.frame import Frame
from scopegen.price import Line, Offer, PaymentLine
from scopegen.quantities import show
from scopegen.quantities.units import UNIT_SIZE
from scopegen.report.office import office


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
    metric = frame.job.units == "metric"
    long, ground, bulk = ("m", "m²", "m³") if metric else ("ft", "ft²", "yd³")
    table = _table("", "Bed", f"area {ground}", f"outline {long}", f"open edge {long}", f"volume {bulk}")
    sizes = [UNIT_SIZE[unit] for unit in (("m2", "m", "m", "m3") if metric else ("ft2", "ft", "ft", "yd3"))]
    for bed in frame.measured.beds:
        laid = sum(
            (spread.volume for spread in bed.spreads if spread.share.how in ("included", "no-charge")),
            Fraction(0),
        )
        table.add_row(
            bed.name,
            *(
                show.grouped(value / size, places) if value is not None else "not known"
                for value, size, places in zip(
                    (bed.area, bed.outline, bed.open_edge, laid), sizes, (1, 1, 1, 2), strict=True
                )
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
    if line.unit == "job":
        return ""
    plural = "s" if line.unit in ("load", "worker-hour", "ton") and line.quantity != 1 else ""
    return f"{show.grouped(line.quantity, 2)} {show.unit_sign(line.unit)}{plural}"


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
