"""A table over evenly spaced places, read between its rows."""

from __future__ import annotations

import numpy as np

from parbuckle.quantity.frozen import Bools, Floats

_END = 1.001  # rows that stay inside


class EvenTable:
    """A table that is read by straight lines between its rows; beyond its ends it keeps its last value.

    Parameters
    ----------
    low, high : float
        Where the first and the last row stand.
    values : Floats
        Value of each row, shape (n,), at least two.
    second : Floats or None
        Another column of the same shape.

    Examples
    --------
    >>> EvenTable(0.0, 2.0, np.array([0.0, 1.0, 4.0])).at(np.array([0.5, 1.5])).tolist()
    [0.5, 2.5]
    """

    def __init__(self, low: float, high: float, values: Floats, second: Floats | None = None) -> None:
        self._rows = values.size
        self._values = values if second is None else np.concatenate([values, second])
        self._rise = np.append(np.diff(self._values), 0.0)
        self._low, self._scale = low, (values.size - 1) / (high - low)

    def at(self, where: Floats, second: Bools | None = None) -> Floats:
        """Read the table.

        Parameters
        ----------
        where : Floats
            Places, any shape.
        second : Bools or None
            Where the second column is read, same shape.

        Returns
        -------
        Floats
            Same shape.
        """
        inside = (where - self._low) * self._scale
        np.clip(inside, 0.0, self._rows - _END, out=inside)
        row = inside.astype(np.int64)
        inside -= row
        if second is not None:
            row += self._rows * second
        value: Floats = self._values[row] + inside * self._rise[row]
        return value
