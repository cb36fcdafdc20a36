"""Dates that hold together. The check knows no today: it compares the file's days with one another."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.job.job import Start
from scopegen.load import Path_
from scopegen.quantities.show import decimal
from scopegen.rules.pieces import Piece, fault_at, job_fault, pieces, supplied, visit_of
from scopegen.rules.rule import TRADE, Fault, Rule
from scopegen.words.phrases import last_offer_day

FAMILY = "dates"
OLD_WALK_DAYS = 90  # after a season's quarter beds look different; a fixed price rests on what was seen


def _walked_after(case: Case) -> Iterator[Fault]:
    walked, dated = case.job.walked, case.job.dated
    if walked and dated and walked > dated:
        yield job_fault(
            case,
            f"the walk on {walked} is after the paper's date, {dated}",
            "check 'walked' and 'dated'",
            "walked",
        )


def _old_walk(case: Case) -> Iterator[Fault]:
    walked, dated = case.job.walked, case.job.dated
    if walked and dated and (dated - walked).days > OLD_WALK_DAYS:
        days = (dated - walked).days
        yield job_fault(
            case,
            f"the walk was {days} days before the paper's date",
            "walk it again, or be sure that nothing has changed",
            "walked",
        )


def _starts(case: Case) -> Iterator[tuple[Start, Path_]]:
    """The job's start, and those of its visits that are others, each with its place."""
    if case.job.start:
        yield case.job.start, ("start",)
    for index, visit in enumerate(case.job.visits):
        if visit.start != case.job.start:
            yield visit.start, ("visits", index, "start")


def _start_before_paper(case: Case) -> Iterator[Fault]:
    dated = case.job.dated
    for start, path in _starts(case):
        if start.from_ and dated and start.from_ < dated:
            message = f"the start on {start.from_} is before the paper's date, {dated}"
            yield job_fault(case, message, "check 'start' and 'dated'", *path, "from")


def _start_backwards(case: Case) -> Iterator[Fault]:
    for start, path in _starts(case):
        if start.from_ and start.to and start.to < start.from_:
            message = f"the start's last day, {start.to}, is before its first, {start.from_}"
            yield job_fault(case, message, "turn 'from' and 'to' round", *path, "to")


def _done_too_early(case: Case) -> Iterator[Fault]:
    done = case.job.done_by.day if case.job.done_by else None
    starts = [last_start(case, start) for start, _ in _starts(case)]
    last = max(filter(None, starts), default=None)
    if done and last and done < last:
        yield job_fault(
            case,
            f"the work is to be done by {done}, but it may start as late as {last}",
            "name a later day, or write 'done_by: 10 days after start'",
            "done_by",
        )


def _no_offer(case: Case) -> Iterator[Fault]:
    if case.job.offer_stands is not None and (
        case.job.offer_stands < 1 or case.job.offer_stands.denominator != 1
    ):
        yield job_fault(
            case,
            "the offer does not stand for whole days",
            "write whole days, like 'offer_stands: 21 days'",
            "offer_stands",
        )


def _offer_outlives_start(case: Case) -> Iterator[Fault]:
    last, start = last_offer_day(case.job), case.job.start
    if last and start and start.from_ and last > start.from_:
        yield job_fault(
            case,
            f"the offer stands to {last}, but the work is to start on {start.from_}",
            "let the offer end before the start, or start later",
            "offer_stands",
        )


def last_start(case: Case, start: Start | None) -> date | None:
    """The last day of a start by what the job says."""
    last = last_offer_day(case.job)
    if start is None:
        return None
    if start.within is not None:
        return last + timedelta(days=start.within.days) if last else None
    return start.to


def _customers(piece: Piece) -> bool:
    """The customer does it, or brings the material."""
    return piece.how == "customer" or piece.priced and supplied(piece)


