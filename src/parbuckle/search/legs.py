"""Legs and patterns: what is swum, leg by leg, in metres east and north of the datum, headings true."""

from __future__ import annotations

import math
from dataclasses import dataclass

from parbuckle.quantity.errors import RangeError

Place = tuple[float, float]
"""Metres east and north of the datum."""

FULL = 2.0 * math.pi
"""A whole turn, rad."""


@dataclass(frozen=True)
class Leg:
    """One straight piece or one arc of a pattern.

    Parameters
    ----------
    start, end : Place
        Where it begins and ends.
    lane : int
        Number of the lane, ring or leg, from 1; 0 for a way between lanes.
    strip : float
        Width of the strip that belongs to the leg, m: half-way to the next leg on both sides; 0 between lanes.
    centre : Place or None
        Centre of an arc; None for a straight leg.
    radius : float
        Radius of an arc, m; 0 for a straight leg.
    begins : float
        True bearing from the centre at which an arc begins, rad.
    turns : float
        Angle of an arc, rad, positive clockwise.
    swimmer : int
        Which of several swimmers side by side, from 0.
    """

    start: Place
    end: Place
    lane: int = 0
    strip: float = 0.0
    centre: Place | None = None
    radius: float = 0.0
    begins: float = 0.0
    turns: float = 0.0
    swimmer: int = 0

    @property
    def length(self) -> float:
        """Length of the leg, m."""
        if self.centre is not None:
            return self.radius * abs(self.turns)
        return math.dist(self.start, self.end)

    @property
    def heading(self) -> float:
        """True heading at the start of the leg, rad from 0 to 2 pi."""
        if self.centre is not None:
            return (self.begins + math.copysign(math.pi / 2.0, self.turns)) % FULL
        return math.atan2(self.end[0] - self.start[0], self.end[1] - self.start[1]) % FULL


@dataclass(frozen=True)
class Pattern:
    """One pattern with all its legs, in the order in which they are swum.

    Parameters
    ----------
    name : str
        Name as in ``data/search_patterns.toml``.
    parameters : tuple of (str, float)
        What made it: names and SI values.
    legs : tuple of Leg
        All legs, ways between lanes too.
    turns : int
        Turns of direction that cost time.
    shifts : int
        Shifts of a line or a weight that cost time.
    marks : tuple of Place
        Weights, line ends and the datum mark that have to be laid.
    """

    name: str
    parameters: tuple[tuple[str, float], ...]
    legs: tuple[Leg, ...]
    turns: int
    shifts: int
    marks: tuple[Place, ...]

    @property
    def lanes(self) -> tuple[Leg, ...]:
        """Legs on which the team searches."""
        return tuple(leg for leg in self.legs if leg.lane)

    @property
    def search_length(self) -> float:
        """Length swum while searching, m, of one swimmer."""
        return sum(leg.length for leg in self.lanes if not leg.swimmer)

    @property
    def track(self) -> float:
        """Length searched by all swimmers together, m."""
        return sum(leg.length for leg in self.lanes)

    @property
    def between(self) -> float:
        """Length of the ways between lanes, m, of one swimmer."""
        return sum(leg.length for leg in self.legs if not leg.lane and not leg.swimmer)


def straight(start: Place, heading: float, length: float, lane: int = 0, strip: float = 0.0) -> Leg:
    """Make a straight leg from where it begins.

    Parameters
    ----------
    start : Place
        Where it begins.
    heading : float
        True heading, rad.
    length : float
        Length, m, at least 0.
    lane : int
        Number of the lane; 0 for a way between lanes.
    strip : float
        Width of its strip, m.

    Returns
    -------
    Leg
        The leg.

    Raises
    ------
    RangeError
        If the length is negative.

    Examples
    --------
    >>> straight((0.0, 0.0), 0.0, 10.0).end
    (0.0, 10.0)
    """
    if length < 0.0:
        raise RangeError(f"a leg of {length} m was asked for; a length is at least 0")
    end = (start[0] + length * math.sin(heading), start[1] + length * math.cos(heading))
    return Leg(start, end, lane, strip)


def arc(centre: Place, radius: float, begins: float, turns: float, lane: int, strip: float) -> Leg:
    """Make an arc round a centre; a whole turn is a ring.

    Parameters
    ----------
    centre : Place
        Centre of the arc.
    radius : float
        Radius, m, more than 0.
    begins : float
        True bearing from the centre where it begins, rad.
    turns : float
        Angle, rad, positive clockwise.
    lane : int
        Number of the ring.
    strip : float
        Width of its strip, m.

    Returns
    -------
    Leg
        The arc.

    Raises
    ------
    RangeError
        If the radius is not more than 0.

    Examples
    --------
    >>> round(arc((0.0, 0.0), 2.0, 0.0, FULL, 1, 1.0).length, 4)
    12.5664
    """
    if radius <= 0.0:
        raise RangeError(f"an arc of radius {radius} m was asked for; a radius is more than 0")
    return Leg(
        around(centre, radius, begins),
        around(centre, radius, begins + turns),
        lane,
        strip,
        centre,
        radius,
        begins % FULL,
        turns,
    )


def around(centre: Place, radius: float, bearing: float) -> Place:
    """Give the place at a bearing and a distance.

    Parameters
    ----------
    centre : Place
        Where from.
    radius : float
        Distance, m.
    bearing : float
        True bearing, rad.

    Returns
    -------
    Place
        Metres east and north of the datum.

    Examples
    --------
    >>> around((1.0, 2.0), 5.0, 0.0)
    (1.0, 7.0)
    """
    return centre[0] + radius * math.sin(bearing), centre[1] + radius * math.cos(bearing)


def joined(start: Place, end: Place) -> Leg:
    """Make the straight way between two lanes.

    Parameters
    ----------
    start, end : Place
        Where it begins and ends.

    Returns
    -------
    Leg
        A leg with lane 0.

    Examples
    --------
    >>> joined((0.0, 0.0), (3.0, 4.0)).length
    5.0
    """
    return Leg(start, end)
