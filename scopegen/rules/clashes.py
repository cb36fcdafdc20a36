"""Kinds of work that cannot both be meant on the same ground."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.rules.contradictions import BARRIERS, over_found
from scopegen.rules.found import overlap
from scopegen.rules.gaps import STONE
from scopegen.rules.pieces import (
    SURE_WAYS,
    Piece,
    fault_at,
    material_of,
    pieces,
    pieces_of,
    unknown_work,
    work_of,
)
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "contradictions"
# Work is known by the clause that words it: its chart key is the contractor's own.
LAYS_FABRIC, CUTS_SOD, COMPOST_IN = "substrate.lay-fabric", "substrate.cut-sod", "substrate.work-in-compost"
GREEN = ("turf", "groundcover")


def _worded(case: Case, clause: str) -> Iterator[Piece]:
    """Work on the ground underneath that this clause words, and that is ours to do."""
    for piece in pieces(case, "substrate"):
        work = work_of(case, piece)
        if work is not None and work.clause == clause and piece.ours and piece.bed is not None:
            yield piece


def _fabric_over_fabric(case: Case) -> Iterator[Fault]:
    for piece in _worded(case, LAYS_FABRIC):
        under = list(over_found(case, "substrate", piece.bed))
        for own, ground in under:
            layer = ground.found.ground
            if own.path != piece.path or layer not in BARRIERS:
                continue
            same = [other for other, there in under if there == ground]
            if not any(_pulls(case, other) for other in same):
                yield fault_at(
                    case, piece,
                    f"new fabric is laid over old {layer} that stays",
                    "name work that pulls the old layer, or exclude the new one",
                    "work",
                )  # fmt: skip
                break


def _pulls(case: Case, piece: Piece) -> bool:
    work = work_of(case, piece)
    if piece.how in ("customer", "elsewhere"):
        return work is None or work.clears
    return unknown_work(case, piece) or piece.priced and work is not None and work.clears


def _sod_without_turf(case: Case) -> Iterator[Fault]:
    for piece in _worded(case, CUTS_SOD):
        work = work_of(case, piece)
        if work is None or "ground" in work.suits:
            continue  # what the chart says of it is asked by another rule
        own = [
            ground for other, ground in over_found(case, "substrate", piece.bed) if other.path == piece.path
        ]
        seen = [ground.found.ground for ground in own]
        if seen and all(seen) and not set(seen) & set(GREEN):
            yield fault_at(
                case, piece,
                f"'{piece.part.work}' cuts sod, and no turf was found there, but {seen[0]}",
                "write 'ground: turf' under found where turf lies, or decide other work",
                "work",
            )  # fmt: skip


def _compost(case: Case) -> Iterator[tuple[Piece, list[Piece]]]:
    """Work that digs compost in, with what is spread on the same ground."""
    for piece in _worded(case, COMPOST_IN):
        own = [other for other in pieces_of(case, piece.bed, "material") if overlap(piece, other)]
        yield piece, own


def _compost_under_stone(case: Case) -> Iterator[Fault]:
    for piece, spread in _compost(case):
        for other in spread:
            material = material_of(case, other)
            if material is not None and material.kind == "stone" and other.priced:
                yield fault_at(
                    case, piece,
                    "compost is worked in where stone is laid",
                    "leave one of the two out, or say which part of the bed each is for",
                    "work",
                )  # fmt: skip
                break


def _compost_unnamed(case: Case) -> Iterator[Fault]:
    for piece, spread in _compost(case):
        if spread and not any(_may_be_compost(case, other) for other in spread):
            yield fault_at(
                case, piece,
                f"'{piece.part.work}' works compost in, and no compost is named under the material",
                "add it under 'material' with its depth, or say there that the customer brings it",
                "work",
            )  # fmt: skip


def _may_be_compost(case: Case, piece: Piece) -> bool:
    material = material_of(case, piece)
    if piece.how in ("customer", "elsewhere"):
        return True
    return piece.priced and (material is None or material.kind == "compost")


def _taken_twice(case: Case) -> Iterator[Fault]:
    for index in range(len(case.job.beds)):
        own = [piece for piece in pieces_of(case, index, "debris") if _takes(case, piece)]
        for one, other in combinations(own, 2):
            both = _takes(case, one) & _takes(case, other)
            if both and overlap(one, other) and one.part.work != other.part.work:
                names = [case.chart.streams[key].name for key in sorted(both)] if case.chart else []
                yield fault_at(
                    case, other,
                    f"{_taker(one)} and {_taker(other)} both take the same: {', '.join(names)}",
                    "keep one of the two, say which part of the bed each is for, or let each kind of work in"
                    " the price chart take streams of its own",
                )  # fmt: skip


def _taker(piece: Piece) -> str:
    who = {"customer": "the customer", "elsewhere": piece.part.who or "somebody else"}
    return who.get(piece.how) or f"'{piece.part.work}'"


def _takes(case: Case, piece: Piece) -> set[str]:
    """The streams that a part of the debris takes for certain; nothing where that is not known."""
    if case.chart is None or unknown_work(case, piece):
        return set()
    if piece.how not in (*SURE_WAYS, "customer", "elsewhere"):
        return set()
    work = work_of(case, piece)
    if work is None and piece.how in SURE_WAYS:
        return set()  # that no work is named is found already
    takes = work.takes if work else None
    return set(case.chart.streams) & set(case.chart.streams if takes is None else takes)


LAY = "lay-fabric: {decides: substrate, name: Lay fabric, price: {per: ft2, amount: 0.60}, does: 150 ft2/h"
LAID = f"chart: {{work: {{{LAY}, clause: {LAYS_FABRIC}}}}}}}"
FABRIC = "found: {edge: soft, weeds: light, ground: fabric}"
NEW = "{decided: included, work: lay-fabric}"
FABRIC_OVER_FABRIC = Rule(
    "fabric-over-fabric", FAMILY, Level.WARNS,
    "New fabric is not laid over old fabric or plastic that stays.",
    "The old layer keeps the new one from lying flat, and roots run between the two. Whoever sold new fabric"
    " meant to pull the old.",
    f"{{job: {{beds: [{{{FABRIC}, {STONE}, substrate: [{{decided: included, work: pull-fabric}}, {NEW}]}}]}},"
    f" {LAID}}}",
    f"{{job: {{beds: [{{{FABRIC}, {STONE}, substrate: {{decided: included, work: lay-fabric, note: The old"
    f" fabric stays.}}}}]}}, {LAID}}}",
    _fabric_over_fabric, TRADE,
)  # fmt: skip
SOD = (
    "chart: {work: {cut-sod: {decides: substrate, name: Cut the sod, price: {per: ft2, amount: 0.80},"
    f" does: 90 ft2/h, spoil: {{depth: 2 in, stream: sod}}, clause: {CUTS_SOD}}}}}}}"
)
CUT = "substrate: {decided: included, work: cut-sod}"
SOD_WITHOUT_TURF = Rule(
    "sod-without-turf", FAMILY, Level.STOPS,
    "Sod is cut where turf was found.",
    "Sod two inches deep over a bed is a truckload of soil, hauled and charged. Where no turf was seen,"
    " either the walk or the work is wrong.",
    f"{{job: {{beds: [{{found: {{edge: soft, weeds: light, ground: turf}}, {CUT}}}]}}, {SOD}}}",
    f"{{job: {{beds: [{{found: {{edge: soft, weeds: light, ground: bare soil}}, {CUT}}}]}}, {SOD}}}",
    _sod_without_turf, TRADE,
)  # fmt: skip
LEAF = (
    "chart: {materials: {compost: {name: Leaf compost, kind: compost, unit: yd3, price: 90.00, sold_in:"
    " 0.5 yd3, weight: 1000 lb/yd3, lays: 1 yd3/h, clause: material.compost}}, work: {dig-in: {decides:"
    " substrate, name: Work compost in, price: {per: ft2, amount: 0.40}, does: 120 ft2/h, clause:"
    f" {COMPOST_IN}}}}}}}"
)
BARE = "found: {edge: soft, weeds: light, ground: bare soil}"
DIG_IN = "substrate: {decided: included, work: dig-in, note: No fabric is wanted.}"
BOTH = "material: [{use: compost, depth: 1 in}, {use: %s, depth: 2 in}]"
COMPOST_UNDER_STONE = Rule(
    "compost-under-stone", FAMILY, Level.WARNS,
    "Compost is not worked in under stone.",
    "Compost feeds what grows, and goes on settling. Under stone it feeds weeds, and the stone sinks.",
    f"{{job: {{beds: [{{{BARE}, {BOTH % 'hardwood'}, {DIG_IN}}}]}}, {LEAF}}}",
    f"{{job: {{beds: [{{{BARE}, {BOTH % 'river-stone'}, {DIG_IN}}}]}}, {LEAF}}}",
    _compost_under_stone, TRADE,
)  # fmt: skip
COMPOST_UNNAMED = Rule(
    "compost-unnamed", FAMILY, Level.STOPS,
    "Where compost is worked in, the material says which and how much.",
    "The price for working it in is for the labor. The compost itself would be bought and charged by nobody.",
    f"{{job: {{beds: [{{{BARE}, {BOTH % 'hardwood'}, {DIG_IN}}}]}}, {LEAF}}}",
    f"{{job: {{beds: [{{{BARE}, {DIG_IN}}}]}}, {LEAF}}}",
    _compost_unnamed,
)  # fmt: skip
LEAVE = (
    "chart: {work: {leave: {decides: debris, name: Leave it there, price: {per: yd3, amount: 14.00},"
    " does: 1.5 yd3/h, takes: %s, clause: debris.leave-on-site}, haul-away: {takes: [sod, fabric]}}}"
)
TWO_WAYS = "job: {beds: [{debris: [{decided: included, work: leave}, {decided: included, work: haul-away}]}]}"
TAKEN_TWICE = Rule(
    "debris-taken-twice", FAMILY, Level.STOPS,
    "Each sort of debris of a bed goes one way.",
    "Left on the property and hauled away, into the customer's bin and into our truck: one of the two is"
    " charged or promised, and does not happen.",
    f"{{{TWO_WAYS}, {LEAVE % '[green, mulch]'}}}",
    f"{{{TWO_WAYS}, {LEAVE % '[sod, green, mulch]'}}}",
    _taken_twice, TRADE,
)  # fmt: skip

RULES = (FABRIC_OVER_FABRIC, SOD_WITHOUT_TURF, COMPOST_UNDER_STONE, COMPOST_UNNAMED, TAKEN_TWICE)
