"""How answers of arrays become numbers of the plan document: bands, likely values, no infinities."""

from __future__ import annotations

import math

from parbuckle.quantity.band import HIGH, LIKELY, at_share, band
from parbuckle.quantity.frozen import Bools, Floats

BandDict = dict[str, float]

LITRES = 1000.0
"""Litres in a cubic metre."""

BAR = 1e5
"""Pascal in a bar."""

MINUTE = 60.0
"""Seconds in a minute."""


def band_of(values: Floats | None, scale: float = 1.0, where: Bools | None = None, of: bool = False) -> BandDict | None:
    """Give the band of an array as the document holds it.

    Parameters
    ----------
    values : Floats or None
        Draws in SI, shape (n,).
    scale : float
        Factor from SI to the unit of the key.
    where : Bools, optional
        Draws that count.
    of : bool
        True writes the share of the draws that count even when it is 1.

    Returns
    -------
    dict or None
        ``low``, ``likely``, ``high`` and, where it says something, ``of``; None when no draw counts.
    """
    if values is None:
        return None
    told = band(values, where)
    if told is None:
        return None
    out = {"low": told.low * scale, "likely": told.likely * scale, "high": told.high * scale}
    if of or told.of < 1.0:
        out["of"] = told.of
    return out


def likely(values: Floats | None, scale: float = 1.0) -> float | None:
    """Give the middle of an array, or None when it is infinite or there is none.

    Parameters
    ----------
    values : Floats or None
        Draws, shape (n,).
    scale : float
        Factor from SI to the unit of the key.

    Returns
    -------
    float or None
        A finite number.
    """
    if values is None or values.size == 0:
        return None
    middle = at_share(values, LIKELY)
    return middle * scale if math.isfinite(middle) else None


def high(values: Floats, scale: float = 1.0) -> float:
    """Give the high end of an array.

    Parameters
    ----------
    values : Floats
        Draws, shape (n,).
    scale : float
        Factor from SI to the unit of the key.

    Returns
    -------
    float
        95th of a hundred.
    """
    return at_share(values, HIGH) * scale
