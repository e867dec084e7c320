"""One expression reads number, spread and unit: ``46 ± 4 kg``, ``35..45 kg``, ``60..80..120 m``, ``16 m``."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.kinds import Kind, kind
from parbuckle.quantity.refusals import shorten, why_no_number, why_no_unit
from parbuckle.quantity.spread import Shape, Spread
from parbuckle.quantity.units import Unit, from_si, to_si

LONGEST = 120
"""Longest text of one value, in characters; the longest sensible one has about forty. Common practice."""

_NUMBER = r"(-?[0-9]{1,15}(?:\.[0-9]{1,15})?)"
_VALUE = re.compile(
    rf"{_NUMBER}(?:\s*(?:±|\+-|\+/-)\s*{_NUMBER}|\s*\.\.\s*{_NUMBER}(?:\s*\.\.\s*{_NUMBER})?)?\s*(.*)", re.ASCII
)
_PLAIN = Unit("", 1.0, 0.0)


class GrammarError(CaseError):
    """A value is not written in the grammar of its key's kind; see :class:`parbuckle.quantity.errors.CaseError`."""


@dataclass(frozen=True, slots=True)
class _Written:
    """A value taken apart: three numbers in SI, the shape, the unit and the kind's own name for it."""

    shape: Shape
    low: float
    mid: float
    high: float
    unit: Unit


def parse(
    text: str, kind_name: str, floor: float | None = None, ceiling: float | None = None, positive: bool = False
) -> Spread:
    """Read one written value by the kind that its key has.

    Parameters
    ----------
    text : str
        What was written, such as ``46 ± 4 kg``.
    kind_name : str
        Name of the kind, such as ``mass``; see :mod:`parbuckle.quantity.kinds`.
    floor, ceiling : float, optional
        Limits of this key in SI, where they are tighter than the kind's.
    positive : bool
        True where zero makes no sense (a bag holds something).

    Returns
    -------
    Spread
        In SI, with the text kept. A bearing in ``deg mag`` is kept as magnetic; :mod:`parbuckle.quantity.bearing` tells
        and turns it into true.

    Raises
    ------
    GrammarError
        If the text does not fit; it says what was given, what is allowed and what to do.

    Notes
    -----
    Valid range: the likeliest value and the ends of a flat or triangular spread lie inside the limits; a normal spread
    may cross one and is cut there when it is drawn (``Spread.is_cut``). Numbers have at most 15 digits on either side
    of the point. Source: the project's own file format, version 1 (docs/format.md).

    Examples
    --------
    >>> parse("46 ± 4 kg", "mass").high
    50.0
    >>> parse("60..80..120 m", "length").shape
    'triangular'
    >>> round(parse("8 degC", "temperature").mid, 2)
    281.15
    """
    sort = kind(kind_name)
    lowest = sort.floor if floor is None else floor
    highest = sort.ceiling if ceiling is None else ceiling
    clean = text.strip().replace("−", "-")
    if clean in sort.names:
        value = sort.names[clean]
        return Spread(kind_name, "exact", value, value, value, clean, lowest, highest)
    written = _take_apart(clean, sort)
    _check_order(written, text, sort)
    _check_limits(written, text, lowest, highest, positive)
    if sort.wraps:
        lowest, highest = -math.inf, math.inf
    name = written.unit.word if written.unit.word in sort.by_person else kind_name
    return Spread(name, written.shape, written.low, written.mid, written.high, clean, lowest, highest)


def _take_apart(text: str, sort: Kind) -> _Written:
    match = _VALUE.fullmatch(text) if len(text) <= LONGEST and "\n" not in text else None
    if match is None:
        what, do = why_no_number(text, sort)
        raise GrammarError(what, given=shorten(text), allowed=sort.allowed, do=do)
    first, plus, second, third, tail = match.groups()
    unit = _unit(text, tail, sort)
    a = float(first)
    if plus is not None:
        step = unit.factor * float(plus)
        middle = to_si(a, unit)
        if step < 0.0:
            raise GrammarError("the spread after ± is negative", given=shorten(text), allowed="a spread of 0 or more")
        return _Written("normal" if step else "exact", middle - step, middle, middle + step, unit)
    if second is None:
        value = to_si(a, unit)
        return _Written("exact", value, value, value, unit)
    low, high = to_si(a, unit), to_si(float(third or second), unit)
    likely = 0.5 * (low + high) if third is None else to_si(float(second), unit)
    if low == high:
        return _Written("exact", low, likely, high, unit)
    return _Written("flat" if third is None else "triangular", low, likely, high, unit)


def _unit(text: str, tail: str, sort: Kind) -> Unit:
    word = " ".join(tail.split())
    if sort.suffix and word.endswith(sort.suffix):
        word = word.removesuffix(sort.suffix).strip()
    elif sort.suffix and word in sort.units:
        raise GrammarError(
            f"the words '{sort.suffix}' are missing",
            given=shorten(text),
            allowed=sort.allowed,
            do=f"write '{text} {sort.suffix}' if it is that; a mass in air is another number",
        )
    elif sort.may_suffix:
        word = word.removesuffix(sort.may_suffix).strip()
    if word in sort.units:
        return sort.units[word]
    if word in sort.by_person:
        return Unit(word, 1.0, 0.0)
    if not word and not sort.units:
        return _PLAIN
    what, do = why_no_unit(text, word, sort)
    raise GrammarError(what, given=shorten(text), allowed=sort.allowed, do=do)


def _check_order(written: _Written, text: str, sort: Kind) -> None:
    if written.low <= written.mid <= written.high:
        return
    do = "a range across north goes on past 360: write '350..370 deg'" if sort.wraps else "put the smaller number first"
    raise GrammarError(
        "the range runs backwards", given=shorten(text), allowed="lowest..highest, or lowest..likeliest..highest", do=do
    )


def _check_limits(written: _Written, text: str, lowest: float, highest: float, positive: bool) -> None:
    ends = (written.mid,) if written.shape == "normal" else (written.low, written.mid, written.high)
    unit = written.unit
    allowed = f"{_plain(lowest, unit)} to {_plain(highest, unit)} {unit.word}".strip()
    if any(end < lowest - 1e-12 * abs(lowest) for end in ends):
        raise GrammarError("the value is below what is possible here", given=shorten(text), allowed=allowed)
    if any(end > highest + 1e-12 * abs(highest) for end in ends):
        raise GrammarError("the value is above what is possible here", given=shorten(text), allowed=allowed)
    if positive and min(ends) <= 0.0:
        raise GrammarError("the value must be more than 0", given=shorten(text), allowed=f"more than 0 {unit.word}")


def _plain(limit: float, unit: Unit) -> str:
    return "any" if math.isinf(limit) else f"{round(from_si(limit, unit), 6):.10g}"
