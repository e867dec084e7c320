"""Choosing between two values, element by element: the few branches that single numbers and columns write differently.

Laws that run in both forms call ``choose``, ``smaller`` and ``larger``. In the compiled form of single numbers the
functions that end in ``_one`` stand in their place; the values are the same.
"""

from __future__ import annotations

from typing import Any

import numpy as np

Each = Any
"""A single float, or an array of floats: what a law takes that is written element by element."""


def choose(condition: Each, this: Each, that: Each) -> Each:
    """Give one value where a condition holds and another where it does not.

    Parameters
    ----------
    condition : Each
        Any shape.
    this, that : Each
        Where it holds, and where it does not.

    Returns
    -------
    Each
        The values.

    Examples
    --------
    >>> choose(np.array([True, False]), np.array([1.0, 2.0]), np.array([3.0, 4.0]))
    array([1., 4.])
    """
    return np.where(condition, this, that)


def choose_one(condition: bool, this: float, that: float) -> float:
    """Give ``choose`` for single numbers.

    Parameters
    ----------
    condition : bool
        Whether it holds.
    this, that : float
        If it does, and if not.

    Returns
    -------
    float
        The value.

    Examples
    --------
    >>> choose_one(True, 1.0, 2.0)
    1.0
    """
    return this if condition else that


def smaller(this: Each, that: Each) -> Each:
    """Give the smaller of two values.

    Parameters
    ----------
    this, that : Each
        Any shape.

    Returns
    -------
    Each
        The values.

    Examples
    --------
    >>> smaller(np.array([1.0, 4.0]), np.array([3.0, 2.0]))
    array([1., 2.])
    """
    return np.minimum(this, that)


def smaller_one(this: float, that: float) -> float:
    """Give ``smaller`` for single numbers.

    Parameters
    ----------
    this, that : float
        Two numbers.

    Returns
    -------
    float
        The value.

    Examples
    --------
    >>> smaller_one(1.0, 2.0)
    1.0
    """
    return this if this < that else that


def larger(this: Each, that: Each) -> Each:
    """Give the larger of two values.

    Parameters
    ----------
    this, that : Each
        Any shape.

    Returns
    -------
    Each
        The values.

    Examples
    --------
    >>> larger(np.array([1.0, 4.0]), np.array([3.0, 2.0]))
    array([3., 4.])
    """
    return np.maximum(this, that)


def larger_one(this: float, that: float) -> float:
    """Give ``larger`` for single numbers.

    Parameters
    ----------
    this, that : float
        Two numbers.

    Returns
    -------
    float
        The value.

    Examples
    --------
    >>> larger_one(1.0, 2.0)
    2.0
    """
    return this if this > that else that
