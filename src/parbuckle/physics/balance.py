"""The one force balance, law by law and element by element: for single numbers and for columns alike.

Every law here is written so that the same source runs on floats in a compiled loop and on arrays of draws in NumPy. It
checks nothing: who calls it has checked. Up is positive for forces and speed, depth is positive downward. The amount
of gas in a bag is told by its product of pressure and volume (Pa m3), which stays the same while no gas comes or goes
and the water keeps its temperature.
"""

from __future__ import annotations

import numpy as np

from parbuckle.physics.choose import Each, larger, smaller
from parbuckle.physics.constants import G


def interface_pressure(air: Each, density: Each, depth: Each, reach: Each) -> Each:
    """Give the absolute pressure at the bags' gas-water interface.

    p = p_air + rho g (z - reach).

    Parameters
    ----------
    air : Each
        Pressure at the surface, Pa, any shape.
    density : Each
        Water density, kg/m3.
    depth : Each
        Depth of the load's reference point, m.
    reach : Each
        Height of the interface above that point, m.

    Returns
    -------
    Each
        Pa.

    Notes
    -----
    Source: hydrostatics.
    """
    return air + density * G * (depth - reach)


def gas_volume(product: Each, pressure: Each, capacity: Each) -> Each:
    """Give the volume of the gas in a bag: expanded to a pressure, at most what the bag holds.

    V = min(pV / p, C).

    Parameters
    ----------
    product : Each
        Pressure times volume of its gas, Pa m3, any shape.
    pressure : Each
        Pressure of the gas, Pa.
    capacity : Each
        What the bag holds, m3.

    Returns
    -------
    Each
        m3.

    Notes
    -----
    Source: Boyle's law.
    """
    return smaller(product / pressure, capacity)


def gas_held(product: Each, most: Each, capacity: Each) -> Each:
    """Give the gas that a bag really holds: what is over its mouth or its relief valve has gone.

    pV = min(pV, C p_most).

    Parameters
    ----------
    product : Each
        Pressure times volume of its gas, Pa m3, any shape.
    most : Each
        Highest pressure that the full bag holds, Pa: the water's for an open bag, the relief pressure above it for a
        closed one.
    capacity : Each
        What the bag holds, m3.

    Returns
    -------
    Each
        Pa m3.

    Notes
    -----
    Source: an open bag spills, a closed one relieves.
    """
    return smaller(product, capacity * most)


def skin(volume: Each, capacity: Each, full: Each) -> Each:
    """Give the measure of a bag's cross-section: its gas volume to the power 2/3.

    Parameters
    ----------
    volume : Each
        Gas in the bag, m3, any shape.
    capacity : Each
        What the bag holds, m3; not needed here, see Notes.
    full : Each
        The same measure for the full bag, m2; not needed here, see Notes.

    Returns
    -------
    Each
        m2.

    Notes
    -----
    Source: bodies of one shape. The compiled form of single numbers takes ``full`` where the bag is full and saves a
    cube root; the value is the same.
    """
    return np.cbrt(volume * volume)


def skin_one(volume: float, capacity: float, full: float) -> float:
    """Give ``skin`` for single numbers: a full bag needs no root.

    Parameters
    ----------
    volume, capacity, full : float
        The same.

    Returns
    -------
    float
        The same value, m2.
    """
    return full if volume == capacity else float(np.cbrt(volume * volume))


def lift_left(density: Each, heaviness: Each, weight: Each, gas: Each, held: Each) -> Each:
    """Give the force left over when nothing moves: lift of the gas less its weight less the weight in water.

    F = g (rho sum V - M/(R T) sum pV) - W.

    Parameters
    ----------
    density : Each
        Water density, kg/m3, any shape.
    heaviness : Each
        Mass of the gas for each unit of pV, M/(R T), kg/(Pa m3).
    weight : Each
        Weight in water of all that hangs together, N.
    gas : Each
        Volume of gas in all bags, m3.
    held : Each
        Sum of pV of the gas in all bags, Pa m3.

    Returns
    -------
    Each
        N, up positive.

    Notes
    -----
    Source: Archimedes' law; ideal gas.
    """
    return (density * gas - heaviness * held) * G - weight


def water_drag(density: Each, area: Each, rise: Each) -> Each:
    """Give the drag of the water, against the way it moves.

    D = 1/2 rho CdA v |v|.

    Parameters
    ----------
    density : Each
        Water density, kg/m3, any shape.
    area : Each
        Drag area Cd*A, m2.
    rise : Each
        Speed upward, m/s.

    Returns
    -------
    Each
        N, downward positive.

    Notes
    -----
    Source: quadratic drag, common practice for bluff bodies.
    """
    return 0.5 * density * area * rise * np.abs(rise)


def inertia(mass: Each, bag_added: Each, gas: Each) -> Each:
    """Give the mass that accelerates: load, trapped water, added mass of load and bags.

    Parameters
    ----------
    mass : Each
        All of it apart from the bags' own added mass, kg, any shape.
    bag_added : Each
        Added mass for each m3 of gas, kg/m3.
    gas : Each
        Volume of gas in all bags, m3.

    Returns
    -------
    Each
        kg.

    Notes
    -----
    Source: potential flow; the change of the added mass itself is left out.
    """
    return mass + bag_added * gas


def line_pull(stiffness: Each, stretch: Each) -> Each:
    """Give the tension of an elastic line: none while it is slack.

    T = k max(x, 0).

    Parameters
    ----------
    stiffness : Each
        N/m, any shape.
    stretch : Each
        How much longer it is pulled than it was paid out, m; negative while slack.

    Returns
    -------
    Each
        N.

    Notes
    -----
    Source: Hooke's law.
    """
    return stiffness * larger(stretch, 0.0)
