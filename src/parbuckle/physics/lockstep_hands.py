"""What the hands of the tenders do, for all members side by side: the twin of ``hands``.

Of one tender ``hand[field]`` and ``hands[field]`` are columns of members, ``queue[0, place]`` and ``queue[1, place]``
too. Only the members for whom something happens are touched.
"""

from __future__ import annotations

import numpy as np

from parbuckle.physics.hands import PENDING
from parbuckle.physics.layout import HAND, TENDER
from parbuckle.quantity.frozen import Floats, Numbers


def start(hand: Floats, depth: Floats) -> None:
    """Put all tenders at the start.

    Parameters
    ----------
    hand : Floats
        State of the tenders, shape (fields, tenders, n); written here.
    depth : Floats
        Depth of the loads, m.
    """
    hand[:] = 0.0
    for field in (HAND.shut, HAND.look, HAND.go, HAND.left):
        hand[field] = np.inf
    hand[HAND.mark] = depth


def due(hand: Floats, queue: Floats, lanes: Numbers) -> Floats:
    """Give the time of a tender's next action.

    Parameters
    ----------
    hand, queue : Floats
        State of the tender.
    lanes : Numbers
        Which members.

    Returns
    -------
    Floats
        s, one for each of them; infinite for none.
    """
    first = queue[0][hand[HAND.head][lanes].astype(np.int64), lanes]
    pending = np.where(hand[HAND.waiting][lanes] > 0.0, first, np.inf)
    hands_on = np.minimum(hand[HAND.shut][lanes], hand[HAND.look][lanes])
    return np.asarray(np.minimum(hands_on, np.minimum(hand[HAND.go][lanes], pending)))


def notice(hand: Floats, queue: Floats, hands: Floats, lanes: Numbers, t: Floats, mood: Floats) -> Numbers:
    """Take in a new state: the hands follow one delay later.

    Parameters
    ----------
    hand, queue, hands : Floats
        State of the tender, and what he is.
    lanes : Numbers
        Which members.
    t, mood : Floats
        Time, s, and new state of those members.

    Returns
    -------
    Numbers
        Members with more actions pending than can be kept.
    """
    hand[HAND.mood][lanes] = mood
    room = hand[HAND.waiting][lanes] < PENDING
    lost: Numbers = lanes[~room]
    if lost.size:
        lanes, t, mood = lanes[room], t[room], mood[room]
    place = (hand[HAND.head][lanes] + hand[HAND.waiting][lanes]).astype(np.int64) % PENDING
    queue[0][place, lanes] = t + hands[TENDER.delay][lanes]
    queue[1][place, lanes] = mood
    hand[HAND.waiting][lanes] += 1.0
    return lost


def seen(hand: Floats, hands: Floats, lanes: Numbers, speed: Floats) -> Floats:
    """Give the state that a tender sees at a speed.

    Parameters
    ----------
    hand, hands : Floats
        State of the tender, and what he is.
    lanes : Numbers
        Which members.
    speed : Floats
        m/s, upward positive, of those members.

    Returns
    -------
    Floats
        -1, 0 or 1.
    """
    mood, limits = hand[HAND.mood][lanes], hands[:, lanes]
    fast = ((mood < 0.0) & (speed >= limits[TENDER.vent_until])) | ((mood >= 0.0) & (speed > limits[TENDER.vent_above]))
    slow = ((mood > 0.0) & (speed <= limits[TENDER.add_until])) | ((mood <= 0.0) & (speed < limits[TENDER.add_below]))
    return np.where(fast, -1.0, np.where(slow, 1.0, 0.0))


def act(hand: Floats, queue: Floats, hands: Floats, lanes: Numbers, t: Floats, speed: Floats) -> None:
    """Do what is due, in the order of ``hands.act``.

    Parameters
    ----------
    hand, queue, hands : Floats
        State of the tender, changed here, and what he is.
    lanes : Numbers
        Members for whom something is due.
    t, speed : Floats
        Time, s, and speed of the load, m/s, of those members.
    """
    goes = hand[HAND.go][lanes] <= t
    if goes.any():
        _let_go(hand, lanes[goes], t[goes])
        lanes, t, speed = lanes[~goes], t[~goes], speed[~goes]
    shut = lanes[hand[HAND.shut][lanes] <= t]
    hand[HAND.shut][shut] = np.inf
    hand[HAND.valve][shut] = 0.0
    while True:
        head = hand[HAND.head][lanes].astype(np.int64)
        ripe = (hand[HAND.waiting][lanes] > 0.0) & (queue[0][head, lanes] <= t)
        if not ripe.any():
            break
        some, head = lanes[ripe], head[ripe]
        hand[HAND.wants][some] = queue[1][head, some]
        hand[HAND.head][some] = (head + 1) % PENDING
        hand[HAND.waiting][some] -= 1.0
        _use_dump(hand, hands, some, t[ripe], speed[ripe])
    looks = hand[HAND.look][lanes] <= t
    if looks.any():
        lanes, t, speed = lanes[looks], t[looks], speed[looks]
        hand[HAND.look][lanes] = np.inf
        slower = (hand[HAND.wants][lanes] >= 0.0) | (speed < hand[HAND.pull_speed][lanes])
        misses = np.where(slower, 0.0, hand[HAND.misses][lanes] + 1.0)
        hand[HAND.misses][lanes] = misses
        enough = misses >= hands[TENDER.unanswered][lanes]
        _let_go(hand, lanes[enough], t[enough])
        _use_dump(hand, hands, lanes[~enough], t[~enough], speed[~enough])


def _let_go(hand: Floats, lanes: Numbers, t: Floats) -> None:
    hand[HAND.left][lanes] = t
    for field in (HAND.wants, HAND.valve, HAND.waiting):
        hand[field][lanes] = 0.0
    for field in (HAND.shut, HAND.look, HAND.go):
        hand[field][lanes] = np.inf


def _use_dump(hand: Floats, hands: Floats, lanes: Numbers, t: Floats, speed: Floats) -> None:
    opens = (hand[HAND.wants][lanes] < 0.0) & (hands[TENDER.dump][lanes] > 0.0)
    relay = np.isinf(hands[TENDER.pull][lanes])
    held = lanes[relay]
    if held.size:
        now = opens[relay]
        hand[HAND.pulls][held] += np.where(now & (hand[HAND.valve][held] == 0.0), 1.0, 0.0)
        hand[HAND.valve][held] = np.where(now, 1.0, 0.0)
    pulls = ~relay & opens & np.isinf(hand[HAND.look][lanes])
    if pulls.any():
        pulled = lanes[pulls]
        hand[HAND.pulls][pulled] += 1.0
        hand[HAND.valve][pulled] = 1.0
        shut = t[pulls] + hands[TENDER.pull][pulled]
        hand[HAND.shut][pulled] = shut
        hand[HAND.look][pulled] = shut + hands[TENDER.watch][pulled]
        hand[HAND.pull_speed][pulled] = speed[pulls]


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
