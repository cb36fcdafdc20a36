"""Which price chart a new season's is made from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from scopegen.load import Source
from scopegen.season.refused import Refused
from scopegen.season.review import to_look_at


def earlier_chart(charts: Iterable[int], season: int) -> int:
    """The season whose chart is carried forward to `season`: the newest. Raises Refused where it is not
    an earlier one."""
    newest = max(charts, default=None)
    if newest is None:
        raise Refused(
            "There is no price chart here to carry forward. Name the folder with company.yaml and"
            " prices-….yaml by --in, or lay out a new one with `scopegen start`."
        )
    if newest == season:
        raise Refused(f"Season {season} is open already: prices-{season}.yaml is there. Nothing was written.")
    if newest > season:
        raise Refused(
            f"Season {season} is not later than the newest one, {newest}: prices-{newest}.yaml is there."
            " Nothing was written."
        )
    return newest


def left_open(earlier: int, season: int, source: Source) -> Iterator[str]:
    """A sentence for what the chart of `earlier`, which `source` has read, leaves open where that of `season`
    is made from it: seasons between that have none, and prices that nobody looked at."""
    if between := [str(each) for each in range(earlier + 1, season)]:
        yield f"No chart of {', '.join(between)}: these prices are those of {earlier}."
    if left := len(to_look_at(source)):
        prices, were = ("1 price", "was") if left == 1 else (f"{left} prices", "were")
        yield f"{prices} of {source.name} {were} never looked at: `scopegen season review {earlier}` tells."
