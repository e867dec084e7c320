"""Slack water: when the stream is under a limit, inside the table's own span."""

from __future__ import annotations

import numpy as np

from parbuckle.dive.problem import Stream
from parbuckle.dive.result import Window
from parbuckle.physics.ranges import FloatsLike, Range, positive
from parbuckle.quantity.frozen import Bools, Floats

SHARE_RANGE = Range("limit over the strongest stream", 0.0, 1.0, "", "above 1 it is slack all the time")

_TOUCH = 1e-3  # s: two pieces that touch are one window


def slack_time(limit: FloatsLike, strongest: FloatsLike, period: FloatsLike) -> Floats:
    """Give how long a stream that swings like a sine stays under a limit, around one slack.

    t = (P / pi) asin(u / u_max).

    Parameters
    ----------
    limit : FloatsLike
        Limit, m/s.
    strongest : FloatsLike
        Strongest stream, m/s.
    period : FloatsLike
        Of the tide, s; 12.4206 h for the main lunar tide.

    Returns
    -------
    Floats
        Time, s.

    Raises
    ------
    RangeError
        For a limit above the strongest stream, or a period that is not above 0.

    Notes
    -----
    Source: geometry of a sine.

    Examples
    --------
    >>> round(float(slack_time(0.5, 2.0, 12.4206 * 3600.0)) / 60.0, 1)
    59.9
    """
    share = SHARE_RANGE.check(np.asarray(limit) / positive("strongest stream", strongest, "m/s"))
    return np.asarray(positive("period", period, "s") / np.pi * np.arcsin(share))


def window(stream: Stream, start: float, needed: Floats) -> Window:
    """Give the time in which the stream is under the limit that the dive overlaps most, and whether it fits.

    Between two rows of the table the stream goes evenly, as a vector: |a + (b - a) s| = limit is solved for s.

    Parameters
    ----------
    stream : Stream
        Table, limit and error of its clock.
    start : float
        Planned time of leaving the surface, s since 1970.
    needed : Floats
        From leaving the surface to reaching it again, s, shape (n,).

    Returns
    -------
    Window
        One column for each draw. Beyond the table nothing counts as slack.

    Notes
    -----
    Source: own work; linear interpolation of the vector.

    Examples
    --------
    >>> zero = np.zeros(1)
    >>> table = Stream((0.0, 3600.0), (zero - 1.0, zero + 1.0), (zero, zero), 0.5, zero)
    >>> found = window(table, 900.0, zero + 1200.0)
    >>> float(found.opens[0]), float(found.closes[0]), bool(found.fits[0])
    (900.0, 2700.0, True)
    """
    end = start + needed
    n = needed.shape[-1]
    best = [np.zeros(n), np.zeros(n), np.zeros(n)]
    most, exists = np.full(n, -np.inf), np.zeros(n, dtype=bool)
    run = [np.zeros(n), np.full(n, -np.inf), np.zeros(n), np.full(n, np.inf)]  # opens, closes, slack, speed at slack
    for i in range(len(stream.times) - 1):
        inside, low, high, slack, speed = _piece(stream, i)
        goes_on = inside & (run[1] >= low - _TOUCH)
        opens = np.where(goes_on, run[0], low)
        calmer = goes_on & (run[3] <= speed)
        run = [
            np.where(inside, opens, run[0]),
            np.where(inside, high, -np.inf),
            np.where(calmer, run[2], slack),
            np.where(calmer, run[3], speed),
        ]
        overlap = np.where(inside, np.minimum(run[1], end) - np.maximum(run[0], start), -np.inf)
        better = inside & (overlap >= most)
        best = [np.where(better, new, old) for new, old in zip(run[:3], best, strict=True)]
        most, exists = np.where(better, overlap, most), exists | inside
    opens, closes, slack = best
    fits = exists & (opens <= start) & (closes >= end)
    return Window(opens, closes, slack, exists, fits, exists & (closes - opens >= needed))


def _piece(stream: Stream, i: int) -> tuple[Bools, Floats, Floats, Floats, Floats]:
    """Between two rows: where it is under the limit, from when to when, when it is calmest and how calm."""
    a = np.stack([stream.east[i], stream.north[i]])
    d = np.stack([stream.east[i + 1], stream.north[i + 1]]) - a
    dd, ad, aa = (d * d).sum(axis=0), (a * d).sum(axis=0), (a * a).sum(axis=0)
    moving = dd > 0.0
    safe = np.where(moving, dd, 1.0)
    calmest = np.clip(np.where(moving, -ad / safe, 0.0), 0.0, 1.0)
    inner = ad * ad - dd * (aa - stream.limit**2)
    half = np.sqrt(np.maximum(inner, 0.0)) / safe
    low = np.where(moving, np.maximum(-ad / safe - half, 0.0), 0.0)
    high = np.where(moving, np.minimum(-ad / safe + half, 1.0), 1.0)
    inside = np.where(moving, (inner >= 0.0) & (high >= low), aa <= stream.limit**2)
    first, span = stream.times[i] + stream.error, stream.times[i + 1] - stream.times[i]
    speed = np.hypot(*(a + d * calmest))
    return inside, first + low * span, first + high * span, first + calmest * span, np.asarray(speed)
