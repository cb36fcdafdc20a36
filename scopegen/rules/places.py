"""Places and outlines: where what is left out lies in its bed, where a bed lies on the property, and whether
an outline can go round its bed."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from scopegen import shapes
from scopegen.case import Case
from scopegen.findings import Level
from scopegen.job import Bed
from scopegen.quantities.show import area as show_area
from scopegen.quantities.show import run as show_run
from scopegen.rules.pieces import bed_fault
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "measures"
NARROW = 2.0  # ft2: what an inch comes to along a bed of 24 ft, where both were placed by tape
SHARE = 0.02  # of the smaller bed: by which corners from a map may overlap too (common practice, no source)
SLIGHT = 0.1  # ft2: what a tape's slip of a finger's width along a hole comes to


def _sound(case: Case) -> Iterator[tuple[int, Bed, shapes.Shape]]:
    """Beds whose shape and whose left-out shapes can be."""
    for index, bed in enumerate(case.job.beds):
        if bed.shape is None or case.measured is None:
            continue
        shape = bed.shape.value()
        holes = [hole.value() for hole in bed.leave_out]
        if not any(shapes.faults(each) for each in (shape, *holes)):
            yield index, bed, shape


def _placed(bed: Bed) -> list[tuple[int, shapes.Placed]]:
    """What is left out at a known place and has an outline there."""
    holes = [(number, hole.placed()) for number, hole in enumerate(bed.leave_out)]
    return [(number, hole) for number, hole in holes if hole.at and shapes.placeable(hole.shape)]


def _outside(case: Case) -> Iterator[Fault]:
    for index, bed, shape in _sound(case):
        if not shapes.placeable(shape):
            continue
        for number, hole in _placed(bed):
            over = shapes.area_outside(shape, hole)
            if over > SLIGHT:
                yield bed_fault(
                    case, index,
                    f"{show_area(Fraction(over))} of what is left out lies outside the bed",
                    "check 'at': it is measured from where the bed's shape starts",
                    case.place(("beds", index, "leave_out", number, "at"), key=True),
                )  # fmt: skip


def _overlap(case: Case) -> Iterator[Fault]:
    for index, bed, _ in _sound(case):
        placed = _placed(bed)
        for position, (number, hole) in enumerate(placed):
            shared = sum(shapes.shared_area(hole, other) for _, other in placed[:position])
            if shared > SLIGHT:
                yield bed_fault(
                    case, index,
                    f"{show_area(Fraction(shared))} is left out twice",
                    "let what is left out not overlap, or name it as the parts of one shape",
                    case.place(("beds", index, "leave_out", number, "at"), key=True),
                )  # fmt: skip


def _outline_short(case: Case) -> Iterator[Fault]:
    for index, bed, shape in _sound(case):
        area = case.measured.beds[index].gross if case.measured else None
        if bed.outline is None or area is None:
            continue
        sides = [float(length) for length in (shapes.sides(shape) or {}).values()]
        # no line round a ground is shorter than the circle's (the isoperimetric inequality), than its known
        # sides together, or than twice the longest of them
        least = max(2 * math.sqrt(math.pi * float(area)), sum(sides), 2 * max(sides, default=0.0))
        if float(bed.outline) < 0.99 * least:  # a tape's slip is no fault
            yield bed_fault(
                case, index,
                f"an outline of {show_run(bed.outline)} cannot go round this bed: its shape needs at least"
                f" {show_run(Fraction(least))}",
                "measure the length all round it again",
                case.place(("beds", index, "outline")),
            )  # fmt: skip


def _on_a_map(case: Case) -> Iterator[Fault]:
    for index, bed in enumerate(case.job.beds):
        if bed.at is not None and bed.shape is not None and bed.shape.map is not None:
            place = case.place(("beds", index, "at"), key=True)
            message = "the map tells where this bed lies, and 'at' says it again"
            yield bed_fault(case, index, message, "take 'at' out", place)


def _beds_overlap(case: Case) -> Iterator[Fault]:
    by_corner: list[_Laid] = []
    by_map: list[_Laid] = []
    for index, bed, shape in _sound(case):
        if isinstance(shape, shapes.MapRing):
            first = by_map[0][1].shape if by_map else shape
            assert isinstance(first, shapes.MapRing)
            east, north = shapes.ring_offset(first, shape)
            by_map.append((index, shapes.Placed(shape, (Fraction(east), Fraction(north)))))
        elif bed.at is not None and shapes.placeable(shape):
            by_corner.append((index, shapes.Placed(shape, bed.at, bed.turned)))
    for laid in (by_corner, by_map):
        yield from _over_each_other(case, laid)


_Laid = tuple[int, shapes.Placed]  # a bed's number, and where it lies


def _over_each_other(case: Case, laid: list[_Laid]) -> Iterator[Fault]:
    assert case.measured is not None or not laid
    holes = [tuple(hole for _, hole in _placed(case.job.beds[index])) for index, _ in laid]
    grounds = [(ground, left_out) for (_, ground), left_out in zip(laid, holes, strict=True)]
    for one, other, shared in shapes.laid_over(grounds):
        pair = [laid[number][0] for number in (one, other)]
        areas = [case.measured.beds[index].area for index in pair if case.measured]
        smaller = min((float(area) for area in areas if area is not None), default=0.0)
        shared -= sum(_anywhere(case.job.beds[index]) for index in pair)
        if shared <= max(NARROW, SHARE * smaller):
            continue
        path = ("beds", pair[1], "at" if case.job.beds[pair[1]].at is not None else "shape")
        yield bed_fault(
            case, pair[1],
            f"{show_area(Fraction(shared))} of it lies over the bed '{case.bed_name(pair[0])}', and each of"
            " the two is priced in full",
            "check where both lie; if one lies inside the other, leave it out of the larger one",
            case.place(path, key=True),
        )  # fmt: skip


def _anywhere(bed: Bed) -> float:
    """The ft2 that are left out of a bed at no known place: another bed may lie just there."""
    areas = [shapes.area(hole.value()) for hole in bed.leave_out if hole.at is None]
    return sum(float(area) for area in areas if area is not None)


BED = "shape: {rectangle: {length: 20 ft, width: 6 ft}}"
SLANTED = "shape: {trapezoid: {sides: [9 ft, 6 ft], apart: 4 ft}}"
RULES = (
    Rule(
        "left-out-outside", FAMILY, Level.STOPS, "What is left out of a bed lies inside it.",
        "What lies outside is taken off the area all the same, so that the bed gets too little material.",
        f"job: {{beds: [{{{BED}, leave_out: [{{circle: {{diameter: 3 ft}},"
        " at: [10 ft, 3 ft]}]}]}",
        f"job: {{beds: [{{{BED}, leave_out: [{{circle: {{diameter: 3 ft}},"
        " at: [30 ft, 3 ft]}]}]}",
        _outside, TRADE,
    ),
    Rule(
        "left-out-twice", FAMILY, Level.STOPS, "No ground is left out of a bed twice.",
        "Where two of the shapes overlap, their common ground would be taken off twice.",
        f"job: {{beds: [{{{BED}, leave_out: [{{circle: {{diameter: 3 ft}},"
        " at: [4 ft, 3 ft]}, {circle: {diameter: 3 ft}, at: [9 ft, 3 ft]}]}]}",
        f"job: {{beds: [{{{BED}, leave_out: [{{circle: {{diameter: 3 ft}},"
        " at: [4 ft, 3 ft]}, {circle: {diameter: 3 ft}, at: [5 ft, 3 ft]}]}]}",
        _overlap, TRADE,
    ),
    Rule(
        "outline-too-short", FAMILY, Level.STOPS, "An outline that is said can go round its bed.",
        "The edge is charged by it. Where one side was written for all, most of the edge is cut unpaid.",
        f"job: {{beds: [{{{SLANTED}, against: (left out), outline: 24 ft}}]}}",
        f"job: {{beds: [{{{SLANTED}, against: (left out), outline: 12 ft}}]}}",
        _outline_short, "the isoperimetric inequality",
    ),
    Rule(
        "place-said-twice", FAMILY, Level.WARNS, "A bed from a map has its place from there alone.",
        "On the plan of the beds, a place in feet and a place on the map would not agree.",
        f"job: {{beds: [{{{BED}, at: [4 ft, 3 ft]}}]}}",
        "job: {beds: [{shape: {map: [[0, 0], [0.0002, 0], [0.0001, 0.0001]]},"
        " measured_by: map, against: (left out), at: [4 ft, 3 ft]}]}",
        _on_a_map,
    ),
    Rule(
        "beds-overlap", FAMILY, Level.WARNS, "No bed lies over another.",
        "What lies in two beds is priced twice, and gets its material twice.",
        f"job: {{beds: [{{name: Front, {BED}, at: [0 ft, 0 ft]}},"
        f" {{name: Side, {BED}, at: [26 ft, 0 ft], turned: 90 degrees}}]}}",
        f"job: {{beds: [{{name: Front, {BED}, at: [0 ft, 0 ft]}},"
        f" {{name: Side, {BED}, at: [15 ft, 0 ft]}}]}}",
        _beds_overlap, TRADE,
    ),
)  # fmt: skip
