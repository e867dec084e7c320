"""Drag laws of smooth spheres with their ranges, and the speed at which a sphere falls or rises."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.constants import G
from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive
from parbuckle.quantity.errors import RangeError

SCHILLER_NAUMANN_RANGE = Range("Reynolds number", 1e-9, 1000.0, "", "Schiller and Naumann 1933")
CLIFT_GAUVIN_RANGE = Range("Reynolds number", 1e-9, 3e5, "", "Clift and Gauvin 1971, below the drag crisis")
BROWN_LAWLER_RANGE = Range("Reynolds number", 1e-9, 2e5, "", "Brown and Lawler 2003")

_HALVINGS = 60  # of the logarithm of the Reynolds number: the width goes below 1e-15


def schiller_naumann(reynolds: FloatsLike) -> NDArray[np.float64]:
    """Give the drag coefficient of a smooth sphere by Schiller and Naumann.

    Cd = 24 / Re (1 + 0.15 Re^0.687).

    Parameters
    ----------
    reynolds : FloatsLike
        Reynolds number rho v D / mu, any shape.

    Returns
    -------
    NDArray[np.float64]
        Drag coefficient on the cross-section.

    Raises
    ------
    RangeError
        Above Re 1000.

    Notes
    -----
    Source: L. Schiller and A. Naumann, 1933, as in Clift, Grace and Weber, Bubbles, Drops and Particles (recalled).

    Examples
    --------
    >>> round(float(schiller_naumann(100.0)), 4)
    1.0917
    """
    re = SCHILLER_NAUMANN_RANGE.check(reynolds)
    return np.asarray(24.0 / re * (1.0 + 0.15 * re**0.687))


def clift_gauvin(reynolds: FloatsLike) -> NDArray[np.float64]:
    """Give the drag coefficient of a smooth sphere by Clift and Gauvin.

    Cd = 24 / Re (1 + 0.15 Re^0.687) + 0.42 / (1 + 42500 Re^-1.16).

    Parameters
    ----------
    reynolds : FloatsLike
        Reynolds number rho v D / mu, any shape.

    Returns
    -------
    NDArray[np.float64]
        Drag coefficient on the cross-section.

    Raises
    ------
    RangeError
        Above Re 300000: the drag crisis is not in it, and must not be used for bags.

    Notes
    -----
    Source: R. Clift and W. H. Gauvin, Can. J. Chem. Eng. 49 (1971) 439-448 (recalled).

    Examples
    --------
    >>> round(float(clift_gauvin(1e5)), 4)
    0.4918
    """
    re = CLIFT_GAUVIN_RANGE.check(reynolds)
    return np.asarray(24.0 / re * (1.0 + 0.15 * re**0.687) + 0.42 / (1.0 + 42500.0 * re**-1.16))


def brown_lawler(reynolds: FloatsLike) -> NDArray[np.float64]:
    """Give the drag coefficient of a smooth sphere by Brown and Lawler.

    Cd = 24 / Re (1 + 0.150 Re^0.681) + 0.407 / (1 + 8710 / Re).

    Parameters
    ----------
    reynolds : FloatsLike
        Reynolds number rho v D / mu, any shape.

    Returns
    -------
    NDArray[np.float64]
        Drag coefficient on the cross-section.

    Raises
    ------
    RangeError
        Above Re 200000.

    Notes
    -----
    Source: P. P. Brown and D. F. Lawler, J. Environ. Eng. 129 (2003) 222-231 (recalled).

    Examples
    --------
    >>> round(float(brown_lawler(1e4)), 4)
    0.4106
    """
    re = BROWN_LAWLER_RANGE.check(reynolds)
    return np.asarray(24.0 / re * (1.0 + 0.150 * re**0.681) + 0.407 / (1.0 + 8710.0 / re))


_SPHERE_LAWS: dict[str, tuple[Callable[[FloatsLike], NDArray[np.float64]], Range]] = {
    "Brown-Lawler": (brown_lawler, BROWN_LAWLER_RANGE),
    "Clift-Gauvin": (clift_gauvin, CLIFT_GAUVIN_RANGE),
    "Schiller-Naumann": (schiller_naumann, SCHILLER_NAUMANN_RANGE),
}


def sphere_drag_methods(reynolds: float) -> list[str]:
    """Name the sphere-drag laws that hold at a Reynolds number, the preferred one first.

    Parameters
    ----------
    reynolds : float
        Reynolds number rho v D / mu.

    Returns
    -------
    list[str]
        Names that ``sphere_fall_speed`` takes; empty where none holds.

    Examples
    --------
    >>> sphere_drag_methods(1e5)
    ['Brown-Lawler', 'Clift-Gauvin']
    """
    return [name for name, (_, span) in _SPHERE_LAWS.items() if span.low <= reynolds <= span.high]


def sphere_fall_speed(
    diameter: FloatsLike,
    material_density: FloatsLike,
    density: FloatsLike,
    viscosity: FloatsLike,
    method: str = "Brown-Lawler",
) -> NDArray[np.float64]:
    """Give the terminal speed of a smooth sphere, falling or rising.

    Solves Cd(Re) Re^2 = 4/3 g |rho - rho_w| rho_w D^3 / mu^2, then v = Re mu / (rho_w D) with the sign of rho - rho_w.

    Parameters
    ----------
    diameter : FloatsLike
        Diameter, m, any shape.
    material_density : FloatsLike
        Mean density of the sphere, kg/m3, any shape that fits.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.
    viscosity : FloatsLike
        Dynamic viscosity of the water, Pa s, any shape that fits.
    method : str
        Name of the drag law, see ``sphere_drag_methods``.

    Returns
    -------
    NDArray[np.float64]
        Speed, m/s, downward positive: negative for a sphere that rises, 0 for one that hovers.

    Raises
    ------
    RangeError
        For an unknown method, or where its Reynolds number would be left.

    Notes
    -----
    Source: balance of weight, buoyancy and drag, common practice; laws as named.

    Examples
    --------
    >>> round(float(sphere_fall_speed(0.01, 7850.0, 1025.0, 1.4e-3)), 3)
    1.452
    """
    if method not in _SPHERE_LAWS:
        raise RangeError(f"sphere drag law: given {method!r}, allowed {', '.join(_SPHERE_LAWS)}")
    law, span = _SPHERE_LAWS[method]
    d, mu = positive("diameter", diameter, "m"), positive("viscosity", viscosity, "Pa s")
    water = positive("water density", density, "kg/m3")
    excess = not_negative("density of the sphere", material_density, "kg/m3") - water
    target = np.asarray(4.0 / 3.0 * G * np.abs(excess) * water * d**3 / mu**2)
    most = float(law(span.high)) * span.high**2
    Range(f"4/3 of the Archimedes number ({method})", 0.0, most, "", span.source).check(target)
    low, high = np.full(target.shape, np.log(span.low)), np.full(target.shape, np.log(span.high))
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        re = np.exp(middle)
        over = law(re) * re * re > target
        low, high = np.where(over, low, middle), np.where(over, middle, high)
    speed = np.exp(0.5 * (low + high)) * mu / (water * d)
    return np.asarray(np.where(target > 0.0, np.sign(excess) * speed, 0.0))
