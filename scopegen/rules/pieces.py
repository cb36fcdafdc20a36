"""The parts of every sound decision, one by one, and how a fault points at one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import cast

from scopegen.answers import Answer
from scopegen.case import Case
from scopegen.chart import Material, Work
from scopegen.company import Company
from scopegen.findings import Place
from scopegen.job import DECISIONS, MaterialPart, Part
from scopegen.job.decisions import PRICED_WAYS
from scopegen.load import Path_
from scopegen.rules.decisions import SPOKEN, sound
from scopegen.rules.rule import Fault
from scopegen.words import lexicon

SURE_WAYS = ("included", "no-charge")  # done whatever the customer initials


@dataclass(frozen=True, slots=True)
class Piece:
    """One decided part: of a bed's decision, of a site decision, or of the extras ('extra')."""

    answer: Answer
    part: Part
    path: Path_

    @property
    def bed(self) -> int | None:
        """The bed's number; None for the site and the extras."""
        return self.answer.bed

    @property
    def decision(self) -> str:
        """What is decided."""
        return self.answer.decision

    @property
    def spoken(self) -> str:
        """What is decided, as a sentence calls it."""
        return SPOKEN[self.decision]

    @property
    def how(self) -> str:
        """How it is decided."""
        return str(self.part.how)

    @property
    def of_bed(self) -> bool:
        """It is one of the decisions that every bed raises."""
        return self.decision in DECISIONS

    @property
    def priced(self) -> bool:
        """It has a price: in the total, beside it, or given away."""
        return self.how in PRICED_WAYS

    @property
    def ours(self) -> bool:
        """We do it, or do it where the customer did not."""
        return self.priced or self.how == "customer" and self.part.if_not_done == "we do it"


def pieces(case: Case, *decisions: str) -> Iterator[Piece]:
    """Every decided part of these decisions, or of all; what is broken or open is left out."""
    return _asked(_by_bed(case)[_ALL], decisions)


def pieces_of(case: Case, bed: int | None, *decisions: str) -> Iterator[Piece]:
    """Of one bed, or of the site and the extras where bed is None: every decided part of these decisions."""
    return _asked(_by_bed(case).get(bed, []), decisions)


_ALL = -1


def _asked(some: list[Piece], decisions: tuple[str, ...]) -> Iterator[Piece]:
    return (piece for piece in some if not decisions or piece.decision in decisions)


def _by_bed(case: Case) -> dict[int | None, list[Piece]]:
    """All decided parts, and those of each bed: looked for once a case, since many rules ask bed by bed."""
    known: dict[int | None, list[Piece]] | None = case.once.get("pieces")
    if known is None:
        known = {_ALL: list(_decided(case))}
        for piece in known[_ALL]:
            known.setdefault(piece.bed, []).append(piece)
        case.once["pieces"] = known
    return known


def _decided(case: Case) -> Iterator[Piece]:
    for answer in (*case.answers, *_extras(case)):
        if sound(case, answer):
            for index, part in enumerate(answer.parts):
                if not part.open:
                    yield Piece(answer, part, answer.path_of(index))


def _extras(case: Case) -> Iterator[Answer]:
    for index, part in enumerate(case.job.extras):
        yield Answer(None, "extra", (part,), ("extras", index))


def work_of(case: Case, piece: Piece) -> Work | None:
    """The kind of work that a part names, where the chart has a sound one."""
    return case.chart.work.get(piece.part.work or "") if case.chart else None


def supplied(piece: Piece) -> bool:
    """Material that the customer has, and we spread."""
    return isinstance(piece.part, MaterialPart) and piece.part.supplied_by == "customer"


def visit_of(case: Case, piece: Piece) -> str:
    """The visit at which a part is done, as the part or its bed names it; nothing where neither does."""
    bed = case.job.beds[piece.bed] if piece.bed is not None else None
    return piece.part.visit or (bed and bed.visit) or ""


def unknown_work(case: Case, piece: Piece) -> bool:
    """A part names work that the chart lacks, or that is not sound there: what it would do is not known,
    and that it is not known is found already."""
    return bool(piece.part.work) and work_of(case, piece) is None


def material_of(case: Case, piece: Piece) -> Material | None:
    """The material that a part names, where the chart has a sound one."""
    if case.chart is None or piece.decision != "material":
        return None
    return case.chart.materials.get(cast(MaterialPart, piece.part).use or "")


def works_used(case: Case) -> dict[str, Work]:
    """The chart's kinds of work that this job does or may come to do, by key."""
    if case.chart is None:
        return {}
    keys = [piece.part.work for piece in pieces(case) if piece.ours and piece.decision != "material"]
    keys += [found.work for found in case.job.if_found]
    return {key: case.chart.work[key] for key in dict.fromkeys(keys) if key in case.chart.work}


def materials_used(case: Case) -> dict[str, Material]:
    """The chart's materials that this job spreads, by key."""
    if case.chart is None:
        return {}
    keys = [cast(MaterialPart, piece.part).use for piece in pieces(case, "material") if piece.priced]
    return {key: case.chart.materials[key] for key in dict.fromkeys(keys) if key in case.chart.materials}


def fault_at(case: Case, piece: Piece, message: str, fix: str, *keys: str) -> Fault:
    """A fault at a part, or at a key of it. The message names the bed, since what is inherited stands
    elsewhere."""
    place = case.place((*piece.path, *keys), key=not keys)
    return bed_fault(case, piece.bed, message, fix, place, piece.decision)


def bed_fault(
    case: Case, bed: int | None, message: str, fix: str, place: Place, decision: str | None = None
) -> Fault:
    """A fault of a bed, or of the site where bed is None; its message starts with the bed's name."""
    name = case.bed_name(bed)
    return Fault(f"{name}: {message}" if name else message, fix, place, name, decision)


def job_fault(case: Case, message: str, fix: str, *path: str | int, key: bool = False) -> Fault:
    """A fault of the job as a whole."""
    return Fault(message, fix, case.place(path, key=key))


def chart_fault(case: Case, message: str, fix: str, *path: str | int, key: bool = False) -> Fault:
    """A fault of the price chart."""
    return Fault(message, fix, case.chart_place(path, key=key))


def looked_for(case: Case, key: str) -> tuple[str, ...]:
    """The words by which the job's own texts are known to speak of something, in the job's language."""
    return (case.words or lexicon(Company.model_fields["language"].default)).looked_for(key)


def speak_of(case: Case, key: str, *texts: str | None) -> bool:
    """Whether one of the texts has one of those words."""
    return any(word in (text or "").lower() for text in texts for word in looked_for(case, key))
