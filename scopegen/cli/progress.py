"""A bar that shows how far a run is, on a terminal and nowhere else."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from scopegen.cli.voice import console_on, is_quiet, news, visible

Told = Callable[[str], None]


@contextmanager
def progress(total: int, doing: str) -> Iterator[Told]:
    """A function that takes the news of each piece of work that is done, and moves the bar on."""
    stream = next((each for each in (sys.stdout, sys.stderr) if each.isatty()), None)
    if is_quiet() or stream is None:
        yield lambda text: news(text) if text else None
        return
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn
    from rich.text import Text

    console = console_on(stream)
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn())
    with Progress(
        *columns, console=console, transient=True, redirect_stdout=False, redirect_stderr=False
    ) as bar:
        task = bar.add_task(doing, total=total)

        def told(text: str) -> None:
            if text and stream is sys.stdout:
                console.print(Text(visible(text, breaks="\n\t")), soft_wrap=True)
            elif text:
                news(text)
            bar.advance(task)

        yield told
