"""A load on its strop below the bag: two bodies on a line that only pulls, slack, snatch and the highest tension.

For the few seconds after a bag moves while its strop is slack, or after a load drops into it. Depth hardly changes in
that time, so lift and weight stay as they are.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.physics.balance import line_pull, water_drag
from parbuckle.physics.line import snap_load
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen

_TO_A_SWING = 200  # steps to one swing of the two bodies on the strop: fourth order, 1e-7 of the tension
_MOST_STEPS = 200_000


@dataclass(frozen=True)
class Strop(Frozen):
    """A bag and a load on a strop, one column for each draw. Up is positive for forces and speeds.

    Parameters
    ----------
    stiffness : Floats
        Of the strop, N/m, shape (n,), above 0.
    slack : Floats
        How far the two have to part before it comes tight, m, shape (n,); negative while it is stretched.
    bag_force, load_force : Floats
        Lift of the bag less its weight, and of the load (below zero: its weight in water), N, shape (n,).
    bag_mass, load_mass : Floats
        Mass with added mass and enclosed water, kg, shape (n,), above 0.
    bag_area, load_area : Floats
        Drag area Cd*A, m2, shape (n,).
    bag_rise, load_rise : Floats
        Speed upward at the start, m/s, shape (n,).
    water_density : Floats
        kg/m3, shape (n,).
    lies : bool
        True while the load lies on the bottom: it cannot go lower than where it starts.
    """

    stiffness: Floats
    slack: Floats
    bag_force: Floats
    load_force: Floats
    bag_mass: Floats
    load_mass: Floats
    bag_area: Floats
    load_area: Floats
    bag_rise: Floats
    load_rise: Floats
    water_density: Floats
    lies: bool = False

    def __post_init__(self) -> None:
        """Check the ranges."""
        super().__post_init__()
        if not all((value > 0.0).all() for value in (self.stiffness, self.bag_mass, self.load_mass)):
            raise RangeError("stiffness of the strop and mass of bag and load must be above 0")


@dataclass(frozen=True)
class Snatch(Frozen):
    """What the strop had to hold, one column for each draw.

    Parameters
    ----------
    tension : Floats
        Highest tension, N, shape (n,).
    when : Floats
        When it came, s, shape (n,).
    slacks : Floats
        How often the strop went slack again, shape (n,).
    bag_rise, load_rise : Floats
        Speeds at the end, m/s, shape (n,).
    load_moved : Floats
        How far the load went up, m, shape (n,).
    """

    tension: Floats
    when: Floats
    slacks: Floats
    bag_rise: Floats
    load_rise: Floats
    load_moved: Floats


def snatch_tension(speed: Floats, stiffness: Floats, bag_mass: Floats, load_mass: Floats, pull: Floats) -> Floats:
    """Give the highest tension of a strop that comes tight, drag left out.

    F = F0 + sqrt(F0^2 + v^2 k m), m = m1 m2/(m1 + m2); with F0 = 0 it is v sqrt(k m).

    Parameters
    ----------
    speed : Floats
        Speed at which the two part as it comes tight, m/s, shape (n,).
    stiffness : Floats
        N/m, shape (n,).
    bag_mass, load_mass : Floats
        Mass with added mass, kg, shape (n,); the load's may be infinite while it is held.
    pull : Floats
        F0: steady tension while both move together, N, shape (n,).

    Returns
    -------
    Floats
        N, shape (n,).

    Raises
    ------
    RangeError
        Where ``snap_load`` refuses.

    Notes
    -----
    Source: energy of two bodies on a spring; the form v sqrt(k m) is the snap force of common practice in marine lifts.

    Examples
    --------
    >>> a = np.array([1.0]); round(float(snatch_tension(0.5 * a, 2e4 * a, 60.0 * a, np.inf * a, 0.0 * a)[0]))
    548
    """
    reduced = 1.0 / (1.0 / bag_mass + 1.0 / load_mass)
    return np.asarray(pull + np.hypot(pull, snap_load(speed, stiffness, reduced)))


def snatch(strop: Strop, seconds: float) -> Snatch:
    """Follow bag and load for a few seconds.

    Classical fourth-order steps, a two-hundredth of a swing each, the same for all draws.

    Parameters
    ----------
    strop : Strop
        What hangs on what.
    seconds : float
        How long, s, above 0.

    Returns
    -------
    Snatch
        Highest tension and what else came of it.

    Raises
    ------
    RangeError
        For a time that is not above zero, or one that takes more than 200,000 steps.

    Notes
    -----
    Source: Newton's second law for both, Hooke's law for the strop, quadratic drag.
    """
    reduced = 1.0 / (1.0 / strop.bag_mass + 1.0 / strop.load_mass)
    h = float((2.0 * np.pi * np.sqrt(reduced / strop.stiffness)).min()) / _TO_A_SWING
    if not 0.0 < seconds <= h * _MOST_STEPS:
        raise RangeError(f"given {seconds:g} s, allowed above 0 to {h * _MOST_STEPS:g} s for this strop")
    n = strop.stiffness.size
    y = np.array([np.zeros(n), np.zeros(n), strop.bag_rise, strop.load_rise])  # ways up, speeds
    top, when, slacks = _tension(strop, y), np.zeros(n), np.zeros(n)
    tight = top > 0.0
    for step in range(1, int(np.ceil(seconds / h)) + 1):
        k1 = _slopes(strop, y)
        k2 = _slopes(strop, y + 0.5 * h * k1)
        k3 = _slopes(strop, y + 0.5 * h * k2)
        y = y + h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + _slopes(strop, y + h * k3))
        if strop.lies:
            down = y[1] < 0.0
            y[1], y[3] = np.where(down, 0.0, y[1]), np.where(down, np.maximum(y[3], 0.0), y[3])
        pull = _tension(strop, y)
        when = np.where(pull > top, step * h, when)
        top = np.maximum(top, pull)
        slacks += tight & (pull == 0.0)
        tight = pull > 0.0
    return Snatch(top, when, slacks, y[2], y[3], y[1])


def _tension(strop: Strop, y: Floats) -> Floats:
    return np.asarray(line_pull(strop.stiffness, y[0] - y[1] - strop.slack))


def _slopes(strop: Strop, y: Floats) -> Floats:
    pull = _tension(strop, y)
    bag = strop.bag_force - pull - water_drag(strop.water_density, strop.bag_area, y[2])
    load = strop.load_force + pull - water_drag(strop.water_density, strop.load_area, y[3])
    if strop.lies:
        load = np.where((y[1] <= 0.0) & (load < 0.0), 0.0, load)
    return np.array([y[2], y[3], bag / strop.bag_mass, load / strop.load_mass])
