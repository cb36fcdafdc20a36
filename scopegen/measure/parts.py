"""Parts of a bed: how much ground and edge each part of a decision, and of what was found, covers."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

from scopegen.answers import Answer
from scopegen.job import Bed, FoundPart, Part
from scopegen.load import Path_
from scopegen.measure.values import Ground, Share
from scopegen.quantities.show import area as show_area
from scopegen.quantities.show import run

Say = Callable[..., None]

# Areas of curved shapes are given by people to a tenth of a square foot, edges to a tenth of a foot.
SLACK = Fraction(1, 10)


def named_parts(bed: Bed, area: Fraction) -> dict[str, Fraction]:
    """The areas of a bed's named parts; the one called `rest` takes what is left."""
    known = {name: size for name, size in bed.parts.items() if size is not None}
    left = area - sum(known.values(), Fraction(0))
    return {name: left if size is None else size for name, size in bed.parts.items()}


def shares_of(
    answer: Answer, bed: Bed, area: Fraction, open_edge: Fraction | None, say: Say
) -> Iterator[Share]:
    """The shares of one decision. Parts without a limit cover the whole bed; limited ones must not
    exceed it, and where nothing else covers the bed, must not miss any of it."""
    edging = answer.decision == "edging"
    whole = open_edge if edging else area
    show = run if edging else show_area
    sizes = [
        _size(part, bed, area, edging, answer.path_of(i), say, answer.decision)
        for i, part in enumerate(answer.parts)
    ]
    if any(size is _UNKNOWN for size in sizes):
        return
    taken = _taken(answer.parts, sizes)
    rest = None if whole is None else whole - taken
    if whole is not None and rest is not None:
        _coverage(answer, sizes, whole, rest, show, say)
    for i, (part, size) in enumerate(zip(answer.parts, sizes, strict=True)):
        covered = whole if part.whole else rest if size is None else size
        if covered is None and not edging:
            continue
        share_area = area if edging else (covered or Fraction(0))
        length = covered if edging else open_edge
        yield Share(
            answer.bed or 0,
            answer.decision,
            part,
            answer.path_of(i),
            answer.inherited,
            max(share_area, Fraction(0)),
            length if length is None else max(length, Fraction(0)),
            part.on or "",
            part.whole,
        )


_UNKNOWN = Fraction(-1)


def _size(
    part: Part, bed: Bed, area: Fraction, edging: bool, path: Path_, say: Say, decision: str
) -> Fraction | None:
    """How much a limited part covers; None for `rest` and for a part without a limit."""
    if edging and part.said("area") or not edging and part.said("along"):
        key, right = ("area", "along") if edging else ("along", "area")
        say(
            "wrong-part",
            f"'{key}' does not measure a part of {'an edge' if edging else 'a bed'}",
            f"write '{right}: …' instead",
            (*path, key),
            decision,
        )
        return _UNKNOWN
    if part.on is not None:
        parts = named_parts(bed, area)
        if part.on not in parts:
            say(
                "unknown-part",
                f"the bed has no part named '{part.on}'",
                f"name one of its parts ({', '.join(parts)})"
                if parts
                else "name the bed's parts under 'parts', like {north: 300 ft2, south: rest}",
                (*path, "on"),
                decision,
            )
            return _UNKNOWN
        if not edging:
            return parts[part.on]
        if not part.said("along"):
            say(
                "wrong-part",
                f"how much edge the part '{part.on}' has is not known",
                "add 'along: …' with its length",
                (*path, "on"),
                decision,
            )
            return _UNKNOWN
    return part.along if edging else part.area


def _taken(parts: Sequence[Part], sizes: Sequence[Fraction | None]) -> Fraction:
    """What the limited parts cover together; a part named twice counts once."""
    by_name: dict[object, Fraction] = {}
    for i, (part, size) in enumerate(zip(parts, sizes, strict=True)):
        if size is not None and not part.whole:
            by_name[part.on or i] = size
    return sum(by_name.values(), Fraction(0))


def _coverage(
    answer: Answer,
    sizes: Sequence[Fraction | None],
    whole: Fraction,
    rest: Fraction,
    show: Callable[..., str],
    say: Say,
) -> None:
    rests = [
        i
        for i, (part, size) in enumerate(zip(answer.parts, sizes, strict=True))
        if not part.whole and size is None
    ]
    limited = any(not part.whole for part in answer.parts)
    where, what = (answer.path, answer.decision), "edge" if answer.decision == "edging" else "bed"
    if len(rests) > 1:
        say(
            "two-rests",
            "two parts take the rest",
            "let one part say 'rest', and measure the other",
            answer.path_of(rests[1]),
            where[1],
        )
    elif rest < -SLACK or (rests and rest <= 0):
        say(
            "parts-exceed-bed",
            f"the parts cover {show(whole - rest)}, but the {what} has only {show(whole)}",
            "make the measured parts smaller"
            if rests
            else f"make the parts add up to {show(whole)}, or say 'rest' for the last one",
            *where,
        )
    elif limited and not rests and rest > SLACK and not any(part.whole for part in answer.parts):
        say(
            "parts-miss-bed",
            f"nobody decided {answer.decision.replace('_', ' ')} for {show(rest)} of {show(whole)}",
            "add a part for the rest, with 'area: rest' or 'along: rest'",
            *where,
        )


def grounds_of(bed: Bed, area: Fraction, path: Path_, say: Say) -> tuple[Ground, ...]:
    """What was found, piece by piece; one entry without a limit beside limited ones is the rest."""
    parts = named_parts(bed, area)
    if parts and (
        sum(parts.values(), Fraction(0)) - area > SLACK or any(size <= 0 for size in parts.values())
    ):
        say(
            "parts-exceed-bed",
            f"the named parts cover more than the bed's {show_area(area)}",
            "check the areas under 'parts'",
            (*path, "parts"),
        )
    sized: list[tuple[FoundPart, Fraction | None]] = []
    for i, found in enumerate(bed.found):
        if found.on is not None and found.on not in parts:
            say(
                "unknown-part",
                f"the bed has no part named '{found.on}'",
                "name the bed's parts under 'parts', like {north: 300 ft2, south: rest}",
                (*path, "found", i, "on"),
            )
            return ()
        sized.append((found, parts[found.on] if found.on else found.area))
    known = sum((size for _, size in sized if size is not None), Fraction(0))
    rest = area - known
    if rest < -SLACK or sum(size is None for _, size in sized) > 1:
        say(
            "parts-exceed-bed",
            f"what was found covers more than the bed's {show_area(area)}",
            "let the areas under 'found' add up to the bed, with one 'area: rest' at the most",
            (*path, "found"),
        )
        return ()
    grounds = tuple(
        Ground(found, rest if size is None else size, (*path, "found", i), found.on or "")
        for i, (found, size) in enumerate(sized)
    )
    uncovered = rest > SLACK and all(size is not None for _, size in sized)
    return (*grounds, Ground(FoundPart(), rest, (*path, "found"))) if uncovered else grounds
