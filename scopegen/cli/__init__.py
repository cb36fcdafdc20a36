"""The command line: arguments in, one function called, its result printed."""

from __future__ import annotations


def main() -> None:
    """The `scopegen` command."""
    try:
        from scopegen.cli.commands import scopegen

        scopegen(prog_name="scopegen")
    except KeyboardInterrupt:  # before the commands are there, or after they ended
        raise SystemExit(130) from None
