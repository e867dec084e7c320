"""Sums of exposure and of the no-stop table that published examples ask for; each takes SI numbers, gives one."""

from __future__ import annotations

import numpy as np

from parbuckle.dive import ceilings, compartments, loading, navy_tables, no_stop
from parbuckle.dive.profile import Leg, Water, leg, travel
from parbuckle.physics.constants import ATMOSPHERE, G
from parbuckle.physics.pressure import surface_pressure
from parbuckle.quantity.breathing import Gas

_AIR = Gas("79 % nitrogen", 0.21, 0.0)
_FOOT, _MINUTE = 0.3048, 60.0
_TENS = Water(np.array([ATMOSPHERE]), np.array([1e4 / G]))  # 10 m for each bar
_FEET = Water(np.array([ATMOSPHERE]), np.array([ATMOSPHERE / (33.0 * _FOOT * G)]))  # 33 ft for each atmosphere


def after_stay(half: float, depth: float, time: float) -> float:
    """Give the nitrogen in one tissue after an instant descent and a stay, 10 m for each bar.

    Parameters
    ----------
    half : float
        Half-time, s.
    depth : float
        Depth, m.
    time : float
        Stay, s.

    Returns
    -------
    float
        Pressure in the tissue, Pa.
    """
    return _through(half, [leg(_TENS, depth, depth, time, _AIR)])


def after_descent(half: float, depth: float, rate: float) -> float:
    """Give the nitrogen in one tissue after a steady descent.

    Parameters
    ----------
    half : float
        Half-time, s.
    depth : float
        Depth, m.
    rate : float
        Speed downward, m/s.

    Returns
    -------
    float
        Pressure in the tissue, Pa.
    """
    return _through(half, [travel(_TENS, 0.0, depth, rate, _AIR)])


def after_bottom(half: float, depth: float, rate: float, time: float) -> float:
    """Give the nitrogen in one tissue after a steady descent and a stay.

    Parameters
    ----------
    half : float
        Half-time, s.
    depth : float
        Depth, m.
    rate : float
        Speed downward, m/s.
    time : float
        Stay, s.

    Returns
    -------
    float
        Pressure in the tissue, Pa.
    """
    return _through(half, [travel(_TENS, 0.0, depth, rate, _AIR), leg(_TENS, depth, depth, time, _AIR)])


def after_dive(half: float, depth: float, rate: float, time: float, up: float) -> float:
    """Give the nitrogen in one tissue after descent, stay and ascent.

    Parameters
    ----------
    half : float
        Half-time, s.
    depth : float
        Depth, m.
    rate : float
        Speed downward, m/s.
    time : float
        Stay, s.
    up : float
        Speed upward, m/s.

    Returns
    -------
    float
        Pressure in the tissue, Pa.
    """
    down, stay = travel(_TENS, 0.0, depth, rate, _AIR), leg(_TENS, depth, depth, time, _AIR)
    return _through(half, [down, stay, travel(_TENS, depth, 0.0, up, _AIR)])


def surface_m_value(letter: str, half: float) -> float:
    """Give the tolerated pressure at the surface of one tissue of a set.

    Parameters
    ----------
    letter : str
        Set of coefficients.
    half : float
        Half-time for nitrogen, s.

    Returns
    -------
    float
        Pressure in the tissue, Pa.
    """
    first = next(first for first in ("1", "1b") if half in compartments.compartments(letter, first).half[0])
    model = compartments.compartments(letter, first)
    at = int(np.flatnonzero(model.half[0] == half)[0])
    return float(ceilings.m_value(ATMOSPHERE, model.a[0, at], model.b[0, at]))


def ceiling_of_tissue(nitrogen: float, half: float, factor: float) -> float:
    """Give the lowest pressure that one tissue tolerates, the others empty.

    Parameters
    ----------
    nitrogen : float
        Pressure in the tissue, Pa.
    half : float
        Half-time for nitrogen, s.
    factor : float
        Gradient factor.

    Returns
    -------
    float
        Absolute pressure, Pa.
    """
    model = compartments.compartments("C", "1b")
    tissues = np.zeros((2, 16, 1))
    tissues[0, model.half[0] == half] = nitrogen
    return float(ceilings.tolerated(tissues, factor, model)[0])


def mixed_coefficient(letter: str, nitrogen: float, helium: float) -> float:
    """Give coefficient a or b of the fastest tissue holding two gases.

    Parameters
    ----------
    letter : str
        ``a`` or ``b``.
    nitrogen, helium : float
        Partial pressures, Pa.

    Returns
    -------
    float
        a in Pa, or b.
    """
    tissues = np.array([nitrogen, helium])[:, None, None] * np.ones((2, 16, 1))
    return float(compartments.compartments("C", "1").mixed(tissues)["ab".index(letter)][0, 0])


def no_stop_at(depth: float, letter: str, factor: float) -> float:
    """Give the no-stop time after an instant descent, 10 m for each bar.

    Parameters
    ----------
    depth : float
        Depth, m.
    letter : str
        Set of coefficients.
    factor : float
        Gradient factor at the surface.

    Returns
    -------
    float
        Time, s.
    """
    rested, model = loading.at_rest(ATMOSPHERE, _AIR), compartments.compartments(letter)
    return float(no_stop.no_stop_time(rested, _TENS.at(depth), _AIR, ATMOSPHERE, factor, model)[0])


def table_depth_at(depth: float, altitude: float) -> float:
    """Give the depth with which the table is entered at an altitude of the standard atmosphere.

    Parameters
    ----------
    depth : float
        Depth, m of the table's sea water.
    altitude : float
        Height above the sea, m.

    Returns
    -------
    float
        Depth, m of the table's sea water.
    """
    air = float(surface_pressure(altitude))
    return navy_tables.table_depth(equivalent_depth(depth, air) / _FOOT) * _FOOT


def equivalent_depth(depth: float, surface: float) -> float:
    """Give the depth at the sea that stands for one at another surface pressure.

    Parameters
    ----------
    depth : float
        Depth, m of the table's sea water.
    surface : float
        Air pressure, Pa.

    Returns
    -------
    float
        Depth, m of the table's sea water.
    """
    return navy_tables.sea_level_depth(surface + depth / _FOOT * navy_tables.FSW, surface) * _FOOT


def stop_at_altitude(depth: float, surface: float) -> float:
    """Give the depth at which a stop of the table is made at another surface pressure.

    Parameters
    ----------
    depth : float
        Depth of the stop in the table, m.
    surface : float
        Air pressure, Pa.

    Returns
    -------
    float
        Depth, m.
    """
    return depth / equivalent_depth(1.0, surface)


def time_up(depth: float, stop: float = 0.0, time: float = 0.0) -> float:
    """Give the time to the surface at 30 ft/min with one stop.

    Parameters
    ----------
    depth : float
        Depth, m.
    stop : float
        Depth of the stop, m.
    time : float
        Length of the stop, s.

    Returns
    -------
    float
        s.
    """
    rate = 30.0 * _FOOT / _MINUTE
    legs = [travel(_FEET, depth, stop, rate, _AIR), leg(_FEET, stop, stop, time, _AIR)]
    return float(sum(piece.time[0] for piece in [*legs, travel(_FEET, stop, 0.0, rate, _AIR)]))


def _through(half: float, legs: list[Leg]) -> float:
    tissue = loading.inspired(ATMOSPHERE, _AIR.nitrogen)
    for piece in legs:
        start, end = (loading.inspired(p, _AIR.nitrogen) for p in (piece.start, piece.end))
        tissue = loading.ramp(tissue, start, end, piece.time, half)
    return float(np.asarray(tissue).ravel()[0])