def _customer_too_late(case: Case) -> Iterator[Fault]:
    dated, visits = case.job.dated, {visit.name: visit.start for visit in case.job.visits}
    for piece in pieces(case):
        by, what = piece.part.by, "material" if supplied(piece) else "work"
        if by is None or not _customers(piece):
            continue
        start = visits.get(visit_of(case, piece), case.job.start)
        limit = (start.from_ if start else None) or last_start(case, start)
        if by.day is not None:
            if limit is not None and by.day > limit:
                yield fault_at(
                    case,
                    piece,
                    f"the customer's {what} is due on {by.day}, after the start on {limit}",
                    "name a day before the start, or write 'by: 1 day before start'",
                    "by",
                )
            if dated is not None and by.day < dated:
                yield fault_at(
                    case,
                    piece,
                    f"the customer's {what} is due on {by.day}, before the paper's date, {dated}",
                    "name a later day",
                    "by",
                )
        elif limit and dated and limit - timedelta(days=by.days_before_start or 0) < dated:
            yield fault_at(
                case,
                piece,
                f"the customer's {what} is due before the paper's date, {dated}",
                "name fewer days before the start, or start later",
                "by",
            )


def _notice_too_short(case: Case) -> Iterator[Fault]:
    terms = case.company.terms if case.company else None
    if terms is None:
        return
    for piece in pieces(case):
        days = piece.part.by.days_before_start if piece.part.by else None
        if _customers(piece) and days is not None and days >= terms.start_notice:
            notice, what = decimal(terms.start_notice), "material" if supplied(piece) else "work"
            yield fault_at(
                case, piece,
                f"the customer's {what} is due {days} days before the start, but they learn of the start only"
                f" {notice} days ahead",
                "name fewer days, or tell them earlier: 'start_notice: …' under 'terms' in company.yaml",
                "by",
            )  # fmt: skip


def _season(case: Case) -> Iterator[Fault]:
    season, dated = case.job.season, case.job.dated
    if season and dated and season not in (dated.year, dated.year + 1):
        yield job_fault(
            case,
            f"the season {season} is not the year of the paper's date, {dated}",
            "check 'season' and 'dated'",
            "season",
        )


def _chart_season(case: Case) -> Iterator[Fault]:
    if case.chart and case.chart.season and case.job.season and case.chart.season != case.job.season:
        place = case.chart_place(("season",))
        yield Fault(
            f"the price chart is for season {case.chart.season}, the job for {case.job.season}",
            "give the chart the season of its file's name",
            place,
        )


def _start_inside_cancellation(case: Case) -> Iterator[Fault]:
    dated = case.job.dated
    if not (dated and case.rights):
        return
    on_a_day = [(start.from_, path) for start, path in _starts(case) if start.from_]
    if not on_a_day:  # looking up holidays takes longer than many a whole check
        return
    last = max(right.last_day(dated) for right in case.rights)
    for first, path in on_a_day:
        if first <= last:
            message = (
                f"the work is to start on {first}, but the customer may cancel to {last} even if they"
                f" sign on {dated}"
            )
            yield job_fault(case, message, "start after the last day to cancel", *path, "from")


