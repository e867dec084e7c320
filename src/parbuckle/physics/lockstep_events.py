"""What happens first inside a step, for all members side by side: the twin of ``events.first_event``.

The same laws find and land on an event; here the members for whom one is possible are picked out first.
"""

from __future__ import annotations

import numpy as np

from parbuckle.physics.constants import G
from parbuckle.physics.layout import BAG, BASE, EVENT, HAND, TENDER
from parbuckle.physics.step_cubic import along, crossing, landing
from parbuckle.quantity.frozen import Bools, Floats, Numbers


class Step:
    """The cubics of one step of all members, and the earliest event found so far.

    Parameters
    ----------
    speed, depth : tuple of Floats
        Four coefficients each, shape (n,).
    turn, r_turn : Floats
        Share at which the speed turns (1 for never), and the speed there.
    """

    def __init__(self, speed: tuple[Floats, ...], depth: tuple[Floats, ...], turn: Floats, r_turn: Floats) -> None:
        self.speed, self.depth, self.turn, self.r_turn = speed, depth, turn, r_turn
        self.r_end = along(np.ones(1), *speed)
        self.highest = np.maximum(np.maximum(speed[0], r_turn), self.r_end)
        self.lowest = np.minimum(np.minimum(speed[0], r_turn), self.r_end)
        self.share = np.full(turn.size, 2.0)
        self.code = np.zeros(turn.size, dtype=np.int64)
        self.who = np.full(turn.size, -1, dtype=np.int64)

    def speeds(self, sign: float, level: Floats, code: Floats | int, who: int) -> None:
        """Look for speeds that pass a level.

        Parameters
        ----------
        sign : float
            1 for upward, -1 for downward.
        level : Floats
            m/s, shape (n,); infinite where it does not count.
        code : Floats or int
            Event.
        who : int
            Tender.
        """
        lanes = np.flatnonzero(self.highest > level if sign > 0.0 else self.lowest < level)
        if lanes.size:
            limit = level[lanes]
            s0, s1, s2, s3 = (c[lanes] for c in self.speed)
            _, low, high = crossing(sign, limit, s0, self.turn[lanes], self.r_turn[lanes], self.r_end[lanes])
            self.earlier(lanes, landing(sign * (s0 - limit), sign * s1, sign * s2, sign * s3, low, high), code, who)

    def depths(self, sign: Floats, mark: Floats, code: Floats | int, who: int, also: bool = False) -> None:
        """Look for loads that pass a depth.

        Parameters
        ----------
        sign : Floats
            1 on the way down, -1 on the way up, shape (n,).
        mark : Floats
            m, shape (n,); infinite where it does not count.
        code : Floats or int
            Event.
        who : int
            Tender.
        also : bool
            True where it goes before another event of the same instant.
        """
        ahead = sign * (along(self.share, *self.depth) - mark)
        lanes = np.flatnonzero(ahead >= 0.0)
        if lanes.size:
            way = sign[lanes]
            z0, z1, z2, z3 = (c[lanes] for c in self.depth)
            s = landing(way * (z0 - mark[lanes]), way * z1, way * z2, way * z3, 0.0 * z0, self.share[lanes])
            self.earlier(lanes, s, code, who, also)

    def cubics(self, c: tuple[Floats, ...], counts: Bools, code: int, who: int) -> None:
        """Look for cubics that rise above 0.

        Parameters
        ----------
        c : tuple of Floats
            Four coefficients, shape (n,).
        counts : Bools
            Members for whom it counts.
        code, who : int
            Event, and bag.
        """
        lanes = np.flatnonzero((along(self.share, *c) > 0.0) & counts)
        if lanes.size:
            c0, c1, c2, c3 = (x[lanes] for x in c)
            self.earlier(lanes, landing(c0, c1, c2, c3, 0.0 * c0, self.share[lanes]), code, who)

    def earlier(self, lanes: Numbers, s: Floats, code: Floats | int, who: int, also: bool = False) -> None:
        """Keep what is earlier than what was found before.

        Parameters
        ----------
        lanes : Numbers
            Members.
        s : Floats
            Their shares of the step.
        code : Floats or int
            Event; for all members where it differs between them.
        who : int
            Bag or tender.
        also : bool
            True where it goes before another event of the same instant.
        """
        sooner = s <= self.share[lanes] if also else s < self.share[lanes]
        some = lanes[sooner]
        self.share[some] = s[sooner]
        self.code[some] = code if isinstance(code, int) else code[some]
        self.who[some] = who


