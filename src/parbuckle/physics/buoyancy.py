"""Weight in water and lift, in kilograms: mass-equivalents of forces under standard gravity."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.ranges import FloatsLike, not_negative, positive


def weight_in_water(mass: FloatsLike, displaced: FloatsLike, density: FloatsLike) -> NDArray[np.float64]:
    """Give the weight in water of a body, as a mass-equivalent.

    W = m - rho_w V; negative for what floats.

    Parameters
    ----------
    mass : FloatsLike
        Dry mass, kg, any shape.
    displaced : FloatsLike
        Volume of water displaced, m3, any shape that fits.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Weight in water, kg, downward positive.

    Raises
    ------
    RangeError
        For a negative mass or volume, or a density that is not above zero.

    Notes
    -----
    Source: Archimedes; common practice.

    Examples
    --------
    >>> round(float(weight_in_water(50.0, 0.020, 1030.0)), 1)
    29.4
    """
    water = positive("water density", density, "kg/m3")
    return not_negative("mass", mass, "kg") - water * not_negative("displaced volume", displaced, "m3")


def submerged_factor(material_density: FloatsLike, density: FloatsLike) -> NDArray[np.float64]:
    """Give the share of its dry weight that a solid body weighs in water.

    k = 1 - rho_w / rho.

    Parameters
    ----------
    material_density : FloatsLike
        Density of the material, kg/m3, any shape.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Share, negative for what floats.

    Raises
    ------
    RangeError
        For a density that is not above zero.

    Notes
    -----
    Source: Archimedes; the factor K of boatbuilding flotation rules.

    Examples
    --------
    >>> round(float(submerged_factor(7850.0, 1025.0)), 3)
    0.869
    """
    water = positive("water density", density, "kg/m3")
    return np.asarray(1.0 - water / positive("material density", material_density, "kg/m3"))


def dry_mass_for(weight: FloatsLike, material_density: FloatsLike, density: FloatsLike) -> NDArray[np.float64]:
    """Give the dry mass of a solid body that has a given weight in water, such as an anchor weight.

    m = W / (1 - rho_w / rho).

    Parameters
    ----------
    weight : FloatsLike
        Weight in water, kg, any shape.
    material_density : FloatsLike
        Density of the material, kg/m3, above that of the water.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Dry mass, kg.

    Raises
    ------
    RangeError
        For a negative weight or a material that floats.

    Notes
    -----
    Source: Archimedes; common practice.

    Examples
    --------
    >>> round(float(dry_mass_for(512.5, 7850.0, 1025.0)))
    589
    """
    share = positive("submerged share of the material", submerged_factor(material_density, density))
    return not_negative("weight in water", weight, "kg") / share


def lift_of(volume: FloatsLike, density: FloatsLike, gas_density: FloatsLike = 0.0) -> NDArray[np.float64]:
    """Give the lift of a volume of gas, as a mass-equivalent.

    L = (rho_w - rho_gas) V; the bag's own weight in water is still to be taken off.

    Parameters
    ----------
    volume : FloatsLike
        Volume of gas at its depth, m3, any shape.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.
    gas_density : FloatsLike
        Density of the gas at its depth, kg/m3; 0 leaves its weight out.

    Returns
    -------
    NDArray[np.float64]
        Lift, kg.

    Raises
    ------
    RangeError
        For a negative volume or gas density, or a water density that is not above zero.

    Notes
    -----
    Source: Archimedes; common practice.

    Examples
    --------
    >>> round(float(lift_of(0.1, 1025.0, 1.25)), 3)
    102.375
    """
    net = positive("water density", density, "kg/m3") - not_negative("gas density", gas_density, "kg/m3")
    return not_negative("volume", volume, "m3") * net


def volume_to_lift(weight: FloatsLike, density: FloatsLike, gas_density: FloatsLike = 0.0) -> NDArray[np.float64]:
    """Give the volume of gas that lifts a weight; undoes ``lift_of``.

    V = W / (rho_w - rho_gas).

    Parameters
    ----------
    weight : FloatsLike
        Weight in water, kg, any shape.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.
    gas_density : FloatsLike
        Density of the gas at its depth, kg/m3; 0 leaves its weight out.

    Returns
    -------
    NDArray[np.float64]
        Volume of gas at its depth, m3.

    Raises
    ------
    RangeError
        For a negative weight or gas density, or a water density that is not above zero.

    Notes
    -----
    Source: Archimedes; common practice.

    Examples
    --------
    >>> round(float(volume_to_lift(100.0, 1025.0)) * 1000, 2)
    97.56
    """
    net = positive("water density", density, "kg/m3") - not_negative("gas density", gas_density, "kg/m3")
    return not_negative("weight", weight, "kg") / positive("water density less gas density", net, "kg/m3")
