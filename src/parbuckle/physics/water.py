"""Water: density and viscosity of fresh, brackish and sea water at the surface pressure."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.constants import ZERO_C
from parbuckle.physics.ranges import FloatsLike, Range

SEA_SALINITY = 35.16504
"""Absolute salinity of standard sea water, g/kg (TEOS-10 manual, IOC 2010, section 2.4: 35 uPS g/kg)."""

POUND_PER_CUBIC_FOOT = 0.45359237 / 0.3048**3
"""One lb/ft3 in kg/m3 (exact; international yard and pound agreement, 1959)."""

SEA_HANDBOOK = 64.0 * POUND_PER_CUBIC_FOOT
"""Density of sea water in diving handbooks, 64 lb/ft3 in kg/m3 (common practice)."""

FRESH_HANDBOOK = 62.4 * POUND_PER_CUBIC_FOOT
"""Density of fresh water in diving handbooks, 62.4 lb/ft3 in kg/m3 (common practice)."""

SALINITY_RANGE = Range("salinity", 0.0, 42.0, "g/kg", "TEOS-10 density, oceanographic range")
TEMPERATURE_RANGE = Range("water temperature", ZERO_C - 2.0, ZERO_C + 40.0, "K", "TEOS-10; CIPM formula, 0 to 40 degC")

_TANAKA = (999.974950, 3.983035, 301.797, 522528.9, 69.34881)


def density(salinity: FloatsLike, temperature: FloatsLike) -> NDArray[np.float64]:
    """Give the density of water at zero gauge pressure.

    Fresh water (salinity 0): rho = a5 [1 - (t + a1)^2 (t + a2) / (a3 (t + a4))]. Salt water: TEOS-10, 75-term.

    Parameters
    ----------
    salinity : FloatsLike
        Absolute salinity, g/kg, any shape.
    temperature : FloatsLike
        Water temperature, K, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Density, kg/m3.

    Raises
    ------
    RangeError
        Outside 0 to 42 g/kg or -2 to 40 degC.

    Notes
    -----
    Fresh: Tanaka and others, Metrologia 38 (2001) 301-309, the CIPM formula; below 0 degC it is extrapolated by 2 K
    (within 0.01 kg/m3 of TEOS-10 there). Salt: IOC, SCOR and IAPSO 2010, through the gsw package.

    Examples
    --------
    >>> round(float(density(0.0, 288.15)), 2)
    999.1
    """
    s, kelvin = np.broadcast_arrays(SALINITY_RANGE.check(salinity), TEMPERATURE_RANGE.check(temperature))
    t = kelvin - ZERO_C
    a5, a1, a2, a3, a4 = _TANAKA
    fresh = a5 * (1.0 - (t - a1) ** 2 * (t + a2) / (a3 * (t + a4)))
    salt = s > 0.0
    if not salt.any():
        return np.asarray(fresh, dtype=np.float64)
    import gsw  # loads in 30 ms; fresh water does without it

    sea = gsw.rho(s, gsw.CT_from_t(s, t, 0.0), 0.0)
    return np.where(salt, sea, fresh)


def viscosity(salinity: FloatsLike, temperature: FloatsLike) -> NDArray[np.float64]:
    """Give the dynamic viscosity of water.

    mu_fresh = 4.2844e-5 + 1 / (0.157 (t + 64.993)^2 - 91.296); mu = mu_fresh (1 + A S + B S^2), S in kg/kg,
    A = 1.541 + 1.998e-2 t - 9.52e-5 t^2, B = 7.974 - 7.561e-2 t + 4.724e-4 t^2, t in degC.

    Parameters
    ----------
    salinity : FloatsLike
        Absolute salinity, g/kg, any shape.
    temperature : FloatsLike
        Water temperature, K, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Dynamic viscosity, Pa s.

    Raises
    ------
    RangeError
        Outside 0 to 42 g/kg or -2 to 40 degC.

    Notes
    -----
    Source: Sharqawy, Lienhard and Zubair, Desalination and Water Treatment 16 (2010) 354-380, equations 22 and 23
    (recalled). Their range is 0 to 180 degC and 0 to 150 g/kg, 1.5 %; from -2 to 0 degC it is extrapolated.

    Examples
    --------
    >>> round(float(viscosity(0.0, 293.15)) * 1e3, 3)
    1.002
    """
    s = SALINITY_RANGE.check(salinity) / 1000.0
    t = TEMPERATURE_RANGE.check(temperature) - ZERO_C
    fresh = 4.2844e-5 + 1.0 / (0.157 * (t + 64.993) ** 2 - 91.296)
    a = 1.541 + 1.998e-2 * t - 9.52e-5 * t**2
    b = 7.974 - 7.561e-2 * t + 4.724e-4 * t**2
    return np.asarray(fresh * (1.0 + a * s + b * s**2), dtype=np.float64)


def absolute_salinity(practical: FloatsLike) -> NDArray[np.float64]:
    """Turn a practical salinity, as an instrument shows it, into the reference salinity in g/kg.

    S_R = (35.16504 / 35) S_P.

    Parameters
    ----------
    practical : FloatsLike
        Practical salinity (no unit), any shape.

    Returns
    -------
    NDArray[np.float64]
        Absolute salinity of water with the composition of the open ocean, g/kg.

    Raises
    ------
    RangeError
        Outside 0 to 42.

    Notes
    -----
    Source: IOC, SCOR and IAPSO 2010 (TEOS-10 manual), section 2.4.

    Examples
    --------
    >>> round(float(absolute_salinity(35.0)), 5)
    35.16504
    """
    return Range("practical salinity", 0.0, 42.0, "", "practical salinity scale 1978").check(practical) * (
        SEA_SALINITY / 35.0
    )
