"""A written file as text and as plain tables: at most 1 MB, UTF-8, not nested too deep, format version 1."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from parbuckle.case.lines import DEEPEST, deepest
from parbuckle.quantity.errors import CaseError

LARGEST = 1_000_000
"""Largest file that is read, in bytes; the format says 1 MB."""

VERSION = 1
"""Version of the format that is read here."""


@dataclass(frozen=True, slots=True)
class Source:
    """One file as it was read.

    Parameters
    ----------
    shown : str
        Its name, as the user wrote it.
    text : str
        The whole text.
    data : dict
        The tables, before anything is checked.
    """

    shown: str
    text: str
    data: dict[str, Any]


def read_source(path: Path, shown: str | None = None) -> Source:
    """Read a TOML file as plain tables.

    Parameters
    ----------
    path : Path
        The file.
    shown : str, optional
        Its name as the user wrote it; left out: the path.

    Returns
    -------
    Source
        Text and tables.

    Raises
    ------
    CaseError
        If it cannot be opened, is too large, not text, not TOML, nested too deep, or of another version.
    """
    name = str(path) if shown is None else shown
    return read_text(_text(path, name), name)


def read_text(text: str, name: str) -> Source:
    """Read the text of a TOML file as plain tables.

    Parameters
    ----------
    text : str
        The whole text.
    name : str
        What it is called in an error.

    Returns
    -------
    Source
        Text and tables.

    Raises
    ------
    CaseError
        If it is too large, not TOML, nested too deep, or of another version.
    """
    if len(text) > LARGEST:
        given = f"{len(text) / 1e6:.1f} MB"
        raise CaseError("the text is too large", file=name, given=given, allowed="at most 1 MB", do="is it a case?")
    levels = deepest(text)
    if levels > DEEPEST:
        raise CaseError(
            "the tables and lists are nested too deep",
            file=name,
            given=f"{levels} levels",
            allowed=f"at most {DEEPEST} levels",
            do="the format needs no more than five; look for brackets that are not closed",
        )
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _broken(name, text, str(error)) from None
    except (ValueError, RecursionError, OverflowError) as error:
        what = (
            "a number in the file has too many digits" if isinstance(error, ValueError) else "the file cannot be read"
        )
        raise CaseError(
            what, file=name, allowed="numbers of at most 15 digits", do="write the digits that are known"
        ) from None
    _version(name, text, data)
    return Source(name, text, data)


def _text(path: Path, name: str) -> str:
    try:
        if path.is_dir():
            raise CaseError("this is a folder, not a file", file=name, do="name the case file in it")
        if path.exists() and not path.is_file():
            raise CaseError("this is not an ordinary file", file=name, do="name a case file")
        with path.open("rb") as file:
            raw = file.read(LARGEST + 1)
    except FileNotFoundError:
        raise CaseError("the file does not exist", file=name, do="check the name and the folder") from None
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "its name cannot be used"
        raise CaseError(f"the file cannot be opened: {why}", file=name, do="check the name and the rights") from None
    if len(raw) > LARGEST:
        size = f"{path.stat().st_size / 1e6:.1f} MB"
        raise CaseError("the file is too large", file=name, given=size, allowed="at most 1 MB", do="is it a case file?")
    if b"\0" in raw:
        raise CaseError("this is not a text file", file=name, allowed="TOML as UTF-8 text", do="name the case file")
    try:
        return raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        given = f"the byte 0x{raw[error.start]:02x}"
        raise CaseError(
            "the text is not UTF-8", file=name, line=line, given=given, allowed="UTF-8", do="save the file as UTF-8"
        ) from None


def _broken(name: str, text: str, message: str) -> CaseError:
    what, _, where = message.partition(" (at ")
    digits = "".join(ch if ch.isdigit() else " " for ch in where).split()
    line = int(digits[0]) if digits else None
    rows = text.split("\n")
    given = rows[line - 1].strip()[:60] if line and line <= len(rows) else ""
    if "Cannot overwrite a value" in what or "Cannot declare" in what:
        what = "the same key or table stands twice"
    else:
        what = f"the file is not valid TOML: {what[:1].lower()}{what[1:]}"
    do = "a text stands in quotes, a list in [ ], a table in { }; each key once"
    return CaseError(what[:200], file=name, line=line, given=given, allowed="TOML 1.0", do=do)


def _version(name: str, text: str, data: dict[str, Any]) -> None:
    given = data.get("schema")
    if isinstance(given, int) and not isinstance(given, bool) and given == VERSION:
        return
    allowed, line = (
        f"schema = {VERSION}",
        next((n for n, row in enumerate(text.split("\n"), 1) if row.startswith("schema")), None),
    )
    if given is None:
        raise CaseError(
            "the version of the format is missing",
            file=name,
            key="schema",
            allowed=allowed,
            do="write it in the first line",
        )
    if isinstance(given, int) and not isinstance(given, bool) and given > VERSION:
        what, do = "the file has a newer format than this program reads", "use a newer program"
    else:
        what, do = "this is not a version of the format", f"write schema = {VERSION}"
    raise CaseError(
        what, file=name, key="schema", line=line, given=f"schema = {str(given)[:40]}", allowed=allowed, do=do
    )
