"""Choices of a group, and work by the hour with its limit."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from scopegen.case import Case
from scopegen.chart import UnitPrice, Work
from scopegen.findings import Level
from scopegen.price.lines import BILLED_IN
from scopegen.quantities.rounding import cents, half_up
from scopegen.rules.pieces import Piece, fault_at, job_fault, pieces, unknown_work, work_of
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "choices and limits"


def _choose_one_way(case: Case) -> Iterator[Fault]:
    for piece in pieces(case):
        if piece.part.choose_one and piece.how != "add-on":
            yield fault_at(
                case, piece,
                f"'choose_one' is said, but {piece.spoken} is decided '{piece.how}', which is no choice",
                "decide it as 'add-on', or take 'choose_one' out",
                "choose_one",
            )  # fmt: skip


def _choose_one_alone(case: Case) -> Iterator[Fault]:
    groups: dict[str, list[Piece]] = {}
    for piece in pieces(case):
        if piece.part.choose_one and piece.how == "add-on":
            groups.setdefault(piece.part.choose_one, []).append(piece)
    for group, own in groups.items():
        paths = {piece.path for piece in own} | set(_open_choices(case, group))
        if len(paths) == 1:  # said once in every_bed it is one choice for all beds
            yield fault_at(
                case, own[0],
                f"it is the only choice of '{group}'",
                "let another add-on name the same group, or take 'choose_one' out",
                "choose_one",
            )  # fmt: skip


def _open_choices(case: Case, group: str) -> Iterator[tuple[str | int, ...]]:
    """Parts of the group that nobody decided yet."""
    parts = [(part, answer.path_of(i)) for answer in case.answers for i, part in enumerate(answer.parts)]
    parts += [(part, ("extras", i)) for i, part in enumerate(case.job.extras)]
    return (path for part, path in parts if part.open and part.choose_one == group)


def _by_the_hour(work: Work) -> UnitPrice | None:
    price = work.price
    return price if isinstance(price, UnitPrice) and price.per == "worker-hour" else None


def _not_over_way(case: Case) -> Iterator[Fault]:
    for piece in pieces(case):
        if piece.part.not_over is None or unknown_work(case, piece) or case.chart is None:
            continue
        work = work_of(case, piece)
        if work is None and piece.priced and piece.of_bed and piece.decision != "material":
            continue  # that no work is named is found already
        if work is None or _by_the_hour(work) is None:
            named = f"'{piece.part.work}'" if work else piece.spoken
            yield fault_at(
                case, piece,
                f"'not_over' limits work by the hour, and {named} is not priced by the hour",
                "take it out: the price on the paper is the price",
                "not_over",
            )  # fmt: skip


def _estimate(piece: Piece, work: Work, price: UnitPrice) -> Decimal:
    """What the stated hours cost, as they are billed."""
    hours = half_up(piece.part.worker_hours or Fraction(0), work.billed_in or BILLED_IN[price.per])
    return max(cents(hours * Fraction(price.amount)), price.minimum)


def _limit_too_low(case: Case) -> Iterator[Fault]:
    for piece in pieces(case):
        work, limit = work_of(case, piece), piece.part.not_over
        price = _by_the_hour(work) if work else None
        if work is None or price is None or limit is None or not piece.part.worker_hours:
            continue
        estimate = _estimate(piece, work, price)
        if limit < estimate:
            yield fault_at(
                case, piece,
                f"the hours come to {estimate:,.2f}, which is more than the limit of {limit:,.2f}",
                "raise 'not_over', or lower 'worker_hours'",
                "not_over",
            )  # fmt: skip


def _unlimited(case: Case) -> Iterator[Fault]:
    if case.job.purpose != "household" or case.chart is None:
        return
    for index, found in enumerate(case.job.if_found):
        work = case.chart.work.get(found.work)
        if work is not None and _by_the_hour(work) and found.not_over is None and found.call_first:
            yield job_fault(
                case,
                f"if we find {found.what}, '{found.work}' is charged by the hour, and no most is named",
                "add 'not_over: …' beside 'call_first', so that the call starts from a figure",
                "if_found", index, "work",
            )  # fmt: skip


_A = "{decided: add-on, work: hand-weed, choose_one: weeds}"
_B = "{decided: add-on, work: clear-leaves, choose_one: weeds}"
LITTER = "found: {edge: soft, weeds: light, leaves: some, ground: old mulch, ground_depth: 1 in}"
CHOOSE_ONE_WAY = Rule(
    "choose-one-way", FAMILY, Level.STOPS,
    "Only add-ons are choices of a group.",
    "Included work is done whatever the customer initials. Named beside a choice, it would be sold twice, or"
    " not at all.",
    f"job: {{beds: [{{{LITTER}, bed_prep: [{_A}, {_B}]}}]}}",
    f"job: {{beds: [{{{LITTER}, bed_prep: [{_A}, {{decided: included, work: clear-leaves, choose_one:"
    " weeds}]}]}",
    _choose_one_way,
)  # fmt: skip
CHOOSE_ONE_ALONE = Rule(
    "choose-one-alone", FAMILY, Level.WARNS,
    "A group has two choices or more.",
    "Most often the name of the group was written in two ways. Then the customer could take both.",
    f"job: {{beds: [{{{LITTER}, bed_prep: [{_A}, {_B}]}}]}}",
    f"job: {{beds: [{{{LITTER}, bed_prep: [{_A}, {{decided: add-on, work: clear-leaves, choose_one:"
    " weed}]}]}",
    _choose_one_alone,
)  # fmt: skip
HOURS = "work: shrub-trim, worker_hours: 3 h, decided: included"
NOT_OVER_WAY = Rule(
    "not-over-way", FAMILY, Level.STOPS,
    "A limit is said only for work that is priced by the hour.",
    "The price of work by the foot is fixed. A limit beside it says that the price might be another.",
    f"job: {{extras: [{{{HOURS}, not_over: 250.00}}]}}",
    "job: {beds: [{edging: {decided: included, work: recut-edge, not_over: 90.00}}]}",
    _not_over_way,
)  # fmt: skip
LIMIT_TOO_LOW = Rule(
    "limit-below-estimate", FAMILY, Level.STOPS,
    "The limit of work by the hour is no less than its estimate.",
    "Whoever expects three hours cannot promise to stop after two without saying that the work is not done.",
    f"job: {{extras: [{{{HOURS}, not_over: 180.00}}]}}",
    f"job: {{extras: [{{{HOURS}, not_over: 179.99}}]}}",
    _limit_too_low,
)  # fmt: skip
UNLIMITED = Rule(
    "by-hour-unlimited", FAMILY, Level.WARNS,
    "Where a household may come to owe hours, the most is named.",
    "Hours that are stated in advance have a fixed price, or a limit. Hours for what may be found have"
    " neither, and a yes on the telephone names no sum.",
    "job: {if_found: [{what: thick roots, work: cut-roots, call_first: yes, not_over: 200.00}]}",
    "job: {if_found: [{what: thick roots, work: cut-roots, call_first: yes}]}",
    _unlimited, TRADE,
)  # fmt: skip

RULES = (CHOOSE_ONE_WAY, CHOOSE_ONE_ALONE, NOT_OVER_WAY, LIMIT_TOO_LOW, UNLIMITED)
