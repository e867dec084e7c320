"""Closed forms of control: how a lift grows once it is off the bottom and what a team has to beat.

All take arrays of shape (n,) or anything that broadcasts with them. None of them simulates.
"""

from __future__ import annotations

import numpy as np

from parbuckle.physics.constants import G
from parbuckle.quantity.frozen import Floats


def delay_budget(drag_area: Floats, rate: float, pressure: Floats, density: Floats, expanding: Floats) -> Floats:
    """Give half of the longest reaction delay with which any tender could hold a rate.

    t = 1/2 CdA w p / (rho g^2 V_exp).

    Parameters
    ----------
    drag_area : Floats
        Drag area of everything that moves, m2.
    rate : float
        Target rate, m/s.
    pressure : Floats
        Absolute pressure of the gas at the depth asked for, Pa.
    density : Floats
        Water density, kg/m3.
    expanding : Floats
        Gas that can still expand, m3.

    Returns
    -------
    Floats
        s; infinite where nothing can expand.

    Notes
    -----
    Linear theory of a relay with delay about the target rate; half of d/k was found to be the usable part in
    simulations of this model. No lift has been measured against it.

    Examples
    --------
    >>> a = np.array([0.3]); round(float(delay_budget(a, 0.15, 131e3 + 0 * a, 1025 + 0 * a, 0.0577 + 0 * a)[0]), 2)
    0.52
    """
    with np.errstate(divide="ignore"):
        return np.asarray(0.5 * drag_area * rate * pressure / (density * G * G * np.maximum(expanding, 0.0)))


def runaway_bound(surplus: Floats, density: Floats, drag_area: Floats) -> Floats:
    """Give the bound of the speed of a runaway: all bags full, nobody vents.

    w = sqrt(2 surplus g / (rho CdA)).

    Parameters
    ----------
    surplus : Floats
        Lift of all bags when full less the required lift, kg.
    density : Floats
        Water density, kg/m3.
    drag_area : Floats
        Drag area with all bags full, m2.

    Returns
    -------
    Floats
        m/s; 0 where the full bags do not lift the load.

    Notes
    -----
    Terminal speed of the balance of surplus and drag.
    """
    return np.sqrt(2.0 * np.maximum(surplus, 0.0) * G / (density * drag_area))


def growth_rate(density: Floats, expanding: Floats, pressure: Floats, mass: Floats) -> Floats:
    """Give the growth rate of a rise just off neutral, drag left out.

    lambda = sqrt((rho g)^2 V_exp / (p m)).

    Parameters
    ----------
    density : Floats
        Water density, kg/m3.
    expanding : Floats
        Gas that can still expand, m3.
    pressure : Floats
        Absolute pressure of the gas, Pa.
    mass : Floats
        Mass that has to be accelerated, kg.

    Returns
    -------
    Floats
        1/s.

    Notes
    -----
    Linearised balance of weight and the lift of isothermal gas.
    """
    return np.sqrt((density * G) ** 2 * np.maximum(expanding, 0.0) / (pressure * mass))


def neutral_window(drag_area: Floats, rate: float) -> Floats:
    """Give the litres between standing still and rising at a rate: the gas whose lift equals the drag.

    V = 1/2 CdA w^2 / g.

    Parameters
    ----------
    drag_area : Floats
        Drag area of everything that moves, m2.
    rate : float
        Rate, m/s.

    Returns
    -------
    Floats
        m3.

    Notes
    -----
    Balance of drag and lift; the density of the water cancels.
    """
    return np.asarray(0.5 * drag_area * rate * rate / G)


def vent_needed(expanding: Floats, density: Floats, rate: float, pressure: Floats) -> Floats:
    """Give the ambient litres a second that have to be vented to hold a rate.

    q = V_exp rho g w / p.

    Parameters
    ----------
    expanding : Floats
        Gas that can still expand, m3.
    density : Floats
        Water density, kg/m3.
    rate : float
        Rate of rise, m/s.
    pressure : Floats
        Absolute pressure of the gas, Pa.

    Returns
    -------
    Floats
        m3/s at ambient pressure.

    Notes
    -----
    Boyle's law at constant rate.
    """
    return np.asarray(expanding * density * G * rate / pressure)


def no_return(
    thrust: float, density: Floats, expanding: Floats, room: Floats, pressure: Floats, depth: Floats
) -> Floats:
    """Give the rise above neutral at which the growth of the lift equals what the divers can stop.

    rho V_exp (p/(p - rho g h) - 1) = thrust, as long as the bags have room.

    Parameters
    ----------
    thrust : float
        What the divers can stop, kg.
    density : Floats
        Water density, kg/m3.
    expanding : Floats
        Gas that can still expand, m3, at the start.
    room : Floats
        How much it can expand until every bag is full, m3.
    pressure : Floats
        Absolute pressure of the gas at the start, Pa.
    depth : Floats
        Depth of the gas at the start, m: the longest rise there is.

    Returns
    -------
    Floats
        m; infinite where the lift never outgrows the divers before the surface.

    Notes
    -----
    Boyle's law; the bags' spill ends the growth.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        growth = thrust / density
        rise = pressure / (density * G) * growth / (growth + expanding)
        never = (growth > room) | (rise > depth) | (expanding <= 0.0)
    return np.where(never, np.inf, rise)
