"""What is wrong in a file, told so that it can be mended: from the checker's report to one CaseError."""

from __future__ import annotations

import difflib
import types
from dataclasses import dataclass
from typing import Any, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError

from parbuckle.case.lines import Path, key_lines
from parbuckle.case.source import Source
from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.refusals import shorten

_WANTED: dict[str, tuple[str, str]] = {
    "missing": ("a key is missing", ""),
    "string_type": ("a text is wanted", "a text in quotes"),
    "bool_type": ("true or false is wanted", "true or false, without quotes"),
    "int_type": ("a plain whole number is wanted", "a whole number, without quotes"),
    "int_from_float": ("a plain whole number is wanted", "a whole number, without a point"),
    "float_type": ("a plain number is wanted", "a number, without quotes"),
    "finite_number": ("the number must be finite", "a finite number"),
    "tuple_type": ("a list is wanted", "a list in [ ]"),
    "date_type": ("a date is wanted", "a date such as 2027-09-01, without quotes"),
    "datetime_type": ("a time is wanted", "a time with its offset, such as 2027-04-14T10:00:00+01:00, without quotes"),
    "timezone_aware": (
        "the time does not say its offset from UTC",
        "a time with its offset, such as 2027-04-14T10:00:00+01:00",
    ),
    "model_type": ("a table is wanted", "a table: [name], or { key = value }"),
    "dict_type": ("a table is wanted", "a table: [name], or { key = value }"),
    "string_too_short": ("the text is empty", "a text that is not empty"),
    "string_too_long": ("the text is too long", "at most 200 characters"),
}


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong.

    Parameters
    ----------
    path : tuple
        Keys and list positions (from 0) that lead to it.
    what, given, allowed, do : str
        As in :class:`parbuckle.quantity.errors.CaseError`.
    """

    path: Path
    what: str
    given: str = ""
    allowed: str = ""
    do: str = ""


def key_text(path: Path) -> str:
    """Write the path of a key as it is shown: list rows count from 1.

    Parameters
    ----------
    path : tuple
        Keys and list positions from 0.

    Returns
    -------
    str
        Such as ``object.part[2].mass``.

    Examples
    --------
    >>> key_text(("object", "part", 1, "mass"))
    'object.part[2].mass'
    """
    return "".join(f"[{step + 1}]" if isinstance(step, int) else f".{step}" for step in path).lstrip(".")


def raise_first(faults: list[Fault], source: Source) -> None:
    """Raise the first fault of a file as a CaseError that says how many more there are.

    Parameters
    ----------
    faults : list of Fault
        All that was found; none raises nothing.
    source : Source
        The file.

    Raises
    ------
    CaseError
        For the fault that stands first in the file.
    """
    if not faults:
        return
    lines = key_lines(source.text)
    ordered = sorted(faults, key=lambda fault: (_line(fault.path, lines) or 0, key_text(fault.path)))
    first, more = ordered[0], len(ordered) - 1
    after = f" ({more} more {'fault' if more == 1 else 'faults'} in this file)" if more else ""
    raise CaseError(
        first.what + after,
        file=source.shown,
        key=key_text(first.path),
        line=_line(first.path, lines),
        given=first.given,
        allowed=first.allowed,
        do=first.do,
    )


def faults_of(report: ValidationError, root: type[BaseModel]) -> list[Fault]:
    """Turn the checker's report into faults.

    Parameters
    ----------
    report : ValidationError
        What pydantic found.
    root : type of BaseModel
        Model of the whole file.

    Returns
    -------
    list of Fault
        One for each row of the report.
    """
    return [_fault(dict(row), root) for row in report.errors(include_url=False)]


def _fault(row: dict[str, Any], root: type[BaseModel]) -> Fault:
    path: Path = row["loc"]
    sort, told, raw = row["type"], row.get("ctx", {}), row.get("input")
    if sort == "written":
        return Fault(path, told["what"], told["given"], told["allowed"], told["do"])
    if sort == "extra_forbidden":
        return _unknown_key(path, root)
    if sort == "literal_error":
        return _unknown_word(path, raw, str(told["expected"]))
    if sort == "missing":
        return Fault(path, f"the key '{path[-1]}' is missing", "nothing", _meaning(path, root), "add it")
    if sort in _WANTED:
        what, allowed = _WANTED[sort]
        return Fault(path, what, _shown(raw), allowed)
    bounds = ", ".join(f"{name} {told[name]}" for name in ("gt", "ge", "lt", "le") if name in told)
    words = {"gt": "more than", "ge": "at least", "lt": "less than", "le": "at most"}
    for short, long in words.items():
        bounds = bounds.replace(f"{short} ", f"{long} ")
    return Fault(path, "the value does not fit" if bounds else str(row["msg"]).lower(), _shown(raw), bounds)


def _unknown_key(path: Path, root: type[BaseModel]) -> Fault:
    known = list(_fields(_model_at(path[:-1], root)))
    near = difflib.get_close_matches(str(path[-1]), known, 1, 0.6)
    do = f"did you mean '{near[0]}'?" if near else "take it out, or move it to the table that it belongs to"
    return Fault(path, f"the key '{shorten(str(path[-1]))}' is not known", str(path[-1])[:60], ", ".join(known), do)


def _unknown_word(path: Path, raw: object, expected: str) -> Fault:
    words = [word.strip().strip("'") for word in expected.replace(" or ", ", ").split("',")]
    words = [word.strip().strip("'") for word in ", ".join(words).split(", ")]
    near = difflib.get_close_matches(str(raw), words, 1, 0.6)
    return Fault(
        path, "this word is not known here", _shown(raw), expected, f"did you mean '{near[0]}'?" if near else ""
    )


def _meaning(path: Path, root: type[BaseModel]) -> str:
    found = _fields(_model_at(path[:-1], root)).get(str(path[-1]))
    return str(found.description or "") if found else ""


def _fields(model: type[BaseModel] | None) -> dict[str, Any]:
    return {info.alias or name: info for name, info in model.model_fields.items()} if model else {}


def _model_at(path: Path, root: type[BaseModel]) -> type[BaseModel] | None:
    model: type[BaseModel] | None = root
    for step in path:
        if isinstance(step, str) and model is not None:
            info = _fields(model).get(step)
            model = _model_in(info.annotation) if info else None
    return model


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    if get_origin(annotation) in (tuple, Union, types.UnionType):
        return next((found for part in get_args(annotation) if (found := _model_in(part))), None)
    return None


def _line(path: Path, lines: dict[Path, int]) -> int | None:
    while path and path not in lines:
        path = path[:-1]
    return lines.get(path)


def _shown(raw: object) -> str:
    if isinstance(raw, bool):
        return str(raw).lower()
    if isinstance(raw, (dict, list, tuple)):
        return "a table" if isinstance(raw, dict) else "a list"
    try:
        return shorten(raw.isoformat() if hasattr(raw, "isoformat") else str(raw))
    except ValueError:
        return "a number of thousands of digits"
