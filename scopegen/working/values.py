"""What working out gives: sheets of steps, and how their figures are written."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from scopegen.quantities import show
from scopegen.quantities.rounding import half_up
from scopegen.quantities.units import FT3_PER_YD3, FT_PER_M, IN_PER_FT, LB_PER_KG
from scopegen.words import Lexicon
from scopegen.working.sums import Figure, Number, Term, count

IN_OVER_FT2_PER_YD3 = FT3_PER_YD3 * IN_PER_FT  # 324: square feet that a cubic yard covers an inch deep
IN2_OVER_FT_PER_YD3 = IN_OVER_FT2_PER_YD3 * IN_PER_FT  # 3,888: feet of a square inch that make a cubic yard
YD3_PER_M3 = FT_PER_M**3 / FT3_PER_YD3


@dataclass(frozen=True, slots=True)
class Sheet:
    """A heading and its steps, one a line."""

    title: str
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Figures:
    """How figures of a job are written: in feet, inches, yards and pounds, or in meters and kilograms."""

    metric: bool

    def length(self, feet: Number) -> Figure:
        """A length."""
        return self._of(feet, 3, ("ft", Fraction(1)), ("m", FT_PER_M))

    def area(self, ft2: Number) -> Figure:
        """An area."""
        return self._of(ft2, 3, ("ft²", Fraction(1)), ("m²", FT_PER_M**2))

    def volume(self, yd3: Number) -> Figure:
        """A volume."""
        return self._of(yd3, 4, ("yd³", Fraction(1)), ("m³", YD3_PER_M3))

    def per_hour(self, yd3: Number) -> Figure:
        """A volume an hour."""
        return self._of(yd3, 4, ("yd³/h", Fraction(1)), ("m³/h", YD3_PER_M3))

    def depth(self, feet: Number) -> Figure:
        """A depth or a width, in inches or millimeters."""
        return self._of(feet, 3, ("in", Fraction(1, IN_PER_FT)), ("mm", FT_PER_M / 1000))

    def weight(self, pounds: Number) -> Figure:
        """A weight."""
        return self._of(pounds, 3, ("lb", Fraction(1)), ("kg", LB_PER_KG))

    def density(self, lb_per_yd3: Fraction) -> Figure:
        """The weight of a cubic yard, or of a cubic meter."""
        return self._of(lb_per_yd3, 3, ("lb", Fraction(1)), ("kg", LB_PER_KG / YD3_PER_M3))

    def _of(
        self, value: Number, places: int, us: tuple[str, Fraction], metric: tuple[str, Fraction]
    ) -> Figure:
        sign, size = metric if self.metric else us
        return count(Fraction(value) / size, places, sign)

    @property
    def area_by_depth(self) -> int:
        """What area times depth is divided by to give the volume."""
        return 1000 if self.metric else IN_OVER_FT2_PER_YD3

    @property
    def length_by_section(self) -> int:
        """What length times depth times width is divided by to give the volume."""
        return 1_000_000 if self.metric else IN2_OVER_FT_PER_YD3

    @property
    def length_by_width(self) -> int:
        """What a length times a width in inches or millimeters is divided by to give the area."""
        return 1000 if self.metric else IN_PER_FT


def money(words: Lexicon, amount: Fraction | Decimal) -> Figure:
    """An amount of money, to the cent; in a sum with more digits where it needs them."""

    def write(value: Fraction, places: int) -> str:
        rounded = half_up(value, Fraction(1, 10**places))
        return words.money(Decimal(int(rounded * 10**places)).scaleb(-places), all_digits=True)

    return Figure(Fraction(amount), 2, write)


def priced(words: Lexicon, amount: Decimal) -> Term:
    """A price or an amount in a sum."""
    return money(words, amount).term()


def capital(text: str) -> str:
    """The text as it starts a line."""
    return text[:1].upper() + text[1:]


def plain(value: Number, places: int = 2) -> str:
    """A figure without needless zeros."""
    return show.grouped(Fraction(value), places)
