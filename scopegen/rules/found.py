"""What the walk saw, and what follows from it: the price rests on it, so it is said."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.photos import Unusable
from scopegen.rules.decisions import SPOKEN
from scopegen.rules.pieces import Piece, bed_fault, fault_at, pieces, pieces_of, speak_of, work_of
from scopegen.rules.rule import TRADE, Fault, Rule

MOST_PHOTOS = 6  # of one bed: a page and a half
FAMILY = "what was found"
# What the decision rests on, and how a missing word for it is asked for.
RESTS_ON = {
    "edging": ("edge", "edge: soft"),
    "bed_prep": ("weeds", "weeds: light"),
    "substrate": ("ground", "ground: old mulch"),
}
LITTER = ("leaves", "trash")


def _unseen(case: Case) -> Iterator[Fault]:
    for index, bed in enumerate(case.job.beds):
        if {("beds", index), ("beds", index, "found")} & case.broken:
            continue
        for decision, (fact, example) in RESTS_ON.items():
            own = list(pieces_of(case, index, decision))
            rests = any(piece.ours or piece.how == "not-needed" for piece in own)
            if rests and not any(getattr(found, fact) for found in bed.found):
                place = case.place(("beds", index, "found" if bed.found else "name"), key=True)
                message = (
                    f"{SPOKEN[decision]} is decided, but what the walk found there ('{fact}') was not said"
                )
                yield bed_fault(
                    case, index, message, f"add 'found: {{{example}}}' with what was seen", place, decision
                )


def _work_twice(case: Case) -> Iterator[Fault]:
    seen: dict[tuple[object, ...], list[Piece]] = {}
    for piece in pieces(case, "bed_prep", "edging", "substrate", "debris"):
        if piece.part.work and piece.bed is not None and piece.ours:
            seen.setdefault((piece.bed, piece.decision, piece.part.work), []).append(piece)
    for own in seen.values():
        for number, piece in enumerate(own[1:], 1):
            if any(overlap(piece, earlier) for earlier in own[:number]):
                message = f"'{piece.part.work}' is said twice for the same ground"
                yield fault_at(
                    case, piece, message, "keep one of the two, or say which part each is for", "work"
                )


def overlap(one: Piece, other: Piece) -> bool:
    """One covers the whole bed, or both the same named part; measured parts stand beside one another."""
    return one.part.whole or other.part.whole or (one.part.on is not None and one.part.on == other.part.on)


def _litter_unsaid(case: Case) -> Iterator[Fault]:
    for index, bed in enumerate(case.job.beds):
        own = list(pieces_of(case, index, "bed_prep"))
        for number, found in enumerate(bed.found):
            heavy = [fact for fact in LITTER if getattr(found, fact) == "heavy"]
            if heavy and own and not any(_speaks_of_litter(case, piece, heavy) for piece in own):
                place = case.place(("beds", index, "found", number, heavy[0]))
                yield bed_fault(
                    case, index,
                    f"heavy {' and '.join(heavy)} {'was' if heavy == ['trash'] else 'were'} found, and"
                    " nobody says who clears that",
                    "add bed prep work that suits it, or exclude it by name in a note",
                    place, "bed_prep",
                )  # fmt: skip


def _photo_missing(case: Case) -> Iterator[Fault]:
    for index, bed in enumerate(case.job.beds):
        for number, photo in enumerate(bed.photos):
            if photo.file not in case.photos:
                place = case.place(("beds", index, "photos", number))
                message = f"there is no photo '{photo.file}' beside the job or below it"
                fix = (
                    "put it there, or mend its name; a photo outside the folder of company.yaml is not taken"
                )
                yield bed_fault(case, index, message, fix, place)


def _photo_unusable(case: Case) -> Iterator[Fault]:
    for index, bed in enumerate(case.job.beds):
        for number, photo in enumerate(bed.photos):
            taken = case.photos.get(photo.file)
            if isinstance(taken, Unusable):
                place = case.place(("beds", index, "photos", number))
                yield bed_fault(case, index, f"the photo '{photo.file}' {taken.why}", taken.fix, place)


def _too_many_photos(case: Case) -> Iterator[Fault]:
    for index, bed in enumerate(case.job.beds):
        if len(bed.photos) > MOST_PHOTOS:
            place = case.place(("beds", index, "photos", MOST_PHOTOS))
            message = f"{len(bed.photos)} photos stand here, and a bed takes {MOST_PHOTOS}"
            yield bed_fault(case, index, message, "keep those that show what the price rests on", place)


def _speaks_of_litter(case: Case, piece: Piece, heavy: list[str]) -> bool:
    work = work_of(case, piece)
    suits = work is not None and any(fact in work.suits for fact in heavy)
    said = (piece.part.note, piece.part.because)
    spoken = any(speak_of(case, fact, *said) for fact in heavy)
    return suits or piece.how in ("elsewhere", "customer", "excluded") or spoken


RULES = (
    Rule(
        "work-twice", FAMILY, Level.STOPS, "The same work is decided once for the same ground.",
        "Weeding that is charged on one line and given away on the next is neither a price nor a gift.",
        "job: {beds: [{parts: {north: 40 ft2, south: rest}, bed_prep: [{decided: included, work: hand-weed,"
        " on: north},"
        " {decided: no-charge, work: hand-weed, on: south}]}]}",
        "job: {beds: [{bed_prep: [{decided: included, work: hand-weed}, {decided: no-charge, work:"
        " hand-weed}]}]}",
        _work_twice,
    ),
    Rule(
        "unseen", FAMILY, Level.WARNS, "What a decision rests on was said under 'found'.",
        "A recut is priced on an edge that is there, weeding on weeds that were seen. Where nothing was"
        " noted, the paper"
        " shows nothing that the price rests on, and more work than was seen has no change order to stand"
        " on.",
        "job: {beds: [{found: {edge: soft, weeds: light, ground: old mulch, ground_depth: 1 in}}]}",
        "job: {beds: [{found: {weeds: light, ground: old mulch, ground_depth: 1 in}}]}",
        _unseen, TRADE,
    ),
    Rule(
        "litter-unsaid", FAMILY, Level.STOPS, "Heavy leaves or trash are cleared by somebody, or named as"
        " left.",
        "Weeding leaves the leaves where they lie. The customer expects a clean bed, and the crew rakes it"
        " unpaid.",
        "job: {beds: [{found: {edge: soft, weeds: light, leaves: heavy, ground: old mulch, ground_depth: 1"
        " in},"
        " bed_prep: [{decided: included, work: hand-weed}, {decided: included, work: clear-leaves}]}]}",
        "job: {beds: [{found: {edge: soft, weeds: light, leaves: heavy, ground: old mulch, ground_depth: 1"
        " in}}]}",
        _litter_unsaid, TRADE,
    ),
    Rule(
        "photo-missing", FAMILY, Level.STOPS, "Every photo that a bed names is there.",
        "The paper prints the photos as the record of what was found. One that nobody can show proves"
        " nothing.",
        "job: {beds: [{photos: front-edge.jpg}]}", "job: {beds: [{photos: front-egde.jpg}]}", _photo_missing,
    ),
    Rule(
        "photo-unusable", FAMILY, Level.STOPS, "Every photo that a bed names can be printed.",
        "A file that is cut short, or is no picture, would leave a hole in the record of what was found."
        " JPEG, PNG and WebP are read.",
        "job: {beds: [{photos: {file: front-edge.jpg, shows: the edge at the walk}}]}",
        "job: {beds: [{photos: notes.jpg}]}", _photo_unusable,
    ),
    Rule(
        "too-many-photos", FAMILY, Level.STOPS, f"A bed takes {MOST_PHOTOS} photos at the most.",
        "Each of them takes a quarter of a page. A record that nobody looks through proves little, and a"
        " large file does not go by mail.",
        "job: {beds: [{photos: [front-edge.jpg, front-edge.jpg]}]}",
        f"job: {{beds: [{{photos: [{', '.join((MOST_PHOTOS + 1) * ['front-edge.jpg'])}]}}]}}",
        _too_many_photos, TRADE,
    ),
)  # fmt: skip
