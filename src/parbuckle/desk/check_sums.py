"""Sums of water, gas and lift that published examples ask for; each takes SI numbers and gives one number."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics import air, buoyancy, drag, gas, pressure, water
from parbuckle.physics.constants import ATMOSPHERE

_Number = NDArray[np.float64]


def pressure_at_height(height: float) -> _Number:
    """Give the air pressure at a geometric height.

    Parameters
    ----------
    height : float
        Height above mean sea level, m.

    Returns
    -------
    NDArray[np.float64]
        Air pressure, Pa.
    """
    return pressure.surface_pressure(pressure.geopotential(height))


def density_of_practical(practical: float, temperature: float) -> _Number:
    """Give the density of water whose salinity was read on an instrument.

    Parameters
    ----------
    practical : float
        Practical salinity.
    temperature : float
        Water temperature, K.

    Returns
    -------
    NDArray[np.float64]
        Density, kg/m3.
    """
    return water.density(water.absolute_salinity(practical), temperature)


def kinematic_viscosity(salinity: float, temperature: float) -> _Number:
    """Give the kinematic viscosity of water.

    Parameters
    ----------
    salinity : float
        Absolute salinity, g/kg.
    temperature : float
        Water temperature, K.

    Returns
    -------
    NDArray[np.float64]
        Kinematic viscosity, m2/s.
    """
    return np.asarray(water.viscosity(salinity, temperature) / water.density(salinity, temperature))


def handbook_free_gas(weight: float, depth: float, density: float, rule: float) -> _Number:
    """Give the free gas for a lift by the handbook rule.

    Parameters
    ----------
    weight : float
        Weight in water, kg.
    depth : float
        Depth of the gas, m.
    density : float
        Water density, kg/m3.
    rule : float
        Depth taken for one atmosphere, m.

    Returns
    -------
    NDArray[np.float64]
        Free gas, m3.
    """
    return gas.rule_free_gas(buoyancy.volume_to_lift(weight, density), depth, rule)


def free_gas(weight: float, depth: float, density: float, temperature: float = 0.0) -> _Number:
    """Give the free gas for a lift by Boyle's law, with the weight of the gas if a temperature is given.

    Parameters
    ----------
    weight : float
        Weight in water, kg.
    depth : float
        Depth of the gas, m.
    density : float
        Water density, kg/m3.
    temperature : float
        Temperature of the gas, K; 0 leaves its weight out.

    Returns
    -------
    NDArray[np.float64]
        Free gas at one atmosphere, m3.
    """
    there = pressure.absolute_pressure(depth, density)
    heavy = gas.ideal_density(there, temperature) if temperature > 0.0 else 0.0
    return gas.volume_at(buoyancy.volume_to_lift(weight, density, heavy), float(there), ATMOSPHERE)


def usable_gas(capacity: float, start: float, end: float, temperature: float) -> _Number:
    """Give the free gas that a cylinder gives between two gauge pressures at one temperature.

    Parameters
    ----------
    capacity : float
        Water capacity, m3.
    start : float
        Gauge pressure at the start, Pa.
    end : float
        Gauge pressure at the end, Pa.
    temperature : float
        Temperature of the gas, K.

    Returns
    -------
    NDArray[np.float64]
        Free gas at one atmosphere, m3.
    """
    full = air.free_content(capacity, start, ATMOSPHERE, temperature)
    return np.asarray(full - air.free_content(capacity, end, ATMOSPHERE, temperature))


def air_density_at(depth: float, density: float, temperature: float) -> _Number:
    """Give the density of real air in a bag.

    Parameters
    ----------
    depth : float
        Depth of the gas, m.
    density : float
        Water density, kg/m3.
    temperature : float
        Temperature of the gas, K.

    Returns
    -------
    NDArray[np.float64]
        Density, kg/m3.
    """
    return air.air_density(pressure.absolute_pressure(depth, density), temperature)


def lift_lost(depth: float, density: float, temperature: float) -> _Number:
    """Give the share of the lift that the weight of the gas takes.

    Parameters
    ----------
    depth : float
        Depth of the gas, m.
    density : float
        Water density, kg/m3.
    temperature : float
        Temperature of the gas, K.

    Returns
    -------
    NDArray[np.float64]
        Share of the lift.
    """
    return np.asarray(air_density_at(depth, density, temperature) / density)


def lift_per_volume(depth: float, temperature: float, lifted_in: float, pressed_by: float) -> _Number:
    """Give the net lift of a cubic metre of gas.

    Parameters
    ----------
    depth : float
        Depth of the gas, m.
    temperature : float
        Temperature of the gas, K.
    lifted_in : float
        Water density for the lift, kg/m3.
    pressed_by : float
        Water density for the pressure, kg/m3.

    Returns
    -------
    NDArray[np.float64]
        Lift, kg for each m3.
    """
    return buoyancy.lift_of(1.0, lifted_in, air_density_at(depth, pressed_by, temperature))


def left_over(mass: float, material_density: float, density: float, bag_lift: float) -> _Number:
    """Give what a bag's lift leaves over a solid load; negative where it does not lift it.

    Parameters
    ----------
    mass : float
        Dry mass of the load, kg.
    material_density : float
        Density of its material, kg/m3.
    density : float
        Water density, kg/m3.
    bag_lift : float
        Lift of the bag, kg.

    Returns
    -------
    NDArray[np.float64]
        Lift left over, kg.
    """
    return np.asarray(bag_lift - mass * buoyancy.submerged_factor(material_density, density))


def rise_speed(excess: float, volume: float, coefficient: float, density: float) -> _Number:
    """Give the terminal speed of a bag taken as a sphere.

    Parameters
    ----------
    excess : float
        Lift left over, N.
    volume : float
        Volume of the bag, m3.
    coefficient : float
        Drag coefficient on the cross-section.
    density : float
        Water density, kg/m3.

    Returns
    -------
    NDArray[np.float64]
        Speed upward, m/s.
    """
    return drag.terminal_speed(excess, coefficient * drag.sphere_area(volume), density)
