"""A tended lift, all members side by side in NumPy: the plain twin of ``kernel``, equal to it bit for bit.

Every member takes its own step. A few thousand are under way at a time; those that have ended make room for others.
"""

from __future__ import annotations

import numpy as np

from parbuckle.physics import lockstep_hands
from parbuckle.physics.balance import interface_pressure, line_pull
from parbuckle.physics.hands import PENDING
from parbuckle.physics.layout import ANSWER, BAG, BASE, EVENT, FAILED, HAND, MOST_STEPS, OUT_OF_TIME, TENDER
from parbuckle.physics.lockstep_events import Step, first_events, level_count, set_levels
from parbuckle.physics.step_cubic import along, best_mean, cubic, landing
from parbuckle.physics.ten_seconds import OVER, SLOTS, SPAN, between
from parbuckle.physics.tended_laws import advance, slopes, step_size
from parbuckle.quantity.frozen import Bools, Floats, Numbers

_WIDTH = 4096  # members under way at a time: wide enough for NumPy, small enough for a cache
_DROP = 0.8  # share of the columns still under way below which the others make room
_MOODS = np.zeros(len(EVENT))
_MOODS[EVENT.fast], _MOODS[EVENT.slow] = -1.0, 1.0


def lockstep(table: Floats, bag_count: int, tenders: int, step: float, limit: float) -> Floats:
    """Follow all members to their ends.

    Parameters
    ----------
    table : Floats
        Inputs of ``tended_columns.columns``, shape (fields, n).
    bag_count, tenders : int
        Number of bags and of tenders.
    step, limit : float
        Longest step and time limit, s.

    Returns
    -------
    Floats
        Answers, shape (fields of ``layout.ANSWER`` and after them, n).
    """
    n, first = table.shape[1], min(table.shape[1], _WIDTH)
    out = np.zeros((len(ANSWER) + 2 * bag_count + 2 * tenders, n))
    with np.errstate(divide="ignore", invalid="ignore"):
        lanes = _Lanes(table, np.arange(first), bag_count, tenders)
        while lanes.ids.size:
            _hands(lanes)
            _move(lanes, step, limit)
            ended = np.count_nonzero(lanes.ended)
            if ended > (1.0 - _DROP) * lanes.ids.size or ended == lanes.ids.size:
                out[:, lanes.ids[lanes.ended]] = lanes.answers()[:, lanes.ended]
                more = min(ended, n - first)
                fresh = _Lanes(table, np.arange(first, first + more), bag_count, tenders) if more else None
                lanes.renew((~lanes.ended).nonzero()[0], fresh)
                first += more
    return out


