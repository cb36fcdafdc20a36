"""The commands. Each reads its arguments, calls the pipeline, prints, and ends with an exit code.

What they call is imported inside them: every command, and every completion of a word, waits for what is
imported here.
"""

from __future__ import annotations

import click

from scopegen import __version__
from scopegen.cli.check import check
from scopegen.cli.clause_edit import edit
from scopegen.cli.clauses import clauses
from scopegen.cli.completion import completion
from scopegen.cli.manual import explain, schema
from scopegen.cli.price import price
from scopegen.cli.reopen import open_
from scopegen.cli.season import season
from scopegen.cli.spoken import Commands
from scopegen.cli.start import start
from scopegen.cli.write import write


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, message="scopegen %(version)s")
def scopegen() -> None:
    """From the notes of a walk to a written agreement for landscape bed work.

    JOB is a job description: a YAML file in a folder with company.yaml and the season's price chart.
    """


clauses.add_command(edit)
for command in (check, price, write, clauses, season, open_, explain, schema, start, completion):
    scopegen.add_command(command)
