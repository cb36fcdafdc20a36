"""`scopegen start`: a folder of one's own."""

from __future__ import annotations

import shlex
from datetime import date
from pathlib import Path

import click

from scopegen.cli.arguments import YEAR
from scopegen.cli.ending import stop
from scopegen.cli.spoken import Spoken
from scopegen.cli.voice import news, visible


@click.command(cls=Spoken)
@click.argument("folder", type=click.Path(path_type=Path))
@click.option(
    "--season",
    type=YEAR,
    help="The year of the prices; without it this year, from October on the next.",
)
def start(folder: Path, season: int | None) -> None:
    """Lay out a FOLDER of your own.

    FOLDER is new or empty. It gets your particulars, a price chart, a first job, and schemas for an editor.
    Every line is explained beside it, prices and names are invented and yours to change, and the first job
    can be checked and written at once. It is dated today, or where the season is further off its first of
    March. Nothing that lies there is overwritten.
    """
    from scopegen.starter import InTheWay, dated_in, files_of, first_season, lay_out, season_at

    first, today = first_season(), date.today()
    season = season or season_at(today, first)
    if season < first:
        stop(f"The clauses that ship begin with season {first}. Name that one with --season, or a later one.")
    if not folder.absolute().parent.is_dir():
        stop(f"There is no folder {visible(folder.parent)}. Make it first, or name another one.")
    try:
        lay_out(folder, files_of(season, dated_in(season, today)))
    except InTheWay as error:
        stop(f"{visible(error.path)} is in the way. Name a new folder, or an empty one; nothing was written.")
    except OSError as error:
        stop(f"{visible(folder)} cannot be written: {error.strerror or error}. Nothing was.")
    news(_what_now(folder, season))


def _what_now(folder: Path, season: int) -> str:
    path = str(folder / "first-job.yaml")
    job = shlex.quote(f"./{path}" if path.startswith("-") else path)  # no command takes it for an option
    return f"""Laid out {visible(folder)}:
  company.yaml          who you are: change every line
  prices-{season}.yaml      your materials and kinds of work: every price is yours to set
  first-job.yaml        a job with two beds, every decision made
  clauses/              wording of your own, if you want any; README.txt there says how
  schemas/              for an editor: it completes keys and marks slips

Next:
  scopegen check {job}
  scopegen price {job}
  scopegen write agreement {job}"""
