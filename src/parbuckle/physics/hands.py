"""What a tender's hands do, for one member: states seen, actions that are pending, valves that open and shut.

Plain floats in small arrays, so that the same source runs compiled. ``hand[field, j]`` is the state of tender j,
``hands[field, j]`` what he is (see ``layout``). -1 stands for too fast, 1 for too slow, 0 for well.
"""

from __future__ import annotations

import numpy as np

from parbuckle.physics.layout import HAND, TENDER
from parbuckle.quantity.frozen import Bools, Floats

PENDING = 16
"""How many actions of one tender can be pending at once."""


def seen(mood: float, speed: float, hands: Floats, j: int) -> float:
    """Give the state that a tender sees at a speed, after the state that he saw before.

    Parameters
    ----------
    mood : float
        State before.
    speed : float
        m/s, upward positive.
    hands : Floats
        What the tenders are.
    j : int
        Which tender.

    Returns
    -------
    float
        -1, 0 or 1.
    """
    if (mood < 0.0 and speed >= hands[TENDER.vent_until, j]) or (mood >= 0.0 and speed > hands[TENDER.vent_above, j]):
        return -1.0
    if (mood > 0.0 and speed <= hands[TENDER.add_until, j]) or (mood <= 0.0 and speed < hands[TENDER.add_below, j]):
        return 1.0
    return 0.0


def notice(hand: Floats, queue: Floats, hands: Floats, j: int, t: float, mood: float) -> bool:
    """Take in a new state: the hands follow one delay later.

    Parameters
    ----------
    hand, queue : Floats
        State of the tenders; ``queue[0]`` the times and ``queue[1]`` the states of what is pending.
    hands : Floats
        What the tenders are.
    j : int
        Which tender.
    t : float
        Time, s.
    mood : float
        The new state.

    Returns
    -------
    bool
        False when more actions are pending than can be kept.
    """
    hand[HAND.mood, j] = mood
    if hand[HAND.waiting, j] >= PENDING:
        return False
    slot = int(hand[HAND.head, j] + hand[HAND.waiting, j]) % PENDING
    queue[0, j, slot] = t + hands[TENDER.delay, j]
    queue[1, j, slot] = mood
    hand[HAND.waiting, j] += 1.0
    return True


def warn(hand: Floats, hands: Floats, j: int, t: float) -> None:
    """See a speed above the ceiling: he lets go one delay later.

    Parameters
    ----------
    hand, hands : Floats
        State of the tenders, and what they are.
    j : int
        Which tender.
    t : float
        Time, s.
    """
    if hand[HAND.go, j] == np.inf:
        hand[HAND.go, j] = t + hands[TENDER.delay, j]


def next_due(hand: Floats, queue: Floats, j: int) -> float:
    """Give the time of a tender's next action.

    Parameters
    ----------
    hand, queue : Floats
        State of the tenders.
    j : int
        Which tender.

    Returns
    -------
    float
        s; infinite for none.
    """
    due = min(hand[HAND.shut, j], min(hand[HAND.look, j], hand[HAND.go, j]))
    if hand[HAND.waiting, j] > 0.0:
        due = min(due, queue[0, j, int(hand[HAND.head, j])])
    return float(due)


def act(hand: Floats, queue: Floats, hands: Floats, j: int, t: float, speed: float) -> bool:
    """Do what is due at a time, in the order: let go, end of a pull, new state in the hands, end of the watch.

    Parameters
    ----------
    hand, queue : Floats
        State of the tenders; changed here.
    hands : Floats
        What the tenders are.
    j : int
        Which tender.
    t : float
        Time, s.
    speed : float
        Speed of the load, m/s.

    Returns
    -------
    bool
        Whether anything was done.
    """
    if next_due(hand, queue, j) > t:
        return False
    if hand[HAND.go, j] <= t:
        _let_go(hand, j, t)
        return True
    if hand[HAND.shut, j] <= t:
        hand[HAND.shut, j] = np.inf
        hand[HAND.valve, j] = 0.0
    while hand[HAND.waiting, j] > 0.0 and queue[0, j, int(hand[HAND.head, j])] <= t:
        hand[HAND.wants, j] = queue[1, j, int(hand[HAND.head, j])]
        hand[HAND.head, j] = (hand[HAND.head, j] + 1.0) % PENDING
        hand[HAND.waiting, j] -= 1.0
        _use_dump(hand, hands, j, t, speed)
    if hand[HAND.look, j] <= t:
        hand[HAND.look, j] = np.inf
        slower = hand[HAND.wants, j] >= 0.0 or speed < hand[HAND.pull_speed, j]
        hand[HAND.misses, j] = 0.0 if slower else hand[HAND.misses, j] + 1.0
        if hand[HAND.misses, j] >= hands[TENDER.unanswered, j]:
            _let_go(hand, j, t)
        else:
            _use_dump(hand, hands, j, t, speed)
    return True


