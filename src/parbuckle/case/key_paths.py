"""From a key as it is told (rows by number, by name or by id) to the place in the document that it means."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel

from parbuckle.case.fields import keys_of
from parbuckle.case.kit import Kit
from parbuckle.case.lines import Path
from parbuckle.case.model import Case

_NAMES = ("name", "id", "person", "who", "by", "time", "code")


def place_of(key: str, case: Mapping[str, Any], kit: Mapping[str, Any] | None = None) -> tuple[str, Path]:
    """Find the place that a told key means.

    Parameters
    ----------
    key : str
        Such as ``object.part[2].mass``, ``object.part.leg.mass`` or ``kit.bag.C25.really``.
    case : mapping
        The document of the case.
    kit : mapping, optional
        The document of the kit.

    Returns
    -------
    tuple of str and tuple
        ``case`` or ``kit``, and the path; as far as it can be followed.

    Examples
    --------
    >>> place_of("object.part.leg, bent.mass", {"object": {"part": [{"name": "leg, bent"}]}})
    ('case', ('object', 'part', 0, 'mass'))
    >>> place_of("kit.bag[1].really", {}, {"bag": [{"id": "C25"}]})
    ('kit', ('bag', 0, 'really'))
    """
    if key.startswith("kit."):
        return "kit", _table(key.removeprefix("kit."), kit or {}, Kit)
    if key.startswith("person."):
        trainee = _table(f"trainee.{key.removeprefix('person.')}", case, Case)
        return ("case", trainee) if len(trainee) > 1 else ("kit", _table(key, kit or {}, Kit))
    return "case", _table(key, case, Case)


def _table(rest: str, written: Any, model: type[BaseModel]) -> Path:
    for name, key in keys_of(model).items():
        after = rest.removeprefix(name)
        if after == rest or (after and after[0] not in ".["):
            continue
        inside = written.get(name) if isinstance(written, Mapping) else None
        if not after:
            return (name,)
        if key.below is None:
            rest_of = _rows(after, inside, None) if after[0] == "[" else (after[1:],) if name == "house" else ()
            return (name, *rest_of)
        if key.many:
            return (name, *_rows(after, inside, key.below))
        return (name, *_table(after[1:], inside, key.below))
    return ()


def _rows(rest: str, written: Any, below: type[BaseModel] | None) -> Path:
    rows = written if isinstance(written, list) else []
    if rest[0] == "[":
        number, _, after = rest[1:].partition("]")
        if not number.isdigit():
            return ()
        row = int(number) - 1
    else:
        row, after = _named(rest[1:], rows)
        if row < 0:
            return ()
    inside = rows[row] if row < len(rows) else None
    more = _table(after[1:], inside, below) if below is not None and after else ()
    return (row, *more)


def _named(rest: str, rows: list[Any]) -> tuple[int, str]:
    """Find the row whose name or id comes first in a text; the longest name wins."""
    best = (-1, "", "")
    for number, row in enumerate(rows):
        names = [row.get(key) for key in _NAMES] if isinstance(row, Mapping) else []
        for name in names:
            fits = isinstance(name, str) and (rest == name or rest.startswith(f"{name}."))
            if fits and len(str(name)) > len(best[2]):
                best = (number, rest.removeprefix(str(name)), str(name))
    first, dot, after = rest.partition(".")
    if best[0] < 0 and first.isdigit() and int(first) <= len(rows):
        return int(first) - 1, dot + after
    return best[0], best[1]
