"""Gas in a bag as an ideal gas at water temperature: free gas, growth on the way up, what has to be vented.

Real gas matters in a cylinder (see ``air``); at the pressure of a bag the ideal gas is right to 0.3 %.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.constants import ATMOSPHERE, GAS_CONSTANT_AIR, G
from parbuckle.physics.pressure import absolute_pressure, depth_of
from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive

FILL_SHARE_RANGE = Range("share of the bag that is filled", 1e-6, 1.0, "", "a bag is at most full")


def ideal_density(pressure: FloatsLike, temperature: FloatsLike) -> NDArray[np.float64]:
    """Give the density of dry air as an ideal gas.

    rho = p M / (R T).

    Parameters
    ----------
    pressure : FloatsLike
        Absolute pressure, Pa, any shape.
    temperature : FloatsLike
        Temperature of the gas, K, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Density, kg/m3; within 0.3 % of real air to 6 bar at 0 to 30 degC.

    Raises
    ------
    RangeError
        For a negative pressure or a temperature that is not above zero.

    Notes
    -----
    Source: ideal gas law, common practice.

    Examples
    --------
    >>> round(float(ideal_density(101325.0, 288.15)), 4)
    1.225
    """
    return not_negative("pressure", pressure, "Pa") / (GAS_CONSTANT_AIR * positive("temperature", temperature, "K"))


def volume_at(
    volume: FloatsLike,
    pressure: FloatsLike,
    new_pressure: FloatsLike,
    temperature: FloatsLike = 1.0,
    new_temperature: FloatsLike = 1.0,
) -> NDArray[np.float64]:
    """Give the volume of a closed amount of gas at another pressure and, if asked, another temperature.

    V2 = V1 (p1 / p2) (T2 / T1). With p2 the surface pressure it is the free gas of a bag filled at depth.

    Parameters
    ----------
    volume : FloatsLike
        Volume before, m3, any shape.
    pressure : FloatsLike
        Absolute pressure before, Pa, any shape that fits.
    new_pressure : FloatsLike
        Absolute pressure after, Pa, any shape that fits.
    temperature : FloatsLike
        Temperature before, K; left out with the next one, it does not change.
    new_temperature : FloatsLike
        Temperature after, K.

    Returns
    -------
    NDArray[np.float64]
        Volume after, m3.

    Raises
    ------
    RangeError
        For a negative volume, or a pressure or temperature that is not above zero.

    Notes
    -----
    Source: laws of Boyle and Charles, common practice.

    Examples
    --------
    >>> round(float(volume_at(0.1, 302361.0, 101325.0)), 4)
    0.2984
    """
    boyle = positive("pressure", pressure, "Pa") / positive("new pressure", new_pressure, "Pa")
    charles = positive("new temperature", new_temperature, "K") / positive("temperature", temperature, "K")
    return not_negative("volume", volume, "m3") * boyle * charles


def rule_free_gas(volume: FloatsLike, depth: FloatsLike, depth_per_atmosphere: FloatsLike) -> NDArray[np.float64]:
    """Give the free gas by the handbook rule, for comparison only.

    V_free = V (D + D1) / D1, with D1 = 33 ft in the sea, 34 ft in fresh water, or 10 m.

    Parameters
    ----------
    volume : FloatsLike
        Volume of gas at depth, m3, any shape.
    depth : FloatsLike
        Depth of the gas, m, any shape that fits.
    depth_per_atmosphere : FloatsLike
        Depth of water that is taken for one atmosphere, m.

    Returns
    -------
    NDArray[np.float64]
        Free gas at one atmosphere, m3.

    Raises
    ------
    RangeError
        For a negative volume or depth, or a rule that is not above zero.

    Notes
    -----
    Source: diving handbooks, common practice.

    Examples
    --------
    >>> round(float(rule_free_gas(0.1, 20.0, 10.0)), 3)
    0.3
    """
    rule = positive("depth for one atmosphere", depth_per_atmosphere, "m")
    return not_negative("volume", volume, "m3") * (not_negative("depth", depth, "m") + rule) / rule


def full_depth(
    share: FloatsLike, depth: FloatsLike, density: FloatsLike, surface: FloatsLike = ATMOSPHERE
) -> NDArray[np.float64]:
    """Give the depth at which a part-filled bag is full on the way up.

    p(z_full) = share * p(z); above the surface means that it never fills, given as 0.

    Parameters
    ----------
    share : FloatsLike
        Share of the bag that is filled at the start, above 0 to 1, any shape.
    depth : FloatsLike
        Depth of the gas at the start, m, any shape that fits.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.
    surface : FloatsLike
        Air pressure at the surface, Pa, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Depth of the gas, m; 0 where it is not full even at the surface.

    Raises
    ------
    RangeError
        For a share outside 0 to 1, or a depth outside 0 to 1000 m.

    Notes
    -----
    Source: Boyle's law, common practice.

    Examples
    --------
    >>> round(float(full_depth(0.75, 20.0, 1025.0)), 2)
    12.48
    """
    then = FILL_SHARE_RANGE.check(share) * absolute_pressure(depth, density, surface)
    return depth_of(np.maximum(then, surface), density, surface)


def vent_needed(volume: FloatsLike, rise: FloatsLike, density: FloatsLike, pressure: FloatsLike) -> NDArray[np.float64]:
    """Give the flow that has to be let out so that the gas keeps its volume while it rises.

    q = V rho g v / p.

    Parameters
    ----------
    volume : FloatsLike
        Volume of gas that can grow, m3, any shape.
    rise : FloatsLike
        Speed upward, m/s, any shape that fits.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.
    pressure : FloatsLike
        Absolute pressure of the gas, Pa, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Flow at the pressure of the bag, m3/s.

    Raises
    ------
    RangeError
        For a negative volume or speed, or a density or pressure that is not above zero.

    Notes
    -----
    Source: derivative of Boyle's law.

    Examples
    --------
    >>> round(float(vent_needed(0.5, 1.0, 1025.0, 302361.0)) * 1000, 1)
    16.6
    """
    growth = positive("water density", density, "kg/m3") * G / positive("pressure", pressure, "Pa")
    return not_negative("volume", volume, "m3") * not_negative("speed of rise", rise, "m/s") * growth


def relief_extra(relief: FloatsLike, pressure: FloatsLike) -> NDArray[np.float64]:
    """Give how much more gas a closed bag holds than an open one of the same volume.

    x = p_relief / p.

    Parameters
    ----------
    relief : FloatsLike
        Pressure over ambient at which the bag vents, Pa, any shape.
    pressure : FloatsLike
        Absolute pressure of the water at the bag, Pa, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Share more, 0.1 for a tenth.

    Raises
    ------
    RangeError
        For a negative relief pressure or a pressure that is not above zero.

    Notes
    -----
    Source: ideal gas law.

    Examples
    --------
    >>> round(float(relief_extra(10e3, 101325.0)), 3)
    0.099
    """
    return not_negative("relief pressure", relief, "Pa") / positive("pressure", pressure, "Pa")


def ideal_content(
    capacity: FloatsLike, gauge_pressure: FloatsLike, surface_pressure: FloatsLike = ATMOSPHERE
) -> NDArray[np.float64]:
    """Give the free gas in a cylinder by the handbook rule, for comparison only: it promises too much.

    V_free = V (gauge + p_s) / p_s.

    Parameters
    ----------
    capacity : FloatsLike
        Water capacity of the cylinder, m3, any shape.
    gauge_pressure : FloatsLike
        Pressure that the gauge shows, Pa, any shape that fits.
    surface_pressure : FloatsLike
        Air pressure at the surface, Pa, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Free gas, m3.

    Raises
    ------
    RangeError
        For a negative capacity or gauge pressure, or a surface pressure that is not above zero.

    Notes
    -----
    Source: U.S. Navy Diving Manual, capacity rule for scuba cylinders; common practice.

    Examples
    --------
    >>> round(float(ideal_content(0.012, 200e5)) * 1000)
    2381
    """
    surface = positive("surface pressure", surface_pressure, "Pa")
    shown = not_negative("gauge pressure", gauge_pressure, "Pa")
    return not_negative("water capacity", capacity, "m3") * (shown + surface) / surface
