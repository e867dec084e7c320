"""One piece of the load: mass, volume and density, any two of them; weight in water; estimates made in the water."""

from __future__ import annotations

import numpy as np

from parbuckle.load.problem import Estimate
from parbuckle.physics.buoyancy import dry_mass_for, lift_of, weight_in_water
from parbuckle.physics.gas import ideal_density
from parbuckle.physics.ranges import not_negative, positive
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats


def mass_and_volume(mass: Floats | None, volume: Floats | None, density: Floats | None) -> tuple[Floats, Floats]:
    """Complete a piece from two of mass, volume and density; given all three, mass and volume count.

    Parameters
    ----------
    mass : Floats or None
        Dry mass, kg, shape (n,).
    volume : Floats or None
        Volume of its solid or sealed body, m3, shape (n,).
    density : Floats or None
        Density, kg/m3, shape (n,).

    Returns
    -------
    tuple of (Floats, Floats)
        Mass in kg and volume in m3.

    Raises
    ------
    RangeError
        If fewer than two are given, one is negative, or the density is not above zero.

    Examples
    --------
    >>> mass, volume = mass_and_volume(np.array([27.0]), None, np.array([2700.0]))
    >>> float(volume[0])
    0.01
    """
    if mass is not None:
        not_negative("mass", mass, "kg")
    if volume is not None:
        not_negative("volume", volume, "m3")
    if mass is not None and volume is not None:
        return mass, volume
    if density is None or (mass is None and volume is None):
        raise RangeError("a piece needs two of mass, volume and material")
    positive("density", density, "kg/m3")
    if mass is not None:
        return mass, mass / density
    assert volume is not None
    return volume * density, volume


def from_solid(
    by: str, how: str, method: str, mass: Floats, displaced: Floats, envelope: Floats, water_density: Floats
) -> Estimate:
    """Make an estimate from mass and volume.

    Parameters
    ----------
    by : str
        Who or what gave it.
    how : str
        How it was come by.
    method : str
        ``parts``, ``shape`` or ``known``.
    mass : Floats
        Dry mass, kg, shape (n,).
    displaced : Floats
        Water pushed aside, gas in spaces included, m3, shape (n,).
    envelope : Floats
        Outer volume, m3, shape (n,); not below ``displaced``.
    water_density : Floats
        kg/m3, shape (n,).

    Returns
    -------
    Estimate
        With its weight in water.
    """
    wet = weight_in_water(mass, displaced, water_density)
    return Estimate(by, how, method, mass, displaced, np.maximum(envelope, displaced), False, wet)


def with_gas(estimate: Estimate, gas: Floats, water_density: Floats) -> Estimate:
    """Add the gas in spaces to an estimate; one that was made in the water holds it already.

    Parameters
    ----------
    estimate : Estimate
        Of what is solid.
    gas : Floats
        Gas in spaces at the bottom's pressure, m3, shape (n,).
    water_density : Floats
        kg/m3, shape (n,).

    Returns
    -------
    Estimate
        The same mass, more volume.
    """
    if estimate.in_water or not gas.any():
        return estimate
    by, how, method = estimate.by, estimate.how, estimate.method
    return from_solid(by, how, method, estimate.mass, estimate.displaced + gas, estimate.envelope + gas, water_density)


def from_wet(by: str, how: str, method: str, wet: Floats, density: Floats, water_density: Floats) -> Estimate:
    """Make an estimate from a weight in water and a mean density: m = W' / (1 - rho_w / rho).

    Parameters
    ----------
    by : str
        Who or what gave it.
    how : str
        How it was come by.
    method : str
        ``balance`` or ``trial``.
    wet : Floats
        Weight in water, kg, shape (n,).
    density : Floats
        Mean density of the load, kg/m3, shape (n,).
    water_density : Floats
        kg/m3, shape (n,).

    Returns
    -------
    Estimate
        With mass and volume by that density. Valid where the density is above the water's.

    Raises
    ------
    RangeError
        If the density does not lie above the water's, or the weight in water is negative: then no mass follows.

    Examples
    --------
    >>> one = np.ones(1)
    >>> round(float(from_wet("A", "spring balance", "balance", 63.0 * one, 2700.0 * one, 1000.0 * one).mass[0]), 1)
    100.1
    """
    mass = dry_mass_for(wet, density, water_density)
    displaced = mass / density
    return Estimate(by, how, method, mass, displaced, displaced.copy(), True, wet)


def trial_weight(
    gas: Floats, water_density: Floats, ambient_pressure: Floats, temperature: Floats, held_share: Floats
) -> Floats:
    """Give the weight in water from the gas that made it move: W' = (rho_w - rho_gas) V / (1 + h).

    A trial lift overcomes the bottom too, so what moved is an upper bound; ``h`` is the share that the bottom held.

    Parameters
    ----------
    gas : Floats
        Volume of gas in the bag when it moved, at the bag's depth, m3, shape (n,).
    water_density : Floats
        kg/m3, shape (n,).
    ambient_pressure : Floats
        Absolute pressure at the bag, Pa, shape (n,).
    temperature : Floats
        Of the gas, K, shape (n,).
    held_share : Floats
        Share of the weight in water that the bottom held, shape (n,); 0 for a load that lay free.

    Returns
    -------
    Floats
        kg, shape (n,). Valid for air as an ideal gas; the bag's own weight in water is not taken off.

    Raises
    ------
    RangeError
        If the volume or the share is negative, or pressure or temperature is not above zero.

    Notes
    -----
    Source: Archimedes with the gas's own weight; ideal gas law for air; common practice.

    Examples
    --------
    >>> one = np.ones(1)
    >>> round(float(trial_weight(0.040 * one, 1000.0 * one, 260000.0 * one, 281.0 * one, 0.0 * one)[0]), 2)
    39.87
    """
    share = not_negative("share held by the bottom", held_share)
    return lift_of(gas, water_density, ideal_density(ambient_pressure, temperature)) / (1.0 + share)
