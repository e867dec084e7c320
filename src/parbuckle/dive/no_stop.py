"""How long a diver may stay at one depth and still come straight up."""

from __future__ import annotations

import numpy as np

from parbuckle.dive.ceilings import m_value
from parbuckle.dive.compartments import Compartments, compartments
from parbuckle.dive.loading import inspired
from parbuckle.physics.ranges import FloatsLike
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.frozen import Bools, Floats

LONGEST = 48 * 3600.0
"""Stay up to which a limit is looked for where helium is in play, s; the slowest tissue is then 95 % saturated."""

_MINUTE = 60.0
_HALVINGS = 30  # of a step of a minute and more: far below a millisecond
_GRID = np.concatenate([np.arange(0.0, 240.0), np.geomspace(240.0, LONGEST / _MINUTE, 160)]) * _MINUTE


def no_stop_time(
    tissues: Floats,
    pressure: FloatsLike,
    gas: Gas,
    surface: FloatsLike,
    factor: float = 1.0,
    model: Compartments | None = None,
) -> Floats:
    """Give the time at one depth after which some tissue would no longer tolerate the surface.

    Without helium it is exact: t = ln((P_i - P_0) / (P_i - M)) / k for the tissue that comes first, M at the surface
    pressure. With helium the first root of P - M is found on a grid of minutes and halved. Nothing is credited for gas
    given off on the way up, so a slow way up does not lengthen it.

    Parameters
    ----------
    tissues : Floats
        Partial pressures on arrival at the depth, Pa, shape (2, 16, n) or (2, 16, 1).
    pressure : FloatsLike
        Absolute pressure at the depth, Pa, one number or shape (n,).
    gas : Gas
        What is breathed there.
    surface : FloatsLike
        Air pressure at the surface, Pa, one number or shape (n,).
    factor : float
        Gradient factor at the surface: the high one.
    model : Compartments, optional
        Coefficients; left out: set C.

    Returns
    -------
    Floats
        Time from arrival to leaving the bottom, s, shape (n,): 0 where a stop is due already, infinite where there
        is no limit.

    Raises
    ------
    RangeError
        For a pressure outside 0.3 to 31 bar or a factor outside 0.05 to 1.

    Notes
    -----
    Source: inversion of Haldane's equation, own work; a root finder on an independent integration is in the tests.

    Examples
    --------
    >>> from parbuckle.dive.loading import AIR, at_rest
    >>> round(float(no_stop_time(at_rest(101325.0), 281325.0, AIR, 101325.0, 0.85)[0]) / 60.0)
    43
    """
    model = model or compartments()
    there, above = (np.array(part) for part in np.broadcast_arrays(np.atleast_1d(pressure), np.atleast_1d(surface)))
    if gas.helium > 0.0 or tissues[1].any():
        return _searched(tissues, there, gas, above, factor, model)
    limit = m_value(above, model.a[0][:, None], model.b[0][:, None], factor)
    lung = inspired(there, max(0.0, gas.nitrogen))
    reached, limited = tissues[0] >= limit, lung > limit
    gap = np.where(limited & ~reached, lung - limit, 1.0)
    way = np.where(limited & ~reached, lung - tissues[0], 1.0)
    time = np.where(limited, np.log(way / gap) * model.half[0][:, None] / np.log(2.0), np.inf)
    return np.asarray(np.where(reached, 0.0, time).min(axis=0))


def _searched(tissues: Floats, there: Floats, gas: Gas, above: Floats, factor: float, model: Compartments) -> Floats:
    n = max(tissues.shape[-1], there.size)
    there, above = np.broadcast_to(there, n), np.broadcast_to(above, n)
    shares = np.array([max(0.0, gas.nitrogen), gas.helium])[:, None, None]
    lung = inspired(there, shares)

    def over(time: FloatsLike) -> Bools:
        """Tell whether the surface allows no more."""
        after = lung + (tissues - lung) * np.exp2(-np.asarray(time) / model.half[:, :, None])
        a, b = model.mixed(after)
        return np.asarray((after.sum(axis=0) > m_value(above, a, b, factor)).any(axis=0))

    first = np.full(n, _GRID.size)
    for i, time in enumerate(_GRID):
        first = np.where((first == _GRID.size) & over(float(time)), i, first)
        if (first < _GRID.size).all():
            break
    found = np.minimum(first, _GRID.size - 1)
    low, high = _GRID[np.maximum(found - 1, 0)], _GRID[found]
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        beyond = over(middle)
        low, high = np.where(beyond, low, middle), np.where(beyond, middle, high)
    return np.where(first == 0, 0.0, np.where(first == _GRID.size, np.inf, low))
