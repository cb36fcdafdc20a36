"""Methods and workings: complete for every shape, and a pencil can follow them."""

import math
import subprocess
import sys
from fractions import Fraction as F
from typing import get_args

import pytest

from scopegen.shapes import (
    METHODS,
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
    area,
    method,
    working,
)

ACROSS = tuple(F(width) for width in (0, 15, 10, 15, 25, 20, 0))
OFFSETS = [("every", 10), *(("width", width) for width in ACROSS)]
YARD = MapRing(((-93.62, 41.6), (-93.6199, 41.6), (-93.6199, 41.6001), (-93.62, 41.6001)))

WORKINGS = [
    (Rectangle(F(32), F(9, 2)), "rectangle", [("length", 32), ("width", F(9, 2)), ("area", 144)]),
    (Strip(F(40), F(2)), "strip", [("length", 40), ("width", 2), ("area", 80)]),
    (
        TriangleBySides(F(13), F(14), F(15)),
        "heron",
        [("a", 13), ("b", 14), ("c", 15), ("half the outline", 21), ("area", 84)],
    ),
    (TriangleByHeight(F(10), F(20)), "base and height", [("base", 10), ("height", 20), ("area", 100)]),
    (
        Quadrilateral(F(3), F(4), F(12), F(13), F(5)),
        "two triangles",
        [
            *(("a", 3), ("b", 4), ("c", 12), ("d", 13), ("diagonal", 5)),
            *(("first triangle", 6), ("second triangle", 30), ("area", 36)),
        ],
    ),
    (Trapezoid(F(90), F(60), F(80)), "trapezoid", [("a", 90), ("b", 60), ("apart", 80), ("area", 6000)]),
    (Circle(F(2)), "circle", [("diameter", 2), ("area", math.pi)]),
    (HalfCircle(F(2)), "half circle", [("diameter", 2), ("area", math.pi / 2)]),
    (QuarterCircle(F(2)), "quarter circle", [("radius", 2), ("area", math.pi)]),
    (Ring(F(6), F(2)), "ring", [("outer", 6), ("inner", 2), ("area", 8 * math.pi)]),
    (Ellipse(F(4), F(3)), "ellipse", [("length", 4), ("width", 3), ("area", 3 * math.pi)]),
    (
        Polygon(((F(1), F(1)), (F(1), F(4)), (F(5), F(1)))),  # walked clockwise
        "corners",
        [("x", 1), ("y", 1), ("x", 1), ("y", 4), ("x", 5), ("y", 1), ("twice the area", 12), ("area", 6)],
    ),
    (
        Widths(F(10), ACROSS),
        "trapezoid rule",
        [*OFFSETS, ("half the first and last", 0), ("those between", 85), ("area", 850)],
    ),
    (
        Widths(F(10), ACROSS, "simpson"),
        "simpson",
        [
            *OFFSETS,
            ("first and last", 0),
            ("four times every second", 200),
            ("twice the others", 70),
            ("area", 900),
        ],
    ),
    (
        Widths(F(10), ACROSS, "average"),
        "average width",
        [*OFFSETS, ("average width", F(85, 7)), ("length", 60), ("area", F(5100, 7))],
    ),
    (
        Spokes((F(1), F(2), F(3))),
        "average radius",
        [("spoke", 1), ("spoke", 2), ("spoke", 3), ("average radius", 2), ("area", 4 * math.pi)],
    ),
    (YARD, "geodesic", [("points", 4), ("area", area(YARD))]),
    (StatedArea(F(250)), "stated area", [("area", 250)]),
    (StatedVolume(F(54)), "stated volume", [("volume", 54)]),
    (
        Composed((Placed(Rectangle(F(10), F(4))), Placed(StatedArea(F(12))))),
        "sum of parts",
        [("part", 40), ("part", 12), ("area", 52)],
    ),
    (
        # Two 10 x 4 beds that cross square: 80 less the 4 x 4 that they share, by hand.
        Composed(
            (Placed(Rectangle(F(10), F(4)), (F(0), F(3))), Placed(Rectangle(F(4), F(10)), (F(3), F(0))))
        ),
        "united parts",
        [("part", 40), ("part", 40), ("area", 64)],
    ),
]


@pytest.mark.parametrize(("shape", "key", "steps"), WORKINGS, ids=[key for _, key, _ in WORKINGS])
def test_method_and_working(shape, key, steps):
    assert method(shape) == key
    found = working(shape)
    assert [name for name, _ in found] == [name for name, _ in steps]
    assert [value for _, value in found] == pytest.approx([value for _, value in steps], rel=1e-15)


def test_uneven_ends_are_halved():
    """Offsets 19.4, 39.6, 54.8 at 25 apart: half of 74.2, and 39.6 between (computed)."""
    steps = dict(working(Widths(F(25), (F("19.4"), F("39.6"), F("54.8")))))
    assert steps["half the first and last"] == F("37.1")
    assert steps["those between"] == F("39.6")
    assert steps["area"] == 25 * (F("37.1") + F("39.6"))


def test_simpsons_sums_as_printed():
    """7.45, 92.4 and 38.5: "Calculation of Areas from offsets to a Base line", sensecentral.com."""
    across = tuple(map(F, ("3.15", "4.3", "8.2", "5.6", "6.85", "7.6", "4.2", "5.6", "4.3")))
    steps = dict(working(Widths(F(10), across, "simpson")))
    sums = [steps[name] for name in ("first and last", "four times every second", "twice the others")]
    assert sums == [F("7.45"), F("92.4"), F("38.5")]


def test_every_shape_and_every_method_is_shown():
    assert {type(shape) for shape, _, _ in WORKINGS} == set(get_args(Shape))
    assert sorted(key for _, key, _ in WORKINGS) == sorted(METHODS)


def test_shapely_and_pyproj_wait_until_they_are_needed():
    """A program that asks for no map and no union starts without them."""
    program = (
        "import sys; from fractions import Fraction as F; import scopegen.shapes as s;"
        "beds = s.Widths(F(5), (F(0), F(4), F(0))), s.Polygon(((F(0), F(0)), (F(9), F(0)), (F(0), F(4))));"
        "[(s.area(bed), s.outline(bed), s.faults(bed), s.corners(bed)) for bed in beds];"
        "list(s.laid_over([]));"
        "heavy = ('shapely', 'pyproj', 'numpy', 'pydantic', 'ruamel');"
        "print([name for name in heavy if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"
