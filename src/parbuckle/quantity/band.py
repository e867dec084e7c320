"""Answers as bands and chances: the 5th, 50th and 95th of a hundred draws, and a share with its sampling error."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.quantity.frozen import Bools, Floats

LOW, LIKELY, HIGH = 0.05, 0.50, 0.95
"""Shares of the draws that lie below a band's three numbers."""


def at_share(values: Floats, share: float) -> float:
    """Give the value below which a share of the draws lie, by linear interpolation between the two nearest.

    Parameters
    ----------
    values : Floats
        Draws, shape (n,), n at least 1.
    share : float
        0 to 1.

    Returns
    -------
    float
        In the unit of the draws; the same as numpy's default quantile, sooner.

    Examples
    --------
    >>> at_share(np.array([3.0, 1.0, 2.0]), 0.5)
    2.0
    """
    return float(at_shares(values, (share,))[0])


def at_shares(values: Floats, shares: tuple[float, ...]) -> Floats:
    """Give the values below which shares of the draws lie, along the last axis.

    Parameters
    ----------
    values : Floats
        Draws, shape (..., n), n at least 1.
    shares : tuple of float
        Shares, 0 to 1.

    Returns
    -------
    Floats
        Shape (shares, ...).

    Examples
    --------
    >>> at_shares(np.array([[3.0, 1.0, 2.0]]), (0.0, 1.0)).tolist()
    [[1.0], [3.0]]
    """
    ordered = np.sort(values, axis=-1)
    last = ordered.shape[-1] - 1
    out = []
    for share in shares:
        below = min(int(share * last), max(last - 1, 0))
        part = share * last - below
        low, high = ordered[..., below], ordered[..., min(below + 1, last)]
        if ordered.ndim == 1:
            out.append(low if low == high or not part else low * (1.0 - part) + high * part)
        else:
            out.append(np.where(low == high, low, low * (1.0 - part) + high * part) if part else low)
    return np.array(out)


@dataclass(frozen=True, slots=True)
class Band:
    """Low, likely and high: the 5th, 50th and 95th of a hundred draws.

    Parameters
    ----------
    low, likely, high : float
        In SI.
    of : float
        Share of all draws that the band speaks for; 1 when all.
    """

    low: float
    likely: float
    high: float
    of: float = 1.0


def band(values: Floats, where: Bools | None = None) -> Band | None:
    """Give the band of an array of draws.

    Parameters
    ----------
    values : Floats
        Draws, shape (n,).
    where : Bools, optional
        Draws that count, shape (n,); the band's ``of`` is their share.

    Returns
    -------
    Band or None
        None when no draw counts.

    Examples
    --------
    >>> band(np.array([1.0, 2.0, 3.0])).likely
    2.0
    """
    counted = values if where is None else values[where]
    if counted.size == 0:
        return None
    low, likely, high = at_shares(counted, (LOW, LIKELY, HIGH))
    return Band(float(low), float(likely), float(high), counted.size / values.size)


@dataclass(frozen=True, slots=True)
class Chance:
    """A share of the draws with its sampling error.

    Parameters
    ----------
    share : float
        Share of the draws, 0 to 1.
    n : int
        Number of draws.
    """

    share: float
    n: int

    @property
    def error(self) -> float:
        """One standard error of the share (binomial; the rule of three's bound when none or all count)."""
        if self.share in (0.0, 1.0):
            return 3.0 / self.n
        return float(np.sqrt(self.share * (1.0 - self.share) / self.n))

    def against(self, wanted: float) -> str:
        """Compare with a wanted chance: ``reached``, ``on the edge`` (within two errors) or ``missed``.

        Parameters
        ----------
        wanted : float
            Chance asked for, 0 to 1.

        Returns
        -------
        str
            One of the three words.
        """
        if abs(self.share - wanted) <= 2.0 * self.error:
            return "on the edge"
        return "reached" if self.share > wanted else "missed"


def chance(hits: Bools) -> Chance:
    """Give the share of draws in which something holds.

    Parameters
    ----------
    hits : Bools
        True where it holds, shape (n,).

    Returns
    -------
    Chance
        The share and the number of draws.
    """
    return Chance(float(np.count_nonzero(hits)) / hits.size, int(hits.size))
