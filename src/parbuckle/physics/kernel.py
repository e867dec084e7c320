"""A tended lift, one member after the other, in plain floats: the form that is compiled.

Every step is the classical one of fourth order with its cubic in between. The earliest event inside a step is found on
that cubic, the step is taken again up to there, and what happens then happens. Hands act at known times; a step ends
there too.

Most steps pass nothing: a quick look at their ends tells, and only the others are searched. What does not change on the
way is taken out of the tables once for each member, so that the compiler keeps it at hand.
"""

from __future__ import annotations

from collections.abc import Callable

from parbuckle.physics.balance import gas_volume, interface_pressure, line_pull
from parbuckle.physics.events import first_event, tell, turning
from parbuckle.physics.hands import act, busy_bags, next_due, set_valves, start_hands
from parbuckle.physics.layout import ANSWER, BAG, BASE, EVENT, FAILED, HAND, MOST_STEPS, OUT_OF_TIME, Inputs
from parbuckle.physics.passing import fills, gates, line_moves, swing
from parbuckle.physics.step_cubic import along, cubic
from parbuckle.physics.ten_seconds import SLOTS, SPAN, final_mean, sample, start_mean
from parbuckle.physics.tended_laws import advance, slopes, step_size
from parbuckle.quantity.frozen import Bools, Floats

TRACE = 6
"""Fields of a row of the trace before the volume of each bag: time, depth, speed, open dumps, force of fins, event."""

ROOM = 12
"""Rows of the room for gas: its rates at the four stages, amount there, amount, its cubic, dumps, inflow, pressure."""

MARKS = 3
"""Rows of the room for what holds of a bag: its gas may change; it can be closed; it is full."""


