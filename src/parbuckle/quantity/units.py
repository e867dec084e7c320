"""Unit words: from a word to SI and back, by a table that pint computed once (tools/make_unit_words.py)."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache
from pathlib import Path

TABLE = Path(__file__).resolve().parents[1] / "data" / "unit_words.json"

HINTS: dict[str, str] = {
    "gal": "there are two gallons: write 'US gal' or 'imp gal'",
    "gallon": "there are two gallons: write 'US gal' or 'imp gal'",
    "ton": "there are three tons: write 't' (1,000 kg), 'short ton' or 'long ton'",
    "tons": "there are three tons: write 't' (1,000 kg), 'short ton' or 'long ton'",
    "L": "write 'l' for litres",
    "lbs": "write 'lb'",
    "kgs": "write 'kg'",
    "lbf": "write 'lb'",
    "litre": "write 'l'",
    "litres": "write 'l'",
    "mins": "write 'min'",
    "minutes": "write 'min'",
    "hours": "write 'h'",
    "days": "write 'd'",
    "C": "write 'degC'",
    "°C": "write 'degC'",
    "F": "write 'degF'",
    "°F": "write 'degF'",
    "°": "write 'deg'",
    "degrees": "write 'deg'",
    "percent": "write '%'",
    "knots": "write 'kn'",
    "kt": "write 'kn'",
    "m²": "write 'm2'",
    "m³": "write 'm3'",
    "ft3": "write 'cu ft'",
    "cuft": "write 'cu ft'",
    "sq ft": "write 'ft2'",
    "L/min": "write 'l/min'",
}
"""What to write instead of words that people reach for but that are not in the closed list."""


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit word.

    Parameters
    ----------
    word : str
        The word as it is typed.
    factor, offset : float
        SI = factor * number + offset; the offset is 0 but for temperatures.
    """

    word: str
    factor: float
    offset: float


@cache
def words(dimension: str) -> dict[str, Unit]:
    """Give all unit words of one dimension.

    Parameters
    ----------
    dimension : str
        Name of the dimension, such as ``length``.

    Returns
    -------
    dict of str to Unit
        The closed list, in the order of the table.

    Raises
    ------
    KeyError
        If there is no such dimension.

    Notes
    -----
    Source: factors computed by pint with decimal numbers; the fathom is six international feet.

    Examples
    --------
    >>> words("length")["ft"].factor
    0.3048
    """
    return {word: Unit(word, factor, offset) for word, (factor, offset) in _table()[dimension].items()}


def to_si(number: float, unit: Unit) -> float:
    """Turn a number with its unit into SI: SI = factor * number + offset.

    Parameters
    ----------
    number : float
        What was written before the unit word.
    unit : Unit
        The unit.

    Returns
    -------
    float
        In the SI target of the unit's dimension.

    Examples
    --------
    >>> to_si(8.0, words("temperature")["degC"])
    281.15
    """
    return unit.factor * number + unit.offset


def from_si(value: float, unit: Unit) -> float:
    """Turn an SI value into a number of units: number = (SI - offset) / factor.

    Parameters
    ----------
    value : float
        In SI.
    unit : Unit
        The unit wanted.

    Returns
    -------
    float
        The number before the unit word.

    Examples
    --------
    >>> from_si(0.025, words("volume")["l"])
    25.0
    """
    return (value - unit.offset) / unit.factor


@cache
def _table() -> dict[str, dict[str, tuple[float, float]]]:
    loaded: dict[str, dict[str, tuple[float, float]]] = json.loads(TABLE.read_text(encoding="utf-8"))
    return loaded
