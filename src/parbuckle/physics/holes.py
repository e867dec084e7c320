"""Gas through holes: choked or not, and the inflator hose that is always choked."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.constants import ATMOSPHERE, GAMMA_AIR, GAS_CONSTANT_AIR
from parbuckle.physics.gas import ideal_density
from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive

DISCHARGE_RANGE = Range("discharge coefficient", 0.3, 1.0, "", "Weisbach's figures for air run from 0.56 to 0.99")

_CRITICAL = (2.0 / (GAMMA_AIR + 1.0)) ** (GAMMA_AIR / (GAMMA_AIR - 1.0))


def critical_ratio(gamma: FloatsLike = GAMMA_AIR) -> NDArray[np.float64]:
    """Give the ratio of pressures, after over before, at which flow through a hole becomes choked.

    r = (2 / (gamma + 1))^(gamma / (gamma - 1)).

    Parameters
    ----------
    gamma : FloatsLike
        Ratio of the specific heats, above 1 to 1.67, any shape.

    Returns
    -------
    NDArray[np.float64]
        Ratio; 0.528 for air.

    Raises
    ------
    RangeError
        For a gamma outside 1.01 to 1.67.

    Notes
    -----
    Source: gas dynamics, common practice.

    Examples
    --------
    >>> round(float(critical_ratio()), 6)
    0.528282
    """
    ratio = Range("ratio of specific heats", 1.01, 1.67, "", "ideal gases").check(gamma)
    return np.asarray((2.0 / (ratio + 1.0)) ** (ratio / (ratio - 1.0)))


def hole_mass_flow(
    area: FloatsLike, discharge: FloatsLike, before: FloatsLike, after: FloatsLike, temperature: FloatsLike
) -> NDArray[np.float64]:
    """Give the mass flow of air through a hole, choked or not.

    Choked: m = Cd A p0 sqrt(gamma / (R T)) (2 / (gamma + 1))^((gamma + 1) / (2 gamma - 2)).
    Else: m = Cd A p0 sqrt{2 gamma / [(gamma - 1) R T] (r^(2 / gamma) - r^((gamma + 1) / gamma))}, r = p / p0.

    Parameters
    ----------
    area : FloatsLike
        Area of the hole, m2, any shape.
    discharge : FloatsLike
        Discharge coefficient Cd, 0.3 to 1.
    before : FloatsLike
        Absolute pressure before the hole, Pa.
    after : FloatsLike
        Absolute pressure after the hole, Pa, not above ``before``.
    temperature : FloatsLike
        Temperature of the gas before the hole, K.

    Returns
    -------
    NDArray[np.float64]
        Mass flow, kg/s.

    Raises
    ------
    RangeError
        For a discharge coefficient outside its range, or a pressure after the hole above that before it.

    Notes
    -----
    Source: gas dynamics of an ideal gas, common practice; figures for Cd: Weisbach, in Encyclopaedia Britannica,
    11th edition, "Hydraulics", section 63.

    Examples
    --------
    >>> round(float(hole_mass_flow(7.853982e-7, 1.0, 10e5, 101325.0, 288.15)) * 1000, 3)
    1.87
    """
    p0, kelvin = positive("pressure before the hole", before, "Pa"), positive("temperature", temperature, "K")
    ratio = Range("pressure after over before the hole", 0.0, 1.0, "", "gas flows downhill").check(
        np.asarray(after, dtype=np.float64) / p0
    )
    r = np.maximum(ratio, _CRITICAL)
    g = GAMMA_AIR
    flux = np.sqrt(2.0 * g / ((g - 1.0) * GAS_CONSTANT_AIR * kelvin) * (r ** (2.0 / g) - r ** ((g + 1.0) / g)))
    return np.asarray(DISCHARGE_RANGE.check(discharge) * not_negative("area of the hole", area, "m2") * p0 * flux)


def free_flow(mass_flow: FloatsLike, temperature: FloatsLike, surface: FloatsLike = ATMOSPHERE) -> NDArray[np.float64]:
    """Turn a mass flow of air into free flow at the surface.

    q = m / rho(p_s, T).

    Parameters
    ----------
    mass_flow : FloatsLike
        Mass flow, kg/s, any shape.
    temperature : FloatsLike
        Temperature at which it is counted, K, any shape that fits.
    surface : FloatsLike
        Air pressure at the surface, Pa, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Free flow, m3/s.

    Raises
    ------
    RangeError
        For a negative flow, or a temperature or pressure that is not above zero.

    Notes
    -----
    Source: ideal gas law.

    Examples
    --------
    >>> round(float(free_flow(1.8699e-3, 288.15)) * 60000, 1)
    91.6
    """
    return not_negative("mass flow", mass_flow, "kg/s") / ideal_density(
        positive("surface pressure", surface, "Pa"), temperature
    )


def relative_flow(
    ambient: FloatsLike, intermediate: FloatsLike, surface: FloatsLike = ATMOSPHERE
) -> NDArray[np.float64]:
    """Give the free flow of a regulator hose at depth over that at the surface.

    f = (p + p_i) / (p_s + p_i), as long as the hose is choked: (p + p_i) / p > 1.893.

    Parameters
    ----------
    ambient : FloatsLike
        Absolute pressure at depth, Pa, any shape.
    intermediate : FloatsLike
        Intermediate pressure of the first stage over ambient, Pa, any shape that fits.
    surface : FloatsLike
        Air pressure at the surface, Pa, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Ratio; 1 at the surface, 1.29 at 30 m with 9.5 bar.

    Raises
    ------
    RangeError
        If the flow would not be choked.

    Notes
    -----
    Source: choked flow is proportional to the absolute pressure before the hole; gas dynamics, common practice.

    Examples
    --------
    >>> round(float(relative_flow(4.0288e5, 9.5e5)), 2)
    1.29
    """
    p, over = positive("ambient pressure", ambient, "Pa"), positive("intermediate pressure", intermediate, "Pa")
    Range("ambient over supply pressure", 0.0, _CRITICAL, "", "the hose must be choked").check(p / (p + over))
    return np.asarray((p + over) / (positive("surface pressure", surface, "Pa") + over))