def runner(digest: int) -> Callable[..., None]:
    """Give the function that follows some members to their ends.

    Its arguments, all by position: ``base``, ``bags`` and ``hands``, inputs of shape (n, fields), (n, fields, k) and
    (n, fields, t) as in ``layout``; ``first`` and ``last``, the first member and the one after the last; longest step
    and time limit, s; ``trace`` of shape (rows, TRACE + k), where the steps of the last member are written while there
    is room; ``out``, the answers, shape (n, fields of ``layout.ANSWER`` and after them), written there; then room, used
    again for each member: ``gas`` (ROOM, k), ``marks`` (MARKS, k), ``hand`` (fields, t), ``queue`` (2, t, PENDING) and
    ``ring`` (2, SLOTS).

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
        base: Floats,
        bags: Floats,
        hands: Floats,
        first: int,
        last: int,
        step: float,
        limit: float,
        trace: Floats,
        out: Floats,
        gas: Floats,
        marks: Bools,
        hand: Floats,
        queue: Floats,
        ring: Floats,
    ) -> None:
        for i in range(first, last if digest > 0 else first):
            mine = inputs_of(base[i])
            follow(mine, bags[i], hands[i], step, limit, gas, marks, hand, queue, ring, trace, out[i])

    return run


def inputs_of(row: Floats) -> Inputs:
    """Give the inputs of a member that are neither a bag's nor a tender's, as single numbers.

    Parameters
    ----------
    row : Floats
        In the order of ``layout.BASE``.

    Returns
    -------
    Inputs
        The same, a tuple.
    """
    some = (row[0], row[1], row[2], row[3], row[4], row[5], row[6], row[7], row[8])
    return (*some, row[9], row[10], row[11], row[12], row[13], row[14], row[15], row[16])


def follow(
    base: Inputs,
    bags: Floats,
    hands: Floats,
    step: float,
    limit: float,
    gas: Floats,
    marks: Bools,
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
    gas, marks, hand, queue, ring : Floats
        Room, used again for the next member.
    trace : Floats
        Steps are written here while there is room.
    out : Floats
        Answers; written here.
    """
    g, m, amount, opened, inflow, over = gas[0:6], gas[5], gas[6:9], gas[9], gas[10], gas[11]
    new, busy, sealed, full = gas[4], marks[0], marks[1], marks[2]
    t, z, r = 0.0, base[BASE.start], base[BASE.rise]
    for i in range(m.size):
        m[i], over[i], full[i] = bags[BAG.product, i], 0.0, False
        amount[0, i], amount[1, i], amount[2, i] = 0.0, 0.0, 0.0
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
    slot, due, code, spilled, vented, added = 1, 0.0, EVENT.nothing, 0.0, 0.0, 0.0
    high, low, gate = gates(base, hands, hand, rising)
    _note(trace, steps, base, bags, t, z, r, m, opened, push, code)
    while True:
        if t >= due or code != EVENT.nothing:
            changed, due = False, limit
            for j in range(hands.shape[1]):
                changed = act(hand, queue, hands, j, t, r) or changed
                due = min(due, next_due(hand, queue, j))
            if changed:
                push = set_valves(hand, hands, opened, inflow)
                busy_bags(opened, inflow, bags[BAG.relief_area], busy)
                for i in range(m.size):
                    full[i] = full[i] and not busy[i]
                    amount[0, i], amount[1, i], amount[2, i] = 0.0, 0.0, 0.0
            high, low, gate = gates(base, hands, hand, rising)
        a, p, product, each = slopes(base, bags, busy, sealed, has_skin, lined, t, z, r, push, opened, inflow, m, g[0])
        if t == 0.0 and r == 0.0 and a <= 0.0 and z >= base[BASE.bottom]:
            break
        if t >= limit:
            end = OUT_OF_TIME
            break
        h = step_size(base, bags, busy, has_skin, step, r, a, p, product, each, m, g[0])
        lands = t + h >= due
        if lands:
            h = due - t
        before, share, code, who = t, 1.0, EVENT.nothing, -1
        while True:  # the whole step; once more up to an event inside it
            for i in range(m.size):
                new[i] = m[i]
            middle, last, r_middle, r_last = advance(
                base, bags, busy, sealed, has_skin, lined, t, h, z, r, a, push, opened, inflow, g
            )
            r_1, r_2, r_3 = cubic(h, a, middle, last)
            z_1, z_2, z_3 = cubic(h, -r, -r_middle, -r_last)
            for i in range(m.size):
                if busy[i]:
                    c_1, c_2, c_3 = cubic(h, g[0, i], g[1, i] + g[2, i], g[3, i])
                    amount[0, i], amount[1, i], amount[2, i] = c_1, c_2, c_3
                    new[i] = max(along(1.0, m[i], c_1, c_2, c_3), 0.0)
            z_end, r_end = along(1.0, z, z_1, z_2, z_3), along(1.0, r, r_1, r_2, r_3)
            p_end = interface_pressure(base[BASE.air], base[BASE.density], z_end, base[BASE.reach])
            beyond = swing(r_1, r_1 + 2.0 * r_2 + 3.0 * r_3)
            upper = max(r, r_end) + beyond
            if share < 1.0 or not (
                upper > high
                or min(r, r_end) - beyond < low
                or (upper > top and beyond > 0.0)
                or (z_end <= gate if rising else z_end >= gate)
                or fills(full, bags, new, p_end)
                or (lined and line_moves(base, tight, z_end, t + h))
            ):
                break
            turn, r_turn = turning(r, r_1, r_2, r_3)
            speed, depth = (r, r_1, r_2, r_3), (z, z_1, z_2, z_3)
            share, code, who = first_event(
                base, bags, hands, hand, full, m, amount, speed, depth, turn, r_turn, p, t, h, rising, tight
            )
            top = max(top, r_turn if turn <= share else r)
            if share == 1.0:
                break
            h = share * h
        t = due if lands and share == 1.0 else t + h
        if SPAN * number <= t and h > 0.0:
            s = (SPAN * number - before) / h
            best, way, way_rate = sample(
                ring, slot, along(s, z, z_1, z_2, z_3), along(s, r, r_1, r_2, r_3), best, way, way_rate
            )
            number, slot = number + 1.0, slot + 1 if slot + 1 < SLOTS else 0
        z, r, p = z_end, r_end, p_end
        top = max(top, r)
        for i in range(m.size):
            if busy[i]:
                put = inflow[i] * h
                added += put
                vented += m[i] + put - new[i]
            most = bags[BAG.capacity, i] * (p + bags[BAG.over, i])
            if new[i] > most:
                spilled += new[i] - most
                new[i] = most
            m[i] = new[i]
            full[i] = full[i] and m[i] >= bags[BAG.capacity, i] * p
            if sealed[i] and bags[BAG.relief, i] > 0.0:
                over[i] = max(over[i], m[i] / bags[BAG.capacity, i] - p)
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
    out[ANSWER.spilled], out[ANSWER.vented], out[ANSWER.added] = spilled, vented, added
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
    base: Inputs,
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
