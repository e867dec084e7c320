"""Reads the tables of this room and finds an entry by one of its names."""

from __future__ import annotations

import difflib
import tomllib
from collections.abc import Iterable, Mapping
from functools import lru_cache
from importlib.resources import files
from typing import Any

from parbuckle.quantity.errors import RangeError

Row = Mapping[str, Any]


@lru_cache(maxsize=16)
def read_table(name: str) -> dict[str, Any]:
    """Read one table of the package's data.

    Parameters
    ----------
    name : str
        File name without its ending, such as ``materials``.

    Returns
    -------
    dict of str to Any
        The table as TOML gives it; read once and shared, so not to be changed.

    Examples
    --------
    >>> read_table("materials")["default"]["low"]
    1100
    """
    return tomllib.loads((files("parbuckle.data") / f"{name}.toml").read_text(encoding="utf-8"))


def plain(word: str) -> str:
    """Give a name in the form in which names are compared: lower case, single spaces.

    Parameters
    ----------
    word : str
        Name as written.

    Returns
    -------
    str
        Name to compare.

    Examples
    --------
    >>> plain("  Stainless   Steel ")
    'stainless steel'
    """
    return " ".join(word.casefold().replace("_", " ").split())


def find(what: str, word: str, rows: Iterable[Row]) -> Row:
    """Find the row that has this name, or this other name.

    Parameters
    ----------
    what : str
        What is looked for, for the text of the error.
    word : str
        Name as written.
    rows : iterable of mapping
        Rows with ``name`` and perhaps ``also``.

    Returns
    -------
    mapping
        The row.

    Raises
    ------
    RangeError
        If no row has the name; the text gives the nearest ones.

    Examples
    --------
    >>> find("material", "Inox", read_table("materials")["material"])["name"]
    'stainless steel'
    """
    wanted = plain(word)
    names: dict[str, Row] = {}
    for row in rows:
        for name in (row["name"], *row.get("also", ())):
            names.setdefault(name, row)
    if wanted in names:
        return names[wanted]
    near = difflib.get_close_matches(wanted, names, n=3, cutoff=0.5)
    held = [name for name in names if set(name.split()) & set(wanted.split()) and name not in near]
    hint = ", ".join(f'"{name}"' for name in (near + held)[:3])
    known = hint or ", ".join(sorted(row["name"] for row in set_of(names)))
    raise RangeError(f'{what} "{word}" is not in the table; {"nearest" if hint else "known"}: {known}')


def set_of(names: Mapping[str, Row]) -> list[Row]:
    """Give each row once, in the order of the table.

    Parameters
    ----------
    names : mapping of str to mapping
        Rows by all their names.

    Returns
    -------
    list of mapping
        Rows.
    """
    return list({row["name"]: row for row in names.values()}.values())
