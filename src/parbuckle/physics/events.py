"""What happens first inside a step of one member, and what follows from it. Plain floats; the same source compiled.

``speed`` and ``depth`` are the cubics of the step, four coefficients each by rising power of the share of the step;
``amount[power - 1, i]`` are those of the gas in bag i.
"""

from __future__ import annotations

import numpy as np

from parbuckle.physics.constants import G
from parbuckle.physics.hands import notice, seen, warn
from parbuckle.physics.layout import BAG, BASE, EVENT, HAND, TENDER, Inputs
from parbuckle.physics.step_cubic import along, crossing, landing
from parbuckle.quantity.frozen import Bools, Floats

Cubic = tuple[float, float, float, float]
"""Coefficients in the share of a step, by rising power."""


def turning(r: float, r_1: float, r_2: float, r_3: float) -> tuple[float, float]:
    """Give the share of the step at which the speed turns, and the speed there.

    Parameters
    ----------
    r, r_1, r_2, r_3 : float
        Cubic of the speed.

    Returns
    -------
    tuple of float
        Share, 1 where it does not turn; m/s.
    """
    bend = r_1 + 2.0 * r_2 + 3.0 * r_3
    if not r_1 * bend < 0.0:
        return 1.0, along(1.0, r, r_1, r_2, r_3)
    sign = 1.0 if bend > 0.0 else -1.0
    turn = landing(sign * r_1, sign * 2.0 * r_2, sign * 3.0 * r_3, 0.0, 0.0, 1.0)
    return float(turn), float(along(turn, r, r_1, r_2, r_3))


def speed_passes(
    sign: float, level: float, speed: Cubic, turn: float, r_turn: float, r_end: float, share: float
) -> float:
    """Give the share of the step at which the speed passes a level, where it is known that it does.

    Parameters
    ----------
    sign : float
        1 for upward, -1 for downward.
    level : float
        m/s.
    speed : Cubic
        Cubic of the speed.
    turn, r_turn, r_end : float
        Share at which the speed turns (1 for never), the speed there and at the end of the step.
    share : float
        Earliest event so far.

    Returns
    -------
    float
        Share; ``share`` itself where it does not pass before.
    """
    _, low, high = crossing(sign, level, speed[0], turn, r_turn, r_end)
    s = landing(sign * (speed[0] - level), sign * speed[1], sign * speed[2], sign * speed[3], low, high)
    return float(min(s, share))


def depth_passes(sign: float, mark: float, depth: Cubic, share: float) -> float:
    """Give the share of the step at which the load passes a depth, on its way in one direction.

    Parameters
    ----------
    sign : float
        1 on the way down, -1 on the way up.
    mark : float
        m.
    depth : Cubic
        Cubic of the depth.
    share : float
        Earliest event so far, at most 1.

    Returns
    -------
    float
        Share; above 1 where it does not pass before.
    """
    if sign * (along(share, depth[0], depth[1], depth[2], depth[3]) - mark) < 0.0:
        return 2.0
    return float(landing(sign * (depth[0] - mark), sign * depth[1], sign * depth[2], sign * depth[3], 0.0, share))


