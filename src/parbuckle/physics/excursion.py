"""Where a falling object lands: a half-normal radius round the point above which it was let go.

The radius is half-normal, not a two-dimensional normal spread: 68.3 % land within one delta. Drift with the stream and
the place of the boat are not in it and have to be added.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive
from parbuckle.quantity.normal import quantile

ANGLE_RANGE = Range(
    "angle of deviation", math.radians(1.0), math.radians(30.0), "rad", "DNV-RP-F107 prints 2 to 15 deg"
)
SHARE_RANGE = Range("share that lands inside", 1e-6, 1.0 - 1e-9, "", "an open distribution")

LONG_OR_FLAT = math.radians(15.0)
"""Deviation of long or flat objects below 2 t, rad (DNV-RP-F107, table 10; weight class recalled)."""

BOX_OR_ROUND = math.radians(10.0)
"""Deviation of box-shaped or round objects below 2 t, rad (DNV-RP-F107, table 10; weight class recalled)."""

_erf = np.vectorize(math.erf, otypes=[np.float64])


def deviation(height: FloatsLike, angle: FloatsLike) -> NDArray[np.float64]:
    """Give the scale of the landing radius.

    delta = d tan(alpha).

    Parameters
    ----------
    height : FloatsLike
        Height that it falls through the water, m, any shape.
    angle : FloatsLike
        Angle of deviation, rad, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Delta, m.

    Raises
    ------
    RangeError
        For a negative height or an angle outside 1 to 30 deg.

    Notes
    -----
    Source: DNV-RP-F107, section 5 (table 10 as copied in a public repository that names it).

    Examples
    --------
    >>> round(float(deviation(30.0, LONG_OR_FLAT)), 2)
    8.04
    """
    return not_negative("height of fall", height, "m") * np.tan(ANGLE_RANGE.check(angle))


def share_within(radius: FloatsLike, delta: FloatsLike) -> NDArray[np.float64]:
    """Give the share of falls that land within a radius.

    P(r <= x) = erf(x / (delta sqrt 2)).

    Parameters
    ----------
    radius : FloatsLike
        Radius x, m, any shape.
    delta : FloatsLike
        Scale from ``deviation``, m, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Share, 0 to 1.

    Raises
    ------
    RangeError
        For a negative radius or a scale that is not above zero.

    Notes
    -----
    Source: DNV-RP-F107; its cumulative table is reproduced to 5e-5.

    Examples
    --------
    >>> round(float(share_within(1.0, 1.0)), 3)
    0.683
    """
    x = not_negative("radius", radius, "m") / positive("scale of the radius", delta, "m")
    return np.asarray(_erf(x / math.sqrt(2.0)))


def excursion_radius(height: FloatsLike, angle: FloatsLike, share: FloatsLike = 0.99) -> NDArray[np.float64]:
    """Give the radius within which a share of the falls land; undoes ``share_within``.

    x = delta sqrt(2) erf^-1(P) = delta q((1 + P) / 2), q the normal quantile.

    Parameters
    ----------
    height : FloatsLike
        Height that it falls through the water, m, any shape.
    angle : FloatsLike
        Angle of deviation, rad, any shape that fits.
    share : FloatsLike
        Share that lands inside, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Radius, m.

    Raises
    ------
    RangeError
        For a negative height, an angle outside 1 to 30 deg, or a share that is not between 0 and 1.

    Notes
    -----
    Source: DNV-RP-F107.

    Examples
    --------
    >>> round(float(excursion_radius(30.0, BOX_OR_ROUND, 0.99)), 1)
    13.6
    """
    inside = np.atleast_1d(SHARE_RANGE.check(share))
    factor = quantile(0.5 * (1.0 + inside)).reshape(np.shape(share))
    return np.asarray(deviation(height, angle) * factor)
