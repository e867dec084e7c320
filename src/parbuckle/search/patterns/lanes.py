"""Parallel lanes: along a jackstay, by compass, behind a boat, and several swimmers abreast."""

from __future__ import annotations

import itertools
import math

from parbuckle.quantity.errors import RangeError
from parbuckle.search.legs import FULL, Leg, Pattern, Place, around, joined


def lanes(
    centre: Place, heading: float, length: float, spacing: float, count: int, name: str = "jackstay", swimmers: int = 1
) -> Pattern:
    """Make parallel lanes to and fro over a rectangle.

    L = n b + (n - 1) S for n lanes of length b. The first lane lies half a spacing inside the edge.

    Parameters
    ----------
    centre : Place
        Middle of the rectangle.
    heading : float
        True heading of the first lane, rad; the next lies on its right hand.
    length : float
        Length of a lane, m, more than 0.
    spacing : float
        Distance between lanes, m, more than 0.
    count : int
        Number of passes, at least 1.
    name : str
        ``jackstay``, ``compass lanes``, ``towed diver`` or ``line abreast``.
    swimmers : int
        Swimmers side by side, each on a lane of his own.

    Returns
    -------
    Pattern
        For several swimmers, the lanes of the first one carry the time; all of them search.

    Raises
    ------
    RangeError
        If a length or a number lies outside.

    Notes
    -----
    Source: geometry; half a spacing inside the edge as in parallel sweep search notes.

    Examples
    --------
    >>> lanes((0.0, 0.0), 0.0, 50.0, 2.0, 15).search_length
    750.0
    """
    if length <= 0.0 or spacing <= 0.0 or count < 1 or swimmers < 1:
        raise RangeError(f"{count} lanes of {length} m, {spacing} m apart, cannot be swum")
    legs: list[Leg] = []
    rows = count * swimmers
    for k in range(count):
        passing: list[Leg] = []
        for j in range(swimmers):
            across = (k * swimmers + j - 0.5 * (rows - 1)) * spacing
            middle = around(centre, across, heading + math.pi / 2.0)
            course = heading + (math.pi if k % 2 else 0.0)
            start, end = around(middle, -0.5 * length, course), around(middle, 0.5 * length, course)
            passing.append(Leg(start, end, k * swimmers + j + 1, spacing, swimmer=j))
        if legs:
            legs.append(joined(next(leg.end for leg in reversed(legs) if not leg.swimmer), passing[0].start))
        legs += passing
    corners = (legs[0].start, legs[0].end, passing[-1].start, passing[-1].end)
    values = (
        ("heading", heading % FULL),
        ("length", length),
        ("spacing", spacing),
        ("lanes", float(rows)),
        ("swimmers", float(swimmers)),
    )
    shifts = count - 1 if name == "jackstay" else 0
    return Pattern(name, values, tuple(legs), count - 1, shifts, corners)


def lanes_needed(width: float, spacing: float) -> int:
    """Give the number of lanes that cover a width: the width over the spacing, rounded up.

    Parameters
    ----------
    width : float
        Width of the rectangle, m.
    spacing : float
        Distance between lanes, m, more than 0.

    Returns
    -------
    int
        Number of lanes.

    Raises
    ------
    RangeError
        If the spacing is not more than 0.

    Examples
    --------
    >>> lanes_needed(30.0, 2.0)
    15
    """
    if spacing <= 0.0:
        raise RangeError(f"lanes {spacing} m apart were asked for; a spacing is more than 0")
    return math.ceil(width / spacing)


def along_wall(
    wall: tuple[Place, ...], first: float, spacing: float, count: int, side: float = 1.0, name: str = "along a wall"
) -> Pattern:
    """Make lanes that follow a wall or a pier, each a little farther off.

    Parameters
    ----------
    wall : tuple of Place
        Corners of the wall in order, at least two.
    first : float
        Distance of the first lane from the wall, m, more than 0.
    spacing : float
        Distance between lanes, m, more than 0.
    count : int
        Number of lanes, at least 1.
    side : float
        1 when the water lies on the right hand of the wall as it is given, -1 on the left.
    name : str
        Name of the pattern.

    Returns
    -------
    Pattern
        Lanes to and fro; a corner bends every lane.

    Raises
    ------
    RangeError
        If a number lies outside or two corners fall together.

    Examples
    --------
    >>> along_wall(((0.0, 0.0), (0.0, 20.0)), 1.0, 2.0, 2).search_length
    40.0
    """
    if len(wall[1:]) < 1 or first <= 0.0 or spacing <= 0.0 or count < 1:
        raise RangeError("a wall needs two corners, and lanes some distance from it and from each other")
    legs: list[Leg] = []
    for k in range(count):
        line = _beside(wall, side * (first + k * spacing))
        line = line[::-1] if k % 2 else line
        if legs:
            legs.append(joined(legs[-1].end, line[0]))
        legs += [Leg(a, b, k + 1, spacing) for a, b in itertools.pairwise(line)]
    values = (("first", first), ("spacing", spacing), ("lanes", float(count)), ("length", legs[0].length))
    return Pattern(name, values, tuple(legs), count - 1, 0, (wall[0], wall[-1]))


def _beside(wall: tuple[Place, ...], off: float) -> list[Place]:
    """Shift a line sideways; a corner is cut where the two shifted lines meet."""
    ways = [math.atan2(b[0] - a[0], b[1] - a[1]) for a, b in itertools.pairwise(wall)]
    if any(a == b for a, b in itertools.pairwise(wall)):
        raise RangeError("two corners of the wall fall together")
    out = [around(wall[0], off, ways[0] + math.pi / 2.0)]
    for corner, before, after in zip(wall[1:-1], ways[:-1], ways[1:], strict=True):
        half = 0.5 * math.remainder(after - before, FULL)
        out.append(around(corner, off / math.cos(half), before + half + math.pi / 2.0))
    return [*out, around(wall[-1], off, ways[-1] + math.pi / 2.0)]
