"""Known objects: "anchor, 15 kg", "chain, 10 mm, 8 m", "outboard, 20 hp"; a bare name gets a wide range."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from parbuckle.load.materials import material
from parbuckle.load.tables import Row, find, read_table
from parbuckle.physics.ranges import FloatsLike, Range, not_negative
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.grammar import parse
from parbuckle.quantity.spread import Spread

CHAIN_COEFFICIENT = 0.022
"""kg/m of short-link chain to a mm2 of its bar's diameter squared (DIN 766, two makers' tables, read; mean)."""

CHAIN_BAR = Range("bar diameter of the chain", 0.003, 0.060, "m", "makers' tables of short-link chain, and a margin")

_POUND = 0.45359237  # kg
_KW_TO_HP = 1.0 / 0.7457
_TEXT = re.compile(r"(?P<name>[^\d]*?)[\s,]*(?P<sizes>\d.*)?", re.ASCII | re.DOTALL)
_POWER = re.compile(r"(\d{1,4}(?:\.\d{1,3})?)\s*(hp|kw)", re.ASCII | re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class KnownObject:
    """A known object with the spreads of what has to be drawn.

    Parameters
    ----------
    name : str
        Name in the table.
    mass : Spread or None
        Dry mass, kg; None for a chain.
    density : Spread or None
        Mean density of what displaces water, kg/m3; None where ``wet_share`` says it.
    shared : str
        Name of the material whose draw it shares; empty when the density is its own.
    wet_share : Spread or None
        Weight in water over dry weight, flooded, in water of ``wet_share_water``.
    wet_share_water : float
        Density of the water in which that share holds, kg/m3; 0 when there is none.
    bulk : float
        kg of dry mass to a m3 of its outside; 0 when it has no gaps.
    chain : tuple of Spread
        Coefficient in kg/m to a mm2, bar diameter in m, length in m; empty when it is no chain.
    assumed : tuple of str
        What was left out, and what stands in.
    source : str
        Source and mark.
    """

    name: str
    mass: Spread | None
    density: Spread | None
    shared: str
    wet_share: Spread | None
    wet_share_water: float
    bulk: float
    chain: tuple[Spread, ...]
    assumed: tuple[str, ...]
    source: str


def known_object(text: str) -> KnownObject:
    """Find a known object by its name, and read its size.

    Parameters
    ----------
    text : str
        A name of the table and, after commas, its size: a mass; a bar diameter and a length for chain; hp or kW for an
        outboard. A size may have a spread, such as ``anchor, 12..18 kg``.

    Returns
    -------
    KnownObject
        With its spreads. Valid for entries of the table of known objects.

    Raises
    ------
    RangeError
        If the name is not in the table (the text gives the nearest), or a size does not belong to it.
    GrammarError
        If a size is written wrongly.

    Examples
    --------
    >>> known_object("anchor, 15 kg").mass.mid
    15.0
    >>> known_object("safe").assumed
    ('safe: no mass given; 20..60..500 kg stands in',)
    """
    match = _TEXT.fullmatch(text.strip())
    name, sizes = (match["name"], match["sizes"] or "") if match else (text, "")
    row = find("known object", name.strip(" ,") or text, read_table("known_objects")["object"])
    parts = [part.strip() for part in sizes.split(",") if part.strip()]
    source = f"{row['name']}: {row['source']} [{row['mark']}]"
    if row["law"] == "chain":
        chain, assumed = _chain(row, parts)
        steel = material(row["material"])
        return KnownObject(row["name"], None, steel.spread, steel.name, None, 0.0, 0.0, chain, assumed, source)
    if row["law"] == "outboard":
        mass, assumed = _outboard(row, parts)
        low, high = row["wet_share"]
        wet = Spread("share", "flat", low, 0.5 * (low + high), high, f"{low:g}..{high:g}")
        water = float(row["wet_share_water"])
        return KnownObject(row["name"], mass, None, "", wet, water, 0.0, (), assumed, source)
    mass, assumed = _mass(row, parts)
    density, shared = _density(row)
    bulk = float(row.get("bulk", 0.0))
    return KnownObject(row["name"], mass, density, shared, None, 0.0, bulk, (), assumed, source)


def chain_mass_per_length(diameter: FloatsLike, coefficient: FloatsLike = CHAIN_COEFFICIENT) -> Floats:
    """Give the mass of a metre of short-link chain: m/l = c d2, d in mm.

    Parameters
    ----------
    diameter : FloatsLike
        Of the bar, m, any shape.
    coefficient : FloatsLike
        kg/m to a mm2; 0.0215 to 0.0231 among makers.

    Returns
    -------
    Floats
        kg/m. Valid for short-link steel chain of 3 to 60 mm.

    Raises
    ------
    RangeError
        If the diameter lies outside.

    Notes
    -----
    Source: two makers' tables of DIN 766 chain (read).

    Examples
    --------
    >>> float(chain_mass_per_length(0.010).round(2))
    2.2
    """
    bar = CHAIN_BAR.check(diameter)
    return np.asarray(coefficient * (1e3 * bar) ** 2, dtype=np.float64)


def displaced_by_share(mass: FloatsLike, wet_share: FloatsLike, water_density: float) -> Floats:
    """Give the displaced volume from the share of its weight that remains in water: V = m (1 - s) / rho.

    Parameters
    ----------
    mass : FloatsLike
        Dry mass, kg, any shape.
    wet_share : FloatsLike
        Weight in water over dry weight, 0 to 1.
    water_density : float
        Density of the water in which that share holds, kg/m3.

    Returns
    -------
    Floats
        m3. Valid for a flooded object that sinks.

    Raises
    ------
    RangeError
        If the mass is negative or the share lies outside 0 to 1.

    Notes
    -----
    Source: Archimedes.

    Examples
    --------
    >>> float(displaced_by_share(50.0, 0.588, 1030.0).round(3))
    0.02
    """
    share = Range("share of the weight that remains in water", 0.0, 1.0, "", "it sinks").check(wet_share)
    return np.asarray(not_negative("mass", mass, "kg") * (1.0 - share) / water_density, dtype=np.float64)


def _triangle(kind: str, three: Sequence[float], unit: str, scale: float = 1.0) -> Spread:
    low, likely, high = (float(x) for x in three)
    text = f"{low / scale:g}..{likely / scale:g}..{high / scale:g} {unit}"
    return Spread(kind, "triangular", low, likely, high, text, floor=0.0, assumed=True)


def _density(row: Row) -> tuple[Spread, str]:
    if "density" in row:
        low, high = (float(x) for x in row["density"])
        return Spread("density", "flat", low, 0.5 * (low + high), high, f"{low:g}..{high:g} kg/m3", floor=0.0), ""
    made_of = material(row["material"])
    return made_of.spread, made_of.name


def _mass(row: Row, parts: list[str]) -> tuple[Spread, tuple[str, ...]]:
    if not parts:
        wide = _triangle("mass", row["mass"], "kg")
        return wide, (f"{row['name']}: no mass given; {wide.text} stands in",)
    if len(parts) > 1:
        raise RangeError(f'{row["name"]}: one size is enough, its mass, such as "{row["name"]}, {row["mass"][1]} kg"')
    given = parse(parts[0], "mass")
    half = given.mid * float(row["nominal"])
    if not given.exact or half == 0.0:
        return given, ()
    text = f"{given.text} nominal, ± {row['nominal']:.0%}"
    spread = Spread("mass", "normal", given.mid - half, given.mid, given.mid + half, text, floor=0.0)
    return spread, (f"{row['name']}: {given.text} is taken as nominal, ± {row['nominal']:.0%}",)


def _chain(row: Row, parts: list[str]) -> tuple[tuple[Spread, ...], tuple[str, ...]]:
    if parts[2:]:
        raise RangeError('chain: write its bar diameter and its length, such as "chain, 10 mm, 8 m"')
    coefficient = _triangle("coefficient", row["coefficient"], "kg/m to a mm2")
    assumed: list[str] = []
    if parts:
        diameter = parse(parts[0], "length")
    else:
        diameter = _triangle("length", row["diameter"], "mm", 1e-3)
        assumed.append(f"chain: no bar diameter given; {diameter.text} stands in")
    if parts[1:]:
        length = parse(parts[1], "length")
    else:
        length = _triangle("length", row["length"], "m")
        assumed.append(f"chain: no length given; {length.text} stands in")
    return (coefficient, diameter, length), tuple(assumed)


def _outboard(row: Row, parts: list[str]) -> tuple[Spread, tuple[str, ...]]:
    shares = [float(x) for x in row["shares"]]
    if not parts:
        heaviest = [_heaviest(row, float(hp)) for hp in row["bare_hp"]]
        wide = _triangle("mass", [share * mass for share, mass in zip(shares, heaviest, strict=True)], "kg")
        return wide, (f"outboard: no power given; {wide.text} stands in",)
    match = _POWER.fullmatch(parts[0])
    if match is None and len(parts) == 1:
        return parse(parts[0], "mass"), ()
    if match is None or len(parts) > 1:
        raise RangeError('outboard: write its power or its mass, such as "outboard, 20 hp" or "outboard, 48 kg"')
    power = float(match[1]) * (_KW_TO_HP if match[2].lower() == "kw" else 1.0)
    top = _heaviest(row, power)
    spread = _triangle("mass", [share * top for share in shares], "kg")
    return spread, (f"outboard: mass of {parts[0]} by its class, {spread.text}",)


def _heaviest(row: Row, power: float) -> float:
    """Heaviest dry mass in the class, kg."""
    for up_to, pounds in row["classes"]:
        if 0.0 < power <= up_to:
            return float(pounds) * _POUND
    raise RangeError(f"outboard: {power:g} hp is given; the table holds 0.1 to {row['classes'][-1][0]:g} hp")
