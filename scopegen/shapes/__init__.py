"""The geometry of one shape: area, outline, layout and working, from what was measured. No input or output.

Lengths are in feet, areas in ft2, volumes in ft3; exact fractions wherever the figures allow it.
`area`, `outline`, `sides`, `corners`, `working` and `united_area` take shapes that have no `faults`.
"""

from __future__ import annotations

from .areas import METHODS, area, fits, method
from .geodesy import ring_offset
from .impossible import Fault, faults
from .kinds import (
    Circle,
    Composed,
    Ellipse,
    HalfCircle,
    MapRing,
    Placed,
    Polygon,
    Quadrilateral,
    QuarterCircle,
    Rectangle,
    Ring,
    Shape,
    Spokes,
    StatedArea,
    StatedVolume,
    Strip,
    Trapezoid,
    TriangleByHeight,
    TriangleBySides,
    Widths,
)
from .layout import corners, drawn_sides
from .outlines import outline, sides
from .steps import working
from .union import area_outside, laid_over, placeable, shared_area, united_area, united_outline

__all__ = [
    "METHODS",
    "Circle",
    "Composed",
    "Ellipse",
    "Fault",
    "HalfCircle",
    "MapRing",
    "Placed",
    "Polygon",
    "Quadrilateral",
    "QuarterCircle",
    "Rectangle",
    "Ring",
    "Shape",
    "Spokes",
    "StatedArea",
    "StatedVolume",
    "Strip",
    "Trapezoid",
    "TriangleByHeight",
    "TriangleBySides",
    "Widths",
    "area",
    "area_outside",
    "corners",
    "drawn_sides",
    "faults",
    "fits",
    "method",
    "outline",
    "laid_over",
    "placeable",
    "ring_offset",
    "shared_area",
    "sides",
    "united_area",
    "united_outline",
    "working",
]
