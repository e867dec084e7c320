"""What tissues tolerate: M-values, the ceiling, and gradient factors in Baker's sense."""

from __future__ import annotations

import numpy as np

from parbuckle.dive.compartments import Compartments, compartments
from parbuckle.dive.profile import PRESSURE_RANGE
from parbuckle.physics.ranges import FloatsLike, Range
from parbuckle.quantity.frozen import Floats

FACTOR_RANGE = Range("gradient factor", 0.05, 1.0, "", "above 1 is beyond the model")


def m_value(pressure: FloatsLike, a: FloatsLike, b: FloatsLike, factor: FloatsLike = 1.0) -> Floats:
    """Give the pressure of inert gas that a tissue tolerates under some pressure.

    M = a + p / b; with a gradient factor p + GF (M - p).

    Parameters
    ----------
    pressure : FloatsLike
        Absolute pressure of the surroundings, Pa, any shape.
    a : FloatsLike
        Coefficient a, Pa, any shape that fits.
    b : FloatsLike
        Coefficient b, any shape that fits.
    factor : FloatsLike
        Gradient factor, any shape that fits; 1 is the model itself.

    Returns
    -------
    Floats
        Tolerated pressure, Pa.

    Raises
    ------
    RangeError
        For a pressure outside 0.3 to 31 bar or a factor outside 0.05 to 1.

    Notes
    -----
    Source: Bühlmann; Baker 1998 for the factor, which works on the gradient M - p. Some texts multiply M itself: that
    is another rule.

    Examples
    --------
    >>> round(float(m_value(101325.0, 1e5, 0.6514, 0.9)))
    240127
    """
    p, share = PRESSURE_RANGE.check(pressure), FACTOR_RANGE.check(factor)
    return np.asarray(p + share * (a + p / b - p))


def tolerated(tissues: Floats, factor: FloatsLike = 1.0, model: Compartments | None = None) -> Floats:
    """Give the lowest pressure of the surroundings that all tissues tolerate: the ceiling as a pressure.

    p = (P - GF a) / (GF / b - GF + 1), the largest of all tissues.

    Parameters
    ----------
    tissues : Floats
        Partial pressures, Pa, shape (2, 16, n).
    factor : FloatsLike
        Gradient factor, one number or shape (n,).
    model : Compartments, optional
        Coefficients; left out: set C.

    Returns
    -------
    Floats
        Absolute pressure, Pa, shape (n,); at or below the surface pressure where no ceiling is left.

    Raises
    ------
    RangeError
        For a factor outside 0.05 to 1.

    Notes
    -----
    Source: Baker 1998, solved for the pressure.

    Examples
    --------
    >>> from parbuckle.dive.loading import at_rest
    >>> bool(tolerated(at_rest(101325.0))[0] < 101325.0)
    True
    """
    share = FACTOR_RANGE.check(factor)
    a, b = (model or compartments()).mixed(tissues)
    return np.asarray(((tissues.sum(axis=0) - share * a) / (share / b - share + 1.0)).max(axis=0))


def gradient(tissues: Floats, pressure: FloatsLike, model: Compartments | None = None) -> Floats:
    """Give the gradient factor at which the tissues stand under some pressure.

    GF = (P - p) / (M - p), the largest of all tissues.

    Parameters
    ----------
    tissues : Floats
        Partial pressures, Pa, shape (2, 16, n).
    pressure : FloatsLike
        Absolute pressure of the surroundings, Pa, one number or shape (n,).
    model : Compartments, optional
        Coefficients; left out: set C.

    Returns
    -------
    Floats
        Gradient factor, shape (n,); negative where every tissue takes up gas.

    Raises
    ------
    RangeError
        For a pressure outside 0.3 to 31 bar.

    Notes
    -----
    Source: Baker 1998.

    Examples
    --------
    >>> from parbuckle.dive.loading import at_rest
    >>> bool(gradient(at_rest(101325.0), 101325.0)[0] < 0.0)
    True
    """
    p = PRESSURE_RANGE.check(pressure)
    a, b = (model or compartments()).mixed(tissues)
    return np.asarray(((tissues.sum(axis=0) - p) / (m_value(p, a, b) - p)).max(axis=0))


def factor_at(depth: FloatsLike, first_stop: FloatsLike, low: float, high: float) -> Floats:
    """Give the gradient factor that holds at a depth on the way up.

    GF = GF_high + (GF_low - GF_high) d / d_first.

    Parameters
    ----------
    depth : FloatsLike
        Depth, m, any shape.
    first_stop : FloatsLike
        Depth of the first stop, m, above 0, any shape that fits.
    low, high : float
        Factor at the first stop and at the surface.

    Returns
    -------
    Floats
        Gradient factor.

    Raises
    ------
    RangeError
        For factors outside 0.05 to 1, a low one above the high one, or a depth below the first stop.

    Notes
    -----
    Source: Baker 1998.

    Examples
    --------
    >>> round(float(factor_at(6.0, 12.0, 0.5, 0.8)), 3)
    0.65
    """
    Range("low gradient factor", FACTOR_RANGE.low, float(FACTOR_RANGE.check(high)), "", "at most the high one").check(
        low
    )
    way = Range("depth as a share of the first stop", 0.0, 1.0, "", "the factor is defined above the first stop")
    return np.asarray(high + (low - high) * way.check(np.asarray(depth, dtype=np.float64) / first_stop))
