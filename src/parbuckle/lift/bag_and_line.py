"""Bag and line: a load kept some kilos heavy under its bags and hauled; what the line holds, and if it parts."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.lift.hauling import HaulProblem, HaulResult, hauling
from parbuckle.lift.line_pull import light_at, line_pull
from parbuckle.physics.constants import G
from parbuckle.physics.drag import terminal_speed
from parbuckle.physics.forces import Body, drag_area, gas_pressure_at, gas_volumes
from parbuckle.quantity.band import LIKELY, at_share
from parbuckle.quantity.frozen import Bools, Floats, Frozen


@dataclass(frozen=True)
class LineLiftProblem(Frozen):
    """A load that is kept heavy under bags and hauled on a line.

    Parameters
    ----------
    body : Body
        Load, bags and the gas that leaves it heavy on the bottom.
    depth, end : Floats
        Depth of the load on the bottom and with the crown at the surface, m, shape (n,).
    breakout : Floats
        What the bottom may hold besides, kg, shape (n,).
    rate : float
        Steady speed of the haul, m/s.
    strength : float or None
        Breaking strength of the line, N; None when not known.
    kept : float or None
        Share that its knots keep; None: a knot.
    hands : int or None
        People who can pull; None when not known.
    """

    body: Body
    depth: Floats
    end: Floats
    breakout: Floats
    rate: float
    strength: float | None = None
    kept: float | None = None
    hands: int | None = None


@dataclass(frozen=True)
class LineLiftResult(Frozen):
    """What line, people and bags do on the way up.

    Parameters
    ----------
    heavy : Floats
        How much heavier than neutral it is kept on the bottom, kg, shape (n,).
    tension : Floats
        Most that the line feels at a steady haul, with the hold of the bottom, N, shape (n,).
    haul : HaulResult
        People, hands and limit for the high end of it, dynamic factor counted.
    light_at : Floats
        Depth at which it is no longer heavy, m, shape (n,); minus infinity where it stays heavy to the surface.
    stays_heavy : Bools
        True where it is heavy all the way, shape (n,).
    vent : Floats
        Gas to be let out on the way so that it is as heavy at the surface as on the bottom, m3 there, shape (n,).
    sinks_at : Floats
        Speed at which it sinks when the line parts on the bottom's side, m/s, shape (n,); 0 where it floats.
    """

    heavy: Floats
    tension: Floats
    haul: HaulResult
    light_at: Floats
    stays_heavy: Bools
    vent: Floats
    sinks_at: Floats


def line_lift(problem: LineLiftProblem) -> LineLiftResult:
    """Follow the pull on the line from the bottom to the surface in closed form.

    T(z) = W - (rho - rho_gas) g V(z) + drag at the steady haul; it is greatest on the bottom, because the gas grows on
    the way. Gas to let out = (T on the bottom - T at the surface) / (rho g), at rest, the weight of the gas left out.

    Parameters
    ----------
    problem : LineLiftProblem
        Load, gas, line and people.

    Returns
    -------
    LineLiftResult
        One column for each draw.

    Notes
    -----
    The line feels the hold of the bottom before the haul moves anything, so both are added. Source: balance of forces.
    """
    body = problem.body
    still, top = line_pull(body, problem.depth), line_pull(body, problem.end)
    hauled = line_pull(body, problem.depth, problem.rate)
    tension = np.maximum(hauled + problem.breakout * G, 0.0)
    area = drag_area(body, gas_volumes(body, gas_pressure_at(body, problem.depth)))
    heavy = still > 0.0
    sinks = np.where(heavy, terminal_speed(np.where(heavy, still, 0.0), area, body.water_density), 0.0)
    light = light_at(body, problem.depth, problem.end)
    return LineLiftResult(
        heavy=still / G,
        tension=tension,
        haul=hauling(HaulProblem(tension, strength=problem.strength, people=problem.hands, kept=problem.kept)),
        light_at=light,
        stays_heavy=np.isneginf(light),
        vent=np.maximum(still - top, 0.0) / (body.water_density * G),
        sinks_at=sinks,
    )


def light_likely(result: LineLiftResult) -> float | None:
    """Give the likely depth at which the load is no longer heavy, where that happens in most draws.

    Parameters
    ----------
    result : LineLiftResult
        What was found.

    Returns
    -------
    float or None
        m, the middle of the draws in which it happens; None when it stays heavy in half of the draws or more.
    """
    if result.stays_heavy.mean() >= LIKELY:
        return None
    return at_share(result.light_at[~result.stays_heavy], LIKELY)