def first_events(
    step: Step,
    base: Floats,
    bags: Floats,
    hands: Floats,
    hand: Floats,
    full: Bools,
    m: Floats,
    amount: Floats,
    p: Floats,
    t: Floats,
    h: Floats,
    rising: Bools,
    tight: Bools,
) -> None:
    """Find the earliest event of the step of each member, in the order of ``events.first_event``.

    Parameters
    ----------
    step : Step
        Cubics; the events are written here.
    base, bags, hands : Floats
        Inputs, columns of members.
    hand : Floats
        State of the tenders.
    full : Bools
        Bags that are full, shape (k, n).
    m, amount : Floats
        Gas in each bag at the start, shape (k, n), and its cubic, shape (3, k, n).
    p : Floats
        Pressure at the bags at the start of the step, Pa, shape (n,).
    t, h : Floats
        Start and length of the step, s, shape (n,).
    rising, tight : Bools
        Whether they are on their way up, and whether the line is tight, shape (n,).
    """
    way = np.where(rising, -1.0, 1.0)
    step.speeds(-1.0, np.where(rising, 0.0, -np.inf), EVENT.turn, -1)
    step.speeds(1.0, np.where(rising, np.inf, 0.0), EVENT.turn, -1)
    counting = hands[TENDER.marks] > 0.0
    for j in range(hands.shape[1]):
        mood, off = hand[HAND.mood, j], counting[j] | (hand[HAND.left, j] <= t)
        up = np.where(mood > 0.0, hands[TENDER.add_until, j], hands[TENDER.vent_above, j])
        step.speeds(1.0, np.where(off | (mood < 0.0), np.inf, up), np.where(mood > 0.0, EVENT.well, EVENT.fast), j)
        down = np.where(mood < 0.0, hands[TENDER.vent_until, j], hands[TENDER.add_below, j])
        step.speeds(-1.0, np.where(off | (mood > 0.0), -np.inf, down), np.where(mood < 0.0, EVENT.well, EVENT.slow), j)
        waits = off | (hand[HAND.go, j] < np.inf)
        step.speeds(1.0, np.where(waits, np.inf, hands[TENDER.ceiling, j]), EVENT.ceiling, j)
    step.share = np.minimum(step.share, 1.0)
    end = np.where(rising, base[BASE.surface], base[BASE.bottom])
    step.depths(way, end, np.where(rising, EVENT.surface, EVENT.bottom), -1, also=True)
    for j in range(hands.shape[1]):
        if counting[j].any():
            counts = counting[j] & (hand[HAND.left, j] > t)
            mark = hand[HAND.mark, j] + way * hands[TENDER.marks, j]
            step.depths(way, np.where(counts, mark, way * np.inf), EVENT.counted, j)
    for i in range(len(m)):
        capacity = bags[BAG.capacity, i]
        slope = capacity * base[BASE.density] * G
        grow = [amount[n, i] - slope * step.depth[n + 1] for n in range(3)]
        step.cubics((m[i] - capacity * p, *grow), ~full[i], EVENT.brim, i)
    lined = base[BASE.stiffness] > 0.0
    if lined.any():
        sign = np.where(tight, -1.0, 1.0)
        z0, z1, z2, z3 = step.depth
        c0 = sign * (z0 - base[BASE.paid] - base[BASE.paying] * t)
        step.cubics((c0, sign * (z1 - base[BASE.paying] * h), sign * z2, sign * z3), lined, EVENT.line, 0)
