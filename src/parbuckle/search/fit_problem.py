"""What a pattern is fitted to, and equally likely places drawn evenly from a map."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.quantity.frozen import Floats, Frozen
from parbuckle.search.curves import Curve
from parbuckle.search.expected import Ground
from parbuckle.search.practice import Practice
from parbuckle.search.track_error import shifts

PLACES = 2048
"""Places from a map for the last fit and the chance that is told."""
FEW_PLACES = 512
"""Places from a map for the first fit."""
LEAST_PLACES = 256
"""Places from a map for the first fit by compass, which is rarely proposed."""

_R2 = (0.7548776662466927, 0.5698402909980532)  # steps of an even sequence in the plane
_HALF = 0.5
_LAST = 2


@dataclass(frozen=True)
class Fit(Frozen):
    """What a pattern is fitted to.

    Parameters
    ----------
    east, north : Floats
        Equally likely places where it may lie, m, shape (k,): the map, drawn evenly and shaken by the placement.
    share : float
        Chance that it lies in a cell that can be searched.
    curve : Curve
        Law of one pass at the mean sweep width.
    practice : Practice
        What the pattern costs and how it errs.
    seconds : float
        Time there is, s.
    speed : float
        Search speed, m/s.
    weight : Floats or None
        Chance that nothing else finds it at each place; None: 1 everywhere.
    """

    east: Floats
    north: Floats
    share: float
    curve: Curve
    practice: Practice
    seconds: float
    speed: float
    weight: Floats | None = None

    @property
    def run(self) -> float:
        """Length that could be swum without a turn, m."""
        return self.seconds * self.speed * self.practice.speed


def places(ground: Ground, placement: float, count: int = PLACES) -> tuple[Floats, Floats]:
    """Draw equally likely places from a map, evenly: an even sequence in the plane, bent to the map column by column.

    Parameters
    ----------
    ground : Ground
        Cells.
    placement : float
        Standard deviation by which each place is shaken, m.
    count : int
        How many.

    Returns
    -------
    tuple of Floats
        East and north, m, shape (count,).

    Examples
    --------
    >>> ground = Ground(np.array([1.0]), np.array([2.0]), np.array([1.0]), 0.5)
    >>> places(ground, 0.0)[0].shape
    (2048,)
    """
    column = np.round((ground.east - ground.east.min()) / ground.cell).astype(np.int64)
    order = np.lexsort((ground.north, column))
    heap = np.concatenate([[0.0], np.cumsum(ground.share[order])])
    ends = np.concatenate([[0], np.flatnonzero(np.diff(column[order])) + 1, [order.size]])
    u, v = ((np.outer(np.arange(1, count + 1), _R2) + _HALF) % 1.0).T
    which = np.clip(np.searchsorted(heap[ends], u * heap[-1], side="right") - 1, 0, ends.size - _LAST)
    low, mass = heap[ends[which]], heap[ends[which + 1]] - heap[ends[which]]
    at = low + v * mass
    cell = np.clip(np.searchsorted(heap, at, side="right") - 1, ends[which], ends[which + 1] - 1)
    right = (u * heap[-1] - low) / mass - _HALF
    up = (at - heap[cell]) / ground.share[order][cell] - _HALF
    over, off = shifts(placement, count)
    return (ground.east[order][cell] + right * ground.cell - over, ground.north[order][cell] + up * ground.cell - off)
