"""Every value that was typed in a document, read where it can be read: for an echo beside its field."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pydantic import BaseModel
from pydantic_core import PydanticCustomError

from parbuckle.case.fields import keys_of
from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.case.written import Value
from parbuckle.quantity.spread import Spread

Typed = tuple[str, Spread]
"""The key as it is shown, and the value."""


def typed_values(case: Mapping[str, Any], kit: Mapping[str, Any] | None, rules: Mapping[str, str]) -> Iterator[Typed]:
    """Read every value of a case and a kit.

    Parameters
    ----------
    case : mapping
        The written document of the case.
    kit : mapping or None
        That of its kit.
    rules : mapping of str to str
        Kinds of the house rules by their keys.

    Yields
    ------
    tuple of str and Spread
        What cannot be read is left out; its fault is told elsewhere.

    Examples
    --------
    >>> [key for key, _ in typed_values({"site": {"depth": "9 m", "altitude": "high"}}, None, {})]
    ['site.depth']
    """
    yield from _table(case, Case, "")
    house = case.get("house")
    for key, kind in rules.items():
        if isinstance(house, Mapping) and key in house:
            yield from _one(Value(kind), house[key], f"house.{key}")
    if kit is not None:
        yield from _table(kit, Kit, "kit.")


def _table(written: Any, model: type[BaseModel], path: str) -> Iterator[Typed]:
    keys = keys_of(model)
    for name, value in written.items() if isinstance(written, Mapping) else ():
        key = keys.get(name)
        if key is None or value is None:
            continue
        here = f"{path}{name}"
        if key.below is not None and isinstance(value, list):
            for number, row in enumerate(value, 1):
                yield from _table(row, key.below, f"{here}[{number}].")
        elif key.below is not None:
            yield from _table(value, key.below, f"{here}.")
        elif key.value is not None:
            yield from _one(key.value, value, here)
        elif name == "profile" and isinstance(value, list):
            yield from _pairs(value, here)


def _pairs(rows: list[Any], path: str) -> Iterator[Typed]:
    """Pairs of lengths: the profile of the bottom towards the shore."""
    for number, pair in enumerate(rows, 1):
        for place, value in enumerate(pair if isinstance(pair, list) else (), 1):
            yield from _one(Value("length"), value, f"{path}[{number}][{place}]")


def _one(mark: Value, value: Any, path: str) -> Iterator[Typed]:
    try:
        spread = mark.read(value)
    except PydanticCustomError:
        return
    if spread is not None:
        yield path, spread
