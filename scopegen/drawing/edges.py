"""What happens to a bed's edge: who works on it, where it is left, and what it lies against."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from scopegen import shapes
from scopegen.job import Bed
from scopegen.measure import BedMeasure, Share

SURE = ("included", "no-charge")
OTHERS = ("customer", "elsewhere")

SLACK = Fraction(1, 10)  # ft by which lengths may miss the whole edge
LONGEST = 24  # characters of what an edge lies against

State = Literal["worked", "offered", "others", "open", "left"]
Open = Literal["worked", "partly", "offered", "others", "open", "mixed", "left", "against"]


@dataclass(frozen=True, slots=True)
class Edge:
    """How the open edge is drawn, what happens on it, and which sides lie against what: side to its words.

    `states` has one entry where the same happens on all of it. `open` is the line of all sides that are not
    known to lie against something, so a length without a side keeps it from saying that all is worked on.
    """

    open: Open
    states: tuple[State, ...]
    against: dict[str, str]


def shortened(words: str) -> str:
    """Words as a drawing has room for them; what it is told in words has them in full."""
    return words if len(words) <= LONGEST else f"{words[: LONGEST - 1].rstrip()}…"


def edge_of(bed: Bed, measured: BedMeasure) -> Edge:
    """The edge of a bed. Where only a part of it is worked on, or what it lies against was given by its
    length, where that is was not measured."""
    against = {side: shortened(what) for what, sides in bed.against.items() for side in sides}
    states = _states(measured)
    sides = (shapes.sides(bed.shape.value()) if bed.shape else None) or {}
    if all(entry in sides for entry in against):
        return Edge(_line(states), states, against)
    if measured.open_edge == 0:
        return Edge("against", states, against)
    return Edge("left" if states == ("left",) else _line((*states, "left")), states, against)


def _line(states: tuple[State, ...]) -> Open:
    if len(states) == 1:
        return states[0]
    return "partly" if "worked" in states else "mixed"


def _states(measured: BedMeasure) -> tuple[State, ...]:
    """What happens on the open edge, each once: on all of it, or on parts of it."""
    shares = [share for share in measured.of("edging") if share.whole or share.length != 0]
    found = {_state(share) for share in shares}
    if not found or any(share.whole and _state(share) == "worked" for share in shares):
        return ("worked",) if found else ("open",)
    found |= set(_missed(shares, measured.open_edge))
    order: tuple[State, ...] = ("worked", "offered", "others", "open", "left")
    return tuple(state for state in order if state in found)


def _state(share: Share) -> State:
    if share.how in OTHERS:
        return "others"
    if share.how in SURE and share.part.work:
        return "worked"
    if share.how == "add-on" and share.part.work:
        return "offered"
    return "left" if share.how in ("excluded", "not-needed") else "open"


def _missed(shares: list[Share], open_edge: Fraction | None) -> Iterator[State]:
    """Edge that no part of the decision reaches is not decided."""
    if any(share.whole or share.length is None for share in shares) or open_edge is None:
        return
    if sum((share.length or Fraction(0) for share in shares), SLACK) < open_edge:
        yield "open"