class _Lanes:
    """The state of the members under way; every array has them as its last axis."""

    def __init__(self, table: Floats, ids: Numbers, bag_count: int, tenders: int) -> None:
        n, split = ids.size, len(BASE) + len(BAG) * bag_count
        inputs = table[:, ids]
        self.ids = ids
        self.base = inputs[: len(BASE)]
        self.bags = inputs[len(BASE) : split].reshape(len(BAG), bag_count, n)
        self.hands = inputs[split:].reshape(len(TENDER), tenders, n)
        self.hand = np.zeros((len(HAND), tenders, n))
        self.queue = np.zeros((2, tenders, PENDING, n))
        self.g = np.zeros((6, bag_count, n))
        self.opened, self.inflow, self.over = np.zeros((3, bag_count, n))
        self.full = np.zeros((bag_count, n), dtype=bool)
        self.t = np.zeros(n)
        self.z, self.r = self.base[BASE.start].copy(), self.base[BASE.rise].copy()
        self.g[5] = self.bags[BAG.product]
        self.rising, self.tight = self.r >= 0.0, self.z - self.base[BASE.paid] > 0.0
        self.top, self.lowest = np.maximum(self.r, 0.0), self.z.copy()
        self.best, self.way, self.rate, self.end, self.steps, self.tension = np.zeros((6, n))
        self.spilled, self.vented, self.added = np.zeros((3, n))
        self.number, self.slot = np.ones(n), np.ones(n, dtype=np.int64)
        self.ring = np.zeros((2, SLOTS, n))
        self.ring[0] = self.z
        self.ended = np.zeros(n, dtype=bool)
        lockstep_hands.start(self.hand, self.z)
        self.push = lockstep_hands.set_valves(self.hand, self.hands, self.opened, self.inflow)
        self.busy = self.busy_bags()
        self.due = np.zeros((tenders, n))
        self.levels = np.zeros((level_count(tenders), n))
        self.codes = np.zeros(self.levels.shape, dtype=np.int64)
        self.note_hands(np.arange(n))

    @property
    def m(self) -> Floats:
        return np.asarray(self.g[5])

    def busy_bags(self) -> Bools:
        return np.asarray((self.opened > 0.0) | (self.inflow > 0.0) | (self.bags[BAG.relief_area] > 0.0))

    def note_hands(self, lanes: Numbers) -> None:
        """Bring up to date what hangs on the hands of some members: when they act next, and which speeds matter."""
        for j, due in enumerate(self.due):
            due[lanes] = lockstep_hands.due(self.hand[:, j], self.queue[:, j], lanes)
        set_levels(self.levels, self.codes, self.hands, self.hand, self.rising, lanes)

    def renew(self, stay: Numbers, fresh: _Lanes | None) -> None:
        """Keep some of the members, and take others in."""
        for name, value in vars(self).items():
            kept = value.take(stay, axis=-1)
            more = () if fresh is None else (getattr(fresh, name),)
            setattr(self, name, np.concatenate((kept, *more), axis=-1) if more else kept)

    def answers(self) -> Floats:
        since = self.t - SPAN * (self.number - 1.0)
        i, new = np.arange(self.t.size), np.where(self.slot + 1 < SLOTS, self.slot + 1, 0)
        (z0, r0), (z1, r1) = self.ring[:, self.slot, i], self.ring[:, new, i]
        then, its_rate = between(since / SPAN, z0, z1, r0, r1)
        mean = best_mean(self.best, since, self.way, self.rate, then - self.z, self.r - its_rate) / OVER
        rows = [np.empty(0)] * len(ANSWER)
        for field, value in (
            (ANSWER.end, self.end),
            (ANSWER.time, self.t),
            (ANSWER.speed, self.r),
            (ANSWER.max_speed, self.top),
            (ANSWER.max_mean, mean),
            (ANSWER.min_depth, np.minimum(self.lowest, self.z)),
            (ANSWER.end_depth, self.z),
            (ANSWER.spilled, self.spilled),
            (ANSWER.vented, self.vented),
            (ANSWER.added, self.added),
            (ANSWER.tension, self.tension),
            (ANSWER.steps, self.steps),
        ):
            rows[field] = value
        return np.array([*rows, *self.m, *self.over, *self.hand[HAND.pulls], *self.hand[HAND.left]])


def _hands(s: _Lanes) -> None:
    """Let the hands do what is due now."""
    acted = []
    for j in range(s.hands.shape[1]):
        now = ((s.due[j] <= s.t) & ~s.ended).nonzero()[0]
        if now.size:
            lockstep_hands.act(s.hand[:, j], s.queue[:, j], s.hands[:, j], now, s.t[now], s.r[now])
            acted.append(now)
    if acted:
        lanes = np.concatenate(acted)
        s.push = lockstep_hands.set_valves(s.hand, s.hands, s.opened, s.inflow)
        s.busy = s.busy_bags()
        s.full[:, lanes] &= ~s.busy[:, lanes]
        s.note_hands(lanes)


