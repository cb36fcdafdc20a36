"""The command line: arguments in, one function called, its result printed."""

from __future__ import annotations

import os


def main() -> None:
    """The `scopegen` command."""
    # a plug-in of another package would take part in reading; to look for them takes a moment too
    os.environ["PYDANTIC_DISABLE_PLUGINS"] = "__all__"
    try:
        from scopegen.cli.process import run

        run(_command)
    except KeyboardInterrupt:  # before it was listened for
        raise SystemExit(130) from None


def _command() -> None:
    from scopegen.cli.commands import scopegen

    scopegen(prog_name="scopegen")
