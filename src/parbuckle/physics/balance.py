"""The one force balance, law by law and element by element: for single numbers and for columns alike.

Every law here is written so that the same source runs on floats in a compiled loop and on arrays of draws in NumPy. It
checks nothing: who calls it has checked. Up is positive for forces and speed, depth is positive downward. The amount
of gas in a bag is told by its product of pressure and volume (Pa m3), which stays the same while no gas comes or goes
and the water keeps its temperature.
"""

from __future__ import annotations

import numpy as np

from parbuckle.physics.constants import G
from parbuckle.quantity.frozen import Floats


def interface_pressure(air: Floats, density: Floats, depth: Floats, reach: Floats) -> Floats:
    """Give the absolute pressure at the bags' gas-water interface.

    p = p_air + rho g (z - reach).

    Parameters
    ----------
    air : Floats
        Pressure at the surface, Pa, any shape.
    density : Floats
        Water density, kg/m3.
    depth : Floats
        Depth of the load's reference point, m.
    reach : Floats
        Height of the interface above that point, m.

    Returns
    -------
    Floats
        Pa.

    Notes
    -----
    Source: hydrostatics.
    """
    return air + density * G * (depth - reach)


def gas_volume(product: Floats, pressure: Floats, capacity: Floats) -> Floats:
    """Give the volume of the gas in a bag: expanded to a pressure, at most what the bag holds.

    V = min(pV / p, C).

    Parameters
    ----------
    product : Floats
        Pressure times volume of its gas, Pa m3, any shape.
    pressure : Floats
        Pressure of the gas, Pa.
    capacity : Floats
        What the bag holds, m3.

    Returns
    -------
    Floats
        m3.

    Notes
    -----
    Source: Boyle's law.
    """
    return np.minimum(product / pressure, capacity)


def gas_held(product: Floats, most: Floats, capacity: Floats) -> Floats:
    """Give the gas that a bag really holds: what is over its mouth or its relief valve has gone.

    pV = min(pV, C p_most).

    Parameters
    ----------
    product : Floats
        Pressure times volume of its gas, Pa m3, any shape.
    most : Floats
        Highest pressure that the full bag holds, Pa: the water's for an open bag, the relief pressure above it for a
        closed one.
    capacity : Floats
        What the bag holds, m3.

    Returns
    -------
    Floats
        Pa m3.

    Notes
    -----
    Source: an open bag spills, a closed one relieves.
    """
    return np.minimum(product, capacity * most)


def skin(volume: Floats, capacity: Floats, full: Floats) -> Floats:
    """Give the measure of a bag's cross-section: its gas volume to the power 2/3.

    Parameters
    ----------
    volume : Floats
        Gas in the bag, m3, any shape.
    capacity : Floats
        What the bag holds, m3; not needed here, see Notes.
    full : Floats
        The same measure for the full bag, m2; not needed here, see Notes.

    Returns
    -------
    Floats
        m2.

    Notes
    -----
    Source: bodies of one shape. The compiled form of single numbers takes ``full`` where the bag is full and saves a
    cube root; the value is the same.
    """
    return np.cbrt(volume * volume)


def lift_left(density: Floats, heaviness: Floats, weight: Floats, gas: Floats, held: Floats) -> Floats:
    """Give the force left over when nothing moves: lift of the gas less its weight less the weight in water.

    F = g (rho sum V - M/(R T) sum pV) - W.

    Parameters
    ----------
    density : Floats
        Water density, kg/m3, any shape.
    heaviness : Floats
        Mass of the gas for each unit of pV, M/(R T), kg/(Pa m3).
    weight : Floats
        Weight in water of all that hangs together, N.
    gas : Floats
        Volume of gas in all bags, m3.
    held : Floats
        Sum of pV of the gas in all bags, Pa m3.

    Returns
    -------
    Floats
        N, up positive.

    Notes
    -----
    Source: Archimedes' law; ideal gas.
    """
    return (density * gas - heaviness * held) * G - weight


def water_drag(density: Floats, area: Floats, rise: Floats) -> Floats:
    """Give the drag of the water, against the way it moves.

    D = 1/2 rho CdA v |v|.

    Parameters
    ----------
    density : Floats
        Water density, kg/m3, any shape.
    area : Floats
        Drag area Cd*A, m2.
    rise : Floats
        Speed upward, m/s.

    Returns
    -------
    Floats
        N, downward positive.

    Notes
    -----
    Source: quadratic drag, common practice for bluff bodies.
    """
    return 0.5 * density * area * rise * np.abs(rise)


def inertia(mass: Floats, bag_added: Floats, gas: Floats) -> Floats:
    """Give the mass that accelerates: load, trapped water, added mass of load and bags.

    Parameters
    ----------
    mass : Floats
        All of it apart from the bags' own added mass, kg, any shape.
    bag_added : Floats
        Added mass for each m3 of gas, kg/m3.
    gas : Floats
        Volume of gas in all bags, m3.

    Returns
    -------
    Floats
        kg.

    Notes
    -----
    Source: potential flow; the change of the added mass itself is left out.
    """
    return mass + bag_added * gas


def line_pull(stiffness: Floats, stretch: Floats) -> Floats:
    """Give the tension of an elastic line: none while it is slack.

    T = k max(x, 0).

    Parameters
    ----------
    stiffness : Floats
        N/m, any shape.
    stretch : Floats
        How much longer it is pulled than it was paid out, m; negative while slack.

    Returns
    -------
    Floats
        N.

    Notes
    -----
    Source: Hooke's law.
    """
    return stiffness * np.maximum(stretch, 0.0)
