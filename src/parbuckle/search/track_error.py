"""How far the legs of a pattern lie off: apart from each other on a line, adding up from leg to leg by compass."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from parbuckle.quantity.draws import uniforms
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.normal import quantile
from parbuckle.search.coverage import LegError
from parbuckle.search.legs import Pattern
from parbuckle.search.practice import TrackError

_SEED = 1
_AT_ONCE = 16  # legs that are drawn together, so that patterns share them
_SAME = 1e-6  # m: nearer than this it is the same place


@dataclass(frozen=True)
class Tracks:
    """Straight legs as they were really swum, for several swims of one pattern.

    Parameters
    ----------
    east, north : Floats
        Where each leg begins, m, shape (swims, legs).
    heading, length : Floats
        True heading, rad, and length, m, shape (swims, legs).
    strips : tuple of float
        Strip of each leg, m.
    """

    east: Floats
    north: Floats
    heading: Floats
    length: Floats
    strips: tuple[float, ...]


def adds_up(error: TrackError) -> bool:
    """Tell whether errors add up from leg to leg.

    Parameters
    ----------
    error : TrackError
        How far the track errs.

    Returns
    -------
    bool
        True by compass and count.

    Examples
    --------
    >>> adds_up(TrackError(across=1.0))
    False
    """
    return error.heading > 0.0 or error.distance > 0.0


def swum_tracks(pattern: Pattern, error: TrackError, swims: int) -> Tracks:
    """Draw swims by compass and count: each leg with its own heading error, all with one error of the count.

    Placement is not in it. A marked datum sets the error back to nothing when the pattern comes back to it.

    Parameters
    ----------
    pattern : Pattern
        Straight legs only.
    error : TrackError
        How far the track errs.
    swims : int
        Number of swims, at least 1. The draws are the same every time.

    Returns
    -------
    Tracks
        The legs on which the team searches.

    Examples
    --------
    >>> from parbuckle.search.patterns.squares import sector
    >>> swum_tracks(sector((0.0, 0.0), 20.0), TrackError(heading=0.1), 4).east.shape
    (4, 9)
    """
    legs = [leg for leg in pattern.legs if not leg.swimmer]
    heading = np.array([leg.heading for leg in legs]) + error.heading * _normal(swims, "heading", len(legs))
    length = np.array([leg.length for leg in legs]) * (1.0 + error.distance * _normal(swims, "distance", 1))
    east, north = np.empty((swims, len(legs))), np.empty((swims, len(legs)))
    x, y = np.full(swims, legs[0].start[0]), np.full(swims, legs[0].start[1])
    first = legs[0].start
    for k, leg in enumerate(legs):
        if error.marked and math.dist(leg.start, first) < _SAME:
            x, y = np.full(swims, first[0]), np.full(swims, first[1])
        east[:, k], north[:, k] = x, y
        x, y = (x + length[:, k] * np.sin(heading[:, k]), y + length[:, k] * np.cos(heading[:, k]))
    keep = [k for k, leg in enumerate(legs) if leg.lane]
    return Tracks(east[:, keep], north[:, keep], heading[:, keep], length[:, keep], tuple(legs[k].strip for k in keep))


def leg_errors(pattern: Pattern, error: TrackError) -> list[LegError]:
    """Give the spread of each leg on which the team searches.

    Across: sqrt(across^2 + (share l)^2), l the radius of an arc or the half of a lane. By compass the variances of the
    legs before add up, so that their adding up is in it and their hanging together is not.

    Parameters
    ----------
    pattern : Pattern
        What is swum.
    error : TrackError
        How far the track errs.

    Returns
    -------
    list of LegError
        One for each lane.

    Examples
    --------
    >>> from parbuckle.search.patterns.rounds import circles
    >>> leg_errors(circles((0.0, 0.0), 2.0, 2), TrackError(across=0.3, share=0.0))[1].across
    0.3
    """
    if not adds_up(error):
        lines = [leg.radius if leg.centre is not None else 0.5 * leg.length for leg in pattern.lanes]
        return [LegError(math.hypot(error.across, error.share * line), error.along) for line in lines]
    return _added_up(pattern, error)


def _added_up(pattern: Pattern, error: TrackError) -> list[LegError]:
    """Variances of the middle of each leg from those before it; a leg that lies askew counts l^2 / 12."""
    legs = [leg for leg in pattern.legs if not leg.swimmer]
    length = np.array([leg.length for leg in legs])
    heading = np.array([leg.heading for leg in legs])
    first, since = legs[0].start, np.zeros(len(legs), dtype=np.int64)
    for k, leg in enumerate(legs[1:], start=1):
        back = error.marked and math.dist(leg.start, first) < _SAME
        since[k] = k if back else since[k - 1]
    order = np.arange(len(legs))
    before = (order[None, :] < order[:, None]) & (order[None, :] >= since[:, None])
    turned = heading[None, :] - heading[:, None]
    side, ahead = np.sin(turned), np.cos(turned)
    sway = (error.heading * length) ** 2
    across = (before * ahead**2) @ sway + sway * (1.0 / 4.0 + 1.0 / 12.0)
    along = (before * side**2) @ sway
    across += (error.distance * ((before * side) @ length)) ** 2
    along += (error.distance * ((before * ahead) @ length + 0.5 * length)) ** 2
    return [
        LegError(float(np.sqrt(a)), float(np.sqrt(b)))
        for a, b, leg in zip(across.tolist(), along.tolist(), legs, strict=True)
        if leg.lane
    ]


def shifts(placement: float, swims: int) -> tuple[Floats, Floats]:
    """Draw where the whole pattern lies off.

    Parameters
    ----------
    placement : float
        Standard deviation east and north, m.
    swims : int
        Number of draws.

    Returns
    -------
    tuple of Floats
        Metres east and north, shape (swims,).

    Examples
    --------
    >>> abs(shifts(0.0, 2)[0]).tolist()
    [0.0, 0.0]
    """
    both = placement * _normal(swims, "placement", 1 + 1)
    return both[:, 0], both[:, 1]


def _normal(swims: int, what: str, columns: int) -> Floats:
    return _drawn(swims, what, -(-columns // _AT_ONCE) * _AT_ONCE)[:, :columns]


@lru_cache(maxsize=64)
def _drawn(swims: int, what: str, columns: int) -> Floats:
    rows = [quantile(uniforms(_SEED, f"search.track.{what}.{k}", swims)) for k in range(columns)]
    return np.stack(rows, axis=-1)
