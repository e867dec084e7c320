"""Inspection intervals by country: where only the last examination is known, they give the due date."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from importlib import resources

from parbuckle.quantity.grammar import parse


@dataclass(frozen=True, slots=True)
class Interval:
    """One interval of one country.

    Parameters
    ----------
    country : str
        Two letters.
    item : str
        ``bag``, ``cylinder``, ``sling``, ``connector`` or ``line``.
    check : str
        What is examined.
    every : float
        Longest time between two examinations, s.
    mark : str
        ``read`` or ``recalled``.
    read : date
        Day on which the source was read.
    source : str
        Where it stands.
    """

    country: str
    item: str
    check: str
    every: float
    mark: str
    read: date
    source: str


@cache
def intervals(country: str) -> tuple[Interval, ...]:
    """Give the intervals of one country.

    Parameters
    ----------
    country : str
        Two letters, such as ``GB``.

    Returns
    -------
    tuple of Interval
        Empty when the data file has none.

    Examples
    --------
    >>> [one.check for one in intervals("GB") if one.item == "cylinder"]
    ['internal visual inspection', 'pressure test']
    """
    text = resources.files("parbuckle.data").joinpath("intervals.toml").read_text(encoding="utf-8")
    rows = [row for row in tomllib.loads(text)["interval"] if row["country"] == country]
    return tuple(Interval(**{**row, "every": parse(row["every"], "time").mid}) for row in rows)


def table_date(country: str) -> date | None:
    """Give the day on which the oldest row of a country's table was read.

    Parameters
    ----------
    country : str
        Two letters.

    Returns
    -------
    date or None
        None when the country has no table.

    Examples
    --------
    >>> table_date("GB")
    datetime.date(2026, 11, 25)
    """
    return min((row.read for row in intervals(country)), default=None)


def age_of_table(country: str, day: date) -> float | None:
    """Tell how long ago the oldest row of a country's table was read.

    Parameters
    ----------
    country : str
        Two letters.
    day : date
        The day of the lift.

    Returns
    -------
    float or None
        Age, s, never below zero; None when the country has no table.

    Examples
    --------
    >>> age_of_table("GB", date(2026, 11, 26))
    86400.0
    """
    read = table_date(country)
    return None if read is None else max((day - read).total_seconds(), 0.0)


def due_after(country: str, item: str, examined: date) -> date | None:
    """Give the day on which the next examination is due, the soonest of all that apply.

    Parameters
    ----------
    country : str
        Two letters.
    item : str
        ``bag``, ``cylinder``, ``sling``, ``connector`` or ``line``.
    examined : date
        Day of the last examination.

    Returns
    -------
    date or None
        None when the country has no interval for the item.

    Examples
    --------
    >>> due_after("GB", "sling", date(2026, 1, 1))
    datetime.date(2026, 7, 3)
    """
    times = [row.every for row in intervals(country) if row.item == item]
    return examined + timedelta(seconds=min(times)) if times else None
