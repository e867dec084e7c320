"""What divers breathe: the gas of each leg, and the reserve for two."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np

from parbuckle.dive.profile import Leg
from parbuckle.physics.ranges import FloatsLike, not_negative, positive
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats

_LITRES_A_MINUTE = 0.001 / 60.0
_LITRE, _MINUTE = 0.001, 60.0


def breathed(piece: Leg, rate: FloatsLike, surface: FloatsLike) -> Floats:
    """Give the gas that one diver breathes on a leg.

    V = q t (p_1 + p_2) / (2 p_s).

    Parameters
    ----------
    piece : Leg
        The leg.
    rate : FloatsLike
        Rate, m3/s of free gas at the surface, one number or shape (n,).
    surface : FloatsLike
        Air pressure at the surface, Pa, one number or shape (n,).

    Returns
    -------
    Floats
        Free gas at the surface pressure, m3, shape (n,).

    Raises
    ------
    RangeError
        For a negative rate or a surface pressure that is not above 0.

    Notes
    -----
    Source: Boyle's law; the volume of a breath does not change with depth, common practice.

    Examples
    --------
    >>> from parbuckle.dive.loading import AIR
    >>> there = np.array([506625.0])
    >>> (breathed(Leg(there, there.copy(), np.array([60.0]), AIR), 0.040 / 60.0, 101325.0) * 1000).round(1)
    array([200.])
    """
    held = piece.mean / positive("surface pressure", surface, "Pa")
    return np.asarray(not_negative("breathing rate", rate, "m3/s") * piece.time * held)


def needed(pieces: Iterable[tuple[Leg, FloatsLike]], surface: FloatsLike, gas: Gas | None = None) -> Floats:
    """Give the gas that one diver breathes on a dive, or the part of it that comes from one gas.

    Parameters
    ----------
    pieces : iterable of (Leg, FloatsLike)
        Legs, each with its rate, m3/s.
    surface : FloatsLike
        Air pressure at the surface, Pa.
    gas : Gas, optional
        Only the legs on this gas, such as that of a stage cylinder.

    Returns
    -------
    Floats
        Free gas at the surface pressure, m3, shape (n,) or (1,).

    Raises
    ------
    RangeError
        As for ``breathed``.

    Examples
    --------
    >>> from parbuckle.dive.loading import AIR
    >>> there = np.array([202650.0])
    >>> piece = Leg(there, there.copy(), np.array([60.0]), AIR)
    >>> (needed([(piece, 0.020 / 60.0), (piece, 0.040 / 60.0)], 101325.0) * 1000).round(1)
    array([120.])
    """
    total: Floats = np.zeros(1)
    for piece, rate in pieces:
        if gas is None or piece.gas.text == gas.text:
            total = total + breathed(piece, rate, surface)
    return total


def shared_way_up(up: Iterable[Leg], rate: FloatsLike, surface: FloatsLike, sort_out: float, people: int = 2) -> Floats:
    """Give the gas for people in trouble who come up on one set: time to sort it out at depth, then the way up.

    V = m q (t_0 p_1 / p_s + sum of t p / p_s over the way up).

    Parameters
    ----------
    up : iterable of Leg
        The way up from the worst moment, with the stop.
    rate : FloatsLike
        Rate of one person, m3/s of free gas at the surface, one number or shape (n,).
    surface : FloatsLike
        Air pressure at the surface, Pa, one number or shape (n,).
    sort_out : float
        Time before they leave, s.
    people : int
        How many breathe from the set.

    Returns
    -------
    Floats
        Free gas at the surface pressure, m3, shape (n,).

    Raises
    ------
    RangeError
        As for ``breathed``, or without a leg.

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> from parbuckle.dive.profile import Water, travel
    >>> from parbuckle.dive.loading import AIR
    >>> sea = Water(np.array([101325.0]), np.array([1025.0]))
    >>> (shared_way_up([travel(sea, 24.0, 0.0, 0.15, AIR)], 0.060 / 60.0, 101325.0, 60.0) * 1000).round()
    array([1107.])
    """
    legs = tuple(up)
    if not legs:
        raise RangeError("a way up without a leg: give at least one from the worst moment to the surface")
    first = legs[0]
    lasting = np.full(first.start.shape, float(not_negative("time to sort it out", sort_out, "s")))
    waiting = Leg(first.start.copy(), first.start.copy(), lasting, first.gas)
    return people * needed([(piece, rate) for piece in (waiting, *legs)], surface)


def law_reserve(pressure: FloatsLike, surface: FloatsLike) -> Floats:
    """Give the reserve that a published regulation asks for.

    V = min(62.5 l/min x 10 min x p / p_s, 2800 l).

    Parameters
    ----------
    pressure : FloatsLike
        Absolute pressure at the greatest depth, Pa, one number or shape (n,).
    surface : FloatsLike
        Air pressure at the surface, Pa, one number or shape (n,).

    Returns
    -------
    Floats
        Free gas, m3.

    Raises
    ------
    RangeError
        For a negative pressure, or a surface pressure that is not above 0.

    Notes
    -----
    Source: Norway, regulation on performance of work, sections 26-33 (data file); the cap is part of the rule.

    Examples
    --------
    >>> round(float(law_reserve(303975.0, 101325.0)) * 1000, 1)
    1875.0
    """
    rule = _file()["law_reserve"]
    bars = not_negative("pressure", pressure, "Pa") / positive("surface pressure", surface, "Pa")
    asked = rule["rate"] * _LITRES_A_MINUTE * rule["minutes"] * _MINUTE * bars
    return np.asarray(np.minimum(asked, rule["most_l"] * _LITRE))


@cache
def _file() -> dict[str, Any]:
    return tomllib.loads((files("parbuckle.data") / "breathing.toml").read_text(encoding="utf-8"))
