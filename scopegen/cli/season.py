"""`scopegen season`: a new season's prices and wording."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

import click

from scopegen.cli.arguments import AS_JSON, YEAR
from scopegen.cli.clause_edit import new_wording
from scopegen.cli.ending import Exit, stop
from scopegen.cli.folder import (
    IN,
    read_file,
    read_wording,
    refuse_broken,
    save_all,
    workspace_at,
)
from scopegen.cli.spoken import Commands
from scopegen.cli.voice import is_quiet, news, print_drawn, print_json, result, visible

if TYPE_CHECKING:
    from scopegen.load import Data, Source
    from scopegen.season import Opened, Raise
    from scopegen.workspace import Workspace

OF_YEAR = click.argument("year", metavar="SEASON", type=YEAR)


class RaiseOf(click.ParamType["Raise"]):
    """A share on top of every price, or of one group's."""

    name = "[GROUP=]PERCENT"

    def convert(self, value: str | Raise, param: click.Parameter | None, ctx: click.Context | None) -> Raise:
        from scopegen.quantities.units import NotAQuantity
        from scopegen.season import read_raise

        if not isinstance(value, str):
            return value
        try:
            return read_raise(value)
        except NotAQuantity as error:
            self.fail(f"{error}; {error.fix}", param, ctx)


class AmountOf(click.ParamType[Decimal]):
    """An amount of money above zero."""

    name = "AMOUNT"

    def convert(
        self, value: str | Decimal, param: click.Parameter | None, ctx: click.Context | None
    ) -> Decimal:
        from scopegen.quantities.texts import money
        from scopegen.quantities.units import NotAQuantity

        try:
            amount = value if isinstance(value, Decimal) else money(value)
        except NotAQuantity as error:
            self.fail(f"{error}; {error.fix}", param, ctx)
        return amount or self.fail("0.00 is no step to round to; write one like 0.05", param, ctx)


@click.group(cls=Commands)
def season() -> None:
    """Open a new season, and look at its prices."""


@season.command("open")
@OF_YEAR
@click.option(
    "--raise",
    "raises",
    type=RaiseOf(),
    multiple=True,
    help="Raise every price by so much ('4 %'), or a group's (mulch='6 %'). A group is a price group, a kind"
    " of material, hours, materials, work, hauling or job; also one material, kind of work or price. The"
    " closest one counts.",
)
@click.option(
    "--to",
    "step",
    type=AmountOf(),
    help="Round what is raised half up to a multiple of this, such as 0.05; to the cent below 20 times it.",
)
@click.option(
    "--clause", "clauses", metavar="NAME", multiple=True, help="Start a new version of this clause too."
)
@IN
def open_(
    year: int, raises: tuple[Raise, ...], step: Decimal | None, clauses: tuple[str, ...], folder: Path
) -> None:
    """Carry the newest price chart forward to SEASON.

    Comments and order stay. Every price is put on a list, 'to_review', at the top of the new chart: while a
    price is on it, no agreement that uses it is written. What else the season changes is said too.

    Exit code: 0 it is open, 1 it cannot be opened, 2 a file or a name was not understood, 3 a file cannot be
    written. Then nothing is changed.
    """
    from scopegen.amend import CannotAmend
    from scopegen.season import Refused, earlier_chart, left_open, opened
    from scopegen.stock import seasons_of

    if step is not None and not raises:
        stop("--to rounds what --raise raises. Add --raise, or leave it out.", Exit.NOT_UNDERSTOOD)
    space = workspace_at(folder)
    try:
        earlier = earlier_chart(seasons_of(space), year)
        source, text = _sound_chart(space, earlier)
        done = opened(source, text, year, raises, step)
        library = read_wording(space)
        wording = [new_wording(space, library, name, year) for name in dict.fromkeys(clauses)]
    except (Refused, CannotAmend) as error:
        stop(visible(error), Exit.STOPPED)
    target = space.chart(year)
    save_all({**{each.path: each.text for each in wording}, target: done.text})
    _tell(space, earlier, year, done, step if raises else None)
    for sentence in left_open(earlier, year, source):
        news(sentence)
    for each in wording:
        result(f"A version for season {year}, still worded as before, for you to edit: {each.place}")
    _tell_turn(space, earlier, year, target)


def _sound_chart(space: Workspace, year: int) -> tuple[Source, str]:
    from scopegen.understand import understand_chart

    source, text = read_file(space.chart(year))
    understood = understand_chart(source)
    refuse_broken(understood.findings)
    if understood.value.season != year:
        stop(
            f"{visible(source.name)} says that it is for season {understood.value.season}. Mend 'season' in"
            " it, or its name. Nothing was written.",
            Exit.NOT_UNDERSTOOD,
        )
    return source, text


def _tell(space: Workspace, earlier: int, year: int, done: Opened, step: Decimal | None) -> None:
    from scopegen.report.season import raised_table
    from scopegen.season.opening import rounding
    from scopegen.workspace import shown

    news(f"Opened season {year}: {shown(space.chart(year))}, from {shown(space.chart(earlier))}")
    if done.raised and not is_quiet():
        print_drawn(raised_table(done.raised))
        news(f"Raised prices are {rounding(step)}.")
        same = [each.price.name for each in done.raised if each.after == each.before and each.before]
        if same:
            news(f"Too small to rise by a cent or a step, and as they were: {', '.join(same)}")
    news(f"Prices to look at before an agreement uses them: {len(done.to_review)}.")
    news(f"  scopegen season review {year}")
    if done.old_comments:
        news(f"Comments still speak of {earlier} in line {', '.join(map(str, done.old_comments))}.")


