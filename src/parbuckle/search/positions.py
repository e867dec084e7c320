"""Positions as people write and read them: degrees, degrees and minutes, degrees, minutes and seconds, UTM."""

from __future__ import annotations

import re

from parbuckle.quantity.errors import RangeError
from parbuckle.search.datum import LATITUDE, LONGITUDE
from parbuckle.search.grid_reference import Utm, from_mgrs, from_utm, utm_of

STYLES = ("degrees", "degrees-minutes", "degrees-minutes-seconds", "utm")
"""Ways in which a position is written."""

_SIGN = {"N": 1.0, "S": -1.0, "E": 1.0, "W": -1.0}
_PART = r"(?P<{0}>[-+]?\d+(?:\.\d+)?(?:[\s:°'′\"″]+\d+(?:\.\d+)?){{0,2}})[\s°'′\"″]*(?P<{0}_side>[{1}])"
_SIDED = re.compile(_PART.format("lat", "NS") + r"[\s,;]*" + _PART.format("lon", "EW"))
_PLAIN = re.compile(r"([-+]?\d+(?:\.\d+)?)\s*[,;\s]\s*([-+]?\d+(?:\.\d+)?)")
_UTM = re.compile(r"(\d{1,2})\s*([NS])\s+(\d+(?:\.\d+)?)\s*(?:M?E)?\s+(\d+(?:\.\d+)?)\s*(?:M?N)?")
_MINUTES = 60.0
_SECONDS = 3600.0


def written(lat: float, lon: float, style: str = "degrees-minutes") -> str:
    """Write a position.

    Parameters
    ----------
    lat : float
        Latitude, deg.
    lon : float
        Longitude, deg.
    style : str
        One of ``STYLES``. Degrees have 7 decimals (11 mm), minutes 3 (1.9 m), seconds 2, UTM whole metres.

    Returns
    -------
    str
        Such as ``52 28.926 N 003 42.924 W``.

    Raises
    ------
    RangeError
        For a position or a style that is none.

    Examples
    --------
    >>> written(52.48210, -3.71540)
    '52 28.926 N 003 42.924 W'
    """
    LATITUDE.check(lat)
    LONGITUDE.check(lon)
    if style == "degrees":
        return f"{lat:.7f} {lon:.7f}"
    if style == "degrees-minutes":
        return f"{_minutes(lat, 'NS', 2)} {_minutes(lon, 'EW', 3)}"
    if style == "degrees-minutes-seconds":
        return f"{_seconds(lat, 'NS', 2)} {_seconds(lon, 'EW', 3)}"
    if style == "utm":
        place = utm_of(lat, lon)
        return f"{place.zone} {'S' if place.south else 'N'} {place.east:.0f} {place.north:.0f}"
    raise RangeError(f"position: given style {style!r}, allowed {', '.join(STYLES)}")


def read_position(text: str) -> tuple[float, float]:
    """Read a position that somebody wrote.

    Parameters
    ----------
    text : str
        ``52.48210 -3.71540``; ``52 28.926 N 003 42.924 W``; ``52 28 55.6 N 3 42 55.4 W``; ``30 N 451234 5812345``
        (zone, hemisphere, easting, northing); or a military grid reference.

    Returns
    -------
    tuple[float, float]
        Latitude and longitude, deg.

    Raises
    ------
    RangeError
        If it is none of these; if minutes or seconds reach 60; or if a part with a fraction is followed by a
        smaller one.

    Examples
    --------
    >>> [round(x, 5) for x in read_position("52 28.926 N 003 42.924 W")]
    [52.4821, -3.7154]
    """
    given = text.strip().upper()
    if match := _SIDED.fullmatch(given):
        lat = _SIGN[match["lat_side"]] * _degrees(match["lat"], text)
        lon = _SIGN[match["lon_side"]] * _degrees(match["lon"], text)
        return float(LATITUDE.check(lat)), float(LONGITUDE.check(lon))
    if match := _UTM.fullmatch(given):
        return from_utm(Utm(int(match[1]), match[2] == "S", float(match[3]), float(match[4])))
    if match := _PLAIN.fullmatch(given):
        return float(LATITUDE.check(float(match[1]))), float(LONGITUDE.check(float(match[2])))
    try:
        return from_utm(from_mgrs(given))
    except RangeError:
        raise RangeError(
            f"position: given {text!r}; write it such as '52.48210 -3.71540', '52 28.926 N 003 42.924 W', "
            "'30 N 451234 5812345' or '31U DQ 48251 11932'"
        ) from None


def _degrees(part: str, text: str) -> float:
    words = re.findall(r"[-+]?\d+(?:\.\d+)?", part)
    values = [float(word) for word in words]
    if values[0] < 0.0 or words[0].startswith("-"):
        raise RangeError(f"position: given {text!r}; write N, S, E or W, or a minus sign, not both")
    if any("." in word for word in words[:-1]):
        raise RangeError(f"position: given {text!r}; only the last part of an angle may have a fraction")
    if any(not value < _MINUTES for value in values[1:]):
        raise RangeError(f"position: given {text!r}; minutes and seconds stay below 60")
    return sum(value / unit for value, unit in zip(values, (1.0, _MINUTES, _SECONDS), strict=False))


def _minutes(angle: float, sides: str, digits: int) -> str:
    thousandths = round(abs(angle) * _MINUTES * 1000.0)
    degrees, rest = divmod(thousandths, 60_000)
    return f"{degrees:0{digits}d} {rest / 1000.0:06.3f} {sides[1] if angle < 0.0 else sides[0]}"


def _seconds(angle: float, sides: str, digits: int) -> str:
    hundredths = round(abs(angle) * _SECONDS * 100.0)
    degrees, rest = divmod(hundredths, 360_000)
    minutes, rest = divmod(rest, 6_000)
    return f"{degrees:0{digits}d} {minutes:02d} {rest / 100.0:05.2f} {sides[1] if angle < 0.0 else sides[0]}"
