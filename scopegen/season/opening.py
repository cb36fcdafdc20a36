"""Carries a price chart forward into a new season, with every price to be looked at."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from scopegen.amend import AddKey, Edit, Put, Remove, amended
from scopegen.chart.prices import prices_in
from scopegen.load import Source
from scopegen.season.raising import Raise, Raised, raised


@dataclass(frozen=True, slots=True)
class Opened:
    """A new season's chart: its text, the names of the prices to be looked at, what was raised, and the
    numbers of the lines whose comments still speak of the old season."""

    text: str
    to_review: tuple[str, ...]
    raised: tuple[Raised, ...]
    old_comments: tuple[int, ...]


def opened(
    source: Source, text: str, season: int, raises: Sequence[Raise] = (), step: Decimal | None = None
) -> Opened:
    """The chart `text`, which `source` has read, for a later season.

    Raises Refused for a raise that does not fit, CannotAmend where the file is written in a way that cannot
    be changed without touching more.
    """
    prices = prices_in(source.data)
    changes = raised(prices, raises, step)
    names = tuple(dict.fromkeys(price.name for price in prices))
    old = source.data["season"] if isinstance(source.data, dict) else ""
    edits: list[Edit] = [Put(("season",), str(season))]
    edits += [
        Put(each.price.path, each.price.written(each.after)) for each in changes if each.after != each.before
    ]
    if isinstance(source.data, dict) and "to_review" in source.data:
        edits.append(Remove(("to_review",)))
    said = _said(str(old), season, raises, step)
    edits.append(AddKey((), "to_review", list(names), after="season", above=(said,)))
    new = amended(text, edits, source.name)
    return Opened(new, names, changes, _comments_of(str(old), new, said))


def _said(old: str, season: int, raises: Sequence[Raise], step: Decimal | None) -> str:
    """The comment that the new chart keeps."""
    start = f"Season {season} was opened from season {old}"
    if not raises:
        return f"{start}, prices as they were."
    return f"{start}; raised {', '.join(each.spoken for each in raises)}; {rounding(step)}."


def rounding(step: Decimal | None) -> str:
    """How raised prices are rounded."""
    if step is None:
        return "rounded half up to 0.01"
    return f"rounded half up to {step}, and to 0.01 below {step * 20:.2f}"


def _comments_of(old: str, text: str, said: str) -> tuple[int, ...]:
    """The lines whose comments name the old season, but for the one that says it was opened from it."""
    comment = re.compile(rf"(?:^|\s)#.*\b{re.escape(old)}\b")
    lines = enumerate(text.splitlines(), 1)
    return tuple(number for number, line in lines if comment.search(line) and said not in line)
