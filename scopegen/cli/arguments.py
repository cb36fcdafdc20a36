"""What the commands take."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import click

from scopegen.quantities.texts import YEARS


class DayOf(click.ParamType[date]):
    """A day of the calendar, written year-month-day."""

    name = "DATE"

    def convert(self, value: str | date, param: click.Parameter | None, ctx: click.Context | None) -> date:
        if isinstance(value, date):
            return value
        from scopegen.quantities.texts import day
        from scopegen.quantities.units import NotAQuantity

        try:
            return day(value)
        except NotAQuantity as error:
            self.fail(f"{error}; {error.fix}", param, ctx)


class WholeFrom(click.ParamType[int]):
    """A whole number from `least` to `most`; `what` is how a message calls it."""

    def __init__(self, name: str, what: str, least: int, most: int) -> None:
        self.name, self.what, self.least, self.most = name, what, least, most

    def convert(self, value: str | int, param: click.Parameter | None, ctx: click.Context | None) -> int:
        text = str(value).strip()
        number = int(text) if re.fullmatch("[0-9]{1,9}", text) else None
        if number is None or not self.least <= number <= self.most:
            self.fail(f"'{text}' is not {self.what} from {self.least} to {self.most}", param, ctx)
        return number


YEAR = WholeFrom("YEAR", "a year", YEARS.start, YEARS.stop - 1)
JOB = click.argument("job", type=click.Path(path_type=Path))
AS_JSON = click.option("--json", "as_json", is_flag=True, help="Print JSON for another program.")
JOBS = click.argument("jobs", metavar="JOB...", nargs=-1, required=True, type=click.Path(path_type=Path))
