"""Ascents with a published reference solution: one load under one bag, let go from rest at 20 m."""

from __future__ import annotations

import numpy as np

from parbuckle.physics import buoyancy, drag
from parbuckle.physics.constants import ATMOSPHERE, G
from parbuckle.physics.forces import Body
from parbuckle.physics.pressure import absolute_pressure
from parbuckle.physics.rise import Rise, left_alone

_WATER, _KELVIN, _START = 1025.0, 283.15, 20.0
_BLOCK_FORCE, _BLOCK_MASS, _BLOCK_DRAG = 10.0 * G, 200.0, 0.2  # N, kg with added mass, m2
_STEEL_MASS, _STEEL_DENSITY, _STEEL_DRAG, _STEEL_ADDED = 115.0, 7850.0, 0.1, 0.7  # kg, kg/m3, m2, share of the volume
_TIGHT, _USUAL = 1e-8, 1e-4  # of a step: the closed form is held to 1e-4, the rest as in a plan
_BAG_DRAG, _BAG_ADDED = 0.8, 0.5  # on the sphere of the gas; share of the gas volume


def steady_rise(time: float) -> float:
    """Give how far a mass of 200 kg has risen under a constant 10 kgf, drag area 0.2 m2.

    Parameters
    ----------
    time : float
        Time from rest, s.

    Returns
    -------
    float
        Way upward, m.
    """
    return _START - float(_steady(0.0).depth_at(np.array([time]))[0, 0])


def steady_speed(way: float) -> float:
    """Give the speed of the same mass after a way.

    Parameters
    ----------
    way : float
        Way upward from rest, m.

    Returns
    -------
    float
        Speed upward, m/s.
    """
    return float(_steady(_START - way).speed[0])


def steel_time(filled: float, capacity: float) -> float:
    """Give the time in which 115 kg of steel under a bag comes up from 20 m.

    Parameters
    ----------
    filled : float
        Gas in the bag at 20 m, m3.
    capacity : float
        What the bag holds, m3.

    Returns
    -------
    float
        Time to the surface, s.
    """
    return float(_steel(filled, capacity, 0.0).time[0])


def steel_speed(filled: float, capacity: float, depth: float) -> float:
    """Give the speed of the same load as it passes a depth.

    Parameters
    ----------
    filled : float
        Gas in the bag at 20 m, m3.
    capacity : float
        What the bag holds, m3.
    depth : float
        Depth, m.

    Returns
    -------
    float
        Speed upward, m/s.
    """
    return float(_steel(filled, capacity, depth).speed[0])


def _steady(top: float) -> Rise:
    """A full bag that cannot grow stands for the constant force."""
    volume = 0.1
    weight = float(buoyancy.lift_of(volume, _WATER)) * G - _BLOCK_FORCE
    return _run(_body(weight, _BLOCK_MASS, _BLOCK_DRAG, volume, volume, 0.0, 0.0), top, _TIGHT)


def _steel(filled: float, capacity: float, top: float) -> Rise:
    solid = _STEEL_MASS / _STEEL_DENSITY
    weight = float(buoyancy.weight_in_water(_STEEL_MASS, solid, _WATER)) * G
    mass = _STEEL_MASS + _STEEL_ADDED * _WATER * solid
    sphere = _BAG_DRAG * float(drag.sphere_area(1.0))
    return _run(_body(weight, mass, _STEEL_DRAG, filled, capacity, sphere, _BAG_ADDED * _WATER), top, _USUAL)


def _body(
    weight: float, mass: float, area: float, filled: float, capacity: float, bag_drag: float, bag_added: float
) -> Body:
    one = np.ones(1)
    return Body(
        water_density=_WATER * one,
        surface_pressure=ATMOSPHERE * one,
        temperature=_KELVIN * one,
        weight=weight * one,
        mass=mass * one,
        bag_added_mass=bag_added * one,
        drag_area=area * one,
        bag_drag=bag_drag * one,
        reach=0.0 * one,
        capacity=capacity * np.ones((1, 1)),
        gas=filled * np.ones((1, 1)),
        gas_pressure=absolute_pressure(_START * one, _WATER),
        over_pressure=np.zeros((1, 1)),
        molar_mass=0.0,
    )


def _run(body: Body, top: float, tolerance: float) -> Rise:
    one = np.ones(1)
    return left_alone(body, _START * one, top * one, _START * one, tolerance=tolerance)
