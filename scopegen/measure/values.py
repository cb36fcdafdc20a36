"""What measuring gives: a bed's area and edge, the shares of its decisions, what is spread on it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from scopegen.job import FoundPart, Part
from scopegen.load import Path_


@dataclass(frozen=True, slots=True)
class Trouble:
    """What could not be measured, for a rule to report: which rule, what is wrong, what to do, where."""

    rule: str
    message: str
    fix: str
    path: Path_
    bed: int
    decision: str | None = None


@dataclass(frozen=True, slots=True)
class Share:
    """One part of a decision with the ground (ft2) and the open edge (ft, None where unknown) it covers."""

    bed: int
    decision: str
    part: Part
    path: Path_
    inherited: bool
    area: Fraction
    length: Fraction | None
    name: str = ""  # the named part of the bed, or nothing
    whole: bool = True

    @property
    def how(self) -> str | None:
        """How it is decided; None while open."""
        return self.part.how


@dataclass(frozen=True, slots=True)
class Ground:
    """What was found on a piece of a bed, and its area in ft2."""

    found: FoundPart
    area: Fraction
    path: Path_
    name: str = ""


@dataclass(frozen=True, slots=True)
class Spread:
    """Material laid on one piece of ground: the area that takes it (ft2), the depth added (ft), and its
    volume in yd3 with settling. `if_cleared` is the volume more that it takes if an add-on at this path
    clears the ground first, or cuts a new edge outside the one that was measured."""

    share: Share
    material: str
    area: Fraction
    depth: Fraction
    there: Fraction  # depth that lies there already and counts, ft
    volume: Fraction
    if_cleared: tuple[Path_, Fraction] | None = None


@dataclass(frozen=True, slots=True)
class BedMeasure:
    """A measured bed. Areas in ft2, lengths in ft; None where it could not be worked out."""

    index: int
    name: str
    gross: Fraction | None
    left_out: Fraction
    area: Fraction | None
    outline: Fraction | None
    against: Fraction
    open_edge: Fraction | None
    method: str
    shares: tuple[Share, ...] = ()
    grounds: tuple[Ground, ...] = ()
    spreads: tuple[Spread, ...] = ()
    troubles: tuple[Trouble, ...] = ()
    stated: Fraction | None = None  # yd3 of a bed that was told by its volume, and has no area
    grown: Fraction = Fraction(0)  # ft2 that a new edge adds to a bed that was measured to the old one

    def of(self, decision: str) -> tuple[Share, ...]:
        """The shares of one decision."""
        return tuple(share for share in self.shares if share.decision == decision)


@dataclass(frozen=True)
class Measured:
    """Every bed of a job, measured."""

    beds: tuple[BedMeasure, ...]

    @cached_property
    def shares(self) -> tuple[Share, ...]:
        """The shares of every bed."""
        return tuple(share for bed in self.beds for share in bed.shares)

    @cached_property
    def spreads(self) -> tuple[Spread, ...]:
        """All that is spread."""
        return tuple(spread for bed in self.beds for spread in bed.spreads)

    @cached_property
    def troubles(self) -> tuple[Trouble, ...]:
        """All that could not be measured."""
        return tuple(trouble for bed in self.beds for trouble in bed.troubles)
