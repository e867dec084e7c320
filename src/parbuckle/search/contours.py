"""Lines round the likeliest part of a map, and dots drawn from it: what a picture of the map needs."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from parbuckle.quantity.draws import uniforms
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats
from parbuckle.search.probability import ProbabilityMap
from parbuckle.search.problem import Place, Ring

_SEED = 1
Edge = tuple[int, int, int]
"""Row, column, and 0 for the way to the next column or 1 for the way to the next row."""

# Sides of a square of four middles: 0 south, 1 east, 2 north, 3 west. Entry and exit with the inside on the left, for
# each pattern of corners inside (bit 0 south-west, 1 south-east, 2 north-east, 3 north-west).
_WAYS: dict[int, tuple[tuple[int, int], ...]] = {
    1: ((0, 3),),
    2: ((1, 0),),
    3: ((1, 3),),
    4: ((2, 1),),
    5: ((0, 3), (2, 1)),
    6: ((2, 0),),
    7: ((2, 3),),
    8: ((3, 2),),
    9: ((0, 2),),
    10: ((1, 0), (3, 2)),
    11: ((1, 2),),
    12: ((3, 1),),
    13: ((0, 1),),
    14: ((3, 0),),
}


def contours(chances: ProbabilityMap, share: float) -> tuple[Ring, ...]:
    """Give the lines round the smallest part of the map that holds a share of what is on it.

    Cells are taken from the likeliest down until they hold the share; the line runs between middles of cells.

    Parameters
    ----------
    chances : ProbabilityMap
        The map; "elsewhere" does not count.
    share : float
        Above 0 to below 1.

    Returns
    -------
    tuple of Ring
        Closed lines, m east and north of the datum, the inside on the left.

    Raises
    ------
    RangeError
        For a share outside its range, or a map that holds nothing.

    Examples
    --------
    >>> from parbuckle.search.grid import Grid
    >>> from parbuckle.search.probability import probability_map
    >>> one = probability_map(Grid(0.0, 0.0, 2.0, 1, 1), np.array([[1.0]]), 0.0)
    >>> len(contours(one, 0.5)[0])
    4
    """
    level = level_of(chances.share, share)
    field = np.pad(chances.share, 1)
    onward = dict(_segments(field, level))
    rings: list[Ring] = []
    while onward:
        start = next(iter(onward))
        ring, edge = [], start
        while edge in onward:
            ring.append(_crossing(field, level, edge, chances))
            edge = onward.pop(edge)
        rings.append(tuple(ring))
    return tuple(rings)


def level_of(share: Floats, part: float) -> float:
    """Give the chance of one cell above which the cells hold a part of the whole.

    Parameters
    ----------
    share : Floats
        Chances of the cells, any shape.
    part : float
        Above 0 to below 1.

    Returns
    -------
    float
        Half-way between the last cell that is needed and the next lower one.

    Raises
    ------
    RangeError
        For a part outside its range, or a map that holds nothing.

    Examples
    --------
    >>> round(level_of(np.array([0.5, 0.3, 0.2]), 0.7), 3)
    0.25
    """
    total = float(share.sum())
    if not (0.0 < part < 1.0 and total > 0.0):
        raise RangeError(f"contour: given a part of {part:g} of {total:g}; allowed above 0 to below 1, of more than 0")
    ordered = np.sort(share, axis=None)[::-1]
    needed = int(np.searchsorted(np.cumsum(ordered), part * total))
    last = float(ordered[min(needed, ordered.size - 1)])
    lower = ordered[np.searchsorted(-ordered, -last, side="right") :]
    return 0.5 * (last + (float(lower[0]) if lower.size else 0.0))


def dots(chances: ProbabilityMap, count: int) -> tuple[Place, ...]:
    """Draw places from a map, the same every time: one dot stands for one share of the whole.

    Parameters
    ----------
    chances : ProbabilityMap
        The map; "elsewhere" and closed cells get none.
    count : int
        Number of dots, if nothing were elsewhere or closed.

    Returns
    -------
    tuple of Place
        m east and north of the datum; as many as belong to the part that can be searched.

    Examples
    --------
    >>> from parbuckle.search.grid import Grid
    >>> from parbuckle.search.probability import probability_map
    >>> len(dots(probability_map(Grid(0.0, 0.0, 2.0, 1, 1), np.array([[1.0]]), 0.5), 100))
    50
    """
    open_ones = chances.searchable().ravel()
    total = float(open_ones.sum())
    many = round(count * total)
    if not many:
        return ()
    u = (np.arange(many) + uniforms(_SEED, "search.dots", many)) / many
    cell = np.minimum(np.searchsorted(np.cumsum(open_ones) / total, u), open_ones.size - 1)
    row, column = np.divmod(cell, chances.grid.columns)
    grid = chances.grid
    east = grid.west + grid.cell * (column + uniforms(_SEED, "search.dots.east", many))
    north = grid.south + grid.cell * (row + uniforms(_SEED, "search.dots.north", many))
    return tuple(zip(east.tolist(), north.tolist(), strict=True))


def _segments(field: Floats, level: float) -> Iterator[tuple[Edge, Edge]]:
    """Pairs of sides that the line goes in and out by."""
    inside = (field > level).astype(np.int64)
    code = inside[:-1, :-1] + 2 * inside[:-1, 1:] + 4 * inside[1:, 1:] + 8 * inside[1:, :-1]
    for row, column in np.argwhere(np.isin(code, list(_WAYS))).tolist():
        sides: tuple[Edge, ...] = ((row, column, 0), (row, column + 1, 1), (row + 1, column, 0), (row, column, 1))
        for a, b in _WAYS[int(code[row, column])]:
            yield sides[a], sides[b]


def _crossing(field: Floats, level: float, edge: Edge, chances: ProbabilityMap) -> Place:
    row, column, up = edge
    here, there = float(field[row, column]), float(field[row + up, column + 1 - up])
    part = (level - here) / (there - here)
    grid = chances.grid  # the field has one row and one column more on each side
    x, y = column - 0.5 + (0.0 if up else part), row - 0.5 + (part if up else 0.0)
    return grid.west + grid.cell * x, grid.south + grid.cell * y
