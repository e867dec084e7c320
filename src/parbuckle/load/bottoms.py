"""What it lies on: the kinds of bottom and what each may hold."""

from __future__ import annotations

import re
from dataclasses import dataclass

from parbuckle.load.tables import Row, find, plain, read_table
from parbuckle.quantity.errors import RangeError


@dataclass(frozen=True, slots=True)
class Bottom:
    """One kind of bottom.

    Parameters
    ----------
    name : str
        Name in the table.
    kind : str
        ``rock``, ``gravel``, ``sand``, ``silt``, ``clay``, ``mud`` or ``unknown``.
    cohesive : bool
        True where mud may cling to the load and suction may hold it.
    method : str
        ``none``, ``share`` (rule of thumb) or ``muga`` (first minutes in soft mud).
    high : float
        Largest share of the weight in water that it may hold; for ``muga`` the law gives it.
    source : str
        Where this comes from.
    mark : str
        How sure that is.
    """

    name: str
    kind: str
    cohesive: bool
    method: str
    high: float
    source: str
    mark: str


def bottom(words: str) -> Bottom:
    """Find the kind of bottom from what somebody wrote; of two kinds named, the one that holds more counts.

    Parameters
    ----------
    words : str
        Such as ``soft mud``, ``gravel`` or ``sand over clay``.

    Returns
    -------
    Bottom
        The entry of the table.

    Raises
    ------
    RangeError
        If no kind of bottom can be made out; the text gives the nearest ones.

    Examples
    --------
    >>> bottom("soft mud").method, bottom("gravel with some sand").name
    ('muga', 'sand')
    """
    rows: list[Row] = read_table("bottoms")["bottom"]
    try:
        return _entry(find("bottom", words, rows))
    except RangeError:
        held = _named(plain(words), rows)
        if not held:
            raise
        return max((_entry(row) for row in held), key=lambda entry: entry.high)


def unknown_bottom() -> Bottom:
    """Give the entry for a bottom that nobody knows.

    Returns
    -------
    Bottom
        The soft-mud figure stands in.
    """
    return bottom("unknown")


def _named(words: str, rows: list[Row]) -> list[Row]:
    """Rows named inside the words; a name that is part of a longer one found (sand in silty sand) does not count."""
    pairs = [(name, row) for row in rows for name in (row["name"], *row.get("also", ()))]
    found: list[Row] = []
    for name, row in sorted(pairs, key=lambda pair: -len(pair[0])):
        words, hits = re.subn(rf"\b{re.escape(name)}\b", " ", words)
        if hits:
            found.append(row)
    return found


def _entry(row: Row) -> Bottom:
    return Bottom(
        row["name"], row["kind"], bool(row["cohesive"]), row["method"], float(row["high"]), row["source"], row["mark"]
    )