RULES = (
    Rule(
        "walk-after-paper", FAMILY, Level.STOPS, "The walk was on or before the paper's date.",
        "A paper cannot rest on a walk that was not yet made.",
        "job: {walked: 2027-03-19, dated:"
        " 2027-03-19}", "job: {walked: 2027-03-20, dated: 2027-03-19}", _walked_after,
    ),
    Rule(
        "old-walk", FAMILY, Level.WARNS, f"The walk was no more than {OLD_WALK_DAYS} days before the paper's"
        " date.",
        "Weeds, leaves and edges change with the season, and a fixed price rests on what was seen.",
        "job: {walked: 2026-12-19, dated:"
        " 2027-03-19}", "job: {walked: 2026-12-18, dated: 2027-03-19}", _old_walk, TRADE,
    ),
    Rule(
        "start-before-paper", FAMILY, Level.STOPS, "The work starts on or after the paper's date.",
        "Work that starts before its agreement has none.",
        "job: {start: {from: 2027-04-12, to:"
        " 2027-04-16}}", "job: {start: {from: 2027-03-01, to: 2027-03-05}}", _start_before_paper,
    ),
    Rule(
        "start-backwards", FAMILY, Level.STOPS, "The start's first day is not after its last.",
        "Between two days turned round there is no day to start.",
        "job: {start: {from: 2027-04-12, to:"
        " 2027-04-12}}", "job: {start: {from: 2027-04-16, to: 2027-04-12}}", _start_backwards,
    ),
    Rule(
        "done-before-start", FAMILY, Level.STOPS, "The work is to be done no earlier than it may start.",
        "A day of completion that passes before the crew may come is a promise already broken.",
        "job: {start: {from: 2027-04-12, to: 2027-04-16}, done_by: 2027-04-16}",
        "job: {start: {from: 2027-04-12, to: 2027-04-16}, done_by: 2027-04-15}", _done_too_early,
    ),
    Rule(
        "offer-stands", FAMILY, Level.STOPS, "The offer stands for at least a day, in whole days.",
        "An offer that never stands cannot be taken. Its last day is the paper's date and so many days, that"
        " day included.",
        "job: {offer_stands: 1 day}", "job: {offer_stands: 0 days}", _no_offer,
    ),
    Rule(
        "offer-outlives-start", FAMILY, Level.WARNS, "The offer ends before the work is to start.",
        "Whoever signs on the offer's last day expects the start that the paper names.",
        "job: {offer_stands: 10 days, start: {from: 2027-04-12, to: 2027-04-16}}",
        "job: {offer_stands: 30 days, start: {from: 2027-04-12, to:"
        " 2027-04-16}}", _offer_outlives_start, TRADE,
    ),
    Rule(
        "customer-too-late", FAMILY, Level.STOPS, "The customer's own work is due after the paper's date and"
        " before the start.",
        "A bed that is cleared after the crew came is a lost day.",
        "job: {start: {from: 2027-04-12, to: 2027-04-16}, beds: [{bed_prep: {decided: customer, by:"
        " 2027-04-10, if_not_done: come back}}]}",
        "job: {start: {from: 2027-04-12, to: 2027-04-16}, beds: [{bed_prep: {decided: customer, by:"
        " 2027-04-14, if_not_done: come back}}]}",
        _customer_too_late, TRADE,
    ),
    Rule(
        "notice-too-short", FAMILY, Level.STOPS, "The customer learns of the first day before their own work"
        " is due.",
        "Whoever is told three days ahead cannot have been ready four days ahead, and will not pay for being"
        " late.",
        "job: {beds: [{bed_prep: {decided: customer, by: 2 days before start, if_not_done: come back}}]}",
        "job: {beds: [{bed_prep: {decided: customer, by: 3 days before start, if_not_done: come back}}]}",
        _notice_too_short, TRADE,
    ),
    Rule(
        "season-and-date", FAMILY, Level.WARNS, "The season is the year of the paper's date, or the year"
        " after.",
        "The season picks the price chart and the wording. Last year's number sells at last year's prices.",
        "job: {season: 2027, dated: 2026-12-30, walked:"
        " 2026-12-29}", "job: {season: 2027, dated: 2028-03-19, walked: 2028-03-18, start: {from:"
        " 2028-04-12, to: 2028-04-16}}", _season,
    ),
    Rule(
        "chart-season", FAMILY, Level.STOPS, "The price chart is the one of the job's season.",
        "A chart copied forward and not looked at sells at old prices.",
        "chart: {season: 2027}", "chart: {season: 2026}", _chart_season,
    ),
    Rule(
        "start-inside-cancellation", FAMILY, Level.WARNS, "The work starts after the last day to cancel.",
        "Who starts before it may do the work for nothing; in some states starting then is forbidden.",
        "job: {signed_at: customer's home, start: {from: 2027-04-12, to: 2027-04-16}}",
        "job: {signed_at: customer's home, offer_stands: 1 day, start: {from: 2027-03-22, to: 2027-03-26}}",
        _start_inside_cancellation, "16 CFR 429.1; Ohio Revised Code 1345.22 ff. (services)",
    ),
)  # fmt: skip
