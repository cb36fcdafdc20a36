"""The command line: arguments in, one function called, its result printed."""

from __future__ import annotations


def main() -> None:
    """The `scopegen` command."""
    try:
        from scopegen.cli.process import run

        run(_command)
    except KeyboardInterrupt:  # before it was listened for
        raise SystemExit(130) from None


def _command() -> None:
    from scopegen.cli.commands import scopegen

    scopegen(prog_name="scopegen")
