"""What a pattern costs: time with turns and shifts, gas of the two divers, kick cycles, marks on the line."""

from __future__ import annotations

import math

from parbuckle.quantity.errors import RangeError
from parbuckle.search.legs import Leg, Pattern
from parbuckle.search.practice import Practice, common


def seconds(pattern: Pattern, practice: Practice, speed: float) -> float:
    """Give the time on the pattern.

    T = L / v + ways between / v_way + turns t_turn + shifts t_shift.

    Parameters
    ----------
    pattern : Pattern
        What is swum.
    practice : Practice
        Its turns, shifts and speed.
    speed : float
        Search speed, m/s, more than 0.

    Returns
    -------
    float
        s.

    Raises
    ------
    RangeError
        If the speed is not more than 0.

    Notes
    -----
    Source: pattern geometry, time row.

    Examples
    --------
    >>> from parbuckle.search.patterns.squares import sector
    >>> from parbuckle.search.practice import practices
    >>> three = next(p for p in practices() if p.name == "sector")
    >>> round(seconds(sector((0.0, 0.0), 20.0), three, 0.25))
    768
    """
    if not speed > 0.0:
        raise RangeError(f"a search at {speed} m/s was asked for; the speed is more than 0")
    swum = (pattern.search_length + pattern.between / practice.ways) / (speed * practice.speed)
    return swum + pattern.turns * practice.turn + pattern.shifts * practice.shift


def gas_needed(time: float, rate: float, bottom_pressure: float, surface_pressure: float) -> float:
    """Give the gas that one diver breathes on the pattern, as gas at the surface.

    V = rate x p(bottom) / p(surface) x T. Reserve, descent and ascent are not in it.

    Parameters
    ----------
    time : float
        Time on the pattern, s.
    rate : float
        Breathing rate at the work, m3/s at the diver's own pressure.
    bottom_pressure, surface_pressure : float
        Absolute pressures, Pa.

    Returns
    -------
    float
        m3 at surface pressure.

    Raises
    ------
    RangeError
        If the pressure at the bottom is less than at the surface, or a value is negative.

    Examples
    --------
    >>> round(gas_needed(600.0, 0.0005, 2e5, 1e5), 3)
    0.6
    """
    if time < 0.0 or rate < 0.0 or not 0.0 < surface_pressure <= bottom_pressure:
        raise RangeError(
            "gas on a search: time and rate are at least 0, the pressure at the bottom at least the surface's"
        )
    return rate * bottom_pressure / surface_pressure * time


def kick_cycles(leg: Leg, per_cycle: float | None = None) -> int:
    """Give the kick cycles of a leg, to the nearest whole one.

    Parameters
    ----------
    leg : Leg
        What is swum.
    per_cycle : float or None
        Way of one cycle, m; None takes the common 1.5 m.

    Returns
    -------
    int
        Cycles.

    Raises
    ------
    RangeError
        If the way of one cycle is not more than 0.

    Notes
    -----
    Source: navigation notes, 20 cycles to 30 m.

    Examples
    --------
    >>> kick_cycles(Leg((0.0, 0.0), (0.0, 30.0)))
    20
    """
    each = common("kick") if per_cycle is None else per_cycle
    if not each > 0.0:
        raise RangeError(f"a kick cycle of {each} m was given; it is more than 0")
    return math.floor(leg.length / each + 0.5)


def line_marks(pattern: Pattern) -> tuple[float, ...]:
    """Give where the search line is marked: one mark for each ring or arc, or the lane's shift on the end lines.

    Parameters
    ----------
    pattern : Pattern
        What is swum.

    Returns
    -------
    tuple of float
        Distances from the shot, the tender or the first lane, m, rising; empty where no line leads.

    Examples
    --------
    >>> from parbuckle.search.patterns.rounds import circles
    >>> line_marks(circles((0.0, 0.0), 2.0, 3))
    (1.0, 3.0, 5.0)
    """
    radii = sorted({leg.radius for leg in pattern.lanes if leg.centre is not None})
    if radii:
        return tuple(radii)
    if not pattern.shifts:
        return ()
    spacing = dict(pattern.parameters)["spacing"]
    return tuple(k * spacing for k in range(len(pattern.lanes)))
