"""`python -m tests.benchmarks`: prints how long the program takes, as a ratio to what it is measured against.

A ratio holds on other machines as well; the seconds and MiB beside it are this one's.
"""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path

import click

from scopegen.quantities.fields import MOST_BEDS
from tests.benchmarks.running import Measured, Subject, by_turns
from tests.benchmarks.subjects import CHROMIUM, NO_CHROMIUM, checking, environment, many_papers, writing


@click.command()
@click.option("--runs", default=5, show_default=True, type=click.IntRange(1), help="Of each row, by turns.")
@click.option(
    "--beds", default=MOST_BEDS, show_default=True, type=click.IntRange(1), help="The most of a job."
)
@click.option("--papers", default=10, show_default=True, type=click.IntRange(2), help="For the runs of many.")
@click.option("--cold", is_flag=True, help="Without the turn that warms up: to see that it runs.")
def benchmarks(runs: int, beds: int, papers: int, cold: bool) -> None:
    """Print medians of interleaved runs: time, its ratio to the first row, memory of the largest process."""
    with tempfile.TemporaryDirectory() as folder:
        sizes = tuple(size for size in (1, 10, 100) if size < beds) + (beds,)
        check, write, many = (Path(folder, name) for name in ("check", "write", "many"))
        checked = _table("Checking", checking(check, sizes), runs, check, cold)
        _growth(sizes, checked)
        _table("Writing one paper", writing(write, min(beds, 6)), runs, write, cold)
        if not Path(CHROMIUM).exists():
            click.echo(NO_CHROMIUM)
        _table("Writing many papers", many_papers(many, papers, min(beds, 6)), runs, many, cold)


def _table(
    title: str, subjects: Sequence[Subject], runs: int, folder: Path, cold: bool
) -> dict[str, Measured]:
    """Runs and prints one comparison; what was measured."""
    found = by_turns(subjects, runs, folder, environment(folder.parent / "compiled"), cold=cold)
    first = found[subjects[0].name].seconds
    click.echo(f"\n{title} ({runs} runs by turns)")
    for name, measured in found.items():
        used = f"{measured.processor:8.2f} s of processors{measured.memory:6.0f} MiB"
        ratio = f"{measured.seconds / first:8.2f} x"
        click.echo(f"  {name:<56}{measured.seconds:7.2f} s{ratio}{used}")
    return found


def _growth(sizes: Sequence[int], checked: dict[str, Measured]) -> None:
    """Prints what each bed more takes between two sizes, and its ratio to what it took before."""
    seconds = [measured.seconds for measured in checked.values()][1:]  # the first is the bare interpreter
    before = 0.0
    for (small, sooner), (large, later) in pairwise(zip(sizes, seconds, strict=True)):
        each = (later - sooner) / (large - small)
        ratio = f"{each / before:8.2f} x" if before > 0 else ""
        click.echo(f"  {f'each bed more, from {small:,} to {large:,}':<56}{each * 1000:7.2f} ms{ratio}")
        before = each


if __name__ == "__main__":
    benchmarks()
