"""What a line from above feels while the load under its bags is hauled or let down, and where it goes slack."""

from __future__ import annotations

import numpy as np

from parbuckle.physics.forces import Body, drag_area, gas_pressure_at, gas_volumes, net_lift, whole
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats

_HALVINGS = 40  # the depth is then right to the depth of the water over 2**40


def line_pull(body: Body, depth: Floats, rise: float = 0.0) -> Floats:
    """Give the pull on a line that moves a load steadily, with the gas that its bags hold at that depth.

    T = W - (rho - rho_gas) g V(z) + 1/2 rho CdA v|v|; below zero it is slack and the load floats up by itself.

    Parameters
    ----------
    body : Body
        Load, bags and gas.
    depth : Floats
        Depth of the load, m, shape (n,).
    rise : float
        Steady speed upward, m/s; negative while it is let down.

    Returns
    -------
    Floats
        N, shape (n,); negative where the load floats.

    Notes
    -----
    Balance of forces at a steady speed; the line's own weight and drag are left out.
    """
    pressure = gas_pressure_at(body, depth)
    volumes = gas_volumes(body, pressure)
    drag = 0.5 * body.water_density * drag_area(body, volumes) * rise * abs(rise)
    return np.asarray(drag - net_lift(body, pressure, whole(volumes)))


def light_at(body: Body, depth: Floats, end: Floats) -> Floats:
    """Give the depth at which the growing gas has taken all weight off the line.

    The root of T(z) = 0 at rest; T grows with depth, so there is one at most.

    Parameters
    ----------
    body : Body
        Load, bags and gas.
    depth, end : Floats
        Depth of the load at the start and with the crown at the surface, m, shape (n,).

    Returns
    -------
    Floats
        m, shape (n,); minus infinity where it is still heavy at the surface, ``depth`` where it is light at the start.

    Raises
    ------
    RangeError
        If the end lies below the start.

    Notes
    -----
    Bisection. Without the weight of the gas, before the last bag is full: p = rho g V_part p0 / (W - rho g V_full).
    """
    if np.any(end > depth):
        raise RangeError("the crown is at the surface before the load has left the bottom")
    shallow, deep = end.astype(float), depth.astype(float)
    for _ in range(_HALVINGS):
        middle = 0.5 * (shallow + deep)
        heavy = line_pull(body, middle) > 0.0
        shallow, deep = np.where(heavy, shallow, middle), np.where(heavy, middle, deep)
    at_start, at_end = line_pull(body, depth) <= 0.0, line_pull(body, end) > 0.0
    return np.where(at_end, -np.inf, np.where(at_start, depth, 0.5 * (shallow + deep)))
