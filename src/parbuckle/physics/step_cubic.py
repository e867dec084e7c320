"""Inside a step: the cubic through it, where it passes a level, and the best mean speed between two samples.

Element by element: the same source for one member in a loop and for columns of members.
"""

from __future__ import annotations

from parbuckle.physics.choose import Each, choose, larger, smaller
from parbuckle.quantity.frozen import Bools

_LANDING = 4  # Newton steps on a cubic from a start that is right to a few per cent: then 1e-15


def cubic(h: Each, first: Each, middle: Each, last: Each) -> tuple[Each, Each, Each]:
    """Give the coefficients of the cubic in the share of a step, from the slopes of the classical fourth-order step.

    Parameters
    ----------
    h : Each
        Length of the step, s.
    first, middle, last : Each
        First slope, sum of the two in the middle, last slope.

    Returns
    -------
    tuple of Each
        Coefficients of s, s^2 and s^3; at s = 1 their sum is the fourth-order step itself.

    Notes
    -----
    Source: the natural third-order extension, E. Hairer, S. P. Norsett, G. Wanner, Solving Ordinary Differential
    Equations I, section II.6 (recalled).
    """
    return (
        h * first,
        h * (middle - 1.5 * first - 0.5 * last),
        h * (2.0 / 3.0) * (first - middle + last),
    )


def along(s: Each, c0: Each, c1: Each, c2: Each, c3: Each) -> Each:
    """Give the value of a cubic.

    Parameters
    ----------
    s : Each
        Share of the step.
    c0, c1, c2, c3 : Each
        Coefficients by rising power.

    Returns
    -------
    Each
        Value.
    """
    return c0 + s * (c1 + s * (c2 + s * c3))


def landing(c0: Each, c1: Each, c2: Each, c3: Each, low: Each, high: Each) -> Each:
    """Give the share of a step at which a cubic that rises between two shares passes 0.

    Newton's steps from the chord, each kept inside the shares between which the sign changes.

    Parameters
    ----------
    c0, c1, c2, c3 : Each
        Coefficients by rising power.
    low, high : Each
        Shares: not above 0 at the first, above 0 at the second; the first is given back where they are equal.

    Returns
    -------
    Each
        Share, between the two.
    """
    left = along(low, c0, c1, c2, c3)
    right = along(high, c0, c1, c2, c3)
    gap = right - left
    s = low + (high - low) * smaller(larger(-left / choose(gap > 0.0, gap, 1.0), 0.0), 1.0)
    twice, thrice = 2.0 * c2, 3.0 * c3
    for _ in range(_LANDING):
        value = along(s, c0, c1, c2, c3)
        slope = c1 + s * (twice + s * thrice)
        above, rises = value > 0.0, slope > 0.0
        high = choose(above, s, high)
        low = choose(above, low, s)
        newton = s - value / choose(rises, slope, 1.0)
        inside = rises & (newton >= low) & (newton <= high)
        s = choose(inside, newton, 0.5 * (low + high))
    return s


def crossing(sign: Each, level: Each, r0: Each, turn: Each, r_turn: Each, r1: Each) -> tuple[Bools, Each, Each]:
    """Tell whether a speed passes a level in a step, and between which shares.

    Parameters
    ----------
    sign : Each
        1 for upward, -1 for downward.
    level : Each
        Level, m/s.
    r0 : Each
        Speed at the start, m/s.
    turn : Each
        Share at which it turns; 1 where it does not.
    r_turn, r1 : Each
        Speed where it turns, and at the end, m/s.

    Returns
    -------
    tuple of (Bools, Each, Each)
        Whether it passes, and the two shares for ``landing``.
    """
    at_start = sign * (r0 - level) > 0.0
    by_turn = sign * (r_turn - level) > 0.0
    passes = at_start | by_turn | (sign * (r1 - level) > 0.0)
    low = choose(at_start | by_turn, 0.0, turn)
    high = choose(at_start, 0.0, choose(by_turn, turn, 1.0))
    return passes, low, high


def best_mean(best: Each, span: Each, w0: Each, d0: Each, w1: Each, d1: Each) -> Each:
    """Give the larger of the best way in ten seconds so far and the best within one more sample.

    Parameters
    ----------
    best : Each
        Best so far, m.
    span : Each
        Time between the samples, s.
    w0, d0 : Each
        Way of the ten seconds before the first sample, m, and its rate of change, m/s.
    w1, d1 : Each
        The same before the second one.

    Returns
    -------
    Each
        m; a top between the samples is taken from the slopes at both.
    """
    tops = (d0 > 0.0) & (d1 < 0.0)
    s = choose(tops, d0 / choose(tops, d0 - d1, 1.0), 0.0)
    top = 0.5 * (w0 + span * d0 * s * 0.5 + w1 - span * d1 * (1.0 - s) * 0.5)
    return larger(best, larger(w1, choose(tops, top, w1)))
