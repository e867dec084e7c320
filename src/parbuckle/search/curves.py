"""Chance to miss an object beside one leg: the lateral-range curve of a law, blurred by how far the leg may lie off.

Legs err apart from each other, so the chance to see on one leg is the curve averaged over the error, and the chances to
miss on all legs multiply. Under the random law the looks of a leg fall anywhere in its own strip and out to its error:
their density adds up, and the chance to miss is exp(-C).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen

LAWS = ("random", "half-normal", "inverse cube", "definite range")
"""Laws of detection by name."""

_EDGE, _PER = 6.0, 512  # where the table of the normal distribution ends, and its rows to one standard deviation
_PHI = np.array([0.5 * math.erfc(-(k / _PER - _EDGE) / math.sqrt(2.0)) for k in range(int(2 * _EDGE * _PER) + 2)])
_RISE = np.diff(_PHI)
_REACH = 6.0  # standard deviations of an error that are looked at
_LEAST, _CLOSE = 40, 10.0  # fewest places to one side, and places to one sweep width
_TABLE = 600
_FLAT = math.sqrt(3.0)  # half the width of a flat error over its standard deviation
_TAIL = 12.0  # sweep widths and errors after which the table of the inverse cube ends and its tail begins
_SHARP = 1e-9  # m: an error smaller than this is none


@dataclass(frozen=True)
class Curve(Frozen):
    """A law of detection for one pass.

    Parameters
    ----------
    law : str
        One of ``LAWS``.
    sweep_width : float
        W, m, more than 0.
    p0 : float
        Chance to see an object right on the line, half-normal and definite range only; more than 0 and at most 1.
    rough : bool
        True takes a flat error of the same spread where the edges of a strip are blurred: quicker, for fitting only.
    """

    law: str
    sweep_width: float
    p0: float = 1.0
    rough: bool = False

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.law not in LAWS:
            raise RangeError(f"there is no law of detection {self.law!r}; there are {', '.join(LAWS)}")
        if not self.sweep_width > 0.0 or not 0.0 < self.p0 <= 1.0:
            raise RangeError(f"sweep width {self.sweep_width} m, chance on the line {self.p0}: both more than 0")

    def miss(self, off: Floats, error: Floats | float, strip: Floats | float, abeam: Floats | float = 1.0) -> Floats:
        """Give the chance to miss on one leg: 1 - a p(x), averaged over the error; exp(-a C) under the random law.

        Parameters
        ----------
        off : Floats
            Distance from the leg across it, m, any shape.
        error : Floats or float
            Standard deviation of how far the leg lies off, m, at least 0; one number, or a column for several legs.
        strip : Floats or float
            Width of the strip that belongs to the leg, m, more than 0; only the random law looks at it.
        abeam : Floats or float
            Chance that the object is abeam of the leg, shape of ``off``.

        Returns
        -------
        Floats
            From 0 to 1, shape of ``off``.

        Raises
        ------
        RangeError
            If the error is negative.

        Notes
        -----
        Half-normal: p0 s / sqrt(s^2 + e^2) exp(-x^2 / 2 (s^2 + e^2)), s = W / (p0 sqrt(2 pi)). Definite range and
        random: differences of the normal distribution. Inverse cube, 1 - exp(-W^2 / 4 pi x^2): a sum over the error,
        ten places to a sweep width.
        Source: Koopman 1946; Eagle, OA3602 notes chapter 5 (lateral-range curve).

        Examples
        --------
        >>> float(Curve("half-normal", 3.0).miss(np.array([0.0]), 0.0, 3.0)[0])
        0.0
        """
        if np.min(error) < 0.0:
            raise RangeError(f"an error of {error} m was given; a standard deviation is at least 0")
        if self.law == "random":
            exposed: Floats = np.exp(-(self.sweep_width / strip) * abeam * self._box(off, 0.5 * strip, error))
            return exposed
        if self.law == "definite range":
            return 1.0 - abeam * self.p0 * self._box(off, 0.5 * self.sweep_width / self.p0, error)
        if self.law == "inverse cube":
            if isinstance(error, float):
                return 1.0 - abeam * self._inverse_cube(off, error)
            spread = np.ravel(error).tolist()
            lines = np.broadcast_to(off, (len(spread), off.shape[-1]))
            rows = [self._inverse_cube(x, e) for x, e in zip(lines, spread, strict=True)]
            return 1.0 - abeam * np.stack(rows)
        s2 = (self.sweep_width / self.p0) ** 2 / (2.0 * math.pi)
        wide = s2 + error * error
        seen: Floats = np.exp(off * off * (-0.5 / wide))
        return 1.0 - abeam * (self.p0 * np.sqrt(s2 / wide)) * seen

    def _box(self, off: Floats, half: Floats | float, error: Floats | float) -> Floats:
        if not self.rough:
            return box(off, half, error)
        flat = np.maximum(_FLAT * error, _SHARP)
        shared = np.minimum(np.maximum(half + flat - np.abs(off), 0.0), 2.0 * np.minimum(half, flat))
        within: Floats = shared / (2.0 * flat)
        return within

    def _inverse_cube(self, off: Floats, error: float) -> Floats:
        far, table, seen = _cube_table(self.sweep_width, error)
        away = np.abs(off)
        tail = -np.expm1(-(self.sweep_width**2) / (4.0 * math.pi) / np.maximum(away, far) ** 2)
        return np.where(away < far, np.interp(away, table, seen), tail)


@lru_cache(maxsize=256)
def _cube_table(width: float, error: float) -> tuple[float, Floats, Floats]:
    far = _TAIL * (width + error)
    table = np.linspace(0.0, math.sqrt(far), _TABLE) ** 2  # closer together near the line
    nodes = _REACH * np.linspace(-1.0, 1.0, 1 + 2 * max(_LEAST, math.ceil(_REACH * error / width * _CLOSE)))
    weights = np.exp(-0.5 * nodes * nodes)
    x = table[:, None] + error * nodes
    seen = -np.expm1(-(width**2) / (4.0 * math.pi) / np.maximum(x * x, _SHARP))
    return far, table, seen @ (weights / weights.sum())


def box(x: Floats, half: Floats | float, error: Floats | float) -> Floats:
    """Give the chance that x, off by a normal error, lies between -half and half.

    Parameters
    ----------
    x : Floats
        Distances, m.
    half : Floats or float
        Half the width, m.
    error : Floats or float
        Standard deviation, m, at least 0.

    Returns
    -------
    Floats
        From 0 to 1.

    Examples
    --------
    >>> box(np.array([0.0, 2.0]), 1.0, 0.0).tolist()
    [1.0, 0.0]
    """
    if np.max(error) <= _SHARP:
        return ((x >= -half) & (x < half)).astype(np.float64)
    spread = np.maximum(error, _SHARP)
    return below((x + half) / spread) - below((x - half) / spread)


def below(z: Floats) -> Floats:
    """Give the normal distribution over an array, from a table: right to 2e-7.

    Parameters
    ----------
    z : Floats
        Distances from the mean in standard deviations.

    Returns
    -------
    Floats
        Chances.

    Examples
    --------
    >>> round(float(below(np.array([1.959964]))[0]), 5)
    0.975
    """
    at = np.minimum(np.maximum((z + _EDGE) * _PER, 0.0), 2.0 * _EDGE * _PER)
    row = at.astype(np.int32)
    value: Floats = _PHI[row] + (at - row) * _RISE[row]
    return value
