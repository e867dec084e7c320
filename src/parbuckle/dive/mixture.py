"""What a breathing gas is good for: how deep, how narcotic, how dense."""

from __future__ import annotations

import numpy as np

from parbuckle.dive.loading import AIR
from parbuckle.physics.constants import ATMOSPHERE, R
from parbuckle.physics.pressure import absolute_pressure, depth_of
from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats

OXYGEN_RANGE = Range("limit of oxygen pressure", 0.16e5, 3.0 * ATMOSPHERE, "Pa", "from just enough to 3 atm")

_OXYGEN, _HELIUM = 0.0319988, 0.0040026  # kg/mol, IUPAC standard atomic weights
_NITROGEN = 0.0281544  # kg/mol, with the argon that comes with it in air (1.18 % of it)


def operating_depth(gas: Gas, limit: FloatsLike, density: FloatsLike, surface: FloatsLike = ATMOSPHERE) -> Floats:
    """Give the depth at which the oxygen of a gas reaches a limit.

    d = (p_O2 / f_O2 - p_s) / (rho g).

    Parameters
    ----------
    gas : Gas
        What is breathed.
    limit : FloatsLike
        Oxygen pressure, Pa, any shape.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.
    surface : FloatsLike
        Air pressure at the surface, Pa, any shape that fits.

    Returns
    -------
    Floats
        Depth, m.

    Raises
    ------
    RangeError
        If the limit is outside 0.16 bar to 3 atm, if it is passed at the surface, or deeper than 1000 m.

    Notes
    -----
    Source: Dalton's law, common practice. Tables that print feet take 33 ft, those in metres 10 m for one atmosphere.

    Examples
    --------
    >>> from parbuckle.quantity.breathing import parse_gas
    >>> round(float(operating_depth(parse_gas("EAN32"), 1.4e5, 1025.0)), 1)
    33.4
    """
    return depth_of(OXYGEN_RANGE.check(limit) / positive("share of oxygen", gas.oxygen), density, surface)


def equivalent_air_depth(gas: Gas, depth: FloatsLike, density: FloatsLike, surface: FloatsLike = ATMOSPHERE) -> Floats:
    """Give the depth at which air would have the same nitrogen pressure.

    d_e = (f_N2 p / 0.79 - p_s) / (rho g), with nitrogen and argon counted together.

    Parameters
    ----------
    gas : Gas
        Air or nitrox.
    depth : FloatsLike
        Depth, m, any shape.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.
    surface : FloatsLike
        Air pressure at the surface, Pa, any shape that fits.

    Returns
    -------
    Floats
        Depth, m; negative where the gas at that depth has less nitrogen than air at the surface.

    Raises
    ------
    RangeError
        For a gas with helium, or a depth outside 0 to 1000 m.

    Notes
    -----
    Source: common practice; tables print 0.79 for nitrogen in air, here it is that of our own air, 0.7905.

    Examples
    --------
    >>> from parbuckle.quantity.breathing import parse_gas
    >>> round(float(equivalent_air_depth(parse_gas("EAN32"), 30.0, 1025.0)), 1)
    24.4
    """
    if gas.helium > 0.0:
        raise RangeError(f"given {gas.text}, allowed air and nitrox: an equivalent air depth is for gas without helium")
    there = absolute_pressure(depth, density, surface) * gas.nitrogen / AIR.nitrogen
    return _signed_depth(there, density, surface)


def narcotic_depth(
    gas: Gas, depth: FloatsLike, density: FloatsLike, surface: FloatsLike = ATMOSPHERE, oxygen_counts: bool = True
) -> Floats:
    """Give the depth at which air would be as narcotic.

    Oxygen counted: d_e = ((1 - f_He) p - p_s) / (rho g). Not counted: (f_N2 p / f_N2,air - p_s) / (rho g).

    Parameters
    ----------
    gas : Gas
        What is breathed.
    depth : FloatsLike
        Depth, m, any shape.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.
    surface : FloatsLike
        Air pressure at the surface, Pa, any shape that fits.
    oxygen_counts : bool
        Whether oxygen is as narcotic as nitrogen.

    Returns
    -------
    Floats
        Depth, m; may be negative for a gas with much helium near the surface.

    Raises
    ------
    RangeError
        For a depth outside 0 to 1000 m.

    Notes
    -----
    Source: common practice, both forms; the NOAA Diving Manual counts oxygen.

    Examples
    --------
    >>> from parbuckle.quantity.breathing import parse_gas
    >>> round(float(narcotic_depth(parse_gas("18/45"), 60.0, 1025.0)), 1)
    28.5
    """
    share = 1.0 - gas.helium if oxygen_counts else gas.nitrogen / AIR.nitrogen
    return _signed_depth(absolute_pressure(depth, density, surface) * share, density, surface)


def gas_density(gas: Gas, pressure: FloatsLike, temperature: FloatsLike) -> Floats:
    """Give the density of what is breathed, as an ideal gas.

    rho = p M / (R T), M the mean of the molar masses by volume.

    Parameters
    ----------
    gas : Gas
        What is breathed.
    pressure : FloatsLike
        Absolute pressure, Pa, any shape.
    temperature : FloatsLike
        Temperature, K, any shape that fits.

    Returns
    -------
    Floats
        Density, kg/m3 (the same number in g/l).

    Raises
    ------
    RangeError
        For a negative pressure or a temperature that is not above 0.

    Notes
    -----
    Source: ideal gas law; within 0.5 % to 7 bar.

    Examples
    --------
    >>> round(float(gas_density(AIR, 101325.0, 288.15)), 3)
    1.225
    """
    molar = gas.oxygen * _OXYGEN + gas.helium * _HELIUM + gas.nitrogen * _NITROGEN
    return np.asarray(
        not_negative("pressure", pressure, "Pa") * molar / (R * positive("temperature", temperature, "K"))
    )


def _signed_depth(pressure: Floats, density: FloatsLike, surface: FloatsLike) -> Floats:
    base = np.asarray(surface, dtype=np.float64)
    return np.where(pressure < base, -1.0, 1.0) * depth_of(base + np.abs(pressure - base), density, surface)
