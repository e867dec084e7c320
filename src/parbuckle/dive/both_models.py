"""The two answers to "how long without a stop": the tissue model and the published table, side by side, never blended.

Both are an aid to planning. Neither replaces the divers' own computers, tables and training.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from parbuckle.dive.compartments import Compartments
from parbuckle.dive.loading import AIR, load
from parbuckle.dive.navy_tables import (
    group_after,
    group_on_arrival,
    group_rested,
    least_interval,
    no_stop_limit,
    sea_level_depth,
)
from parbuckle.dive.no_stop import no_stop_time
from parbuckle.dive.profile import Leg
from parbuckle.physics.ranges import FloatsLike
from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class Before(Frozen):
    """A dive that somebody made before, as the table sees it.

    Parameters
    ----------
    pressure : float
        Absolute pressure at its deepest, Pa.
    time : float
        From leaving the surface to leaving the bottom, s.
    gas : Gas
        What was breathed.
    interval : float
        Time at the surface after it, s.
    """

    pressure: float
    time: float
    gas: Gas
    interval: float


def model_limit(
    tissues: Floats, down: Leg, surface: FloatsLike, factor: float, model: Compartments | None = None
) -> Floats:
    """Give the no-stop limit by the tissue model.

    Time of the descent and, after it, ``no_stop_time`` at its end.

    Parameters
    ----------
    tissues : Floats
        Partial pressures on leaving the surface, Pa, shape (2, 16, n) or (2, 16, 1): earlier dives and arrival counted.
    down : Leg
        The descent; its end is the depth and its gas is breathed there.
    surface : FloatsLike
        Air pressure, Pa, one number or shape (n,).
    factor : float
        High gradient factor.
    model : Compartments, optional
        Coefficients; left out: set C.

    Returns
    -------
    Floats
        From leaving the surface to leaving the bottom, s, shape (n,); infinite where there is no limit; the time of the
        descent where none is left.

    Raises
    ------
    RangeError
        As for ``no_stop_time``.

    Examples
    --------
    >>> import numpy as np
    >>> from parbuckle.dive.loading import at_rest
    >>> from parbuckle.dive.profile import Water, travel
    >>> sea = Water(np.array([101325.0]), np.array([1025.0]))
    >>> (model_limit(at_rest(101325.0), travel(sea, 0.0, 24.0, 0.3, AIR), 101325.0, 0.8) / 60.0).round(1)
    array([18.4])
    """
    there = load(tissues, [down], model)
    return down.time + no_stop_time(there, down.end, down.gas, surface, factor, model)


def table_depth_of(pressure: float, surface: float, gas: Gas) -> float:
    """Give the depth with which the table is entered: at the sea, on air.

    Nitrox enters with the pressure at which air has the same nitrogen; then ``sea_level_depth``.

    Parameters
    ----------
    pressure : float
        Absolute pressure at depth, Pa.
    surface : float
        Air pressure, Pa.
    gas : Gas
        Air or nitrox.

    Returns
    -------
    float
        Feet of sea water, not rounded to the table; 0 where the gas has less nitrogen than air at the surface.

    Raises
    ------
    RangeError
        For a gas with helium, for which the table holds nothing.

    Notes
    -----
    Source: U.S. Navy Diving Manual, section 10-2 (equivalent air depth) and chapter 9 (Cross correction).

    Examples
    --------
    >>> round(table_depth_of(101325.0 + 30 * 10051.8, 101325.0, Gas("EAN32", 0.32, 0.0)), 1)
    80.0
    """
    if gas.helium > 0.0:
        raise RangeError(f"given {gas.text}, allowed air and nitrox: the no-stop table is for gas without helium")
    as_air = pressure * gas.nitrogen / AIR.nitrogen
    return sea_level_depth(max(as_air, surface), surface)


@dataclass(frozen=True)
class TableStart(Frozen):
    """What the dives before leave to the next one, by the table.

    Parameters
    ----------
    group : str
        Repetitive group at the start; empty for none.
    depth : float
        Deepest of the dives that count as one with the next, fsw; 0 for none.
    time : float
        Their bottom time, s.
    """

    group: str
    depth: float = 0.0
    time: float = 0.0


def table_start(surface: float, before: Sequence[Before] = (), climbed: float = 0.0) -> TableStart:
    """Give what the dives before leave to the next one, by the published table.

    Group of each dive, faded by its interval. With less than 10 min at the surface two dives count as one: the bottom
    times added, at the deeper depth.

    Parameters
    ----------
    surface : float
        Air pressure, Pa.
    before : sequence of Before
        Dives before, in order, at the same surface pressure; an interval that is not known counts as none.
    climbed : float
        Height that somebody has just come up from the sea, m; 0 for somebody who lives there.

    Returns
    -------
    TableStart
        For the next dive.

    Raises
    ------
    RangeError
        Where the table has no group for a dive before: too deep, over its no-stop limit, helium.

    Notes
    -----
    Source: U.S. Navy Diving Manual, Revision 7, tables 9-5, 9-7 and 9-8; recalled for dives less than 10 min apart.

    Examples
    --------
    >>> first = Before(101325.0 + 18 * 10051.8, 20 * 60.0, AIR, 5 * 60.0)
    >>> start = table_start(101325.0, [first])
    >>> start.group, round(start.depth), start.time / 60.0
    ('', 59, 20.0)
    """
    start = TableStart(group_on_arrival(climbed))
    for dive in before:
        try:
            depth = max(table_depth_of(dive.pressure, surface, dive.gas), start.depth)
            time = start.time + dive.time
            group = group_after(depth, time, start.group)
        except RangeError as error:
            raise RangeError(f"a dive before this one has no group in this table: {error}") from None
        if dive.interval < least_interval():
            start = TableStart(start.group, depth, time)
        else:
            start = TableStart(group_rested(group, dive.interval))
    return start


def table_limit(
    pressure: float, surface: float, gas: Gas, before: Sequence[Before] = (), climbed: float = 0.0
) -> tuple[float, str]:
    """Give the no-stop limit by the published table.

    Limit less the residual time of the group, and less the time of dives that count as one with this one.

    Parameters
    ----------
    pressure : float
        Absolute pressure at the depth of the dive, Pa.
    surface : float
        Air pressure, Pa.
    gas : Gas
        Air or nitrox.
    before : sequence of Before
        Dives before, in order, at the same surface pressure.
    climbed : float
        Height that somebody has just come up from the sea, m; 0 for somebody who lives there.

    Returns
    -------
    tuple of (float, str)
        From leaving the surface to leaving the bottom, s, infinite without a limit; group at the start, empty for none.

    Raises
    ------
    RangeError
        Where the table has no answer: too deep, a dive before that needed stops, helium.

    Notes
    -----
    Source: as for ``table_start``.

    Examples
    --------
    >>> table_limit(101325.0 + 24 * 10051.8, 101325.0, AIR)
    (2340.0, '')
    >>> earlier = Before(101325.0 + 18 * 10051.8, 24 * 60.0, AIR, 2 * 3600.0)
    >>> table_limit(101325.0 + 24 * 10051.8, 101325.0, AIR, [earlier])
    (1500.0, 'C')
    """
    start = table_start(surface, before, climbed)
    return limit_after(start, table_depth_of(pressure, surface, gas)), start.group


def limit_after(start: TableStart, depth: float) -> float:
    """Give the no-stop limit of a dive after others.

    Parameters
    ----------
    start : TableStart
        What they leave.
    depth : float
        Of this dive, fsw.

    Returns
    -------
    float
        s; infinite without a limit, 0 where none is left.

    Raises
    ------
    RangeError
        As for ``no_stop_limit``.

    Examples
    --------
    >>> limit_after(TableStart("", 60.0, 20 * 60.0), 50.0) / 60.0
    43.0
    """
    return max(0.0, no_stop_limit(max(depth, start.depth), start.group) - start.time)


def group_after_dive(start: TableStart, depth: float, time: float) -> str:
    """Give the repetitive group after a dive that had others before it.

    Parameters
    ----------
    start : TableStart
        What they leave.
    depth : float
        Of this dive, fsw.
    time : float
        From leaving the surface to leaving the bottom, s.

    Returns
    -------
    str
        Letter.

    Raises
    ------
    RangeError
        As for ``group_after``.

    Examples
    --------
    >>> group_after_dive(TableStart("", 60.0, 20 * 60.0), 50.0, 10 * 60.0)
    'F'
    """
    return group_after(max(depth, start.depth), time + start.time, start.group)
