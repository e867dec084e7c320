"""Files of dives that are over: UDDF, a table with columns and its mapping, or a slate typed in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import pairwise
from pathlib import Path
from typing import Any

from parbuckle.case.source import Source, read_source
from parbuckle.quantity.breathing import parse_gas
from parbuckle.quantity.errors import CallError, CaseError
from parbuckle.quantity.refusals import shorten
from parbuckle.record.csv_profile import Column, Columns, read_csv
from parbuckle.record.profile import Profile, Switch
from parbuckle.record.slate_pairs import slate_profile
from parbuckle.record.uddf_read import read_uddf

UDDF, TABLES, SLATES = (".uddf", ".xml"), (".csv", ".tsv", ".txt"), (".toml",)
"""Endings of the files that are read."""

_SIGNS = {"comma": ",", "semicolon": ";", "tab": "\t"}
_COLUMNS = ("time", "depth", "temperature", "pressure")
_OTHERS = ("gas", "delimiter", "decimal")
_HEAD = ("schema",)
_SLATE = ("pairs", "time_unit", "depth_unit", "start", "gas")


@dataclass(frozen=True)
class Logged:
    """One dive that is over.

    Parameters
    ----------
    file : str
        Name of its file, with its place where the file holds several.
    profile : Profile
        Depth over time.
    start : float or None
        When it left the surface, s since 1970; None when the log does not say, or not in which time zone.
    """

    file: str
    profile: Profile
    start: float | None


def read_logs(files: Sequence[Path], mapping: Path | None = None) -> list[Logged]:
    """Read files of dives.

    Parameters
    ----------
    files : sequence of Path
        UDDF (``.uddf``, ``.xml``), tables (``.csv``, ``.tsv``, ``.txt``) or slates (``.toml``).
    mapping : Path or None
        TOML file that says which column of a table is what.

    Returns
    -------
    list of Logged
        In order of their start where every log has one; else in the order given.

    Raises
    ------
    CaseError
        If something in a file is written wrongly, or two dives overlap.
    CallError
        If a file ends in nothing that is read, or a table has no mapping.
    """
    columns = None if mapping is None else columns_of(read_source(mapping, mapping.name))
    logs = [log for file in files for log in _read(file, columns)]
    starts = [log.start for log in logs if log.start is not None]
    if len(starts) == len(logs):
        logs.sort(key=lambda log: log.start or 0.0)
    _apart([log for log in logs if log.start is not None])
    return logs


def columns_of(source: Source) -> Columns:
    """Read which column of a table is what.

    Parameters
    ----------
    source : Source
        Tables ``time``, ``depth``, ``temperature`` and ``pressure``, each with ``name`` and ``unit``; ``gas`` (a
        heading), ``delimiter`` (comma, semicolon or tab) and ``decimal`` (``.`` or ``,``).

    Returns
    -------
    Columns
        Checked.

    Raises
    ------
    CaseError
        With the file and the key.
    """
    _only(source, (*_HEAD, *_COLUMNS, *_OTHERS))
    for key in ("time", "depth"):
        if key not in source.data:
            raise _wrong(source, key, "the mapping does not name this column", None, "a table with name and unit")
    found: dict[str, Any] = {key: _column(source, key) for key in _COLUMNS if key in source.data}
    texts: dict[str, Any] = {key: _text(source, key) for key in _OTHERS if key in source.data}
    if "delimiter" in texts:
        texts["delimiter"] = _SIGNS.get(texts["delimiter"], texts["delimiter"])
    try:
        return Columns(**found, **texts)
    except CallError as error:
        raise CaseError(str(error), file=source.shown) from None


def _read(file: Path, columns: Columns | None) -> list[Logged]:
    ending = file.suffix.lower()
    if ending in UDDF:
        profiles = read_uddf(file)
        many = len(profiles) > 1
        return [_logged(f"{file.name}, dive {n}" if many else file.name, p) for n, p in enumerate(profiles, start=1)]
    if ending in TABLES:
        if columns is None:
            raise CallError(f"{file.name}: a table needs --mapping FILE, which says which column is what")
        return [_logged(file.name, read_csv(file, columns))]
    if ending in SLATES:
        return [_logged(file.name, _slate(read_source(file, file.name)))]
    raise CallError(f"{file.name}: no log ends in '{shorten(ending)}'; read are {', '.join((*UDDF, *TABLES, *SLATES))}")


def _logged(name: str, profile: Profile) -> Logged:
    return Logged(name, profile, _moment(name, profile.start))


def _moment(name: str, text: str | None) -> float | None:
    if text is None:
        return None
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        raise CaseError("the start is no date and time", file=name, key="start", given=shorten(text)) from None
    return None if moment.tzinfo is None else moment.timestamp()


def _slate(source: Source) -> Profile:
    _only(source, (*_HEAD, *_SLATE))
    if "pairs" not in source.data:
        raise _wrong(source, "pairs", "the slate has no pairs", None, 'pairs = "0 0; 2 18; 25 18; 33 0"')
    units = {key: _text(source, key) for key in ("time_unit", "depth_unit") if key in source.data}
    try:
        profile = slate_profile(_text(source, "pairs"), **units)
        gas = parse_gas(_text(source, "gas")) if "gas" in source.data else None
    except CaseError as error:
        raise CaseError(error.what, file=source.shown, key="gas" if error.key == "gas" else "pairs") from None
    start = source.data.get("start")
    if start is not None and not isinstance(start, datetime):
        raise _wrong(source, "start", "the start is no date and time", start, "2027-05-09T10:00:00+01:00")
    switches = () if gas is None else (Switch(float(profile.time[0]), gas),)
    return replace(profile, switches=switches, start=None if start is None else start.isoformat())


def _apart(logs: Sequence[Logged]) -> None:
    """Refuse two dives of one diver at the same time."""
    for before, after in pairwise(logs):
        ends = (before.start or 0.0) + float(before.profile.time[-1])
        if (after.start or 0.0) < ends:
            what = f"the dive begins before the dive of {before.file} is over; logs of one call belong to one diver"
            raise CaseError(what, file=after.file, key="start", given=str(after.profile.start))


def _column(source: Source, key: str) -> Column:
    row = source.data[key]
    known = isinstance(row, Mapping) and row.keys() == {"name", "unit"}
    if not known or not all(isinstance(word, str) for word in row.values()):
        raise _wrong(source, key, "this is not a column", row, '{ name = "Depth", unit = "m" }')
    return Column(row["name"], row["unit"])


def _text(source: Source, key: str) -> str:
    value = source.data[key]
    if not isinstance(value, str):
        raise _wrong(source, key, "this is not a text", value, "a text in quotes")
    return value


def _only(source: Source, allowed: Sequence[str]) -> None:
    for key in source.data:
        if key not in allowed:
            raise _wrong(source, key, "this key is not known here", None, ", ".join(allowed))


def _wrong(source: Source, key: str, what: str, given: Any, allowed: str) -> CaseError:
    shown = "" if given is None else shorten(str(given))
    return CaseError(what, file=source.shown, key=key, given=shown, allowed=allowed)
