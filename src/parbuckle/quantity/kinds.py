"""Kinds of quantity: the closed list of what a written value may be, with its unit words and physical limits."""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from parbuckle.quantity.units import Unit, to_si, words

KINDS = Path(__file__).resolve().parents[1] / "data" / "kinds.toml"


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of quantity.

    Parameters
    ----------
    name : str
        Name, such as ``mass``.
    si : str
        The SI unit that values are kept in.
    units : dict of str to Unit
        Allowed unit words; empty for plain numbers.
    floor, ceiling : float
        Physical limits in SI.
    meaning : str
        What it is, in words.
    suffix : str
        Words that must follow the unit, such as ``in water``.
    may_suffix : str
        Words that may follow the unit, such as ``mag``.
    by_person : tuple of str
        Further unit words that count a person's own spans.
    names : dict of str to float
        Words that stand for a value by themselves, such as ``fresh``.
    wraps : bool
        True for bearings: no limit cuts them.
    """

    name: str
    si: str
    units: dict[str, Unit]
    floor: float
    ceiling: float
    meaning: str
    suffix: str = ""
    may_suffix: str = ""
    by_person: tuple[str, ...] = ()
    names: dict[str, float] = field(default_factory=dict)
    wraps: bool = False

    @property
    def allowed(self) -> str:
        """The allowed words, for a message."""
        known = [f"'{name}'" for name in self.names] + [*self.units, *self.by_person]
        if not known:
            return "a plain number, or a text with a spread such as '2..5', without a unit"
        after = (
            f", then '{self.suffix}'"
            if self.suffix
            else (f", then '{self.may_suffix}' or nothing" if self.may_suffix else "")
        )
        return f"a number, then one of: {', '.join(known)}{after}"


def kind(name: str) -> Kind:
    """Give one kind of the closed list.

    Parameters
    ----------
    name : str
        Its name.

    Returns
    -------
    Kind
        Unit words and limits.

    Raises
    ------
    KeyError
        If the list has no such kind.

    Examples
    --------
    >>> kind("share").ceiling
    1.0
    """
    return all_kinds()[name]


@cache
def all_kinds() -> dict[str, Kind]:
    """Give the whole closed list.

    Returns
    -------
    dict of str to Kind
        By name, in the order of the data file.
    """
    rows = tomllib.loads(KINDS.read_text(encoding="utf-8"))
    return {name: _read(name, row) for name, row in rows.items()}


def _read(name: str, row: dict[str, Any]) -> Kind:
    units = words(row["dimension"]) if "dimension" in row else {}
    if "words" in row:
        units = {word: units[word] for word in row["words"]}
    return Kind(
        name=name,
        si=row["si"],
        units=units,
        floor=_limit(row.get("floor"), units, -math.inf),
        ceiling=_limit(row.get("ceiling"), units, math.inf),
        meaning=row["meaning"],
        suffix=row.get("suffix", ""),
        may_suffix=row.get("may_suffix", ""),
        by_person=tuple(row.get("by_person", ())),
        names=row.get("names", {}),
        wraps=row.get("wraps", False),
    )


def _limit(text: str | None, units: dict[str, Unit], otherwise: float) -> float:
    if text is None:
        return otherwise
    number, _, word = text.partition(" ")
    return to_si(float(number), units[word]) if word else float(number)
