"""Write src/parbuckle/data/unit_words.json: the factor of every unit word, computed by pint with decimal numbers.

pint needs most of a second to load, so a plan reads this table instead. A test compares every word with pint again.

Run: ``python tools/make_unit_words.py`` (``--check`` only compares).
"""

from __future__ import annotations

import json
import sys
from decimal import Decimal
from pathlib import Path

import pint

OUT = Path(__file__).resolve().parents[1] / "src" / "parbuckle" / "data" / "unit_words.json"

# dimension -> (SI target in pint's words, {word: its meaning in pint's words})
# "fathom" is six international feet; pint's own fathom is the older survey one, 2 parts in a million longer.
_LENGTH = {"m": "meter", "cm": "centimeter", "mm": "millimeter", "ft": "foot", "in": "inch", "fathom": "6 * foot"}
_MASS = {
    "kg": "kilogram",
    "g": "gram",
    "t": "metric_ton",
    "lb": "pound",
    "oz": "ounce",
    "short ton": "short_ton",
    "long ton": "long_ton",
}
_FORCE = {
    "N": "newton",
    "kN": "kilonewton",
    "kg": "kilogram_force",
    "t": "1000 * kilogram_force",
    "lb": "pound_force",
    "short ton": "2000 * pound_force",
    "long ton": "2240 * pound_force",
}
_VOLUME = {
    "l": "liter",
    "ml": "milliliter",
    "m3": "meter ** 3",
    "cu ft": "foot ** 3",
    "US gal": "gallon",
    "imp gal": "imperial_gallon",
}
MEANINGS: dict[str, tuple[str, dict[str, str]]] = {
    "length": ("meter", _LENGTH),
    "area": ("meter ** 2", {"m2": "meter ** 2", "cm2": "centimeter ** 2", "ft2": "foot ** 2"}),
    "volume": ("meter ** 3", _VOLUME),
    "capacity": ("meter ** 3", {word: _VOLUME[word] for word in ("l", "ml", "m3")}),
    "mass": ("kilogram", _MASS),
    "force": ("newton", _FORCE),
    "lift": ("kilogram_force", {**_MASS, **_FORCE, "g": "0.001 * kilogram_force", "oz": "pound_force / 16"}),
    "pressure": ("pascal", {"bar": "bar", "kPa": "kilopascal", "Pa": "pascal", "psi": "pound_force / inch ** 2"}),
    "speed": (
        "meter / second",
        {"kn": "knot", "m/s": "meter / second", "m/min": "meter / minute", "ft/min": "foot / minute"},
    ),
    "flow": (
        "meter ** 3 / second",
        {"l/min": "liter / minute", "l/s": "liter / second", "cu ft/min": "foot ** 3 / minute"},
    ),
    "time": ("second", {"s": "second", "min": "minute", "h": "hour", "d": "day"}),
    "temperature": ("kelvin", {"degC": "degC", "degF": "degF"}),
    "angle": ("radian", {"deg": "degree"}),
    "share": ("dimensionless", {"%": "percent"}),
    "density": ("kilogram / meter ** 3", {"kg/m3": "kilogram / meter ** 3", "lb/cu ft": "pound / foot ** 3"}),
    "salinity": ("gram / kilogram", {"g/kg": "gram / kilogram"}),
}


def table() -> dict[str, dict[str, list[float]]]:
    """Compute the table: dimension, word, [factor, offset], so that SI = factor * number + offset.

    Returns
    -------
    dict
        Factors and offsets as the nearest double numbers.
    """
    registry = pint.UnitRegistry(non_int_type=Decimal, autoconvert_offset_to_baseunit=True)
    rows: dict[str, dict[str, list[float]]] = {}
    for dimension, (target, words) in MEANINGS.items():
        rows[dimension] = {}
        for word, meaning in words.items():
            if dimension == "temperature":
                zero = registry.Quantity(Decimal(0), meaning).to(target).magnitude
                one = registry.Quantity(Decimal(1), meaning).to(target).magnitude
                rows[dimension][word] = [float(one - zero), float(zero)]
            else:
                rows[dimension][word] = [float(registry.parse_expression(meaning).to(target).magnitude), 0.0]
    return rows


def main() -> int:
    """Write the table, or with ``--check`` say whether the file is current.

    Returns
    -------
    int
        0 when written or current, 1 otherwise.
    """
    text = json.dumps(table(), indent=1, ensure_ascii=False) + "\n"
    if "--check" in sys.argv:
        return 0 if OUT.read_text(encoding="utf-8") == text else 1
    OUT.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
