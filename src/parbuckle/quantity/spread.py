"""A value with its spread, in SI: exact, normal, flat or triangular, cut at physical limits."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.normal import NINETEEN_IN_TWENTY, cumulative, quantile

Shape = Literal["exact", "normal", "flat", "triangular"]


@dataclass(frozen=True, slots=True)
class Spread:
    """One physical value as somebody wrote it, in SI.

    Parameters
    ----------
    kind : str
        Kind of quantity, such as ``mass``; see :mod:`parbuckle.quantity.kinds`.
    shape : str
        ``exact``, ``normal`` (low to high holds 19 in 20), ``flat`` or ``triangular``.
    low, mid, high : float
        Lower end, likeliest value and upper end in SI; all equal when exact.
    text : str
        What was written, or the default's text.
    floor, ceiling : float
        Physical limits; a spread that crosses one is cut there.
    assumed : bool
        True for a named default that stands in for an unknown.
    """

    kind: str
    shape: Shape
    low: float
    mid: float
    high: float
    text: str = ""
    floor: float = -math.inf
    ceiling: float = math.inf
    assumed: bool = False

    @property
    def exact(self) -> bool:
        """True when there is no spread."""
        return self.shape == "exact"

    @property
    def is_cut(self) -> bool:
        """True when a normal spread had to be cut at a physical limit (19 in 20 crosses it)."""
        return self.shape == "normal" and (self.low < self.floor or self.high > self.ceiling)

    def at(self, u: Floats) -> Floats:
        """Give the values that belong to the chances u (the inverse distribution).

        Parameters
        ----------
        u : Floats
            Chances, strictly between 0 and 1, shape (n,).

        Returns
        -------
        Floats
            Values in SI, shape (n,).

        Examples
        --------
        >>> float(Spread("mass", "flat", 2.0, 3.0, 4.0).at(np.array([0.25]))[0])
        2.5
        """
        if self.shape == "exact":
            return np.full(u.shape, self.mid)
        if self.shape == "flat":
            return self.low + u * (self.high - self.low)
        if self.shape == "triangular":
            return self._triangular(u)
        sd = (self.high - self.low) / (2.0 * NINETEEN_IN_TWENTY)
        lowest = cumulative((self.floor - self.mid) / sd)
        highest = cumulative((self.ceiling - self.mid) / sd)
        if lowest == 0.0 and highest == 1.0:
            return self.mid + sd * quantile(u)
        inside = np.clip(lowest + u * (highest - lowest), np.finfo(float).tiny, 1.0 - np.finfo(float).epsneg)
        return np.clip(self.mid + sd * quantile(inside), self.floor, self.ceiling)

    def _triangular(self, u: Floats) -> Floats:
        width = self.high - self.low
        if width == 0.0:
            return np.full(u.shape, self.mid)
        left = (self.mid - self.low) / width
        rising = self.low + np.sqrt(np.maximum(u * width * (self.mid - self.low), 0.0))
        falling = self.high - np.sqrt(np.maximum((1.0 - u) * width * (self.high - self.mid), 0.0))
        return np.where(u < left, rising, falling)


def exact(kind: str, value: float, text: str = "") -> Spread:
    """Make a value without spread.

    Parameters
    ----------
    kind : str
        Kind of quantity.
    value : float
        Value in SI.
    text : str
        How it reads.

    Returns
    -------
    Spread
        An exact one.
    """
    return Spread(kind, "exact", value, value, value, text)
