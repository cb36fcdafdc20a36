"""Contradictions: two things on one paper that cannot both be meant."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.measure import Ground, Share
from scopegen.rules.pieces import (
    Piece,
    bed_fault,
    fault_at,
    looked_for,
    material_of,
    pieces,
    pieces_of,
    speak_of,
    unknown_work,
    work_of,
)
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "contradictions"
LOST_EDGES = ("grown in", "missing", "none", "broken")
BARRIERS = ("fabric", "plastic")
FACT_WORDS = {"edge": "the edge was", "ground": "the ground was", "trash": "trash was", "slope": "it was"}


def _spoil_untaken(case: Case) -> Iterator[Fault]:
    if case.priced is None or case.measured is None:
        return
    hidden = _debris_unknown(case)
    for bed, *path in case.priced.not_taken:
        if bed in hidden or bed == -1 and hidden:
            continue  # debris is open or unclear there, which is found already
        place = case.place((*path, "work"))
        said = (tuple(path), (*path, 0))  # an extra stands in its list as one part alone
        there = pieces(case) if bed == -1 else pieces_of(case, bed)
        piece = next((piece for piece in there if piece.path in said), None)
        if piece is None:
            continue
        work = work_of(case, piece)
        stream = work.spoil.stream if work and work.spoil else ""
        if case.chart is None or stream not in case.chart.streams:
            continue  # a stream that the chart does not know is found already
        name = case.chart.streams[stream].name
        yield bed_fault(
            case, piece.bed,
            f"'{piece.part.work}' takes out {name}, and nobody takes that away",
            "decide debris as included with work that takes it, as customer, or as elsewhere",
            place, piece.decision,
        )  # fmt: skip


def _debris_unknown(case: Case) -> set[int | None]:
    """The beds where it is not known who takes the debris: open, broken, in parts that do not fit, or
    by work that the chart does not know."""
    troubles = case.measured.troubles if case.measured else ()
    unclear = {
        answer.bed
        for answer in case.answers
        if answer.decision == "debris" and (answer.open or answer.broken)
    }
    unclear |= {piece.bed for piece in pieces(case, "debris") if unknown_work(case, piece)}
    return unclear | {trouble.bed for trouble in troubles if trouble.decision == "debris"}


def _edge_not_needed(case: Case) -> Iterator[Fault]:
    for piece, ground in over_found(case, "edging"):
        if piece.how == "not-needed" and piece.part.whole and ground.found.edge in LOST_EDGES:
            if piece.bed is not None and case.measured and case.measured.beds[piece.bed].open_edge == 0:
                continue  # walls and walks all round: there is no edge to lose
            found = "missing" if ground.found.edge == "none" else ground.found.edge
            yield fault_at(
                case, piece,
                f"the edge was found {found}, but edging is not needed",
                "include it, offer it as an add-on, or exclude it by name; 'not-needed' is for an edge that"
                " is fine",
                "decided",
            )  # fmt: skip


def _does_not_suit(case: Case) -> Iterator[Fault]:
    for decision in ("bed_prep", "edging", "substrate"):
        by_piece: dict[tuple[object, ...], tuple[Piece, list[Ground]]] = {}
        for piece, ground in over_found(case, decision):
            by_piece.setdefault((piece.bed, piece.path), (piece, []))[1].append(ground)
        for piece, grounds in by_piece.values():
            yield from _unsuited(case, piece, grounds)


def _unsuited(case: Case, piece: Piece, grounds: list[Ground]) -> Iterator[Fault]:
    work = work_of(case, piece)
    if work is None or not piece.ours:
        return
    facts = {
        fact: [value for ground in grounds if (value := getattr(ground.found, fact, None))]
        for fact in work.suits
    }
    # Work that suits any of several things (leaves or trash) is wrong only where none of them was found.
    if any(value in work.suits[fact] for fact, values in facts.items() for value in values):
        return
    said = [(fact, values) for fact, values in facts.items() if values]
    if said and len(said) == len(work.suits):
        fact, values = said[0]
        found = "missing" if values[0] == "none" and fact == "edge" else values[0]
        what = f"{FACT_WORDS.get(fact, f'{fact} were')} found: {found}"
        yield fault_at(
            case, piece,
            f"'{piece.part.work}' does not suit what was found there ({what})",
            f"name work that suits it, or change what was found; '{piece.part.work}' suits"
            f" {', '.join(work.suits[fact])}",
            "work",
        )  # fmt: skip


def over_found(case: Case, decision: str, bed: int | None = None) -> Iterator[tuple[Piece, Ground]]:
    """Each part of a decision with each piece of found ground that it covers, where they can be matched; of
    one bed where it is given."""
    if case.measured is None:
        return
    for piece in pieces(case, decision) if bed is None else pieces_of(case, bed, decision):
        if piece.bed is None:
            continue
        measure = case.measured.beds[piece.bed]
        share = next((share for share in measure.of(decision) if share.path == piece.path), None)
        for ground in measure.grounds:
            if share is not None and _covers(share, ground, alone=len(measure.grounds) == 1):
                yield piece, ground


def _covers(share: Share, ground: Ground, *, alone: bool) -> bool:
    if share.whole or alone:
        return True
    if share.name or ground.name:
        return share.name == ground.name
    return share.decision != "edging" and share.area == ground.area


def _barrier_unsaid(case: Case) -> Iterator[Fault]:
    if case.measured is None or case.chart is None:
        return
    for bed in case.measured.beds:
        said = list(pieces_of(case, bed.index, "substrate"))
        for ground in bed.grounds:
            layer = ground.found.ground
            if layer in BARRIERS and said and not _speaks_of(case, bed.index, ground, str(layer)):
                place = case.place((*ground.path, "ground"))
                yield bed_fault(
                    case, bed.index,
                    f"{layer} was found, and nothing says what happens to it",
                    "say under substrate that it is pulled, or that it stays, as excluded or not-needed,"
                    f" with '{looked_for(case, str(layer))[0]}' in the reason or note",
                    place, "substrate",
                )  # fmt: skip


def _speaks_of(case: Case, bed: int, ground: Ground, layer: str) -> bool:
    for piece, under in over_found(case, "substrate", bed):
        if under.path != ground.path or under.area != ground.area:
            continue
        work = work_of(case, piece)
        pulls = work is not None and layer in work.suits.get("ground", ())
        named = speak_of(case, layer, piece.part.because, piece.part.note)
        if pulls or named or unknown_work(case, piece) or piece.how in ("customer", "elsewhere"):
            return True
    return False


def _stone_without_fabric_word(case: Case) -> Iterator[Fault]:
    for piece in pieces(case, "material"):
        material = material_of(case, piece)
        if material is None or material.kind != "stone" or not piece.priced:
            continue
        under = list(pieces_of(case, piece.bed, "substrate"))
        if under and not any(_names_fabric(case, other) for other in under):
            yield fault_at(
                case, piece,
                "stone is laid, and nothing says whether fabric goes under it",
                "say under substrate that fabric is laid, pulled, stays or is not wanted, with the word"
                f" '{looked_for(case, 'fabric')[0]}' in the work, reason or note",
                "use",
            )  # fmt: skip


def _names_fabric(case: Case, piece: Piece) -> bool:
    work = work_of(case, piece)
    said = (piece.part.because, piece.part.note, piece.part.work, work.name if work else "")
    return speak_of(case, "fabric", *said)


def _heavy_weeds(case: Case) -> Iterator[Fault]:
    for piece, ground in over_found(case, "bed_prep"):
        if ground.found.weeds == "heavy" and piece.how == "not-needed":
            yield fault_at(
                case, piece,
                "heavy weeds were found, but bed prep is not needed",
                "include it, offer it, exclude it by name, or say who else does it",
                "decided",
            )  # fmt: skip


def _weeds_left_in(case: Case) -> Iterator[Fault]:
    for piece, ground in over_found(case, "bed_prep"):
        if ground.found.weeds == "heavy" and piece.how == "excluded":
            yield fault_at(
                case, piece,
                "heavy weeds stay in the bed: promise nothing about weeds there",
                "take any promise on weeds out of notes and of clauses of your own",
                "decided",
            )  # fmt: skip


SPOIL = Rule(
    "spoil-untaken", FAMILY, Level.STOPS,
    "Whatever work takes out is taken away by somebody.",
    "Sod and old mulch do not vanish. Where the paper says that nobody takes them, the crew does, unpaid.",
    "job: {beds: [{debris: {decided: customer, by: start, if_not_done: come back}}]}",
    "job: {beds: [{debris: {decided: excluded}}]}",
    _spoil_untaken, TRADE,
)  # fmt: skip
EDGE = Rule(
    "edge-not-needed", FAMILY, Level.STOPS,
    "An edge that was found grown in, missing or broken is not 'fine as it is'.",
    "The customer sees the lost edge on the last day and expects it cut. Say that it is not part of the"
    " price.",
    "job: {beds: [{found: {edge: crisp, weeds: light, ground: old mulch, ground_depth: 1 in}, edging:"
    " {decided: not-needed, because: the edge is crisp}}]}",
    "job: {beds: [{found: {edge: grown in, weeds: light, ground: old mulch, ground_depth: 1 in}, edging:"
    " {decided: not-needed, because: a test}}]}",
    _edge_not_needed, TRADE,
)  # fmt: skip
SUITS = Rule(
    "work-does-not-suit", FAMILY, Level.STOPS,
    "Work suits what the walk found.",
    "A recut where no edge is takes half a day in place of an hour. The price chart says what each kind of"
    " work suits.",
    "job: {beds: [{found: {edge: missing, weeds: light, ground: old mulch, ground_depth: 1 in}, edging:"
    " {decided: included, work: new-edge}}]}",
    "job: {beds: [{found: {edge: missing, weeds: light, ground: old mulch, ground_depth: 1 in}, edging:"
    " {decided: included, work: recut-edge}}]}",
    _does_not_suit, TRADE,
)  # fmt: skip
BARRIER = Rule(
    "barrier-unsaid", FAMILY, Level.STOPS,
    "Fabric or plastic that was found is spoken of.",
    "Old fabric under new mulch comes up later, and pulling it is work that nobody sold. New mulch on fabric"
    " dries out and slides.",
    "job: {beds: [{found: {edge: soft, weeds: light, ground: fabric}, substrate: {decided: included, work:"
    " pull-fabric}}]}",
    "job: {beds: [{found: {edge: soft, weeds: light, ground: fabric}, substrate: {decided: not-needed,"
    " because: all is well}}]}",
    _barrier_unsaid,
    "Washington State University Extension (Ophardt): weeds invade the bed and the fabric becomes a"
    " nightmare; Colorado State University"
    " Extension 7.214: fabric is not needed beneath other mulches",
)  # fmt: skip
STONE_FABRIC = Rule(
    "stone-without-fabric-word", FAMILY, Level.STOPS,
    "Where stone is laid, the paper says whether fabric goes under it.",
    "Without fabric stone sinks into the soil; with it weeds root on top in time. Either way the customer"
    " chose it, and the paper shows it.",
    "job: {beds: [{material: {use: river-stone, depth: 2 in}, substrate: {decided: not-needed, because: no"
    " fabric is wanted under the stone}}]}",
    "job: {beds: [{material: {use: river-stone, depth: 2 in}, substrate: {decided: not-needed, because: the"
    " soil is firm}}]}",
    _stone_without_fabric_word, TRADE,
)  # fmt: skip
HEAVY_WEEDS = Rule(
    "heavy-weeds-not-needed", FAMILY, Level.STOPS,
    "Heavy weeds are not 'fine as they are'.",
    "Mulch over heavy weeds is a green bed in a month.",
    "job: {beds: [{found: {edge: soft, weeds: heavy, ground: old mulch, ground_depth: 1 in}, bed_prep:"
    " {decided: included, work: heavy-weed}}]}",
    "job: {beds: [{found: {edge: soft, weeds: heavy, ground: old mulch, ground_depth: 1 in}, bed_prep:"
    " {decided: not-needed, because: a test}}]}",
    _heavy_weeds, TRADE,
)  # fmt: skip
WEEDS_LEFT = Rule(
    "weeds-left-in", FAMILY, Level.WARNS,
    "Where heavy weeds stay, nothing is promised about weeds.",
    "Weeds flower and drop seed within four to six weeks. A promise on a bed that was not cleared cannot be"
    " kept.",
    "job: {beds: [{found: {edge: soft, weeds: light, ground: old mulch, ground_depth: 1 in}, bed_prep:"
    " {decided: excluded}}]}",
    "job: {beds: [{found: {edge: soft, weeds: heavy, ground: old mulch, ground_depth: 1 in}, bed_prep:"
    " {decided: excluded}}]}",
    _weeds_left_in, "NC State University weed science: some species have a new generation every 4 to 6 weeks",
)  # fmt: skip
RULES = (SPOIL, EDGE, SUITS, BARRIER, STONE_FABRIC, HEAVY_WEEDS, WEEDS_LEFT)
