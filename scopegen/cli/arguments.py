"""What the commands take."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click


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


JOB = click.argument("job", type=click.Path(path_type=Path))
AS_JSON = click.option("--json", "as_json", is_flag=True, help="Print JSON for another program.")
JOBS = click.argument("jobs", metavar="JOB...", nargs=-1, required=True, type=click.Path(path_type=Path))
