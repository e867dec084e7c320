"""How a finding is worded: the fields of its sentence, each with its unit, in the case's own units."""

from __future__ import annotations

import math

from parbuckle.duties.hit import Hit
from parbuckle.quantity.shown import NOT_KNOWN, show_si
from parbuckle.quantity.units import from_si, to_si, words

DIGITS = (2, 3)
"""Significant figures that are tried until a value and its limit no longer read the same."""


def worded(template: str, kind: str, hit: Hit, units: str) -> str:
    """Fill a sentence of the catalogue with what one rule found.

    Parameters
    ----------
    template : str
        The sentence, with ``{value}``, ``{limit}`` and ``{what}``.
    kind : str
        A kind of quantity, or ``words``, ``number``, ``count``, ``chance``, ``clock``, ``length_up`` (whole metres or
        feet, rounded up), ``days`` (whole days).
    hit : Hit
        What the rule found.
    units : str
        ``metric`` or ``imperial``.

    Returns
    -------
    str
        The sentence; brackets that would stay empty are left out.

    Examples
    --------
    >>> worded("It is {value} ({what}).", "words", Hit("x", "odd"), "metric")
    'It is odd.'
    """
    value, limit = _pair(kind, hit.value, hit.limit, units)
    text = template.format(value=value, limit=limit, what=hit.what).replace(" ()", "")
    return text[:1].upper() + text[1:]


def _pair(kind: str, value: float | str | None, limit: float | str | None, units: str) -> tuple[str, str]:
    """Word value and limit with as few figures as keep them apart; where none do, say on which side it is."""
    for digits in DIGITS:
        first, second = _one(kind, value, units, digits), _one(kind, limit, units, digits)
        if first != second or value == limit:
            return first, second
    if isinstance(value, str) or isinstance(limit, str) or value is None or limit is None:
        return first, second
    return ("just over " if value > limit else "just under ") + first, second


def _one(kind: str, value: float | str | None, units: str, digits: int) -> str:
    """Word one field."""
    if value is None:
        return NOT_KNOWN
    if isinstance(value, str):
        return value.rstrip(" .")
    if kind in _SPECIAL:
        return _SPECIAL[kind](value, units, digits)
    return show_si(value, kind, units, digits)


def _chance(value: float, units: str, digits: int) -> str:
    """A share of draws; no draw is not no chance, and the words do not say so."""
    if value in (0, 1):
        return "all of the draws" if value else "none of the draws"
    places = 100 if digits == DIGITS[0] else 1000
    return f"about {round(value * places)} of {places} draws"


def _count(value: float, units: str, digits: int) -> str:
    """A whole number, also of things that the sentence names."""
    return f"{value:.0f}"


def _number(value: float, units: str, digits: int) -> str:
    """A plain number."""
    return f"{value:.{digits}g}"


def _clock(value: float, units: str, digits: int) -> str:
    """A time of the day from seconds after midnight."""
    hours, minutes = divmod(int(value // 60), 60)
    return f"{hours:02d}:{minutes:02d}"


def _length_up(value: float, units: str, digits: int) -> str:
    """A length on the safe side: the next whole metre or foot."""
    unit = words("length")["ft" if units == "imperial" else "m"]
    return show_si(to_si(math.ceil(from_si(value, unit)), unit), "length", units, digits)


def _days(value: float, units: str, digits: int) -> str:
    """A long time in whole days."""
    unit = words("time")["d"]
    whole = round(from_si(value, unit))
    return f"{whole} day" if whole == 1 else f"{whole} days"


_SPECIAL = {
    "days": _days,
    "chance": _chance,
    "count": _count,
    "words": _count,
    "number": _number,
    "clock": _clock,
    "length_up": _length_up,
}
