"""Flows through holes, valves and hoses that published examples ask for; each takes SI numbers and gives one number."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics import dump, gas, holes, pressure
from parbuckle.physics.constants import ATMOSPHERE, GAMMA_AIR, GAS_CONSTANT_AIR

_Number = NDArray[np.float64]


def _circle(diameter: float) -> float:
    return math.pi / 4.0 * diameter**2


def hole_flow(diameter: float, discharge: float, before: float, temperature: float) -> _Number:
    """Give the mass flow of air from a round hole into one atmosphere.

    Parameters
    ----------
    diameter : float
        Diameter of the hole, m.
    discharge : float
        Discharge coefficient.
    before : float
        Absolute pressure before the hole, Pa.
    temperature : float
        Temperature of the gas, K.

    Returns
    -------
    NDArray[np.float64]
        Mass flow, kg/s.
    """
    return holes.hole_mass_flow(_circle(diameter), discharge, before, ATMOSPHERE, temperature)


def hole_free_flow(diameter: float, discharge: float, before: float, temperature: float) -> _Number:
    """Give the free flow of air from a round hole into one atmosphere.

    Parameters
    ----------
    diameter : float
        Diameter of the hole, m.
    discharge : float
        Discharge coefficient.
    before : float
        Absolute pressure before the hole, Pa.
    temperature : float
        Temperature of the gas, K.

    Returns
    -------
    NDArray[np.float64]
        Free flow, m3/s.
    """
    return holes.free_flow(hole_flow(diameter, discharge, before, temperature), temperature)


def valve_jet(depth: float, column: float, density: float, temperature: float) -> _Number:
    """Give the speed of the gas in the dump valve of a bag at a depth.

    Parameters
    ----------
    depth : float
        Depth of the valve, m.
    column : float
        Height of the gas below the valve, m.
    density : float
        Water density, kg/m3.
    temperature : float
        Temperature of the gas, K.

    Returns
    -------
    NDArray[np.float64]
        Speed, m/s.
    """
    return dump.dump_jet(column, density, pressure.absolute_pressure(depth, density), temperature)


def valve_mach(depth: float, column: float, density: float, temperature: float) -> _Number:
    """Give the speed of the gas in a dump valve over the speed of sound.

    Parameters
    ----------
    depth : float
        Depth of the valve, m.
    column : float
        Height of the gas below the valve, m.
    density : float
        Water density, kg/m3.
    temperature : float
        Temperature of the gas, K.

    Returns
    -------
    NDArray[np.float64]
        Mach number.
    """
    sound = math.sqrt(GAMMA_AIR * GAS_CONSTANT_AIR * temperature)
    return np.asarray(valve_jet(depth, column, density, temperature) / sound)


def valve_flow(
    depth: float, column: float, diameter: float, discharge: float, density: float, temperature: float
) -> _Number:
    """Give the flow out of a dump valve with the expansion of the gas.

    Parameters
    ----------
    depth : float
        Depth of the valve, m.
    column : float
        Height of the gas below the valve, m.
    diameter : float
        Diameter of the opening, m.
    discharge : float
        Discharge coefficient.
    density : float
        Water density, kg/m3.
    temperature : float
        Temperature of the gas, K.

    Returns
    -------
    NDArray[np.float64]
        Flow at the pressure of the bag, m3/s.
    """
    outside = pressure.absolute_pressure(depth, density)
    return dump.dump_flow(_circle(diameter), discharge, column, density, outside, temperature)


def valve_flow_plain(
    depth: float, column: float, diameter: float, discharge: float, density: float, temperature: float
) -> _Number:
    """Give the flow out of a dump valve as if the gas did not expand.

    Parameters
    ----------
    depth : float
        Depth of the valve, m.
    column : float
        Height of the gas below the valve, m.
    diameter : float
        Diameter of the opening, m.
    discharge : float
        Discharge coefficient.
    density : float
        Water density, kg/m3.
    temperature : float
        Temperature of the gas, K.

    Returns
    -------
    NDArray[np.float64]
        Flow at the pressure of the bag, m3/s.
    """
    return np.asarray(discharge * _circle(diameter) * valve_jet(depth, column, density, temperature))


def vent_at(volume: float, rise: float, depth: float, density: float) -> _Number:
    """Give the flow that has to be vented at a depth.

    Parameters
    ----------
    volume : float
        Volume of gas that can grow, m3.
    rise : float
        Speed upward, m/s.
    depth : float
        Depth of the gas, m.
    density : float
        Water density, kg/m3.

    Returns
    -------
    NDArray[np.float64]
        Flow at the pressure of the bag, m3/s.
    """
    return gas.vent_needed(volume, rise, density, pressure.absolute_pressure(depth, density))


def relief_at(relief: float, depth: float, density: float) -> _Number:
    """Give the extra gas of a closed bag at a depth.

    Parameters
    ----------
    relief : float
        Relief pressure over ambient, Pa.
    depth : float
        Depth of the bag, m.
    density : float
        Water density, kg/m3.

    Returns
    -------
    NDArray[np.float64]
        Share more than an open bag.
    """
    return gas.relief_extra(relief, pressure.absolute_pressure(depth, density))


def inflator_at(depth: float, intermediate: float, density: float) -> _Number:
    """Give the free flow of an inflator hose at a depth over that at the surface.

    Parameters
    ----------
    depth : float
        Depth, m.
    intermediate : float
        Intermediate pressure over ambient, Pa.
    density : float
        Water density, kg/m3.

    Returns
    -------
    NDArray[np.float64]
        Ratio.
    """
    return holes.relative_flow(pressure.absolute_pressure(depth, density), intermediate)


def fill_time_ratio(depth: float, intermediate: float, density: float) -> _Number:
    """Give how much longer the same bag takes to fill at a depth than at the surface.

    Parameters
    ----------
    depth : float
        Depth, m.
    intermediate : float
        Intermediate pressure over ambient, Pa.
    density : float
        Water density, kg/m3.

    Returns
    -------
    NDArray[np.float64]
        Ratio of the times.
    """
    more_gas = pressure.absolute_pressure(depth, density) / ATMOSPHERE
    return np.asarray(more_gas / inflator_at(depth, intermediate, density))


def drain_through(surface_area: float, height: float, diameter: float, discharge: float) -> _Number:
    """Give the time in which a box drains through a round hole.

    Parameters
    ----------
    surface_area : float
        Area of the water inside, m2.
    height : float
        Height of the water above the hole, m.
    diameter : float
        Diameter of the hole, m.
    discharge : float
        Discharge coefficient.

    Returns
    -------
    NDArray[np.float64]
        Time, s.
    """
    return dump.drain_time(surface_area, height, _circle(diameter), discharge)
