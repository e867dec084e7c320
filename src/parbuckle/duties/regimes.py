"""Limits that law or published guidance sets, by country and by whose duties apply; a case cannot change them."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib import resources

from parbuckle.quantity.grammar import parse


@cache
def legal_limits(country: str, rules: str) -> Mapping[str, float]:
    """Give the limits that hold for one country and one regime.

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
    text = resources.files("parbuckle.data").joinpath("regimes.toml").read_text(encoding="utf-8")
    return {
        key: parse(row["value"], row["kind"]).mid
        for key, row in tomllib.loads(text).items()
        if _applies(row["countries"], country) and _applies(row["rules"], rules)
    }


def _applies(listed: list[str], one: str) -> bool:
    """An empty list means everywhere."""
    return not listed or one in listed
