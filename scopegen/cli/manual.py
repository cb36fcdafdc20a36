"""`scopegen explain` and `scopegen schema`: what the files may say, for people and for editors."""

from __future__ import annotations

import sys

import click

from scopegen.cli.arguments import AS_JSON
from scopegen.cli.completion import rules_that_begin
from scopegen.cli.ending import Exit, stop
from scopegen.cli.spoken import Spoken
from scopegen.cli.voice import print_json, result, visible


@click.command(cls=Spoken)
@click.argument("rule", required=False, shell_complete=rules_that_begin)
@AS_JSON
def explain(rule: str | None, as_json: bool) -> None:
    """Print what RULE asks and why, with examples.

    One example passes and one fails. RULE is the word in brackets at the end of a finding. Without it, every
    rule is listed.
    """
    from scopegen.manual import page_of
    from scopegen.report.manual import list_json, list_text, page_json, page_text

    if rule is None:
        print_json(list_json()) if as_json else result(list_text())
        return
    page = page_of(rule)
    if page is None:
        _unknown(rule, as_json)
    elif as_json:
        print_json(page_json(page))
    else:
        result(page_text(page))


def _unknown(rule: str, as_json: bool) -> None:
    from scopegen.manual import near

    meant = near(rule)
    if as_json:
        print_json({"unknown": rule, "near": list(meant)})
        sys.exit(Exit.NOT_UNDERSTOOD)
    like = f" Near it: {', '.join(meant)}." if meant else ""
    stop(
        f"There is no rule '{visible(rule)}'.{like} `scopegen explain` alone lists every rule.",
        Exit.NOT_UNDERSTOOD,
    )


@click.command(cls=Spoken)
@click.argument("kind", type=click.Choice(["job", "chart", "company", "clause"]))
def schema(kind: str) -> None:
    """Print the JSON Schema of a kind of file.

    It is of draft 2020-12. An editor that reads it completes keys, shows what they mean, and marks slips
    while you type. `scopegen start` puts all four schemas into a folder.
    """
    from scopegen.schema import schema_of

    print_json(schema_of(kind))
