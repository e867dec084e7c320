"""Sums over search patterns that published tables ask for; each takes SI numbers and words and gives one number."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from parbuckle.search.coverage import LegError, chance_to_see
from parbuckle.search.curves import Curve
from parbuckle.search.expected import Ground, expected_chance, expected_coverage
from parbuckle.search.fit_problem import places
from parbuckle.search.legs import Leg, Pattern
from parbuckle.search.patterns.lanes import lanes
from parbuckle.search.patterns.rounds import arcs, circles
from parbuckle.search.patterns.squares import expanding_square, sector
from parbuckle.search.practice import TrackError

_SIGMA, _WIDTH = 20.0, 3.0  # m: the circular normal and the sweep width of the tables
_CELL, _HALF = 1.5, 80.0
_LANES = 80
_PLACES = 400
_DRAWN, _SWIMS = 8192, 6


def ring_length(spacing: float, rings: float) -> float:
    """Give the length of all rings.

    Parameters
    ----------
    spacing : float
        Spacing, m.
    rings : float
        Number of rings.

    Returns
    -------
    float
        m.
    """
    return circles((0.0, 0.0), spacing, int(rings)).search_length


def square_length(spacing: float, pairs: float) -> float:
    """Give the length of an expanding square.

    Parameters
    ----------
    spacing : float
        Spacing, m.
    pairs : float
        Number of pairs of legs.

    Returns
    -------
    float
        m.
    """
    return expanding_square((0.0, 0.0), spacing, 2 * int(pairs)).search_length


def lane_track(width: float, length: float, spacing: float) -> float:
    """Give the length of lanes over a rectangle with the ways between them.

    Parameters
    ----------
    width : float
        Width across the lanes, m.
    length : float
        Length of a lane, m.
    spacing : float
        Spacing, m.

    Returns
    -------
    float
        m.
    """
    pattern = lanes((0.0, 0.0), 0.0, length, spacing, math.ceil(width / spacing))
    return pattern.search_length + pattern.between


def arc_length(angle: float, first: float, spacing: float, sweeps: float) -> float:
    """Give the length of arcs that are taken in from the first.

    Parameters
    ----------
    angle : float
        Angle of each, rad.
    first : float
        Radius of the first, m.
    spacing : float
        Line taken in for each, m.
    sweeps : float
        Number of arcs.

    Returns
    -------
    float
        m.
    """
    return arcs((0.0, 0.0), first, -spacing, int(sweeps), 0.0, angle).search_length


def sector_length(radius: float) -> float:
    """Give the length of one three-sector search.

    Parameters
    ----------
    radius : float
        Length of a leg, m.

    Returns
    -------
    float
        m.
    """
    return sector((0.0, 0.0), radius).search_length


def displaced_lanes(law: str, coverage: float, error: float, p0: float = 1.0) -> float:
    """Give the chance to see between parallel lanes that are each displaced by a normal error.

    Parameters
    ----------
    law : str
        Law of detection.
    coverage : float
        Sweep width over spacing.
    error : float
        Standard deviation over spacing.
    p0 : float
        Chance on the line.

    Returns
    -------
    float
        Mean over one strip.
    """
    legs = [Leg((float(k), -1.0), (float(k), 1.0), 1, 1.0) for k in range(-_LANES, _LANES + 1)]
    east = (np.arange(_PLACES) + 0.5) / _PLACES - 0.5
    errors = [LegError(error, 0.0)] * len(legs)
    return float(chance_to_see(legs, east, np.zeros(_PLACES), Curve(law, coverage, p0), errors).mean())


def rings_chance(length: float, spacing: float) -> float:
    """Give the chance of rings round the datum: circular normal of 20 m, half-normal law, W = 3 m, no error.

    Parameters
    ----------
    length : float
        Length of all rings, m; the last one is swum in part.
    spacing : float
        Spacing, m.

    Returns
    -------
    float
        Chance.
    """
    whole = int(math.sqrt(length / (math.pi * spacing)))
    rest = length - math.pi * spacing * whole**2
    return _chance(circles((0.0, 0.0), spacing, whole + 1, rest / (2.0 * math.pi * (whole + 0.5) * spacing)))


def square_chance(length: float, spacing: float, heading: float = 0.0, distance: float = 0.0) -> float:
    """Give the chance of an expanding square from the datum: map and law as for the rings, errors by compass and count.

    Parameters
    ----------
    length : float
        Length of all legs, m; the last one is swum in part.
    spacing : float
        Spacing, m.
    heading : float
        Standard deviation of the heading of each leg, rad.
    distance : float
        Standard deviation of the count, share.

    Returns
    -------
    float
        Chance.
    """
    n, left = 0, length
    while left > (n // 2 + 1) * spacing:
        left -= (n // 2 + 1) * spacing
        n += 1
    pattern = expanding_square((0.0, 0.0), spacing, n + 1, last=left / ((n // 2 + 1) * spacing))
    return _chance(pattern, TrackError(heading=heading, distance=distance))


_EXACT = TrackError()


def _chance(pattern: Pattern, error: TrackError = _EXACT) -> float:
    ground, curves = _ground(), [Curve("half-normal", _WIDTH)]
    if error.heading:
        return expected_chance(pattern, curves, error, *places(ground, 0.0, _DRAWN), _SWIMS)
    return float(ground.share @ expected_coverage(pattern, curves, error, ground))


@lru_cache(maxsize=1)
def _ground() -> Ground:
    line = np.arange(-_HALF, _HALF, _CELL) + 0.5 * _CELL
    east, north = (a.ravel() for a in np.meshgrid(line, line))
    share = np.exp(-(east**2 + north**2) / (2.0 * _SIGMA**2))
    return Ground(east, north, share / share.sum(), _CELL)
