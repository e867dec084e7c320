"""The map of chances: a share for every cell, and one for all that is not on the map."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Bools, Floats, Frozen
from parbuckle.search.grid import Grid

_SUM_ERROR = 1e-12


@dataclass(frozen=True)
class ProbabilityMap(Frozen):
    """Where it may be: shares of all cells and "elsewhere" make one.

    Parameters
    ----------
    grid : Grid
        The cells.
    share : Floats
        Chance that it lies in the cell, shape (rows, columns); closed cells keep theirs.
    elsewhere : float
        Chance that it is not on the map at all.
    closed : Bools
        True for cells outside the water or the searchable area, shape (rows, columns).

    Raises
    ------
    RangeError
        If the shapes differ from the grid, a share is negative, or the sum is not 1 within 1e-12.
    """

    grid: Grid
    share: Floats
    elsewhere: float
    closed: Bools

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.share.shape != self.grid.shape or self.closed.shape != self.grid.shape:
            raise RangeError(
                f"map: shares {self.share.shape} and closed {self.closed.shape} on a grid {self.grid.shape}"
            )
        if not (self.elsewhere >= 0.0 and float(self.share.min()) >= 0.0):
            raise RangeError("map: a chance is below zero")
        total = float(self.share.sum()) + self.elsewhere
        if not abs(total - 1.0) <= _SUM_ERROR:
            raise RangeError(f"map: the chances sum to {total!r}; they must make 1")

    @property
    def closed_share(self) -> float:
        """Chance that it lies in a closed cell."""
        return float(self.share[self.closed].sum()) if self.closed.any() else 0.0

    @property
    def on_map(self) -> float:
        """Chance that it lies in a cell that can be searched."""
        return 1.0 - self.elsewhere - self.closed_share

    def searchable(self) -> Floats:
        """Give the shares with those of closed cells set to zero: what effort can reach.

        Returns
        -------
        Floats
            Shape (rows, columns).
        """
        return np.where(self.closed, 0.0, self.share)


def probability_map(grid: Grid, weight: Floats, elsewhere: float, closed: Bools | None = None) -> ProbabilityMap:
    """Make a map of weights that need not sum to one.

    share = weight (1 - elsewhere) / sum(weight).

    Parameters
    ----------
    grid : Grid
        The cells.
    weight : Floats
        None negative, not all zero, shape (rows, columns).
    elsewhere : float
        Chance that it is not on the map, 0 to below 1.
    closed : Bools, optional
        Cells that cannot be searched; left out: none.

    Returns
    -------
    ProbabilityMap
        Sums to one.

    Raises
    ------
    RangeError
        If all weights are zero, one is negative, or ``elsewhere`` lies outside 0 to 1.

    Examples
    --------
    >>> m = probability_map(Grid(0.0, 0.0, 1.0, 1, 2), np.array([[3.0, 1.0]]), 0.2)
    >>> [round(float(x), 3) for x in m.share[0]]
    [0.6, 0.2]
    """
    total = float(weight.sum())
    if not (0.0 <= elsewhere < 1.0 and total > 0.0):
        raise RangeError(f"map: elsewhere {elsewhere:g}, sum of the cells {total:g}; 0 to below 1, and above 0")
    none = np.zeros(grid.shape, dtype=bool)
    return ProbabilityMap(grid, weight * ((1.0 - elsewhere) / total), elsewhere, none if closed is None else closed)
