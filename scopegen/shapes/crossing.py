"""Whether an outline crosses or touches itself, exactly: rounding moves no corner off the side it lies on."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import lcm

Spot = tuple[int, int]


def first_meeting(points: Sequence[tuple]) -> tuple[int, int] | None:
    """The first two sides that have a point in common and should not, by number from 0: two that are no
    neighbors, or neighbors of which one runs straight back over the other.

    All is reckoned in whole numbers. The sides are met from left to right, so that each is held only against
    those that reach as far.
    """
    spots = _whole(points)
    count = len(spots)
    sides = [_Side(here, spots[here], spots[(here + 1) % count]) for here in range(count)]
    neighbors = zip(sides, [*sides[1:], sides[0]], strict=True)
    first = min((_pair(*both) for both in neighbors if _runs_back(*both)), default=None)
    reached: list[_Side] = []
    for side in sorted(sides, key=lambda side: side.left):
        reached = [other for other in reached if other.right >= side.left]
        for other in reached:
            if other.low <= side.high and side.low <= other.high:
                pair = _pair(side, other)
                if first is None or pair < first:
                    apart = pair[1] - pair[0] not in (1, count - 1)
                    first = pair if apart and _meet(side, other) else first
        reached.append(side)
    return first


def _whole(points: Sequence[tuple]) -> list[Spot]:
    """The same points, stretched so that all are whole numbers."""
    exact = [(Fraction(x), Fraction(y)) for x, y in points]
    stretch = lcm(*(value.denominator for point in exact for value in point))
    return [(int(x * stretch), int(y * stretch)) for x, y in exact]


class _Side:
    """A side from one corner to the next, with the box round it."""

    def __init__(self, number: int, start: Spot, end: Spot) -> None:
        self.number, self.start, self.end = number, start, end
        (self.left, self.right), (self.low, self.high) = map(sorted, zip(start, end, strict=True))


def _pair(one: _Side, other: _Side) -> tuple[int, int]:
    return min(one.number, other.number), max(one.number, other.number)


def _meet(one: _Side, other: _Side) -> bool:
    """Whether two sides whose boxes overlap have a point in common: neither has both its ends on one side of
    the other's line (Cormen, Leiserson and Rivest, Introduction to Algorithms, 35.1; from memory)."""
    return _parts(one, other) and _parts(other, one)


def _parts(side: _Side, other: _Side) -> bool:
    """Whether the line along a side has the ends of the other one on both its sides, or one of them on it."""
    return _turn(side.start, side.end, other.start) * _turn(side.start, side.end, other.end) <= 0


def _turn(a: Spot, b: Spot, point: Spot) -> int:
    """Above zero left of the line from a to b, below zero right of it, zero on it."""
    return (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0])


def _runs_back(side: _Side, following: _Side) -> bool:
    """Whether the side after this one runs straight back over it."""
    (x, y), (mid_x, mid_y), (end_x, end_y) = side.start, side.end, following.end
    along, up, back, down = mid_x - x, mid_y - y, end_x - mid_x, end_y - mid_y
    return along * down == up * back and along * back + up * down < 0
