"""Drag of a body with a known drag area, and the speed at which it settles or rises."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.ranges import FloatsLike, not_negative, positive


def drag_force(density: FloatsLike, drag_area: FloatsLike, speed: FloatsLike) -> NDArray[np.float64]:
    """Give the drag of water that streams past a body, or of a body towed through it.

    F = 1/2 rho CdA v |v|.

    Parameters
    ----------
    density : FloatsLike
        Water density, kg/m3, any shape.
    drag_area : FloatsLike
        Drag area Cd A, m2, any shape that fits.
    speed : FloatsLike
        Speed of the water past the body, m/s, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Force, N, with the sign of the speed.

    Raises
    ------
    RangeError
        For a density that is not above zero or a negative drag area.

    Notes
    -----
    Source: definition of the drag coefficient.

    Examples
    --------
    >>> round(float(drag_force(1025.0, 1.0, 0.514444)), 1)
    135.6
    """
    v = np.asarray(speed, dtype=np.float64)
    area = not_negative("drag area", drag_area, "m2")
    return np.asarray(0.5 * positive("water density", density, "kg/m3") * area * v * np.abs(v))


def terminal_speed(force: FloatsLike, drag_area: FloatsLike, density: FloatsLike) -> NDArray[np.float64]:
    """Give the speed at which drag equals a steady net force; undoes ``drag_force``.

    v = sqrt(2 |F| / (rho CdA)) with the sign of F.

    Parameters
    ----------
    force : FloatsLike
        Net force, N, any shape.
    drag_area : FloatsLike
        Drag area Cd A, m2, any shape that fits.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Speed, m/s, in the direction of the force.

    Raises
    ------
    RangeError
        For a density or a drag area that is not above zero.

    Notes
    -----
    Source: definition of the drag coefficient.

    Examples
    --------
    >>> round(float(terminal_speed(98.0665, 0.2, 1025.0)), 3)
    0.978
    """
    f = np.asarray(force, dtype=np.float64)
    resist = positive("water density", density, "kg/m3") * positive("drag area", drag_area, "m2")
    return np.asarray(np.sign(f) * np.sqrt(2.0 * np.abs(f) / resist))


def sphere_area(volume: FloatsLike) -> NDArray[np.float64]:
    """Give the cross-section of the sphere that has a volume.

    A = pi (3 V / (4 pi))^(2/3).

    Parameters
    ----------
    volume : FloatsLike
        Volume, m3, any shape.

    Returns
    -------
    NDArray[np.float64]
        Area, m2.

    Raises
    ------
    RangeError
        For a negative volume.

    Notes
    -----
    Source: geometry.

    Examples
    --------
    >>> round(float(sphere_area(0.1)), 4)
    0.2605
    """
    return np.asarray(np.pi * np.cbrt(3.0 * not_negative("volume", volume, "m3") / (4.0 * np.pi)) ** 2)
