"""A bed laid out flat in feet: its ground, its sides, what is left out of it and its named parts."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from scopegen import shapes
from scopegen.drawing.taped import Taped, moved, taped
from scopegen.drawing.values import Line
from scopegen.job import Bed

SIDE_BY_SIDE = 0.08  # of the larger part: between parts whose places are not known
BETWEEN = 12  # points from one spoke to the next
ENOUGH = 48  # halvings: a part is as large as it was said, to the last digit of a float


@dataclass(frozen=True, slots=True)
class Laid:
    """`whole` is the bed's ground, `net` less what is left out, both as shapely regions in ft. `sides` are
    (name, line), the name empty where it has none; `joints` the lines where its parts meet. `loose` counts
    what is left out that found no room."""

    whole: Any
    net: Any
    sides: tuple[tuple[str, Line], ...]
    taped: tuple[Taped, ...]
    joints: tuple[Line, ...] = ()
    gaps: tuple[Line, ...] = ()
    loose: int = 0
    scattered: bool = False  # its parts lie beside one another only on paper
    on_map: bool = False


def lay_out(bed: Bed) -> Laid | None:
    """The bed as it was measured, in its shape's own layout; None where only its area or volume is known.

    The bed's shape and what is left out of it must have no faults.
    """
    shape = bed.shape.value() if bed.shape else None
    laid = None if shape is None else _shape(shape)
    if laid is None:
        return None
    gaps, loose, net = [], 0, laid.net
    for hole in bed.leave_out:
        placed = _gap(net, hole.placed())
        if placed is None:
            loose += 1
            continue
        gaps += [tuple(piece.exterior.coords[:-1]) for piece in pieces(placed)]
        net = net.difference(placed)
    return Laid(
        laid.whole, net, laid.sides, laid.taped, laid.joints, (*laid.gaps, *gaps), loose,
        laid.scattered, isinstance(shape, shapes.MapRing),
    )  # fmt: skip


def pieces(region: Any) -> tuple[Any, ...]:
    """The polygons of a region, one or several, also among lines that widths of nothing leave."""
    if hasattr(region, "geoms"):
        return tuple(piece for part in region.geoms for piece in pieces(part))
    return (region,) if region.area > 0 else ()


def _shape(shape: shapes.Shape) -> Laid | None:
    if isinstance(shape, shapes.Composed):
        return _composed(shape)
    region, sides = _region(shape), shapes.drawn_sides(shape)
    if region is None or sides is None:
        return None
    if isinstance(shape, shapes.Spokes):
        round_ = rounded(shape.lengths)
        sides = (("", (*round_, round_[0])),)
    gaps = tuple(tuple(ring.coords[:-1]) for piece in pieces(region) for ring in piece.interiors)
    return Laid(region, region, sides, taped(shape), gaps=gaps)


def _region(shape: shapes.Shape) -> Any:
    from shapely import Polygon, make_valid

    corners = rounded(shape.lengths) if isinstance(shape, shapes.Spokes) else shapes.corners(shape)
    if corners is None:
        return None
    holes = [shapes.corners(shapes.Circle(shape.inner))] if isinstance(shape, shapes.Ring) else []
    return make_valid(Polygon(corners, holes))


def rounded(spokes: Sequence[Fraction]) -> Line:
    """A line round the ends of spokes at equal angles, as a bed's edge swings: the distance from the center
    goes from one to the next without a kink (a Catmull-Rom curve), and never above or below its neighbors."""
    count, points = len(spokes), []
    reach = [float(length) for length in spokes]
    for k in range(count):
        before, here, there, after = (reach[(k + step) % count] for step in (-1, 0, 1, 2))
        low, high = sorted((here, there))
        for step in range(BETWEEN):
            t = step / BETWEEN
            swing = (there - before) * t + (2 * before - 5 * here + 4 * there - after) * t**2
            swing += (3 * (here - there) + after - before) * t**3
            distance, turn = min(max(here + swing / 2, low), high), 2 * math.pi * (k + t) / count
            points.append((distance * math.cos(turn), distance * math.sin(turn)))
    return tuple(points)


def _composed(shape: shapes.Composed) -> Laid | None:
    from shapely import Polygon, affinity, union_all

    placed = shape.parts if shape.positioned else _beside(shape.parts)
    if placed is None:
        return None
    regions = []
    for part in placed:
        region = _region(part.shape)
        if region is None:
            return None
        turned = affinity.rotate(region, float(part.turned), origin=(0, 0))
        regions.append(affinity.translate(turned, *(float(value) for value in part.at or (0, 0))))
    whole = union_all(regions)
    inner = whole.buffer(-1e-6)
    # a part's outline that runs inside the bed is where two parts meet
    joints = [line for region in regions for line in _lines(region.boundary.intersection(inner))]
    measures = [_seen(each, part, whole) for part in placed for each in taped(part.shape)]
    sides = tuple(("", (*piece.exterior.coords[:],)) for piece in pieces(whole))
    gaps = tuple(
        tuple(ring.coords[:-1]) for piece in pieces(whole) for ring in piece.interiors if Polygon(ring).area
    )
    return Laid(
        whole, whole, sides, tuple(measures), tuple(joints), gaps, scattered=not shape.positioned
    )  # fmt: skip


def _seen(each: Taped, part: shapes.Placed, whole: Any) -> Taped:
    """A part's measure where it lies in its bed. For a side that is not all on the bed's edge, the one across
    from it that is as long is taken, or the measure is drawn as a line of its own."""
    from shapely import LineString

    here = moved(each.line, part)
    if each.where != "side":
        return Taped(here, each.length, each.where, each.every)
    edge, lengths = whole.boundary.buffer(1e-3), shapes.sides(part.shape) or {}
    alike = (
        moved(line, part)
        for name, line in shapes.drawn_sides(part.shape) or ()
        if len(line) == 2 and lengths.get(name) == each.length and _side_by_side(line, each.line)
    )
    for line in (here, *alike):
        if edge.covers(LineString(line)):
            return Taped(line, each.length, "side", each.every)
    return Taped(here, each.length, "inside" if each.every is None else "side", each.every)


def _side_by_side(one: Line, other: Line) -> bool:
    """Whether two straight lines run the same way."""
    (a, b), (c, d) = ((there[0] - here[0], there[1] - here[1]) for here, there in (one[:2], other[:2]))
    return math.isclose(a * d, b * c, abs_tol=1e-9)


def _beside(parts: Sequence[shapes.Placed]) -> list[shapes.Placed] | None:
    """Parts whose places are not known, one beside the other with a gap between."""
    boxes = []
    for part in parts:
        corners = shapes.corners(part.shape)
        if corners is None:
            return None
        boxes.append([(min(values), max(values)) for values in zip(*corners, strict=True)])
    space = SIDE_BY_SIDE * max(high - low for box in boxes for low, high in box)
    placed, right = [], 0.0
    for part, ((west, east), (south, _)) in zip(parts, boxes, strict=True):
        at = Fraction(right - west), Fraction(-south)
        placed.append(shapes.Placed(part.shape, at))
        right += east - west + space
    return placed


def _lines(geometry: Any) -> Iterator[Line]:
    from shapely import line_merge

    merged = line_merge(geometry) if geometry.geom_type == "MultiLineString" else geometry
    for line in getattr(merged, "geoms", (merged,)):
        if line.geom_type == "LineString" and not line.is_empty:
            yield tuple(line.coords)


def _gap(net: Any, hole: shapes.Placed) -> Any:
    """What is left out where it lies, or where there is room for it; None where it has no outline, or no
    room as it is drawn."""
    from shapely import affinity, maximum_inscribed_circle

    laid = _shape(hole.shape)
    if laid is None:
        return None
    region = affinity.rotate(laid.whole, float(hole.turned), origin=(0, 0))
    if hole.at is not None:
        return affinity.translate(region, *(float(value) for value in hole.at)).intersection(net)
    largest = max(pieces(net), key=lambda piece: piece.area)
    center = maximum_inscribed_circle(largest, tolerance=max(math.sqrt(largest.area) / 200, 1e-3)).coords[0]
    middle = region.centroid
    for turn in (0, 90):
        there = affinity.rotate(region, turn, origin=middle)
        there = affinity.translate(there, center[0] - middle.x, center[1] - middle.y)
        if there.within(largest):
            return there
    return None


def parted(net: Any, shares: Iterable[Fraction]) -> tuple[Any, ...]:
    """The ground cut across its long axis into pieces of these shares of it, in this order.

    Where a named part lies was not measured: only its size is true.
    """
    from shapely import affinity

    box = net.minimum_rotated_rectangle
    a, b, c = box.exterior.coords[:3]
    long = (a, b) if math.dist(a, b) >= math.dist(b, c) else (b, c)
    angle = math.degrees(math.atan2(long[1][1] - long[0][1], long[1][0] - long[0][0]))
    angle = (angle + 90) % 180 - 90  # from left to right
    flat = affinity.rotate(net, -angle, origin=(0, 0))
    cuts, so_far = [flat.bounds[0] - 1], Fraction(0)
    for share in shares:
        so_far += share
        cuts.append(_cut(flat, float(so_far)) if so_far < 1 else flat.bounds[2] + 1)
    strips = (_between(flat, left, right) for left, right in zip(cuts, cuts[1:], strict=False))
    return tuple(affinity.rotate(strip, angle, origin=(0, 0)) for strip in strips)


def _cut(flat: Any, share: float) -> float:
    """Where an upright cut leaves this share of the ground on its left."""
    low, _, high, _ = flat.bounds
    for _ in range(ENOUGH):
        middle = (low + high) / 2
        if _between(flat, flat.bounds[0] - 1, middle).area < share * flat.area:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _between(flat: Any, left: float, right: float) -> Any:
    from shapely import box

    return flat.intersection(box(left, flat.bounds[1] - 1, right, flat.bounds[3] + 1))
