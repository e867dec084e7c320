"""A tended lift, one member after the other, in plain floats: the form that is compiled.

Every step is the classical one of fourth order with its cubic in between. The earliest event inside a step is found on
that cubic, the step is cut there, and what happens then happens. Hands act at known times; a step ends there.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from parbuckle.physics.balance import gas_volume, interface_pressure, line_pull
from parbuckle.physics.events import first_event, tell, turning
from parbuckle.physics.hands import PENDING, act, busy_bags, next_due, set_valves, start_hands
from parbuckle.physics.layout import ANSWER, BAG, BASE, EVENT, FAILED, HAND, MOST_STEPS, OUT_OF_TIME, TENDER
from parbuckle.physics.step_cubic import along, cubic
from parbuckle.physics.ten_seconds import SLOTS, SPAN, final_mean, sample, start_mean
from parbuckle.physics.tended_laws import advance, slopes, step_size
from parbuckle.quantity.frozen import Bools, Floats

TRACE = 6
"""Fields of a row of the trace before the volume of each bag: time, depth, speed, open dumps, force of fins, event."""


def runner(digest: int) -> Callable[..., None]:
    """Give the function that follows some members to their ends.

    Its arguments, all by position: ``table``, inputs of shape (n, fields) as in ``layout``; ``first`` and ``last``, the
    first member and the one after the last; number of bags and of tenders; longest step and time limit, s; ``trace`` of
    shape (rows, TRACE + k), where the steps of the last member are written while there is room; ``out``, the answers,
    shape (n, fields of ``layout.ANSWER`` and after them), written there.

    Parameters
    ----------
    digest : int
        Above 0; the compiled form is kept on disk under it.

    Returns
    -------
    callable
        The function.
    """

    def run(
        table: Floats,
        first: int,
        last: int,
        bag_count: int,
        tenders: int,
        step: float,
        limit: float,
        trace: Floats,
        out: Floats,
    ) -> None:
        gas = np.zeros((12, bag_count))
        busy = np.zeros(bag_count, np.bool_)
        sealed = np.zeros(bag_count, np.bool_)
        full = np.zeros(bag_count, np.bool_)
        hand = np.zeros((len(HAND), tenders))
        queue = np.zeros((2, tenders, PENDING))
        ring = np.zeros((2, SLOTS))
        split = len(BASE) + len(BAG) * bag_count
        for i in range(first, last if digest > 0 else first):
            base, row = table[i, : len(BASE)], table[i]
            bags = row[len(BASE) : split].reshape((len(BAG), bag_count))
            hands = row[split:].reshape((len(TENDER), tenders))
            follow(base, bags, hands, step, limit, gas, busy, sealed, full, hand, queue, ring, trace, out[i])

    return run


def follow(
    base: Floats,
    bags: Floats,
    hands: Floats,
    step: float,
    limit: float,
    gas: Floats,
    busy: Bools,
    sealed: Bools,
    full: Bools,
    hand: Floats,
    queue: Floats,
    ring: Floats,
    trace: Floats,
    out: Floats,
) -> None:
    """Follow one member to its end.

    Parameters
    ----------
    base, bags, hands : Floats
        Inputs.
    step, limit : float
        Longest step and time limit, s.
    gas, busy, sealed, full, hand, queue, ring : Floats
        Room, used again for the next member.
    trace : Floats
        Steps are written here while there is room.
    out : Floats
        Answers; written here.
    """
    g, m, amount, opened, inflow, over = gas[0:6], gas[5], gas[6:9], gas[9], gas[10], gas[11]
    t, z, r = 0.0, base[BASE.start], base[BASE.rise]
    for i in range(m.size):
        m[i], over[i], full[i] = bags[BAG.product, i], 0.0, False
        sealed[i] = bags[BAG.over, i] > 0.0
    for i in range(out.size):
        out[i] = 0.0
    start_hands(hand, z)
    start_mean(ring, z)
    has_skin, lined = base[BASE.bag_drag] > 0.0, base[BASE.stiffness] > 0.0
    rising, tight = r >= 0.0, z - base[BASE.paid] > 0.0
    push = set_valves(hand, hands, opened, inflow)
    busy_bags(opened, inflow, bags[BAG.relief_area], busy)
    top, lowest, best, way, way_rate, number, end, steps = max(r, 0.0), z, 0.0, 0.0, 0.0, 1.0, 0.0, 0
    slot, due, code, spilled = 1, 0.0, EVENT.nothing, 0.0
    _note(trace, steps, base, bags, t, z, r, m, opened, push, code)
    while True:
        if t >= due or code > EVENT.brim:
            changed, due = False, limit
            for j in range(hands.shape[1]):
                changed = act(hand, queue, hands, j, t, r) or changed
                due = min(due, next_due(hand, queue, j))
            if changed:
                push = set_valves(hand, hands, opened, inflow)
                busy_bags(opened, inflow, bags[BAG.relief_area], busy)
                for i in range(m.size):
                    full[i] = full[i] and not busy[i]
        a, p, product, mass = slopes(base, bags, busy, sealed, has_skin, lined, t, z, r, push, opened, inflow, m, g[0])
        if t == 0.0 and r == 0.0 and a <= 0.0 and z >= base[BASE.bottom]:
            break
        if t >= limit:
            end = OUT_OF_TIME
            break
        h = step_size(base, bags, busy, has_skin, step, r, a, p, product, mass, m, g[0])
        lands = t + h >= due
        if lands:
            h = due - t
        for i in range(m.size):
            g[4, i] = m[i]
        middle, last, r_middle, r_last = advance(
            base, bags, busy, sealed, has_skin, lined, t, h, z, r, a, push, opened, inflow, g
        )
        r_1, r_2, r_3 = cubic(h, a, middle, last)
        z_1, z_2, z_3 = cubic(h, -r, -r_middle, -r_last)
        for i in range(m.size):
            amount[0, i], amount[1, i], amount[2, i] = 0.0, 0.0, 0.0
            if busy[i]:
                amount[0, i], amount[1, i], amount[2, i] = cubic(h, g[0, i], g[1, i] + g[2, i], g[3, i])
        before, speed, depth = t, (r, r_1, r_2, r_3), (z, z_1, z_2, z_3)
        turn, r_turn = turning(r, r_1, r_2, r_3)
        share, code, who = first_event(
            base, bags, hands, hand, full, m, amount, speed, depth, turn, r_turn, p, t, h, rising, tight
        )
        t = due if lands and share == 1.0 else t + share * h
        if SPAN * number <= t and h > 0.0:
            s = (SPAN * number - before) / h
            best, way, way_rate = sample(
                ring, slot, along(s, z, z_1, z_2, z_3), along(s, r, r_1, r_2, r_3), best, way, way_rate
            )
            number, slot = number + 1.0, slot + 1 if slot + 1 < SLOTS else 0
        if share == 1.0:
            z, r = along(1.0, z, z_1, z_2, z_3), along(1.0, r, r_1, r_2, r_3)
        else:
            z, r = along(share, z, z_1, z_2, z_3), along(share, r, r_1, r_2, r_3)
        top = max(top, max(r, r_turn if turn <= share else r))
        p = interface_pressure(base[BASE.air], base[BASE.density], z, base[BASE.reach])
        for i in range(m.size):
            capacity = bags[BAG.capacity, i]
            if busy[i]:
                put = inflow[i] * (share * h)
                new = max(along(share, m[i], amount[0, i], amount[1, i], amount[2, i]), 0.0)
                out[ANSWER.added] += put
                out[ANSWER.vented] += m[i] + put - new
                m[i] = new
            most = capacity * (p + bags[BAG.over, i])
            if m[i] > most:
                spilled += m[i] - most
                m[i] = most
            full[i] = full[i] and m[i] >= capacity * p
            if bags[BAG.relief, i] > 0.0:
                over[i] = max(over[i], m[i] / capacity - p)
        if lined:
            stretch = z - base[BASE.paid] - base[BASE.paying] * t
            out[ANSWER.tension] = max(out[ANSWER.tension], line_pull(base[BASE.stiffness], stretch))
        steps += 1
        if code != EVENT.nothing:
            if code == EVENT.turn:
                rising, r, lowest = not rising, 0.0, min(lowest, z)
                for i in range(m.size):
                    full[i] = False
            elif code == EVENT.brim:
                full[who] = True
            elif code == EVENT.line:
                tight = not tight
            elif code == EVENT.surface or code == EVENT.bottom:
                end = float(code)
            elif not tell(hand, queue, hands, code, who, t, z, r, -1.0 if rising else 1.0):
                end = FAILED
        if trace.shape[0] > steps:
            _note(trace, steps, base, bags, t, z, r, m, opened, push, code)
        if end == 0.0 and steps >= MOST_STEPS:
            end = FAILED
        if end != 0.0:
            break
    out[ANSWER.spilled] = spilled
    out[ANSWER.end], out[ANSWER.time], out[ANSWER.speed], out[ANSWER.steps] = end, t, r, float(steps)
    out[ANSWER.max_speed], out[ANSWER.min_depth], out[ANSWER.end_depth] = top, min(lowest, z), z
    out[ANSWER.max_mean] = final_mean(ring, slot, t - SPAN * (number - 1.0), z, r, best, way, way_rate)
    rest = out[len(ANSWER) :]
    for i in range(m.size):
        rest[i], rest[m.size + i] = m[i], over[i]
    for j in range(hands.shape[1]):
        rest[2 * m.size + j], rest[2 * m.size + hands.shape[1] + j] = hand[HAND.pulls, j], hand[HAND.left, j]


def _note(
    trace: Floats,
    row: int,
    base: Floats,
    bags: Floats,
    t: float,
    z: float,
    r: float,
    m: Floats,
    opened: Floats,
    push: float,
    code: int,
) -> None:
    """Write one row of the trace, if there is room."""
    if row < trace.shape[0]:
        p = interface_pressure(base[BASE.air], base[BASE.density], z, base[BASE.reach])
        opened_sum = 0.0
        for i in range(m.size):
            opened_sum += opened[i]
            trace[row, TRACE + i] = gas_volume(m[i], p, bags[BAG.capacity, i])
        trace[row, 0], trace[row, 1], trace[row, 2] = t, z, r
        trace[row, 3], trace[row, 4], trace[row, 5] = opened_sum, push, float(code)
