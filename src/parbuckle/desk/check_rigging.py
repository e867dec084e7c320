"""Sums of rigging, hold-back and tow that published examples ask for; each takes SI numbers and gives one number."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from parbuckle.lift.restraint import RestraintProblem, RestraintResult, restraint
from parbuckle.lift.rigging_table import class_limits
from parbuckle.lift.sling import hung
from parbuckle.physics import buoyancy, drag
from parbuckle.physics.constants import G


def two_legs(angle: float) -> float:
    """Give the tension of one of two equal legs over half the weight, worked from lengths instead of the angle.

    Parameters
    ----------
    angle : float
        Angle of the legs from horizontal, rad.

    Returns
    -------
    float
        Tension over half the weight.
    """
    return 2.0 * hung(2.0 * math.cos(angle), 1.0, 1.0).first


def connector_limit(letter: str, way: str) -> float:
    """Give the working limit of a connector that just reaches its class.

    Parameters
    ----------
    letter : str
        Class letter.
    way : str
        ``major``, ``open`` or ``minor``.

    Returns
    -------
    float
        N.
    """
    return class_limits(letter)[way]


def hold_back_anchor(volume: float, material_density: float, density: float) -> NDArray[np.float64]:
    """Give the mass in air of an anchor that holds a full bag.

    Parameters
    ----------
    volume : float
        Volume of the bag, m3.
    material_density : float
        Density of the anchor, kg/m3.
    density : float
        Water density, kg/m3.

    Returns
    -------
    NDArray[np.float64]
        Mass, kg.
    """
    lift = np.atleast_1d(buoyancy.lift_of(volume, density)) * G
    held = restraint(RestraintProblem(np.zeros(1), lift, 1e5, 3.0, 0.05, on="bag"))
    return buoyancy.dry_mass_for(held.anchor_needed / G, material_density, density)


def hold_back_pull(surplus: float, slack: float, stiffness: float) -> NDArray[np.float64]:
    """Give the pull of a hold-back on a load that comes free.

    Parameters
    ----------
    surplus : float
        Lift left over, N.
    slack : float
        Rise before the line comes tight, m.
    stiffness : float
        Stiffness of the line, N/m.

    Returns
    -------
    NDArray[np.float64]
        Pull, N.
    """
    return _held(surplus, slack, stiffness).on_load


def hold_back_snatch(surplus: float, stiffness: float) -> NDArray[np.float64]:
    """Give the pull of a hold-back without slack over the lift left over.

    Parameters
    ----------
    surplus : float
        Lift left over, N.
    stiffness : float
        Stiffness of the line, N/m.

    Returns
    -------
    NDArray[np.float64]
        Pull over surplus.
    """
    return _held(surplus, 0.0, stiffness).snatch


def bag_drag(volume: float, coefficient: float, density: float, speed: float) -> NDArray[np.float64]:
    """Give the drag of a bag taken as a sphere of its own volume.

    Parameters
    ----------
    volume : float
        Volume, m3.
    coefficient : float
        Drag coefficient on the cross-section.
    density : float
        Water density, kg/m3.
    speed : float
        Speed through the water, m/s.

    Returns
    -------
    NDArray[np.float64]
        Drag, N.
    """
    return drag.drag_force(density, coefficient * drag.sphere_area(volume), speed)


def _held(surplus: float, slack: float, stiffness: float) -> RestraintResult:
    length, stretch = 10.0, 0.1
    pull = np.array([surplus])
    return restraint(RestraintProblem(pull, pull, stiffness * length * stretch, length, stretch, slack))
