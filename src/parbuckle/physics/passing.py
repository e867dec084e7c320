"""What a step must pass for anything to happen in it: a quick look that spares most steps the search for events.

Whoever passes here may still find nothing. Nothing is ever missed, so the answers do not hang on it.
"""

from __future__ import annotations

import numpy as np

from parbuckle.physics.layout import BAG, BASE, HAND, TENDER, Inputs
from parbuckle.quantity.frozen import Bools, Floats

_OVERSHOOT = 0.15  # a cubic goes beyond its ends by at most 4/27 of the slopes there
_SPEED_SLACK = 1e-12  # m/s: rounding
_SLACK = 1e-9  # of the gas, and m: rounding


def gates(base: Inputs, hands: Floats, hand: Floats, rising: bool) -> tuple[float, float, float]:
    """Give the speeds and the depth between which nothing happens.

    Parameters
    ----------
    base : Inputs
        Inputs of the member.
    hands : Floats
        What the tenders are.
    hand : Floats
        State of the tenders.
    rising : bool
        Whether it is on its way up.

    Returns
    -------
    tuple of float
        Lowest speed above which somebody notices or the load turns, highest speed below which, m/s; the next depth on
        the way, m.
    """
    high, low = np.inf, -np.inf
    if rising:
        low, gate, way = 0.0, base[BASE.surface], -1.0
    else:
        high, gate, way = 0.0, base[BASE.bottom], 1.0
    for j in range(hands.shape[1]):
        if hand[HAND.left, j] < np.inf:
            continue
        if hands[TENDER.marks, j] > 0.0:
            mark = hand[HAND.mark, j] + way * hands[TENDER.marks, j]
            gate = max(gate, mark) if rising else min(gate, mark)
            continue
        mood = hand[HAND.mood, j]
        if mood >= 0.0:
            high = min(high, hands[TENDER.add_until, j] if mood > 0.0 else hands[TENDER.vent_above, j])
        if mood <= 0.0:
            low = max(low, hands[TENDER.vent_until, j] if mood < 0.0 else hands[TENDER.add_below, j])
        if hand[HAND.go, j] == np.inf:
            high = min(high, hands[TENDER.ceiling, j])
    return high, low, gate


def swing(r_1: float, bend: float) -> float:
    """Give how far a speed goes at most beyond those at the ends of a step.

    Parameters
    ----------
    r_1, bend : float
        Its slopes at both ends in the share of the step, m/s.

    Returns
    -------
    float
        m/s; 0 where it does not turn inside.

    Examples
    --------
    >>> round(swing(1.0, -1.0), 3), swing(1.0, 2.0)
    (0.3, 0.0)
    """
    return _SPEED_SLACK + _OVERSHOOT * (abs(r_1) + abs(bend)) if r_1 * bend < 0.0 else 0.0


def fills(full: Bools, bags: Floats, gas: Floats, p: float) -> bool:
    """Tell whether a bag may have become full.

    Parameters
    ----------
    full : Bools
        Bags that are full already.
    bags : Floats
        Inputs.
    gas : Floats
        Gas in each bag at the end of the step, Pa m3.
    p : float
        Pressure there, Pa.

    Returns
    -------
    bool
        False where there is room in all the others.
    """
    found = False
    for i in range(gas.size):
        found = found or (not full[i] and gas[i] > (1.0 - _SLACK) * (bags[BAG.capacity, i] * p))
    return bool(found)


def line_moves(base: Inputs, tight: bool, z: float, t: float) -> bool:
    """Tell whether the line may have come tight or slack.

    Parameters
    ----------
    base : Inputs
        Inputs of the member.
    tight : bool
        Whether it is tight at the start of the step.
    z, t : float
        Depth, m, and time, s, at the end of the step.

    Returns
    -------
    bool
        False where it is as it was.
    """
    stretch = z - base[BASE.paid] - base[BASE.paying] * t
    return bool(stretch < _SLACK if tight else stretch > -_SLACK)