def _move(s: _Lanes, step: float, limit: float) -> None:
    """Take one step of every member, up to its first event."""
    busy, base, g = s.busy, s.base, s.g
    some = [bool(one.any()) for one in busy]
    sealed = [bool((one > 0.0).any()) for one in s.bags[BAG.over]]
    has_skin, lined = bool((base[BASE.bag_drag] > 0.0).any()), bool((base[BASE.stiffness] > 0.0).any())
    g[0], g[4] = 0.0, g[5]
    a, p, product, each = slopes(
        base, s.bags, some, sealed, has_skin, lined, s.t, s.z, s.r, s.push, s.opened, s.inflow, g[5], g[0]
    )
    fresh = s.steps == 0.0
    if fresh.any():
        s.ended |= fresh & (s.r == 0.0) & (a <= 0.0) & (s.z >= base[BASE.bottom])
    late = s.t >= limit
    if late.any():
        late &= ~s.ended
        s.end[late] = OUT_OF_TIME
        s.ended |= late
    due = np.full(s.t.size, limit)
    for mine in s.due:
        np.minimum(due, mine, out=due)
    h = step_size(base, s.bags, some, has_skin, step, s.r, a, p, product, each, g[5], g[0])
    lands = s.t + h >= due
    h = np.where(lands, due - s.t, h)
    h[s.ended] = 0.0
    middle, last, r_middle, r_last = advance(
        base, s.bags, some, sealed, has_skin, lined, s.t, h, s.z, s.r, a, s.push, s.opened, s.inflow, g
    )
    speed = (s.r, *cubic(h, a, middle, last))
    depth = (s.z, *cubic(h, -s.r, -r_middle, -r_last))
    amount = np.zeros((3, *s.m.shape))
    for i, moves in enumerate(some):
        if moves:
            amount[:, i] = cubic(h, g[0, i], g[1, i] + g[2, i], g[3, i])
    turn = _turn(speed)
    found = Step(speed, depth, turn, along(turn, *speed))
    first_events(
        found, base, s.bags, s.hands, s.hand, s.levels, s.codes, s.full, s.m, amount, p, s.t, h, s.rising, s.tight
    )
    found.code[s.ended], found.share[s.ended] = EVENT.nothing, 1.0
    cut = (found.share < 1.0).nonzero()[0]
    t = np.where(lands & (found.share == 1.0), due, s.t + found.share * h)
    if cut.size:
        h[cut] *= found.share[cut]
        now, part, z, r, push = s.t[cut], h[cut], s.z[cut], s.r[cut], s.push[cut]
        opened, inflow, bags, again = s.opened[:, cut], s.inflow[:, cut], s.bags[..., cut], g[..., cut]
        again[4] = again[5]
        middle, last, r_middle, r_last = advance(
            base[:, cut], bags, some, sealed, has_skin, lined, now, part, z, r, a[cut], push, opened, inflow, again
        )
        for c, new in zip(speed[1:], cubic(part, a[cut], middle, last), strict=True):
            c[cut] = new
        for c, new in zip(depth[1:], cubic(part, -r, -r_middle, -r_last), strict=True):
            c[cut] = new
        for i, moves in enumerate(some):
            if moves:
                amount[:, i, cut] = cubic(part, again[0, i], again[1, i] + again[2, i], again[3, i])
    np.copyto(t, s.t, where=s.ended)
    _sample(s, found, t, h)
    s.z, s.r, s.t = along(1.0, *depth), along(1.0, *speed), t
    by_then = np.where(turn <= found.share, found.r_turn, s.r)
    s.top = np.maximum(s.top, np.maximum(s.r, by_then))
    _gas(s, busy, some, amount, h)
    if lined:
        stretch = s.z - base[BASE.paid] - base[BASE.paying] * s.t
        s.tension = np.maximum(s.tension, line_pull(base[BASE.stiffness], stretch))
    s.steps += ~s.ended
    _happen(s, found)
    failed = s.steps >= MOST_STEPS
    if failed.any():
        s.end[failed & (s.end == 0.0) & ~s.ended] = FAILED
    s.ended |= s.end != 0.0


def _turn(speed: tuple[Floats, ...]) -> Floats:
    _, r1, r2, r3 = speed
    bend = r1 + 2.0 * r2 + 3.0 * r3
    turn = np.ones(r1.size)
    lanes = (r1 * bend < 0.0).nonzero()[0]
    if lanes.size:
        sign = np.where(bend[lanes] > 0.0, 1.0, -1.0)
        zero = np.zeros(lanes.size)
        turn[lanes] = landing(sign * r1[lanes], sign * 2.0 * r2[lanes], sign * 3.0 * r3[lanes], zero, zero, zero + 1.0)
    return turn


