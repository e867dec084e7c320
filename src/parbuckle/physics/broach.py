"""A bag that comes up through the surface: how far it shoots out, what spills, and whether it then floats or sinks.

The bag is taken as an upright prism that stands still in width: a piston. Water and air take no energy, so the height
is an upper bound.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.physics.balance import gas_volume
from parbuckle.physics.constants import G
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Bools, Floats, Frozen


@dataclass(frozen=True)
class Arrival(Frozen):
    """A bag at its float line, on its way up, one column for each draw.

    Parameters
    ----------
    rise : Floats
        Speed upward, m/s, shape (n,), not below 0.
    mass : Floats
        All that moves, with added mass, kg, shape (n,), above 0.
    capacity : Floats
        What the bag really holds, m3, shape (n,), above 0.
    height : Floats
        Height of the full bag, m, shape (n,), above 0.
    product : Floats
        Pressure times volume of its gas, Pa m3, shape (n,).
    needed : Floats
        Gas under water that holds the load, m3, shape (n,), above 0: its weight in water, less what other bags lift,
        over rho g.
    relief : Floats
        Pressure above the water's at which a closed bag relieves, Pa, shape (n,); 0 for an open bag, whose mouth lets
        all gas go when it comes out.
    water_density : Floats
        kg/m3, shape (n,).
    surface_pressure : Floats
        Pa, shape (n,).
    """

    rise: Floats
    mass: Floats
    capacity: Floats
    height: Floats
    product: Floats
    needed: Floats
    relief: Floats
    water_density: Floats
    surface_pressure: Floats

    def __post_init__(self) -> None:
        """Check the ranges."""
        super().__post_init__()
        positive = (self.mass, self.capacity, self.height, self.needed)
        if not all((value > 0.0).all() for value in positive) or (self.rise < 0.0).any():
            raise RangeError("mass, capacity, height and needed gas must be above 0, the speed upward not below it")


@dataclass(frozen=True)
class Broach(Frozen):
    """What came of it, one column for each draw.

    Parameters
    ----------
    overshoot : Floats
        How far the bag rises above its float line, m, shape (n,).
    mouth_out : Bools
        Whether its lower end comes out of the water, shape (n,).
    spilled : Floats
        Gas lost, free m3 at the surface pressure, shape (n,).
    left : Floats
        Gas left, m3 at the pressure where it would float, shape (n,).
    floats : Bools
        Whether what is left holds the load; otherwise it sinks back, shape (n,).
    """

    overshoot: Floats
    mouth_out: Bools
    spilled: Floats
    left: Floats
    floats: Bools


def piston_rise(rise: Floats, mass: Floats, area: Floats, water_density: Floats) -> Floats:
    """Give how far a piston that floats shoots above its float line.

    y = w sqrt(M / (rho g A)).

    Parameters
    ----------
    rise : Floats
        Speed upward at the float line, m/s, any shape.
    mass : Floats
        All that moves, kg.
    area : Floats
        Cross-section of the bag, m2.
    water_density : Floats
        kg/m3.

    Returns
    -------
    Floats
        m.

    Notes
    -----
    Source: energy; true while part of the bag is still in the water.

    Examples
    --------
    >>> rises = np.array([9.0, 60.0, 100.0]) / 60.0
    >>> piston_rise(rises, np.array(120.0), np.array(0.19), np.array(1025.0)).round(2)
    array([0.04, 0.25, 0.42])
    """
    return np.asarray(rise * np.sqrt(mass / (water_density * G * area)))


def broach(arrival: Arrival) -> Broach:
    """Give what a bag does at the surface.

    While part of it is in the water it is ``piston_rise``; from the instant its lower end is out it flies on against
    the whole weight. The pressure of its gas falls by rho g y; what is then over its mouth or its relief valve goes.
    An open bag whose mouth comes out loses all.

    Parameters
    ----------
    arrival : Arrival
        The bag at its float line.

    Returns
    -------
    Broach
        Height, loss, and whether it floats.

    Raises
    ------
    RangeError
        If the bag does not hold the load at its float line.

    Notes
    -----
    Source: energy of a prism that floats; Boyle's law. An upper bound of the height: no drag, no wave.
    """
    bag = arrival
    area = bag.capacity / bag.height
    per_metre = bag.water_density * G
    pressure = bag.surface_pressure + per_metre * bag.needed / area
    volume = gas_volume(bag.product, pressure, bag.capacity)
    if (volume < bag.needed).any():
        raise RangeError("the bag does not hold the load at its float line: it has not come up")
    under = bag.height - (volume - bag.needed) / area  # depth of the mouth at the float line
    rise = piston_rise(bag.rise, bag.mass, area, bag.water_density)
    energy = 0.5 * bag.mass * bag.rise**2 - 0.5 * per_metre * area * under**2
    out = rise > under
    overshoot = np.where(out, under + energy / (per_metre * bag.needed), rise)
    lowest = np.maximum(pressure - per_metre * overshoot, bag.surface_pressure)
    held = np.minimum(bag.product, bag.capacity * (lowest + bag.relief))
    held = np.where(out & (bag.relief == 0.0), 0.0, held)
    left = gas_volume(held, pressure, bag.capacity)
    return Broach(
        overshoot=overshoot,
        mouth_out=out,
        spilled=(bag.product - held) / bag.surface_pressure,
        left=left,
        floats=left >= bag.needed,
    )
