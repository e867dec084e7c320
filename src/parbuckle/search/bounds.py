"""What no plan of the same effort can beat."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from parbuckle.quantity.frozen import Floats
from parbuckle.search.effort import Allocation, allocate
from parbuckle.search.law_table import LawTable, law_table
from parbuckle.search.probability import ProbabilityMap
from parbuckle.search.result import Bounds


def best_allocation(
    before: ProbabilityMap, law: str, sweep_width: Floats, length: float, p0: float = 1.0
) -> Allocation:
    """Share a length of track out over the cells that can be searched, at its best under a law.

    The law is averaged over the draws of the sweep width, so one answer is best for all of them together.

    Parameters
    ----------
    before : ProbabilityMap
        The map.
    law : str
        One of ``detection.LAWS``.
    sweep_width : Floats
        Draws, m, shape (n,).
    length : float
        Length of track, m, not negative.
    p0 : float
        Chance on the line.

    Returns
    -------
    Allocation
        Metres of track in each cell, and the chance of success.

    Raises
    ------
    RangeError
        If no searchable cell holds a chance, or a value lies outside its range.

    Notes
    -----
    Source: Stone 1975, chapter II (recalled; worked out again).
    """
    widths = np.atleast_1d(np.asarray(sweep_width, dtype=np.float64))
    return allocate(before.searchable(), before.grid.area, _table(law, widths.tobytes(), p0), length)


@lru_cache(maxsize=16)
def _table(law: str, widths: bytes, p0: float) -> LawTable:
    return law_table(law, np.frombuffer(widths), p0)


def bounds(before: ProbabilityMap, law: str, sweep_width: Floats, length: float, p0: float = 1.0) -> Bounds:
    """Give both bounds: the best allocation under the law, and the definite range, which no law can beat.

    Parameters
    ----------
    before : ProbabilityMap
        The map.
    law : str
        One of ``detection.LAWS``.
    sweep_width : Floats
        Draws, m, shape (n,).
    length : float
        Length of track, m, not negative.
    p0 : float
        Chance on the line.

    Returns
    -------
    Bounds
        Both chances.

    Raises
    ------
    RangeError
        If no searchable cell holds a chance, or a value lies outside its range.

    Notes
    -----
    Source: POD <= min(1, C) for every law, since a metre of track adds at most its sweep width (Koopman 1946,
    recalled).
    """
    return Bounds(
        law=law,
        effort_m=length,
        allocation=best_allocation(before, law, sweep_width, length, p0).chance,
        definite_range=best_allocation(before, "definite range", sweep_width, length).chance,
    )
