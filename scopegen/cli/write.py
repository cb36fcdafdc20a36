"""`scopegen write`: the papers."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from scopegen.cli.arguments import JOBS, DayOf, WholeFrom
from scopegen.cli.ending import Exit, stop
from scopegen.cli.jobs import Named, jobs_named, passed_over_text
from scopegen.cli.opening import not_understood
from scopegen.cli.spoken import Commands
from scopegen.cli.taken import AGREEMENT, refuse_what_is_there
from scopegen.cli.targets import NoTarget, Order, Wanted, orders_for
from scopegen.cli.voice import news, trouble, visible
from scopegen.load import Unreadable

if TYPE_CHECKING:
    from scopegen.cli.paper import Made


@click.group(cls=Commands)
def write() -> None:
    """Write a paper."""


@write.command()
@JOBS
@click.option(
    "-o",
    "--output",
    type=click.Path(),
    help="The file to write, or a folder to write into; for several jobs a folder, which is made where it is "
    "missing. Without it, JOB's name beside JOB.",
)
@click.option(
    "--as",
    "kind",
    type=click.Choice(["pdf", "html"]),
    help="A PDF, or one self-contained HTML file; without it, what the file's name says, else a PDF.",
)
@click.option(
    "--draft",
    is_flag=True,
    help="Write it with decisions open, marked as a draft, with lines to fill in by hand.",
)
@click.option("--dated", type=DayOf(), help="The paper's date, in place of the job's own.")
@click.option(
    "--signed-on", type=DayOf(), help="The day of signing, to fill in the dates of the cancellation notice."
)
@click.option(
    "--at-once",
    type=WholeFrom("NUMBER", "a number of papers", 1, 256),
    help="How many papers are made at once; without it, one for each processor core.",
)
@click.option(
    "--watch",
    is_flag=True,
    help="Go on, and write a paper anew whenever a file that it rests on changes, until Ctrl-C.",
)
def agreement(
    jobs: tuple[Path, ...], at_once: int | None, watch: bool, **asked: str | bool | date | None
) -> None:
    """Write the agreement of each JOB. Refuses while anything stops it; `scopegen check JOB` says what.

    JOB may be a folder: all job descriptions in it and below, clauses and what `scopegen open` took out of
    papers aside. Of several jobs each is written that can be, and a summary names the others. Before the
    first is written, two that would go to the same file are refused. An older paper of the same job is
    replaced, unless it was filled in or signed; any other file stays.

    Exit code: 0 written, 1 a finding stops it, 2 the file could not be understood, 3 it cannot be put there;
    of several jobs the highest.
    """
    wanted = Wanted(**asked)  # type: ignore[arg-type]
    try:
        named = jobs_named(jobs)
        orders = orders_for(named.jobs, named.several, wanted)
        if watch and not named.several:
            refuse_what_is_there(orders[0].path, "with -o", AGREEMENT, orders[0].job)
    except Unreadable as error:
        not_understood(error.finding, as_json=False)
    except NoTarget as error:
        stop(str(error))
    if watch:
        from scopegen.cli.watch import watch_and_write

        watch_and_write(jobs, wanted)
    elif named.several:
        _write_all(named, orders, at_once)
    else:
        _write_one(orders[0])


def _write_one(order: Order) -> None:
    from scopegen.cli.paper import make, put
    from scopegen.kept import Kept

    made = put(make(order, Kept()))
    if made.code is not Exit.FINE:
        stop(made.said, made.code)
    news("\n".join([f"Wrote {visible(order.path)}", *made.duties]))
    if made.warning:
        trouble(made.warning)


def _write_all(named: Named, orders: tuple[Order, ...], at_once: int | None) -> None:
    """Each paper that can be written, then a summary."""
    from scopegen.cli.paper import put
    from scopegen.cli.pool import cores, made_at_once, made_one_by_one
    from scopegen.cli.process import uninterrupted
    from scopegen.cli.progress import progress
    from scopegen.kept import Kept

    count = min(at_once or cores(), len(orders))
    run = made_at_once(orders, count) if count > 1 else made_one_by_one(orders, Kept())
    became: dict[Order, Made] = {}
    try:
        with progress(len(orders), "Writing") as told:
            for ready in run:
                with uninterrupted():  # else a paper could be there and not be counted
                    made = became[ready.order] = put(ready)
                told(f"Wrote {visible(made.order.path)}" if made.code is Exit.FINE else "")
    except KeyboardInterrupt:
        written = sum(made.code is Exit.FINE for made in became.values())
        stop(f"Interrupted: {written} of {len(orders)} papers are written, each whole.", Exit.INTERRUPTED)
    finally:
        run.close()  # type: ignore[attr-defined]
    _sum_up([became[order] for order in orders], named)
    sys.exit(max(made.code for made in became.values()))


def _sum_up(became: list[Made], named: Named) -> None:
    fine = [made for made in became if made.code is Exit.FINE]
    others = [made for made in became if made.code is not Exit.FINE]
    for duties in dict.fromkeys(text for made in fine for text in made.duties):
        papers = ", ".join(visible(made.order.path.name) for made in fine if duties in made.duties)
        news(f"\nOf {papers}:\n{duties}\n")
    if passed_over := passed_over_text(named):
        news(passed_over)
    for warning in dict.fromkeys(made.warning for made in fine if made.warning):
        trouble(warning)
    count = f"{len(fine)} written, {len(others)} not written"
    if not others:
        news(f"{count}.")
        return
    reasons = [f"  {visible(made.order.job)}\n    {visible(made.reason)}" for made in others]
    hint = "`scopegen check JOB` says all about one."
    trouble("\n".join([f"{count}:", *reasons, *([hint] if any(m.code < 3 for m in others) else [])]))
