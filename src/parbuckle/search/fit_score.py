"""The quick score by which size and place of a pattern are fitted, and a plain search downhill for the best of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from parbuckle.quantity.frozen import Floats, Frozen
from parbuckle.search.coverage import LegError, chance_to_see
from parbuckle.search.curves import Curve
from parbuckle.search.expected import Ground
from parbuckle.search.legs import Pattern
from parbuckle.search.practice import Practice
from parbuckle.search.track_error import leg_errors, shifts

PLACES = 2048
"""Places from a map for the first fit."""
FEW_PLACES = 768
"""Places from a map for patterns whose errors add up: they are rarely proposed, and fitted on when they are near."""
FINE_PLACES = 4 * PLACES
"""Places from a map for the last fit."""

_HALVINGS = 2
_BETTER = 1.0001
_BACK = 2.0  # the last walk's steps again, not their half
_R2 = (0.7548776662466927, 0.5698402909980532)  # steps of an even sequence in the plane
_HALVED = 0.5
_LAST = 2
Build = Callable[[Sequence[float]], Pattern | None]
"""Makes a pattern from numbers; None where it cannot be swum."""


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
    """

    east: Floats
    north: Floats
    share: float
    curve: Curve
    practice: Practice
    seconds: float
    speed: float

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
    u, v = ((np.outer(np.arange(1, count + 1), _R2) + _HALVED) % 1.0).T
    which = np.clip(np.searchsorted(heap[ends], u * heap[-1], side="right") - 1, 0, ends.size - _LAST)
    low, mass = heap[ends[which]], heap[ends[which + 1]] - heap[ends[which]]
    at = low + v * mass
    cell = np.clip(np.searchsorted(heap, at, side="right") - 1, ends[which], ends[which + 1] - 1)
    right = (u * heap[-1] - low) / mass - _HALVED
    up = (at - heap[cell]) / ground.share[order][cell] - _HALVED
    over, off = shifts(placement, count)
    return (
        ground.east[order][cell] + right * ground.cell - over,
        ground.north[order][cell] + up * ground.cell - off,
    )


def score(pattern: Pattern, fit: Fit) -> float:
    """Give the chance that a pattern finds it, quickly.

    Parameters
    ----------
    pattern : Pattern
        What is swum.
    fit : Fit
        What it is fitted to.

    Returns
    -------
    float
        Chance; legs err apart from each other, their ends are sharp, one sweep width.
    """
    errors = [LegError(each.across, 0.0) for each in leg_errors(pattern, fit.practice.error)]
    return fit.share * float(chance_to_see(pattern.lanes, fit.east, fit.north, fit.curve, errors).mean())


@dataclass(frozen=True)
class Fitted:
    """A pattern with the numbers that made it, so that it can be fitted on.

    Parameters
    ----------
    pattern : Pattern
        What is swum.
    score : float
        Its quick score.
    build : callable
        Makes a pattern from numbers.
    numbers : tuple of float
        The numbers.
    steps : tuple of float
        By how much each may be changed; 0 leaves it alone.
    """

    pattern: Pattern
    score: float
    build: Build
    numbers: tuple[float, ...]
    steps: tuple[float, ...]


def climb(
    build: Build, starts: Sequence[tuple[float, ...]], steps: Sequence[float], fit: Fit, halvings: int = _HALVINGS
) -> Fitted | None:
    """Walk to a better pattern from the best of some starts, one number at a time, in steps that are halved.

    Parameters
    ----------
    build : callable
        Makes a pattern from numbers; None where it cannot be swum.
    starts : sequence of tuple of float
        Numbers to begin with.
    steps : sequence of float
        First step of each number; 0 leaves it alone.
    fit : Fit
        What it is fitted to.
    halvings : int
        How many sizes of step are walked; 0 gives the best start.

    Returns
    -------
    Fitted or None
        The best found; None where no start can be swum.
    """
    made = [(build(start), start) for start in starts]
    tried = [(score(pattern, fit), start, pattern) for pattern, start in made if pattern is not None]
    if not tried:
        return None
    top, here, best = max(tried, key=lambda row: row[0])
    stride = list(steps)
    for _ in range(halvings):
        better = True
        while better:
            better = False
            for k, step in enumerate(stride):
                for sign in (1.0, -1.0) if step else ():
                    there = (*here[:k], here[k] + sign * step, *here[k + 1 :])
                    pattern = build(there)
                    value = 0.0 if pattern is None else score(pattern, fit)
                    if pattern is not None and value > top * _BETTER:
                        here, best, top, better = there, pattern, value, True
                        break
        stride = [_HALVED * step for step in stride]
    return Fitted(best, top, build, here, tuple(stride))


def polished(fitted: Fitted, fit: Fit, ground: Ground) -> Fitted:
    """Fit on with four times as many places, in smaller steps.

    Parameters
    ----------
    fitted : Fitted
        What was found.
    fit : Fit
        What it was fitted to.
    ground : Ground
        The map.

    Returns
    -------
    Fitted
        At least as good by the finer score.
    """
    east, north = places(ground, fit.practice.error.placement, FINE_PLACES)
    found = climb(
        fitted.build, [fitted.numbers], [_BACK * step for step in fitted.steps], replace(fit, east=east, north=north)
    )
    return found or fitted
