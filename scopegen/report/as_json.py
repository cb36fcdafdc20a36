"""Prices as plain data. Amounts and quantities are decimal strings; keys name their unit."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

from scopegen.case import Case
from scopegen.papers.agreement.price import describe
from scopegen.papers.frame import Frame
from scopegen.price import Line, Offer, Priced, SiteShare, Supply
from scopegen.price.material import to_order
from scopegen.price.orders import parts_of_order
from scopegen.quantities.show import decimal


def price_json(frame: Frame) -> dict[str, Any]:
    """The whole price: beds, materials, lines, add-ons, totals, payments, labor, spoil."""
    priced, case = frame.priced, frame.case
    return {
        "job": frame.job.job,
        "season": frame.job.season,
        "currency": frame.chart.currency,
        "beds": [_bed(case, index) for index in range(len(frame.measured.beds))],
        "materials": [_material(frame, line) for line in priced.lines if line.sells_material],
        "lines": [
            *(_line(frame, line) for line in priced.lines),
            *(_offer(frame, offer) for offer in priced.no_charge),
        ],
        "add_ons": [_offer(frame, offer) for offer in priced.add_ons],
        "if_not_done": [_offer(frame, offer) for offer in priced.if_not_done],
        "subtotal": _money(priced.subtotal),
        "discount": _money(priced.discount),
        "tax": _money(priced.tax),
        "taxes": [
            {
                "kind": tax.kind,
                "name": tax.name,
                "rate": decimal(tax.rate),
                "on": _money(tax.on),
                "amount": _money(tax.amount),
            }
            for tax in priced.taxes
        ],
        "total": _money(priced.total),
        "at_most": None if priced.at_most is None else _money(priced.at_most),
        "payments": [
            {"when": payment.when, "amount": _money(payment.amount), "visit": payment.visit}
            for payment in priced.payments
        ],
        "worker_hours": decimal(priced.worker_hours),
        "days": priced.days,
        "spoil": _spoil(priced),
        "sites": [_site(site) for site in priced.sites],
        "office": {"supplies": [_supply(frame, supply) for supply in priced.supplies], "pays": _pays(priced)},
    }


def _site(site: SiteShare) -> dict[str, Any]:
    return {
        "name": site.name,
        "bill_to": site.bill_to,
        "beds": list(site.beds),
        "before_tax": _money(site.before_tax - site.discount),
        "tax": _money(site.tax),
        "total": _money(site.total),
    }


def _supply(frame: Frame, supply: Supply) -> dict[str, Any]:
    """A material's range, and the chance (0 to 1) that what is ordered runs short."""
    material = frame.chart.materials[supply.key]
    parts = parts_of_order(frame.chart, material, supply.ordered)
    return {
        "material": supply.key,
        "visit": supply.visit,
        "unit": supply.unit,
        "needed": decimal(supply.needed),
        "ordered": decimal(supply.ordered),
        "low": decimal(supply.low),
        "high": decimal(supply.high),
        "chance_short": f"{supply.short:.4f}",
        "order_in_parts": [decimal(part) for part in parts],
    }


def _pays(priced: Priced) -> dict[str, Any] | None:
    """The lowest price that pays, before tax; what the chart lacks where it cannot be told."""
    pays = priced.pays
    if pays is None:
        return None
    keys = ("material", "delivery", "hauling", "labor", "overhead", "lowest", "wanted")
    return {
        **{key: None if pays.lacks else _money(getattr(pays, key)) for key in keys},
        "lacks": list(pays.lacks),
    }


def _bed(case: Case, index: int) -> dict[str, Any]:
    assert case.measured is not None
    bed = case.measured.beds[index]
    laid = sum(
        (spread.volume for spread in bed.spreads if spread.share.how in ("included", "no-charge")),
        Fraction(0),
    )
    return {
        "name": bed.name,
        "area_ft2": _some(bed.area),
        "outline_ft": _some(bed.outline),
        "open_edge_ft": _some(bed.open_edge),
        "volume_yd3": decimal(laid),
        "grown_ft2": decimal(bed.grown),
        "method": bed.method,
    }


def _material(frame: Frame, line: Line) -> dict[str, Any]:
    return {
        "material": line.key,
        "name": line.description,
        "measured": _some(line.measured),
        "sold": decimal(line.quantity),
        "to_order": decimal(to_order(frame.chart.materials[line.key], line)),
        "unit": line.unit,
        "amount": _money(line.amount),
    }


def _line(frame: Frame, line: Line) -> dict[str, Any]:
    return {
        "id": line.id,
        "decision": line.decision,
        "decided": line.decided,
        "beds": list(line.beds),
        "description": describe(frame, line),
        "quantity": decimal(line.quantity),
        "unit": line.unit,
        "unit_price": None if line.unit_price is None else _money(line.unit_price),
        "amount": _money(line.amount),
        "regular_amount": _money(line.amount),
        "reason": line.reason,
        "visit": line.visit,
        "limit": None if line.limit is None else _money(line.limit),
        "steps": [
            {"quantity": decimal(step.quantity), "unit_price": _money(step.unit_price)} for step in line.steps
        ],
    }


def _offer(frame: Frame, offer: Offer) -> dict[str, Any]:
    free = offer.decided == "no-charge"
    price = offer.before_tax if free else offer.price
    only = offer.parts[0] if len(offer.parts) == 1 and not offer.tax else None
    return {
        "id": offer.id,
        "decision": offer.decision,
        "decided": offer.decided,
        "beds": list(offer.beds),
        "description": offer.description,
        "quantity": decimal(only.quantity) if only else "1",
        "unit": only.unit if only else "job",
        "unit_price": None if only is None or only.unit_price is None else _money(only.unit_price),
        "amount": _money(Decimal("0.00") if free else price),
        "regular_amount": _money(price),
        "tax": _money(offer.tax),
        "parts": [_line(frame, line) for line in offer.parts],
    }


def _spoil(priced: Priced) -> dict[str, Any]:
    spoil = priced.spoil
    return {
        "in_ground_yd3": decimal(spoil.in_ground),
        "loose_yd3": decimal(spoil.loose),
        "barrows": spoil.barrows,
        "weight_lb": decimal(spoil.weight),
        "trips": spoil.trips,
        "by_stream": {
            name: {
                "in_ground_yd3": decimal(in_ground),
                "loose_yd3": decimal(loose),
                "weight_lb": decimal(weight),
                "barrows": barrows,
            }
            for name, in_ground, loose, weight, barrows in spoil.by_stream
        },
    }


def _some(value: Fraction | None) -> str | None:
    return None if value is None else decimal(value)


def _money(amount: Decimal) -> str:
    return f"{amount:.2f}"
