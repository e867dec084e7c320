"""What things are made of: density of a material with its range, and what is left of its weight in water."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.load.tables import Row, find, read_table
from parbuckle.physics.ranges import FloatsLike, Range
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.spread import Spread

WOOD_SUBSTANCE = 1500.0
"""Density of the wall substance of wood, kg/m3 (recalled; common handbook value)."""

WOOD_MOISTURE = Range("water in the wood over its dry mass", 0.6, 10.0, "", "soaked through, no gas left")


@dataclass(frozen=True, slots=True)
class Material:
    """One entry of the table of materials.

    Parameters
    ----------
    name : str
        Name in the table.
    low, likely, high : float
        Density, kg/m3; triangular between the ends.
    source : str
        Where the numbers come from.
    mark : str
        How sure that is: read, read second hand, computed, recalled or common practice.
    """

    name: str
    low: float
    likely: float
    high: float
    source: str
    mark: str

    @property
    def spread(self) -> Spread:
        """Density with its spread: triangular from low over likely to high, kg/m3."""
        text = f"{self.low:g}..{self.likely:g}..{self.high:g} kg/m3"
        return Spread("density", "triangular", self.low, self.likely, self.high, text, floor=0.0)


def material(name: str) -> Material:
    """Find a material by its name or one of its other names.

    Parameters
    ----------
    name : str
        Name as written, such as ``aluminium``, ``316`` or ``gravel``.

    Returns
    -------
    Material
        The entry.

    Raises
    ------
    RangeError
        If the table has no such name; the text gives the nearest ones.

    Examples
    --------
    >>> material("aluminum").likely
    2700.0
    """
    return _entry(find("material", name, read_table("materials")["material"]))


def unknown_material() -> Material:
    """Give the named default for a material that nobody knows.

    Returns
    -------
    Material
        The wide default.

    Examples
    --------
    >>> unknown_material().low, unknown_material().high
    (1100.0, 8000.0)
    """
    return _entry(read_table("materials")["default"])


def _entry(row: Row) -> Material:
    low, high = float(row["low"]), float(row["high"])
    likely = float(row.get("likely", 0.5 * (low + high)))
    return Material(row["name"], low, likely, high, row["source"], row["mark"])


def waterlogged_density(moisture: FloatsLike) -> Floats:
    """Give the density of wood that is soaked through: rho = 1000 (1 + M) / (M + 1000 / 1500).

    Parameters
    ----------
    moisture : FloatsLike
        Mass of water over mass of dry wood M, any shape.

    Returns
    -------
    Floats
        Density, kg/m3. Valid for M from 0.6 to 10, all cavities full of fresh water.

    Raises
    ------
    RangeError
        If M lies outside its range.

    Notes
    -----
    Source: volume of the wood substance (1,500 kg/m3, recalled) plus volume of the water.

    Examples
    --------
    >>> float(waterlogged_density(1.0).round(0))
    1200.0
    """
    m = WOOD_MOISTURE.check(moisture)
    return np.asarray(1000.0 * (1.0 + m) / (m + 1000.0 / WOOD_SUBSTANCE), dtype=np.float64)
