"""Places on the UTM grid and as military grid references."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from parbuckle.physics.ranges import Range
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Frozen
from parbuckle.search.datum import LONGITUDE

UTM_LATITUDE = Range("latitude of a UTM place", -80.0, 84.0, "deg", "definition of UTM")
"""Where the grid is defined."""

ZONE = Range("UTM zone", 1.0, 60.0, "", "definition of UTM")
"""Zones of the grid."""

_BANDS = "CDEFGHJKLMNPQRSTUVWX"
_COLUMNS = ("STUVWXYZ", "ABCDEFGH", "JKLMNPQR")
_ROWS = "ABCDEFGHJKLMNPQRSTUV"
_SQUARE, _CYCLE, _FALSE_NORTH = 100_000.0, 2_000_000.0, 10_000_000.0
_REFERENCE = re.compile(r"(\d{1,2})([C-HJ-NP-X])\s*([A-HJ-NP-Z])([A-HJ-NP-V])\s*(?:(\d{1,5})\s+(\d{1,5})|(\d{2,10}))")


@dataclass(frozen=True)
class Utm(Frozen):
    """One place on the UTM grid.

    Parameters
    ----------
    zone : int
        1 to 60.
    south : bool
        True south of the equator.
    east : float
        Easting, m.
    north : float
        Northing, m.
    """

    zone: int
    south: bool
    east: float
    north: float


def utm_of(lat: float, lon: float, ellipsoid: str = "WGS84", zone: int | None = None) -> Utm:
    """Give the place on the UTM grid.

    Parameters
    ----------
    lat : float
        Latitude, deg.
    lon : float
        Longitude, deg.
    ellipsoid : str
        ``WGS84`` or ``GRS80``.
    zone : int, optional
        Zone of a map that reaches beyond its edge; left out: that of the longitude, with the wider zones off Norway and
        Svalbard.

    Returns
    -------
    Utm
        On the grid.

    Raises
    ------
    RangeError
        For a latitude outside -80 to 84 deg, or a zone that is none.

    Notes
    -----
    Source: transverse Mercator through pyproj; zones by the definition of UTM.

    Examples
    --------
    >>> place = utm_of(13.4125, 103.8666667)
    >>> place.zone, round(place.east), round(place.north)
    (48, 377299, 1483035)
    """
    own = _zone(float(UTM_LATITUDE.check(lat)), float(LONGITUDE.check(lon)))
    number = own if zone is None else int(ZONE.check(zone))
    east, north = _projection(number, lat < 0.0, ellipsoid)(lon, lat)
    if lat < 0.0 and north >= _FALSE_NORTH:  # on the equator, to rounding
        return Utm(number, False, float(east), float(north) - _FALSE_NORTH)
    return Utm(number, lat < 0.0, float(east), float(north))


def from_utm(place: Utm, ellipsoid: str = "WGS84") -> tuple[float, float]:
    """Give latitude and longitude; undoes ``utm_of``.

    Parameters
    ----------
    place : Utm
        On the grid.
    ellipsoid : str
        ``WGS84`` or ``GRS80``.

    Returns
    -------
    tuple[float, float]
        Latitude and longitude, deg.

    Raises
    ------
    RangeError
        For a zone that is none, or a place off the grid.

    Examples
    --------
    >>> [round(x, 4) for x in from_utm(Utm(48, False, 377298.745, 1483034.794))]
    [13.4125, 103.8667]
    """
    ZONE.check(place.zone)
    lon, lat = _projection(place.zone, place.south, ellipsoid)(place.east, place.north, inverse=True)
    if not (math.isfinite(lat) and math.isfinite(lon)):
        raise RangeError(f"UTM: {place.east:g} m east, {place.north:g} m north is no place of zone {place.zone}")
    return float(UTM_LATITUDE.check(lat)), float(lon)


def mgrs_of(lat: float, lon: float) -> str:
    """Write a place as a military grid reference; digits are cut, not rounded.

    Parameters
    ----------
    lat : float
        Latitude, deg.
    lon : float
        Longitude, deg.

    Returns
    -------
    str
        To one metre, such as ``31U DQ 48251 11932``.

    Raises
    ------
    RangeError
        For a latitude outside -80 to 84 deg.

    Notes
    -----
    Source: definition of the military grid (WGS 84 lettering).

    Examples
    --------
    >>> mgrs_of(51.0 + 28.0 / 60.0 + 40.37 / 3600.0, -5.29 / 3600.0)
    '30U YC 08215 07233'
    """
    place = utm_of(lat, lon)
    column = _COLUMNS[place.zone % 3][int(place.east // _SQUARE) - 1]
    row = _ROWS[int(place.north % _CYCLE // _SQUARE + (5 if place.zone % 2 == 0 else 0)) % len(_ROWS)]
    east, north = int(place.east % _SQUARE), int(place.north % _SQUARE)
    return f"{place.zone}{_band(lat)} {column}{row} {east:05d} {north:05d}"


def from_mgrs(text: str) -> Utm:
    """Read a military grid reference: the south-west corner of its square.

    Parameters
    ----------
    text : str
        Such as ``31U DQ 48251 11932``, blanks optional.

    Returns
    -------
    Utm
        On the grid.

    Raises
    ------
    RangeError
        If it is not written so, or such a square does not exist.

    Notes
    -----
    Source: definition of the military grid (WGS 84 lettering).

    Examples
    --------
    >>> from_mgrs("31U DQ 48251 11932")
    Utm(zone=31, south=False, east=448251.0, north=5411932.0)
    """
    match = _REFERENCE.fullmatch(text.strip().upper())
    digits = "" if match is None else (match[7] or match[5] + match[6])
    odd = len(digits) % 2 or (match is not None and match[5] is not None and len(match[5]) != len(match[6]))
    if match is None or odd or not 0 < int(match[1]) <= ZONE.high or match[3] not in _COLUMNS[int(match[1]) % 3]:
        raise RangeError(f"grid reference: given {text!r}; write it such as '31U DQ 48251 11932'")
    zone, half = int(match[1]), len(digits) // 2
    east = (_COLUMNS[zone % 3].index(match[3]) + 1) * _SQUARE + int(digits[:half]) * 10.0 ** (5 - half)
    row = (_ROWS.index(match[4]) - (5 if zone % 2 == 0 else 0)) % len(_ROWS)
    part = row * _SQUARE + int(digits[half:]) * 10.0 ** (5 - half)
    south = match[2] < "N"
    for turn in range(int(_FALSE_NORTH / _CYCLE) + 1):
        place = Utm(zone, south, east, part + turn * _CYCLE)
        if place.north < _FALSE_NORTH and _touches(place, 10.0 ** (5 - half), match[2]):
            return place
    raise RangeError(f"grid reference: {text!r} names a square that does not lie in band {match[2]}")


def _touches(place: Utm, side: float, band: str) -> bool:
    """Tell whether the lower or the upper edge of the square lies in the band."""
    to_globe = _projection(place.zone, place.south, "WGS84")
    lats = [float(to_globe(place.east, north, inverse=True)[1]) for north in (place.north, place.north + side)]
    return any(UTM_LATITUDE.low <= lat <= UTM_LATITUDE.high and _band(lat) == band for lat in lats)


def _band(lat: float) -> str:
    return _BANDS[min(int((lat - UTM_LATITUDE.low) // 8.0), len(_BANDS) - 1)]


_NORWAY = ((56.0, 64.0, 3.0, 12.0, 32),)
_SVALBARD = (
    (72.0, 84.0, 0.0, 9.0, 31),
    (72.0, 84.0, 9.0, 21.0, 33),
    (72.0, 84.0, 21.0, 33.0, 35),
    (72.0, 84.0, 33.0, 42.0, 37),
)


def _zone(lat: float, lon: float) -> int:
    for low, high, west, east, zone in _NORWAY + _SVALBARD:
        if low <= lat < high and west <= lon < east:
            return zone
    return int((lon + 180.0) // 6.0) % int(ZONE.high) + 1


@lru_cache(maxsize=16)
def _projection(zone: int, south: bool, ellipsoid: str) -> Any:
    from pyproj import Proj

    return Proj(proj="utm", zone=zone, south=south, ellps=ellipsoid)
