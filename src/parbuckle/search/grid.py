"""The grid of square cells that the map of chances stands on: metres east and north of the datum."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class Grid(Frozen):
    """Square cells in rows from south to north and columns from west to east.

    Parameters
    ----------
    west : float
        East of the datum of the lower-left corner of cell [0, 0], m.
    south : float
        North of the datum of that corner, m.
    cell : float
        Side of a cell, m.
    rows : int
        Number of rows.
    columns : int
        Number of columns.

    Raises
    ------
    RangeError
        If the cell or a count is not above zero.

    Examples
    --------
    >>> Grid(-10.0, -5.0, 5.0, 2, 4).shape
    (2, 4)
    """

    west: float
    south: float
    cell: float
    rows: int
    columns: int

    def __post_init__(self) -> None:
        super().__post_init__()
        if not (self.cell > 0.0 and self.rows > 0 and self.columns > 0):
            raise RangeError(f"grid: {self.rows} rows, {self.columns} columns, cells of {self.cell:g} m; all above 0")

    @property
    def shape(self) -> tuple[int, int]:
        """Rows and columns."""
        return self.rows, self.columns

    @property
    def area(self) -> float:
        """Area of one cell, m2."""
        return self.cell * self.cell

    def edges(self) -> tuple[Floats, Floats]:
        """Give the lines between cells.

        Returns
        -------
        tuple[Floats, Floats]
            East, shape (columns + 1,), and north, shape (rows + 1,), m.
        """
        return (
            self.west + self.cell * np.arange(self.columns + 1.0),
            self.south + self.cell * np.arange(self.rows + 1.0),
        )

    def centres(self) -> tuple[Floats, Floats]:
        """Give the middles of columns and rows.

        Returns
        -------
        tuple[Floats, Floats]
            East, shape (columns,), and north, shape (rows,), m.
        """
        return (
            self.west + self.cell * (np.arange(float(self.columns)) + 0.5),
            self.south + self.cell * (np.arange(float(self.rows)) + 0.5),
        )

    def mesh(self) -> tuple[Floats, Floats]:
        """Give the middle of every cell.

        Returns
        -------
        tuple[Floats, Floats]
            East and north, m, each of shape (rows, columns).
        """
        east, north = np.meshgrid(*self.centres())
        return east, north


def grid_over(west: float, south: float, east: float, north: float, cell: float, most: int) -> Grid:
    """Lay a grid over a rectangle; the cell grows where there would be too many.

    Corners of cells lie on multiples of the cell from the datum.

    Parameters
    ----------
    west, south, east, north : float
        The rectangle, m from the datum.
    cell : float
        Side of a cell that is wanted, m.
    most : int
        Largest number of cells.

    Returns
    -------
    Grid
        Covers the rectangle.

    Raises
    ------
    RangeError
        If the rectangle is empty or the cell is not above zero.

    Examples
    --------
    >>> grid_over(-9.0, -9.0, 9.0, 9.0, 2.0, 1000)
    Grid(west=-10.0, south=-10.0, cell=2.0, rows=10, columns=10)
    """
    if not (east > west and north > south and cell > 0.0 and most > 0):
        raise RangeError("grid: the rectangle must have an area, and the cell a size")
    step = cell
    while True:
        left, bottom = np.floor(west / step), np.floor(south / step)
        columns, rows = int(np.ceil(east / step) - left), int(np.ceil(north / step) - bottom)
        if rows * columns <= most:
            return Grid(float(left * step), float(bottom * step), step, rows, columns)
        step *= max(1.01, float(np.sqrt(rows * columns / most)))
