"""The ascent left alone, over all draws, and the closed forms of control for the chosen set."""

from __future__ import annotations

import numpy as np

from parbuckle.lift.control import (
    delay_budget,
    growth_rate,
    neutral_window,
    no_return,
    runaway_bound,
    vent_needed,
)
from parbuckle.lift.problem import Bag, LiftProblem
from parbuckle.lift.result import Control, Fall
from parbuckle.lift.sets import drag_area_of, split, two_thirds
from parbuckle.physics.constants import MOLAR_MASS_AIR, G
from parbuckle.physics.excursion import excursion_radius
from parbuckle.physics.forces import Body, full_depths, moving_mass, whole
from parbuckle.physics.pressure import absolute_pressure
from parbuckle.physics.rise import Rise, left_alone
from parbuckle.quantity.band import LIKELY, at_share
from parbuckle.quantity.frozen import Floats

_VENT_STEP = 3.0  # m between the rows of the venting table
_ADIABATIC = 1.4  # ratio of specific heats of air, common practice


def body_of(problem: LiftProblem, fill: tuple[Bag, ...], required: Floats, gas: Floats) -> Body:
    """Put load, rigging, bags and gas together as one moving body.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    fill : tuple of Bag
        Bags rigged on the bottom in the order of filling.
    required : Floats
        Weight in water of load, rigging and bags, kg, shape (n,).
    gas : Floats
        Gas in each bag at the start, m3 at the bags' depth, shape (k, n).

    Returns
    -------
    Body
        Ready to move.
    """
    n = required.size
    rho = problem.water_density
    given_mass, given_area = problem.added_mass, problem.drag_area
    added = problem.added_factor * rho * problem.envelope if given_mass is None else given_mass
    area = problem.drag_factor * two_thirds(problem.envelope) if given_area is None else given_area
    return Body(
        water_density=rho,
        surface_pressure=problem.surface_pressure,
        temperature=problem.temperature,
        weight=required * G,
        mass=problem.dry + problem.entrapped + added,
        bag_added_mass=problem.bag_added_factor * rho if given_mass is None else np.zeros(n),
        drag_area=area,
        bag_drag=problem.drag_factor if given_area is None else np.zeros(n),
        reach=problem.strop,
        capacity=np.array([b.really for b in fill]),
        gas=gas,
        gas_pressure=problem.gas_pressure,
        over_pressure=np.array([np.full(n, b.relief or 0.0) for b in fill]),
        gamma=_ADIABATIC if problem.adiabatic else 1.0,
        molar_mass=MOLAR_MASS_AIR,
    )


def end_depth(problem: LiftProblem, fill: tuple[Bag, ...]) -> Floats:
    """Give the depth of the load when the highest crown is at the surface.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    fill : tuple of Bag
        Bags rigged on the bottom.

    Returns
    -------
    Floats
        m, shape (n,); 0 for a point.
    """
    if problem.as_point:
        return np.zeros_like(problem.depth)
    return np.minimum(problem.strop + max(b.height for b in fill), problem.depth)


def let_go(problem: LiftProblem, body: Body, fill: tuple[Bag, ...]) -> Rise:
    """Follow the lift with nobody venting, from rest on the bottom.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    body : Body
        Load, bags and gas at lift-off.
    fill : tuple of Bag
        Bags rigged on the bottom.

    Returns
    -------
    Rise
        One column for each draw.
    """
    return left_alone(body, problem.depth, end_depth(problem, fill), problem.depth)


def control(problem: LiftProblem, fill: tuple[Bag, ...], required: Floats, body: Body) -> Control:
    """Give the closed forms of control for the chosen set.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    fill : tuple of Bag
        Bags rigged on the bottom, the part-filled one last.
    required : Floats
        Weight in water of load, rigging and bags, kg, shape (n,).
    body : Body
        Load, bags and gas at lift-off.

    Returns
    -------
    Control
        One column for each draw.
    """
    rho, per_litre, n = problem.water_density, problem.lift_density, required.size
    really = body.capacity[None]
    need = required / per_litre
    growing, full = (a[0] for a in split(really, need[None]))
    skins = two_thirds(body.capacity)
    total = really[0].sum(axis=0)
    area = drag_area_of(problem, (skins * full).sum(axis=0) + two_thirds(growing))
    full_area = drag_area_of(problem, skins.sum(axis=0))
    pressure = problem.gas_pressure
    rate = growth_rate(rho, growing, pressure, moving_mass(body, whole(body.gas)))
    shallow = absolute_pressure(problem.rules.budget_depth, rho, problem.surface_pressure)
    with np.errstate(divide="ignore"):
        doubling = np.log(2.0) / rate
    deepest = at_share(problem.depth - problem.strop, LIKELY)
    depths = tuple(float(d) for d in np.arange(np.floor(deepest / _VENT_STEP) * _VENT_STEP, 0.0, -_VENT_STEP))
    vent = np.array(
        [vent_needed(growing, rho, problem.target, absolute_pressure(d, rho, problem.surface_pressure)) for d in depths]
    ).reshape(len(depths), n)
    return Control(
        growing=growing,
        growing_share=growing / np.minimum(need, total),
        doubling_time=doubling,
        no_return=no_return(
            problem.rules.divers_stop, rho, growing, total - np.minimum(need, total), pressure, problem.depth
        ),
        window=neutral_window(area, problem.target),
        budget=delay_budget(area, problem.target, shallow, rho, growing),
        runaway=runaway_bound((total - need) * per_litre, rho, full_area),
        full_at=full_depths(body)[-1],
        vent_depths=depths,
        vent=vent,
        pull=fill[-1].pull,
    )


def fall(problem: LiftProblem, rise: Rise) -> Fall:
    """Give what happens if the load falls, and where bag and load can come up.

    Terminal speed from weight and drag of the load alone; spread as a half-normal radius; the stream carries it on
    the way.

    Parameters
    ----------
    problem : LiftProblem
        The lift.
    rise : Rise
        The ascent left alone.

    Returns
    -------
    Fall
        One column for each draw.

    Notes
    -----
    Spread after DNV-RP-F107 (radius half-normal, seen second-hand); that a rising load strays as widely as a falling
    one is an assumption.
    """
    area = problem.drag_factor * two_thirds(problem.envelope)
    speed = np.sqrt(2.0 * np.maximum(problem.wet, 0.0) * G / (problem.water_density * area))
    speed = np.maximum(speed, 1e-3)
    time = problem.depth / speed
    spread = excursion_radius(problem.depth, problem.rules.falling_angle, problem.rules.clear_share)
    return Fall(speed, time, spread + problem.stream * time, spread + problem.stream * rise.time)
