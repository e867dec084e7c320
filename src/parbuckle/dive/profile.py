"""A dive as straight legs: from one pressure to another in some time, on one gas."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.physics.pressure import absolute_pressure
from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.frozen import Floats, Frozen

PRESSURE_RANGE = Range("pressure that a diver is under", 0.3e5, 31e5, "Pa", "from a mountain lake to 300 m")
TIME_RANGE = Range("time of a leg", 0.0, 7 * 86400.0, "s", "a leg lasts a week at most")


@dataclass(frozen=True)
class Water(Frozen):
    """The water of a dive, as far as it makes the pressure.

    Parameters
    ----------
    surface : Floats
        Air pressure at the surface, Pa, shape (1,) or (n,).
    density : Floats
        Density, kg/m3, shape (1,) or (n,).
    """

    surface: Floats
    density: Floats

    def at(self, depth: FloatsLike) -> Floats:
        """Give the absolute pressure at a depth.

        Parameters
        ----------
        depth : FloatsLike
            Depth, m, shape (n,) or one number.

        Returns
        -------
        Floats
            Absolute pressure, Pa.

        Raises
        ------
        RangeError
            Outside 0 to 1000 m.

        Examples
        --------
        >>> Water(np.array([101325.0]), np.array([1025.0])).at(20.0).round()
        array([302361.])
        """
        return absolute_pressure(np.atleast_1d(depth), self.density, self.surface)


@dataclass(frozen=True)
class Leg(Frozen):
    """One straight piece of a dive, one column for each draw.

    Parameters
    ----------
    start, end : Floats
        Absolute pressure at both ends, Pa, shape (n,).
    time : Floats
        How long it takes, s, shape (n,).
    gas : Gas
        What is breathed.

    Raises
    ------
    RangeError
        For a pressure outside 0.3 to 31 bar or a time outside 0 to a week.
    """

    start: Floats
    end: Floats
    time: Floats
    gas: Gas

    def __post_init__(self) -> None:
        """Check the ranges."""
        super().__post_init__()
        PRESSURE_RANGE.check(self.start)
        PRESSURE_RANGE.check(self.end)
        TIME_RANGE.check(self.time)

    @property
    def mean(self) -> Floats:
        """Mean absolute pressure, Pa."""
        return np.asarray(0.5 * (self.start + self.end))


def leg(water: Water, depth: FloatsLike, to: FloatsLike, time: FloatsLike, gas: Gas) -> Leg:
    """Make a leg from depths.

    Parameters
    ----------
    water : Water
        Where the dive is.
    depth, to : FloatsLike
        Depth at both ends, m, one number or shape (n,).
    time : FloatsLike
        How long it takes, s, one number or shape (n,).
    gas : Gas
        What is breathed.

    Returns
    -------
    Leg
        With pressures.

    Raises
    ------
    RangeError
        As for ``Leg`` and ``Water.at``.

    Examples
    --------
    >>> from parbuckle.quantity.breathing import parse_gas
    >>> sea = Water(np.array([101325.0]), np.array([1025.0]))
    >>> leg(sea, 0.0, 20.0, 120.0, parse_gas("air")).mean.round()
    array([201843.])
    """
    parts = np.broadcast_arrays(water.at(depth), water.at(to), np.atleast_1d(np.asarray(time, dtype=np.float64)))
    start, end, lasts = (np.array(part) for part in parts)
    return Leg(start, end, lasts, gas)


def travel(water: Water, depth: FloatsLike, to: FloatsLike, rate: FloatsLike, gas: Gas) -> Leg:
    """Make a leg down or up at a steady rate.

    t = abs(d2 - d1) / v.

    Parameters
    ----------
    water : Water
        Where the dive is.
    depth, to : FloatsLike
        Depth at both ends, m, one number or shape (n,).
    rate : FloatsLike
        Speed, m/s, above 0, one number or shape (n,).
    gas : Gas
        What is breathed.

    Returns
    -------
    Leg
        With pressures.

    Raises
    ------
    RangeError
        As for ``Leg``, and for a rate that is not above 0.

    Examples
    --------
    >>> from parbuckle.quantity.breathing import parse_gas
    >>> sea = Water(np.array([101325.0]), np.array([1025.0]))
    >>> travel(sea, 18.0, 0.0, 0.15, parse_gas("air")).time
    array([120.])
    """
    way = np.abs(np.asarray(to, dtype=np.float64) - not_negative("depth", depth, "m"))
    return leg(water, depth, to, way / positive("rate", rate, "m/s"), gas)
