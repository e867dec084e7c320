"""Sums of oxygen and breathing gas that published examples ask for; each takes SI numbers and gives one number."""

from __future__ import annotations

import numpy as np

from parbuckle.dive import breathing, cylinders, mixture, oxygen
from parbuckle.dive.profile import Leg, Water, leg
from parbuckle.physics.constants import ATMOSPHERE, G
from parbuckle.quantity.breathing import Gas

_AIR = Gas("79 % nitrogen", 0.21, 0.0)
_TENS = Water(np.array([ATMOSPHERE]), np.array([1e4 / G]))  # 10 m for each bar
_FEET = Water(np.array([ATMOSPHERE]), np.array([ATMOSPHERE / (33.0 * 0.3048 * G)]))  # 33 ft for each atmosphere


def steady_lung_dose(pressure: float, time: float) -> float:
    """Give the dose of oxygen to the lungs at a steady pressure.

    Parameters
    ----------
    pressure : float
        Oxygen pressure, Pa.
    time : float
        s.

    Returns
    -------
    float
        Dose (OTU).
    """
    return float(oxygen.lung_dose(pressure, pressure, time))


def two_exposures(pressure: float, time: float, then: float, more: float) -> float:
    """Give the share of the single oxygen limit that two exposures use.

    Parameters
    ----------
    pressure : float
        First oxygen pressure, Pa.
    time : float
        s.
    then : float
        Second oxygen pressure, Pa.
    more : float
        s.

    Returns
    -------
    float
        Share.
    """
    pure = Gas("oxygen", 1.0, 0.0)
    pairs = ((np.array([p]), np.array([t])) for p, t in ((pressure, time), (then, more)))
    return float(oxygen.limit_used([Leg(p, p.copy(), t, pure) for p, t in pairs])[0])


def operating_depth_feet(share: float, limit: float) -> float:
    """Give the operating depth of a nitrox, 33 ft for each atmosphere.

    Parameters
    ----------
    share : float
        Share of oxygen.
    limit : float
        Oxygen pressure, Pa.

    Returns
    -------
    float
        Depth, m.
    """
    return float(mixture.operating_depth(Gas("mix", share, 0.0), limit, float(_FEET.density[0])))


def operating_depth_metres(share: float, limit: float) -> float:
    """Give the operating depth of a nitrox, 10 m for each bar over one bar at the surface.

    Parameters
    ----------
    share : float
        Share of oxygen.
    limit : float
        Oxygen pressure, Pa.

    Returns
    -------
    float
        Depth, m.
    """
    return float(mixture.operating_depth(Gas("mix", share, 0.0), limit, float(_TENS.density[0]), 1e5))


def air_depth(share: float, depth: float, per_atmosphere: float) -> float:
    """Give the equivalent air depth of a nitrox by a rule of thumb for the pressure.

    Parameters
    ----------
    share : float
        Share of oxygen.
    depth : float
        Depth, m.
    per_atmosphere : float
        Depth taken for one atmosphere, m.

    Returns
    -------
    float
        Depth, m.
    """
    density = ATMOSPHERE / (per_atmosphere * G)
    return float(mixture.equivalent_air_depth(Gas("mix", share, 0.0), depth, density))


def narcotic_depth(helium: float, depth: float, per_atmosphere: float) -> float:
    """Give the equivalent narcotic depth, oxygen counted, by a rule of thumb for the pressure.

    Parameters
    ----------
    helium : float
        Share of helium.
    depth : float
        Depth, m.
    per_atmosphere : float
        Depth taken for one atmosphere, m.

    Returns
    -------
    float
        Depth, m.
    """
    density = ATMOSPHERE / (per_atmosphere * G)
    return float(mixture.narcotic_depth(Gas("mix", 0.2, helium), depth, density))


def gas_breathed(rate: float, depth: float, to: float, time: float, per_atmosphere: float) -> float:
    """Give the free gas breathed on a leg, by a rule of thumb for the pressure.

    Parameters
    ----------
    rate : float
        m3/s of free gas at the surface.
    depth, to : float
        Depth at both ends, m.
    time : float
        s.
    per_atmosphere : float
        Depth taken for one atmosphere, m.

    Returns
    -------
    float
        Free gas, m3.
    """
    water = Water(np.array([ATMOSPHERE]), np.array([ATMOSPHERE / (per_atmosphere * G)]))
    return float(breathing.breathed(leg(water, depth, to, time, _AIR), rate, ATMOSPHERE)[0])


def supply_lasts(capacity: float, count: float, start: float, end: float, rate: float, depth: float) -> float:
    """Give the time that a set lasts at one depth, 33 ft for each atmosphere, with real gas at 70 degF.

    Parameters
    ----------
    capacity : float
        Water capacity of one cylinder, m3.
    count : float
        Number of cylinders.
    start, end : float
        Gauge pressures, Pa.
    rate : float
        m3/s of free gas at the surface.
    depth : float
        Depth, m.

    Returns
    -------
    float
        s.
    """
    air = np.array([ATMOSPHERE])
    kit = cylinders.Breathed(capacity, np.array([start]), _AIR, int(count), 294.26, air)
    usable = kit.content(start) - kit.content(end)
    return float(usable[0] / breathing.breathed(leg(_FEET, depth, depth, 1.0, _AIR), rate, ATMOSPHERE)[0])


def law_reserve(depth: float) -> float:
    """Give the reserve of the regulation, 10 m for each atmosphere.

    Parameters
    ----------
    depth : float
        Depth, m.

    Returns
    -------
    float
        Free gas, m3.
    """
    return float(breathing.law_reserve(ATMOSPHERE * (1.0 + depth / 10.0), ATMOSPHERE))
