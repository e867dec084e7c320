"""What each pattern costs and how far it errs, from ``data/search_patterns.toml``."""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Any

from parbuckle.quantity.frozen import Frozen


@dataclass(frozen=True)
class TrackError(Frozen):
    """How far a track lies off, standard deviations.

    Parameters
    ----------
    across, along : float
        Across each leg and at its ends, m.
    share : float
        More across, as a share of the length of the line.
    heading : float
        Heading of each leg, rad; adds up from leg to leg.
    distance : float
        One share of all lengths, the same for the whole pattern.
    placement : float
        Where the whole pattern lies, east and north, m.
    marked : bool
        True when the datum mark is found again whenever the pattern comes back to it.
    """

    across: float = 0.0
    along: float = 0.0
    share: float = 0.0
    heading: float = 0.0
    distance: float = 0.0
    placement: float = 0.0
    marked: bool = False


@dataclass(frozen=True)
class Practice(Frozen):
    """How one pattern is swum.

    Parameters
    ----------
    name : str
        Name of the pattern.
    simple : int
        Order of simplicity, 1 the simplest.
    because : str
        Why it stands there.
    turn, shift : float
        Time of one turn and of one shift, s.
    limit : float
        Longest line or lane, m.
    least_visibility : float
        Visibility that it needs, m.
    speed : float
        Speed over the search speed.
    pass_width : float
        Sweep width of one pass over the pair's.
    error : TrackError
        How far it errs.
    ways : float
        Speed on the ways between lanes over the search speed.
    needs : str
        ``nothing``, ``wall``, ``shore`` or ``boat``.
    swimmers : int
        Fewest who search side by side.
    positions, snags : str
        Where the divers are, and what to do at a snag.
    """

    name: str
    simple: int
    because: str
    turn: float
    shift: float
    limit: float
    least_visibility: float
    speed: float
    pass_width: float
    error: TrackError
    ways: float = 1.0
    needs: str = "nothing"
    swimmers: int = 1
    positions: str = ""
    snags: str = ""


@lru_cache(maxsize=1)
def practices() -> tuple[Practice, ...]:
    """Give all patterns, the simplest first.

    Returns
    -------
    tuple of Practice
        Read once.

    Examples
    --------
    >>> practices()[0].name
    'circles'
    """
    table = _table()
    common = table["common"]
    rows = [_practice(row, table["error"][row["method"]], common, row["method"]) for row in table["pattern"]]
    return tuple(sorted(rows, key=lambda p: p.simple))


def common(key: str) -> float:
    """Give one number that all patterns share.

    Parameters
    ----------
    key : str
        ``placement``, ``kick``, ``near``, ``good``, ``poor`` or ``move``.

    Returns
    -------
    float
        m, m, shares, s.

    Examples
    --------
    >>> common("kick")
    1.5
    """
    return float(_table()["common"][key])


def splits() -> tuple[float, ...]:
    """Give the shares of the time that are tried for the first of two patterns.

    Returns
    -------
    tuple of float
        Between 0 and 1.

    Examples
    --------
    >>> splits()
    (0.25, 0.4, 0.55, 0.7)
    """
    return tuple(_table()["common"]["halves"])


@lru_cache(maxsize=1)
def _table() -> dict[str, Any]:
    return tomllib.loads((files("parbuckle.data") / "search_patterns.toml").read_text(encoding="utf-8"))


def _practice(row: dict[str, Any], error: dict[str, Any], shared: dict[str, Any], method: str) -> Practice:
    off = TrackError(
        error["across"],
        error["along"],
        error["share"],
        math.radians(error["heading"]),
        error["distance"],
        0.0 if method == "wall" else shared["placement"],
        method.startswith("marked"),
    )
    keys = (
        "name",
        "simple",
        "because",
        "turn",
        "shift",
        "limit",
        "least_visibility",
        "speed",
        "pass_width",
        "needs",
        "swimmers",
    )
    return Practice(**{key: row[key] for key in keys}, error=off, positions=row["positions"], snags=row["snags"])
