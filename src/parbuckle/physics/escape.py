"""Gas that leaves a bag through its dump or its relief valve, element by element, for use inside an integrator.

The flow is that of ``holes.hole_mass_flow`` as a series to second order in the loss of pressure: no powers, so it is
quick, and the same source runs on single numbers and on columns. Amounts are products of pressure and volume, Pa m3.
"""

from __future__ import annotations

import math

import numpy as np

from parbuckle.physics.choose import Each, choose, larger, smaller
from parbuckle.physics.constants import GAMMA_AIR, GAS_CONSTANT_AIR, G
from parbuckle.physics.gas import ideal_density
from parbuckle.physics.holes import DISCHARGE_RANGE, critical_ratio, hole_mass_flow
from parbuckle.physics.ranges import FloatsLike, positive
from parbuckle.quantity.frozen import Floats

CHOKED_LOSS = 1.0 - float(critical_ratio())
"""Loss of pressure, as a share of the pressure inside, from which the flow no longer grows; 0.472 for air."""

_BEND = 1.5 / GAMMA_AIR  # second term of the series of the isentropic flow in the loss of pressure


def escape(area: Each, inside: Each, outside: Each, jet: Each) -> Each:
    """Give the gas that leaves through a hole each second, as pressure times volume.

    d(pV)/dt = Cd A sqrt(R T/M) sqrt(2 x (p_in - 3 x/(2 gamma))), x = p_in - p_out, at most the choked share of p_in.

    Parameters
    ----------
    area : Each
        Discharge coefficient times open area, m2, any shape.
    inside : Each
        Pressure of the gas before the hole, Pa.
    outside : Each
        Pressure after it, Pa; nothing flows back where it is the higher one.
    jet : Each
        sqrt(R T/M), m/s.

    Returns
    -------
    Each
        Pa m3/s.

    Notes
    -----
    Source: isentropic flow as in ``holes.hole_mass_flow``, expanded to second order in x; within 0.3 % of it up to
    choking, and beyond.

    Examples
    --------
    >>> round(float(escape(np.array(3e-4), np.array(2.1e5), np.array(2e5), np.array(285.0))), 1)
    5397.8
    """
    loss = smaller(larger(inside - outside, 0.0), CHOKED_LOSS * inside)
    return area * jet * np.sqrt(2.0 * loss * (inside - _BEND * loss))


def escape_one(area: float, inside: float, outside: float, jet: float) -> float:
    """Give ``escape`` for single numbers: a shut valve costs nothing.

    Parameters
    ----------
    area, inside, outside, jet : float
        The same.

    Returns
    -------
    float
        The same value, Pa m3/s.

    Examples
    --------
    >>> escape_one(0.0, 2.1e5, 2e5, 285.0)
    0.0
    """
    if area == 0.0:
        return 0.0
    loss = min(max(inside - outside, 0.0), CHOKED_LOSS * inside)
    return area * jet * math.sqrt(2.0 * loss * (inside - _BEND * loss))


def escape_open(area: Each, column: Each, outside: Each, jet: Each) -> Each:
    """Give what leaves an open bag through its dump: ``escape`` under the column of its gas, which never chokes it.

    Parameters
    ----------
    area : Each
        Discharge coefficient times open area, m2, any shape.
    column : Each
        Pressure of the gas column under the dump, Pa; far below the pressure outside. Nothing leaves below 0.
    outside : Each
        Pressure of the water at the bag, Pa.
    jet : Each
        sqrt(R T/M), m/s.

    Returns
    -------
    Each
        Pa m3/s.

    Notes
    -----
    Source: as for ``escape``.

    Examples
    --------
    >>> round(float(escape_open(np.array(3e-4), np.array(1e4), np.array(2e5), np.array(285.0))), 1)
    5397.8
    """
    return (area * jet) * np.sqrt(larger((column + column) * (outside + (1.0 - _BEND) * column), 0.0))


