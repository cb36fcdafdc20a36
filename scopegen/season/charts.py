"""Which price chart a new season's is made from."""

from __future__ import annotations

from collections.abc import Iterable

from scopegen.season.refused import Refused


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
