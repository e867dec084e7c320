"""Which part of each cell lies inside polygons, and which cells cannot be searched."""

from __future__ import annotations

from typing import Any

import numpy as np

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Bools, Floats
from parbuckle.search.grid import Grid
from parbuckle.search.problem import Ring, Water


def inside_share(rings: tuple[Ring, ...], grid: Grid) -> Floats:
    """Give the part of each cell that lies inside at least one polygon.

    Parameters
    ----------
    rings : tuple of Ring
        Polygons; none crosses itself.
    grid : Grid
        The cells.

    Returns
    -------
    Floats
        0 to 1, shape (rows, columns).

    Raises
    ------
    RangeError
        For a polygon of fewer than three corners, without an area, or that crosses itself.

    Notes
    -----
    Source: geometry, by shapely.

    Examples
    --------
    >>> square = ((0.0, 0.0), (1.5, 0.0), (1.5, 1.0), (0.0, 1.0))
    >>> inside_share((square,), Grid(0.0, 0.0, 1.0, 1, 2)).tolist()
    [[1.0, 0.5]]
    """
    import shapely

    whole = _whole(rings)
    out = _middles_inside(whole, grid).astype(np.float64)
    row, column = np.nonzero(_near_edge(whole, grid))
    west, south = grid.west + grid.cell * column, grid.south + grid.cell * row
    boxes = shapely.box(west, south, west + grid.cell, south + grid.cell)
    crossed = shapely.intersects(shapely.boundary(whole), boxes)
    parts = shapely.area(shapely.intersection(whole, boxes[crossed]))
    out[row[crossed], column[crossed]] = parts / grid.area
    return out


def closed_cells(water: Water, grid: Grid) -> Bools:
    """Mark the cells that cannot be searched.

    A cell is closed when its middle lies outside the searchable area, ashore, or where the bottom lies deeper than the
    limit. Depth comes from the profile towards the shore, and is the depth at the datum away from it.

    Parameters
    ----------
    water : Water
        Where can be searched.
    grid : Grid
        The cells.

    Returns
    -------
    Bools
        True where closed, shape (rows, columns).

    Raises
    ------
    RangeError
        For a polygon that is none.

    Examples
    --------
    >>> square = ((0.0, 0.0), (1.2, 0.0), (1.2, 1.0), (0.0, 1.0))
    >>> closed_cells(Water(area=(square,)), Grid(0.0, 0.0, 1.0, 1, 2)).tolist()
    [[False, True]]
    """
    closed = np.zeros(grid.shape, dtype=bool)
    if water.area:
        closed |= ~_middles_inside(_whole(water.area), grid)
    depth, ashore = cell_depth(water, grid)
    return closed | ashore | (depth > water.depth_limit)


def cell_depth(water: Water, grid: Grid) -> tuple[Floats, Bools]:
    """Give the depth of the bottom in the middle of each cell, and which cells lie ashore.

    Parameters
    ----------
    water : Water
        With the profile towards the shore; without one, the depth at the datum everywhere.
    grid : Grid
        The cells.

    Returns
    -------
    tuple of Floats and Bools
        Depth, m, and True for land; each of shape (rows, columns).
    """
    if not water.shore_profile:
        return np.full(grid.shape, water.depth), np.zeros(grid.shape, dtype=bool)
    east, north = grid.mesh()
    towards = east * np.sin(water.shore_bearing) + north * np.cos(water.shore_bearing)
    way, depth = np.array(water.shore_profile, dtype=np.float64).T
    ashore = towards > way[-1]
    return np.interp(towards, way, depth), ashore


def _whole(rings: tuple[Ring, ...]) -> Any:
    """All polygons as one, prepared."""
    import shapely

    try:
        shapes = [shapely.Polygon(ring) for ring in rings]
    except ValueError:
        raise RangeError("polygon: at least three corners are needed") from None
    if not all(shape.is_valid and shape.area > 0.0 for shape in shapes):
        raise RangeError("polygon: it must have an area and may not cross itself; give the corners in order")
    whole = shapely.union_all(shapes)
    shapely.prepare(whole)
    return whole


def _middles_inside(whole: Any, grid: Grid) -> Bools:
    import shapely

    east, north = grid.mesh()
    inside: Bools = shapely.contains_xy(whole, east, north)
    return inside


def _near_edge(whole: Any, grid: Grid) -> Bools:
    """Cells that the edge of the polygons may touch: those round points on it, less than half a cell apart."""
    import shapely

    points = shapely.get_coordinates(shapely.segmentize(shapely.boundary(whole), 0.5 * grid.cell))
    column = np.floor((points[:, 0] - grid.west) / grid.cell).astype(np.int64)
    row = np.floor((points[:, 1] - grid.south) / grid.cell).astype(np.int64)
    near = np.zeros((grid.rows + 2, grid.columns + 2), dtype=bool)
    for up in (-1, 0, 1):
        for right in (-1, 0, 1):
            r, c = row + up + 1, column + right + 1
            inside = (r >= 0) & (r < grid.rows + 2) & (c >= 0) & (c < grid.columns + 2)
            near[r[inside], c[inside]] = True
    return near[1:-1, 1:-1]
