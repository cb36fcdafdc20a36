"""Commands that all take --quiet and --no-color, and that end cleanly when they are interrupted."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import click

from scopegen.cli.ending import Exit
from scopegen.cli.voice import PLAIN, QUIET, trouble, visible


def _keep(context: click.Context, option: click.Parameter, said: bool) -> None:
    if said:
        context.meta[QUIET if option.name == "quiet" else PLAIN] = True


def _options() -> list[click.Option]:
    quiet = "Say only what stops: nothing where all is well, beside what was asked for."
    plain = "Write no colors; the environment's NO_COLOR says the same."
    return [
        click.Option(["-q", "--quiet"], is_flag=True, expose_value=False, callback=_keep, help=quiet),
        click.Option(["--no-color"], is_flag=True, expose_value=False, callback=_keep, help=plain),
    ]


class Spoken(click.Command):
    """A command that takes --quiet and --no-color."""

    def __init__(self, *words: Any, **named: Any) -> None:
        super().__init__(*words, **named)
        self.params += _options()


class Commands(click.Group):
    """A group of such commands."""

    command_class = Spoken
    group_class = type

    def make_context(self, *words: Any, **named: Any) -> click.Context:
        with _clean():
            return super().make_context(*words, **named)

    def invoke(self, ctx: click.Context) -> Any:
        with _clean():
            return super().invoke(ctx)


@contextmanager
def _clean() -> Iterator[None]:
    """An interruption ends without a traceback, and a name that was typed wrong is shown in full."""
    try:
        yield
    except KeyboardInterrupt:
        trouble("Interrupted.")
        sys.exit(Exit.INTERRUPTED)
    except click.exceptions.NoArgsIsHelpError:
        raise  # its message is the help text
    except click.UsageError as error:
        error.message = visible(error.message)
        raise
