"""Rounding for people: significant figures, three numbers alike, durations; no numpy."""

from __future__ import annotations

from decimal import Decimal

from parbuckle.quantity.units import words

THIN = "\u202f"
"""The thin space before a unit; it does not break a line."""

_GROUPED = 10_000  # from here on thousands are set apart


def figures(number: float, digits: int) -> str:
    """Round to significant figures, without an exponent, without zeros at the end, without a sign before zero.

    Parameters
    ----------
    number : float
        Any finite number.
    digits : int
        Significant figures, 1 or more.

    Returns
    -------
    str
        The number as a text.

    Examples
    --------
    >>> figures(215.0, 2), figures(9.04, 2), figures(-0.0, 2)
    ('220', '9', '0')
    """
    rounded = Decimal(f"{number:.{max(digits, 1) - 1}e}")
    return _trim([_fixed(rounded, max(0, digits - 1 - rounded.adjusted()))])[0]


def alike(numbers: list[float], digits: int) -> list[str]:
    """Round three numbers to the same place: that of the middle one, or of the largest where the middle is near zero.

    Parameters
    ----------
    numbers : list of float
        Low, likely, high.
    digits : int
        Significant figures of the one that decides.

    Returns
    -------
    list of str
        Three texts with the same number of decimals; zero is ``0``.

    Examples
    --------
    >>> alike([34.1, 36.8, 40.2], 2)
    ['34', '37', '40']
    >>> alike([9.0, 9.6, 10.4], 2)
    ['9.0', '9.6', '10.4']
    """
    largest = max(abs(number) for number in numbers)
    judge = numbers[1] if abs(numbers[1]) >= 0.1 * largest else largest
    places = digits - 1 - Decimal(f"{judge:.{digits - 1}e}").adjusted() if judge else 0
    step = Decimal(1).scaleb(-places)
    texts = _trim([_fixed(Decimal(repr(float(number))).quantize(step), max(0, places)) for number in numbers])
    return ["0" if not float(text.replace(",", "")) else text for text in texts]


def time_unit(likely: float, high: float) -> str:
    """Choose the unit for a band of times, so that its numbers stay short.

    Parameters
    ----------
    likely, high : float
        In s.

    Returns
    -------
    str
        ``s``, ``min`` or ``h``.

    Examples
    --------
    >>> time_unit(30.0, 200.0)
    's'
    """
    table = words("time")
    if likely < 2.0 * table["min"].factor and high < 10.0 * table["min"].factor:
        return "s"
    return "min" if likely < 3.0 * table["h"].factor else "h"


def duration(seconds: float, digits: int) -> str:
    """Show a duration as people say it.

    Parameters
    ----------
    seconds : float
        In s.
    digits : int
        Significant figures below two minutes; more than two also keep single seconds up to an hour.

    Returns
    -------
    str
        Such as ``14 s``, ``4 min 20 s``, ``33 min``, ``2 h 30 min``, with thin spaces.

    Examples
    --------
    >>> duration(260.0, 2).replace(THIN, " ")
    '4 min 20 s'
    """
    table = words("time")
    minute, hour = table["min"].factor, table["h"].factor
    if seconds < 2.0 * minute:
        return f"{figures(seconds, digits)}{THIN}s"
    if seconds < 10.0 * minute or (digits > 2 and seconds < hour):
        step = 10 if digits <= 2 else 1
        whole, rest = divmod(round(seconds / step) * step, int(minute))
        return f"{whole}{THIN}min" + (f" {rest}{THIN}s" if rest else "")
    minutes = round(seconds / minute)
    if seconds < 2.0 * hour:
        return f"{minutes}{THIN}min"
    hours, rest = divmod(minutes, 60)
    return f"{hours}{THIN}h" + (f" {rest:02d}{THIN}min" if rest else "")


def _fixed(number: Decimal, places: int) -> str:
    text = f"{number:,.{places}f}" if abs(number) >= _GROUPED else f"{number:.{places}f}"
    return text.removeprefix("-") if number == 0 else text


def _trim(texts: list[str]) -> list[str]:
    while all("." in text and text[-1] in "0." for text in texts):
        texts = [text[:-1].removesuffix(".") for text in texts]
    return texts
