"""A dive typed in from a slate: pairs of time and depth, one for each corner of the dive."""

from __future__ import annotations

import re

import numpy as np

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.units import to_si, words
from parbuckle.record.file_text import clock, number, told
from parbuckle.record.profile import Profile

_MOST_PAIRS = 500  # more than any slate holds


def slate_profile(text: str, time_unit: str = "min", depth_unit: str = "m") -> Profile:
    """Read pairs of time and depth.

    Parameters
    ----------
    text : str
        Pairs such as ``0 0; 2 18; 25 18; 33:30 0``: one on each line, or parted by semicolons. A time may be written
        with a colon (minutes and seconds). What stands behind ``#`` is a remark.
    time_unit : str
        Unit word of times without a colon.
    depth_unit : str
        Unit word of the depths.

    Returns
    -------
    Profile
        In SI; straight between the pairs.

    Raises
    ------
    CaseError
        If a pair cannot be read, there are fewer than two or more than 500, or the times do not rise.

    Examples
    --------
    >>> slate_profile("0 0; 2 18; 25 18; 33:30 0").time.tolist()
    [0.0, 120.0, 1500.0, 2010.0]
    """
    with told("slate"):
        units = {"time": time_unit, "length": depth_unit}
        for dimension, word in units.items():
            if word not in words(dimension):
                raise RangeError(f"'{word[:20]}' is no unit of {dimension}; take one of: {', '.join(words(dimension))}")
        pairs = [_pair(place, piece, time_unit, depth_unit) for place, piece in enumerate(_pieces(text), start=1)]
        return Profile(np.array([pair[0] for pair in pairs]), np.array([pair[1] for pair in pairs]))


def _pieces(text: str) -> list[str]:
    lines = [line.split("#", 1)[0] for line in text.splitlines()]
    pieces = [piece.strip() for line in lines for piece in line.split(";")]
    kept = [piece for piece in pieces if piece]
    if len(kept) > _MOST_PAIRS:
        raise RangeError(f"{len(kept)} pairs; a slate holds at most {_MOST_PAIRS}")
    return kept


def _pair(place: int, piece: str, time_unit: str, depth_unit: str) -> tuple[float, float]:
    parts = re.split(r"[\s,]+", piece) if "," not in piece else [part.strip() for part in piece.split(",")]
    if len(parts) != 2:
        raise RangeError(f"pair {place} is not a time and a depth: '{piece[:40]}' (a decimal is written with a point)")
    moment = clock(parts[0])
    if moment is None:
        moment = to_si(number(parts[0], f"the time of pair {place}"), words("time")[time_unit])
    return moment, to_si(number(parts[1], f"the depth of pair {place}"), words("length")[depth_unit])
