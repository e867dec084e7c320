"""Lift gas: what fills, tries, spill and topping up need, what the cylinder gives, what its gauge should read."""

from __future__ import annotations

import numpy as np

from parbuckle.lift.problem import Bag, Cylinder, LiftProblem
from parbuckle.lift.result import FillStep, Supply
from parbuckle.physics.air import free_content, gauge_for_content
from parbuckle.quantity.band import LIKELY, at_share
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats


def supply(problem: LiftProblem, need: Floats, lift_off: Floats, empty: tuple[Bag, ...]) -> Supply:
    """Count the lift gas of all tries.

    Free gas = V p(interface) / p(surface), summed over tries with the spill allowance, plus the bags filled at the
    surface.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    need : Floats
        Gas that makes the load neutral, m3 at the bags, shape (n,).
    lift_off : Floats
        Gas in the bags at lift-off, m3 at the bags, shape (n,).
    empty : tuple of Bag
        Bags carried up empty and filled at the surface.

    Returns
    -------
    Supply
        Needs and what the cylinder gives.

    Notes
    -----
    Boyle's law for the bags; real gas for the cylinder.
    """
    expansion = problem.gas_pressure / problem.surface_pressure
    one_try = lift_off * expansion * (1.0 + problem.rules.spill_allowance)
    top_up = np.zeros_like(need)
    for bag in empty:
        top_up = top_up + bag.really * (1.0 + (bag.relief or 0.0) / problem.surface_pressure)
    free = problem.tries * one_try + top_up
    usable, after = (None, None)
    if problem.cylinder is not None:
        usable = usable_gas(problem, problem.cylinder)
        after = gauge_left(problem, problem.cylinder, free)
    return Supply(need, one_try, free, top_up, usable, after)


def usable_gas(problem: LiftProblem, cylinder: Cylinder) -> Floats:
    """Give the free gas from start pressure to what no longer fills at that depth.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    cylinder : Cylinder
        The lifting cylinder.

    Returns
    -------
    Floats
        m3 at surface pressure and water temperature, shape (n,).
    """
    least = problem.gas_pressure - problem.surface_pressure + problem.rules.cylinder_margin
    full = _content(problem, cylinder, cylinder.pressure)
    return np.maximum(full - _content(problem, cylinder, np.minimum(least, cylinder.pressure)), 0.0)


def gauge_left(problem: LiftProblem, cylinder: Cylinder, used: Floats) -> Floats:
    """Give the gauge pressure left after some free gas is used; 0 where there is not so much.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    cylinder : Cylinder
        The lifting cylinder.
    used : Floats
        Free gas used, m3, shape (n,).

    Returns
    -------
    Floats
        Pa, shape (n,).
    """
    start = _content(problem, cylinder, cylinder.pressure)
    left = np.maximum(start - used, 0.0)
    empty = _content(problem, cylinder, np.zeros_like(used))
    some = left > empty
    gauge = np.zeros_like(used)
    if some.any():
        gauge[some] = gauge_for_content(
            cylinder.capacity, left[some], problem.surface_pressure[some], problem.temperature[some]
        )
    return gauge


def gauge_reading(problem: LiftProblem, used: Floats) -> Floats | None:
    """Give what the cylinder's gauge should read after some gas is used, its error included.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    used : Floats
        Free gas used, m3, shape (n,).

    Returns
    -------
    Floats or None
        Pa, shape (n,); None without a cylinder.
    """
    if problem.cylinder is None:
        return None
    error = (2.0 * problem.gauge_u - 1.0) * problem.rules.gauge_error
    return np.maximum(gauge_left(problem, problem.cylinder, used) + error, 0.0)


def filling(
    problem: LiftProblem, fill: tuple[Bag, ...], gas: Floats, marks: tuple[float, ...], empty: tuple[Bag, ...]
) -> tuple[FillStep, ...]:
    """Give the steps of filling: which bag, how much, where to stop, how long, what the gauge should read.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    fill : tuple of Bag
        Bags rigged on the bottom in the order of filling, the part-filled one last.
    gas : Floats
        Gas put into each of them, m3 at the bags, shape (k, n).
    marks : tuple of float
        Where filling of each stops at the latest, m3.
    empty : tuple of Bag
        Bags filled at the surface.

    Returns
    -------
    tuple of FillStep
        One for each bag.
    """
    expansion = problem.gas_pressure / problem.surface_pressure
    steps = []
    used = np.zeros_like(expansion)
    for i, bag in enumerate(fill):
        used = used + gas[i] * expansion
        kind = "part" if i == len(fill) - 1 else "full"
        seconds = _seconds(problem, gas[i], problem.gas_pressure)
        steps.append(FillStep(bag.id, kind, gas[i], marks[i], seconds, gauge_reading(problem, used)))
    used = used * (1.0 + problem.rules.spill_allowance) if empty else used
    for bag in empty:
        used = used + bag.really
        seconds = _seconds(problem, bag.really, problem.surface_pressure)
        steps.append(FillStep(bag.id, "empty", bag.really, bag.marked, seconds, None))
    return tuple(steps)


def flow_at(cylinder: Cylinder, pressure: Floats, intermediate: float) -> Floats:
    """Give the free flow into a bag at depth: choked, so it grows slowly with the pressure behind the inflator.

    q = q_m (p + p_i) / (p_m + p_i).

    Parameters
    ----------
    cylinder : Cylinder
        The lifting cylinder with its measured flow.
    pressure : Floats
        Absolute pressure at the bag, Pa, shape (n,).
    intermediate : float
        Pressure above ambient behind the inflator, Pa.

    Returns
    -------
    Floats
        Free flow, m3/s at surface pressure, shape (n,).
    """
    return np.asarray(cylinder.flow * (pressure + intermediate) / (cylinder.flow_depth_pressure + intermediate))


def _seconds(problem: LiftProblem, volume: Floats, pressure: Floats) -> float:
    if problem.cylinder is None:
        return 0.0
    flow = flow_at(problem.cylinder, pressure, problem.rules.intermediate)
    return at_share(volume * pressure / problem.surface_pressure / flow, LIKELY)


def _content(problem: LiftProblem, cylinder: Cylinder, gauge: Floats) -> Floats:
    if cylinder.capacity <= 0.0:
        raise RangeError(f"cylinder {cylinder.id}: its water capacity is {cylinder.capacity:g} m3; it must be above 0")
    return free_content(cylinder.capacity, gauge, problem.surface_pressure, problem.temperature)
