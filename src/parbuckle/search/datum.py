"""From latitude and longitude to metres round the datum and back; distances and bearings on the ellipsoid.

Latitude and longitude are in degrees, north and east positive, WGS 84 unless an ellipsoid is named. Bearings are
true, rad.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from parbuckle.physics.ranges import FloatsLike, Range, not_negative
from parbuckle.quantity.frozen import Floats, Frozen

LATITUDE = Range("latitude", -90.0, 90.0, "deg", "by definition")
"""What a latitude can be."""

LONGITUDE = Range("longitude", -180.0, 180.0, "deg", "by definition")
"""What a longitude can be."""

NEAR = Range(
    "distance from the datum", 0.0, 50_000.0, "m", "own choice: beyond, a local map of metres is no longer one"
)
"""How far from its datum a local map reaches."""


@dataclass(frozen=True)
class Datum(Frozen):
    """Origin of the local map: azimuthal equidistant metres, so distances and bearings from it are true.

    Parameters
    ----------
    lat : float
        Latitude, deg.
    lon : float
        Longitude, deg.

    Raises
    ------
    RangeError
        For a latitude or longitude that is none.

    Examples
    --------
    >>> east, north = Datum(50.0, -5.0).to_local(50.00317850, -4.99506837)
    >>> round(float(east), 2), round(float(north), 2)
    (353.55, 353.55)
    """

    lat: float
    lon: float

    def __post_init__(self) -> None:
        super().__post_init__()
        LATITUDE.check(self.lat)
        LONGITUDE.check(self.lon)

    def to_local(self, lat: FloatsLike, lon: FloatsLike) -> tuple[Floats, Floats]:
        """Give metres east and north of the datum.

        Parameters
        ----------
        lat : FloatsLike
            Latitude, deg, any shape.
        lon : FloatsLike
            Longitude, deg, same shape.

        Returns
        -------
        tuple[Floats, Floats]
            East and north, m.

        Raises
        ------
        RangeError
            For a place that is none, or farther than 50 km from the datum.
        """
        lats, lons = LATITUDE.check(lat), LONGITUDE.check(lon)
        distance, bearing, _ = inverse(np.full(lats.shape, self.lat), np.full(lons.shape, self.lon), lats, lons)
        NEAR.check(distance)
        return np.asarray(distance * np.sin(bearing)), np.asarray(distance * np.cos(bearing))

    def to_globe(self, east: FloatsLike, north: FloatsLike) -> tuple[Floats, Floats]:
        """Give latitude and longitude; undoes ``to_local``.

        Parameters
        ----------
        east : FloatsLike
            m, any shape.
        north : FloatsLike
            m, same shape.

        Returns
        -------
        tuple[Floats, Floats]
            Latitude and longitude, deg.

        Raises
        ------
        RangeError
            For a place farther than 50 km from the datum.
        """
        x, y = np.asarray(east, dtype=np.float64), np.asarray(north, dtype=np.float64)
        lat, lon, _ = direct(np.full(x.shape, self.lat), np.full(x.shape, self.lon), np.arctan2(x, y), np.hypot(x, y))
        NEAR.check(np.hypot(x, y))
        return lat, lon


def inverse(
    lat: FloatsLike, lon: FloatsLike, to_lat: FloatsLike, to_lon: FloatsLike, ellipsoid: str = "WGS84"
) -> tuple[Floats, Floats, Floats]:
    """Give the shortest way between two places.

    Parameters
    ----------
    lat : FloatsLike
        Latitude of the first place, deg, any shape.
    lon : FloatsLike
        Its longitude, deg, same shape.
    to_lat : FloatsLike
        Latitude of the second place, deg, same shape.
    to_lon : FloatsLike
        Its longitude, deg, same shape.
    ellipsoid : str
        ``WGS84`` or ``GRS80``.

    Returns
    -------
    tuple[Floats, Floats, Floats]
        Distance, m; bearing at the first place and bearing onward at the second, rad true, 0 to 2 pi.

    Raises
    ------
    RangeError
        For a latitude or longitude that is none.

    Notes
    -----
    Source: Karney 2013, Algorithms for geodesics, through pyproj.

    Examples
    --------
    >>> round(float(inverse(-41.32, 174.81, 40.96, -5.50)[0]), 3)
    19959679.267
    """
    there, back, distance = _geod(ellipsoid).inv(
        LONGITUDE.check(lon), LATITUDE.check(lat), LONGITUDE.check(to_lon), LATITUDE.check(to_lat)
    )
    return np.asarray(distance), _turn(there), _turn(np.asarray(back) + 180.0)


def direct(
    lat: FloatsLike, lon: FloatsLike, bearing: FloatsLike, distance: FloatsLike, ellipsoid: str = "WGS84"
) -> tuple[Floats, Floats, Floats]:
    """Give the place at a bearing and a distance.

    Parameters
    ----------
    lat : FloatsLike
        Latitude, deg, any shape.
    lon : FloatsLike
        Longitude, deg, same shape.
    bearing : FloatsLike
        rad true, same shape.
    distance : FloatsLike
        m, not negative, same shape.
    ellipsoid : str
        ``WGS84`` or ``GRS80``.

    Returns
    -------
    tuple[Floats, Floats, Floats]
        Latitude, longitude, deg; bearing onward there, rad true, 0 to 2 pi.

    Raises
    ------
    RangeError
        For a latitude or longitude that is none, or a negative distance.

    Notes
    -----
    Source: Karney 2013, Algorithms for geodesics, through pyproj.

    Examples
    --------
    >>> round(float(direct(40.0, 0.0, np.radians(30.0), 1e7)[0]), 8)
    41.79331021
    """
    lons, lats, back = _geod(ellipsoid).fwd(
        LONGITUDE.check(lon),
        LATITUDE.check(lat),
        np.degrees(np.asarray(bearing, dtype=np.float64)),
        not_negative("distance", distance, "m"),
    )
    return np.asarray(lats), np.asarray(lons), _turn(np.asarray(back) + 180.0)


def _turn(degrees: Any) -> Floats:
    return np.asarray(np.radians(np.asarray(degrees, dtype=np.float64) % 360.0))


@lru_cache(maxsize=4)
def _geod(ellipsoid: str) -> Any:
    from pyproj import Geod

    return Geod(ellps=ellipsoid)
