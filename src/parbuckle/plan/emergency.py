"""The emergency block: the position in the form that the listener wants, and what the team has not said yet."""

from __future__ import annotations

import math
import re
from typing import Any

from parbuckle.case.written import answered
from parbuckle.plan.stages import Stages
from parbuckle.quantity.errors import CaseError, RangeError
from parbuckle.search.grid_reference import mgrs_of
from parbuckle.search.positions import read_position, written

GRID = "grid reference"
"""The military grid, beside the styles of ``written``."""

_MINUTE = 1852.0  # m: the nautical mile, about one minute of latitude. Source: its definition of 1929
_CUT = re.compile(r"[,;(]")


def emergency_section(stages: Stages) -> dict[str, Any]:
    """Give the section ``emergency`` of the document.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    dict
        What was told, and ``position_written``: the position in the style that is wanted, with the words behind it;
        None where it was told in words only.

    Raises
    ------
    CaseError
        If the position cannot be written in that style.
    """
    told = stages.case.emergency
    return {**{name: getattr(told, name) for name in type(told).model_fields}, "position_written": _written(stages)}


def position_apart(stages: Stages) -> float | None:
    """Give how far the position to tell is from the origin of the map.

    d = 1852 m times the root of (60 dlat)^2 + (60 dlon cos lat)^2.

    Parameters
    ----------
    stages : Stages
        Case and results.

    Returns
    -------
    float or None
        m; None where one of both is not known.

    Notes
    -----
    Valid range: short ways; far off it only has to be large. Source: nautical mile.
    """
    place, _ = place_in(stages.case.emergency.position)
    datum = stages.case.site.datum
    if place is None or datum is None:
        return None
    east = (place[1] - datum.lon + 180.0) % 360.0 - 180.0
    return 60.0 * _MINUTE * math.hypot(place[0] - datum.lat, east * math.cos(math.radians(datum.lat)))


def place_in(text: str | None) -> tuple[tuple[float, float] | None, str]:
    """Find the place at the front of a position in words.

    Parameters
    ----------
    text : str or None
        Such as ``52 28.926 N 003 42.924 W, quarry gate B``.

    Returns
    -------
    tuple
        Latitude and longitude, degrees, or None; and the words behind it.

    Examples
    --------
    >>> place_in("52 28.926 N 003 42.924 W, quarry gate B")[1]
    'quarry gate B'
    >>> place_in("quarry gate B")
    (None, 'quarry gate B')
    """
    if not answered(text):
        return None, ""
    whole = str(text).strip()
    ends = [len(whole), *(match.start() for match in reversed(list(_CUT.finditer(whole))))]
    for end in ends:  # the longest front that reads
        try:
            return read_position(whole[:end].strip()), whole[end:].lstrip(",; ").strip()
        except RangeError:
            continue
    return None, whole


def position_as(lat: float, lon: float, style: str) -> str:
    """Write a position so that it can be read out.

    Parameters
    ----------
    lat, lon : float
        Degrees.
    style : str
        ``degrees``, ``degrees-minutes``, ``degrees-minutes-seconds``, ``utm`` or ``grid reference``.

    Returns
    -------
    str
        Degrees with five decimals (1.1 m), minutes with three, seconds with two; the grids in whole metres. The sides
        are letters: a minus sign is lost on the phone.

    Raises
    ------
    RangeError
        For a place outside the grid.

    Examples
    --------
    >>> position_as(52.48210, -3.71540, "degrees")
    '52.48210 N 3.71540 W'
    """
    if style == GRID:
        return mgrs_of(lat, lon)
    if style == "degrees":
        return f"{abs(lat):.5f} {'S' if lat < 0.0 else 'N'} {abs(lon):.5f} {'W' if lon < 0.0 else 'E'}"
    return written(lat, lon, style)


def _written(stages: Stages) -> str | None:
    told = stages.case.emergency
    place, words = place_in(told.position)
    if place is None:
        return None
    try:
        position = position_as(*place, told.position_as)
    except RangeError as error:
        do = "take another style"
        raise CaseError(str(error), key="emergency.position_as", given=told.position_as, do=do) from None
    return ", ".join(part for part in (position, words) if part)
