"""Measures: shapes that can be, parts that fit their bed, and material measured closely enough."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.quantities.show import area as show_area
from scopegen.quantities.texts import LARGEST
from scopegen.rules.pieces import bed_fault, fault_at, job_fault, material_of, pieces
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "measures"
ROUGH = ("eye", "pacing")
LARGE_BED = 10_000  # ft2, a quarter of an acre: more often a slip of the unit than a bed


def _trouble(kind: str, asks: str, why: str, passes: str, fails: str, source: str = "") -> Rule:
    """A rule for what measuring itself came upon."""

    def look(case: Case) -> Iterator[Fault]:
        for trouble in case.measured.troubles if case.measured else ():
            if trouble.rule == kind:
                place = case.place(trouble.path, key=True)
                yield bed_fault(case, trouble.bed, trouble.message, trouble.fix, place, trouble.decision)

    return Rule(kind, FAMILY, Level.STOPS, asks, why, passes, fails, look, source)


def _no_beds(case: Case) -> Iterator[Fault]:
    if not case.job.beds and ("beds",) not in case.broken:
        yield job_fault(
            case, "the job has no beds", "add 'beds:' with at least one bed: its name and its shape"
        )


def _same_name(case: Case) -> Iterator[Fault]:
    seen: set[str] = set()
    for index, bed in enumerate(case.job.beds):
        name = (bed.name or "").casefold()
        if name and name in seen:
            place = case.place(("beds", index, "name"))
            yield Fault(f"two beds are called '{bed.name}'", "give one of them another name", place, bed.name)
        seen.add(name)


def _measured_by(case: Case) -> Iterator[Fault]:
    hidden = {("beds",), ("every_bed",), ("every_bed", "measured_by")}
    if case.job.every_bed.measured_by or hidden & case.broken:
        return
    for index, bed in enumerate(case.job.beds):
        if bed.measured_by is None and not {("beds", index), ("beds", index, "measured_by")} & case.broken:
            place = case.place(("beds", index, "name"), key=True)
            yield bed_fault(
                case,
                index,
                "how the bed was measured was not said",
                "add 'measured_by: tape', or wheel, map, pacing or eye",
                place,
            )


def _stone_by_eye(case: Case) -> Iterator[Fault]:
    for piece in pieces(case, "material"):
        material = material_of(case, piece)
        if material is None or material.kind != "stone" or not piece.priced or piece.bed is None:
            continue
        by = case.job.beds[piece.bed].measured_by or case.job.every_bed.measured_by
        measured = case.measured.beds[piece.bed] if case.measured else None
        if measured is not None and measured.stated is not None:
            by = "eye"
        if by in ROUGH:
            yield fault_at(
                case, piece,
                f"stone is priced on a bed that was measured by {by}",
                "measure it by tape, wheel or map, and say so under 'measured_by'",
                "use",
            )  # fmt: skip


def _nothing_included(case: Case) -> Iterator[Fault]:
    undecided = any(answer.open or answer.broken for answer in case.answers if answer.bed is not None)
    if case.priced is None or case.measured is None or undecided or case.broken or not case.job.beds:
        return
    if case.measured.troubles or case.chart_broken:
        return  # what could not be measured or priced may be all there is
    if not case.priced.lines:
        yield job_fault(
            case,
            "no work and no material is included in this job",
            "decide at least one thing as 'included'",
            "beds",
            key=True,
        )


def _no_open_edge(case: Case) -> Iterator[Fault]:
    for piece in pieces(case, "edging"):
        bed = case.measured.beds[piece.bed] if case.measured and piece.bed is not None else None
        if bed and piece.priced and bed.open_edge == 0 and bed.against <= (bed.outline or 0):
            yield fault_at(
                case, piece,
                "edging is priced, but no edge is open: all of the outline lies against something",
                "write 'edging: {decided: not-needed, because: …}', or check 'against'",
            )  # fmt: skip


def _large_bed(case: Case) -> Iterator[Fault]:
    for bed in case.measured.beds if case.measured else ():
        if bed.area is not None and LARGE_BED < bed.area <= LARGEST["area"]:
            place = case.place(("beds", bed.index, "shape"), key=True)
            yield bed_fault(
                case,
                bed.index,
                f"the bed measures {show_area(bed.area)}, a large one for this trade",
                "check the measures and their units",
                place,
            )


RECTANGLE = "shape: {rectangle: {length: 20 ft, width: 6 ft}}"
IMPOSSIBLE = _trouble(
    "impossible-shape", "A shape can be drawn from its measures.",
    "A tape that slipped gives a triangle that does not close. Its area would be a guess.",
    "job: {beds: [{shape: {triangle: {sides: [9 ft, 10 ft, 6 ft]}}, against: (left out)}]}",
    "job: {beds: [{shape: {triangle: {sides: [1 ft, 2 ft, 5 ft]}}, against: (left out)}]}",
    "plane geometry: each side of a triangle is shorter than the other two together (Euclid, Elements I.20)",
)  # fmt: skip
LEAVES_NOTHING = _trouble(
    "leaves-nothing", "What is left out is smaller than the bed.",
    "A pad or a tree well as large as its bed leaves nothing to cover.",
    "job: {beds: [{leave_out: [{circle: {diameter: 3 ft}}]}]}",
    "job: {beds: [{leave_out: [{area: 200 ft2}]}]}",
)  # fmt: skip
SIDE_TWICE = _trouble(
    "side-twice", "A side lies against one thing.",
    "A side counted twice makes the open edge too short, and the edging too cheap.",
    "job: {beds: [{against: {walk: front, wall: back}}]}",
    "job: {beds: [{against: {walk: front, wall: front}}]}",
)  # fmt: skip
UNKNOWN_SIDE = _trouble(
    "unknown-side", "What the edge lies against is a side of the bed's shape, or a length.",
    "A side that the shape does not have takes nothing off the edge that is priced.",
    "job: {beds: [{against: {walk: 12 ft}}]}",
    "job: {beds: [{against: {walk: frnt}}]}",
)  # fmt: skip
AGAINST = _trouble(
    "against-exceeds-outline", "What lies against something is no longer than the outline.",
    "Otherwise a measure is wrong, and the edge that is left to cut is not known.",
    "job: {beds: [{against: {walk: 20 ft}}]}",
    "job: {beds: [{against: {walk: 200 ft}}]}",
)  # fmt: skip
WRONG_PART = _trouble(
    "wrong-part", "An edge's part is measured along it, a bed's part by its area.",
    "Twelve square feet of edge cannot be cut.",
    "job: {beds: [{edging: [{decided: included, work: recut-edge, along: 12 ft}, {decided: excluded, along:"
    " rest}]}]}",
    "job: {beds: [{edging: [{decided: included, work: recut-edge, area: 12 ft2}, {decided: excluded, along:"
    " rest}]}]}",
)  # fmt: skip
UNKNOWN_PART = _trouble(
    "unknown-part", "A part that is named is one of the bed's parts.",
    "Work on a part that is nowhere measured has no size and no price.",
    "job: {beds: [{parts: {north: 40 ft2, south: rest}, bed_prep: [{decided: included, work: hand-weed, on:"
    " north},"
    " {decided: excluded, on: south}]}]}",
    "job: {beds: [{parts: {north: 40 ft2, south: rest}, bed_prep: [{decided: included, work: hand-weed, on:"
    " noth},"
    " {decided: excluded, on: south}]}]}",
)  # fmt: skip
TWO_RESTS = _trouble(
    "two-rests", "One part at the most takes the rest.",
    "Two rests cannot be told apart.",
    "job: {beds: [{bed_prep: [{decided: included, work: hand-weed, area: 40 ft2}, {decided: excluded, area:"
    " rest}]}]}",
    "job: {beds: [{bed_prep: [{decided: included, work: hand-weed, area: rest}, {decided: excluded, area:"
    " rest}]}]}",
)  # fmt: skip
EXCEED = _trouble(
    "parts-exceed-bed", "The parts of a decision are no larger than the bed, or its open edge.",
    "Ground that is not there would be priced.",
    "job: {beds: [{bed_prep: [{decided: included, work: hand-weed, area: 40 ft2}, {decided: excluded, area:"
    " rest}]}]}",
    "job: {beds: [{bed_prep: [{decided: included, work: hand-weed, area: 400 ft2}]}]}",
)  # fmt: skip
MISS = _trouble(
    "parts-miss-bed", "The parts of a decision leave nothing of the bed undecided.",
    "The part that nobody mentioned is the part that is done for nothing.",
    "job: {beds: [{bed_prep: [{decided: included, work: hand-weed, area: 40 ft2}, {decided: excluded, area:"
    " rest}]}]}",
    "job: {beds: [{bed_prep: [{decided: included, work: hand-weed, area: 40 ft2}]}]}",
)  # fmt: skip
NAME_PARTS = _trouble(
    "name-the-parts", "Where found, material and ground underneath are split, their parts have names.",
    "Which part is stripped, and how deep the old mulch lay there, decides how much new material it takes."
    " On the average of the bed it would be too little.",
    "job: {beds: [{parts: {north: 40 ft2, south: rest}, found: [{on: north, edge: soft, ground: old mulch,"
    " ground_depth: 1 in},"
    " {on: south, edge: soft, ground: old mulch, ground_depth: 2 in}], material: {use: hardwood, top_up_to:"
    " 3 in}}]}",
    "job: {beds: [{found: [{area: 40 ft2, edge: soft, ground: old mulch, ground_depth: 1 in},"
    " {area: rest, edge: soft, ground: old mulch, ground_depth: 2 in}],"
    " material: [{use: hardwood, top_up_to: 3 in, area: 50 ft2}, {use: pine-bark, top_up_to: 3 in, area:"
    " rest}]}]}",
)  # fmt: skip
DEPTH_UNKNOWN = _trouble(
    "depth-unknown", "Where material is topped up, the depth that lies there was said.",
    "The order is the depth wanted less the depth that is there, part by part.",
    "job: {beds: [{found: {edge: soft, weeds: light, ground: old mulch, ground_depth: 1 in}, material: {use:"
    " hardwood, top_up_to: 3 in}}]}",
    "job: {beds: [{found: {edge: soft, weeds: light, ground: old mulch}, material: {use: hardwood,"
    " top_up_to: 3 in}}]}",
    "Cornell Cooperative Extension Oneida County, 2023: 'Before replacing mulch each season, check the"
    " depth.'",
)  # fmt: skip
VOLUME_ONLY = _trouble(
    "volume-only", "A bed that is told by its volume takes that volume, of one material, as a whole.",
    "Three yards told by eye have no area. A depth, a hole or a part of such a bed would be a guess on a"
    " guess.",
    "job: {beds: [{shape: {volume: 3 yd3}, measured_by: eye, against: (left out), outline: 40 ft,"
    " material: {use: hardwood}, found: {edge: soft, weeds: light}, bed_prep: {decided: excluded},"
    " substrate: {decided: excluded}}]}",
    "job: {beds: [{shape: {volume: 3 yd3}, measured_by: eye, against: (left out), outline: 40 ft,"
    " material: {use: hardwood, depth: 2 in}, found: {edge: soft, weeds: light}, bed_prep: {decided:"
    " excluded},"
    " substrate: {decided: excluded}}]}",
    "CalRecycle, Calculations for closed and illegal disposal sites: the volume of a pile told by eye 'could"
    " be within 10-15 percent'",
)  # fmt: skip
CHOICE_ON_CHOICE = _trouble(
    "choice-on-choice", "What an add-on takes does not rest on another add-on.",
    "Each add-on has one price. Where old mulch is stripped only if that is chosen, mulch that is topped up"
    " only if that is chosen has two: the sum of both would not pay for what both take.",
    "job: {beds: [{material: {decided: add-on, use: hardwood, depth: 2 in},"
    " substrate: {decided: add-on, work: strip-old-mulch}}]}",
    "job: {beds: [{material: {decided: add-on, use: hardwood, top_up_to: 3 in},"
    " substrate: {decided: add-on, work: strip-old-mulch}}]}",
)  # fmt: skip
NO_BEDS = Rule(
    "no-beds", FAMILY, Level.STOPS, "A job has a bed.", "There is nothing to measure, price or sign.",
    "job: {paper: letter}", "job: {beds: []}", _no_beds,
)  # fmt: skip
SAME_NAME = Rule(
    "same-name", FAMILY, Level.STOPS, "Each bed has a name of its own.",
    "The crew and the paper know a bed by its name only, whether in capitals or not.",
    "job: {beds: [{name: North bed}, {name: South bed}]}",
    "job: {beds: [{name: North bed}, {name: north bed}]}",
    _same_name,
)  # fmt: skip
MEASURED_BY = Rule(
    "measured-by", FAMILY, Level.STOPS, "It is said how each bed was measured.",
    "A paced bed can be a tenth off, a taped one is not. The paper says which it was.",
    "job: {every_bed: {measured_by:"
    " wheel}}", "job: {every_bed: {measured_by: (left out)}}", _measured_by, TRADE,
)  # fmt: skip
STONE_BY_EYE = Rule(
    "stone-by-eye", FAMILY, Level.STOPS, "Stone is priced on measured ground.",
    "Stone is dear, heavy and sold to the quarter ton: it is measured to the square foot, while mulch"
    " forgives.",
    "job: {beds: [{measured_by: tape, material: {use: river-stone, depth: 2 in},"
    " substrate: {decided: not-needed, because: no fabric is wanted}}]}",
    "job: {beds: [{measured_by: eye, material: {use: river-stone, depth: 2 in},"
    " substrate: {decided: not-needed, because: no fabric is wanted}}]}",
    _stone_by_eye, TRADE,
)  # fmt: skip
NOTHING_INCLUDED = Rule(
    "nothing-included", FAMILY, Level.STOPS, "Something is included.",
    "An agreement whose price is nothing sells nothing. Add-ons stand on a base.",
    "job: {beds: [{edging: {decided: included, work: recut-edge}}]}",
    "job: {every_bed: {material: {decided: not-needed, because: a test}, bed_prep: {decided: excluded},"
    " edging: {decided: excluded}, debris: {decided: elsewhere, who: the lawn service}, substrate: {decided:"
    " excluded}},"
    " beds: [{material: (left out), bed_prep: (left out), edging: (left out), debris: (left out), substrate:"
    " (left out)}]}",
    _nothing_included,
)  # fmt: skip
NO_OPEN_EDGE = Rule(
    "no-open-edge", FAMILY, Level.STOPS, "Edging is priced where an edge is open.",
    "A bed between a wall and a walk has no edge to cut.",
    "job: {beds: [{against: {walk: front}, edging: {decided: included, work: recut-edge}}]}",
    "job: {beds: [{against: {walk: [front, back], wall: [left, right]}, edging: {decided: included, work:"
    " recut-edge}}]}",
    _no_open_edge,
)  # fmt: skip

LARGE = Rule(
    "large-bed", FAMILY, Level.WARNS, "A bed is of a size that a crew works in.",
    "Metres where feet were meant make a bed eleven times its size, and a price that nobody looks at twice.",
    "job: {beds: [{shape: {rectangle: {length: 100 ft, width: 100 ft}}}]}",
    "job: {beds: [{shape: {rectangle: {length: 100 ft, width: 101 ft}}}]}",
    _large_bed, TRADE,
)  # fmt: skip

RULES = (
    NO_BEDS, LARGE, SAME_NAME, MEASURED_BY, IMPOSSIBLE, LEAVES_NOTHING, SIDE_TWICE, UNKNOWN_SIDE,
    AGAINST, NO_OPEN_EDGE, WRONG_PART, UNKNOWN_PART, TWO_RESTS, EXCEED,
    MISS, NAME_PARTS, DEPTH_UNKNOWN, VOLUME_ONLY, CHOICE_ON_CHOICE, STONE_BY_EYE, NOTHING_INCLUDED,
)  # fmt: skip
