"""How fast a logged dive came up, and whether it went up and down again."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.physics.ranges import Range
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats
from parbuckle.record.profile import Profile

OVER = Range("time over which a rate is taken", 5.0, 300.0, "s", "steps of instruments below, minutes above")
HALF_MINUTE = 30.0
"""Time over which a rate is taken, s. House default: long enough for a depth that is logged in steps of 0.1 m."""


@dataclass(frozen=True, slots=True)
class Fast:
    """A part of a dive that came up faster than a limit.

    Parameters
    ----------
    start, end : float
        From and to, s since leaving the surface: last moments of the means over the limit.
    depth : float
        Depth where it ended, m.
    rate : float
        Largest mean rate in it, m/s.
    """

    start: float
    end: float
    depth: float
    rate: float


def ascent_rates(profile: Profile, over: float = HALF_MINUTE) -> Floats:
    """Give the mean rate of ascent before each sample; negative on the way down.

    v(t) = (d(t - w) - d(t)) / w, with depth straight between samples; the first w seconds of the dive have w cut to
    the time since its start.

    Parameters
    ----------
    profile : Profile
        The logged dive.
    over : float
        w, time over which the mean is taken, s.

    Returns
    -------
    Floats
        Rates, m/s, shape (n,); 0 at the first sample.

    Raises
    ------
    RangeError
        For a time outside 5 to 300 s.

    Notes
    -----
    Source: own definition.

    Examples
    --------
    >>> up = Profile(np.array([0.0, 120.0]), np.array([18.0, 0.0]))
    >>> ascent_rates(up).tolist()
    [0.0, 0.15]
    """
    w = float(OVER.check(over))
    since = profile.time - profile.time[0]
    length = np.minimum(since, w)
    before = np.interp(profile.time - length, profile.time, profile.depth)
    return np.asarray(np.divide(before - profile.depth, length, out=np.zeros_like(since), where=length > 0.0))


def too_fast(profile: Profile, limit: float, over: float = HALF_MINUTE) -> list[Fast]:
    """Give the parts of a dive whose mean rate of ascent is over a limit.

    Parameters
    ----------
    profile : Profile
        The logged dive.
    limit : float
        Highest allowed rate, m/s.
    over : float
        Time over which the mean is taken, s.

    Returns
    -------
    list of Fast
        In order of time; a rate at the limit is allowed.

    Raises
    ------
    RangeError
        For a limit that is not above 0, or a time outside its range.

    Examples
    --------
    >>> up = Profile(np.array([0.0, 60.0, 180.0, 240.0]), np.array([0.0, 18.0, 18.0, 0.0]))
    >>> [(part.start, round(part.rate, 3)) for part in too_fast(up, 0.15)]
    [(240.0, 0.3)]
    """
    if not limit > 0.0:
        raise RangeError(f"the limit of the rate is {limit:g} m/s; it must be above 0")
    rates = ascent_rates(profile, over)
    over_limit = rates > limit * (1.0 + _SLIP)
    edges = np.flatnonzero(np.diff(np.concatenate(([False], over_limit, [False])).astype(np.int8)))
    return [
        Fast(
            float(profile.time[first]),
            float(profile.time[last - 1]),
            float(profile.depth[last - 1]),
            float(rates[first:last].max()),
        )
        for first, last in edges.reshape(-1, 2).tolist()
    ]


def largest_tooth(profile: Profile) -> float:
    """Give how far the dive went up and down again.

    Largest over time of min(deepest before - d, deepest after - d).

    Parameters
    ----------
    profile : Profile
        The logged dive.

    Returns
    -------
    float
        m; 0 for a dive that goes down once and up once.

    Notes
    -----
    Source: own definition.

    Examples
    --------
    >>> largest_tooth(Profile(np.arange(5.0), np.array([0.0, 20.0, 12.0, 17.0, 0.0])))
    5.0
    """
    before = np.maximum.accumulate(profile.depth)
    after = np.maximum.accumulate(profile.depth[::-1])[::-1]
    return float((np.minimum(before, after) - profile.depth).max())


_SLIP = 1e-9  # what rounding may add to a rate at the limit
