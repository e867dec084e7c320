"""Oxygen: its pressure, the share of the single and daily exposure that a dive uses, and the dose to the lungs."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np

from parbuckle.dive.profile import TIME_RANGE, Leg
from parbuckle.physics.constants import ATMOSPHERE
from parbuckle.physics.ranges import FloatsLike, Range, not_negative
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats

_MINUTE = 60.0
_ROUNDING = 1e-9
_EXPONENT = 5.0 / 6.0  # Clark and Lambertsen 1970
_HIGHEST = 3.0  # atm; beyond that nothing is known that would help
_ALMOST_STEADY = 1e-6  # relative to 0.5 atm; the middle is then right to 1e-12
_OXYGEN_RANGE = Range("oxygen pressure", 0.0, 1.6 * (1.0 + _ROUNDING), "atm", "NOAA limits end at 1.6 atm")


def oxygen_at(leg: Leg) -> tuple[Floats, Floats]:
    """Give the oxygen pressure at both ends of a leg.

    Parameters
    ----------
    leg : Leg
        One leg.

    Returns
    -------
    tuple of Floats
        Start and end, Pa, shape (n,).

    Notes
    -----
    Source: Dalton's law; by agreement the gas is taken dry, as on a cylinder.

    Examples
    --------
    >>> from parbuckle.quantity.breathing import parse_gas
    >>> one = np.array([400000.0])
    >>> oxygen_at(Leg(one, one.copy(), one / 1000.0, parse_gas("EAN32")))[0]
    array([128000.])
    """
    return leg.gas.oxygen * leg.start, leg.gas.oxygen * leg.end


def single_limit(pressure: FloatsLike) -> Floats:
    """Give the longest single exposure to an oxygen pressure.

    Parameters
    ----------
    pressure : FloatsLike
        Oxygen pressure, Pa, any shape.

    Returns
    -------
    Floats
        Time, s; infinite up to 0.5 atm.

    Raises
    ------
    RangeError
        Above 1.6 atm, for which there is no limit to give.

    Notes
    -----
    Source: NOAA Diving Manual (data file); next higher row of the table, nothing in between. From above 0.5 to 0.6 atm
    the first row holds.

    Examples
    --------
    >>> float(single_limit(1.35 * 101325.0)) / 60.0
    150.0
    """
    return _limit(pressure, 1)


def daily_limit(pressure: FloatsLike) -> Floats:
    """Give the longest exposure to an oxygen pressure in 24 hours.

    Parameters
    ----------
    pressure : FloatsLike
        Oxygen pressure, Pa, any shape.

    Returns
    -------
    Floats
        Time, s; infinite up to 0.5 atm.

    Raises
    ------
    RangeError
        Above 1.6 atm.

    Notes
    -----
    Source: as for ``single_limit``.

    Examples
    --------
    >>> float(daily_limit(1.6 * 101325.0)) / 60.0
    150.0
    """
    return _limit(pressure, 2)


def limit_used(legs: Iterable[Leg], daily: bool = False) -> Floats:
    """Give the share of the exposure limit that a dive uses.

    Sum of time at each row of the table over the limit of that row; a leg down or up is cut where it crosses a row.

    Parameters
    ----------
    legs : iterable of Leg
        The dive.
    daily : bool
        The limit of 24 hours in place of the single one.

    Returns
    -------
    Floats
        Share, shape (n,); 1 is the limit.

    Raises
    ------
    RangeError
        Where the oxygen pressure is above 1.6 atm.

    Notes
    -----
    Source: NOAA Diving Manual; adding the shares of several pressures is common practice.

    Examples
    --------
    >>> from parbuckle.quantity.breathing import parse_gas
    >>> one = np.array([400000.0])
    >>> limit_used([Leg(one, one.copy(), np.array([1800.0]), parse_gas("EAN32"))]).round(3)
    array([0.167])
    """
    return limits_used(legs)[1 if daily else 0]


def limits_used(legs: Iterable[Leg]) -> tuple[Floats, Floats]:
    """Give both shares of ``limit_used`` together: of the single limit, and of that of 24 hours.

    Parameters
    ----------
    legs : iterable of Leg
        The dive.

    Returns
    -------
    tuple of Floats
        Shares, shape (n,); 1 is the limit.

    Raises
    ------
    RangeError
        Where the oxygen pressure is above 1.6 atm.

    Notes
    -----
    Source: as for ``limit_used``.

    Examples
    --------
    >>> from parbuckle.quantity.breathing import parse_gas
    >>> one = np.array([400000.0])
    >>> both = limits_used([Leg(one, one.copy(), np.array([1800.0]), parse_gas("EAN32"))])
    >>> [float(share[0].round(3)) for share in both]
    [0.167, 0.143]
    """
    rows = _rows()
    edges = np.concatenate([[_file()["dose"]["from"]], rows[:, 0]]) * ATMOSPHERE
    single: Floats = np.zeros(1)
    daily: Floats = np.zeros(1)
    for leg in legs:
        first, last = oxygen_at(leg)
        _OXYGEN_RANGE.check(np.maximum(first, last) / ATMOSPHERE)
        low, high = np.minimum(first, last), np.maximum(first, last)
        moves = high > low
        span = np.where(moves, high - low, 1.0)
        lowest, highest = low.min(), high.max()
        for bottom, top, row in zip(edges[:-1], edges[1:], rows, strict=True):
            if highest <= bottom or lowest > top * (1.0 + _ROUNDING):
                continue  # no draw comes into this row
            inside = (np.minimum(high, top) - np.maximum(low, bottom)) / span
            still = (low > bottom * (1.0 + _ROUNDING)) & (low <= top * (1.0 + _ROUNDING))
            spent = leg.time / _MINUTE * np.where(moves, np.maximum(inside, 0.0), still)
            single, daily = single + spent / row[1], daily + spent / row[2]
    return single, daily


def lung_dose(start: FloatsLike, end: FloatsLike, time: FloatsLike) -> Floats:
    """Give the dose of oxygen to the lungs while its pressure goes evenly from one value to another.

    Steady: t ((p - 0.5) / 0.5)^(5/6), p in atm, t in min; nothing below 0.5 atm. Changing:
    (3 / 11) t / (p2 - p1) [((p2 - 0.5) / 0.5)^(11/6) - ((p1 - 0.5) / 0.5)^(11/6)].

    Parameters
    ----------
    start, end : FloatsLike
        Oxygen pressure at both ends, Pa, any shape.
    time : FloatsLike
        How long it takes, s, any shape that fits.

    Returns
    -------
    Floats
        Dose in units of one minute at 1 atm (OTU).

    Raises
    ------
    RangeError
        For a pressure outside 0 to 3 atm or a time outside 0 to a week.

    Notes
    -----
    Source: Clark and Lambertsen 1970; the form for a change is Baker's, derived again.

    Examples
    --------
    >>> round(float(lung_dose(1.4 * 101325.0, 1.4 * 101325.0, 60.0)), 4)
    1.632
    """
    floor = float(_file()["dose"]["from"])
    known = Range("oxygen pressure", 0.0, _HIGHEST, "atm", "dose to the lungs")
    first = np.maximum(known.check(np.asarray(start) / ATMOSPHERE) - floor, 0.0) / floor
    last = np.maximum(known.check(np.asarray(end) / ATMOSPHERE) - floor, 0.0) / floor
    change = (np.asarray(end, dtype=np.float64) - start) / ATMOSPHERE / floor
    steep = np.abs(change) > _ALMOST_STEADY
    up = (last ** (_EXPONENT + 1.0) - first ** (_EXPONENT + 1.0)) / np.where(steep, change, 1.0)
    steady = (0.5 * (first + last)) ** _EXPONENT
    return np.asarray(TIME_RANGE.check(time) / _MINUTE * np.where(steep, up / (_EXPONENT + 1.0), steady))


def lung_dose_of(legs: Iterable[Leg]) -> Floats:
    """Give the dose of oxygen to the lungs of a dive.

    Parameters
    ----------
    legs : iterable of Leg
        The dive.

    Returns
    -------
    Floats
        Dose (OTU), shape (n,).

    Raises
    ------
    RangeError
        As for ``lung_dose``.

    Examples
    --------
    >>> from parbuckle.quantity.breathing import parse_gas
    >>> one = np.array([400000.0])
    >>> lung_dose_of([Leg(one, one.copy(), np.array([1800.0]), parse_gas("EAN32"))]).round(1)
    array([42.7])
    """
    total: Floats = np.zeros(1)
    for leg in legs:
        total = total + lung_dose(*oxygen_at(leg), leg.time)
    return total


def dose_where_known(legs: Iterable[Leg]) -> Floats | None:
    """Give the dose of oxygen to the lungs of a dive, where the law holds.

    Parameters
    ----------
    legs : iterable of Leg
        The dive.

    Returns
    -------
    Floats or None
        Dose (OTU), shape (n,); None where some leg goes beyond 3 atm of oxygen: no dose is known there, and no time is
        allowed.
    """
    try:
        return lung_dose_of(legs)
    except RangeError:
        return None


def dose_allowed(day: int) -> float:
    """Give the dose to the lungs that is allowed on one of a row of diving days.

    Parameters
    ----------
    day : int
        1 for the first.

    Returns
    -------
    float
        Dose (OTU).

    Raises
    ------
    RangeError
        For a day before the first.

    Notes
    -----
    Source: REPEX, NOAA TR 88-1B (1988); days 2 to 10 are recalled.

    Examples
    --------
    >>> dose_allowed(1), dose_allowed(30)
    (850.0, 300.0)
    """
    table = _file()["allowance"]
    index = int(not_negative("day", day - 1, "d"))
    return float(table["days"][index] if index < len(table["days"]) else table["beyond"])


def _limit(pressure: FloatsLike, column: int) -> Floats:
    asked = _OXYGEN_RANGE.check(np.asarray(pressure, dtype=np.float64) / ATMOSPHERE)
    rows = _rows()
    row = np.searchsorted(rows[:, 0] * (1.0 + _ROUNDING), asked)
    return np.where(asked > _file()["dose"]["from"], rows[row, column] * _MINUTE, np.inf)


def _rows() -> Floats:
    return np.array(_file()["noaa"]["rows"], dtype=np.float64)


@cache
def _file() -> dict[str, Any]:
    return tomllib.loads((files("parbuckle.data") / "oxygen.toml").read_text(encoding="utf-8"))
