"""What a pass that found nothing has changed: Bayes over the map, and what has been proved."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen
from parbuckle.search.detection import CHANCE
from parbuckle.search.probability import ProbabilityMap

_BLOCK = 1 << 16  # cells that are worked on while they lie near the processor


@dataclass(frozen=True)
class Proof(Frozen):
    """What all passes together have proved.

    Parameters
    ----------
    covered : float
        Chance that the passes would have found it, had it lain where the map says it can be searched, 0 to 1.
    searched : float
        Share of the prior map, elsewhere included, that lay in cells which were looked at well enough.
    not_here : float
        Chance now that it is not in those cells.
    elsewhere : float
        Chance now that it is not on the map at all.
    closed : float
        Chance now that it lies where it cannot be searched.
    left : float
        Chance now that it lies where it can be searched.
    """

    covered: float
    searched: float
    not_here: float
    elsewhere: float
    closed: float
    left: float


def chance_of_success(before: ProbabilityMap, pod: Floats) -> float:
    """Give the chance that a pass finds it.

    POS = sum p_i POD_i over cells that can be searched.

    Parameters
    ----------
    before : ProbabilityMap
        Before the pass.
    pod : Floats
        Chance to see it in each cell if it is there, shape of the map. In closed cells it does not count.

    Returns
    -------
    float
        0 to 1.

    Raises
    ------
    RangeError
        If the shape differs from the map, or a chance lies outside 0 to 1.

    Notes
    -----
    Source: definition of the probability of success.
    """
    seen = _seen(before, pod)
    return float((before.share * seen).sum())


def after(before: ProbabilityMap, pod: Floats) -> ProbabilityMap:
    """Update the map after a pass that found nothing.

    p_i' = p_i (1 - POD_i) / sum_j p_j (1 - POD_j); "elsewhere" and closed cells have POD 0, so their chance grows.

    Parameters
    ----------
    before : ProbabilityMap
        Before the pass.
    pod : Floats
        Chance to see it in each cell if it is there, shape of the map. In closed cells it does not count.

    Returns
    -------
    ProbabilityMap
        After the pass; sums to one.

    Raises
    ------
    RangeError
        If the shape differs from the map, a chance lies outside 0 to 1, or the pass could not have missed it.

    Notes
    -----
    Source: Bayes' rule.

    Examples
    --------
    >>> from parbuckle.search.grid import Grid
    >>> from parbuckle.search.probability import probability_map
    >>> prior = probability_map(Grid(0.0, 0.0, 1.0, 1, 2), np.array([[0.5, 0.3]]), 0.2)
    >>> [round(float(p), 6) for p in after(prior, np.array([[0.8, 0.4]])).share[0]]
    [0.208333, 0.375]
    """
    seen = _seen(before, pod)
    share = np.empty(before.share.shape)
    left = before.elsewhere + _missed(before.share.reshape(-1), seen.reshape(-1), share.reshape(-1))
    if not left > 0.0:
        raise RangeError("update of the map: such a pass could not have missed it; no chance may be 1 everywhere")
    share *= 1.0 / left
    return ProbabilityMap(before.grid, share, before.elsewhere / left, before.closed)


def proved(before: ProbabilityMap, pods: Iterable[Floats], enough: float) -> Proof:
    """Sum up what passes without a find have proved, in any order.

    Parameters
    ----------
    before : ProbabilityMap
        Before the first pass.
    pods : iterable of Floats
        For each pass the chance to see it in each cell if it is there, shape of the map.
    enough : float
        Chance from which on a cell counts as searched, above 0 to 1.

    Returns
    -------
    Proof
        Numbers for the report.

    Raises
    ------
    RangeError
        As ``after``; and for ``enough`` outside its range.
    """
    if not 0.0 < enough <= 1.0:
        raise RangeError(f"chance that counts as searched: given {enough:g}, allowed above 0 to 1")
    missed, now = np.ones(before.grid.shape), before
    for pod in pods:
        missed *= 1.0 - _seen(before, pod)
        now = after(now, pod)
    seen = 1.0 - missed
    well = (seen >= enough) & ~before.closed
    on_map = before.on_map
    return Proof(
        covered=float((before.searchable() * seen).sum()) / on_map if on_map > 0.0 else 0.0,
        searched=float(before.share[well].sum()),
        not_here=1.0 - float(now.share[well].sum()),
        elsewhere=now.elsewhere,
        closed=now.closed_share,
        left=float(now.searchable().sum()),
    )


def _seen(before: ProbabilityMap, pod: Floats) -> Floats:
    if pod.shape != before.grid.shape:
        raise RangeError(f"update of the map: chances of shape {pod.shape} on a map of shape {before.grid.shape}")
    if not (float(pod.min()) >= 0.0 and float(pod.max()) <= 1.0):
        CHANCE.check(pod)
    return np.where(before.closed, 0.0, pod) if before.closed.any() else pod


def _missed(share: Floats, seen: Floats, out: Floats) -> float:
    """Write share times the chance to miss, in blocks; give the sum."""
    total = 0.0
    for start in range(0, share.size, _BLOCK):
        block = out[start : start + _BLOCK]
        np.subtract(1.0, seen[start : start + _BLOCK], out=block)
        block *= share[start : start + _BLOCK]
        total += float(block.sum())
    return total
