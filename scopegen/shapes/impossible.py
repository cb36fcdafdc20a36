"""Shapes that cannot be: what is wrong with the measures, and what to do about it."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from .crossing import first_meeting
from .geodesy import ring_corners, ring_points, ring_sides
from .kinds import (
    Composed,
    MapRing,
    Polygon,
    Quadrilateral,
    Ring,
    Shape,
    Spokes,
    StatedArea,
    StatedVolume,
    TriangleBySides,
    Widths,
)

_LABELS = {
    "a": "side a",
    "b": "side b",
    "c": "side c",
    "d": "side d",
    "apart": "distance apart",
    "outer": "outer diameter",
    "inner": "inner diameter",
}
_UNITS = {"area": "ft2", "volume": "ft3"}

# Points on one line of latitude bow off the geodesic by a hair; no bed is 1/100,000 as wide as it is long.
_THINNEST = 1e-5

Numbered = tuple[int, tuple]


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that makes a shape impossible: a stable code, what is wrong, and what to do."""

    code: str
    message: str
    fix: str


@lru_cache(maxsize=1024)  # measuring, the rules and the drawings ask the same of each bed
def faults(shape: Shape) -> tuple[Fault, ...]:
    """Everything found wrong with the shape; empty for one that can be measured."""
    match shape:
        case Polygon(corners):
            return tuple(_polygon_faults(corners))
        case Widths():
            return tuple(_widths_faults(shape))
        case Spokes(lengths):
            return tuple(_spokes_faults(lengths))
        case MapRing():
            return tuple(_map_faults(shape))
        case Composed():
            return tuple(_parts_faults(shape))
        case _:
            return tuple(_nothing_measured(shape)) or tuple(_misfits(shape))


def _parts_faults(bed: Composed) -> Iterator[Fault]:
    if not bed.parts:
        yield Fault("too-few", "the shape has no parts", "Write each part as a shape of its own.")
    placed = [part.at is not None for part in bed.parts]
    if any(placed) and not all(placed):
        message = f"part {placed.index(False) + 1} has no place, but others have one"
        yield Fault(
            "mixed-places", message, "Write 'at: [x, y]' for every part, or for none that do not overlap."
        )
    for number, part in enumerate(bed.parts, start=1):
        if isinstance(part.shape, StatedVolume) or isinstance(part.shape, StatedArea) and part.at:
            message = f"part {number} is only stated, and has no outline to be placed"
            yield Fault("no-outline", message, "Write its measures, or leave its place out.")
        elif part.turned and part.at is None:
            message = f"part {number} is turned, but has no place"
            yield Fault("mixed-places", message, "Write 'at: [x, y]' for every part, or leave 'turned' out.")
        for fault in faults(part.shape):
            yield Fault(fault.code, f"in part {number}, {fault.message}", fault.fix)


def _nothing_measured(shape: Shape) -> Iterator[Fault]:
    for field in dataclasses.fields(shape):
        value, label = getattr(shape, field.name), _LABELS.get(field.name, field.name)
        if value <= 0:
            yield _nothing(f"the {label}", f"the {label}", f"{_figure(value)} {_UNITS.get(field.name, 'ft')}")


def _nothing(subject: str, again: str, found: str) -> Fault:
    return Fault(
        "no-measure", f"{subject} is {found}: it must be more than nothing", f"Measure {again} again."
    )


def _misfits(shape: Shape) -> Iterator[Fault]:
    match shape:
        case TriangleBySides(a, b, c) if not _closes(a, b, c):
            yield _cannot_close("sides", (a, b, c), "the three sides")
        case Quadrilateral(a, b, c, d, diagonal):
            where = "and the diagonal, which runs from where a starts to where b ends,"
            if not _closes(a, b, diagonal):
                yield _cannot_close(
                    "sides a and b with the diagonal,", (a, b, diagonal), f"sides a and b {where}"
                )
            if not _closes(c, d, diagonal):
                yield _cannot_close(
                    "sides c and d with the diagonal,", (c, d, diagonal), f"sides c and d {where}"
                )
        case Ring(outer, inner) if inner >= outer:
            message = f"the inner diameter, {_feet(inner)}, is not smaller than the outer one, {_feet(outer)}"
            yield Fault(
                "inner-not-smaller", message, "Measure both again, and see that they did not change places."
            )


def _closes(a: Fraction, b: Fraction, c: Fraction) -> bool:
    return 2 * max(a, b, c) < a + b + c


def _cannot_close(which: str, lengths: tuple[Fraction, Fraction, Fraction], again: str) -> Fault:
    first, second, third = map(_feet, lengths)
    rule = "the longest must be shorter than the other two together"
    return Fault(
        "cannot-close",
        f"{which} {first}, {second} and {third} cannot close: {rule}",
        f"Measure {again} again.",
    )


