"""From tasks to the legs of a dive: one after the other, side by side where other people do them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from parbuckle.dive.problem import Diver, Task
from parbuckle.dive.profile import Leg, Water, leg, travel
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class Block(Frozen):
    """Tasks that are done at the same time; mostly one.

    Parameters
    ----------
    tasks : tuple of Task
        The tasks.
    time : Floats
        As long as the longest of them, s, shape (n,).
    longest : float
        Long end, s.
    depth : Floats
        Where, m, shape (n,).
    """

    tasks: tuple[Task, ...]
    time: Floats
    longest: float
    depth: Floats

    @property
    def name(self) -> str:
        """What is done."""
        return " / ".join(task.name for task in self.tasks)

    @property
    def works(self) -> bool:
        """True where somebody works hard."""
        return any(task.effort == "work" for task in self.tasks)


@dataclass(frozen=True)
class Piece(Frozen):
    """One leg, and what is done on it.

    Parameters
    ----------
    leg : Leg
        The leg.
    block : Block or None
        The tasks; None on the way.
    still : bool
        True while a stop is made, or the gas is changed.
    carried : int
        Which carried cylinder is breathed from, from 1; 0: the set.
    """

    leg: Leg
    block: Block | None = None
    still: bool = False
    carried: int = 0


def blocks(tasks: Sequence[Task]) -> tuple[Block, ...]:
    """Put tasks that are done at the same time together.

    Parameters
    ----------
    tasks : sequence of Task
        In order.

    Returns
    -------
    tuple of Block
        In order; a block is at the depth of its first task.
    """
    groups: list[list[Task]] = []
    for task in tasks:
        if task.meanwhile and groups:
            groups[-1].append(task)
        else:
            groups.append([task])
    return tuple(
        Block(
            tuple(group),
            np.maximum.reduce([t.time for t in group]),
            max(t.longest for t in group),
            group[0].depth.copy(),
        )
        for group in groups
    )


def down_and_work(work: Sequence[Block], water: Water, gas: Gas, rate_down: float, rate_up: float) -> list[Piece]:
    """Give the legs from the surface to the end of the last task.

    Parameters
    ----------
    work : sequence of Block
        At least one.
    water : Water
        Where the dive is.
    gas : Gas
        What is breathed.
    rate_down, rate_up : float
        Speeds between depths, m/s.

    Returns
    -------
    list of Piece
        Descent, tasks, moves between depths.
    """
    first = work[0]
    pieces = [Piece(travel(water, 0.0, first.depth, rate_down, gas))]
    pieces += [Piece(leg(water, first.depth, first.depth, first.time, gas), first)]
    for before, block in pairwise(work):
        if not np.array_equal(before.depth, block.depth):
            rate = np.where(block.depth >= before.depth, rate_down, rate_up)
            pieces.append(Piece(travel(water, before.depth, block.depth, rate, gas)))
        pieces.append(Piece(leg(water, block.depth, block.depth, block.time, gas), block))
    return pieces


def merged(pieces: Sequence[Piece]) -> tuple[Leg, ...]:
    """Give the legs of a dive, those at one depth after each other on one gas as one: the same for tissues and oxygen.

    Parameters
    ----------
    pieces : sequence of Piece
        In order.

    Returns
    -------
    tuple of Leg
        In order.
    """
    legs: list[Leg] = []
    for piece in pieces:
        new, old = piece.leg, legs[-1] if legs else None
        alike = old is not None and old.gas == new.gas and _level(old) and _level(new)
        if old is not None and alike and np.array_equal(old.end, new.start):
            legs[-1] = Leg(old.start, old.end, old.time + new.time, old.gas)
        else:
            legs.append(new)
    return tuple(legs)


def _level(leg: Leg) -> bool:
    return np.array_equal(leg.start, leg.end)


def rate_of(diver: Diver, piece: Piece) -> Floats:
    """Give the mean rate at which one diver breathes on a leg.

    A diver who is not needed for a task rests; on the way the effort is easy, at a stop it is rest.

    Parameters
    ----------
    diver : Diver
        Who.
    piece : Piece
        The leg.

    Returns
    -------
    Floats
        m3/s of free gas at the surface, shape (n,).
    """
    if piece.block is None:
        return diver.resting if piece.still else _rate(diver, "easy")
    mine = next((t for t in piece.block.tasks if not t.by or diver.name in t.by), None)
    if mine is None:
        return diver.resting
    whole = np.where(piece.block.time > 0.0, piece.block.time, 1.0)
    share = np.where(piece.block.time > 0.0, mine.time / whole, 0.0)
    return np.asarray(diver.resting + share * (_rate(diver, mine.effort) - diver.resting))


def _rate(diver: Diver, effort: str) -> Floats:
    shares: dict[str, float | Floats] = {"rest": 0.0, "easy": diver.easy, "work": 1.0}
    share = shares[effort]
    return np.asarray(diver.resting + share * (diver.working - diver.resting))


def tooth(work: Sequence[Block]) -> float:
    """Give the largest way up that is followed by going down again, before the last ascent.

    Parameters
    ----------
    work : sequence of Block
        In order.

    Returns
    -------
    float
        m, in the draw where it is largest.
    """
    depths = np.array([block.depth for block in work])
    found = [
        np.minimum(depths[:i].max(axis=0), depths[i + 1 :].max(axis=0)) - depths[i] for i in range(1, len(work) - 1)
    ]
    return max([0.0, *(float(way.max()) for way in found)])
