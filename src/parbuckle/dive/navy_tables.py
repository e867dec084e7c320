"""The published no-stop table beside the model: limits, repetitive groups, residual times, looked up, not computed.

Depth is in feet of sea water in the table; pressures become feet at the door of this file. The table is for air. At
altitude the depth is first made an equivalent one (Cross): gauge pressure over surface pressure stays.
"""

from __future__ import annotations

import math
import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from parbuckle.physics.constants import ATMOSPHERE
from parbuckle.physics.ranges import not_negative, positive
from parbuckle.quantity.errors import RangeError

FSW = 3064.337
"""One foot of sea water, Pa: 64 lbf/ft2 (U.S. Navy Diving Manual, table 2-10)."""

_MINUTE = 60.0
_FOOT = 0.3048
_ROUNDING = 1e-6


def sea_level_depth(pressure: float, surface: float) -> float:
    """Give the depth in the table's feet that a pressure stands for, at any altitude.

    d = (p - p_s) / fsw x (p0 / p_s), p0 = 101325 Pa; at a surface pressure above p0 nothing is taken off.

    Parameters
    ----------
    pressure : float
        Absolute pressure at depth, Pa.
    surface : float
        Air pressure at the surface, Pa.

    Returns
    -------
    float
        Feet of sea water.

    Raises
    ------
    RangeError
        For a surface pressure that is not above 0, or a pressure below it.

    Notes
    -----
    Source: U.S. Navy Diving Manual, chapter 9, Cross correction; below 300 ft the manual itself leaves it out.

    Examples
    --------
    >>> round(sea_level_depth(84300.0 + 60 * FSW, 84300.0), 1)
    72.1
    """
    air = float(positive("surface pressure", surface, "Pa"))
    over = float(not_negative("pressure of the water", pressure - air, "Pa"))
    return over / FSW * max(1.0, ATMOSPHERE / air)


def table_depth(depth: float) -> int:
    """Round a depth up to one that the table has.

    Parameters
    ----------
    depth : float
        Feet of sea water.

    Returns
    -------
    int
        Feet of sea water.

    Raises
    ------
    RangeError
        Below 0 or beyond 190 fsw.

    Notes
    -----
    Source: U.S. Navy Diving Manual, chapter 9: next depth of the table.

    Examples
    --------
    >>> table_depth(152.0)
    160
    """
    return _rung(depth, list(_rows("no_stop")))


def no_stop_limit(depth: float, group: str = "") -> float:
    """Give the longest bottom time without a stop.

    Limit of the next depth of the table, less the residual nitrogen time where a group is given.

    Parameters
    ----------
    depth : float
        Feet of sea water.
    group : str
        Repetitive group at the start of the dive; empty for none.

    Returns
    -------
    float
        Time from leaving the surface to leaving the bottom, s; infinite where the table has no limit, 0 where the
        residual time is longer.

    Raises
    ------
    RangeError
        Beyond 190 fsw; with a group beyond 130 fsw; for a group that is none.

    Notes
    -----
    Source: U.S. Navy Diving Manual, Revision 7, tables 9-7 and 9-8. With a group a dive shallower than 40 fsw counts as
    one to 40 fsw, which is the shorter.

    Examples
    --------
    >>> no_stop_limit(60.0) / 60.0, no_stop_limit(60.0, "C") / 60.0
    (63.0, 44.0)
    """
    if not group:
        limit = _rows("no_stop")[table_depth(depth)][0]
        return limit * _MINUTE if limit else math.inf
    there = _rung(depth, list(_rows("residual")))
    return max(0.0, _rows("no_stop")[there][0] * _MINUTE - residual_time(there, group))


def residual_time(depth: float, group: str) -> float:
    """Give the time that counts as spent already at the next depth of the table.

    Parameters
    ----------
    depth : float
        Feet of sea water.
    group : str
        Repetitive group at the start of the dive.

    Returns
    -------
    float
        s.

    Raises
    ------
    RangeError
        Beyond 130 fsw, or for a group that is none.

    Notes
    -----
    Source: U.S. Navy Diving Manual, Revision 7, table 9-8.

    Examples
    --------
    >>> residual_time(60.0, "C") / 60.0
    19.0
    """
    return _rows("residual")[_rung(depth, list(_rows("residual")))][_index(group)] * _MINUTE


