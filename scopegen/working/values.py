"""What working out gives: sheets of steps, and how their figures are written."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from scopegen.quantities import show
from scopegen.quantities.units import FT3_PER_YD3, FT_PER_M, IN_PER_FT

IN_OVER_FT2_PER_YD3 = FT3_PER_YD3 * IN_PER_FT  # 324: square feet that a cubic yard covers an inch deep


@dataclass(frozen=True, slots=True)
class Sheet:
    """A heading and its steps, one a line."""

    title: str
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Figures:
    """How figures of a job are written: in feet, inches and yards, or in meters."""

    metric: bool

    def length(self, feet: Fraction | float, places: int = 3) -> str:
        """A length."""
        value = Fraction(feet)
        return f"{plain(value / FT_PER_M, places)} m" if self.metric else f"{plain(value, places)} ft"

    def area(self, ft2: Fraction | float, places: int = 3) -> str:
        """An area."""
        value = Fraction(ft2)
        return f"{plain(value / FT_PER_M**2, places)} m²" if self.metric else f"{plain(value, places)} ft²"

    def volume(self, yd3: Fraction) -> str:
        """A volume."""
        if self.metric:
            return f"{plain(yd3 * FT3_PER_YD3 / FT_PER_M**3, 4)} m³"
        return f"{plain(yd3, 4)} yd³"

    def depth(self, feet: Fraction) -> str:
        """A depth, in inches or millimeters."""
        if self.metric:
            return f"{plain(feet / FT_PER_M * 1000, 2)} mm"
        return f"{plain(feet * IN_PER_FT, 3)} in"

    @property
    def area_by_depth(self) -> int:
        """What area times depth is divided by to give the volume."""
        return 1000 if self.metric else IN_OVER_FT2_PER_YD3


def capital(text: str) -> str:
    """The text as it starts a line."""
    return text[:1].upper() + text[1:]


def plain(value: Fraction | float, places: int = 2) -> str:
    """A figure without needless zeros."""
    return show.grouped(Fraction(value), places)