def _widths_faults(bed: Widths) -> Iterator[Fault]:
    count = len(bed.across)
    if bed.every <= 0:
        yield _nothing("the distance from width to width", "it", _feet(bed.every))
    for number, width in enumerate(bed.across, start=1):
        if width < 0:
            message = f"width {number} is {_feet(width)}: it must not be less than nothing"
            yield Fault("no-measure", message, f"Measure width {number} again.")
    if count < 2:
        message = f"{_count(count, 'width')} not enough: at least 2 are needed, one at each end"
        yield Fault("too-few", message, "Add the missing widths; write 0 ft where the bed runs to a point.")
    elif not any(bed.across):
        yield Fault("no-area", "all widths are 0 ft: they enclose nothing", "Measure the widths again.")
    if bed.rule == "simpson" and count >= 2 and count % 2 == 0:
        message = f"Simpson's rule needs an even number of strips, and {count} widths make {count - 1}"
        fix = "Measure again at equal steps so that the number of widths is odd, or use the trapezoid rule."
        yield Fault("odd-strips", message, fix)


def _spokes_faults(lengths: tuple[Fraction, ...]) -> Iterator[Fault]:
    for number, length in enumerate(lengths, start=1):
        if length <= 0:
            yield _nothing(f"spoke {number}", "it", _feet(length))
    if len(lengths) < 3:
        message = f"{_count(len(lengths), 'spoke')} not enough: at least 3 are needed"
        yield Fault("too-few", message, "Measure from the center to the edge at equal angles all round.")


def _polygon_faults(corners: Sequence[tuple[Fraction, Fraction]]) -> Iterator[Fault]:
    yield from _too_few_or_repeated(corners, "corner")
    apart = _without_repeats(corners)
    if len(apart) < 3:
        return
    (_, (x, y)), (_, (next_x, next_y)) = apart[:2]
    if all((px - x) * (next_y - y) == (py - y) * (next_x - x) for _, (px, py) in apart):
        yield _in_one_line("corner")
    else:
        yield from _crossing(apart, "corner")


def _map_faults(ring: MapRing) -> Iterator[Fault]:
    points = ring_points(ring)
    off = [number for number, (x, y) in enumerate(points, 1) if not (-180 <= x <= 180 and -90 <= y <= 90)]
    for number in off:
        longitude, latitude = points[number - 1]
        message = (
            f"point {number}, [{longitude:g}, {latitude:g}], is not on the map: "
            "longitude runs from -180 to 180 and latitude from -90 to 90"
        )
        yield Fault("off-the-map", message, "Write degrees, longitude first, then latitude.")
    yield from _too_few_or_repeated(points, "point")
    apart = _without_repeats(points)
    if off or len(apart) < 3:
        return
    yield from _map_layout_faults(apart)


def _map_layout_faults(apart: Sequence[Numbered]) -> Iterator[Fault]:
    from shapely import MultiPoint

    ring = MapRing(tuple(point for _, point in apart))
    laid = ring_corners(ring)
    if MultiPoint(laid).convex_hull.area < _THINNEST * sum(ring_sides(ring)) ** 2:
        yield _in_one_line("point")
    else:
        yield from _crossing([(number, flat) for (number, _), flat in zip(apart, laid, strict=True)], "point")


def _too_few_or_repeated(points: Sequence[tuple], word: str) -> Iterator[Fault]:
    if len(points) < 3:
        message = f"{_count(len(points), word)} not enough: at least 3 are needed"
        yield Fault("too-few", message, f"Add the missing {word}s.")
    for number, point in enumerate(points, start=1):
        following = number % len(points) + 1
        if len(points) > 1 and point == points[following - 1]:
            message = f"{word}s {number} and {following} are the same"
            yield Fault(
                "repeated", message, f"Leave one of them out; the line back to {word} 1 is drawn by itself."
            )


def _without_repeats(points: Sequence[tuple]) -> list[Numbered]:
    """The points with their numbers; of two equal neighbors, the second, where a side starts."""
    following = (*points[1:], *points[:1])
    return [(number, point) for number, point in enumerate(points, start=1) if point != following[number - 1]]


def _in_one_line(word: str) -> Fault:
    return Fault(
        "no-area", f"all {word}s lie in one line: they enclose nothing", f"Measure the {word}s again."
    )


def _crossing(corners: Sequence[Numbered], word: str) -> Iterator[Fault]:
    """The first two sides that meet where they should not; not all corners lie in one line."""
    numbers, points = zip(*corners, strict=True)
    if meeting := first_meeting(points):
        here, there = meeting
        message = f"the outline crosses or touches itself: side {numbers[here]} meets side {numbers[there]}"
        yield Fault(
            "crosses-itself", message, f"Give the {word}s in the order in which you meet them walking round."
        )


def _count(number: int, word: str) -> str:
    return f"{number} {word} is" if number == 1 else f"{number} {word}s are"


def _feet(length: Fraction) -> str:
    return f"{_figure(length)} ft"


def _figure(value: Fraction) -> str:
    """At most three decimals, none that say nothing."""
    return f"{float(round(value, 3)):.3f}".rstrip("0").rstrip(".")
