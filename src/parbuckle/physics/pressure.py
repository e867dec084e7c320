"""Pressure in air and water: from the altitude to the surface pressure, from the depth to the pressure there."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.constants import ATMOSPHERE, G
from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive

ALTITUDE_RANGE = Range("altitude", -500.0, 11000.0, "m", "1976 standard atmosphere, troposphere")
DEPTH_RANGE = Range("depth", 0.0, 1000.0, "m", "water taken as incompressible; 0.5 % at 1000 m")

STANDARD_TEMPERATURE = 288.15
"""Sea-level temperature of the standard atmosphere, K (U.S. Standard Atmosphere 1976)."""

_LAPSE = 0.0065  # K/m, U.S. Standard Atmosphere 1976
_EXPONENT = 5.255876  # g M / (R lapse) with the constants of that standard
_EARTH_RADIUS = 6356766.0  # m, the same


def geopotential(height: FloatsLike) -> NDArray[np.float64]:
    """Turn a height above the sea into the geopotential height that the standard atmosphere is written in.

    H = r Z / (r + Z), r = 6356766 m.

    Parameters
    ----------
    height : FloatsLike
        Height above mean sea level, m, any shape.

    Returns
    -------
    NDArray[np.float64]
        Geopotential height, m; 0.3 m less at 1500 m.

    Raises
    ------
    RangeError
        Outside -500 to 11000 m.

    Notes
    -----
    Source: U.S. Standard Atmosphere 1976, equation 19.

    Examples
    --------
    >>> round(float(geopotential(2000.0)), 2)
    1999.37
    """
    z = ALTITUDE_RANGE.check(height)
    return _EARTH_RADIUS * z / (_EARTH_RADIUS + z)


def surface_pressure(altitude: FloatsLike) -> NDArray[np.float64]:
    """Give the air pressure at an altitude in the standard atmosphere.

    p = p0 (1 - 0.0065 H / 288.15)^5.255876.

    Parameters
    ----------
    altitude : FloatsLike
        Geopotential altitude, m, any shape; for lakes the height above the sea is as good.

    Returns
    -------
    NDArray[np.float64]
        Air pressure, Pa; weather moves it by 3 %.

    Raises
    ------
    RangeError
        Outside -500 to 11000 m.

    Notes
    -----
    Source: U.S. Standard Atmosphere 1976 (the ICAO atmosphere, Doc 7488, is the same here).

    Examples
    --------
    >>> round(float(surface_pressure(1000.0)), 1)
    89874.6
    """
    h = ALTITUDE_RANGE.check(altitude)
    return np.asarray(ATMOSPHERE * (1.0 - _LAPSE * h / STANDARD_TEMPERATURE) ** _EXPONENT, dtype=np.float64)


def gauge_pressure(depth: FloatsLike, density: FloatsLike) -> NDArray[np.float64]:
    """Give the pressure of the water above a depth.

    p = rho g d.

    Parameters
    ----------
    depth : FloatsLike
        Depth below the actual surface, m, positive downward, any shape.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Pressure above that at the surface, Pa.

    Raises
    ------
    RangeError
        Outside 0 to 1000 m, or for a density that is not above zero.

    Notes
    -----
    Source: hydrostatics, common practice; standard g, so up to 0.3 % off by latitude.

    Examples
    --------
    >>> round(float(gauge_pressure(10.0, 1025.0)))
    100518
    """
    return DEPTH_RANGE.check(depth) * positive("water density", density, "kg/m3") * G


def absolute_pressure(depth: FloatsLike, density: FloatsLike, surface: FloatsLike = ATMOSPHERE) -> NDArray[np.float64]:
    """Give the absolute pressure at a depth.

    p = p_surface + rho g d.

    Parameters
    ----------
    depth : FloatsLike
        Depth below the actual surface, m, positive downward, any shape.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.
    surface : FloatsLike
        Air pressure at the surface, Pa, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Absolute pressure, Pa.

    Raises
    ------
    RangeError
        Outside 0 to 1000 m, or for a density or a surface pressure that cannot be.

    Notes
    -----
    Source: hydrostatics, common practice.

    Examples
    --------
    >>> round(float(absolute_pressure(20.0, 1025.0)))
    302361
    """
    return not_negative("surface pressure", surface, "Pa") + gauge_pressure(depth, density)


def depth_of(pressure: FloatsLike, density: FloatsLike, surface: FloatsLike = ATMOSPHERE) -> NDArray[np.float64]:
    """Give the depth at which an absolute pressure is found.

    d = (p - p_surface) / (rho g).

    Parameters
    ----------
    pressure : FloatsLike
        Absolute pressure, Pa, any shape; not below the surface pressure.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.
    surface : FloatsLike
        Air pressure at the surface, Pa, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Depth, m, positive downward.

    Raises
    ------
    RangeError
        If the depth comes out above the surface or deeper than 1000 m.

    Notes
    -----
    Source: hydrostatics, common practice.

    Examples
    --------
    >>> round(float(depth_of(absolute_pressure(16.0, 1000.0), 1000.0)), 6)
    16.0
    """
    over = np.asarray(pressure, dtype=np.float64) - not_negative("surface pressure", surface, "Pa")
    return DEPTH_RANGE.check(over / (positive("water density", density, "kg/m3") * G))
