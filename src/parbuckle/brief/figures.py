"""Numbers of the document as texts: the chosen unit system first, the other one after it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from parbuckle.quantity import shown
from parbuckle.quantity.rounding import THIN
from parbuckle.quantity.units import from_si, to_si, words

NOT_KNOWN = "not known"
"""What a view prints in the place of a value that the document does not hold."""

_DIGITS = {"pressure": 3, "free_gas": 3}  # gauges and gas are read to three figures
_COARSE = ("cu ft",)  # units in which a bag's mark is a fraction
_SLIP = 1e-9  # what a change of units may add to a whole number
_OTHER = {"metric": "imperial", "imperial": "metric"}


@dataclass(frozen=True, slots=True)
class Figures:
    """Formats the numbers of one document in its own unit system.

    Parameters
    ----------
    units : str
        ``metric`` or ``imperial``: the system that comes first.
    """

    units: str = "metric"

    def one(self, value: float | None, kind: str) -> str:
        """Give one number with its unit in the chosen system.

        Parameters
        ----------
        value : float or None
            In the base unit of the kind (see ``parbuckle.quantity.shown``).
        kind : str
            Kind of the value.

        Returns
        -------
        str
            The text, or ``not known``.
        """
        return NOT_KNOWN if value is None else shown.show(value, kind, self.units, _DIGITS.get(kind))

    def other(self, value: float | None, kind: str) -> str:
        """Give one number with its unit in the other system.

        Parameters
        ----------
        value : float or None
            In the base unit of the kind.
        kind : str
            Kind of the value.

        Returns
        -------
        str
            The text, empty when there is no value.
        """
        return "" if value is None else shown.show(value, kind, _OTHER[self.units], _DIGITS.get(kind))

    def both(self, value: float | None, kind: str) -> str:
        """Give one number in both systems, such as ``16 m (52 ft)``.

        Parameters
        ----------
        value : float or None
            In the base unit of the kind.
        kind : str
            Kind of the value.

        Returns
        -------
        str
            The text, or ``not known``.
        """
        first, second = self.one(value, kind), self.other(value, kind)
        return first if second in ("", first) else f"{first} ({second})"

    def safe(self, value: float | None, kind: str, up: bool, other: bool = False) -> str:
        """Give one number in whole units, rounded to the safe side: limits and marks down, circles up.

        Parameters
        ----------
        value : float or None
            In the base unit of the kind.
        kind : str
            Kind of the value.
        up : bool
            True when more is safer.
        other : bool
            True for the other unit system.

        Returns
        -------
        str
            The text, or ``not known``; a unit that is too big for whole numbers (cubic feet) is rounded as usual.

        Examples
        --------
        >>> Figures().safe(39.87, "mass", up=False).replace(THIN, " ")
        '39 kg'
        """
        if value is None:
            return NOT_KNOWN
        row, system = shown.SHOWN[kind], _OTHER[self.units] if other else self.units
        unit, table = row.imperial if system == "imperial" else row.metric, words(row.dimension)
        number = from_si(to_si(value, table[row.base]), table[unit])
        if unit in _COARSE:
            return shown.show(value, kind, system, _DIGITS.get(kind))
        whole = math.ceil(number - _SLIP) if up else math.floor(number + _SLIP)
        return f"{whole}{THIN}{unit}"

    def safe_both(self, value: float | None, kind: str, up: bool) -> str:
        """Give one number in whole units of both systems, rounded to the safe side.

        Parameters
        ----------
        value : float or None
            In the base unit of the kind.
        kind : str
            Kind of the value.
        up : bool
            True when more is safer.

        Returns
        -------
        str
            Such as ``39 kg (87 lb)``, or ``not known``.
        """
        first, second = self.safe(value, kind, up), self.safe(value, kind, up, other=True)
        return first if second == first else f"{first} ({second})"

    def band(self, band: Mapping[str, float] | float | None, kind: str) -> str:
        """Give a band in the chosen system, such as ``37 kg (34 to 40)``.

        Parameters
        ----------
        band : mapping, float or None
            ``low``, ``likely`` and ``high`` in the base unit of the kind; a single number is shown as one.
        kind : str
            Kind of the value.

        Returns
        -------
        str
            The text, or ``not known``; a band without width is one number.
        """
        if not isinstance(band, Mapping):
            return self.one(band, kind)
        return shown.show_band(band, kind, self.units, _DIGITS.get(kind))

    def span(self, band: Mapping[str, float] | None, kind: str) -> str:
        """Give a band by its two ends, such as ``183 to 196 bar``.

        Parameters
        ----------
        band : mapping or None
            ``low``, ``likely`` and ``high`` in the base unit of the kind.
        kind : str
            Kind of the value.

        Returns
        -------
        str
            The text, empty when there is no band.
        """
        pieces = self.parts(band, kind)
        if pieces is None:
            return ""
        ends = pieces["range"].strip("()") or pieces["number"]
        return f"{ends}{THIN}{pieces['unit']}"

    def parts(self, band: Mapping[str, float] | None, kind: str) -> dict[str, str] | None:
        """Split a band into the pieces that are set in different sizes.

        Parameters
        ----------
        band : mapping or None
            ``low``, ``likely`` and ``high`` in the base unit of the kind.
        kind : str
            Kind of the value.

        Returns
        -------
        dict of str to str, or None
            ``number``, ``unit``, ``range`` (in brackets, may be empty) and ``other`` (the other system).
        """
        if band is None:
            return None
        text, other = self.band(band, kind), shown.show_band(band, kind, _OTHER[self.units], _DIGITS.get(kind))
        likely, bracket, spread = text.partition(" (")
        number, _, unit = likely.partition(THIN)
        return {
            "number": number,
            "unit": unit,
            "range": bracket.strip() + spread,
            "other": "" if other == text else other,
        }


def figures_of(document: Mapping[str, Any]) -> Figures:
    """Give the figures in the unit system of a document.

    Parameters
    ----------
    document : mapping
        The plan document.

    Returns
    -------
    Figures
        Metric when the document says nothing.
    """
    units = (document.get("case") or {}).get("units")
    return Figures(units if units in _OTHER else "metric")
