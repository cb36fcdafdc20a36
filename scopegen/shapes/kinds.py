"""The shapes that a bed is measured as: what tape, wheel or map gave, with nothing worked out.

Lengths are exact fractions of a foot, areas of a square foot, volumes of a cubic foot.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

WidthsRule = Literal["trapezoid", "simpson", "average"]


@dataclass(frozen=True, slots=True)
class Rectangle:
    """Front and back are `length` ft long, left and right `width` ft."""

    length: Fraction
    width: Fraction


@dataclass(frozen=True, slots=True)
class Strip:
    """A long narrow bed: `length` and `width` in ft."""

    length: Fraction
    width: Fraction


@dataclass(frozen=True, slots=True)
class TriangleBySides:
    """Three taped sides in ft."""

    a: Fraction
    b: Fraction
    c: Fraction


@dataclass(frozen=True, slots=True)
class TriangleByHeight:
    """A taped base and the height square to it, in ft. The other two sides were not measured."""

    base: Fraction
    height: Fraction


@dataclass(frozen=True, slots=True)
class Quadrilateral:
    """Four taped sides in the order walked, in ft, and the diagonal inside that parts a, b from c, d.

    The diagonal runs from where a starts to where b ends.
    """

    a: Fraction
    b: Fraction
    c: Fraction
    d: Fraction
    diagonal: Fraction


@dataclass(frozen=True, slots=True)
class Trapezoid:
    """Two parallel sides a and b, and how far `apart` they are, square to them, in ft."""

    a: Fraction
    b: Fraction
    apart: Fraction


@dataclass(frozen=True, slots=True)
class Circle:
    """A round bed, `diameter` in ft."""

    diameter: Fraction


@dataclass(frozen=True, slots=True)
class HalfCircle:
    """Half of a round bed; its straight side is the `diameter`, in ft."""

    diameter: Fraction


@dataclass(frozen=True, slots=True)
class QuarterCircle:
    """A quarter of a round bed between two straight sides of one `radius` each, in ft."""

    radius: Fraction


@dataclass(frozen=True, slots=True)
class Ring:
    """A tree ring: `outer` diameter and the `inner` one of the clearing round the trunk, in ft."""

    outer: Fraction
    inner: Fraction


@dataclass(frozen=True, slots=True)
class Ellipse:
    """An oval by its two axes, `length` and `width`, in ft."""

    length: Fraction
    width: Fraction


@dataclass(frozen=True, slots=True)
class Polygon:
    """Corners (x, y) in ft, in the order in which they are met walking round the bed."""

    corners: tuple[tuple[Fraction, Fraction], ...]


@dataclass(frozen=True, slots=True)
class Widths:
    """Widths `across`, square to a straight baseline, one `every` so many ft from its start to its end."""

    every: Fraction
    across: tuple[Fraction, ...]
    rule: WidthsRule = "trapezoid"


@dataclass(frozen=True, slots=True)
class Spokes:
    """Distances in ft from a center to the edge, at equal angles all round."""

    lengths: tuple[Fraction, ...]


@dataclass(frozen=True, slots=True)
class MapRing:
    """Points (longitude, latitude) in degrees on WGS 84, in the order walked.

    A ring whose last point repeats its first, as GeoJSON asks for (RFC 7946, 3.1.6), is the same ring.
    """

    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class StatedArea:
    """An `area` in ft2 that somebody stated; its outline is not known."""

    area: Fraction


@dataclass(frozen=True, slots=True)
class StatedVolume:
    """A `volume` in ft3 told by eye; neither area nor outline is known."""

    volume: Fraction


@dataclass(frozen=True, slots=True)
class Placed:
    """One part of a composed shape. `at` is where the origin of its layout lies, in ft, None where that is
    not known; `turned` its turn about it, in degrees counterclockwise."""

    shape: Shape
    at: tuple[Fraction, Fraction] | None = None
    turned: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Composed:
    """Several shapes that are one bed. Where all places are known, what overlaps counts once."""

    parts: tuple[Placed, ...]

    @property
    def positioned(self) -> bool:
        """The place of every part is known."""
        return all(part.at is not None for part in self.parts)


Shape = (
    Rectangle
    | Strip
    | TriangleBySides
    | TriangleByHeight
    | Quadrilateral
    | Trapezoid
    | Circle
    | HalfCircle
    | QuarterCircle
    | Ring
    | Ellipse
    | Polygon
    | Widths
    | Spokes
    | MapRing
    | StatedArea
    | StatedVolume
    | Composed
)
