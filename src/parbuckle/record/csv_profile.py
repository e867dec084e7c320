"""A logged dive from a table with columns: the user says which column is what, and in which unit."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from parbuckle.quantity.breathing import parse_gas
from parbuckle.quantity.errors import CallError, CaseError, RangeError
from parbuckle.quantity.refusals import shorten
from parbuckle.quantity.units import to_si, words
from parbuckle.record.file_text import clock, number, read_text, told
from parbuckle.record.profile import MOST_SAMPLES, Profile, Series, Switch, Tank

DELIMITERS = {",": "comma", ";": "semicolon", "\t": "tab"}
"""What may stand between two columns."""

_CLOCK = "clock"  # unit word for mm:ss and h:mm:ss


@dataclass(frozen=True, slots=True)
class Column:
    """Where one quantity stands.

    Parameters
    ----------
    name : str
        Heading of the column.
    unit : str
        Unit word, such as ``min``, ``ft``, ``degC`` or ``psi``; for a time also ``clock`` (mm:ss or h:mm:ss).
    """

    name: str
    unit: str


@dataclass(frozen=True, slots=True)
class Columns:
    """Which column of a table is what.

    Parameters
    ----------
    time, depth : Column
        Always there.
    temperature, pressure : Column or None
        An empty cell means: not logged there.
    gas : str or None
        Heading of the column of gases (``air``, ``EAN32``); an empty cell means: no change.
    delimiter : str
        Comma, semicolon or tab.
    decimal : str
        Point or comma; a comma only where the delimiter is another sign.

    Raises
    ------
    CallError
        If the signs do not fit together, or a unit word is not known.
    """

    time: Column
    depth: Column
    temperature: Column | None = None
    pressure: Column | None = None
    gas: str | None = None
    delimiter: str = ","
    decimal: str = "."

    def __post_init__(self) -> None:
        """Check the signs and the unit words."""
        if self.delimiter not in DELIMITERS:
            raise CallError(f"columns are parted by one of: {', '.join(DELIMITERS.values())}")
        if self.decimal not in (".", ",") or self.decimal == self.delimiter:
            raise CallError("the decimal sign is a point, or a comma where columns are parted by another sign")
        for dimension, column in _dimensions(self):
            known = [*words(dimension), *([_CLOCK] if dimension == "time" else [])]
            if column.unit not in known:
                raise CallError(f"'{shorten(column.unit)}' is no unit of {dimension}; take one of: {', '.join(known)}")


def read_csv(path: Path, columns: Columns) -> Profile:
    """Read one dive from a table.

    Parameters
    ----------
    path : Path
        The file.
    columns : Columns
        Which column is what.

    Returns
    -------
    Profile
        In SI.

    Raises
    ------
    CaseError
        With one sentence of what is wrong and in which line.
    """
    text = read_text(path)
    with told(path.name):
        return profile_of(text, columns)


def profile_of(text: str, columns: Columns) -> Profile:
    """Read one dive from the text of a table; its first line holds the headings.

    Parameters
    ----------
    text : str
        The whole table.
    columns : Columns
        Which column is what.

    Returns
    -------
    Profile
        In SI.

    Raises
    ------
    RangeError
        For a heading that is missing or stands twice, a line that is too short, or a cell that cannot be read.

    Examples
    --------
    >>> table = ["t,d", "0,0", "1,30"]
    >>> round(profile_of(chr(10).join(table), Columns(Column("t", "min"), Column("d", "ft"))).deepest, 3)
    9.144
    """
    rows = _rows(text, columns.delimiter)
    if not rows:
        raise RangeError("it is empty")
    place = _places(rows[0][1], columns)
    if len(rows) - 1 > MOST_SAMPLES:
        raise RangeError(f"it has {len(rows) - 1} samples; at most {MOST_SAMPLES} are read")
    values: dict[str, list[tuple[float, float]]] = {name: [] for name in ("depth", "temperature", "pressure")}
    switches: list[Switch] = []
    for line, cells in rows[1:]:
        try:
            if len(cells) != len(rows[0][1]):
                raise RangeError(f"{len(cells)} cells where the headings are {len(rows[0][1])}")
            _take(cells, place, columns, values, switches)
        except (RangeError, CaseError) as error:
            what = error.what if isinstance(error, CaseError) else error
            raise RangeError(f"line {line}: {what}") from None
    depth = np.array(values["depth"]).reshape(-1, 2)
    pressure = _series(values["pressure"])
    return Profile(
        depth[:, 0].copy(),
        depth[:, 1].copy(),
        _series(values["temperature"]),
        tuple(switches),
        () if pressure is None else (Tank("1", None, None, pressure),),
    )


def _take(
    cells: list[str],
    place: dict[str, int],
    columns: Columns,
    values: dict[str, list[tuple[float, float]]],
    switches: list[Switch],
) -> None:
    def cell(name: str) -> str:
        return cells[place[name]].strip()

    def si(name: str, dimension: str, column: Column) -> float:
        text = cell(name)
        if column.unit == _CLOCK:
            if (moment := clock(text)) is None:
                raise RangeError(f"the time is not written as mm:ss or h:mm:ss: '{shorten(text)}'")
            return moment
        if columns.decimal == ",":
            if "." in text:
                raise RangeError(f"the {name} holds a point where the decimal sign is a comma: '{shorten(text)}'")
            text = text.replace(",", ".")
        return to_si(number(text, f"the {name}"), words(dimension)[column.unit])

    time = si("time", "time", columns.time)
    values["depth"].append((time, si("depth", "length", columns.depth)))
    for name, dimension, column in (
        ("temperature", "temperature", columns.temperature),
        ("pressure", "pressure", columns.pressure),
    ):
        if column is not None and cell(name):
            values[name].append((time, si(name, dimension, column)))
    if columns.gas is not None and cell("gas"):
        gas = parse_gas(cell("gas"))
        if not switches or switches[-1].gas != gas:
            switches.append(Switch(time, gas))


def _rows(text: str, delimiter: str) -> list[tuple[int, list[str]]]:
    reader = csv.reader(text.splitlines(), delimiter=delimiter, strict=True)
    try:
        return [(reader.line_num, row) for row in reader if any(cell.strip() for cell in row)]
    except csv.Error as error:
        raise RangeError(f"line {reader.line_num}: {error}") from None


def _places(heads: list[str], columns: Columns) -> dict[str, int]:
    names = {name: column.name for name, column in _named(columns)}
    if columns.gas is not None:
        names["gas"] = columns.gas
    clean = [head.strip() for head in heads]
    for name, head in names.items():
        if (count := clean.count(head)) != 1:
            held = ", ".join(f"'{shorten(h)}'" for h in clean[:12])
            often = "no column" if count == 0 else f"{count} columns"
            raise RangeError(f"{often} with the heading '{shorten(head)}' for the {name}; there are {held}")
    return {name: clean.index(head) for name, head in names.items()}


def _named(columns: Columns) -> list[tuple[str, Column]]:
    told_columns = (
        ("time", columns.time),
        ("depth", columns.depth),
        ("temperature", columns.temperature),
        ("pressure", columns.pressure),
    )
    return [(name, column) for name, column in told_columns if column is not None]


def _dimensions(columns: Columns) -> list[tuple[str, Column]]:
    return [("length" if name == "depth" else name, column) for name, column in _named(columns)]


def _series(rows: list[tuple[float, float]]) -> Series | None:
    if not rows:
        return None
    table = np.array(rows)
    return Series(table[:, 0].copy(), table[:, 1].copy())
