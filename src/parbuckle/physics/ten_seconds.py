"""The highest mean speed over ten seconds, followed along the way of one member.

The depth is sampled every half second on the cubic of the step and kept for ten seconds. Before the start it lay still.
"""

from __future__ import annotations

from parbuckle.physics.choose import Each
from parbuckle.physics.step_cubic import best_mean
from parbuckle.quantity.frozen import Floats

SPAN = 0.5
"""Time between two samples, s; no step may be longer."""

SLOTS = 21
"""Samples that are kept: ten seconds and one more."""

OVER = 10.0
"""Time over which the mean is taken, s."""


def start_mean(ring: Floats, depth: float) -> None:
    """Fill the memory with rest at the start.

    Parameters
    ----------
    ring : Floats
        Depths, m, and speeds, m/s, shape (2, SLOTS); written here.
    depth : float
        Depth at the start, m.
    """
    for slot in range(SLOTS):
        ring[0, slot], ring[1, slot] = depth, 0.0


def sample(
    ring: Floats, slot: int, z: float, r: float, best: float, way: float, rate: float
) -> tuple[float, float, float]:
    """Take one sample.

    Parameters
    ----------
    ring : Floats
        Memory; changed here.
    slot : int
        Where it is kept: the number of the sample, from 1, modulo SLOTS.
    z, r : float
        Depth, m, and speed upward, m/s, at its time.
    best, way, rate : float
        Longest way in ten seconds so far, m; the way of the ten seconds before the last sample, and its rate of change.

    Returns
    -------
    tuple of float
        The same three after it.
    """
    oldest = slot + 1 if slot + 1 < SLOTS else 0
    ring[0, slot] = z
    ring[1, slot] = r
    new = ring[0, oldest] - z
    new_rate = r - ring[1, oldest]
    return best_mean(best, SPAN, way, rate, new, new_rate), new, new_rate


def final_mean(
    ring: Floats, slot: int, since: float, z: float, r: float, best: float, way: float, rate: float
) -> float:
    """Give the highest mean speed, the last ten seconds counted.

    Parameters
    ----------
    ring : Floats
        Memory.
    slot : int
        Where the sample that would come next would be kept.
    since : float
        Time since the last sample, s.
    z, r : float
        Depth, m, and speed upward, m/s, at the end.
    best, way, rate : float
        As given back by ``sample``.

    Returns
    -------
    float
        m/s.
    """
    then, its_rate = way_at(ring, slot, since / SPAN)
    return float(best_mean(best, since, way, rate, then - z, r - its_rate) / OVER)


def way_at(ring: Floats, slot: int, s: float) -> tuple[float, float]:
    """Give depth and speed between the oldest two samples, ten seconds before a time after the last one.

    Parameters
    ----------
    ring : Floats
        Memory.
    slot : int
        Where the sample that would come next would be kept.
    s : float
        Time since the last sample as a share of the time between two.

    Returns
    -------
    tuple of float
        Depth, m, and speed upward, m/s.
    """
    new = slot + 1 if slot + 1 < SLOTS else 0
    return between(s, ring[0, slot], ring[0, new], ring[1, slot], ring[1, new])


def between(s: Each, z0: Each, z1: Each, r0: Each, r1: Each) -> tuple[Each, Each]:
    """Give depth and speed between two samples.

    Parameters
    ----------
    s : Each
        Share of the time between them.
    z0, z1, r0, r1 : Each
        Depths, m, and speeds upward, m/s, at both.

    Returns
    -------
    tuple of Each
        Depth by the cubic through both, m; speed by the chord, m/s.
    """
    z = z0 + (z1 - z0) * (s * s * (3.0 - 2.0 * s)) - SPAN * (s * (1.0 - s)) * (r0 * (1.0 - s) - r1 * s)
    return z, r0 + s * (r1 - r0)
