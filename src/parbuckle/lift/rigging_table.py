"""The factors of rigging as data with their sources: hitches, choke angles, design factors, ends of lines."""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Any

from parbuckle.quantity.errors import RangeError

KILO = 1000.0
"""Newtons in a kilonewton, as connectors are marked."""


@dataclass(frozen=True, slots=True)
class Factor:
    """One factor with where it came from.

    Parameters
    ----------
    value : float
        The factor, a share or a ratio without unit; N where its name says so.
    source : str
        Standard, text or practice.
    mark : str
        ``read``, ``read second-hand``, ``computed``, ``recalled``, ``common practice`` or ``judgement``.
    """

    value: float
    source: str
    mark: str


@lru_cache(maxsize=1)
def rigging_table() -> dict[str, Any]:
    """Read the table of factors that is shipped with the program.

    Returns
    -------
    dict
        The parsed data file ``data/rigging.toml``.
    """
    return tomllib.loads(files("parbuckle.data").joinpath("rigging.toml").read_text(encoding="utf-8"))


def design_factor(make: str, kind: str) -> Factor:
    """Give breaking strength over working limit for an item that is marked with its breaking strength.

    Parameters
    ----------
    make : str
        What it is made as, such as ``carabiner``, ``bow shackle`` or ``webbing``; may be empty.
    kind : str
        ``connector``, ``sling``, ``line``, ``bag`` or ``lift point``: used where the make is not in the table.

    Returns
    -------
    Factor
        At least 4.

    Examples
    --------
    >>> design_factor("carabiner", "connector").value
    5.0
    >>> design_factor("bow shackle", "connector").source
    'RR-C-271D: working load limit from a factor of five'
    """
    rows = {row["make"]: row for row in rigging_table()["design"]}
    words = (make, make.rsplit(" ", 1)[-1], kind, "attachment")
    row = next(rows[word] for word in words if word in rows)
    return Factor(row["factor"], row["source"], row["mark"])


def hitch_factor(hitch: str, choke_angle: float | None = None) -> Factor:
    """Give the share of its marked limit that one leg of a sling may carry in this hitch.

    leg = mode factor, times the step for the choke angle where the sling is choked.

    Parameters
    ----------
    hitch : str
        ``straight``, ``choke`` or ``basket``.
    choke_angle : float, optional
        Angle of the choke, rad, over 0 to pi; left out, one step below a natural choke is taken.

    Returns
    -------
    Factor
        Share of the marked limit, 0 to 1.

    Raises
    ------
    RangeError
        For another word, or an angle outside the range.

    Notes
    -----
    Source: EN 1492 mode factors; ASME B30.9 choke steps as printed in two sling manuals.

    Examples
    --------
    >>> round(hitch_factor("choke", math.radians(130)).value, 3)
    0.8
    >>> round(hitch_factor("choke", math.radians(100)).value, 3)
    0.696
    """
    rows = {row["name"]: row for row in rigging_table()["hitch"]}
    if hitch not in rows:
        raise RangeError(f"hitch {hitch!r} is not known; allowed: {', '.join(rows)}")
    row = rows[hitch]
    share = choke_share(choke_angle) if hitch == "choke" else 1.0
    return Factor(row["leg"] * share, row["source"], row["mark"])


def choke_share(choke_angle: float | None) -> float:
    """Give the share of the choke rating that is left at this choke angle (steps, not a curve).

    Parameters
    ----------
    choke_angle : float or None
        Angle of the choke, rad, over 0 to pi; None is taken as one step below a natural choke.

    Returns
    -------
    float
        0.49 to 1.

    Raises
    ------
    RangeError
        Outside 0 to 180 degrees.

    Notes
    -----
    Source: ASME B30.9 steps, as printed in two sling manuals.

    Examples
    --------
    >>> choke_share(math.radians(121)), choke_share(math.radians(120))
    (1.0, 0.87)
    """
    table = rigging_table()
    given = table["angle"]["choke_unknown"] if choke_angle is None else math.degrees(choke_angle)
    if not 0.0 <= math.radians(given) <= math.pi:
        raise RangeError(f"choke angle {given:.0f} deg was given; allowed: 0 to 180 deg")
    degrees = round(given, 6)
    for row in table["choke"]:
        if degrees > row["above"] or (degrees == row["above"] and not row.get("strict", False)):
            return float(row["share"])
    return float(table["choke"][-1]["share"])


def end_share(kept: float | None = None) -> Factor:
    """Give the share of a line's strength that its knots or ends keep.

    Parameters
    ----------
    kept : float, optional
        Share that is known for this line and knot, over 0 to 1; left out, a knot of unknown kind is taken.

    Returns
    -------
    Factor
        Share of the strength, 0 to 1.

    Raises
    ------
    RangeError
        For a share outside over 0 to 1.

    Notes
    -----
    Source: knots reduce strength by about half: general rule of the printed tables.

    Examples
    --------
    >>> end_share().value, end_share(0.9).value
    (0.5, 0.9)
    """
    if kept is None:
        row = rigging_table()["knot"]
        return Factor(row["share"], row["source"], row["mark"])
    if not 0.0 < kept <= 1.0:
        raise RangeError(f"a line that keeps {kept:g} of its strength was given; allowed: over 0 and up to 1")
    return Factor(kept, f"ends of this line keep {kept:.0%} of its strength", "as told")


def dynamic_factor(sea: str) -> Factor:
    """Give what the water adds to a weight that is hauled out at the surface.

    Parameters
    ----------
    sea : str
        ``calm`` or ``waves``.

    Returns
    -------
    Factor
        1.3 or 2.0: engineering judgement, not from a code, because published factors begin at 3 tonnes.

    Raises
    ------
    RangeError
        For another word.

    Examples
    --------
    >>> dynamic_factor("calm").value, dynamic_factor("waves").value
    (1.3, 2.0)
    """
    row = rigging_table()["dynamic"]
    if sea not in ("calm", "waves"):
        raise RangeError(f"sea {sea!r} is not known; allowed: calm, waves")
    return Factor(row[sea], row["source"], row["mark"])


def class_limits(letter: str) -> dict[str, float]:
    """Give the working limits of a mountaineering connector that just reaches its class.

    limit = class minimum / design factor, for the closed gate, the open gate and the cross load.

    Parameters
    ----------
    letter : str
        Class letter of the standard: B, H, K, Q or X.

    Returns
    -------
    dict of str to float
        ``major``, ``open`` and ``minor`` where the standard has one, N.

    Raises
    ------
    RangeError
        For a letter that the table does not hold.

    Notes
    -----
    Source: EN 12275:2013 minima as summed up by a test house; 5:1 is common practice.

    Examples
    --------
    >>> class_limits("B")
    {'major': 4000.0, 'open': 1400.0, 'minor': 1400.0}
    """
    rows = {row["name"]: row for row in rigging_table()["class"]}
    if letter not in rows:
        raise RangeError(f"connector class {letter!r} is not known; allowed: {', '.join(rows)}")
    row = rows[letter]
    factor = design_factor(row["make"], "connector").value
    return {name: row[name] * KILO / factor for name in ("major", "open", "minor") if name in row}