def first_event(
    base: Inputs,
    bags: Floats,
    hands: Floats,
    hand: Floats,
    full: Bools,
    m: Floats,
    amount: Floats,
    speed: Cubic,
    depth: Cubic,
    turn: float,
    r_turn: float,
    p: float,
    t: float,
    h: float,
    rising: bool,
    tight: bool,
) -> tuple[float, int, int]:
    """Find the earliest event of a step. Where two fall together the later one in this list follows at once.

    Parameters
    ----------
    base, bags, hands : Floats
        Inputs.
    hand : Floats
        State of the tenders.
    full : Bools
        Bags that are full.
    m, amount : Floats
        Gas in each bag at the start of the step, and its cubic.
    speed, depth : Cubic
        Cubics.
    turn, r_turn : float
        Share at which the speed turns (1 for never) and the speed there.
    p : float
        Pressure at the bags at the start of the step, Pa.
    t, h : float
        Start and length of the step, s.
    rising : bool
        Whether it is on its way up.
    tight : bool
        Whether the line is tight.

    Returns
    -------
    tuple of (float, int, int)
        Share of the step (1 for all of it), event, and which bag or tender.
    """
    r_end = along(1.0, speed[0], speed[1], speed[2], speed[3])
    highest, lowest = max(max(speed[0], r_turn), r_end), min(min(speed[0], r_turn), r_end)
    share, code, who = 2.0, EVENT.nothing, -1
    if lowest < 0.0 if rising else highest > 0.0:
        code = EVENT.turn
        share = speed_passes(-1.0 if rising else 1.0, 0.0, speed, turn, r_turn, r_end, share)
    for j in range(hands.shape[1]):
        if hand[HAND.left, j] <= t or hands[TENDER.marks, j] > 0.0:
            continue
        mood = hand[HAND.mood, j]
        level = hands[TENDER.add_until, j] if mood > 0.0 else hands[TENDER.vent_above, j]
        if mood >= 0.0 and highest > level:
            before = share
            share = speed_passes(1.0, level, speed, turn, r_turn, r_end, share)
            if share < before:
                code, who = EVENT.well if mood > 0.0 else EVENT.fast, j
        level = hands[TENDER.vent_until, j] if mood < 0.0 else hands[TENDER.add_below, j]
        if mood <= 0.0 and lowest < level:
            before = share
            share = speed_passes(-1.0, level, speed, turn, r_turn, r_end, share)
            if share < before:
                code, who = EVENT.well if mood < 0.0 else EVENT.slow, j
        level = hands[TENDER.ceiling, j]
        if highest > level and hand[HAND.go, j] == np.inf:
            before = share
            share = speed_passes(1.0, level, speed, turn, r_turn, r_end, share)
            if share < before:
                code, who = EVENT.ceiling, j
    share = min(share, 1.0)
    way = -1.0 if rising else 1.0
    s = depth_passes(way, base[BASE.surface] if rising else base[BASE.bottom], depth, share)
    if s <= share:
        share, code = s, EVENT.surface if rising else EVENT.bottom
    for j in range(hands.shape[1]):
        if hands[TENDER.marks, j] > 0.0 and hand[HAND.left, j] > t:
            s = depth_passes(way, hand[HAND.mark, j] + way * hands[TENDER.marks, j], depth, share)
            if s < share:
                share, code, who = s, EVENT.counted, j
    for i in range(m.size):
        if not full[i]:
            capacity = bags[BAG.capacity, i]
            slope = capacity * base[BASE.density] * G
            c0, c1 = m[i] - capacity * p, amount[0, i] - slope * depth[1]
            c2, c3 = amount[1, i] - slope * depth[2], amount[2, i] - slope * depth[3]
            if along(share, c0, c1, c2, c3) > 0.0:
                s = landing(c0, c1, c2, c3, 0.0, share)
                if s < share:
                    share, code, who = s, EVENT.brim, i
    if base[BASE.stiffness] > 0.0:
        sign = -1.0 if tight else 1.0
        c0 = sign * (depth[0] - base[BASE.paid] - base[BASE.paying] * t)
        c1, c2, c3 = sign * (depth[1] - base[BASE.paying] * h), sign * depth[2], sign * depth[3]
        if along(share, c0, c1, c2, c3) > 0.0:
            s = landing(c0, c1, c2, c3, 0.0, share)
            if s < share:
                share, code, who = s, EVENT.line, 0
    return share, code, who


def tell(
    hand: Floats, queue: Floats, hands: Floats, code: int, who: int, t: float, z: float, r: float, way: float
) -> bool:
    """Let a tender take in what has happened.

    Parameters
    ----------
    hand, queue : Floats
        State of the tenders; changed here.
    hands : Floats
        What they are.
    code, who : int
        Event and tender.
    t, z, r : float
        Time, s, depth, m, speed upward, m/s.
    way : float
        1 on the way down, -1 on the way up.

    Returns
    -------
    bool
        False when more actions are pending than can be kept.
    """
    if code == EVENT.ceiling:
        warn(hand, hands, who, t)
    elif code == EVENT.counted:
        mark = hand[HAND.mark, who] + way * hands[TENDER.marks, who]
        rate = (hand[HAND.mark, who] - mark) / (t - hand[HAND.mark_time, who])
        hand[HAND.mark, who], hand[HAND.mark_time, who] = mark, t
        if rate > hands[TENDER.ceiling, who]:
            warn(hand, hands, who, t)
        mood = seen(hand[HAND.mood, who], rate, hands, who)
        if mood != hand[HAND.mood, who]:
            return notice(hand, queue, hands, who, t, mood)
    elif code == EVENT.fast:
        return notice(hand, queue, hands, who, t, -1.0)
    elif code == EVENT.well:
        return notice(hand, queue, hands, who, t, 0.0)
    elif code == EVENT.slow:
        return notice(hand, queue, hands, who, t, 1.0)
    return True
