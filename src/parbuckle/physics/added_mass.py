"""Added mass of bodies in potential flow, exact: spheroids, disc and sphere."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive
from parbuckle.quantity.errors import RangeError

SLENDER_RANGE = Range("long over short axis", 1.0 + 1e-4, 1000.0, "", "spheroid; use the sphere for 1")

SPHERE = 0.5
"""Added mass of a sphere as a share of the water it displaces (potential flow; Lamb, Hydrodynamics, article 92)."""


def prolate(slenderness: FloatsLike, direction: str) -> NDArray[np.float64]:
    """Give the added-mass coefficient of a cigar-shaped spheroid.

    With e^2 = 1 - 1/s^2, alpha = 2 (1 - e^2) / e^3 (artanh e - e), beta = 1/e^2 - (1 - e^2) / (2 e^3) ln((1+e)/(1-e)):
    axial k = alpha / (2 - alpha), lateral k = beta / (2 - beta).

    Parameters
    ----------
    slenderness : FloatsLike
        Long over short axis, above 1, any shape.
    direction : str
        "axial" or "lateral".

    Returns
    -------
    NDArray[np.float64]
        Added mass over the mass of the displaced water.

    Raises
    ------
    RangeError
        For a slenderness of 1 or less or above 1000, or an unknown direction.

    Notes
    -----
    Source: H. Lamb, Hydrodynamics, 6th edition, articles 114 and 373 (recalled); same values in DNV-RP-N103, table A-2.

    Examples
    --------
    >>> round(float(prolate(2.0, "axial")), 4)
    0.21
    """
    s = SLENDER_RANGE.check(slenderness)
    short = 1.0 / s**2
    e = np.sqrt(1.0 - short)
    log = np.log((1.0 + e) / (1.0 - e))
    if _choice(direction, "axial", "lateral"):
        shape = 2.0 * short / e**3 * (0.5 * log - e)
    else:
        shape = 1.0 / e**2 - short / (2.0 * e**3) * log
    return np.asarray(shape / (2.0 - shape))


def oblate(flatness: FloatsLike, direction: str) -> NDArray[np.float64]:
    """Give the added-mass coefficient of a lentil-shaped spheroid.

    With e^2 = 1 - 1/f^2 and q = sqrt(1 - e^2): along the short axis gamma = 2/e^2 (1 - q arcsin(e) / e); along a
    long one alpha = q / e^3 arcsin(e) - (1 - e^2) / e^2; k = gamma / (2 - gamma), or alpha / (2 - alpha).

    Parameters
    ----------
    flatness : FloatsLike
        Long over short axis, above 1, any shape.
    direction : str
        "short" for motion along the short axis, "long" for motion along a long one.

    Returns
    -------
    NDArray[np.float64]
        Added mass over the mass of the displaced water.

    Raises
    ------
    RangeError
        For a flatness of 1 or less or above 1000, or an unknown direction.

    Notes
    -----
    Source: H. Lamb, Hydrodynamics, 6th edition, articles 114 and 373 (recalled).

    Examples
    --------
    >>> round(float(oblate(2.0, "short")), 4)
    1.1151
    """
    f = SLENDER_RANGE.check(flatness)
    q = 1.0 / f
    e = np.sqrt(1.0 - q**2)
    if _choice(direction, "short", "long"):
        shape = 2.0 / e**2 * (1.0 - q * np.arcsin(e) / e)
    else:
        shape = q / e**3 * np.arcsin(e) - q**2 / e**2
    return np.asarray(shape / (2.0 - shape))


def disc(radius: FloatsLike, density: FloatsLike) -> NDArray[np.float64]:
    """Give the added mass of a thin disc that moves broadside on.

    m = 8/3 rho a^3.

    Parameters
    ----------
    radius : FloatsLike
        Radius, m, any shape.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Added mass, kg.

    Raises
    ------
    RangeError
        For a negative radius or a density that is not above zero.

    Notes
    -----
    Source: H. Lamb, Hydrodynamics, 6th edition, article 102 (recalled); potential flow.

    Examples
    --------
    >>> round(float(disc(0.5, 1025.0)), 1)
    341.7
    """
    cube = not_negative("radius", radius, "m") ** 3
    return np.asarray(8.0 / 3.0 * positive("water density", density, "kg/m3") * cube)


def sphere(volume: FloatsLike, density: FloatsLike) -> NDArray[np.float64]:
    """Give the added mass of a sphere.

    m = 1/2 rho V.

    Parameters
    ----------
    volume : FloatsLike
        Volume, m3, any shape.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Added mass, kg.

    Raises
    ------
    RangeError
        For a negative volume or a density that is not above zero.

    Notes
    -----
    Source: H. Lamb, Hydrodynamics, 6th edition, article 92 (recalled); potential flow.

    Examples
    --------
    >>> float(sphere(0.1, 1000.0))
    50.0
    """
    return SPHERE * positive("water density", density, "kg/m3") * not_negative("volume", volume, "m3")


def _choice(given: str, first: str, second: str) -> bool:
    if given not in (first, second):
        raise RangeError(f"direction: given {given!r}, allowed {first!r} or {second!r}")
    return given == first
