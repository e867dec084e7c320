"""Tide and stream between two turns: height by the cosine or by twelfths, and how long slack lasts."""

from __future__ import annotations

import math

import numpy as np

from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive
from parbuckle.quantity.frozen import Floats

M2_PERIOD = 12.4206 * 3600.0
"""Period of the main lunar tide, s (12.4206 h; common practice)."""

TWELFTHS = (1, 2, 3, 3, 2, 1)
"""Rise in each sixth of the time between two turns, twelfths of the range (chart publishers' notes)."""

SHARE = Range("share of the time between two turns", 0.0, 1.0, "", "from one turn to the next")


def risen(share: FloatsLike) -> Floats:
    """Give the part of the range by which the tide has risen, by the cosine.

    y = (1 - cos(pi x)) / 2.

    Parameters
    ----------
    share : FloatsLike
        x, part of the time from low to high water, 0 to 1, any shape.

    Returns
    -------
    Floats
        0 to 1.

    Raises
    ------
    RangeError
        For a part outside 0 to 1.

    Notes
    -----
    Source: one harmonic; differs by up to 1.7 % of the range from the rule of twelfths.

    Examples
    --------
    >>> round(float(risen(1.0 / 6.0)), 4)
    0.067
    """
    return np.asarray(0.5 * (1.0 - np.cos(math.pi * SHARE.check(share))))


def risen_by_twelfths(share: FloatsLike) -> Floats:
    """Give the part of the range by which the tide has risen, by the rule of twelfths.

    Parameters
    ----------
    share : FloatsLike
        Part of the time from low to high water, 0 to 1, any shape.

    Returns
    -------
    Floats
        0 to 1; straight between sixths.

    Raises
    ------
    RangeError
        For a part outside 0 to 1.

    Notes
    -----
    Source: rule of twelfths, 1 2 3 3 2 1, chart publishers' notes.

    Examples
    --------
    >>> round(float(risen_by_twelfths(0.5)), 4)
    0.5
    """
    steps = np.append(0.0, np.cumsum(TWELFTHS)) / sum(TWELFTHS)
    return np.interp(SHARE.check(share), np.linspace(0.0, 1.0, len(steps)), steps)


def stream_share(share: FloatsLike) -> Floats:
    """Give the stream over its greatest speed between two slacks, by the sine.

    Parameters
    ----------
    share : FloatsLike
        Part of the time from slack to slack, 0 to 1, any shape.

    Returns
    -------
    Floats
        0 to 1.

    Raises
    ------
    RangeError
        For a part outside 0 to 1.

    Notes
    -----
    Source: one harmonic; the 50/90 rule says 0.50 and 0.90 where it gives 0.500 and 0.866.

    Examples
    --------
    >>> round(float(stream_share(1.0 / 3.0)), 4)
    0.866
    """
    return np.asarray(np.sin(math.pi * SHARE.check(share)))


def slack_time(limit: FloatsLike, greatest: FloatsLike, period: float = M2_PERIOD) -> Floats:
    """Give how long the stream stays at or below a limit round one slack.

    t = (P / pi) asin(u / U); half the period where the stream never passes the limit.

    Parameters
    ----------
    limit : FloatsLike
        u, m/s, any shape.
    greatest : FloatsLike
        U, greatest speed of the stream, m/s, any shape that fits.
    period : float
        P, s.

    Returns
    -------
    Floats
        s, centred on the slack.

    Raises
    ------
    RangeError
        For a negative limit, or a speed or period that is not above zero.

    Notes
    -----
    Source: one harmonic. Slack of the stream is not high or low water.

    Examples
    --------
    >>> round(float(slack_time(0.2, 1.0)) / 60.0, 1)
    47.8
    """
    ratio = not_negative("limit of the stream", limit, "m/s") / positive("greatest stream", greatest, "m/s")
    half = 0.5 * float(positive("period of the tide", period, "s"))
    return np.asarray(np.where(ratio >= 1.0, half, 2.0 * half / math.pi * np.arcsin(np.minimum(ratio, 1.0))))
