"""Air as a real gas: what a cylinder really holds, and what its gauge then reads."""

from __future__ import annotations

import json
from functools import cache
from importlib.resources import files

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.constants import ATMOSPHERE, GAS_CONSTANT_AIR, ZERO_C
from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive

AIR_PRESSURE_RANGE = Range("absolute air pressure", 0.5e5, 350e5, "Pa", "table of the air equation of state")
AIR_TEMPERATURE_RANGE = Range(
    "air temperature", ZERO_C - 10.0, ZERO_C + 60.0, "K", "table of the air equation of state"
)

INTERPOLATION_ERROR = 5e-5
"""Largest relative error of the table against the equation of state it was made from (a test holds it)."""

_BAR = 1e5
_TURNS = 20  # Newton steps at most; three to five are enough
_CLOSE = 1.0  # Pa; Newton then leaves far less


@cache
def _table() -> tuple[NDArray[np.float64], tuple[float, float], tuple[float, float]]:
    raw = json.loads(files("parbuckle.data").joinpath("air_table.json").read_text(encoding="utf-8"))
    p, t = raw["pressure_bar"], raw["temperature_c"]
    return np.array(raw["z"]), (p["first"], p["step"]), (t["first"], t["step"])


def _lookup(pressure: NDArray[np.float64], temperature: NDArray[np.float64]) -> list[NDArray[np.float64]]:
    """Give Z and dZ/dp (1/Pa), bilinear between the four corners of a cell."""
    z, (p0, dp), (t0, dt) = _table()
    x = (pressure / _BAR - p0) / dp
    y = (temperature - ZERO_C - t0) / dt
    i = np.minimum(x.astype(np.intp), z.shape[1] - 2)
    j = np.minimum(y.astype(np.intp), z.shape[0] - 2)
    x, y = x - i, y - j
    if y.ndim == 0:  # one temperature: between two rows of the table first
        row = z[j.item()] * (1.0 - y.item()) + z[j.item() + 1] * y.item()
        left, right = row[i], row[i + 1]
        return [np.asarray(left + (right - left) * x), np.asarray((right - left) / (dp * _BAR))]
    flat, k = z.ravel(), j * z.shape[1] + i
    left = flat[k] * (1.0 - y) + flat[k + z.shape[1]] * y
    right = flat[k + 1] * (1.0 - y) + flat[k + 1 + z.shape[1]] * y
    return [np.asarray(left + (right - left) * x), np.asarray((right - left) / (dp * _BAR))]


def compressibility(pressure: FloatsLike, temperature: FloatsLike) -> NDArray[np.float64]:
    """Give the compressibility factor of dry air.

    Z = p M / (rho R T), bilinear in a table with steps of 2.5 bar and 2.5 K.

    Parameters
    ----------
    pressure : FloatsLike
        Absolute pressure, Pa, any shape.
    temperature : FloatsLike
        Temperature of the gas, K, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Z, 1 for an ideal gas; relative error below 5e-5 against the equation of state.

    Raises
    ------
    RangeError
        Outside 0.5 to 350 bar or -10 to 60 degC.

    Notes
    -----
    Source: Lemmon, Jacobsen, Penoncello and Friend, J. Phys. Chem. Ref. Data 29 (2000) 331-385 (0.1 % in density).

    Examples
    --------
    >>> round(float(compressibility(200e5, 293.15)), 4)
    1.026
    """
    return _lookup(AIR_PRESSURE_RANGE.check(pressure), AIR_TEMPERATURE_RANGE.check(temperature))[0]


def air_density(pressure: FloatsLike, temperature: FloatsLike) -> NDArray[np.float64]:
    """Give the density of dry air as a real gas.

    rho = p M / (Z R T).

    Parameters
    ----------
    pressure : FloatsLike
        Absolute pressure, Pa, any shape.
    temperature : FloatsLike
        Temperature of the gas, K, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Density, kg/m3.

    Raises
    ------
    RangeError
        Outside 0.5 to 350 bar or -10 to 60 degC.

    Notes
    -----
    Source: as for ``compressibility``.

    Examples
    --------
    >>> round(float(air_density(200e5, 293.15)), 1)
    231.6
    """
    z = compressibility(pressure, temperature)
    return np.asarray(pressure, dtype=np.float64) / (z * GAS_CONSTANT_AIR * np.asarray(temperature, dtype=np.float64))


