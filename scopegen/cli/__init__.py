"""The command line: arguments in, one function called, its result printed."""

from __future__ import annotations


def main() -> None:
    """The `scopegen` command."""
    from scopegen.cli.commands import scopegen

    scopegen(prog_name="scopegen")
