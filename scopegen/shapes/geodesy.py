"""A ring of longitudes and latitudes, measured along geodesics of the WGS 84 ellipsoid."""

from __future__ import annotations

import math

from .kinds import MapRing

FOOT_IN_METRES = 0.3048  # exactly, by definition: NIST Handbook 44, appendix C (international foot)


def ring_points(ring: MapRing) -> tuple[tuple[float, float], ...]:
    """The points as floats, without the last one where it only repeats the first."""
    points = tuple((float(longitude), float(latitude)) for longitude, latitude in ring.points)
    return points[:-1] if len(points) > 1 and points[0] == points[-1] else points


def ring_area(ring: MapRing) -> float:
    """The geodesic area in ft2, whichever way the ring is walked."""
    longitudes, latitudes = zip(*ring_points(ring), strict=True)
    square_metres, _ = _wgs84().polygon_area_perimeter(longitudes, latitudes)
    return abs(square_metres) / FOOT_IN_METRES**2


def ring_sides(ring: MapRing) -> tuple[float, ...]:
    """The geodesic length of each side in ft; side k runs from point k to the next."""
    points = ring_points(ring)
    longitudes, latitudes = zip(*points, points[0], strict=True)
    return tuple(metres / FOOT_IN_METRES for metres in _wgs84().line_lengths(longitudes, latitudes))


def ring_corners(ring: MapRing) -> tuple[tuple[float, float], ...]:
    """The points laid flat, in ft east and north of the first: its distances and bearings are true.

    An azimuthal equidistant layout: over the length of a bed it is out by far less than a tape.
    """
    points = ring_points(ring)
    east, north = points[0]
    laid = []
    for longitude, latitude in points:
        bearing, _, metres = _wgs84().inv(east, north, longitude, latitude)
        feet, turn = metres / FOOT_IN_METRES, math.radians(bearing)
        laid.append((feet * math.sin(turn), feet * math.cos(turn)))
    return tuple(laid)


def ring_offset(first: MapRing, other: MapRing) -> tuple[float, float]:
    """Where the first point of another ring lies, in ft east and north of this one's."""
    (east, north), (there_east, there_north) = ring_points(first)[0], ring_points(other)[0]
    bearing, _, metres = _wgs84().inv(east, north, there_east, there_north)
    feet, turn = metres / FOOT_IN_METRES, math.radians(bearing)
    return feet * math.sin(turn), feet * math.cos(turn)


def _wgs84():
    from pyproj import Geod

    return Geod(ellps="WGS84")
