"""What happens first inside a step, for all members side by side: the twin of ``events.first_event``.

The same laws find and land on an event; here the members for whom one is possible are picked out first. The levels that
a speed may pass stand in one table, a row for each in the order in which they count, and change only where somebody
acts; all that are passed in a step are landed on together.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from parbuckle.physics.constants import G
from parbuckle.physics.layout import BAG, BASE, EVENT, HAND, TENDER
from parbuckle.physics.step_cubic import along, crossing, landing
from parbuckle.quantity.frozen import Bools, Floats, Numbers

_TURNS, _EACH = (-1.0, 1.0), (1.0, -1.0, 1.0)  # rows: it turns down, up; for each tender: too fast, too slow, ceiling


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
        r0, r1, r2, r3 = speed
        self.r_end = r0 + (r1 + (r2 + r3))
        self.highest = np.maximum(np.maximum(r0, r_turn), self.r_end)
        self.lowest = np.minimum(np.minimum(r0, r_turn), self.r_end)
        self.share = np.full(turn.size, 2.0)
        self.code = np.zeros(turn.size, dtype=np.int64)
        self.who = np.full(turn.size, -1, dtype=np.int64)

    def speeds(self, levels: Floats, codes: Numbers) -> None:
        """Look for speeds that pass a level.

        Parameters
        ----------
        levels : Floats
            m/s, a row for each level and a column for each member; infinite where it does not count.
        codes : Numbers
            Their events.
        """
        signs = np.array(_TURNS + _EACH * ((len(levels) - len(_TURNS)) // len(_EACH)))
        hits = np.empty(levels.shape, dtype=bool)
        for sign, level, hit in zip(signs, levels, hits, strict=True):
            if sign > 0.0:
                np.greater(self.highest, level, out=hit)
            else:
                np.less(self.lowest, level, out=hit)
        rows, lanes = hits.nonzero()
        if not lanes.size:
            return
        sign, limit, code = signs[rows], levels[rows, lanes], codes[rows, lanes]
        s0, s1, s2, s3 = (c[lanes] for c in self.speed)
        _, low, high = crossing(sign, limit, s0, self.turn[lanes], self.r_turn[lanes], self.r_end[lanes])
        s = landing(sign * (s0 - limit), sign * s1, sign * s2, sign * s3, low, high)
        ends = np.searchsorted(rows, np.arange(len(signs) + 1)).tolist()
        for row, (first, last) in enumerate(pairwise(ends)):
            if first < last:
                who = (row - len(_TURNS)) // len(_EACH) if row >= len(_TURNS) else -1
                self.earlier(lanes[first:last], s[first:last], code[first:last], who)

    def depths(self, sign: Floats, mark: Floats, code: Numbers | int, who: int, also: bool = False) -> None:
        """Look for loads that pass a depth.

        Parameters
        ----------
        sign : Floats
            1 on the way down, -1 on the way up, shape (n,).
        mark : Floats
            m, shape (n,); infinite where it does not count.
        code : Numbers or int
            Event.
        who : int
            Tender.
        also : bool
            True where it goes before another event of the same instant.
        """
        lanes = (sign * (along(self.share, *self.depth) - mark) >= 0.0).nonzero()[0]
        if lanes.size:
            way = sign[lanes]
            z0, z1, z2, z3 = (c[lanes] for c in self.depth)
            s = landing(way * (z0 - mark[lanes]), way * z1, way * z2, way * z3, 0.0 * z0, self.share[lanes])
            self.earlier(lanes, s, code if isinstance(code, int) else code[lanes], who, also)

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
        lanes = ((along(self.share, *c) > 0.0) & counts).nonzero()[0]
        if lanes.size:
            c0, c1, c2, c3 = (x[lanes] for x in c)
            self.earlier(lanes, landing(c0, c1, c2, c3, 0.0 * c0, self.share[lanes]), code, who)

    def earlier(self, lanes: Numbers, s: Floats, code: Numbers | int, who: int, also: bool = False) -> None:
        """Keep what is earlier than what was found before.

        Parameters
        ----------
        lanes : Numbers
            Members.
        s : Floats
            Their shares of the step.
        code : Numbers or int
            Event; for each of them where it differs between them.
        who : int
            Bag or tender.
        also : bool
            True where it goes before another event of the same instant.
        """
        sooner = s <= self.share[lanes] if also else s < self.share[lanes]
        some = lanes[sooner]
        self.share[some] = s[sooner]
        self.code[some] = code if isinstance(code, int) else code[sooner]
        self.who[some] = who


def level_count(tenders: int) -> int:
    """Give the number of levels that a speed may pass.

    Parameters
    ----------
    tenders : int
        Number of tenders.

    Returns
    -------
    int
        Rows of the tables of ``set_levels``.

    Examples
    --------
    >>> level_count(2)
    8
    """
    return len(_TURNS) + len(_EACH) * tenders


def set_levels(levels: Floats, codes: Numbers, hands: Floats, hand: Floats, rising: Bools, lanes: Numbers) -> None:
    """Write the levels that the speeds of some members may pass, and the events that follow.

    Parameters
    ----------
    levels : Floats
        m/s, shape (levels, n); written here.
    codes : Numbers
        Events, the same shape; written here.
    hands, hand : Floats
        What the tenders are, and their state.
    rising : Bools
        Whether they are on their way up, shape (n,).
    lanes : Numbers
        Which members.
    """
    up = rising[lanes]
    levels[0][lanes] = np.where(up, 0.0, -np.inf)
    levels[1][lanes] = np.where(up, np.inf, 0.0)
    codes[:2, lanes] = EVENT.turn
    for j in range(hands.shape[1]):
        row, told, state = len(_TURNS) + len(_EACH) * j, hands[:, j], hand[:, j]
        mood, off = state[HAND.mood][lanes], (told[TENDER.marks][lanes] > 0.0) | (state[HAND.left][lanes] < np.inf)
        slow, fast = mood > 0.0, mood < 0.0
        level = np.where(slow, told[TENDER.add_until][lanes], told[TENDER.vent_above][lanes])
        levels[row][lanes] = np.where(off | fast, np.inf, level)
        codes[row][lanes] = np.where(slow, EVENT.well, EVENT.fast)
        level = np.where(fast, told[TENDER.vent_until][lanes], told[TENDER.add_below][lanes])
        levels[row + 1][lanes] = np.where(off | slow, -np.inf, level)
        codes[row + 1][lanes] = np.where(fast, EVENT.well, EVENT.slow)
        waits = off | (state[HAND.go][lanes] < np.inf)
        levels[row + 2][lanes] = np.where(waits, np.inf, told[TENDER.ceiling][lanes])
        codes[row + 2][lanes] = EVENT.ceiling


def first_events(
    step: Step,
    base: Floats,
    bags: Floats,
    hands: Floats,
    hand: Floats,
    levels: Floats,
    codes: Numbers,
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
    levels : Floats
        Levels of ``set_levels``.
    codes : Numbers
        Their events.
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
    step.speeds(levels, codes)
    np.minimum(step.share, 1.0, out=step.share)
    way = np.where(rising, -1.0, 1.0)
    end = np.where(rising, base[BASE.surface], base[BASE.bottom])
    step.depths(way, end, np.where(rising, EVENT.surface, EVENT.bottom), -1, also=True)
    for j in range(hands.shape[1]):
        counts = (hands[TENDER.marks, j] > 0.0) & (hand[HAND.left, j] > t)
        if counts.any():
            mark = hand[HAND.mark, j] + way * hands[TENDER.marks, j]
            step.depths(way, np.where(counts, mark, way * np.inf), EVENT.counted, j)
    for i in range(len(m)):
        room = ~full[i]
        if room.any():
            capacity = bags[BAG.capacity, i]
            slope = capacity * base[BASE.density] * G
            grow = [amount[n, i] - slope * step.depth[n + 1] for n in range(3)]
            step.cubics((m[i] - capacity * p, *grow), room, EVENT.brim, i)
    lined = base[BASE.stiffness] > 0.0
    if lined.any():
        sign = np.where(tight, -1.0, 1.0)
        z0, z1, z2, z3 = step.depth
        c0 = sign * (z0 - base[BASE.paid] - base[BASE.paying] * t)
        step.cubics((c0, sign * (z1 - base[BASE.paying] * h), sign * z2, sign * z3), lined, EVENT.line, 0)