def free_content(
    capacity: FloatsLike,
    gauge_pressure: FloatsLike,
    surface_pressure: FloatsLike = ATMOSPHERE,
    temperature: FloatsLike = 293.15,
) -> NDArray[np.float64]:
    """Give the volume that all the gas in a cylinder fills at the surface pressure and the same temperature.

    V_free = V (p / Z(p)) / (p_s / Z(p_s)), p = gauge + p_s. What stays in the open cylinder (V) is counted.

    Parameters
    ----------
    capacity : FloatsLike
        Water capacity of the cylinder, m3, any shape.
    gauge_pressure : FloatsLike
        Pressure that the gauge shows, Pa, any shape that fits.
    surface_pressure : FloatsLike
        Air pressure at the surface, Pa, any shape that fits.
    temperature : FloatsLike
        Temperature of the gas, K, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Free gas, m3.

    Raises
    ------
    RangeError
        For a negative capacity or gauge pressure, or outside the range of the air table.

    Notes
    -----
    Source: definition of the compressibility factor; equation of state as for ``compressibility``.

    Examples
    --------
    >>> round(float(free_content(0.012, 200e5)) * 1000)
    2318
    """
    shown = not_negative("gauge pressure", gauge_pressure, "Pa")
    surface = AIR_PRESSURE_RANGE.check(surface_pressure)
    dense = (shown + surface) / compressibility(shown + surface, temperature)
    return not_negative("water capacity", capacity, "m3") * dense * compressibility(surface, temperature) / surface


def gauge_for_content(
    capacity: FloatsLike,
    content: FloatsLike,
    surface_pressure: FloatsLike = ATMOSPHERE,
    temperature: FloatsLike = 293.15,
) -> NDArray[np.float64]:
    """Give the gauge pressure of a cylinder that holds a given amount of free gas; undoes ``free_content``.

    Solves V_free = V (p / Z(p)) / (p_s / Z(p_s)) for p and takes p_s off.

    Parameters
    ----------
    capacity : FloatsLike
        Water capacity of the cylinder, m3, any shape.
    content : FloatsLike
        Free gas at the surface pressure and the same temperature, m3, any shape that fits.
    surface_pressure : FloatsLike
        Air pressure at the surface, Pa, any shape that fits.
    temperature : FloatsLike
        Temperature of the gas, K, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Gauge pressure, Pa.

    Raises
    ------
    RangeError
        If the content is less than the open cylinder holds, or needs more than 350 bar.

    Notes
    -----
    Source: as for ``free_content``.

    Examples
    --------
    >>> round(float(gauge_for_content(0.012, free_content(0.012, 200e5))) / 1e5, 3)
    200.0
    """
    surface = AIR_PRESSURE_RANGE.check(surface_pressure)
    ratio = not_negative("free gas", content, "m3") / positive("water capacity", capacity, "m3")
    target = ratio * surface / compressibility(surface, temperature)
    gauge = _solve(target, np.asarray(temperature, dtype=np.float64)) - surface
    slack = INTERPOLATION_ERROR * surface  # rounding of an empty cylinder is not a mistake
    checked = Range("gauge pressure for that free gas", -float(np.max(slack)), 350e5, "Pa", "air table").check(gauge)
    return np.where(np.abs(checked) <= slack, np.maximum(checked, 0.0), checked)


def cooled_pressure(pressure: FloatsLike, temperature: FloatsLike, new_temperature: FloatsLike) -> NDArray[np.float64]:
    """Give the absolute pressure of a closed cylinder after its gas has come to another temperature.

    Same density: p2 / (Z(p2, T2) T2) = p1 / (Z(p1, T1) T1).

    Parameters
    ----------
    pressure : FloatsLike
        Absolute pressure before, Pa, any shape.
    temperature : FloatsLike
        Temperature before, K, any shape that fits.
    new_temperature : FloatsLike
        Temperature after, K, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Absolute pressure after, Pa.

    Raises
    ------
    RangeError
        Outside the range of the air table, before or after.

    Notes
    -----
    Source: as for ``compressibility``; the cylinder itself is taken as rigid.

    Examples
    --------
    >>> round(float(cooled_pressure(200e5, 293.15, 278.15)) / 1e5, 1)
    185.3
    """
    after = AIR_TEMPERATURE_RANGE.check(new_temperature)
    before = AIR_TEMPERATURE_RANGE.check(temperature)
    target = AIR_PRESSURE_RANGE.check(pressure) / compressibility(pressure, before) * after / before
    return AIR_PRESSURE_RANGE.check(_solve(target, after))


def _solve(target: NDArray[np.float64], temperature: NDArray[np.float64]) -> NDArray[np.float64]:
    """Solve p / Z(p, T) = target by Newton's method; both sides grow with p over the whole table."""
    top = AIR_PRESSURE_RANGE.high
    kelvin = AIR_TEMPERATURE_RANGE.check(temperature)
    Range("gas, as a share of what fits in at 350 bar", 0.0, 1.0, "", "air table").check(
        target * compressibility(top, kelvin) / top
    )
    p = np.minimum(target, top) + 0.0 * kelvin
    for _ in range(_TURNS):
        z, slope = _lookup(p, kelvin)
        step = (p / z - target) * z * z / (z - p * slope)
        p = np.minimum(np.maximum(p - step, 0.0), top)
        if np.abs(step).max() < _CLOSE:
            break
    return np.asarray(p)