def _tell_turn(space: Workspace, earlier: int, year: int, target: Path) -> None:
    from scopegen.law import read_laws
    from scopegen.library_folder import library_folder
    from scopegen.season import turn_of

    source, _ = read_file(target)
    laws, _ = read_laws(library_folder())
    said = list(turn_of(year, read_wording(space), laws, source.data, earlier))
    if said:
        news("\n".join([f"With season {year}:", *(f"- {sentence}" for sentence in said)]))


@season.command("review")
@OF_YEAR
@click.argument("names", metavar="[NAME]...", nargs=-1)
@click.option("--confirm", is_flag=True, help="Take each NAME off the list: it was looked at, and is right.")
@click.option("--confirm-all", is_flag=True, help="Take everything off the list.")
@click.option(
    "--set", "amounts", metavar="NAME=AMOUNT", multiple=True, help="Change a price, and take it off the list."
)
@AS_JSON
@IN
def review(
    year: int,
    names: tuple[str, ...],
    confirm: bool,
    confirm_all: bool,
    amounts: tuple[str, ...],
    as_json: bool,
    folder: Path,
) -> None:
    """List the prices of SEASON that are still to be looked at, beside those of the season before.

    NAME is one of the list, or stands for all below it: materials, work.haul-away.dump. Without --confirm it
    narrows the list. You can also take a line off the list in the chart by hand.

    Exit code: 0 done, 1 refused, 2 a file was not understood, 3 the chart cannot be written.
    """
    from scopegen.amend import CannotAmend
    from scopegen.season import Refused, confirmed, names_meant, to_look_at
    from scopegen.stock import seasons_of

    _refuse_unclear(names, confirm, confirm_all, amounts)
    space = workspace_at(folder)
    if year not in seasons_of(space):
        stop(f"Season {year} is not open. `scopegen season open {year}` opens it.", Exit.NOT_UNDERSTOOD)
    source, text = read_file(space.chart(year))
    try:
        listed = names_meant(source, names)
        if not (confirm or confirm_all or amounts):
            _tell_list(space, year, source, listed, as_json)
            return
        gone = tuple(each.name for each in to_look_at(source)) if confirm_all else listed
        changed = confirmed(source, text, gone, _pairs(amounts))
    except (Refused, CannotAmend) as error:
        stop(visible(error), Exit.STOPPED)
    if changed != text:
        save_all({space.chart(year): changed})
    now, _ = read_file(space.chart(year))
    _tell_done(year, source, now, as_json)


def _refuse_unclear(
    names: tuple[str, ...], confirm: bool, confirm_all: bool, amounts: tuple[str, ...]
) -> None:
    """Ends the command where what was typed may mean two things."""
    if confirm and not names:
        stop("--confirm takes the names of prices. For all of them, say --confirm-all.", Exit.NOT_UNDERSTOOD)
    if names and not confirm and (confirm_all or amounts):
        stop(
            f"'{visible(names[0])}' goes with --confirm. Add it, or leave the name out.", Exit.NOT_UNDERSTOOD
        )
    if confirm and confirm_all:
        stop("Say --confirm with names, or --confirm-all without.", Exit.NOT_UNDERSTOOD)


def _pairs(amounts: tuple[str, ...]) -> dict[str, str]:
    pairs: dict[str, str] = {}
    for each in amounts:
        name, equals, amount = (part.strip() for part in each.partition("="))
        if not equals:
            stop(
                f"--set takes NAME=AMOUNT, like job.minimum=300.00, not '{visible(each)}'.",
                Exit.NOT_UNDERSTOOD,
            )
        if name in pairs:
            stop(f"--set says {visible(name)} twice. Keep one of the two.", Exit.NOT_UNDERSTOOD)
        pairs[name] = amount
    return pairs


def _tell_done(year: int, before: Source, now: Source, as_json: bool) -> None:
    from scopegen.chart.prices import prices_in
    from scopegen.report.season import review_json
    from scopegen.season import to_look_at

    was, left = {price.name: price.said for price in prices_in(before.data)}, to_look_at(now)
    if as_json:
        print_json(review_json(left, year, None))
        return
    for price in prices_in(now.data):
        if price.said != was[price.name]:
            news(f"{price.name} was {was[price.name]}, and is {price.said}.")
    off = len(to_look_at(before)) - len(left)
    news(f"Taken off the list: {off}. Still to look at: {len(left)}.")


def _tell_list(space: Workspace, year: int, source: Source, narrowed: tuple[str, ...], as_json: bool) -> None:
    from scopegen.report.season import review_json, review_table
    from scopegen.season import to_look_at
    from scopegen.stock import seasons_of

    earlier = max((each for each in seasons_of(space) if each < year), default=None)
    before = _data_of(space.chart(earlier)) if earlier else None
    listed = [each for each in to_look_at(source, before) if not narrowed or each.name in narrowed]
    if as_json:
        print_json(review_json(listed, year, earlier))
    elif listed:
        print_drawn(review_table(listed, year, earlier))
        news("Right: scopegen season review … --confirm NAME. Another one: --set NAME=AMOUNT.")
    else:
        news(f"No price of season {year} is left to look at.")


def _data_of(path: Path) -> Data:
    """What a chart says; nothing where it cannot be read: it is asked for comparison alone."""
    from scopegen.load import Unreadable, load

    try:
        return load(path).data
    except Unreadable:
        return None