def group_after(depth: float, time: float, before: str = "") -> str:
    """Give the repetitive group after a dive without stops.

    Parameters
    ----------
    depth : float
        Feet of sea water.
    time : float
        From leaving the surface to leaving the bottom, s.
    before : str
        Group at the start; its residual time is added.

    Returns
    -------
    str
        Letter; the last one of the row where the table prints that no higher one comes.

    Raises
    ------
    RangeError
        If the time is over the no-stop limit, or as for ``no_stop_limit``.

    Notes
    -----
    Source: U.S. Navy Diving Manual, Revision 7, table 9-7: next longer time.

    Examples
    --------
    >>> group_after(60.0, 30 * 60.0), group_after(60.0, 30 * 60.0, "C")
    ('F', 'I')
    """
    there = _rung(depth, list(_rows("residual"))) if before else table_depth(depth)
    counted = float(not_negative("time", time, "s")) + (residual_time(there, before) if before else 0.0)
    limit, *entries = _rows("no_stop")[there]
    letters = _letters()
    if limit and counted > limit * _MINUTE + _ROUNDING:
        raise RangeError(
            f"given {counted / _MINUTE:g} min at {there} fsw, allowed {limit} min without a stop (Revision 7)"
        )
    fits = (i for i, entry in enumerate(entries) if counted <= entry * _MINUTE + _ROUNDING)
    return str(letters[next(fits, len(entries))])


def group_rested(group: str, interval: float) -> str:
    """Give the repetitive group after a surface interval.

    Parameters
    ----------
    group : str
        Group on surfacing.
    interval : float
        s.

    Returns
    -------
    str
        Letter; empty when nothing counts any more.

    Raises
    ------
    RangeError
        For an interval below 10 min, which counts as part of one dive, or a group that is none.

    Notes
    -----
    Source: U.S. Navy Diving Manual, Revision 7, table 9-8; entries other than those of group Z are differences of that
    row with 1 min added, so up to 2 min late (see the data file).

    Examples
    --------
    >>> group_rested("Z", 3 * 3600.0), group_rested("C", 5 * 3600.0)
    ('M', '')
    """
    table, minutes = _file()["interval"], interval / _MINUTE
    if not minutes >= table["first"]:
        raise RangeError(
            f"given {minutes:g} min, allowed {table['first']} min and more: a shorter interval counts as one dive"
        )
    until, letters, at = table["z_until"], _letters(), _index(group)
    start = until[letters[at + 1]] if at + 1 < len(letters) else 0
    extra = table["derived_extra"] if start else 0
    edges = {letter: until[letter] - start + extra for letter in letters[at::-1]}
    if group in table["clean_after"]:
        edges["A"] = table["clean_after"][group]
    return next((letter for letter, edge in edges.items() if minutes <= edge), "")


def least_interval() -> float:
    """Give the shortest time at the surface between two dives; with less they count as one.

    Returns
    -------
    float
        s.

    Examples
    --------
    >>> least_interval() / 60.0
    10.0
    """
    return float(_file()["interval"]["first"]) * _MINUTE


def group_on_arrival(altitude: float) -> str:
    """Give the repetitive group of somebody who has just come up from sea level.

    Parameters
    ----------
    altitude : float
        Height above the sea, m.

    Returns
    -------
    str
        Letter; empty at sea level.

    Raises
    ------
    RangeError
        Above 10,000 ft.

    Notes
    -----
    Source: U.S. Navy Diving Manual, Revision 7, table 9-5; Revision 4 had other groups at 2000 and from 7000 ft on.

    Examples
    --------
    >>> group_on_arrival(1500.0)
    'D'
    """
    table = _file()["arrival"]
    if altitude <= 0.0:
        return ""
    return str(table["group"][table["feet"].index(_rung(altitude / _FOOT, table["feet"], "ft of altitude"))])


def edition() -> str:
    """Give the source of the table, for whoever shows its numbers.

    Returns
    -------
    str
        Manual, revision and tables.

    Examples
    --------
    >>> "Revision 7" in edition()
    True
    """
    return str(_file()["source"]["text"])


def _rung(value: float, ladder: list[int], unit: str = "fsw") -> int:
    """Round up to the ladder."""
    asked = float(not_negative("depth", value, unit))
    found = next((step for step in ladder if asked <= step + _ROUNDING), None)
    if found is None:
        raise RangeError(f"given {asked:.0f} {unit}, allowed up to {ladder[-1]} {unit} in this table (Revision 7)")
    return int(found)


def _index(group: str) -> int:
    letters = _letters()
    if group not in letters:
        raise RangeError(f"given group {group!r}, allowed {', '.join(letters)}")
    return letters.index(group)


def _letters() -> list[str]:
    return list(_file()["groups"]["letters"])


@cache
def _rows(name: str) -> dict[int, list[int]]:
    return {int(row[0]): row[1:] for row in _file()[name]["rows"]}


@cache
def _file() -> dict[str, Any]:
    return tomllib.loads((files("parbuckle.data") / "navy_rev7.toml").read_text(encoding="utf-8"))