def _sample(s: _Lanes, found: Step, t: Floats, h: Floats) -> None:
    i = ((SPAN * s.number <= t) & (h > 0.0) & ~s.ended).nonzero()[0]
    if i.size:
        share = (SPAN * s.number[i] - s.t[i]) / h[i]
        z, r = (along(share, *(c[i] for c in cubics)) for cubics in (found.depth, found.speed))
        slot = s.slot[i]
        oldest = np.where(slot + 1 < SLOTS, slot + 1, 0)
        depths, speeds = s.ring
        depths[slot, i], speeds[slot, i] = z, r
        way, rate = depths[oldest, i] - z, r - speeds[oldest, i]
        s.best[i] = best_mean(s.best[i], SPAN + 0.0 * z, s.way[i], s.rate[i], way, rate)
        s.way[i], s.rate[i], s.slot[i] = way, rate, oldest
        s.number[i] += 1.0


def _gas(s: _Lanes, busy: Bools, some: list[bool], amount: Floats, h: Floats) -> None:
    p = interface_pressure(s.base[BASE.air], s.base[BASE.density], s.z, s.base[BASE.reach])
    for i in range(len(s.m)):
        capacity, m = s.bags[BAG.capacity, i], s.m[i].copy()
        if some[i]:
            put = s.inflow[i] * h
            new = np.maximum(along(1.0, m, *amount[:, i]), 0.0)
            s.added += put
            s.vented += np.where(busy[i], m + put - new, 0.0)
            np.copyto(m, new, where=busy[i])
        most = capacity * (p + s.bags[BAG.over, i])
        s.spilled += np.where(m > most, m - most, 0.0)
        np.minimum(m, most, out=s.m[i])
        if s.full[i].any():
            s.full[i] &= s.m[i] >= capacity * p
        closed = s.bags[BAG.relief, i] > 0.0
        if closed.any():
            closed &= ~s.ended
            s.over[i] = np.where(closed, np.maximum(s.over[i], s.m[i] / capacity - p), s.over[i])


def _happen(s: _Lanes, found: Step) -> None:
    """Let follow what follows from the event of each member."""
    lanes = found.code.nonzero()[0]
    if not lanes.size:
        return
    code, who = found.code[lanes], found.who[lanes]
    turns = lanes[code == EVENT.turn]
    s.rising[turns] ^= True
    s.r[turns] = 0.0
    s.lowest[turns] = np.minimum(s.lowest[turns], s.z[turns])
    s.full[:, turns] = False
    brim = code == EVENT.brim
    s.full[who[brim], lanes[brim]] = True
    s.tight[lanes[code == EVENT.line]] ^= True
    ends = (code == EVENT.surface) | (code == EVENT.bottom)
    s.end[lanes[ends]] = code[ends]
    moods = (code == EVENT.fast) | (code == EVENT.well) | (code == EVENT.slow)
    for j in range(s.hands.shape[1]):
        his = who == j
        tells = his & moods
        _tell(s, j, lanes[tells], _MOODS[code[tells]])
        _warn(s, j, lanes[his & (code == EVENT.ceiling)])
        _count(s, j, lanes[his & (code == EVENT.counted)])
    s.note_hands(lanes)


def _tell(s: _Lanes, j: int, lanes: Numbers, mood: Floats) -> None:
    if lanes.size:
        lost = lockstep_hands.notice(s.hand[:, j], s.queue[:, j], s.hands[:, j], lanes, s.t[lanes], mood)
        s.end[lost] = FAILED


def _warn(s: _Lanes, j: int, lanes: Numbers) -> None:
    go = s.hand[HAND.go, j]
    lanes = lanes[np.isinf(go[lanes])]
    go[lanes] = s.t[lanes] + s.hands[TENDER.delay, j][lanes]


def _count(s: _Lanes, j: int, lanes: Numbers) -> None:
    """A depth mark passes: the speed is the mark's distance over the time since the last."""
    if not lanes.size:
        return
    hand, hands = s.hand[:, j], s.hands[:, j]
    way = np.where(s.rising[lanes], -1.0, 1.0)
    last = hand[HAND.mark][lanes]
    mark = last + way * hands[TENDER.marks][lanes]
    rate = (last - mark) / (s.t[lanes] - hand[HAND.mark_time][lanes])
    hand[HAND.mark][lanes], hand[HAND.mark_time][lanes] = mark, s.t[lanes]
    _warn(s, j, lanes[rate > hands[TENDER.ceiling][lanes]])
    mood = lockstep_hands.seen(hand, hands, lanes, rate)
    new = mood != hand[HAND.mood][lanes]
    _tell(s, j, lanes[new], mood[new])
