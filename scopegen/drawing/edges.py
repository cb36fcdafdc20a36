"""What happens to a bed's edge: where it is worked on, where it is left, and what it lies against."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from scopegen.job import Bed
from scopegen.measure import BedMeasure

SURE = ("included", "no-charge")

LONGEST = 24  # characters of what an edge lies against

Open = Literal["worked", "partly", "offered", "left"]


@dataclass(frozen=True, slots=True)
class Edge:
    """How the open edge is drawn, and which sides lie against what: side to its words."""

    open: Open
    against: dict[str, str]


def shortened(words: str) -> str:
    """Words as a drawing has room for them; what it is told in words has them in full."""
    return words if len(words) <= LONGEST else f"{words[: LONGEST - 1].rstrip()}…"


def edge_of(bed: Bed, measured: BedMeasure) -> Edge:
    """The edge of a bed. Where only a part of it is worked on, or what it lies against was given by its
    length, where that is was not measured."""
    against = {side: shortened(what) for what, sides in bed.against.items() for side in sides}
    shares = [share for share in measured.of("edging") if share.part.work and share.how]
    sure = [share for share in shares if share.how in SURE]
    offered = [share for share in shares if share.how == "add-on"]
    all_sure = any(share.whole for share in sure) or (
        bool(sure) and sum(share.length or 0 for share in sure) >= (measured.open_edge or 0)
    )
    if all_sure:
        return Edge("worked", against)
    if sure or any(not share.whole for share in offered):
        return Edge("partly", against)
    return Edge("offered" if offered else "left", against)
