"""What choosing clauses gives: the sentences of one agreement."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from scopegen.clauses.in_force import Wording
from scopegen.load import Path_


@dataclass(frozen=True, slots=True)
class Said:
    """What the agreement says of one decision that some beds share: the clause's text, then what follows
    from it (the day passing, the price of asking later, the gift that stays one)."""

    decision: str
    how: str
    clause: str
    version: str
    title: str
    beds: tuple[int, ...]  # empty for the site and for work beside the beds
    text: str
    follows: tuple[str, ...] = ()
    note: str = ""
    work: str = ""
    who: str = ""
    declined: bool = False
    path: Path_ = ()
    why: str = ""
    values: Mapping[str, str] = field(default_factory=dict, compare=False)  # what its blanks were filled with

    @property
    def whole_text(self) -> str:
        """All its sentences in one paragraph."""
        return " ".join(filter(None, (self.text, *self.follows, self.note)))


@dataclass(frozen=True, slots=True)
class Term:
    """A term or a caution, with its title."""

    clause: str
    version: str
    title: str
    text: str
    why: str = ""


@dataclass(frozen=True, slots=True)
class ClauseTrouble:
    """A decision for which the library has no wording, or a text that cannot be filled."""

    rule: str
    message: str
    fix: str
    path: Path_
    bed: int | None = None
    decision: str | None = None
    at: tuple[str, Wording] | None = None  # the clause and its text, where that is to be mended


@dataclass(frozen=True, slots=True)
class Used:
    """A text that the agreement prints, as its clause has it."""

    clause: str
    title: str  # in the paper's language
    way: str
    wording: Wording


@dataclass(frozen=True, slots=True)
class Chosen:
    """All wording of one agreement."""

    said: tuple[Said, ...]
    terms: tuple[Term, ...]
    cautions: tuple[Term, ...]
    absent: tuple[tuple[str, tuple[str, ...]], ...]  # decision -> known work that this job lacks
    sentences: dict[str, str]  # sentences that stand alone, by the name of their outcome clause
    troubles: tuple[ClauseTrouble, ...] = ()
    texts: tuple[Used, ...] = ()

    def of(self, *ways: str) -> tuple[Said, ...]:
        """What was decided in one of these ways."""
        return tuple(said for said in self.said if said.how in ways)