def _let_go(hand: Floats, j: int, t: float) -> None:
    """Nothing more from this tender: dump shut, no gas, no fins."""
    hand[HAND.left, j] = t
    hand[HAND.wants, j] = 0.0
    hand[HAND.valve, j] = 0.0
    hand[HAND.waiting, j] = 0.0
    hand[HAND.shut, j] = np.inf
    hand[HAND.look, j] = np.inf
    hand[HAND.go, j] = np.inf


def _use_dump(hand: Floats, hands: Floats, j: int, t: float, speed: float) -> None:
    """Held open while it is too fast; or one pull, unless one is under way or he still watches."""
    opens = hand[HAND.wants, j] < 0.0 and hands[TENDER.dump, j] > 0.0
    if hands[TENDER.pull, j] == np.inf:
        if opens and hand[HAND.valve, j] == 0.0:
            hand[HAND.pulls, j] += 1.0
        hand[HAND.valve, j] = 1.0 if opens else 0.0
    elif opens and hand[HAND.look, j] == np.inf:
        hand[HAND.pulls, j] += 1.0
        hand[HAND.valve, j] = 1.0
        hand[HAND.shut, j] = t + hands[TENDER.pull, j]
        hand[HAND.look, j] = t + hands[TENDER.pull, j] + hands[TENDER.watch, j]
        hand[HAND.pull_speed, j] = speed


def set_valves(hand: Floats, hands: Floats, opened: Floats, inflow: Floats) -> float:
    """Give what all hands and fins do now.

    Parameters
    ----------
    hand, hands : Floats
        State of the tenders, and what they are.
    opened, inflow : Floats
        Open dump, m2, and gas put in, Pa m3/s, for each bag; written here.

    Returns
    -------
    float
        Force of the fins, N, up positive.
    """
    push = 0.0
    for i in range(opened.size):
        opened[i], inflow[i] = 0.0, 0.0
    for j in range(hands.shape[1]):
        bag = int(hands[TENDER.bag, j])
        push += hand[HAND.wants, j] * hands[TENDER.thrust, j]
        if bag >= 0:
            opened[bag] += hand[HAND.valve, j] * hands[TENDER.dump, j]
            inflow[bag] += hands[TENDER.gas, j] if hand[HAND.wants, j] > 0.0 else 0.0
    return push


def start_hands(hand: Floats, depth: float) -> None:
    """Put all tenders at the start: nothing seen, nothing pending, everything shut.

    Parameters
    ----------
    hand : Floats
        State of the tenders; written here.
    depth : float
        Depth of the load, m: the first one counted.
    """
    for j in range(hand.shape[1]):
        for field in range(hand.shape[0]):
            hand[field, j] = 0.0
        hand[HAND.shut, j] = np.inf
        hand[HAND.look, j] = np.inf
        hand[HAND.go, j] = np.inf
        hand[HAND.left, j] = np.inf
        hand[HAND.mark, j] = depth


def busy_bags(opened: Floats, inflow: Floats, relief_area: Floats, busy: Bools) -> None:
    """Mark the bags whose gas may change.

    Parameters
    ----------
    opened, inflow, relief_area : Floats
        Open dump, m2, gas put in, Pa m3/s, and area of the relief valve, m2, for each bag.
    busy : Bools
        For each bag; written here.
    """
    for i in range(busy.size):
        busy[i] = opened[i] > 0.0 or inflow[i] > 0.0 or relief_area[i] > 0.0
