"""The price chart: units that fit, streams that are known, volume prices that serve their owner."""

from __future__ import annotations

import typing
from collections.abc import Iterator
from fractions import Fraction

from scopegen.case import Case
from scopegen.chart import UnitPrice, Work
from scopegen.findings import Level
from scopegen.job import FoundPart
from scopegen.quantities.show import decimal, unit_sign
from scopegen.rules.pieces import chart_fault, materials_used, works_used
from scopegen.rules.rule import Fault, Rule
from scopegen.understand import nearest

FAMILY = "price chart"
# What a walk can note in words, by fact, as `found` has it.
FOUND_WORDS: dict[str, tuple[str, ...]] = {
    fact: typing.get_args(typing.get_args(FoundPart.model_fields[fact].annotation)[0])
    for fact in ("edge", "weeds", "leaves", "trash", "ground", "roots", "slope")
}
UNITS = {
    "bed_prep": ("ft2", "m2", "worker-hour", "job"), "edging": ("ft", "m", "worker-hour", "job"),
    "debris": ("yd3", "ton", "m3", "t", "worker-hour", "job"),
    "substrate": ("ft2", "m2", "worker-hour", "job"),
    "extra": ("ft", "ft2", "m", "m2", "worker-hour", "job"),
}  # fmt: skip


def _unit_fits(case: Case) -> Iterator[Fault]:
    for key, work in case.chart.work.items() if case.chart else ():
        if isinstance(work.price, UnitPrice) and work.price.per not in UNITS[work.decides]:
            fitting = ", ".join(UNITS[work.decides])
            yield chart_fault(
                case,
                f"'{key}' decides {work.decides.replace('_', ' ')}, but is priced per {work.price.per}",
                f"price it per one of: {fitting}",
                "work",
                key,
                "price",
                "per",
            )


def _streams(case: Case) -> Iterator[Fault]:
    if case.chart is None or ("streams",) in case.chart_broken:
        return
    known = tuple(case.chart.streams)
    for key, work in case.chart.work.items():
        for stream, path in _named_streams(key, work):
            if stream not in known:
                fix = (
                    nearest(stream, known)
                    or f"known there: {', '.join(known) or 'nothing yet'}; or add it under 'streams'"
                )
                yield chart_fault(
                    case, f"the price chart has no stream of spoil called '{stream}'", fix, *path
                )


def _named_streams(key: str, work: Work) -> Iterator[tuple[str, tuple[str | int, ...]]]:
    if work.spoil:
        yield work.spoil.stream, ("work", key, "spoil", "stream")
    for index, stream in enumerate(work.takes or ()):
        yield stream, ("work", key, "takes", index)
    for stream in work.dump:
        yield stream, ("work", key, "dump", stream)


def _no_dump_fee(case: Case) -> Iterator[Fault]:
    for key, work in works_used(case).items():
        if not work.hauls or case.chart is None:
            continue
        for stream in work.takes if work.takes is not None else case.chart.streams:
            if stream in case.chart.streams and stream not in work.dump:
                yield chart_fault(
                    case,
                    f"'{key}' takes {stream}, but has no dump fee for it",
                    f"add '{stream}: …/yd3' under its 'dump', or 0.00/yd3 where it costs nothing",
                    "work",
                    key,
                    "dump",
                    key=True,
                )


def _no_weight(case: Case) -> Iterator[Fault]:
    if case.chart is None:
        return
    used = {work.spoil.stream for work in works_used(case).values() if work.spoil}
    for key, stream in case.chart.streams.items():
        if key in used and stream.in_ground_weight is None and stream.loose_weight is None:
            yield chart_fault(
                case,
                f"the stream '{key}' has no weight, so loads cannot be held against what a truck carries",
                "add 'in_ground_weight: …' or 'loose_weight: …', in lb/yd3",
                "streams",
                key,
                key=True,
            )


def _no_rate(case: Case) -> Iterator[Fault]:
    for key, work in works_used(case).items():
        per = work.price.per if isinstance(work.price, UnitPrice) else ""
        if per not in ("worker-hour", "job", "") and work.does is None and case.chart:
            message = f"'{key}' has no rate of work, so its hours are missing from the days"
            yield chart_fault(
                case,
                message,
                "add 'does: …', like 90 ft/h or 300 ft2/h for one worker",
                "work",
                key,
                key=True,
            )


def _unknown_suits(case: Case) -> Iterator[Fault]:
    for key, work in case.chart.work.items() if case.chart else ():
        for fact, values in work.suits.items():
            if fact not in FOUND_WORDS:
                fix = nearest(fact, FOUND_WORDS) or f"known there: {', '.join(FOUND_WORDS)}"
                yield chart_fault(
                    case,
                    f"'{key}' suits '{fact}', which is nothing that a walk notes",
                    fix,
                    "work",
                    key,
                    "suits",
                    fact,
                    key=True,
                )
                continue
            for index, value in enumerate(values):
                if value not in FOUND_WORDS[fact]:
                    fix = nearest(value, FOUND_WORDS[fact]) or f"known there: {', '.join(FOUND_WORDS[fact])}"
                    yield chart_fault(
                        case,
                        f"'{key}' suits {fact} '{value}', which is no word for it",
                        fix,
                        "work",
                        key,
                        "suits",
                        fact,
                        index,
                    )


