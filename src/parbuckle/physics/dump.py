"""What runs out of a hole under its own head: the dump valve of a bag, a flooded box that drains."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.constants import G
from parbuckle.physics.gas import ideal_density
from parbuckle.physics.holes import DISCHARGE_RANGE, hole_mass_flow
from parbuckle.physics.ranges import FloatsLike, not_negative, positive


def dump_jet(
    column: FloatsLike, water_density: FloatsLike, ambient: FloatsLike, temperature: FloatsLike
) -> NDArray[np.float64]:
    """Give the speed of the gas in an open dump valve.

    u = sqrt(2 dp / rho_gas), dp = rho_w g h; the gas stands at p + dp.

    Parameters
    ----------
    column : FloatsLike
        Height of the gas below the valve, m, any shape.
    water_density : FloatsLike
        Water density, kg/m3, any shape that fits.
    ambient : FloatsLike
        Absolute pressure of the water at the valve, Pa, any shape that fits.
    temperature : FloatsLike
        Temperature of the gas, K, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Speed, m/s; expansion left out, right to a few per cent below a quarter of the speed of sound.

    Raises
    ------
    RangeError
        For a negative column, or another value that is not above zero.

    Notes
    -----
    Source: Bernoulli's equation, common practice.

    Examples
    --------
    >>> round(float(dump_jet(0.5, 1025.0, 201843.0, 283.15)), 1)
    62.8
    """
    head = not_negative("height of the gas", column, "m") * positive("water density", water_density, "kg/m3") * G
    inside = positive("ambient pressure", ambient, "Pa") + head
    return np.sqrt(2.0 * head / ideal_density(inside, temperature))


def dump_flow(
    area: FloatsLike,
    discharge: FloatsLike,
    column: FloatsLike,
    water_density: FloatsLike,
    ambient: FloatsLike,
    temperature: FloatsLike,
) -> NDArray[np.float64]:
    """Give the flow of gas out of an open dump valve, expansion counted.

    q = m / rho(p + dp, T), dp = rho_w g h, m as in ``hole_mass_flow`` from p + dp to p.

    Parameters
    ----------
    area : FloatsLike
        Open area of the valve, m2, any shape.
    discharge : FloatsLike
        Discharge coefficient Cd, 0.3 to 1; 0.62 for a sharp edge.
    column : FloatsLike
        Height of the gas below the valve, m.
    water_density : FloatsLike
        Water density, kg/m3.
    ambient : FloatsLike
        Absolute pressure of the water at the valve, Pa.
    temperature : FloatsLike
        Temperature of the gas, K.

    Returns
    -------
    NDArray[np.float64]
        Flow at the pressure of the bag, m3/s; it dies away with the root of the column.

    Raises
    ------
    RangeError
        As for ``hole_mass_flow`` and ``dump_jet``.

    Notes
    -----
    Source: as for ``hole_mass_flow``.

    Examples
    --------
    >>> round(float(dump_flow(4.908739e-4, 0.62, 0.5, 1025.0, 201843.0, 283.15)) * 1000, 1)
    18.9
    """
    head = not_negative("height of the gas", column, "m") * positive("water density", water_density, "kg/m3") * G
    outside = positive("ambient pressure", ambient, "Pa")
    flow = hole_mass_flow(area, discharge, outside + head, outside, temperature)
    return np.asarray(flow / ideal_density(outside + head, temperature))


def drain_time(
    surface_area: FloatsLike, height: FloatsLike, hole_area: FloatsLike, discharge: FloatsLike
) -> NDArray[np.float64]:
    """Give the time in which a flooded box held in air drains through a hole in its bottom.

    t = 2 A sqrt(h) / (Cd a sqrt(2 g)); air must be able to come in.

    Parameters
    ----------
    surface_area : FloatsLike
        Area of the water inside, m2, any shape.
    height : FloatsLike
        Height of the water above the hole, m, any shape that fits.
    hole_area : FloatsLike
        Area of the hole, m2, any shape that fits.
    discharge : FloatsLike
        Discharge coefficient Cd, 0.3 to 1.

    Returns
    -------
    NDArray[np.float64]
        Time, s.

    Raises
    ------
    RangeError
        For a negative height, an area that is not above zero, or a discharge coefficient outside its range.

    Notes
    -----
    Source: Torricelli's law, common practice.

    Examples
    --------
    >>> round(float(drain_time(1.0, 0.5, 1.9634954e-3, 0.61)), 1)
    266.6
    """
    root = np.sqrt(not_negative("height of the water", height, "m"))
    out = DISCHARGE_RANGE.check(discharge) * positive("area of the hole", hole_area, "m2") * np.sqrt(2.0 * G)
    return np.asarray(2.0 * positive("area of the water", surface_area, "m2") * root / out)
