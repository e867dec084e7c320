"""What the hands of the tenders do, for all members side by side: the twin of ``hands``.

``hand[field, j]`` and ``hands[field, j]`` are columns of members, ``queue[:, j, place]`` too.
"""

from __future__ import annotations

import numpy as np

from parbuckle.physics.hands import PENDING
from parbuckle.physics.layout import HAND, TENDER
from parbuckle.quantity.frozen import Bools, Floats, Numbers


def start(hand: Floats, depth: Floats) -> None:
    """Put all tenders at the start.

    Parameters
    ----------
    hand : Floats
        State of the tenders; written here.
    depth : Floats
        Depth of the loads, m.
    """
    hand[:] = 0.0
    for field in (HAND.shut, HAND.look, HAND.go, HAND.left):
        hand[field] = np.inf
    hand[HAND.mark] = depth


def due(hand: Floats, queue: Floats, j: int) -> Floats:
    """Give the time of a tender's next action.

    Parameters
    ----------
    hand, queue : Floats
        State of the tenders.
    j : int
        Which tender.

    Returns
    -------
    Floats
        s, shape (n,); infinite for none.
    """
    head = hand[HAND.head, j].astype(np.int64)
    pending = np.where(hand[HAND.waiting, j] > 0.0, queue[0, j, head, np.arange(head.size)], np.inf)
    hands_on = np.minimum(hand[HAND.shut, j], hand[HAND.look, j])
    return np.asarray(np.minimum(hands_on, np.minimum(hand[HAND.go, j], pending)))


def notice(hand: Floats, queue: Floats, hands: Floats, j: int, lanes: Numbers, t: Floats, mood: Floats) -> Numbers:
    """Take in a new state: the hands follow one delay later.

    Parameters
    ----------
    hand, queue, hands : Floats
        State of the tenders, and what they are.
    j : int
        Which tender.
    lanes : Numbers
        Which members.
    t, mood : Floats
        Time, s, and new state of those members.

    Returns
    -------
    Numbers
        Members with more actions pending than can be kept.
    """
    hand[HAND.mood, j, lanes] = mood
    room = hand[HAND.waiting, j, lanes] < PENDING
    lost: Numbers = lanes[~room]
    lanes = lanes[room]
    place = ((hand[HAND.head, j, lanes] + hand[HAND.waiting, j, lanes]).astype(np.int64)) % PENDING
    queue[0, j, place, lanes] = t[room] + hands[TENDER.delay, j, lanes]
    queue[1, j, place, lanes] = mood[room]
    hand[HAND.waiting, j, lanes] += 1.0
    return lost


def seen(hand: Floats, hands: Floats, j: int, lanes: Numbers, speed: Floats) -> Floats:
    """Give the state that a tender sees at a speed.

    Parameters
    ----------
    hand, hands : Floats
        State of the tenders, and what they are.
    j : int
        Which tender.
    lanes : Numbers
        Which members.
    speed : Floats
        m/s, upward positive, of those members.

    Returns
    -------
    Floats
        -1, 0 or 1.
    """
    mood, limits = hand[HAND.mood, j, lanes], hands[:, j, lanes]
    fast = ((mood < 0.0) & (speed >= limits[TENDER.vent_until])) | ((mood >= 0.0) & (speed > limits[TENDER.vent_above]))
    slow = ((mood > 0.0) & (speed <= limits[TENDER.add_until])) | ((mood <= 0.0) & (speed < limits[TENDER.add_below]))
    return np.where(fast, -1.0, np.where(slow, 1.0, 0.0))


