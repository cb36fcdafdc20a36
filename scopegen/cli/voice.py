"""What the program says and where: results and news to the output, trouble to the error output.

Nothing that a file or its name holds reaches a terminal as a command to it, and nothing is coloured where
the output is piped.
"""

from __future__ import annotations

import json
import os
import sys
from typing import TYPE_CHECKING, Any

import click

from scopegen.findings import printable

if TYPE_CHECKING:
    from rich.console import Console, RenderableType

QUIET, PLAIN = "scopegen.quiet", "scopegen.no_color"  # in the context of a command
WIDEST = 10_000  # columns of a table, such as of a bed with a name of the greatest length


def visible(text: object, *, breaks: str = "") -> str:
    """A text with every sign that cannot be seen, or that a terminal would obey, written as its code.

    `breaks` are the line breaks and tabs that stay: none in a name, both in a text of several lines.
    """
    return printable(str(text), breaks)


def is_quiet() -> bool:
    """Whether only what stops is to be said."""
    return _said(QUIET)


def is_plain(stream: Any) -> bool:
    """Whether a stream takes no colour: by --no-color, by NO_COLOR, or since it is no terminal."""
    return _said(PLAIN) or bool(os.environ.get("NO_COLOR")) or not stream.isatty()


def _said(option: str) -> bool:
    context = click.get_current_context(silent=True)
    return bool(context and context.meta.get(option))


def news(text: str) -> None:
    """What went well: to the output, and nowhere with --quiet."""
    if not is_quiet():
        result(text)


def result(text: str) -> None:
    """What was asked for: to the output."""
    click.echo(visible(text, breaks="\n\t"), file=sys.stdout)


def trouble(text: str) -> None:
    """What stops, or is to be looked at: to the error output."""
    click.echo(visible(text, breaks="\n\t"), file=sys.stderr)


def print_json(data: object) -> None:
    """Plain data for another program; signs that cannot be seen are escaped as JSON has it (RFC 8259, 7)."""
    text = json.dumps(data, indent=2, ensure_ascii=False)
    written = sys.stdout.encoding or "utf-8"
    click.echo(
        "".join(sign if _stays(sign, written) else json.dumps(sign)[1:-1] for sign in text), file=sys.stdout
    )


def _stays(sign: str, written: str) -> bool:
    """Whether a sign of JSON can be seen, and written in the output's own way."""
    if sign == "\n" or sign.isascii():
        return sign == "\n" or sign.isprintable()
    return sign.isprintable() and sign.encode(written, "ignore") != b""


def print_drawn(drawn: RenderableType) -> None:
    """Tables: as wide as the terminal, or as wide as they are where the output is piped."""
    console = console_on(sys.stdout)
    if not console.is_terminal:
        console.width = WIDEST
        console.width = console.measure(drawn).maximum
    console.print(drawn)


def console_on(stream: Any) -> Console:
    """A console for one of the standard streams; without a colour it writes no escape codes but a bar's."""
    from rich.console import Console

    plain = is_plain(stream)
    return Console(
        file=stream,
        highlight=False,
        markup=False,
        emoji=False,
        force_terminal=stream.isatty(),
        color_system=None if plain else "auto",
        no_color=plain,
    )
