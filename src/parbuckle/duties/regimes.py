"""Limits that law or published guidance sets, by country and regime, with those that a team sets itself."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from importlib import resources
from typing import Any

from parbuckle.quantity.grammar import parse


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit that holds.

    Parameters
    ----------
    key : str
        Its key in the data file.
    value : float
        In SI; a plain number for a count.
    text : str
        As it was written.
    meaning : str
        What it limits, in one sentence.
    mark, source : str
        ``read`` or ``own``, and where it is written.
    date : str
        The day on which the text was read, or the date of one's own text.
    by : str
        Who set it; empty: law or published guidance.
    instead : Limit or None
        The shipped limit that it stands for.
    """

    key: str
    value: float
    text: str
    meaning: str
    mark: str
    source: str
    date: str
    by: str = ""
    instead: Limit | None = None

    @property
    def line(self) -> str:
        """Source, date and, of one's own, who set it, in one line."""
        return f"{self.by}: {self.source}, {self.date}" if self.by else self.source

    @property
    def looser(self) -> bool:
        """True when it allows more than the limit that it stands for."""
        return self.instead is not None and self.value > self.instead.value


@dataclass(frozen=True, slots=True)
class OwnRules:
    """The limits of one source that a team names.

    Parameters
    ----------
    by, source : str
        Who set them, and where they are written.
    date : date
        Date of that text.
    limits : Mapping of str to (float, str)
        By key: in SI, and as it was written.
    """

    by: str
    source: str
    date: date
    limits: Mapping[str, tuple[float, str]]


@cache
def legal_limits(country: str, rules: str) -> Mapping[str, float]:
    """Give the limits that hold for one country and one regime by law or published guidance.

    Parameters
    ----------
    country : str
        Two letters, such as ``GB``.
    rules : str
        ``private``, ``teaching``, ``commercial``, ``scientific`` or ``public-safety``.

    Returns
    -------
    Mapping of str to float
        Limit in SI by its key in the data file; what does not apply is left out.

    Examples
    --------
    >>> sorted(legal_limits("US", "commercial"))
    ['scuba_chamber_depth', 'scuba_depth', 'scuba_stream']
    >>> sorted(legal_limits("US", "private"))
    []
    """
    return {key: limit.value for key, limit in limits_for(country, rules).items()}


def limits_for(country: str, rules: str, own: Sequence[OwnRules] = ()) -> dict[str, Limit]:
    """Give the limits that hold, each with its source and date.

    Parameters
    ----------
    country : str
        Two letters.
    rules : str
        Whose duties apply.
    own : sequence of OwnRules
        What the team sets itself, in order; a later one stands before an earlier one, and before the shipped one.

    Returns
    -------
    dict of str to Limit
        By key, in the order of the data file.

    Examples
    --------
    >>> from datetime import date
    >>> mine = OwnRules("the club", "rule 4", date(2027, 1, 9), {"deepest": (30.0, "30 m")})
    >>> limits_for("GB", "private", (mine,))["deepest"].line
    'the club: rule 4, 2027-01-09'
    """
    rows, shipped = _rows(), _shipped(country, rules)
    set_here = {
        key: Limit(
            key, value, text, rows[key]["meaning"], "own", told.source, told.date.isoformat(), told.by, shipped.get(key)
        )
        for told in own
        for key, (value, text) in told.limits.items()
    }
    found = {**shipped, **set_here}
    return {key: found[key] for key in rows if key in found}


@cache
def _rows() -> dict[str, dict[str, Any]]:
    return tomllib.loads(resources.files("parbuckle.data").joinpath("regimes.toml").read_text(encoding="utf-8"))


@cache
def _shipped(country: str, rules: str) -> dict[str, Limit]:
    return {
        key: Limit(
            key, parse(row["value"], row["kind"]).mid, row["value"], row["meaning"], row["mark"], row["source"],
            str(row["read"]),
        )
        for key, row in _rows().items()
        if "value" in row and applies(row["countries"], country) and applies(row["rules"], rules)
    }  # fmt: skip


def applies(listed: Sequence[str], one: str) -> bool:
    """Tell whether a row applies somewhere; an empty list means everywhere.

    Parameters
    ----------
    listed : sequence of str
        Countries or regimes of the row.
    one : str
        The country or regime of the case.

    Returns
    -------
    bool
        True when it does.

    Examples
    --------
    >>> applies([], "GB"), applies(["US"], "GB")
    (True, False)
    """
    return not listed or one in listed
