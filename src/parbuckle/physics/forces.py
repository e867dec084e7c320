"""Load, bags and gas on the way up or down, for many draws at once; every law comes from ``balance``.

Up is positive for forces and for the speed of rise; depth is positive downward and is the depth of the load's own
reference point. Gas of bag i lies ``reach`` metres above that point and is isothermal unless ``gamma`` says
otherwise.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from parbuckle.physics.balance import inertia, interface_pressure, lift_left, skin, water_drag
from parbuckle.physics.constants import MOLAR_MASS_AIR, G, R
from parbuckle.quantity.frozen import Bools, Floats, Frozen, Numbers


@dataclass(frozen=True)
class Body(Frozen):
    """Load, rigging, bags and gas that move together, one column for each draw.

    Parameters
    ----------
    water_density : Floats
        kg/m3, shape (n,).
    surface_pressure : Floats
        Absolute pressure at the surface, Pa, shape (n,).
    temperature : Floats
        Water and gas temperature, K, shape (n,).
    weight : Floats
        Weight in water of load, rigging and empty bags, N, shape (n,).
    mass : Floats
        What has to be accelerated apart from the bags' own added mass: dry mass, trapped water, fixed added mass, kg,
        (n,).
    bag_added_mass : Floats
        Added mass for each m3 of bag gas, kg/m3, shape (n,).
    drag_area : Floats
        Fixed drag area Cd*A, m2, shape (n,).
    bag_drag : Floats
        Drag area of each bag divided by its gas volume to the power 2/3, shape (n,).
    reach : Floats
        Height of the gas-water interface above the load's reference point, m, shape (n,).
    capacity : Floats
        What each bag really holds, m3, shape (k, n).
    gas : Floats
        Volume that the gas of each bag would fill at ``gas_pressure``, m3, shape (k, n).
    gas_pressure : Floats
        Absolute pressure at which ``gas`` was counted, Pa, shape (n,).
    over_pressure : Floats
        Relief pressure above ambient that a closed bag holds, Pa, shape (k, n); 0 for open bags.
    gamma : float
        1 for isothermal gas, 1.4 for the adiabatic limit of air.
    molar_mass : float
        Molar mass of the gas, kg/mol; 0 leaves its weight out.
    """

    water_density: Floats
    surface_pressure: Floats
    temperature: Floats
    weight: Floats
    mass: Floats
    bag_added_mass: Floats
    drag_area: Floats
    bag_drag: Floats
    reach: Floats
    capacity: Floats
    gas: Floats
    gas_pressure: Floats
    over_pressure: Floats
    gamma: float = 1.0
    molar_mass: float = MOLAR_MASS_AIR

    def take(self, lanes: Numbers | Bools) -> Body:
        """Give the body for some of the draws only.

        Parameters
        ----------
        lanes : Numbers or Bools
            Mask or indices along the last axis.

        Returns
        -------
        Body
            The same fields, fewer columns.
        """
        names = [f for f in self.__dataclass_fields__ if isinstance(getattr(self, f), np.ndarray)]
        return replace(self, **{name: getattr(self, name)[..., lanes] for name in names})


def gas_pressure_at(body: Body, depth: Floats) -> Floats:
    """Give the absolute pressure at the bags' gas-water interface.

    Parameters
    ----------
    body : Body
        What moves.
    depth : Floats
        Depth of the load, m, shape (n,).

    Returns
    -------
    Floats
        Pa, shape (n,).
    """
    return np.asarray(interface_pressure(body.surface_pressure, body.water_density, depth, body.reach))


def gas_volumes(body: Body, pressure: Floats) -> Floats:
    """Give the volume of gas in each bag: the gas expanded to a pressure, at most what the bag holds.

    V = min(V0 (p0/p)^(1/gamma), capacity).

    Parameters
    ----------
    body : Body
        What moves.
    pressure : Floats
        Absolute pressure at the interface, Pa, shape (n,).

    Returns
    -------
    Floats
        m3, shape (k, n).

    Notes
    -----
    Boyle's law (gamma 1) or the adiabatic limit.
    """
    ratio = body.gas_pressure / pressure
    if body.gamma != 1.0:
        ratio = ratio ** (1.0 / body.gamma)
    return np.minimum(body.gas * ratio, body.capacity)


def whole(volumes: Floats) -> Floats:
    """Add up the gas of all bags.

    Parameters
    ----------
    volumes : Floats
        Gas in each bag, m3, shape (k, n), k at least 1.

    Returns
    -------
    Floats
        m3, shape (n,).
    """
    total: Floats = volumes[0]
    for one in volumes[1:]:  # sooner than a sum over the first axis for a few bags
        total = total + one
    return total


def net_lift(body: Body, pressure: Floats, gas: Floats) -> Floats:
    """Give the force left over when nothing moves: lift of the gas less its weight less the weight in water.

    F = (rho_w - rho_gas) g V - W; a full closed bag also holds the weight of its gas up to the relief pressure.

    Parameters
    ----------
    body : Body
        What moves.
    pressure : Floats
        Absolute pressure at the interface, Pa, shape (n,).
    gas : Floats
        Gas in all bags, m3, shape (n,).

    Returns
    -------
    Floats
        N, up positive, shape (n,).
    """
    held = _thinned(body, pressure) * gas
    if body.over_pressure.any():
        held = held + _kept(body, pressure)
    return np.asarray(lift_left(body.water_density, (body.molar_mass / R) / body.temperature, body.weight, gas, held))


def _thinned(body: Body, pressure: Floats) -> Floats:
    """Pressure that the gas would have at water temperature and the density it has now: no gas is lost by cooling."""
    if body.gamma == 1.0:
        return pressure
    return np.asarray(body.gas_pressure * (pressure / body.gas_pressure) ** (1.0 / body.gamma))


def _kept(body: Body, pressure: Floats) -> Floats:
    """Give what full closed bags hold beyond their volume at ambient pressure: up to their relief pressure, Pa m3."""
    most = body.capacity * (_thinned(body, pressure + body.over_pressure) - _thinned(body, pressure))
    over = body.gas * body.gas_pressure - body.capacity * _thinned(body, pressure)
    return whole(np.clip(over, 0.0, most))


def moving_mass(body: Body, gas: Floats) -> Floats:
    """Give the mass that accelerates: load, trapped water and added mass of load and bags.

    Parameters
    ----------
    body : Body
        What moves.
    gas : Floats
        Gas in all bags, m3, shape (n,).

    Returns
    -------
    Floats
        kg, shape (n,).
    """
    return np.asarray(inertia(body.mass, body.bag_added_mass, gas))


def drag_area(body: Body, volumes: Floats) -> Floats:
    """Give the drag area of everything that moves: CdA = fixed + k sum(V^(2/3)).

    Parameters
    ----------
    body : Body
        What moves.
    volumes : Floats
        Gas in each bag, m3, shape (k, n).

    Returns
    -------
    Floats
        m2, shape (n,).
    """
    return np.asarray(body.drag_area + body.bag_drag * whole(skin(volumes, body.capacity, volumes)))


def acceleration(body: Body, depth: Floats, rise: Floats) -> Floats:
    """Give the acceleration upward.

    a = (F - 1/2 rho CdA v|v|) / m.

    Parameters
    ----------
    body : Body
        What moves.
    depth : Floats
        Depth of the load, m, shape (n,).
    rise : Floats
        Speed upward, m/s, shape (n,).

    Returns
    -------
    Floats
        m/s2, shape (n,).
    """
    pressure = gas_pressure_at(body, depth)
    volumes = gas_volumes(body, pressure)
    gas = whole(volumes)
    drag = water_drag(body.water_density, drag_area(body, volumes), rise)
    return np.asarray((net_lift(body, pressure, gas) - drag) / moving_mass(body, gas))


def full_depths(body: Body) -> Floats:
    """Give the depth of the load at which each bag becomes full.

    p_full = p0 (V0/C)^gamma.

    Parameters
    ----------
    body : Body
        What moves.

    Returns
    -------
    Floats
        m, shape (k, n); minus infinity for an empty bag.
    """
    share = body.gas / body.capacity
    full = body.gas_pressure * (share if body.gamma == 1.0 else share**body.gamma)
    depth = body.reach + (full - body.surface_pressure) / (body.water_density * G)
    return np.where(body.gas > 0.0, depth, -np.inf)
