"""Breathing gases by the names that stand on a cylinder: air, EAN32, 21/35."""

from __future__ import annotations

import re
from dataclasses import dataclass

from parbuckle.quantity.errors import CaseError

AIR_OXYGEN = 0.2095
"""Oxygen in dry air by volume. Source: U.S. Standard Atmosphere 1976, table 3 (0.209476), rounded."""

ALLOWED = "'air', 'EAN' with the percentage of oxygen (EAN32), or oxygen/helium (21/35)"


@dataclass(frozen=True, slots=True)
class Gas:
    """One breathing gas.

    Parameters
    ----------
    text : str
        As it was written.
    oxygen, helium : float
        Shares by volume; the rest is nitrogen.
    """

    text: str
    oxygen: float
    helium: float

    @property
    def nitrogen(self) -> float:
        """Share of nitrogen (with argon), 0 to 1."""
        return 1.0 - self.oxygen - self.helium


def parse_gas(text: str) -> Gas:
    """Read the name of a breathing gas.

    Parameters
    ----------
    text : str
        ``air``, ``EAN32`` or ``21/35`` (oxygen and helium in percent).

    Returns
    -------
    Gas
        With its shares.

    Raises
    ------
    CaseError
        If it is none of these, or the shares do not fit into one whole.

    Notes
    -----
    Valid range: EAN from 21 to 100; oxygen of a mix from 1 to 100. Source: common practice in marking cylinders.

    Examples
    --------
    >>> parse_gas("EAN32").oxygen
    0.32
    >>> round(parse_gas("21/35").nitrogen, 2)
    0.44
    """
    name = text.strip()
    if name == "air":
        return Gas(name, AIR_OXYGEN, 0.0)
    enriched = re.fullmatch(r"EAN ?([0-9]{2,3})", name, re.ASCII)
    if enriched and 21 <= int(enriched[1]) <= 100:
        return Gas(name, int(enriched[1]) / 100.0, 0.0)
    mix = re.fullmatch(r"([0-9]{1,3})/([0-9]{1,3})", name, re.ASCII)
    if mix and int(mix[1]) >= 1 and int(mix[1]) + int(mix[2]) <= 100:
        return Gas(name, int(mix[1]) / 100.0, int(mix[2]) / 100.0)
    raise CaseError("this is not a breathing gas", given=name[:40], allowed=ALLOWED, do="write the gas as it is marked")
