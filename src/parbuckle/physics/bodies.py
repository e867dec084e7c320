"""Drag coefficients of bluff bodies from a table of published values."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np
from numpy.typing import NDArray

from parbuckle.physics.ranges import FloatsLike, Range, positive
from parbuckle.quantity.errors import RangeError

PLATE_RANGE = Range("long over short side of a plate", 1.0, 20.0, "", "DNV-RP-N103, as quoted")


@cache
def _bodies() -> dict[str, dict[str, Any]]:
    return tomllib.loads(files("parbuckle.data").joinpath("drag_bodies.toml").read_text(encoding="utf-8"))


def body_names() -> list[str]:
    """Name the bodies in the table.

    Returns
    -------
    list[str]
        Names that ``drag_coefficient`` takes.

    Examples
    --------
    >>> "cube" in body_names()
    True
    """
    return list(_bodies())


def drag_coefficient(body: str, slenderness: FloatsLike | None = None) -> NDArray[np.float64]:
    """Look up the drag coefficient of a bluff body, between rows in the logarithm of its slenderness.

    Parameters
    ----------
    body : str
        Name, see ``body_names``.
    slenderness : FloatsLike, optional
        Ratio of sides that the body's row names; left out for bodies that have none.

    Returns
    -------
    NDArray[np.float64]
        Coefficient on the area that the table names.

    Raises
    ------
    RangeError
        For an unknown body, a slenderness outside its rows, or one too many or too few.

    Notes
    -----
    Source: named in the table for each body; Reynolds number above 10^4.

    Examples
    --------
    >>> float(drag_coefficient("cylinder, broadside", 2.0))
    0.68
    """
    entry = _entry(body)
    if ("rows" in entry) != (slenderness is not None):
        raise RangeError(f"drag of a {body}: a slenderness is {'needed' if 'rows' in entry else 'not taken'}")
    if slenderness is None:
        return np.asarray(entry["value"], dtype=np.float64)
    rows = np.array(entry["rows"], dtype=np.float64)
    x = Range(f"slenderness of a {body}", rows[0, 0], rows[-1, 0], "", entry["source"]).check(slenderness)
    return np.asarray(np.interp(np.log(x), np.log(rows[:, 0]), rows[:, 1]), dtype=np.float64)


def drag_spread(body: str) -> tuple[float, float]:
    """Give the lowest and highest published drag coefficient of a body that has one value.

    Parameters
    ----------
    body : str
        Name, see ``body_names``.

    Returns
    -------
    tuple[float, float]
        Lowest and highest coefficient.

    Raises
    ------
    RangeError
        For an unknown body or one that is given by rows.

    Notes
    -----
    Source: named in the table for each body.

    Examples
    --------
    >>> drag_spread("rising open bag")
    (0.4, 0.8)
    """
    entry = _entry(body)
    if "rows" in entry:
        raise RangeError(f"drag of a {body} is given by its slenderness; ask drag_coefficient")
    return entry["low"], entry["high"]


def plate_drag(long: FloatsLike, short: FloatsLike) -> NDArray[np.float64]:
    """Give the drag coefficient of a flat rectangular plate, broadside on.

    Cd = 1.10 + 0.02 (L / W + W / L).

    Parameters
    ----------
    long : FloatsLike
        Long side L, m, any shape.
    short : FloatsLike
        Short side W, m, any shape that fits.

    Returns
    -------
    NDArray[np.float64]
        Coefficient on the area of the plate.

    Raises
    ------
    RangeError
        For L / W outside 1 to 20.

    Notes
    -----
    Source: DNV-RP-N103, as quoted on an engineering page.

    Examples
    --------
    >>> round(float(plate_drag(1.0, 1.0)), 2)
    1.14
    """
    ratio = PLATE_RANGE.check(positive("long side", long, "m") / positive("short side", short, "m"))
    return np.asarray(1.10 + 0.02 * (ratio + 1.0 / ratio))


def _entry(body: str) -> dict[str, Any]:
    table = _bodies()
    if body not in table:
        raise RangeError(f"drag of a body: given {body!r}, allowed {', '.join(table)}")
    return table[body]