def escape_open_one(area: float, column: float, outside: float, jet: float) -> float:
    """Give ``escape_open`` for single numbers: a shut dump costs nothing.

    Parameters
    ----------
    area, column, outside, jet : float
        The same.

    Returns
    -------
    float
        The same value, Pa m3/s.

    Examples
    --------
    >>> escape_open_one(0.0, 1e4, 2e5, 285.0)
    0.0
    """
    if area == 0.0:
        return 0.0
    return (area * jet) * math.sqrt(max((column + column) * (outside + (1.0 - _BEND) * column), 0.0))


def relieved(want: Each, excess: Each, most: Each) -> Each:
    """Give what a relief valve lets out: as much as it must, at most what its bore passes.

    Parameters
    ----------
    want : Each
        Flow that would keep the bag at its relief pressure, Pa m3/s, any shape.
    excess : Each
        Gas beyond that pressure, Pa m3; nothing leaves where it is not above zero.
    most : Each
        Flow of the open valve, Pa m3/s.

    Returns
    -------
    Each
        Pa m3/s.

    Notes
    -----
    Source: a spring that opens as far as it has to; common practice.
    """
    return choose(excess > 0.0, smaller(larger(want, 0.0), most), 0.0)


def dump_area(bore: FloatsLike, discharge: FloatsLike) -> Floats:
    """Give the effective area of a dump from its bore.

    Cd A = Cd pi d^2 / 4.

    Parameters
    ----------
    bore : FloatsLike
        Clear diameter of the valve, m, any shape.
    discharge : FloatsLike
        Discharge coefficient, 0.3 to 1.

    Returns
    -------
    Floats
        m2.

    Raises
    ------
    RangeError
        For a bore that is not above zero or a coefficient outside its range.

    Notes
    -----
    Source: geometry. What a dump really passes hangs on its flap and its stroke: a wide band, or a measured pull.

    Examples
    --------
    >>> round(float(dump_area(0.025, 0.62)) * 1e4, 2)
    3.04
    """
    d = positive("bore of the dump", bore, "m")
    return np.asarray(DISCHARGE_RANGE.check(discharge) * np.pi * d * d / 4.0)


def area_from_pull(
    lost: FloatsLike,
    seconds: FloatsLike,
    column: FloatsLike,
    water_density: FloatsLike,
    ambient: FloatsLike,
    temperature: FloatsLike,
) -> Floats:
    """Give the effective area of a dump from one measured pull.

    Cd A = V / (t q), q the flow of a hole of 1 m2 under the column of gas.

    Parameters
    ----------
    lost : FloatsLike
        Gas lost by the pull, m3 at the pressure of the bag, any shape.
    seconds : FloatsLike
        How long the dump was open, s.
    column : FloatsLike
        Height of the gas below the valve during the pull, m.
    water_density : FloatsLike
        Water density, kg/m3.
    ambient : FloatsLike
        Absolute pressure of the water at the bag, Pa.
    temperature : FloatsLike
        Temperature of the gas, K.

    Returns
    -------
    Floats
        m2.

    Raises
    ------
    RangeError
        For a value that is not above zero.

    Notes
    -----
    Source: as for ``holes.hole_mass_flow``; the column is taken as constant over one short pull.

    Examples
    --------
    >>> round(float(area_from_pull(0.45e-3, 0.5, 0.4, 1025.0, 151590.0, 283.15)) * 1e4, 3)
    0.141
    """
    head = positive("height of the gas", column, "m") * positive("water density", water_density, "kg/m3") * G
    inside = positive("ambient pressure", ambient, "Pa") + head
    flow = hole_mass_flow(1.0, 1.0, inside, ambient, temperature) / ideal_density(inside, temperature)
    return np.asarray(positive("gas lost", lost, "m3") / (positive("time of the pull", seconds, "s") * flow))


def jet_scale(temperature: FloatsLike) -> Floats:
    """Give the scale of speed of a gas that flows out: sqrt(R T/M) of air.

    Parameters
    ----------
    temperature : FloatsLike
        K, any shape.

    Returns
    -------
    Floats
        m/s.

    Raises
    ------
    RangeError
        For a temperature that is not above zero.

    Notes
    -----
    Source: ideal gas.

    Examples
    --------
    >>> round(float(jet_scale(283.15)), 1)
    285.1
    """
    return np.asarray(np.sqrt(GAS_CONSTANT_AIR * positive("temperature", temperature, "K")))
