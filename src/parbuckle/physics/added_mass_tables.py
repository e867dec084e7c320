"""Added mass of plates, prisms, cylinders and blocks by tables of marine practice; 5 to 10 % above potential flow."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive

PERFORATION_RANGE = Range("perforation of the area", 0.0, 0.5, "", "DNV-RP-H103, section 4.6.4")

_LOW, _MIDDLE = 0.05, 0.34  # perforation at which the rule changes, the same source


@cache
def _rows(name: str) -> tuple[NDArray[np.float64], NDArray[np.float64], Range]:
    entry = tomllib.loads(files("parbuckle.data").joinpath("added_mass.toml").read_text(encoding="utf-8"))[name]
    table = np.array(entry["rows"], dtype=np.float64)
    return table[:, 0], table[:, 1], Range(f"sides of the {name}", table[0, 0], table[-1, 0], "", entry["source"])


def _coefficient(name: str, ratio: FloatsLike) -> NDArray[np.float64]:
    x, y, span = _rows(name)
    return np.asarray(np.interp(span.check(ratio), x, y), dtype=np.float64)


def plate(short: FloatsLike, long: FloatsLike, density: FloatsLike) -> NDArray[np.float64]:
    """Give the added mass of a flat rectangular plate that moves broadside on.

    m = rho C pi/4 a^2 b, C by b/a.

    Parameters
    ----------
    short : FloatsLike
        Short side a, m, any shape.
    long : FloatsLike
        Long side b, m, any shape that fits.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Added mass, kg.

    Raises
    ------
    RangeError
        For b/a outside 1 to 10.

    Notes
    -----
    Source: DNV-RP-N103, table A-2 (seen in public source code that names it).

    Examples
    --------
    >>> round(float(plate(1.0, 1.0, 1025.0)), 1)
    466.1
    """
    a, b = positive("short side", short, "m"), positive("long side", long, "m")
    return positive("water density", density, "kg/m3") * _coefficient("plate", b / a) * (np.pi / 4.0) * a**2 * b


def prism(side: FloatsLike, length: FloatsLike, density: FloatsLike) -> NDArray[np.float64]:
    """Give the added mass of a square prism that moves along its length.

    m = rho C a^2 b, C by b/a.

    Parameters
    ----------
    side : FloatsLike
        Side a of the square, m, any shape.
    length : FloatsLike
        Length b, m, any shape that fits.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Added mass, kg.

    Raises
    ------
    RangeError
        For b/a outside 1 to 10.

    Notes
    -----
    Source: DNV-RP-N103, table A-2 (seen in public source code that names it).

    Examples
    --------
    >>> round(float(prism(1.0, 1.0, 1000.0)))
    680
    """
    a, b = positive("side", side, "m"), positive("length", length, "m")
    return positive("water density", density, "kg/m3") * _coefficient("prism", b / a) * a**2 * b


def cylinder(diameter: FloatsLike, length: FloatsLike, density: FloatsLike) -> NDArray[np.float64]:
    """Give the added mass of a circular cylinder that moves across its axis.

    m = rho C pi/4 D^2 L, C by L/D.

    Parameters
    ----------
    diameter : FloatsLike
        Diameter D, m, any shape.
    length : FloatsLike
        Length L, m, any shape that fits.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Added mass, kg.

    Raises
    ------
    RangeError
        For L/D outside 1.2 to 9.

    Notes
    -----
    Source: DNV-RP-H103, appendix A (recalled).

    Examples
    --------
    >>> round(float(cylinder(0.5, 1.25, 1000.0)), 1)
    191.4
    """
    d, long = positive("diameter", diameter, "m"), positive("length", length, "m")
    water = positive("water density", density, "kg/m3")
    return water * _coefficient("cylinder", long / d) * (np.pi / 4.0) * d**2 * long


def block(short: FloatsLike, long: FloatsLike, height: FloatsLike, density: FloatsLike) -> NDArray[np.float64]:
    """Give the added mass of a block that moves along its height, from the plate of the same outline.

    m = m_plate {1 + sqrt[(1 - l^2) / (2 (1 + l^2))]}, l = sqrt(A) / (h + sqrt(A)), A = a b.

    Parameters
    ----------
    short : FloatsLike
        Short side a of the outline, m, any shape.
    long : FloatsLike
        Long side b of the outline, m, any shape that fits.
    height : FloatsLike
        Height h along the motion, m, any shape that fits.
    density : FloatsLike
        Water density, kg/m3, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Added mass, kg.

    Raises
    ------
    RangeError
        For b/a outside 1 to 10 or a negative height.

    Notes
    -----
    Source: DNV-RP-H103, section 4.6.3 (seen in two public source codes).

    Examples
    --------
    >>> round(float(block(1.0, 1.0, 1.0, 1000.0)))
    704
    """
    root = np.sqrt(positive("short side", short, "m") * positive("long side", long, "m"))
    share = (root / (not_negative("height", height, "m") + root)) ** 2
    return plate(short, long, density) * (1.0 + np.sqrt((1.0 - share) / (2.0 * (1.0 + share))))


def perforation_factor(perforation: FloatsLike) -> NDArray[np.float64]:
    """Give the factor on the added mass of a body whose broadside has holes.

    p <= 5 %: 1; to 34 %: 0.7 + 0.3 cos[pi (p - 5) / 34]; to 50 %: exp[(10 - p) / 28], p in per cent.

    Parameters
    ----------
    perforation : FloatsLike
        Area of the holes over the whole area, 0 to 0.5, any shape.

    Returns
    -------
    NDArray[np.float64]
        Factor, 1 for no holes. The branches meet at 34 % with a step from 0.431 to 0.424.

    Raises
    ------
    RangeError
        Outside 0 to 0.5.

    Notes
    -----
    Source: DNV-RP-H103, section 4.6.4 (seen in two public source codes).

    Examples
    --------
    >>> round(float(perforation_factor(0.2)), 3)
    0.755
    """
    share = PERFORATION_RANGE.check(perforation)
    percent = 100.0 * share
    wave = 0.7 + 0.3 * np.cos(np.pi * (percent - 5.0) / 34.0)
    tail = np.exp((10.0 - percent) / 28.0)
    return np.where(share <= _LOW, 1.0, np.where(share < _MIDDLE, wave, tail))
