"""The tissues of the ZH-L16 model as data: half-times and the two coefficients of each, for nitrogen and helium."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np

from parbuckle.physics.ranges import FloatsLike, Range
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen

HALF_TIME_RANGE = Range("half-time of a tissue", 60.0, 60000.0, "s", "ZH-L16: 4 to 635 min")

_BAR, _MINUTE = 1e5, 60.0
_SETS = ("A", "B", "C")
_FIRST = ("1", "1b")


@dataclass(frozen=True)
class Compartments(Frozen):
    """Sixteen model tissues.

    Parameters
    ----------
    half : Floats
        Half-times, s, shape (2, 16): nitrogen, helium.
    a : Floats
        Part of the tolerated pressure that does not depend on depth, Pa, shape (2, 16).
    b : Floats
        Reciprocal slope of the tolerated pressure, shape (2, 16).
    """

    half: Floats
    a: Floats
    b: Floats

    def mixed(self, tissues: Floats) -> tuple[Floats, Floats]:
        """Give a and b of tissues that hold both gases.

        Each is weighted by the partial pressure of each gas in the tissue: a = (a_N p_N + a_He p_He) / (p_N + p_He).

        Parameters
        ----------
        tissues : Floats
            Partial pressures in the tissues, Pa, shape (2, 16, n).

        Returns
        -------
        tuple of Floats
            a in Pa and b, shape (16, n).

        Notes
        -----
        Source: common practice with this model; a weighting by the breathed shares is also in print.

        Examples
        --------
        >>> tissues = np.full((2, 16, 1), 1e5)
        >>> compartments().mixed(tissues)[1].round(5)[0]
        array([0.5174])
        """
        nitrogen, helium = tissues
        held = nitrogen + helium
        share = np.divide(helium, held, out=np.zeros_like(held), where=held > 0.0)
        a = self.a[0][:, None] + (self.a[1] - self.a[0])[:, None] * share
        b = self.b[0][:, None] + (self.b[1] - self.b[0])[:, None] * share
        return a, b


@cache
def compartments(letter: str = "C", first: str = "1b") -> Compartments:
    """Give one set of coefficients.

    Parameters
    ----------
    letter : str
        ``A``, ``B`` or ``C``.
    first : str
        Which of the two fastest tissues is used: ``1`` (4 min) or ``1b`` (5 min).

    Returns
    -------
    Compartments
        Sixteen tissues.

    Raises
    ------
    RangeError
        For another letter or another first tissue.

    Notes
    -----
    Source: Bühlmann, Tauchmedizin; B, C and helium are recalled (see the data file).

    Examples
    --------
    >>> compartments().half[0, -1] / 60.0
    np.float64(635.0)
    """
    if letter not in _SETS or first not in _FIRST:
        raise RangeError(f"given set {letter!r} with tissue {first!r}, allowed sets A, B, C with tissue 1 or 1b")
    rows = [row for row in _file()["table"]["rows"] if row[0] == first or row[0] not in _FIRST]
    columns = np.array([row[1:] for row in rows], dtype=np.float64).T
    of_nitrogen = 1 + _SETS.index(letter)
    half = columns[[0, 5]] * _MINUTE
    return Compartments(half, columns[[of_nitrogen, 6]] * _BAR, columns[[4, 7]])


def water_vapour() -> float:
    """Give the pressure of water vapour in the lung.

    Returns
    -------
    float
        Pa.

    Notes
    -----
    Source: 0.0627 bar at 37 degC with a respiratory quotient of 1, so that carbon dioxide drops out.

    Examples
    --------
    >>> round(water_vapour())
    6270
    """
    return float(_file()["constants"]["water_vapour"]) * _BAR


def theory_a(half: FloatsLike) -> Floats:
    """Give coefficient a of nitrogen as theory has it (set A).

    a = 2 bar (t / 1 min)^(-1/3).

    Parameters
    ----------
    half : FloatsLike
        Half-time, s, any shape.

    Returns
    -------
    Floats
        a, Pa.

    Raises
    ------
    RangeError
        Outside 60 to 60,000 s.

    Notes
    -----
    Source: encyclopaedia article on the model; reproduces all 17 printed values.

    Examples
    --------
    >>> round(float(theory_a(8 * 60.0)) / 1e5, 6)
    1.0
    """
    return np.asarray(2.0 * _BAR * np.cbrt(_MINUTE / HALF_TIME_RANGE.check(half)))


def theory_b(half: FloatsLike) -> Floats:
    """Give coefficient b of nitrogen as theory has it.

    b = 1.005 - (t / 1 min)^(-1/2).

    Parameters
    ----------
    half : FloatsLike
        Half-time, s, any shape.

    Returns
    -------
    Floats
        b, without unit.

    Raises
    ------
    RangeError
        Outside 60 to 60,000 s.

    Notes
    -----
    Source: encyclopaedia article on the model; two printed values differ and are meant so (0.7825 and 0.8126).

    Examples
    --------
    >>> round(float(theory_b(8 * 60.0)), 4)
    0.6514
    """
    return np.asarray(1.005 - np.sqrt(_MINUTE / HALF_TIME_RANGE.check(half)))


@cache
def _file() -> dict[str, Any]:
    return tomllib.loads((files("parbuckle.data") / "zhl16.toml").read_text(encoding="utf-8"))
