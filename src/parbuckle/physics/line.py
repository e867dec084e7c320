"""Lines under sudden load: how stiff a line is, what it feels when a weight falls into it, slam of the water."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive

STRETCH_RANGE = Range("stretch at break", 0.005, 0.6, "", "fibre ropes; 0.03 for aramid to 0.35 for nylon")
SLAM_RANGE = Range("slam coefficient", 2.0, 10.0, "", "3 for a smooth cylinder, 5 and more for flat bottoms")

_FREE, _CAUGHT = 0.2, 0.7  # shares of the crane-tip speed at which the correction starts and ends, DNV-RP-H103 4.7


def line_stiffness(breaking_load: FloatsLike, stretch: FloatsLike, length: FloatsLike) -> NDArray[np.float64]:
    """Give the stiffness of a line from what its maker prints.

    k = F_break / (e_break L), as if it stretched evenly to the break.

    Parameters
    ----------
    breaking_load : FloatsLike
        Breaking load, N, any shape.
    stretch : FloatsLike
        Stretch at break as a share of the length, any shape that fits.
    length : FloatsLike
        Length of the line, m, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Stiffness, N/m.

    Raises
    ------
    RangeError
        For a stretch outside 0.5 to 60 %, or another value that is not above zero.

    Notes
    -----
    Source: Hooke's law, common practice; a real line is softer at first.

    Examples
    --------
    >>> round(float(line_stiffness(20e3, 0.25, 10.0)), 6)
    8000.0
    """
    give = STRETCH_RANGE.check(stretch) * positive("length of the line", length, "m")
    return positive("breaking load", breaking_load, "N") / give


def snap_load(speed: FloatsLike, stiffness: FloatsLike, mass: FloatsLike) -> NDArray[np.float64]:
    """Give the extra tension when a moving mass comes to the end of a slack line.

    F = v sqrt(k m); where the weight also hangs on the line, add it.

    Parameters
    ----------
    speed : FloatsLike
        Speed when the line comes tight, m/s, any shape.
    stiffness : FloatsLike
        Stiffness of the line, N/m, any shape that fits.
    mass : FloatsLike
        Moving mass with its added mass, kg, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Tension, N.

    Raises
    ------
    RangeError
        For a negative speed, stiffness or mass.

    Notes
    -----
    Source: balance of energy; DNV-RP-H103, section 4.7 (recalled).

    Examples
    --------
    >>> float(snap_load(1.0, 10e3, 100.0))
    1000.0
    """
    root = np.sqrt(not_negative("stiffness", stiffness, "N/m") * not_negative("mass", mass, "kg"))
    return not_negative("speed", speed, "m/s") * root


def sudden_load(weight: FloatsLike, drop: FloatsLike, stiffness: FloatsLike) -> NDArray[np.float64]:
    """Give the greatest tension when a weight falls into a line.

    F = W (1 + sqrt(1 + 2 h k / W)); with no drop it is twice the weight.

    Parameters
    ----------
    weight : FloatsLike
        Weight, N, any shape.
    drop : FloatsLike
        Free fall before the line comes tight, m, any shape that fits.
    stiffness : FloatsLike
        Stiffness of the line, N/m, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Tension, N.

    Raises
    ------
    RangeError
        For a weight that is not above zero, or a negative drop or stiffness.

    Notes
    -----
    Source: balance of energy, common practice.

    Examples
    --------
    >>> round(float(sudden_load(490.3325, 0.1, 20e3)))
    1974
    """
    w = positive("weight", weight, "N")
    fall = 2.0 * not_negative("drop", drop, "m") * not_negative("stiffness", stiffness, "N/m")
    return np.asarray(w * (1.0 + np.sqrt(1.0 + fall / w)))


def snap_speed(free_fall: FloatsLike, relative: FloatsLike) -> NDArray[np.float64]:
    """Give the speed at which a slack line comes tight under a heaving boat.

    v = v_ff + C v_r; C = 1 for v_ff <= 0.2 v_r, cos[pi (v_ff / v_r - 0.2)] to 0.7 v_r, 0 above.

    Parameters
    ----------
    free_fall : FloatsLike
        Terminal speed of the load falling freely in the water, m/s, any shape.
    relative : FloatsLike
        Speed of the upper end of the line, relative to the water, m/s, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Speed, m/s.

    Raises
    ------
    RangeError
        For a negative free-fall speed or a relative speed that is not above zero.

    Notes
    -----
    Source: DNV-RP-H103, section 4.7 (recalled).

    Examples
    --------
    >>> float(snap_speed(0.1, 1.0))
    1.1
    """
    fall, end = not_negative("free-fall speed", free_fall, "m/s"), positive("relative speed", relative, "m/s")
    ratio = fall / end
    wave = np.cos(np.pi * (ratio - _FREE))
    share = np.where(ratio <= _FREE, 1.0, np.where(ratio < _CAUGHT, wave, 0.0))
    return np.asarray(fall + share * end)


def slam_force(density: FloatsLike, slam: FloatsLike, area: FloatsLike, speed: FloatsLike) -> NDArray[np.float64]:
    """Give the force of the water on a body that goes through the surface.

    F = 1/2 rho Cs A v^2.

    Parameters
    ----------
    density : FloatsLike
        Water density, kg/m3, any shape.
    slam : FloatsLike
        Slam coefficient Cs, any shape that fits.
    area : FloatsLike
        Area that meets the water, m2, any shape that fits.
    speed : FloatsLike
        Speed of the body against the surface, m/s, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Force, N.

    Raises
    ------
    RangeError
        For a slam coefficient outside 2 to 10, or a negative area or speed.

    Notes
    -----
    Source: DNV-RP-H103, section 4.3.4 (formula and 5.0 for flat bottoms seen in public source code; 3.0 recalled).

    Examples
    --------
    >>> round(float(slam_force(1025.0, 3.0, 0.5, 1.0)))
    769
    """
    head = 0.5 * positive("water density", density, "kg/m3") * not_negative("speed", speed, "m/s") ** 2
    return np.asarray(head * SLAM_RANGE.check(slam) * not_negative("area", area, "m2"))