def act(hand: Floats, queue: Floats, hands: Floats, j: int, t: Floats, speed: Floats, now: Bools) -> None:
    """Do what is due, in the order of ``hands.act``.

    Parameters
    ----------
    hand, queue, hands : Floats
        State of the tenders, changed here, and what they are.
    j : int
        Which tender.
    t, speed : Floats
        Time, s, and speed of the load, m/s, shape (n,).
    now : Bools
        Members for whom something is due, shape (n,).
    """
    goes = now & (hand[HAND.go, j] <= t)
    _let_go(hand, j, np.flatnonzero(goes), t)
    lanes = np.flatnonzero(now & ~goes)
    shut = lanes[hand[HAND.shut, j, lanes] <= t[lanes]]
    hand[HAND.shut, j, shut] = np.inf
    hand[HAND.valve, j, shut] = 0.0
    while True:
        waiting = lanes[hand[HAND.waiting, j, lanes] > 0.0]
        head = hand[HAND.head, j, waiting].astype(np.int64)
        ripe = queue[0, j, head, waiting] <= t[waiting]
        if not ripe.any():
            break
        some, head = waiting[ripe], head[ripe]
        hand[HAND.wants, j, some] = queue[1, j, head, some]
        hand[HAND.head, j, some] = (head + 1) % PENDING
        hand[HAND.waiting, j, some] -= 1.0
        _use_dump(hand, hands, j, some, t, speed)
    look = lanes[hand[HAND.look, j, lanes] <= t[lanes]]
    if look.size:
        hand[HAND.look, j, look] = np.inf
        slower = (hand[HAND.wants, j, look] >= 0.0) | (speed[look] < hand[HAND.pull_speed, j, look])
        hand[HAND.misses, j, look] = np.where(slower, 0.0, hand[HAND.misses, j, look] + 1.0)
        enough = hand[HAND.misses, j, look] >= hands[TENDER.unanswered, j, look]
        _let_go(hand, j, look[enough], t)
        _use_dump(hand, hands, j, look[~enough], t, speed)


def _let_go(hand: Floats, j: int, lanes: Numbers, t: Floats) -> None:
    hand[HAND.left, j, lanes] = t[lanes]
    for field in (HAND.wants, HAND.valve, HAND.waiting):
        hand[field, j, lanes] = 0.0
    for field in (HAND.shut, HAND.look, HAND.go):
        hand[field, j, lanes] = np.inf


def _use_dump(hand: Floats, hands: Floats, j: int, lanes: Numbers, t: Floats, speed: Floats) -> None:
    opens = (hand[HAND.wants, j, lanes] < 0.0) & (hands[TENDER.dump, j, lanes] > 0.0)
    relay = np.isinf(hands[TENDER.pull, j, lanes])
    held = lanes[relay]
    hand[HAND.pulls, j, held] += np.where(opens[relay] & (hand[HAND.valve, j, held] == 0.0), 1.0, 0.0)
    hand[HAND.valve, j, held] = np.where(opens[relay], 1.0, 0.0)
    pulled = lanes[~relay & opens & np.isinf(hand[HAND.look, j, lanes])]
    hand[HAND.pulls, j, pulled] += 1.0
    hand[HAND.valve, j, pulled] = 1.0
    shut = t[pulled] + hands[TENDER.pull, j, pulled]
    hand[HAND.shut, j, pulled] = shut
    hand[HAND.look, j, pulled] = shut + hands[TENDER.watch, j, pulled]
    hand[HAND.pull_speed, j, pulled] = speed[pulled]


def set_valves(hand: Floats, hands: Floats, opened: Floats, inflow: Floats) -> Floats:
    """Give what all hands and fins do now.

    Parameters
    ----------
    hand, hands : Floats
        State of the tenders, and what they are.
    opened, inflow : Floats
        Open dump, m2, and gas put in, Pa m3/s, for each bag, shape (k, n); written here.

    Returns
    -------
    Floats
        Force of the fins, N, up positive, shape (n,).
    """
    push = np.zeros(hand.shape[-1])
    opened[:] = 0.0
    inflow[:] = 0.0
    for j in range(hands.shape[1]):
        bag = int(hands[TENDER.bag, j, 0])
        push += hand[HAND.wants, j] * hands[TENDER.thrust, j]
        if bag >= 0:
            opened[bag] += hand[HAND.valve, j] * hands[TENDER.dump, j]
            inflow[bag] += np.where(hand[HAND.wants, j] > 0.0, hands[TENDER.gas, j], 0.0)
    return push
