"""What a cohesive bottom may hold by its strength, and the mud that comes along."""

from __future__ import annotations

import numpy as np

from parbuckle.physics.constants import G
from parbuckle.physics.ranges import FloatsLike, Range, not_negative
from parbuckle.quantity.frozen import Floats

SKEMPTON_DEEPEST = 2.5
"""Depth over width beyond which Skempton's factor grows no more (Skempton 1951; a course text, read second hand)."""

SKEMPTON_SIDES = Range("width over length", 0.0, 1.0, "", "Skempton 1951: width is the shorter side")

MUD_DENSITY = 1500.0
"""Density of mud that comes along, kg/m3 (common practice)."""


def skempton_factor(depth_ratio: FloatsLike, side_ratio: FloatsLike) -> Floats:
    """Give the bearing factor of a base in cohesive soil: q/Su = 5 (1 + 0.2 D/B) (1 + 0.2 B/L).

    Beyond D/B = 2.5 the source holds the factor at its value there.

    Parameters
    ----------
    depth_ratio : FloatsLike
        Depth in the bottom over width, D/B, any shape.
    side_ratio : FloatsLike
        Width over length, B/L, 0 (strip) to 1 (square), same shape.

    Returns
    -------
    Floats
        Factor. Valid for undrained cohesive soil; 5 (not 6) before the brackets.

    Raises
    ------
    RangeError
        If D/B is negative or B/L lies outside 0 to 1.

    Notes
    -----
    Source: Skempton 1951, as printed in a soil-mechanics course (read second hand).

    Examples
    --------
    >>> skempton_factor(np.array([0.0, 2.5, 9.0]), 1.0).tolist()
    [6.0, 9.0, 9.0]
    """
    depth = np.minimum(not_negative("depth over width", depth_ratio), SKEMPTON_DEEPEST)
    return np.asarray(5.0 * (1.0 + 0.2 * depth) * (1.0 + 0.2 * SKEMPTON_SIDES.check(side_ratio)), dtype=np.float64)


def reverse_bearing(shear: Floats, footprint: Floats, buried: Floats, ambient_pressure: Floats) -> Floats:
    """Give the largest hold of a square base with suction: F = min(q A, p A), q by Skempton, in kg.

    Parameters
    ----------
    shear : Floats
        Undrained shear strength, Pa, shape (n,).
    footprint : Floats
        Area that touches the bottom, m2, shape (n,); taken as square.
    buried : Floats
        Depth to which it has sunk in, m, shape (n,).
    ambient_pressure : Floats
        Absolute pressure at the bottom, Pa, shape (n,); suction cannot be more.

    Returns
    -------
    Floats
        kg as a mass-equivalent, shape (n,). Valid for cohesive soil.

    Raises
    ------
    RangeError
        If one of them is negative.

    Notes
    -----
    Source: Skempton's factor used as reverse bearing, also the basis of Rapoport and Young 1983 (recalled); the cap is
    the absolute pressure times the area.

    Examples
    --------
    >>> one = np.ones(1)
    >>> round(float(reverse_bearing(1000.0 * one, 0.04 * one, 0.0 * one, 2e5 * one)[0]), 2)
    24.47
    """
    area = not_negative("footprint", footprint, "m2")
    strength = not_negative("shear strength", shear, "Pa")
    depth = not_negative("depth in the bottom", buried, "m")
    width = np.sqrt(area)
    ratio = np.divide(depth, width, out=np.zeros(width.shape), where=width > 0.0)
    pressure = np.minimum(strength * skempton_factor(ratio, np.ones(width.shape)), ambient_pressure)
    return np.asarray(pressure * area / G, dtype=np.float64)


def mud_mass(footprint: Floats, buried: Floats, share: Floats) -> Floats:
    """Give the mud that comes along: m = share x 1,500 kg/m3 x footprint x depth.

    Parameters
    ----------
    footprint : Floats
        m2, shape (n,).
    buried : Floats
        m, shape (n,).
    share : Floats
        Share of that volume that clings, shape (n,).

    Returns
    -------
    Floats
        kg, shape (n,). Valid for cohesive bottoms.

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> one = np.ones(1)
    >>> float(mud_mass(0.2 * one, 0.1 * one, 0.5 * one)[0])
    15.0
    """
    return MUD_DENSITY * footprint * buried * share
