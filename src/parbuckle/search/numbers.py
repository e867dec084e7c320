"""Numbers of the search that are no laws, read from ``data/search.toml``."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from parbuckle.quantity.errors import RangeError


def number(table: str, key: str) -> float:
    """Look one number up.

    Parameters
    ----------
    table : str
        Table of the file, such as ``grid``.
    key : str
        Its key.

    Returns
    -------
    float
        As written.

    Raises
    ------
    RangeError
        If there is none.

    Examples
    --------
    >>> number("sure", "sure") > number("sure", "guess")
    True
    """
    rows = _data()[table]
    if key not in rows or not isinstance(rows[key], (int, float)):
        allowed = ", ".join(k for k, v in rows.items() if isinstance(v, (int, float)))
        raise RangeError(f"{table}: given {key!r}, allowed {allowed}")
    return float(rows[key])


def pair(table: str, key: str) -> tuple[float, float]:
    """Look a range up.

    Parameters
    ----------
    table : str
        Table of the file, such as ``touch``.
    key : str
        Its key.

    Returns
    -------
    tuple[float, float]
        Lowest and highest.

    Raises
    ------
    RangeError
        If there is none.

    Examples
    --------
    >>> pair("touch", "reach")
    (1.2, 1.8)
    """
    rows = _data()[table]
    if key not in rows or not isinstance(rows[key], list):
        raise RangeError(
            f"{table}: given {key!r}, allowed {', '.join(k for k, v in rows.items() if isinstance(v, list))}"
        )
    low, high = rows[key]
    return float(low), float(high)


def source(table: str, key: str = "source") -> str:
    """Tell where the numbers of a table come from.

    Parameters
    ----------
    table : str
        Table of the file.
    key : str
        Key of the source, where a table has several.

    Returns
    -------
    str
        In words.

    Examples
    --------
    >>> source("silt").split(":")[0]
    'assumption'
    """
    return str(_data()[table][key])


def chance_in_words(chance: float, tried: bool) -> str:
    """Say a chance in words, one step more carefully where the sight was never tried on a sample.

    Parameters
    ----------
    chance : float
        0 to 1.
    tried : bool
        True when the sight was tried on a sample at this kind of place.

    Returns
    -------
    str
        Word of the table.

    Raises
    ------
    RangeError
        For a chance outside 0 to 1.

    Notes
    -----
    Source: house rule.

    Examples
    --------
    >>> chance_in_words(0.9, True), chance_in_words(0.9, False)
    ('very likely', 'likely')
    """
    if not 0.0 <= chance <= 1.0:
        raise RangeError(f"chance: given {chance:g}, allowed 0 to 1")
    rows = _data()["word"]
    step = next(k for k, row in enumerate(rows) if chance >= row["from"])
    return str(rows[min(step + (0 if tried else 1), len(rows) - 1)]["say"])


@cache
def _data() -> dict[str, Any]:
    return tomllib.loads(files("parbuckle.data").joinpath("search.toml").read_text(encoding="utf-8"))
