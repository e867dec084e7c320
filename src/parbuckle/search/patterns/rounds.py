"""Circles on a line from a shot, and arcs on a line tended from the shore."""

from __future__ import annotations

import math

from parbuckle.quantity.errors import RangeError
from parbuckle.search.legs import FULL, Leg, Pattern, Place, arc, joined


def circles(centre: Place, spacing: float, rings: int, last: float = 1.0, begins: float = 0.0) -> Pattern:
    """Make circles on a line from a shot: ring k has the radius (k - 1/2) of the spacing.

    L = pi d N^2; area pi (N d)^2; coverage W / d exactly. The way out adds (N - 1/2) d.

    Parameters
    ----------
    centre : Place
        The shot.
    spacing : float
        How much line is let out for each ring, m, more than 0.
    rings : int
        Number of rings, at least 1.
    last : float
        Share of the last ring that is swum, more than 0 and at most 1.
    begins : float
        True bearing at which each ring begins, rad.

    Returns
    -------
    Pattern
        Rings in turn clockwise and back, so that the line is not wound round the shot.

    Raises
    ------
    RangeError
        If spacing, number or share lies outside.

    Notes
    -----
    Source: geometry; increments after a training textbook (1/2 to 3/4 of the visibility).

    Examples
    --------
    >>> round(circles((0.0, 0.0), 1.5, 10).search_length, 4)
    471.2389
    """
    if spacing <= 0.0 or rings < 1 or not 0.0 < last <= 1.0:
        raise RangeError(
            f"{rings} rings, {spacing} m apart, the last {last} of one: needs at least one ring of some width"
        )
    legs: list[Leg] = []
    here = centre
    for k in range(1, rings + 1):
        way = FULL * (last if k == rings else 1.0) * (1.0 if k % 2 else -1.0)
        ring = arc(centre, (k - 0.5) * spacing, begins, way, k, spacing)
        legs += [joined(here, ring.start), ring]
        here = ring.end
    values = (("spacing", spacing), ("rings", float(rings)), ("last", last), ("radius", (rings - 0.5) * spacing))
    return Pattern("circles", values, tuple(legs), rings - 1, 0, (centre,))


def arcs(centre: Place, first: float, spacing: float, sweeps: int, begins: float, turns: float) -> Pattern:
    """Make arcs on a line tended from one point ashore.

    L = angle times the sum of the radii; area = angle / 2 (r_out^2 - r_in^2).

    Parameters
    ----------
    centre : Place
        Where the tender stands.
    first : float
        Radius of the first arc, m.
    spacing : float
        Line given (positive) or taken in (negative) for each arc, m, not 0.
    sweeps : int
        Number of arcs, at least 1.
    begins : float
        True bearing from the tender where the first arc begins, rad.
    turns : float
        Angle of each arc, rad, more than 0 and at most a whole turn.

    Returns
    -------
    Pattern
        Arcs to and fro.

    Raises
    ------
    RangeError
        If a radius would not be more than 0, or the angle or the number lies outside.

    Notes
    -----
    Source: public-safety diving practice, arcs of 3 ft tended from 100 ft inwards (Riptide vol. 1 no. 1).

    Examples
    --------
    >>> round(arcs((0.0, 0.0), 100.0, -3.0, 8, 0.0, math.pi / 2).search_length, 2)
    1124.69
    """
    least = min(first, first + (sweeps - 1) * spacing)
    if sweeps < 1 or not spacing or least <= 0.0 or not 0.0 < turns <= FULL:
        raise RangeError(f"{sweeps} arcs from {first} m, {spacing} m apart over {turns} rad cannot be swum")
    legs: list[Leg] = []
    for k in range(sweeps):
        back = bool(k % 2)
        start = begins + turns if back else begins
        sweep = arc(centre, first + k * spacing, start, -turns if back else turns, k + 1, abs(spacing))
        legs += ([joined(legs[-1].end, sweep.start)] if legs else []) + [sweep]
    values = (
        ("spacing", abs(spacing)),
        ("sweeps", float(sweeps)),
        ("first", first),
        ("begins", begins % FULL),
        ("turns", turns),
    )
    return Pattern("arcs", values, tuple(legs), sweeps - 1, 0, (centre,))


def arc_area(outer: float, inner: float, turns: float) -> float:
    """Give the area between two arcs.

    Parameters
    ----------
    outer, inner : float
        Radii, m.
    turns : float
        Angle, rad.

    Returns
    -------
    float
        Area, m2: angle / 2 (r_out^2 - r_in^2).

    Examples
    --------
    >>> round(arc_area(2.0, 0.0, FULL), 4)
    12.5664
    """
    return 0.5 * turns * (outer * outer - inner * inner)


def ring_area(spacing: float, rings: int) -> float:
    """Give the area that rings cover.

    Parameters
    ----------
    spacing : float
        Spacing of the rings, m.
    rings : int
        Number of rings.

    Returns
    -------
    float
        Area, m2: pi (N d)^2.

    Examples
    --------
    >>> round(ring_area(1.5, 10), 4)
    706.8583
    """
    return math.pi * (rings * spacing) ** 2
