"""What holds on the bottom: the friction of a sinker, and how far a stream lays a buoyed line over."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.ranges import FloatsLike, Range, not_negative, positive
from parbuckle.quantity.errors import RangeError

FRICTION_RANGE = Range("tan delta of a sinker", 0.0, 1.0, "", "NAVFAC DM-7.02, table 1, runs from 0.30 to 0.70")


@cache
def _friction() -> dict[str, tuple[float, float]]:
    table = tomllib.loads(files("parbuckle.data").joinpath("friction.toml").read_text(encoding="utf-8"))
    return {name: (low, high) for name, (low, high) in table["bottom"].items()}


def sinker_friction(bottom: str) -> tuple[float, float]:
    """Look up the friction of a concrete sinker on a bottom.

    Parameters
    ----------
    bottom : str
        "sound rock", "gravel", "sand", "fine sand" or "silt".

    Returns
    -------
    tuple[float, float]
        Lowest and highest tan delta.

    Raises
    ------
    RangeError
        For a bottom that is not in the table; mud and clay are not.

    Notes
    -----
    Source: NAVFAC DM-7.02 (1986), table 1, mass concrete on soil.

    Examples
    --------
    >>> sinker_friction("sand")
    (0.45, 0.55)
    """
    table = _friction()
    if bottom not in table:
        raise RangeError(f"bottom for a sinker: given {bottom!r}, allowed {', '.join(table)}")
    return table[bottom]


def sinker_hold(weight: FloatsLike, pull_up: FloatsLike, tan_delta: FloatsLike) -> NDArray[np.float64]:
    """Give the sideways force that a sinker holds by friction.

    H = tan(delta) max(0, W - U).

    Parameters
    ----------
    weight : FloatsLike
        Weight of the sinker in water, N, any shape.
    pull_up : FloatsLike
        Upward part of the pull on it, N, any shape that fits.
    tan_delta : FloatsLike
        Friction, see ``sinker_friction``.

    Returns
    -------
    NDArray[np.float64]
        Force, N; 0 where the pull lifts the sinker.

    Raises
    ------
    RangeError
        For a negative weight or pull, or a friction outside 0 to 1.

    Notes
    -----
    Source: Coulomb friction, common practice.

    Examples
    --------
    >>> float(sinker_hold(1000.0, 200.0, 0.5))
    400.0
    """
    rest = np.maximum(not_negative("weight in water", weight, "N") - not_negative("pull up", pull_up, "N"), 0.0)
    return FRICTION_RANGE.check(tan_delta) * rest


def lean_angle(drag: FloatsLike, net_lift: FloatsLike) -> NDArray[np.float64]:
    """Give the angle from the vertical to which a stream lays a buoyed line over.

    tan(theta) = drag / net lift.

    Parameters
    ----------
    drag : FloatsLike
        Drag of the bag or float, N, any shape.
    net_lift : FloatsLike
        Net lift on the line, N, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Angle, rad.

    Raises
    ------
    RangeError
        For a negative drag or a lift that is not above zero.

    Notes
    -----
    Source: balance of forces at the bag; drag of the line left out.

    Examples
    --------
    >>> round(float(np.degrees(lean_angle(100.0, 100.0))), 6)
    45.0
    """
    return np.asarray(np.arctan(not_negative("drag", drag, "N") / positive("net lift", net_lift, "N")))
