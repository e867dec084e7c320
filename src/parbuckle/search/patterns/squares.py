"""Patterns steered from a datum by compass and count: the expanding square and the three-sector search."""

from __future__ import annotations

import math

from parbuckle.quantity.errors import RangeError
from parbuckle.search.legs import FULL, Leg, Pattern, Place, straight

_QUARTER = FULL / 4.0
_THIRD = FULL / 3.0
_SET_TURN = FULL / 12.0
_TRIANGLES = 3
_SIDES = 4


def expanding_square(
    centre: Place, spacing: float, legs: int, heading: float = 0.0, hand: float = 1.0, last: float = 1.0
) -> Pattern:
    """Make an expanding square: legs of S, S, 2S, 2S, 3S, 3S and so on, a quarter turn after each.

    For n = 2 m legs L = S m (m + 1).

    Parameters
    ----------
    centre : Place
        The datum, where it starts.
    spacing : float
        Distance S between legs, m, more than 0.
    legs : int
        Number of legs, at least 1.
    heading : float
        True heading of the first leg, rad.
    hand : float
        1 turns to the right, -1 to the left.
    last : float
        Share of the last leg that is swum, more than 0 and at most 1.

    Returns
    -------
    Pattern
        All legs search.

    Raises
    ------
    RangeError
        If spacing, number or share lies outside.

    Notes
    -----
    Source: IAMSAR Vol. III section 12 as reproduced in study texts: first two legs S, every later pair S longer.

    Examples
    --------
    >>> expanding_square((0.0, 0.0), 3.0, 8).search_length
    60.0
    """
    if spacing <= 0.0 or legs < 1 or not 0.0 < last <= 1.0:
        raise RangeError(
            f"{legs} legs, {spacing} m apart, the last {last} of one: needs at least one leg of some length"
        )
    made: list[Leg] = []
    here = centre
    for k in range(legs):
        length = (k // 2 + 1) * spacing * (last if k == legs - 1 else 1.0)
        made.append(straight(here, heading + hand * k * _QUARTER, length, k + 1, spacing))
        here = made[-1].end
    values = (("spacing", spacing), ("legs", float(legs)), ("last", last), ("heading", heading % FULL))
    return Pattern("expanding square", values, tuple(made), legs - 1, 0, (centre,))


def sector(centre: Place, radius: float, heading: float = 0.0, sets: int = 1) -> Pattern:
    """Make a three-sector search: three triangles that meet at the datum, nine legs of one length to a set.

    L = 9 R for one set; every turn is 120 degrees to the right; the way through the datum is straight on. A second set
    lies 30 degrees on.

    Parameters
    ----------
    centre : Place
        The datum, where it starts and ends.
    radius : float
        Length R of every leg, m, more than 0.
    heading : float
        True heading of the first leg, rad.
    sets : int
        Number of sets, at least 1.

    Returns
    -------
    Pattern
        All legs search. The strip of a leg is the mean width between the spokes.

    Raises
    ------
    RangeError
        If the radius or the number of sets lies outside.

    Notes
    -----
    Source: sector search as in IAMSAR-type study pages: 120 degree turns, equal legs, second set half-way between.

    Examples
    --------
    >>> round(sector((0.0, 0.0), 20.0).search_length, 9)
    180.0
    """
    if radius <= 0.0 or sets < 1:
        raise RangeError(f"{sets} sets of legs of {radius} m cannot be swum")
    strip = _hexagon(radius) / (_TRIANGLES * _TRIANGLES * radius * sets)
    made: list[Leg] = []
    here = centre
    for s in range(sets):
        for triangle in range(_TRIANGLES):
            first = heading + s * _SET_TURN - triangle * _THIRD
            for side in range(_TRIANGLES):
                made.append(straight(here, first + side * _THIRD, radius, len(made) + 1, strip))
                here = made[-1].end
            here = centre
            made[-1] = Leg(made[-1].start, centre, made[-1].lane, strip)
    values = (("radius", radius), ("sets", float(sets)), ("heading", heading % FULL))
    turns = sets * 2 * _TRIANGLES + sets - 1
    return Pattern("sector", values, tuple(made), turns, 0, (centre,))


def _hexagon(radius: float) -> float:
    return 1.5 * math.sqrt(3.0) * radius * radius


def square_extent(spacing: float, legs: int) -> float:
    """Give how far an expanding square reaches from its datum along each axis.

    Parameters
    ----------
    spacing : float
        Distance S between legs, m.
    legs : int
        Number of legs n = 2 m, m even.

    Returns
    -------
    float
        m / 2 times S, m.

    Raises
    ------
    RangeError
        If the number of legs is not a multiple of four.

    Examples
    --------
    >>> square_extent(3.0, 8)
    6.0
    """
    if legs < 1 or legs % _SIDES:
        raise RangeError(f"{legs} legs do not end on a corner that lies as far as its opposite")
    return legs // _SIDES * spacing
