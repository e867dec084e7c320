"""Bearings: true inside; a magnetic one is told by its text and turned by the declination."""

from __future__ import annotations

import math
from dataclasses import replace

from parbuckle.quantity.spread import Spread

FULL_TURN = 2.0 * math.pi
"""A full circle in radians."""


def is_magnetic(bearing: Spread) -> bool:
    """Say whether a bearing was written from magnetic north (``28 ± 8 deg mag``).

    Parameters
    ----------
    bearing : Spread
        Of the kind ``bearing``.

    Returns
    -------
    bool
        True when its text ends with ``mag``.

    Examples
    --------
    >>> is_magnetic(Spread("bearing", "exact", 0.5, 0.5, 0.5, "28 deg mag"))
    True
    """
    return bearing.text.endswith("mag")


def to_true(bearing: Spread, declination: float) -> Spread:
    """Turn a magnetic bearing into a true one: true = magnetic + declination; a true one comes back as it is.

    Parameters
    ----------
    bearing : Spread
        True or magnetic, rad.
    declination : float
        Of the place and the date, rad, east positive.

    Returns
    -------
    Spread
        True; its text says which declination was added.

    Notes
    -----
    Source: definition of magnetic declination.

    Examples
    --------
    >>> to_true(Spread("bearing", "exact", 0.5, 0.5, 0.5, "28 deg mag"), -0.1).mid
    0.4
    """
    if not is_magnetic(bearing):
        return bearing
    text = f"{bearing.text} {math.degrees(declination):+.1f} deg declination"
    return replace(
        bearing,
        low=bearing.low + declination,
        mid=bearing.mid + declination,
        high=bearing.high + declination,
        text=text,
    )


def wrap(angle: float) -> float:
    """Bring an angle into one turn from north.

    Parameters
    ----------
    angle : float
        In rad.

    Returns
    -------
    float
        From 0 up to, not including, a full turn; rad.

    Examples
    --------
    >>> round(wrap(-0.5 * math.pi) / math.pi, 6)
    1.5
    """
    turned = math.fmod(angle, FULL_TURN)
    turned = turned + FULL_TURN if turned < 0.0 else turned
    return 0.0 if turned >= FULL_TURN else turned
