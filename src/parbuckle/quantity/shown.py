"""Numbers as people read them, in metric or imperial.

``show`` takes a value in the base unit of the plan document (kg, l, m, bar, m/s, m/min, s, degC, deg, N, shares from 0
to 1); ``show_si`` takes SI. The base of each kind stands in ``SHOWN``. Imports no numpy, so views may use it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import datetime

from parbuckle.quantity.rounding import THIN as THIN
from parbuckle.quantity.rounding import alike, duration, figures, time_unit
from parbuckle.quantity.shown_kinds import SHOWN as SHOWN
from parbuckle.quantity.shown_kinds import SIGNS, Shown
from parbuckle.quantity.units import from_si, to_si, words

NOT_KNOWN = "not known"
"""What is shown where there is no value."""

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def show(value: float | None, kind: str, units: str = "metric", digits: int | None = None) -> str:
    """Show one value of the plan document with its unit.

    Parameters
    ----------
    value : float or None
        In the base unit of the kind; see ``SHOWN``.
    kind : str
        One of the kinds of ``SHOWN``.
    units : str
        ``metric`` or ``imperial``.
    digits : int, optional
        Significant figures; left out: two for most kinds.

    Returns
    -------
    str
        Number, thin space, unit; ``not known`` for None.

    Raises
    ------
    KeyError
        If the kind is not in the table.

    Notes
    -----
    Source: common practice, two significant figures unless the third is true and needed.

    Examples
    --------
    >>> show(36.8, "mass").replace(THIN, " ")
    '37 kg'
    >>> show(36.8, "mass", "imperial").replace(THIN, " ")
    '81 lb'
    >>> show(260.0, "time").replace(THIN, " ")
    '4 min 20 s'
    """
    if value is None:
        return NOT_KNOWN
    return show_si(_si(value, SHOWN[kind]), kind, units, digits)


def show_si(value: float | None, kind: str, units: str = "metric", digits: int | None = None) -> str:
    """Show one SI value with its unit.

    Parameters
    ----------
    value : float or None
        In SI (kg, m3, m, Pa, m/s, s, K, rad, N, g/kg for salinity, shares from 0 to 1).
    kind : str
        One of the kinds of ``SHOWN``.
    units : str
        ``metric`` or ``imperial``.
    digits : int, optional
        Significant figures; left out: two for most kinds.

    Returns
    -------
    str
        Number, thin space, unit; ``not known`` for None.

    Raises
    ------
    KeyError
        If the kind is not in the table.

    Examples
    --------
    >>> show_si(2.0e7, "pressure").replace(THIN, " ")
    '200 bar'
    """
    if value is None:
        return NOT_KNOWN
    row = SHOWN[kind]
    places = row.digits if digits is None else digits
    if kind in ("time", "minutes"):
        return duration(value, places)
    if kind == "bearing":
        return f"{round(math.degrees(value)) % 360:03d}°"
    number, unit = _in_units(value, row, units)
    text = figures(number, places)
    if not unit or unit == "deg":
        return text + SIGNS.get(unit, unit)
    return f"{text}{THIN}{SIGNS.get(unit, unit)}"


def show_band(band: Mapping[str, float] | None, kind: str, units: str = "metric", digits: int | None = None) -> str:
    """Show a band of the plan document: the likely number large enough to stand first, low and high after it.

    Parameters
    ----------
    band : mapping or None
        ``low``, ``likely`` and ``high`` in the base unit of the kind; see ``SHOWN``.
    kind : str
        One of the kinds of ``SHOWN``.
    units : str
        ``metric`` or ``imperial``.
    digits : int, optional
        Significant figures of the likely number; left out: two for most kinds.

    Returns
    -------
    str
        Such as ``37 kg (34 to 40)``; one number where the three read the same; ``not known`` for None.

    Examples
    --------
    >>> show_band({"low": 34.1, "likely": 36.8, "high": 40.2}, "mass").replace(THIN, " ")
    '37 kg (34 to 40)'
    """
    if band is None:
        return NOT_KNOWN
    row = SHOWN[kind]
    places = row.digits if digits is None else digits
    three = [_si(band[name], row) for name in ("low", "likely", "high")]
    if kind == "bearing":
        low, likely, high = (show_si(value, kind, units) for value in three)
        return likely if low == high else f"{likely} ({low} to {high})"
    if kind in ("time", "minutes"):
        unit = time_unit(three[1], three[2])
        numbers = [from_si(value, words("time")[unit]) for value in three]
    else:
        unit = _in_units(max(three, key=abs), row, units)[1]
        numbers = [_convert(value, row, unit) for value in three]
    low, likely, high = alike(numbers, places)
    after = unit and (SIGNS["deg"] if unit == "deg" else THIN + SIGNS.get(unit, unit))
    return f"{likely}{after}" if low == likely == high else f"{likely}{after} ({low} to {high})"


def both(value: float | None, kind: str, units: str = "metric", digits: int | None = None) -> tuple[str, str]:
    """Show one value in both unit systems.

    Parameters
    ----------
    value : float or None
        In the base unit of the kind; see ``SHOWN``.
    kind : str
        One of the kinds of ``SHOWN``.
    units : str
        The system that comes first.
    digits : int, optional
        Significant figures; left out: two for most kinds.

    Returns
    -------
    tuple of str
        In the chosen system, in the other one; alike where both use one unit.

    Examples
    --------
    >>> [text.replace(THIN, " ") for text in both(16.0, "length")]
    ['16 m', '52 ft']
    """
    other = "imperial" if units == "metric" else "metric"
    return show(value, kind, units, digits), show(value, kind, other, digits)


def clock(moment: str, with_date: bool = False) -> str:
    """Show a moment of the plan document as the time at the place.

    Parameters
    ----------
    moment : str
        ISO 8601 with its offset.
    with_date : bool
        True to put the date after it.

    Returns
    -------
    str
        Hours and minutes, 24 hours; then day, month and year.

    Examples
    --------
    >>> clock("2027-04-14T10:00:00+01:00", with_date=True)
    '10:00 on 14 Apr 2027'
    """
    when = datetime.fromisoformat(moment)
    date = f" on {when.day} {_MONTHS[when.month - 1]} {when.year}" if with_date else ""
    return f"{when:%H:%M}{date}"


def _si(value: float, row: Shown) -> float:
    return to_si(value, words(row.dimension)[row.base]) if row.base else value


def _convert(value: float, row: Shown, unit: str) -> float:
    return from_si(value, words(row.dimension)[unit]) if unit else value


def _in_units(value: float, row: Shown, units: str) -> tuple[float, str]:
    unit = row.imperial if units == "imperial" else row.metric
    if unit == "N" and abs(value) >= words("force")["kN"].factor:
        unit = "kN"
    return _convert(value, row, unit), unit
