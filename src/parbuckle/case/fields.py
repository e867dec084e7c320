"""The keys of a model as a walk sees them: the name in the file, what stands below it, and which dates it holds."""

from __future__ import annotations

import types
from dataclasses import dataclass
from datetime import date, datetime
from functools import cache
from typing import Any, Union, get_args, get_origin

from pydantic import AwareDatetime, BaseModel
from pydantic.fields import FieldInfo

from parbuckle.case.written import Value


@dataclass(frozen=True, slots=True)
class Key:
    """One key of a table.

    Parameters
    ----------
    name : str
        Its name in the file.
    info : FieldInfo
        Type, description and default.
    below : type of BaseModel or None
        Model of the table or of the rows that stand below it.
    many : bool
        True for rows.
    value : Value or None
        Its mark when it holds a physical value.
    when : type or None
        ``date`` or ``datetime`` when it holds one of them.
    needed : bool
        True where it may not be left out.
    """

    name: str
    info: FieldInfo
    below: type[BaseModel] | None
    many: bool
    value: Value | None
    when: type[date] | None
    needed: bool


@cache
def keys_of(model: type[BaseModel]) -> dict[str, Key]:
    """Give the keys of a table.

    Parameters
    ----------
    model : type of BaseModel
        Its model.

    Returns
    -------
    dict of str to Key
        By their names in the file, in the order of the model.

    Examples
    --------
    >>> from parbuckle.case.model import Case
    >>> keys_of(Case)["account"].many
    True
    """
    found = {}
    for attribute, info in model.model_fields.items():
        name = info.alias or attribute
        below, many = _below(info.annotation)
        value = next((mark for mark in info.metadata if isinstance(mark, Value)), None)
        found[name] = Key(name, info, below, many, value, _when(info.annotation), info.is_required())
    return found


def _below(annotation: Any) -> tuple[type[BaseModel] | None, bool]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation, False
    if get_origin(annotation) in (tuple, Union, types.UnionType):
        for part in get_args(annotation):
            found, many = _below(part)
            if found is not None:
                return found, many or get_origin(annotation) is tuple
    return None, False


def _when(annotation: Any) -> type[date] | None:
    for part in (annotation, *get_args(annotation)):
        if part is AwareDatetime or part is datetime:
            return datetime
        if part is date:
            return date
    return None
