"""Valid ranges as data beside the laws: a value outside is refused by name, never clipped."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from parbuckle.quantity.errors import RangeError

FloatsLike = float | NDArray[np.float64]
"""What a law takes: one SI number or an array of them."""


_least, _most = np.minimum.reduce, np.maximum.reduce


@dataclass(frozen=True)
class Range:
    """The closed range in which a law holds.

    Parameters
    ----------
    quantity : str
        What is limited, as a reader would call it.
    low : float
        Lowest allowed value, SI.
    high : float
        Highest allowed value, SI.
    unit : str
        SI unit, for the text of the error; empty for a plain number.
    source : str
        Where the range comes from.

    Examples
    --------
    >>> Range("depth", 0.0, 100.0, "m", "common practice").check(12.0)
    array(12.)
    """

    quantity: str
    low: float
    high: float
    unit: str
    source: str

    def check(self, values: FloatsLike) -> NDArray[np.float64]:
        """Give the values back as an array if all of them lie in the range.

        Parameters
        ----------
        values : FloatsLike
            SI values, any shape.

        Returns
        -------
        NDArray[np.float64]
            The same values.

        Raises
        ------
        RangeError
            If one value lies outside or is not a number.
        """
        array = np.asarray(values, dtype=np.float64)
        if array.ndim == 0:
            inside = self.low <= array.item() <= self.high
        else:  # least and largest are quicker than two comparisons; NaN is both, and compares as false
            inside = not array.size or bool(
                self.low <= _least(array, axis=None) and _most(array, axis=None) <= self.high
            )
        if not inside:
            flat = array.ravel()
            worst = float(flat[~((flat >= self.low) & (flat <= self.high))][0])
            unit = f" {self.unit}" if self.unit else ""
            raise RangeError(
                f"{self.quantity}: given {worst:g}{unit}, allowed {self.low:g} to {self.high:g}{unit} ({self.source})"
            )
        return array


_SMALLEST, _LARGEST = float(np.finfo(np.float64).tiny), float(np.finfo(np.float64).max)


def not_negative(quantity: str, values: FloatsLike, unit: str = "") -> NDArray[np.float64]:
    """Refuse negative, infinite and missing values of a quantity that cannot be negative.

    Parameters
    ----------
    quantity : str
        What it is, for the text of the error.
    values : FloatsLike
        SI values, any shape.
    unit : str
        SI unit, for the text of the error.

    Returns
    -------
    NDArray[np.float64]
        The same values.

    Raises
    ------
    RangeError
        If one value is negative, infinite or not a number.

    Examples
    --------
    >>> not_negative("volume", 0.1, "m3")
    array(0.1)
    """
    return _made(quantity, 0.0, unit, "cannot be negative").check(values)


def positive(quantity: str, values: FloatsLike, unit: str = "") -> NDArray[np.float64]:
    """Refuse values that are not above zero.

    Parameters
    ----------
    quantity : str
        What it is, for the text of the error.
    values : FloatsLike
        SI values, any shape.
    unit : str
        SI unit, for the text of the error.

    Returns
    -------
    NDArray[np.float64]
        The same values.

    Raises
    ------
    RangeError
        If one value is zero, negative, infinite or not a number.

    Examples
    --------
    >>> positive("pressure", 101325.0, "Pa")
    array(101325.)
    """
    return _made(quantity, _SMALLEST, unit, "must be above zero").check(values)


@cache
def _made(quantity: str, low: float, unit: str, why: str) -> Range:
    return Range(quantity, low, _LARGEST, unit, why)
