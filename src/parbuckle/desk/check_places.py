"""Places with published answers: geodesics, grids, the local map, and what sank through a stream."""

from __future__ import annotations

import math

from parbuckle.physics.constants import G
from parbuckle.physics.drag import terminal_speed
from parbuckle.quantity.errors import RangeError
from parbuckle.search.datum import Datum, direct, inverse
from parbuckle.search.grid_reference import Utm, from_mgrs, from_utm, mgrs_of, utm_of
from parbuckle.search.sinking import drift, fall_speed

_WATER, _STREAM, _DEPTH = 1025.0, 0.257222, 20.0  # kg/m3, m/s, m
_PLATE = 1.2  # drag coefficient of the published row


def geodesic(start: list[float], end: list[float], ellipsoid: str, what: str) -> float:
    """Give the way between two places.

    Parameters
    ----------
    start, end : list of float
        Latitude and longitude, each as degrees or as degrees, minutes and seconds in a row of two or six numbers.
    ellipsoid : str
        ``WGS84`` or ``GRS80``.
    what : str
        ``distance``, m; ``bearing`` at the start, ``onward`` at the end or ``back`` from the end, rad.

    Returns
    -------
    float
        What was asked.
    """
    distance, bearing, onward = inverse(*_degrees(start), *_degrees(end), ellipsoid)
    back = (float(onward) + math.pi) % (2.0 * math.pi)
    return {"distance": float(distance), "bearing": float(bearing), "onward": float(onward), "back": back}[what]


def place_at(start: list[float], bearing: float, distance: float, what: str) -> float:
    """Give the place at a bearing and a distance.

    Parameters
    ----------
    start : list of float
        Latitude and longitude, deg.
    bearing : float
        rad true.
    distance : float
        m.
    what : str
        ``lat`` or ``lon``, deg; ``onward``, rad.

    Returns
    -------
    float
        What was asked.
    """
    lat, lon, onward = direct(start[0], start[1], bearing, distance)
    return {"lat": float(lat), "lon": float(lon), "onward": float(onward)}[what]


def on_grid(place: list[float], ellipsoid: str, what: str, zone: float | None = None) -> float:
    """Give a UTM coordinate.

    Parameters
    ----------
    place : list of float
        Latitude and longitude, as in ``geodesic``.
    ellipsoid : str
        ``WGS84`` or ``GRS80``.
    what : str
        ``east``, ``north`` or ``zone``.
    zone : float or None
        Zone of the map; None: that of the place.

    Returns
    -------
    float
        m, or the number of the zone.
    """
    return float(getattr(utm_of(*_degrees(place), ellipsoid, None if zone is None else int(zone)), what))


def off_grid(zone: float, east: float, north: float, what: str) -> float:
    """Give the latitude or the longitude of a UTM place north of the equator.

    Parameters
    ----------
    zone : float
        Number of the zone.
    east, north : float
        m.
    what : str
        ``lat`` or ``lon``.

    Returns
    -------
    float
        deg.
    """
    lat, lon = from_utm(Utm(int(zone), False, east, north))
    return lat if what == "lat" else lon


def reference(text: str, what: str) -> float:
    """Read a military grid reference.

    Parameters
    ----------
    text : str
        The reference.
    what : str
        ``east``, ``north``, m; ``lat`` or ``lon`` of the corner, deg.

    Returns
    -------
    float
        What was asked.
    """
    place = from_mgrs(text)
    if what in ("east", "north"):
        return float(getattr(place, what))
    lat, lon = from_utm(place)
    return lat if what == "lat" else lon


def reference_digits(place: list[float], square: str, what: str) -> float:
    """Write a military grid reference and give its digits.

    Parameters
    ----------
    place : list of float
        Latitude and longitude, as in ``geodesic``.
    square : str
        Zone, band and square that it must lie in.
    what : str
        ``east`` or ``north``.

    Returns
    -------
    float
        m inside the square.
    """
    zone, letters, east, north = mgrs_of(*_degrees(place)).split()
    if f"{zone} {letters}" != square:
        raise RangeError(f"grid reference: {zone} {letters} where {square} is published")
    return float(east if what == "east" else north)


def local(lat: float, lon: float, what: str) -> float:
    """Give metres from a datum at 50 N 5 W.

    Parameters
    ----------
    lat, lon : float
        deg.
    what : str
        ``east`` or ``north``.

    Returns
    -------
    float
        m.
    """
    east, north = Datum(50.0, -5.0).to_local(lat, lon)
    return float(east if what == "east" else north)


def sphere_falls(diameter: float, density: float, what: str) -> float:
    """Let a sphere sink through 20 m of sea water with a stream of 0.5 kn.

    Parameters
    ----------
    diameter : float
        m.
    density : float
        Of the sphere, kg/m3.
    what : str
        ``speed``, m/s; ``time``, s; or ``drift``, m.

    Returns
    -------
    float
        What was asked.
    """
    force = math.pi / 6.0 * diameter**3 * (density - _WATER) * G
    return _fall(float(fall_speed(force, 0.25 * math.pi * diameter**2, _WATER, "sphere")), what)


def plate_falls(long: float, wide: float, thick: float, density: float, what: str) -> float:
    """Let a flat plate sink through 20 m of sea water with a stream of 0.5 kn.

    Parameters
    ----------
    long, wide, thick : float
        m.
    density : float
        Of the plate, kg/m3.
    what : str
        ``speed``, m/s; ``time``, s; or ``drift``, m.

    Returns
    -------
    float
        What was asked.
    """
    force = long * wide * thick * (density - _WATER) * G
    return _fall(float(terminal_speed(force, _PLATE * long * wide, _WATER)), what)


def _fall(speed: float, what: str) -> float:
    return {"speed": speed, "time": _DEPTH / speed, "drift": float(drift(_DEPTH, speed, _STREAM))}[what]


def _degrees(place: list[float]) -> tuple[float, float]:
    """Two numbers are degrees; six are degrees, minutes and seconds, the sign on the degrees."""
    if len(place) == len(("lat", "lon")):
        return place[0], place[1]
    lat, lon = place[:3], place[3:]
    both = [math.copysign(abs(d) + m / 60.0 + s / 3600.0, d) for d, m, s in (lat, lon)]
    return both[0], both[1]