def _tax_kinds(case: Case) -> Iterator[Fault]:
    if case.chart is None or ("taxes",) in case.chart_broken:
        return
    known = tuple(case.chart.taxes)
    named: list[tuple[tuple[str, ...], tuple[str, ...]]]
    named = [(("materials", key, "tax"), material.tax) for key, material in case.chart.materials.items()]
    named += [(("work", key, "tax"), work.tax) for key, work in case.chart.work.items()]
    named += [(("delivery", "tax"), case.chart.delivery.tax)] if case.chart.delivery else []
    for path, kinds in named:
        for number, kind in enumerate(kinds):
            if kind not in known:
                there = f"known there: {', '.join(known) or 'nothing yet'}; or add it under 'taxes'"
                message = f"the price chart has no tax called '{kind}'"
                yield chart_fault(case, message, nearest(kind, known) or there, *path, number)


def _volume_dip(case: Case) -> Iterator[Fault]:
    for key, material in materials_used(case).items():
        if material.applies_to == "the rest" or material.larger_may_cost_less or material.price is None:
            continue
        price = material.price
        for index, step in enumerate(material.volume_price):
            if 0 < step.price < price:
                over = step.over.of(material.unit)
                end = over * Fraction(price) / Fraction(step.price)
                unit = unit_sign(material.unit)
                message = (
                    f"from {decimal(over, 2)} to {decimal(end, 2)} {unit} of '{key}' more would"
                    " cost less;"
                    f" the price is held at that of {decimal(over, 2)} {unit}"
                )
                yield chart_fault(
                    case,
                    message,
                    "nothing to mend; to charge only what lies beyond the step at the lower price, write"
                    " 'applies_to: the rest'",
                    "materials",
                    key,
                    "volume_price",
                    index,
                )
            price = step.price


def _no_delivery(case: Case) -> Iterator[Fault]:
    if (
        case.chart
        and case.chart.delivery is None
        and materials_used(case)
        and ("delivery",) not in case.chart_broken
    ):
        yield chart_fault(
            case,
            "the price chart has no price for delivery",
            "add 'delivery: {load: …, payload: …, fee: …}', or a fee of 0.00 where it is in the material's"
            " price",
        )


RULES = (
    Rule(
        "unit-does-not-fit", FAMILY, Level.STOPS, "Work is priced by a unit that its decision measures.",
        "An edge has feet, a bed has square feet, debris has cubic yards. Another unit has no quantity.",
        "chart: {work: {recut-edge: {price: {per: ft, amount:"
        " 1.45}}}}", "chart: {work: {recut-edge: {price: {per: ft2, amount: 1.45}}}}", _unit_fits,
    ),
    Rule(
        "unknown-stream", FAMILY, Level.STOPS, "Every stream of spoil that work names is under 'streams'.",
        "What has no swell and no weight cannot be hauled for a price.",
        "chart: {work: {recut-edge: {spoil: {depth: 4 in, width: 2 in, profile: wedge, stream: sod}}}}",
        "chart: {work: {recut-edge: {spoil: {depth: 4 in, width: 2 in, profile: wedge, stream:"
        " sodd}}}}", _streams,
    ),
    Rule(
        "no-dump-fee", FAMILY, Level.STOPS, "Hauling has a dump fee for every stream that it takes.",
        "A fee that is not in the chart is paid out of the contractor's pocket.",
        "chart: {work: {haul-away: {dump: {sod: 24.00/yd3, green: 0.00/yd3, mulch: 12.00/yd3, fabric:"
        " 30.00/yd3}}}}",
        "chart: {work: {haul-away: {dump: {sod: 24.00/yd3, green: (left out)}}}}", _no_dump_fee,
    ),
    Rule(
        "no-weight", FAMILY, Level.STOPS, "Every stream that comes out has a weight.",
        "A truck full by volume can be twice over its payload: wet sod is heavier than it looks.",
        "chart: {streams: {sod: {in_ground_weight: 2700"
        " lb/yd3}}}", "chart: {streams: {sod: {in_ground_weight: (left out)}}}", _no_weight,
    ),
    Rule(
        "no-rate", FAMILY, Level.WARNS, "Work that is priced by its size has a rate of work.",
        "Without it the hours and days on the paper are too few, and so is the crew's time.",
        "chart: {work: {recut-edge: {does: 80"
        " ft/h}}}", "chart: {work: {recut-edge: {does: (left out)}}}", _no_rate,
    ),
    Rule(
        "unknown-suit", FAMILY, Level.STOPS, "What work suits is something that a walk notes.",
        "A word that no walk uses is never met, and the work is never found unfit.",
        "chart: {work: {recut-edge: {suits: {edge: [crisp,"
        " soft]}}}}", "chart: {work: {recut-edge: {suits: {edge: [crisp, soft, sloppy]}}}}",
        _unknown_suits,
    ),
    Rule(
        "unknown-tax", FAMILY, Level.STOPS, "Every kind of tax that is named is under 'taxes'.",
        "A tax that is not there is not charged, and owed all the same.",
        "chart: {materials: {hardwood: {tax:"
        " goods}}}", "chart: {materials: {hardwood: {tax: good}}}", _tax_kinds,
    ),
    Rule(
        "volume-price-dip", FAMILY, Level.NOTES, "A volume price makes no larger order cheaper than a"
        " smaller one.",
        "At 99 instead of 112 a yard from 15 yards on, 16 yards would cost less than 15. The total is held"
        " at that of the step.",
        "chart: {materials: {hardwood: {volume_price: [{over: 15 yd3, price: 99.00}], applies_to: the"
        " rest}}}",
        "chart: {materials: {hardwood: {volume_price: [{over: 15 yd3, price: 99.00}]}}}", _volume_dip,
    ),
    Rule(
        "no-delivery", FAMILY, Level.NOTES, "The chart has a price for delivery.",
        "A truckload that nobody charged for comes with every job.",
        "chart: {delivery: {load: 6 yd3, payload: 9000 lb, fee:"
        " 0.00}}", "chart: {delivery: (left out)}", _no_delivery,
    ),
)  # fmt: skip
