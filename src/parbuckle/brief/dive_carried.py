"""Cylinders carried beside the set, in words: from where each is breathed, and what is left in it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from parbuckle.quantity.shown import show, show_band


def carried_rows(diver: Mapping[str, Any], units: str) -> list[str]:
    """Give what one diver carries beside the set.

    Parameters
    ----------
    diver : mapping
        One of a dive's ``divers``.
    units : str
        ``metric`` or ``imperial``.

    Returns
    -------
    list of str
        One sentence for each cylinder; empty without one.
    """
    return [f"{diver['name']}, {_one(row, units)}" for row in diver.get("carried") or []]


def _one(row: Mapping[str, Any], units: str) -> str:
    where = f"{row['gas']} in {row['cylinder']}"
    oxygen = f"oxygen {row['oxygen_bar']:.2f} bar there"
    needs = show_band(row["needs_l"], "free_gas", units)
    if row["change_at_m"] is None:
        return f"{where}, for an emergency only: one person up from the bottom needs {needs}; {oxygen}."
    start = f"{where} from {show(row['change_at_m'], 'length', units)} up: needs {needs}; {oxygen}"
    if row["end_pressure_bar"] is None:
        return f"{start}; how much it holds is not known."
    return f"{start}; {show_band(row['end_pressure_bar'], 'pressure', units)} left."
