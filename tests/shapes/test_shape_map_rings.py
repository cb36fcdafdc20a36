"""Map rings, against published geodesic figures, radii of curvature and an equal-area projection."""

import math

import pyproj
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from scopegen.shapes import MapRing, area, corners, drawn_sides, outline, sides

METRES = 0.3048  # in a foot, exactly: NIST Handbook 44, appendix C
A, F = 6_378_137, 1 / 298.257223563  # WGS 84: NGA.STND.0036, World Geodetic System 1984 (from memory)

# GeographicLib's documentation by C. Karney, "Measuring areas": latitudes and longitudes of Antarctica,
# 16,831,067.893 m round and 13,662,703,680,020.1 m2.
ANTARCTICA = [
    (-63.1, -58),
    (-72.9, -74),
    (-71.9, -102),
    (-74.9, -102),
    (-74.3, -131),
    (-77.5, -163),
    (-77.4, 163),
    (-71.7, 172),
    (-65.9, 140),
    (-65.7, 113),
    (-66.6, 88),
    (-66.9, 59),
    (-69.8, 25),
    (-70.0, -4),
    (-71.0, -14),
    (-77.3, -33),
    (-77.9, -46),
    (-74.7, -61),
]


def test_antarctica_as_published():
    ring = MapRing(tuple((longitude, latitude) for latitude, longitude in ANTARCTICA))
    assert area(ring) * METRES**2 == pytest.approx(13_662_703_680_020.1, abs=1)
    assert outline(ring) * METRES == pytest.approx(16_831_067.893, abs=1e-3)


def test_an_eighth_of_the_earth():
    """From the equator to the pole over a quarter turn: an eighth of the sphere of equal surface.

    Its radius is 6,371,007.1809 m: NIMA TR8350.2, derived constants of WGS 84 (from memory).
    """
    octant = MapRing(((0, 0), (90, 0), (0, 90)))
    assert area(octant) * METRES**2 == pytest.approx(math.pi * 6_371_007.1809**2 / 2, rel=1e-10)


def degrees_at(latitude, east_ft, north_ft):
    """A step in feet as degrees of longitude and latitude, by the radii of curvature (geodesy textbooks)."""
    e2 = F * (2 - F)
    w = math.sqrt(1 - e2 * math.sin(math.radians(latitude)) ** 2)
    along_meridian, across = A * (1 - e2) / w**3, A / w
    east = east_ft * METRES / (across * math.cos(math.radians(latitude)))
    return math.degrees(east), math.degrees(north_ft * METRES / along_meridian)


def box(longitude, latitude, east_ft, north_ft):
    """A box of so many feet, centered on its latitude."""
    east, north = degrees_at(latitude, east_ft, north_ft)
    low, high = latitude - north / 2, latitude + north / 2
    right = (longitude + east + 180) % 360 - 180
    return MapRing(((longitude, low), (right, low), (right, high), (longitude, high)))


@pytest.mark.parametrize("latitude", [0, 21.3, 41.6, -33.9, 64.8])
def test_box_of_100_by_60_ft_is_6000_ft2(latitude):
    yard = box(-93.62, latitude, 100, 60)
    assert area(yard) == pytest.approx(6000, rel=1e-6)
    assert list(sides(yard)) == ["1", "2", "3", "4"]
    assert list(sides(yard).values()) == pytest.approx([100, 60, 100, 60], rel=1e-5)
    assert outline(yard) == pytest.approx(320, rel=1e-6)


def test_layout_has_the_first_point_at_the_origin_and_north_up():
    laid = corners(box(-93.62, 41.6, 100, 60))
    assert [coordinate for corner in laid for coordinate in corner] == pytest.approx(
        [0, 0, 100, 0, 100, 60, 0, 60], abs=2e-3
    )
    assert [name for name, _ in drawn_sides(box(-93.62, 41.6, 100, 60))] == ["1", "2", "3", "4"]


def test_ring_over_the_date_line_is_one_ring():
    """The same box on either side of longitude 180 and across it."""
    across = box(179.9999, -16.8, 100, 60)
    assert across.points[0][0] > 0 > across.points[1][0]
    assert area(across) == pytest.approx(6000, rel=1e-6)
    assert corners(across)[2] == pytest.approx((100, 60), abs=2e-3)


def test_closed_ring_is_the_same_ring():
    """GeoJSON repeats the first point at the end: RFC 7946, section 3.1.6."""
    yard = box(-93.62, 41.6, 100, 60)
    closed = MapRing((*yard.points, yard.points[0]))
    assert area(closed) == area(yard)
    assert dict(sides(closed)) == dict(sides(yard))
    assert corners(closed) == corners(yard)


radii = st.lists(st.floats(5, 300), min_size=3, max_size=9)


@given(st.floats(-179, 179), st.floats(-75, 75), radii)
def test_geodesic_area_is_the_area_on_an_equal_area_map(longitude, latitude, reaches):
    """A bed's area on the globe is its area on an equal-area map of the place, and on its own drawing; a
    degree as a float is good to a few thousandths of a square foot on the smallest."""
    turns = [2 * math.pi * k / len(reaches) for k in range(len(reaches))]
    steps = [
        degrees_at(latitude, r * math.cos(t), r * math.sin(t)) for r, t in zip(reaches, turns, strict=True)
    ]
    ring = MapRing(tuple((longitude + east, latitude + north) for east, north in steps))
    project = pyproj.Proj(proj="laea", lon_0=longitude, lat_0=latitude, ellps="WGS84")
    mapped = shapely.Polygon([project(*point) for point in ring.points])
    assert area(ring) == pytest.approx(mapped.area / METRES**2, rel=1e-5, abs=2e-3)
    assert area(ring) == pytest.approx(shapely.Polygon(corners(ring)).area, rel=1e-5, abs=2e-3)
    assert area(MapRing(ring.points[::-1])) == pytest.approx(area(ring), rel=1e-9)
